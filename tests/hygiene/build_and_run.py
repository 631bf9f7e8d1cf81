#!/usr/bin/env python3
"""Builds a program and runs it.

    build_and_run.py PROGRAM COMPILER ARGUMENT...

The compiler is called with the arguments and told to write PROGRAM, which then runs. Ends with status 0 if both succeed.
"""

import os
import subprocess
import sys


def main():
    program, *command = sys.argv[1:]
    os.makedirs(os.path.dirname(program), exist_ok=True)
    if os.path.exists(program):
        os.remove(program)
    command += ["-o", program]
    print(" ".join(command), flush=True)
    status = subprocess.run(command, check=False).returncode
    if status == 0:
        print(program, flush=True)
        status = subprocess.run([program], check=False).returncode
    return 0 if status == 0 else 1


if __name__ == "__main__":
    sys.exit(main())
