#!/usr/bin/env python3
"""A reader that knows nothing of gears audits the DXF drawings of the example program.

    dxf_audit_test.py GEAR_PAIR_PROGRAM SCRATCH_FOLDER

Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import math
import os
import subprocess
import sys

import ezdxf
import ezdxf.bbox
import ezdxf.recover

RUNS = {
    "spur": (["--module", "3", "--pinion-teeth", "15", "--wheel-teeth", "46", "--centre-distance", "92"], "mm"),
    "helical": (["--module", "2.5", "--pinion-teeth", "24", "--wheel-teeth", "48", "--helix", "18", "--backlash", "0.1"], "mm"),
    "inch": (["--diametral-pitch", "8", "--pinion-teeth", "16", "--wheel-teeth", "40", "--rack", "coarse-20"], "in"),
}
DXF_UNITS = {"mm": (4, 1), "in": (1, 0)}  # $INSUNITS, $MEASUREMENT

faults = []


def expect(holds, sentence):
    if not holds:
        faults.append(sentence)


def run(program, arguments, folder):
    """Draws into the folder and returns the program's numbers by name, with their units."""
    os.makedirs(folder, exist_ok=True)
    done = subprocess.run([program, *arguments, "--values", "--folder", folder], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{program} {' '.join(arguments)} ended with status {done.returncode}:\n{done.stdout}{done.stderr}")
    values = {}
    for line in done.stdout.splitlines():
        name, value, unit = line.split("\t")
        values[name] = (float(value), unit)
    return values


def area_and_perimeter(vertices):
    """Of a closed polyline of (x, y, bulge)."""
    twice, perimeter = 0.0, 0.0
    for (x, y, bulge), (next_x, next_y, _) in zip(vertices, vertices[1:] + vertices[:1]):
        twice += x * next_y - next_x * y
        chord = math.hypot(next_x - x, next_y - y)
        if bulge == 0:
            perimeter += chord
            continue
        angle = 4 * math.atan(bulge)
        radius = chord / 2 / math.sin(angle / 2)
        twice += radius**2 * (angle - math.sin(angle))
        perimeter += radius * angle
    return twice / 2, perimeter


def check_drawing(path, values, gear, unit):
    name = os.path.relpath(path)
    size = {key.partition(".")[2]: value for key, (value, _) in values.items() if key.startswith(gear + ".")}
    document = ezdxf.readfile(path)
    auditor = document.audit()
    for entry in auditor.errors:
        faults.append(f"{name}: error {entry.code}: {entry.message}")
    for entry in auditor.fixes:
        faults.append(f"{name}: had to be repaired, {entry.code}: {entry.message}")
    # The same by the reader for damaged files, which looks more closely at the file's frame.
    _, auditor = ezdxf.recover.readfile(path)
    for entry in list(auditor.errors) + list(auditor.fixes):
        faults.append(f"{name}: when recovered, {entry.code}: {entry.message}")

    expect(document.dxfversion == "AC1015", f"{name}: release {document.dxfversion}")
    insertion, measurement = DXF_UNITS[unit]
    expect(document.header["$INSUNITS"] == insertion, f"{name}: $INSUNITS is {document.header['$INSUNITS']}")
    expect(document.header["$MEASUREMENT"] == measurement, f"{name}: $MEASUREMENT is {document.header['$MEASUREMENT']}")
    for layer in ("GEAR", "CONSTRUCTION"):
        expect(document.layers.has_entry(layer), f"{name}: no layer {layer}")
    pattern = document.linetypes.get(document.layers.get("CONSTRUCTION").dxf.linetype)
    expect(pattern.dxf.name == "CENTER", f"{name}: construction lines are {pattern.dxf.name}")
    model = document.modelspace()
    kinds = sorted((entity.dxftype(), entity.dxf.layer) for entity in model)
    expect(kinds == [("CIRCLE", "CONSTRUCTION"), ("LINE", "CONSTRUCTION"), ("LINE", "CONSTRUCTION"), ("LWPOLYLINE", "GEAR"),
                     ("POINT", "CONSTRUCTION")], f"{name}: holds {kinds}")

    outline = model.query("LWPOLYLINE")[0]
    expect(outline.closed, f"{name}: the outline is not closed")
    vertices = list(outline.get_points("xyb"))
    radii = [math.hypot(x, y) for x, y, _ in vertices]
    tip, root = size["tip_diameter"] / 2, size["generated_root_diameter"] / 2
    expect(math.isclose(max(radii), tip, rel_tol=1e-14), f"{name}: outermost vertex at {max(radii)}, tip radius {tip}")
    expect(math.isclose(min(radii), root, rel_tol=1e-14), f"{name}: innermost vertex at {min(radii)}, root radius {root}")
    arcs = [(radius, bulge) for radius, (_, _, bulge) in zip(radii, vertices) if bulge]
    teeth = int(size["teeth"])
    at_tip = sum(math.isclose(radius, tip, rel_tol=1e-12) for radius, _ in arcs)
    at_root = sum(math.isclose(radius, root, rel_tol=1e-12) for radius, _ in arcs)
    expect((at_tip, at_root, len(arcs)) == (teeth, teeth, 2 * teeth), f"{name}: {at_tip} tip lands, {at_root} root lands")
    expect(math.isclose(sum(4 * math.atan(bulge) for radius, bulge in arcs if radius > (tip + root) / 2),
                        teeth * 2 * size["tip_thickness"] / size["tip_diameter"], rel_tol=1e-9),
           f"{name}: the tip lands are not as wide as the teeth at the tip")
    area, perimeter = area_and_perimeter(vertices)
    exact, tolerance = size["transverse_section_area"], size["normal_module"] / 1000
    expect(abs(area - exact) < perimeter * tolerance, f"{name}: area {area}, exact {exact}")

    circle = model.query("CIRCLE")[0]
    expect(circle.dxf.radius == size["reference_diameter"] / 2, f"{name}: circle of radius {circle.dxf.radius}")
    expect(circle.dxf.center.isclose((0, 0, 0)), f"{name}: circle about {circle.dxf.center}")

    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    for got, wanted in zip((*low, *high), (-tip, -tip, 0, tip, tip, 0)):
        # Short of the tip circle only where no tooth points along an axis.
        expect(abs(got) <= tip * (1 + 1e-12) and abs(got - wanted) <= tip * (1 - math.cos(math.pi / teeth)),
               f"{name}: extents {low} to {high}, tip radius {tip}")
    expect(math.isclose(high[0], tip, rel_tol=1e-12), f"{name}: the tooth on the x axis ends at {high[0]}, tip radius {tip}")
    box = ezdxf.bbox.extents([outline])
    expect(math.isclose(box.extmax.x, high[0], rel_tol=1e-9), f"{name}: the outline reaches {box.extmax.x}, the extents {high[0]}")


def main():
    program, scratch = sys.argv[1:]
    for name, (arguments, unit) in RUNS.items():
        folder = os.path.join(scratch, name)
        values = run(program, arguments, folder)
        expect(values["pinion.tip_diameter"][1] == unit, f"{name}: the program's lengths are in {values['pinion.tip_diameter'][1]}")
        for gear in ("pinion", "wheel"):
            check_drawing(os.path.join(folder, gear + ".dxf"), values, gear, unit)
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
