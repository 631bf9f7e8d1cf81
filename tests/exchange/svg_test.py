#!/usr/bin/env python3
"""The SVG drawings of the example program are well-formed, to scale, and can be rendered.

    svg_test.py GEAR_PAIR_PROGRAM SCRATCH_FOLDER

Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import math
import os
import struct
import subprocess
import sys
import xml.etree.ElementTree as tree
import zlib

RUNS = {
    "spur": (["--module", "3", "--pinion-teeth", "15", "--wheel-teeth", "46", "--centre-distance", "92"], "mm"),
    "helical": (["--module", "2.5", "--pinion-teeth", "24", "--wheel-teeth", "48", "--helix", "18", "--backlash", "0.1"], "mm"),
    "inch": (["--diametral-pitch", "8", "--pinion-teeth", "16", "--wheel-teeth", "40", "--rack", "coarse-20"], "in"),
}
SVG = "{http://www.w3.org/2000/svg}"
PIXELS = 1000  # width of the rendering

faults = []


def expect(holds, sentence):
    if not holds:
        faults.append(sentence)


def run(program, arguments, folder):
    """Draws into the folder and returns the program's numbers by name."""
    os.makedirs(folder, exist_ok=True)
    done = subprocess.run([program, *arguments, "--values", "--folder", folder], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{program} {' '.join(arguments)} ended with status {done.returncode}:\n{done.stdout}{done.stderr}")
    return {name: float(value) for name, value, _ in (line.split("\t") for line in done.stdout.splitlines())}


def grey_picture(path):
    """Rows of grey values of an 8-bit PNG with colours, with or without transparency."""
    with open(path, "rb") as file:
        data = file.read()
    position, packed, width, height, kind = 8, b"", 0, 0, 0
    while position < len(data):
        size, name = struct.unpack(">I4s", data[position:position + 8])
        content = data[position + 8:position + 8 + size]
        if name == b"IHDR":
            width, height, depth, kind = struct.unpack(">IIBB", content[:10])
            if depth != 8 or kind not in (2, 6):
                sys.exit(f"{path}: a PNG of kind {kind} with {depth} bits is not what was asked for")
        elif name == b"IDAT":
            packed += content
        position += size + 12
    step = 3 if kind == 2 else 4
    raw, stride = zlib.decompress(packed), width * step
    rows, before = [], bytearray(stride)
    for y in range(height):
        filtering = raw[y * (stride + 1)]
        row = bytearray(raw[y * (stride + 1) + 1:(y + 1) * (stride + 1)])
        for i in range(stride):
            left = row[i - step] if i >= step else 0
            up, corner = before[i], before[i - step] if i >= step else 0
            if filtering == 1:
                guess = left
            elif filtering == 2:
                guess = up
            elif filtering == 3:
                guess = (left + up) // 2
            elif filtering == 4:
                estimate = left + up - corner
                guess = min((left, up, corner), key=lambda value: abs(estimate - value))
            else:
                guess = 0
            row[i] = (row[i] + guess) & 0xFF
        rows.append([sum(row[x * step:x * step + 3]) // 3 for x in range(width)])
        before = row
    return rows


def check_picture(name, picture, view, sizes):
    """What can be seen: paper, two gears in two greys, white spaces between teeth."""
    left, top, width, _ = view
    scale = PIXELS / width

    def grey(x, y):
        """At a place of the drawing, y up."""
        return picture[int((-y - top) * scale)][int((x - left) * scale)]

    def body(centre, root_diameter):
        return grey(centre + root_diameter / 4, 0.1 * root_diameter)

    pinion = body(0, sizes["pinion.root_diameter"])
    wheel = body(sizes["pair.centre_distance"], sizes["wheel.root_diameter"])
    expect(grey(left + 2 / scale, -top - 2 / scale) == 255, f"{name}: the paper is not white")
    expect(150 < pinion < 215, f"{name}: the pinion's grey is {pinion}")
    expect(pinion + 25 < wheel < 240, f"{name}: the wheel's grey is {wheel}, the pinion's {pinion}")
    for gear, centre, own in (("pinion", 0, pinion), ("wheel", sizes["pair.centre_distance"], wheel)):
        # Half way round, away from the mate: as many teeth and spaces as half the gear has.
        radius = (sizes[gear + ".reference_diameter"] / 2 + sizes[gear + ".tip_diameter"] / 2) / 2
        start = 0 if gear == "pinion" else math.pi
        seen = [grey(centre + radius * math.cos(start + t), radius * math.sin(start + t))
                for t in (math.pi / 2 + k * math.pi / 3000 for k in range(3000))]
        kinds = [value for value in seen if value in (255, own)]
        changes = sum(a != b for a, b in zip(kinds, kinds[1:]))
        expect(abs(changes - sizes[gear + ".teeth"]) <= 1,
               f"{name}: round half of the {gear} tooth and space change {changes} times, of {sizes[gear + '.teeth']:.0f} teeth")


def check_drawing(name, path, values, unit):
    try:
        root = tree.parse(path).getroot()
    except tree.ParseError as error:
        faults.append(f"{name}: not well-formed: {error}")
        return
    expect(root.tag == SVG + "svg", f"{name}: the root is {root.tag}")
    view = [float(number) for number in root.get("viewBox").split()]
    for side, length in (("width", view[2]), ("height", view[3])):
        expect(root.get(side) == f"{root.get(side)[:-2]}{unit}" and math.isclose(float(root.get(side)[:-2]), length, rel_tol=1e-12),
               f"{name}: the {side} is {root.get(side)}, the view box has {length}")
    reach = values["pair.centre_distance"] + (values["pinion.tip_diameter"] + values["wheel.tip_diameter"]) / 2
    expect(reach < view[2] < 1.2 * reach, f"{name}: {view[2]} wide for gears that take {reach}")
    for part in ("title", "desc"):
        words = root.findtext(SVG + part)
        expect(bool(words and words.strip()), f"{name}: no {part}")
    paths = {element.get("class"): element.get("d") for element in root.iter(SVG + "path")}
    for gear in ("pinion", "wheel"):
        drawn = paths.get(gear, "")
        expect(drawn.startswith("M") and drawn.count("M") == 1 and drawn.endswith("Z"), f"{name}: the {gear} is not one closed path")
        expect(drawn.count("A") == 2 * values[gear + ".teeth"], f"{name}: {drawn.count('A')} arcs in the {gear}")
    circles = [(float(c.get("cx")), 2 * float(c.get("r"))) for c in root.iter(SVG + "circle")
               if c.get("class") == "working_pitch_circle"]
    for (centre, diameter), gear, place in zip(circles, ("pinion", "wheel"), (0, values["pair.centre_distance"])):
        expect(abs(centre - place) < 1e-4 * reach, f"{name}: the {gear} stands at {centre}")
        expect(math.isclose(diameter, values[gear + ".working_diameter"], rel_tol=1e-4), f"{name}: the {gear} rolls on {diameter}")
    expect(len(circles) == 2, f"{name}: {len(circles)} working pitch circles")

    picture = os.path.splitext(path)[0] + ".png"
    done = subprocess.run(["rsvg-convert", "--width", str(PIXELS), "--output", picture, path], capture_output=True, text=True, check=False)
    expect(done.returncode == 0 and not done.stderr, f"{name}: rsvg-convert, status {done.returncode}: {done.stderr}")
    if done.returncode == 0:
        rows = grey_picture(picture)
        expect(abs(len(rows) - PIXELS * view[3] / view[2]) <= 1, f"{name}: rendered {len(rows)} high")
        check_picture(name, rows, view, values)


def main():
    program, scratch = sys.argv[1:]
    for name, (arguments, unit) in RUNS.items():
        folder = os.path.join(scratch, name)
        values = run(program, arguments, folder)
        check_drawing(name, os.path.join(folder, "pair.svg"), values, unit)
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
