#!/usr/bin/env python3
"""Headers include only downwards.

    floors.py --include DIRECTORY [--header rackwork/NAME.hpp | --tree]

With --header: that header's own includes. With --tree: no circles anywhere, and the umbrella header is complete.
Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import argparse
import os
import re
import sys

# From the bottom up. A name ending in / is a folder. Headers of one folder may include each other, but not in a circle;
# single headers that share a floor may not.
FLOORS = [
    ["version.hpp"],
    ["core/"],
    ["involute.hpp", "basic_rack.hpp", "fillet_state.hpp"],
    ["gear_parameters.hpp", "rack_trochoid.hpp", "pinion_trochoid.hpp"],
    ["gear.hpp", "centre_distance.hpp", "undercut_limits.hpp", "root_trochoid.hpp"],
    ["cutter.hpp", "undercut_fillet.hpp"],
    ["generated_root.hpp"],
    ["mesh.hpp", "rack_mesh.hpp"],
    ["measure/"],
    ["batch/"],
    ["form/"],
    ["analysis/"],
    ["curve/"],
    ["finding.hpp"],
    ["findings.hpp", "interference_findings.hpp"],
    ["tolerance/"],
    ["trains/"],
    ["design/"],
    ["solid/"],
    ["exchange/"],
    ["instances.hpp"],
]
UMBRELLA = "rackwork.hpp"
NOT_UNDER_THE_UMBRELLA = ("solid/", "exchange/", "instances.hpp")

# The headers below exchange/ stand on these alone; each is cheap to include. Streams, ranges, complex numbers and random
# numbers cost more than the whole core of the library and stay out.
LIGHT_STANDARD_HEADERS = set("""
    algorithm array bit charconv cfloat climits cmath compare concepts cstddef cstdint cstdlib cstring functional
    initializer_list iterator limits new numbers numeric optional span stdexcept string string_view system_error tuple
    type_traits utility variant vector version
""".split())
# The writers of files may also use these.
HEAVIER_STANDARD_HEADERS = set("""
    cstdio filesystem fstream iomanip ios iosfwd istream locale map memory ostream set sstream unordered_map
    unordered_set
""".split())

INCLUDE = re.compile(r'^[ \t]*#[ \t]*include[ \t]*([<"])([^>"]+)[>"]', re.MULTILINE)


def floor_of(header):
    """Number of the header's floor and whether it lies in a folder; None if it has no floor."""
    for number, names in enumerate(FLOORS):
        for name in names:
            if name.endswith("/") and header.startswith(name):
                return number, True
            if header == name:
                return number, False
    return None


def includes_of(root, header):
    """Its includes of the library, as paths below rackwork/, and its others."""
    path = os.path.join(root, header)
    with open(path, encoding="utf-8") as file:
        text = file.read()
    own, others = [], []
    for kind, name in INCLUDE.findall(text):
        if kind == '"':
            own.append(os.path.normpath(os.path.join(os.path.dirname(header), name)).replace(os.sep, "/"))
        elif name.startswith("rackwork/"):
            own.append(name[len("rackwork/"):])
        else:
            others.append(name)
    return own, others


def check_header(root, header):
    faults = []
    own, others = includes_of(root, header)
    for included in own:
        if not os.path.exists(os.path.join(root, included)):
            faults.append(f"includes {included}, which does not exist")
    if header == UMBRELLA:
        for included in own:
            if included.startswith(NOT_UNDER_THE_UMBRELLA):
                faults.append(f"includes {included}, which callers include by itself")
        faults.extend(f"includes <{name}>, though it only collects the library's headers" for name in others)
        return faults
    place = floor_of(header)
    if place is None:
        return [f"stands on no floor: give it one in FLOORS of {os.path.basename(__file__)}"]
    floor, in_folder = place
    for included in own:
        target = floor_of(included)
        if target is None:
            faults.append(f"includes {included}, which stands on no floor")
        elif target[0] > floor:
            faults.append(f"includes {included}, which is on a higher floor")
        elif target[0] == floor and not in_folder:
            faults.append(f"includes {included}, its neighbour on the same floor")
    allowed = LIGHT_STANDARD_HEADERS
    if header.startswith("exchange/"):
        allowed = allowed | HEAVIER_STANDARD_HEADERS
    for name in others:
        if name not in allowed:
            faults.append(f"includes <{name}>, which is not among the standard headers that this floor stands on")
    return faults


def all_headers(root):
    for directory, _, files in sorted(os.walk(root)):
        for name in sorted(files):
            if name.endswith(".hpp"):
                yield os.path.relpath(os.path.join(directory, name), root).replace(os.sep, "/")


def find_circle(graph):
    """A list of headers that include one another in a circle; empty if there is none."""
    finished = set()

    def visit(header, way):
        if header in way:
            return way[way.index(header):] + [header]
        if header in finished:
            return []
        for included in graph.get(header, []):
            circle = visit(included, way + [header])
            if circle:
                return circle
        finished.add(header)
        return []

    for header in graph:
        circle = visit(header, [])
        if circle:
            return circle
    return []


def check_tree(root):
    graph = {header: includes_of(root, header)[0] for header in all_headers(root)}
    if not graph:
        return ["there is no header"]
    faults = []
    circle = find_circle(graph)
    if circle:
        faults.append("headers include one another in a circle: " + " -> ".join(circle))
    if UMBRELLA not in graph:
        faults.append(f"{UMBRELLA} is missing")
    else:
        reached, waiting = set(), [UMBRELLA]
        while waiting:
            header = waiting.pop()
            if header not in reached:
                reached.add(header)
                waiting.extend(graph.get(header, []))
        for header in graph:
            if header not in reached and not header.startswith(NOT_UNDER_THE_UMBRELLA):
                faults.append(f"{UMBRELLA} does not lead to {header}")
    return faults


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--include", required=True)
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument("--header")
    what.add_argument("--tree", action="store_true")
    options = parser.parse_args()
    root = os.path.join(options.include, "rackwork")
    if options.tree:
        subject, faults = "the headers", check_tree(root)
    else:
        header = options.header.removeprefix("rackwork/")
        subject, faults = header, check_header(root, header)
    for fault in faults:
        print(f"{subject}: {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
