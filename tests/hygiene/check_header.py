#!/usr/bin/env python3
"""One check of one header with one compiler.

    check_header.py CHECK --compiler COMPILER --include DIRECTORY --header rackwork/NAME.hpp --scratch DIRECTORY

Ends with status 0 if the header is clean; otherwise says what is wrong and ends with status 1.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys

STANDARD = ["-std=c++20"]
WARNINGS = [
    "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Wsign-conversion", "-Wold-style-cast",
    "-Wdouble-promotion", "-Werror",
]
PREFIX = "RACKWORK_"

# What <windows.h> and the headers below it define without a prefix and a library of geometry might well use as a name.
WINDOWS_MACROS = """
#define min(a, b) (((a) < (b)) ? (a) : (b))
#define max(a, b) (((a) > (b)) ? (a) : (b))
#define near
#define far
#define small char
#define hyper __int64
#define interface struct
#define pascal
#define cdecl
#define CONST const
#define IN
#define OUT
#define OPTIONAL
#define VOID void
#define TRUE 1
#define FALSE 0
#define ERROR 0
#define NO_ERROR 0
#define STRICT 1
#define DELETE 0x00010000L
#define DIFFERENCE 11
#define RGB(r, g, b) (r)
"""


class Unclean(Exception):
    """What is wrong with the header, in words."""


def run(command):
    """Run a compiler with its messages in English; give back its status, output and messages."""
    environment = dict(os.environ, LC_ALL="C")
    done = subprocess.run(command, env=environment, capture_output=True, encoding="utf-8", errors="replace", check=False)
    return done.returncode, done.stdout, done.stderr


def must_succeed(what, command):
    status, _, messages = run(command)
    if status != 0:
        raise Unclean(f"{what}:\n{' '.join(command)}\n{messages}")


class Task:
    def __init__(self, options):
        self.compiler = options.compiler
        self.include = os.path.realpath(options.include)
        self.header = options.header
        self.scratch = options.scratch
        os.makedirs(self.scratch, exist_ok=True)

    def write(self, name, text):
        path = os.path.join(self.scratch, name)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return path

    def command(self, *arguments):
        return [self.compiler, *STANDARD, "-I", self.include, *arguments]

    def include_line(self):
        return f"#include <{self.header}>\n"


def alone(task):
    """It compiles as the first and only header, also two times, without a warning; two translation units with it link.

    One object stands for both translation units: compiled once more, the same text would only give the same object again.
    """
    source = task.write("alone.cpp", task.include_line() * 2)
    units = [os.path.join(task.scratch, f"{name}.o") for name in ("first", "second")]
    must_succeed("included by itself and twice, it does not compile cleanly",
                 task.command(*WARNINGS, "-c", source, "-o", units[0]))
    shutil.copyfile(units[0], units[1])
    main_program = task.write("main.cpp", "int main() { return 0; }\n")
    must_succeed("two translation units with it do not link",
                 [task.compiler, main_program, *units, "-o", os.path.join(task.scratch, "program")])


def no_exceptions(task):
    """It compiles where exceptions are switched off."""
    source = task.write("no_exceptions.cpp", task.include_line())
    must_succeed("it does not compile without exceptions",
                 task.command("-fno-exceptions", *WARNINGS, "-fsyntax-only", source))


def standard_includes(task):
    """Every <...> header that it includes, itself or through others of the library."""
    found, waiting, seen = [], [os.path.join(task.include, task.header)], set()
    while waiting:
        path = os.path.realpath(waiting.pop())
        if path in seen or not os.path.exists(path):
            continue
        seen.add(path)
        with open(path, encoding="utf-8") as file:
            text = file.read()
        for kind, name in re.findall(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', text, re.MULTILINE):
            own = os.path.join(task.include, name) if kind == "<" else os.path.join(os.path.dirname(path), name)
            if os.path.exists(own):
                waiting.append(own)
            elif kind == "<" and name not in found:
                found.append(name)
    return sorted(found)


def windows_macros(task):
    """It compiles after <windows.h> has defined min, max and the like.

    The standard's headers come first: some of them remove the macros min and max, which would make the check idle.
    """
    first = "".join(f"#include <{name}>\n" for name in standard_includes(task))
    source = task.write("windows_macros.cpp", first + WINDOWS_MACROS + task.include_line())
    must_succeed("it does not compile with the macros of <windows.h>", task.command("-fsyntax-only", source))


def macros(task):
    """It leaves no macro behind without the library's prefix, and takes none away."""
    source = task.write("macros.cpp", task.include_line())
    command = task.command("-E", "-dD", source)
    status, output, messages = run(command)
    if status != 0:
        raise Unclean(f"it cannot be preprocessed:\n{messages}")
    own_directory = os.path.join(task.include, "rackwork") + os.sep
    in_own_file, seen_own_file, left, removed = False, False, {}, []
    for line in output.splitlines():
        marker = re.match(r'#(?: line)? \d+ "((?:[^"\\]|\\.)*)"', line)
        if marker:
            path = os.path.realpath(marker.group(1))
            in_own_file = path.startswith(own_directory)
            seen_own_file = seen_own_file or in_own_file
            continue
        definition = re.match(r"#\s*(define|undef)\s+(\w+)", line)
        if not definition or not in_own_file:
            continue
        kind, name = definition.groups()
        if kind == "define" and not name.startswith(PREFIX):
            left[name] = path
        elif kind == "undef" and not name.startswith(PREFIX) and left.pop(name, None) is None:
            removed.append(name)
    if not seen_own_file:
        raise Unclean("the preprocessor named no file of the library, so nothing was checked")
    if left:
        raise Unclean("macros left behind: " + ", ".join(f"{name} ({path})" for name, path in left.items()))
    if removed:
        raise Unclean("macros of others removed: " + ", ".join(removed))
    # Each header closes what it opens; a pragma left pushed would silence its user's warnings.
    with open(os.path.join(task.include, task.header), encoding="utf-8") as file:
        text = file.read()
    pushed = len(re.findall(r"\bdiagnostic\s+push\b|\bwarning\s*\(\s*push\b", text))
    popped = len(re.findall(r"\bdiagnostic\s+pop\b|\bwarning\s*\(\s*pop\b", text))
    if pushed != popped:
        raise Unclean(f"{pushed} pragmas push and {popped} pop")


def fast_math(task):
    """It is refused, with a sentence, where the compiler may treat what is no number as if it could not occur."""
    source = task.write("fast_math.cpp", task.include_line())
    must_succeed("it does not even compile without -ffast-math", task.command("-fsyntax-only", source))
    for flag in ("-ffast-math", "-ffinite-math-only"):
        status, _, messages = run(task.command(flag, "-fsyntax-only", source))
        if status == 0:
            raise Unclean(f"{flag} is accepted")
        sentence = re.search(r"error: .*Rackwork.*fast-math.*", messages)
        if not sentence:
            raise Unclean(f"{flag} is refused, but not with a sentence that says so:\n{messages}")
    # What leaves infinities and NaN alone is none of our business to refuse.
    must_succeed("-fno-math-errno is refused", task.command("-fno-math-errno", "-fsyntax-only", source))


CHECKS = {check.__name__: check for check in (alone, no_exceptions, windows_macros, macros, fast_math)}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("check", choices=sorted(CHECKS))
    parser.add_argument("--compiler", required=True)
    parser.add_argument("--include", required=True)
    parser.add_argument("--header", required=True)
    parser.add_argument("--scratch", required=True)
    options = parser.parse_args()
    try:
        CHECKS[options.check](Task(options))
    except Unclean as finding:
        print(f"{options.header} with {options.compiler}: {finding}")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
