#!/usr/bin/env bash
# Builds an example and runs it; installs missing Debian packages where that is allowed.
#
#     examples/run.sh [ARGUMENT...]             runs gear_pair; the arguments go to it
#     examples/run.sh PROGRAM [ARGUMENT...]     runs the program of that name: a directory below this one
#     examples/run.sh all                       runs every one of them, each without arguments
#
# What a program draws or writes comes to lie in the current directory.
#
# RACKWORK_BUILD_DIRECTORY   where to build; build/ in the source tree unless set
set -euo pipefail

source_directory=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cmake/packages.sh
. "$source_directory/cmake/packages.sh"
build_directory=${RACKWORK_BUILD_DIRECTORY:-$source_directory/build}/examples

known=()
for directory in "$source_directory"/examples/*/; do
    # A directory is a program if it holds a source file.
    for source in "$directory"*.cpp; do
        [ ! -e "$source" ] || known+=("$(basename "$directory")")
        break
    done
done

programs=(gear_pair)
case "${1:-}" in
'' | -*) ;;
all)
    programs=("${known[@]}")
    shift
    if [ $# -gt 0 ]; then
        echo "'all' takes no arguments: the programs understand different ones." >&2
        exit 2
    fi
    ;;
*)
    case " ${known[*]} " in
    *" $1 "*) programs=("$1") ;;
    *)
        echo "There is no example '$1'; there are: ${known[*]}" >&2
        exit 2
        ;;
    esac
    shift
    ;;
esac

# In a subshell, so that the programs themselves run in the caller's locale.
(
    plain_environment
    # Either compiler will do; g++ is installed if there is none.
    compiler=g++
    if ! is_available g++ && is_available clang; then
        compiler=clang++
    else
        need_packages g++
    fi
    packages=(cmake ninja-build libcli11-dev)
    for program in "${programs[@]}"; do
        # Open CASCADE is large: only who asks for a program that builds shapes with it has to have it.
        if grep -qE '^ *# *include *<[A-Za-z0-9_]+\.hxx>' "$source_directory/examples/$program"/*.[ch]pp; then
            packages+=(libocct-modeling-algorithms-dev)
        fi
        if grep -qE '^ *# *include *<boost/' "$source_directory/examples/$program"/*.[ch]pp; then
            packages+=(libboost-dev)
        fi
    done
    need_packages "${packages[@]}"
    cmake -S "$source_directory" -B "$build_directory" -G "$(cmake_generator)" --log-level=NOTICE \
        -DCMAKE_CXX_COMPILER="$compiler" -DCMAKE_BUILD_TYPE=Release \
        -DRACKWORK_BUILD_EXAMPLES=ON -DRACKWORK_BUILD_TESTS=OFF -DRACKWORK_BUILD_BENCH=OFF
    cmake --build "$build_directory" --parallel "$(job_count)" --target "${programs[@]}"
) >&2

if [ ${#programs[@]} -eq 1 ]; then
    exec "$build_directory/examples/${programs[0]}" "$@"
fi
for program in "${programs[@]}"; do
    echo
    echo "=== $program"
    "$build_directory/examples/$program"
done
