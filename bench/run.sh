#!/usr/bin/env bash
# Builds the benchmarks, runs them and prints one table; installs missing Debian packages where that is allowed.
#
#     bench/run.sh [ARGUMENT...]        the arguments go to the benchmark programs, such as --benchmark_filter=inv
#
# Progress goes to standard error, the table to standard output.
#
# RACKWORK_BUILD_DIRECTORY   where to build; build/ in the source tree unless set
set -euo pipefail

source_directory=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cmake/packages.sh
. "$source_directory/cmake/packages.sh"
plain_environment
build_directory=${RACKWORK_BUILD_DIRECTORY:-$source_directory/build}/bench

need_packages g++ cmake ninja-build libboost-dev libbenchmark-dev python3 libocct-modeling-algorithms-dev
(
    cmake -S "$source_directory" -B "$build_directory" -G "$(cmake_generator)" --log-level=NOTICE \
        -DCMAKE_CXX_COMPILER=g++ -DCMAKE_BUILD_TYPE=Release \
        -DRACKWORK_BUILD_BENCH=ON -DRACKWORK_BUILD_TESTS=OFF -DRACKWORK_BUILD_EXAMPLES=OFF
    cmake --build "$build_directory" --parallel "$(job_count)"
) >&2

# The array forms are built for x86-64-v3, which an older processor cannot run.
can_run_arrays() {
    [ "$(uname -m)" = x86_64 ] || return 0
    local flag
    for flag in avx2 bmi2 fma; do
        grep -qw "$flag" /proc/cpuinfo || return 1
    done
}

programs=(rackwork_bench)
if can_run_arrays; then
    programs+=(rackwork_bench_arrays)
else
    echo "The array forms are left out: this processor has no x86-64-v3." >&2
fi
results=()
for program in "${programs[@]}"; do
    result=$build_directory/$program.json
    rm -f -- "$result"
    "$build_directory/bench/$program" --benchmark_out="$result" --benchmark_out_format=json "$@" >&2
    results+=("$result")
done
python3 "$source_directory/bench/table.py" "${results[@]}"
