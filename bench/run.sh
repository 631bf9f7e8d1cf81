#!/usr/bin/env bash
# Builds the benchmarks and runs them, one table; installs missing Debian packages where that is allowed.
#
#     bench/run.sh [ARGUMENT...]        the arguments go to the benchmark program, such as --benchmark_filter=inv
#
# RACKWORK_BUILD_DIRECTORY   where to build; build/ in the source tree unless set
set -euo pipefail

source_directory=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cmake/packages.sh
. "$source_directory/cmake/packages.sh"
plain_environment
build_directory=${RACKWORK_BUILD_DIRECTORY:-$source_directory/build}/bench

need_packages g++ cmake ninja-build libboost-dev libbenchmark-dev
(
    cmake -S "$source_directory" -B "$build_directory" -G "$(cmake_generator)" --log-level=NOTICE \
        -DCMAKE_CXX_COMPILER=g++ -DCMAKE_BUILD_TYPE=Release \
        -DRACKWORK_BUILD_BENCH=ON -DRACKWORK_BUILD_TESTS=OFF -DRACKWORK_BUILD_EXAMPLES=OFF
    cmake --build "$build_directory" --parallel "$(job_count)"
) >&2

exec "$build_directory/bench/rackwork_bench" --benchmark_counters_tabular=true "$@"
