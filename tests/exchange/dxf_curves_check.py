#!/usr/bin/env python3
"""A reader that knows nothing of gears audits drawings of arcs and splines and evaluates these with its own code.

    dxf_curves_check.py DXF_CURVES_DRAWINGS_PROGRAM SCRATCH_FOLDER

Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import glob
import math
import os
import subprocess
import sys

import ezdxf
import ezdxf.recover

ARCS = {"ARC", "LINE"}
KINDS = {  # of the entities of an outline: what is allowed and, of that, what must be there
    "spur_arcs": (ARCS, {"ARC"}),
    "helical_arcs": (ARCS, {"ARC"}),
    "pair_arcs": (ARCS, {"ARC"}),
    "spur_splines": ({"SPLINE", "ARC"}, {"SPLINE", "ARC"}),
    "helical_splines": ({"SPLINE", "ARC"}, {"SPLINE", "ARC"}),
    "pair_splines": ({"SPLINE", "ARC"}, {"SPLINE", "ARC"}),
    "undercut_rational": ({"SPLINE"}, {"SPLINE"}),
    "ring_splines": ({"SPLINE"}, {"SPLINE"}),
}

faults = []


def expect(holds, sentence):
    if not holds:
        faults.append(sentence)


def exact_outlines(path):
    """Points and tolerance by layer."""
    outlines = {}
    with open(path, encoding="ascii") as file:
        for line in file:
            first, second = line.split()
            if first.isalpha():
                points = []
                outlines[first] = (points, float(second))
            else:
                points.append((float(first), float(second)))
    return outlines


def points_of(entity, count):
    """Points along an entity, from its start to its end, as the reader computes them."""
    kind = entity.dxftype()
    if kind == "LINE":
        return [tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]
    if kind == "ARC":
        begin, end = entity.dxf.start_angle, entity.dxf.end_angle
        if end < begin:
            end += 360
        return [tuple(p)[:2] for p in entity.vertices([begin + (end - begin) * i / count for i in range(count + 1)])]
    curve = entity.construction_tool()
    return [tuple(p)[:2] for p in curve.points([curve.max_t * i / count for i in range(count + 1)])]


def distance_to_chord(p, a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) if square else 0.0
    return math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)


class Chords:
    """Distances to a polyline, by a grid of the cells that its chords touch."""

    def __init__(self, points, cell):
        self.cell = cell
        self.cells = {}
        for a, b in zip(points, points[1:]):
            steps = 1 + int(math.dist(a, b) / cell)
            for i in range(steps + 1):
                key = (round((a[0] + (b[0] - a[0]) * i / steps) / cell), round((a[1] + (b[1] - a[1]) * i / steps) / cell))
                self.cells.setdefault(key, set()).add((a, b))

    def distance(self, p):
        x, y = round(p[0] / self.cell), round(p[1] / self.cell)
        best = math.inf
        for i in (-1, 0, 1):
            for k in (-1, 0, 1):
                for a, b in self.cells.get((x + i, y + k), ()):
                    best = min(best, distance_to_chord(p, a, b))
        return best


def check_outline(name, layer, entities, exact, tolerance):
    allowed, wanted = KINDS[name]
    kinds = {entity.dxftype() for entity in entities}
    expect(kinds <= allowed and wanted <= kinds, f"{name}, {layer}: holds {sorted(kinds)}")
    pieces = [points_of(entity, 60) for entity in entities]
    # One after another; arcs that the outline runs through clockwise are stored the other way round.
    size = max(math.hypot(*p) for p in exact)
    chain = []
    for i, piece in enumerate(pieces):
        following = pieces[(i + 1) % len(pieces)]
        ends = (following[0], following[-1])
        if min(math.dist(piece[0], p) for p in ends) < min(math.dist(piece[-1], p) for p in ends):
            piece = piece[::-1]
        gap = min(math.dist(piece[-1], p) for p in ends)
        expect(gap < 1e-12 * size, f"{name}, {layer}: a gap of {gap} after entity {i}")
        chain += piece
    closed = exact + exact[:1]
    # Cells wide enough that neighbours hold whatever is nearer than the tolerance, and small enough to be few chords each.
    cell = max(4 * tolerance, size / 400)
    to_exact, to_drawn = Chords(closed, cell), Chords(chain + chain[:1], cell)
    drawn_off = max(to_exact.distance(p) for p in chain)
    exact_off = max(to_drawn.distance(p) for p in closed[:: max(1, len(closed) // 6000)])
    # The listed points are joined by chords that stray by a fiftieth.
    expect(drawn_off <= tolerance * 1.02, f"{name}, {layer}: the drawing strays by {drawn_off}, tolerance {tolerance}")
    # The chords between the drawing's points stray too: 60 to a piece.
    longest = max(sum(math.dist(a, b) for a, b in zip(piece, piece[1:])) for piece in pieces)
    expect(exact_off <= tolerance + longest / 60 / 60 / 4, f"{name}, {layer}: the outline strays by {exact_off}, tolerance {tolerance}")
    expect(drawn_off > tolerance / 1000, f"{name}, {layer}: the drawing strays by only {drawn_off}, tolerance {tolerance}")


def main():
    program, scratch = sys.argv[1:]
    for old in glob.glob(os.path.join(scratch, "*")):
        os.remove(old)
    done = subprocess.run([program, scratch], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{program} ended with status {done.returncode}:\n{done.stdout}{done.stderr}")
    drawings = sorted(glob.glob(os.path.join(scratch, "*.dxf")))
    expect({os.path.basename(path)[:-4] for path in drawings} == set(KINDS), f"drawn: {drawings}")
    for path in drawings:
        name = os.path.basename(path)[:-4]
        document = ezdxf.readfile(path)
        auditor = document.audit()
        for entry in list(auditor.errors) + list(auditor.fixes):
            faults.append(f"{name}: {entry.code}: {entry.message}")
        _, auditor = ezdxf.recover.readfile(path)
        for entry in list(auditor.errors) + list(auditor.fixes):
            faults.append(f"{name}: when recovered, {entry.code}: {entry.message}")
        for layer, (exact, tolerance) in exact_outlines(path[:-4] + ".txt").items():
            entities = [entity for entity in document.modelspace() if entity.dxf.layer == layer]
            check_outline(name, layer, entities, exact, tolerance)
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
