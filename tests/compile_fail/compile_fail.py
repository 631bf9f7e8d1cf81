#!/usr/bin/env python3
"""A program that must not compile does not, for the reason that it states, and its corrected twin does.

    compile_fail.py --compiler COMPILER --include DIRECTORY SOURCE

The source's first line is `// expect: REGEX`, which the compiler's messages must match. With RACKWORK_SHOULD_COMPILE
defined the same source is free of the mistake and must compile, which shows that nothing else is wrong with it.
"""

import argparse
import os
import re
import subprocess
import sys


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--compiler", required=True)
    parser.add_argument("--include", required=True)
    parser.add_argument("source")
    options = parser.parse_args()

    with open(options.source, encoding="utf-8") as file:
        first_line = file.readline().rstrip("\n")
        text = first_line + file.read()
    expectation = re.fullmatch(r"// expect: (\S.*)", first_line)
    if not expectation:
        print(f"{options.source}: the first line must be '// expect: REGEX'")
        return 1
    if "RACKWORK_SHOULD_COMPILE" not in text:
        print(f"{options.source}: there is no twin under RACKWORK_SHOULD_COMPILE")
        return 1

    def compile_it(*definitions):
        command = [options.compiler, "-std=c++20", "-Wall", "-Wextra", "-I", options.include, *definitions,
                   "-fsyntax-only", options.source]
        done = subprocess.run(command, env=dict(os.environ, LC_ALL="C"), capture_output=True, encoding="utf-8",
                              errors="replace", check=False)
        # Quotation marks differ between compilers and locales; the expectations are written with plain ones.
        return done.returncode, re.sub("[\u2018\u2019]", "'", done.stdout + done.stderr)

    status, messages = compile_it("-DRACKWORK_SHOULD_COMPILE")
    if status != 0:
        print(f"the corrected twin does not compile with {options.compiler}:\n{messages}")
        return 1
    status, messages = compile_it()
    if status == 0:
        print(f"it compiles with {options.compiler}, and must not")
        return 1
    if not re.search(expectation.group(1), messages):
        print(f"{options.compiler} refuses it for another reason than /{expectation.group(1)}/:\n{messages}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
