#!/usr/bin/env python3
"""The checks of this folder find what they are there to find: each is shown a sound header and several unsound ones.

    checks_bite_test.py COMPILER SCRATCH_DIRECTORY
"""

import os
import shutil
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))

SOUND = """#pragma once
#include <limits>
#include <vector>
#define RACKWORK_SOMETHING 1
#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__)
#error "Rackwork does not work with -ffast-math."
#endif
namespace rackwork {
inline constexpr double one = 1;
inline double twice(double x) { return 2 * x; }
template <class T> constexpr T largest() { return (std::numeric_limits<T>::max)(); }
}
"""

# (check, what is wrong, the header's text, a word of the report)
UNSOUND = [
    ("alone", "needs another header first", "#pragma once\ninline std::vector<int> f() { return {}; }\n", "by itself"),
    ("alone", "warns", "#pragma once\ninline int f(long long x) { return x; }\n", "conversion"),
    ("alone", "casts as C does", "#pragma once\ninline int f(double x) { return (int)x; }\n", "cast"),
    ("alone", "a function that is not inline", "#pragma once\nint f() { return 1; }\n", "do not link"),
    ("alone", "a variable that is not inline", "#pragma once\nint table[3] = {1, 2, 3};\n", "do not link"),
    ("alone", "no include guard", "inline int f() { return 1; }\n", "twice"),
    ("no_exceptions", "a throw", "#pragma once\ninline void f(bool b) { if (b) throw 1; }\n", "exceptions"),
    ("no_exceptions", "a try", "#pragma once\ninline void f() { try { } catch (...) { } }\n", "exceptions"),
    ("windows_macros", "max as a call, behind a header that removes the macro",
     "#pragma once\n#include <algorithm>\ninline int f(int a) { return std::max(a, 3); }\n", "windows"),
    ("windows_macros", "a variable called small", "#pragma once\ninline int f(int small) { return small; }\n", "windows"),
    ("macros", "a macro without the prefix", "#pragma once\n#define SQUARE(x) ((x) * (x))\n", "SQUARE"),
    ("macros", "a guard without the prefix", "#ifndef GEAR_HPP\n#define GEAR_HPP\n#endif\n", "GEAR_HPP"),
    ("macros", "takes away the macro of another", "#pragma once\n#undef min\n", "removed"),
    ("macros", "a pragma left pushed", "#pragma once\n#pragma GCC diagnostic push\n", "push"),
    ("fast_math", "does not refuse it", "#pragma once\ninline int f() { return 1; }\n", "accepted"),
    ("fast_math", "fails without a sentence",
     "#pragma once\n#ifdef __FAST_MATH__\nnonsense\n#endif\n", "not with a sentence"),
]

# (what is wrong, {header: text}, arguments, a word of the report; empty if all is sound)
TREES = [
    ("a sound tree", {"core/a.hpp": '#include "b.hpp"\n#include <cmath>\n', "core/b.hpp": "",
                      "gear.hpp": '#include "core/a.hpp"\n', "exchange/svg.hpp": "#include <ostream>\n",
                      "rackwork.hpp": '#include "gear.hpp"\n'}, ["--tree"], ""),
    ("a sound header", {"gear.hpp": '#include "core/a.hpp"\n#include <cmath>\n', "core/a.hpp": ""},
     ["--header", "gear.hpp"], ""),
    ("an include upwards", {"core/a.hpp": '#include "../gear.hpp"\n', "gear.hpp": ""},
     ["--header", "core/a.hpp"], "higher floor"),
    ("the same in angle brackets", {"core/a.hpp": "#include <rackwork/gear.hpp>\n", "gear.hpp": ""},
     ["--header", "core/a.hpp"], "higher floor"),
    ("an include sideways", {"involute.hpp": '#include "basic_rack.hpp"\n', "basic_rack.hpp": ""},
     ["--header", "involute.hpp"], "neighbour"),
    ("a heavy standard header", {"core/a.hpp": "#include <iostream>\n"}, ["--header", "core/a.hpp"], "iostream"),
    ("a header of another library", {"gear.hpp": "#include <boost/version.hpp>\n"},
     ["--header", "gear.hpp"], "boost"),
    ("a header without a floor", {"worm.hpp": ""}, ["--header", "worm.hpp"], "no floor"),
    ("an umbrella over exchange/", {"rackwork.hpp": '#include "exchange/svg.hpp"\n', "exchange/svg.hpp": ""},
     ["--header", "rackwork.hpp"], "by itself"),
    ("a circle", {"core/a.hpp": '#include "b.hpp"\n', "core/b.hpp": '#include "a.hpp"\n',
                  "rackwork.hpp": '#include "core/a.hpp"\n'}, ["--tree"], "circle"),
    ("an umbrella with a hole", {"core/a.hpp": "", "gear.hpp": "", "rackwork.hpp": '#include "gear.hpp"\n'},
     ["--tree"], "core/a.hpp"),
    ("an empty tree", {}, ["--tree"], "no header"),
]

# (what is wrong, the document, a word of the report; empty if all is sound)
DOCUMENTS = [
    ("declarations, statements and a whole file",
     "```cpp\nconstexpr double a = rackwork::one;\n```\ntext\n```cpp\ndouble b = rackwork::one;\nb += 1;\n```\n"
     "```cpp\n#include <rackwork/rackwork.hpp>\nint main() {}\n```\n", ""),
    ("a block that does not compile", "```cpp\nconstexpr double a = rackwork::two;\n```\n", "two"),
    ("the same as a whole file", "```cpp\n#include <rackwork/rackwork.hpp>\ndouble a = rackwork::two;\n```\n", "two"),
    ("a block without an end", "```cpp\nconstexpr double a = rackwork::one;\n", "not closed"),
]
LIBRARY_OF_THE_DOCUMENTS = "#pragma once\nnamespace rackwork { inline constexpr double one = 1; namespace literals {} }\n"


def write_tree(scratch, headers):
    include = os.path.join(scratch, "include")
    shutil.rmtree(include, ignore_errors=True)
    os.makedirs(os.path.join(include, "rackwork"))
    for name, text in headers.items():
        path = os.path.join(include, "rackwork", name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
    return include


def run(*command):
    done = subprocess.run([sys.executable, *command], capture_output=True, encoding="utf-8", errors="replace", check=False)
    return done.returncode, done.stdout + done.stderr


def main():
    compiler, scratch = sys.argv[1:]
    os.makedirs(scratch, exist_ok=True)
    faults = []

    def expect(what, status, report, word):
        if not word and status != 0:
            faults.append(f"{what}: reported, though all is well:\n{report}")
        if word and (status != 1 or word not in report):
            faults.append(f"{what}: status {status}, and '{word}' was looked for in:\n{report}")

    def check_header(check, text):
        include = write_tree(scratch, {"probe.hpp": text})
        return run(os.path.join(HERE, "check_header.py"), check, "--compiler", compiler, "--include", include,
                   "--header", "rackwork/probe.hpp", "--scratch", os.path.join(scratch, "work"))

    for check in sorted({case[0] for case in UNSOUND}):
        expect(f"{check}, a sound header", *check_header(check, SOUND), "")
    for check, what, text, word in UNSOUND:
        expect(f"{check}, {what}", *check_header(check, text), word)
    for what, headers, arguments, word in TREES:
        include = write_tree(scratch, headers)
        expect(f"floors, {what}", *run(os.path.join(HERE, "floors.py"), "--include", include, *arguments), word)
    include = write_tree(scratch, {"rackwork.hpp": LIBRARY_OF_THE_DOCUMENTS})
    for what, text, word in DOCUMENTS:
        document = os.path.join(scratch, "document.md")
        with open(document, "w", encoding="utf-8") as file:
            file.write(text)
        expect(f"code_blocks, {what}", *run(
            os.path.join(HERE, "code_blocks.py"), "--compiler", compiler, "--include", include,
            "--scratch", os.path.join(scratch, "blocks"), document), word)

    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
