#!/usr/bin/env bash
# Builds the examples and runs the program gear_pair; installs missing Debian packages where that is allowed.
#
#     examples/run.sh [ARGUMENT...]        the arguments go to gear_pair
#
# RACKWORK_BUILD_DIRECTORY   where to build; build/ in the source tree unless set
set -euo pipefail

source_directory=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cmake/packages.sh
. "$source_directory/cmake/packages.sh"
build_directory=${RACKWORK_BUILD_DIRECTORY:-$source_directory/build}/examples

# In a subshell, so that gear_pair itself runs in the caller's locale.
(
    plain_environment
    # Either compiler will do; g++ is installed if there is none.
    compiler=g++
    if ! is_available g++ && is_available clang; then
        compiler=clang++
    else
        need_packages g++
    fi
    need_packages cmake ninja-build libcli11-dev
    cmake -S "$source_directory" -B "$build_directory" -G "$(cmake_generator)" --log-level=NOTICE \
        -DCMAKE_CXX_COMPILER="$compiler" -DCMAKE_BUILD_TYPE=Release \
        -DRACKWORK_BUILD_EXAMPLES=ON -DRACKWORK_BUILD_TESTS=OFF -DRACKWORK_BUILD_BENCH=OFF
    cmake --build "$build_directory" --parallel "$(job_count)"
) >&2

exec "$build_directory/examples/gear_pair" "$@"
