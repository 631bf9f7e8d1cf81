#!/usr/bin/env python3
"""The C++ blocks of a document compile.

    code_blocks.py --compiler COMPILER --include DIRECTORY --scratch DIRECTORY DOCUMENT

A block that includes something is taken as a whole source file. Any other is taken to follow the library's includes, either as
declarations or as the statements of a function, whichever compiles.
"""

import argparse
import os
import re
import subprocess
import sys

PREAMBLE = """#include <rackwork/rackwork.hpp>
#include <iostream>
using namespace rackwork::literals;
"""


def blocks_of(document):
    """Line number and text of each block that is marked as C++."""
    with open(document, encoding="utf-8") as file:
        lines = file.read().splitlines()
    start = None
    for number, line in enumerate(lines, 1):
        if start is None and re.fullmatch(r"\s*```\s*(cpp|c\+\+|C\+\+)\s*", line):
            start = number
        elif start is not None and line.strip() == "```":
            yield start, "\n".join(lines[start:number - 1]) + "\n"
            start = None
    if start is not None:
        raise SystemExit(f"{document}:{start}: the block is not closed")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--compiler", required=True)
    parser.add_argument("--include", required=True)
    parser.add_argument("--scratch", required=True)
    parser.add_argument("document")
    options = parser.parse_args()
    os.makedirs(options.scratch, exist_ok=True)
    faults = 0
    for line, text in blocks_of(options.document):
        if re.search(r"^\s*#\s*include\b", text, re.MULTILINE):
            readings = [text]
        else:
            readings = [PREAMBLE + text, PREAMBLE + "void statements();\nvoid statements() {\n" + text + "}\n"]
        reports = []
        for reading in readings:
            source = os.path.join(options.scratch, f"line_{line}.cpp")
            with open(source, "w", encoding="utf-8") as file:
                file.write(reading)
            command = [options.compiler, "-std=c++20", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-Wno-unused",
                       "-I", options.include, "-fsyntax-only", source]
            done = subprocess.run(command, env=dict(os.environ, LC_ALL="C"), capture_output=True, encoding="utf-8",
                                  errors="replace", check=False)
            if done.returncode == 0:
                break
            reports.append(done.stderr)
        else:
            faults += 1
            print(f"{options.document}:{line}: the block does not compile with {options.compiler}:")
            print("\nor, as statements:\n".join(reports))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
