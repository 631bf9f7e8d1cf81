#!/usr/bin/env bash
# Builds and runs all tests from a fresh checkout; installs missing Debian packages where that is allowed.
#
#     tests/run.sh [PRESET...]        all presets, or those named: gcc clang sanitize fma
#
# RACKWORK_BUILD_DIRECTORY   where to build; build/ in the source tree unless set
# RACKWORK_JOBS              how many jobs at once; one per processor unless set
set -euo pipefail

source_directory=$(cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)
# shellcheck source=cmake/packages.sh
. "$source_directory/cmake/packages.sh"
plain_environment
build_directory=${RACKWORK_BUILD_DIRECTORY:-$source_directory/build}

all_presets=(gcc clang sanitize fma)
presets=("$@")
[ ${#presets[@]} -gt 0 ] || presets=("${all_presets[@]}")
for preset in "${presets[@]}"; do
    case " ${all_presets[*]} " in
    *" $preset "*) ;;
    *)
        echo "There is no preset '$preset'; there are: ${all_presets[*]}" >&2
        exit 2
        ;;
    esac
done

need_packages g++ clang cmake ninja-build libboost-dev doctest-dev libbenchmark-dev libcli11-dev python3 python3-ezdxf \
    librsvg2-bin pkg-config libocct-data-exchange-dev linuxcnc-uspace

# The preset fma makes code for x86-64-v3, which an older or another processor cannot run.
has_fma() {
    [ "$(uname -m)" = x86_64 ] || return 1
    local flag
    for flag in avx2 bmi2 fma; do
        grep -qw "$flag" /proc/cpuinfo || return 1
    done
}

# Configures, builds and runs one preset, in a subshell whose status is the preset's.
run_preset() (
    set -e
    cmake -S "$source_directory" --preset "$1" -B "$build_directory/$1" -G "$(cmake_generator)" --log-level=NOTICE
    cmake --build "$build_directory/$1" --parallel "$(job_count)"
    ctest --test-dir "$build_directory/$1" --output-on-failure --no-tests=error --parallel "$(job_count)" \
        --output-log "$build_directory/$1/last_run.log"
)

cd -- "$source_directory"
summary=()
failures=0
for preset in "${presets[@]}"; do
    echo
    echo "=== $preset"
    if [ "$preset" = fma ] && ! has_fma; then
        summary+=("fma: not run, this processor has no fused multiply-add of x86-64-v3")
        continue
    fi
    began=$SECONDS
    rm -f -- "$build_directory/$preset/last_run.log"
    # Not as the condition of an if, where bash would ignore set -e inside.
    set +e
    run_preset "$preset"
    status=$?
    set -e
    closing_line=$(grep -E '^[0-9]+% tests passed' "$build_directory/$preset/last_run.log" 2>/dev/null || true)
    if [ $status -ne 0 ]; then
        failures=$((failures + 1))
        closing_line="FAILED. ${closing_line:-It was not built.}"
    fi
    summary+=("$preset: $closing_line ($((SECONDS - began)) s)")
done

echo
echo "=== Summary"
printf '%s\n' "${summary[@]}"
exit $((failures > 0))
