#!/usr/bin/env python3
"""Builds and runs the consumer's program without CMake.

    by_compiler.py pkg-config   COMPILER PROGRAM SCRATCH VERSION EXPECTED_OUTPUT PKG_CONFIG DIRECTORY_OF_THE_PC_FILE
    by_compiler.py include-path COMPILER PROGRAM SCRATCH VERSION EXPECTED_OUTPUT INCLUDE_DIRECTORY

The first asks pkg-config for the flags; the second copies the headers, as a user may, and points at the copy.
"""

import os
import shlex
import shutil
import subprocess
import sys


def output_of(command, **environment):
    print(" ".join(command), flush=True)
    done = subprocess.run(command, env=dict(os.environ, **environment), stdout=subprocess.PIPE, encoding="utf-8",
                          check=True)
    return done.stdout.strip()


def flags_of_package(pkg_config, directory, version):
    # Only this directory is searched, so that no other copy on the machine can answer.
    environment = {"PKG_CONFIG_LIBDIR": directory, "PKG_CONFIG_PATH": ""}
    output_of([pkg_config, "--validate", "rackwork"], **environment)
    found = output_of([pkg_config, "--modversion", "rackwork"], **environment)
    if found != version:
        sys.exit(f"pkg-config says version {found}, the library says {version}")
    if output_of([pkg_config, "--libs", "rackwork"], **environment):
        sys.exit("pkg-config names a library to link, and there is none")
    return shlex.split(output_of([pkg_config, "--cflags", "rackwork"], **environment))


def main():
    way, compiler, program, scratch, version, expected, *rest = sys.argv[1:]
    shutil.rmtree(scratch, ignore_errors=True)
    os.makedirs(scratch)
    if way == "pkg-config":
        flags = flags_of_package(*rest, version)
    else:
        copy = os.path.join(scratch, "third_party")
        shutil.copytree(os.path.join(*rest, "rackwork"), os.path.join(copy, "rackwork"))
        flags = ["-I", copy]
    binary = os.path.join(scratch, "consumer")
    output_of([compiler, "-std=c++20", *flags, program, "-o", binary])
    said = output_of([binary])
    if said != expected:
        sys.exit(f"the program says '{said}', expected '{expected}'")


if __name__ == "__main__":
    main()
