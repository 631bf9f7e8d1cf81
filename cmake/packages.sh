# Shell functions that the run.sh scripts share; to be sourced by bash.

# Is what a Debian package offers there? Asked of the machine itself, not of its package database, so that a compiler or
# library that came another way counts as well.
is_available() {
    case "$1" in
    g++) command -v g++ ;;
    clang) command -v clang++ ;;
    cmake) command -v cmake && command -v ctest ;;
    ninja-build) command -v ninja || command -v make ;;
    pkg-config) command -v pkg-config ;;
    python3) command -v python3 ;;
    python3-ezdxf) python3_of_tests -c 'import importlib.util, sys; sys.exit(importlib.util.find_spec("ezdxf") is None)' ;;
    librsvg2-bin) command -v rsvg-convert ;;
    libboost-dev) has_header boost/multiprecision/cpp_bin_float.hpp ;;
    doctest-dev) has_header doctest/doctest.h ;;
    libbenchmark-dev) has_header benchmark/benchmark.h ;;
    libcli11-dev) has_header CLI/CLI.hpp ;;
    libocct-data-exchange-dev) has_header opencascade/STEPControl_Reader.hxx ;;
    libocct-modeling-algorithms-dev) has_header opencascade/BRepAlgoAPI_Cut.hxx ;;
    linuxcnc-uspace) command -v rs274 ;;
    *) false ;; # need_packages then says that it cannot find what the package should offer
    esac >/dev/null 2>&1
}

# The interpreter that the tests take: the distribution's, to which its Python packages belong, or else the first in the path.
python3_of_tests() {
    if [ -x /usr/bin/python3 ]; then /usr/bin/python3 "$@"; else python3 "$@"; fi
}

# Does the installed compiler find this header?
has_header() {
    local compiler
    for compiler in g++ clang++; do
        if command -v "$compiler" && printf '#if !__has_include(<%s>)\n#error\n#endif\n' "$1" |
            "$compiler" -std=c++20 -x c++ -E -o /dev/null -; then
            return 0
        fi
    done
    return 1
}

# Makes sure that every named package is there: installs the missing ones with apt-get where that is allowed, and otherwise
# names them and ends the script.
need_packages() {
    local package missing=() as_root=()
    for package in "$@"; do
        is_available "$package" || missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return 0
    echo "Missing packages: ${missing[*]}"
    if [ "$(id -u)" -ne 0 ]; then
        if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
            as_root=(sudo -n)
        else
            echo "Neither root nor sudo without a password: please install them, for example with" >&2
            echo "    apt-get install --no-install-recommends ${missing[*]}" >&2
            exit 1
        fi
    fi
    if ! command -v apt-get >/dev/null; then
        echo "There is no apt-get here: please install what these Debian packages hold: ${missing[*]}" >&2
        exit 1
    fi
    if ! { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q update &&
        "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "${missing[@]}"; }; then
        echo "apt-get failed; these packages are needed: ${missing[*]}" >&2
        exit 1
    fi
    for package in "${missing[@]}"; do
        if ! is_available "$package"; then
            echo "The package $package is installed, but what it should offer was not found." >&2
            exit 1
        fi
    done
}

# A predictable environment: messages in English, no byte code beside the sources, no flags from outside.
plain_environment() {
    export LC_ALL=C PYTHONDONTWRITEBYTECODE=1
    unset CXXFLAGS CPPFLAGS LDFLAGS CMAKE_GENERATOR CMAKE_BUILD_TYPE CDPATH
}

# Ninja where it is installed.
cmake_generator() {
    if command -v ninja >/dev/null; then echo Ninja; else echo "Unix Makefiles"; fi
}

# How many jobs at once: RACKWORK_JOBS, or one per processor.
job_count() {
    echo "${RACKWORK_JOBS:-$(nproc)}"
}
