#!/usr/bin/env python3
"""Measures what each header costs to include, beyond the standard headers that it stands on.

    compile_time.py [--compiler g++] [--rounds 5] [HEADER...]

Prints a table in Markdown: the processor's time of the compiler (-fsyntax-only -std=c++20) for a file that includes the header, for one that
includes only the standard headers in it, and the difference, each the least of several rounds taken in turn. HEADER is a name such as
rackwork/mesh.hpp; all of them unless named. Ends with status 1 if a header is above its limit.
"""

import argparse
import os
import re
import resource
import subprocess
import sys
import tempfile

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.MULTILINE)
# Seconds over the standard headers.
LIMITS = {"rackwork/involute.hpp": 0.15, "rackwork/mesh.hpp": 0.35, "rackwork/measure/span.hpp": 0.35, "rackwork/measure/pins.hpp": 0.35,
          "rackwork/measure/chord.hpp": 0.35, "rackwork/rackwork.hpp": 0.9}


def standard_headers(root, header, seen):
    """The standard headers that a header includes, directly or through others of the library."""
    if header in seen:
        return set()
    seen.add(header)
    with open(os.path.join(root, header), encoding="utf-8") as file:
        text = file.read()
    found = set()
    for kind, name in INCLUDE.findall(text):
        if kind == '"':
            found |= standard_headers(root, os.path.normpath(os.path.join(os.path.dirname(header), name)), seen)
        elif name.startswith("rackwork/"):
            found |= standard_headers(root, name, seen)
        else:
            found.add(name)
    return found


def seconds(command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, stderr=subprocess.PIPE, encoding="utf-8", check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(command)} failed:\n{done.stderr[:2000]}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--compiler", default="g++")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("header", nargs="*")
    options = parser.parse_args()
    root = os.path.join(os.path.dirname(os.path.abspath(__file__)), os.pardir, "include")
    headers = options.header
    if not headers:
        for directory, _, files in os.walk(os.path.join(root, "rackwork")):
            headers += [os.path.relpath(os.path.join(directory, f), root) for f in files if f.endswith(".hpp")]
    status = 0
    print(f"| header ({options.compiler}) | s | standard headers alone, s | added, s | limit, s |\n|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as scratch:
        for header in sorted(headers):
            files = {}
            for name, included in (("with", [header]), ("bare", sorted(standard_headers(root, header, set())))):
                files[name] = os.path.join(scratch, name + ".cpp")
                with open(files[name], "w", encoding="utf-8") as file:
                    file.write("".join(f"#include <{i}>\n" for i in included))
            least = {"with": float("inf"), "bare": float("inf")}
            for _ in range(options.rounds):
                for name, path in files.items():
                    time = seconds([options.compiler, "-std=c++20", "-fsyntax-only", "-I", root, path])
                    least[name] = min(least[name], time)
            added = least["with"] - least["bare"]
            limit = LIMITS.get(header)
            verdict = "" if limit is None else f"{limit:.2f}" + (" exceeded" if added > limit else "")
            status = 1 if added > (limit or float("inf")) else status
            print(f"| {header} | {least['with']:.2f} | {least['bare']:.2f} | {added:.2f} | {verdict} |", flush=True)
    return status


if __name__ == "__main__":
    sys.exit(main())
