#!/usr/bin/env python3
"""The example program on internal wheels, toothed racks, stated tools and limits, checked against formulas of its own.

    gear_pair_kinds_test.py GEAR_PAIR_PROGRAM SCRATCH_FOLDER

Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import math
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree

INTERNAL = ["--internal", "--module", "2", "--pinion-teeth", "20", "--wheel-teeth", "61", "--pinion-shift", "0.3", "--wheel-shift", "-0.3",
            "--face-width", "20", "--pinion-upper-allowance", "-0.04", "--pinion-lower-allowance", "-0.07",
            "--wheel-upper-allowance", "-0.05", "--wheel-lower-allowance", "-0.09", "--distance-deviation", "0.03", "--wheel-pin", "3.5"]
RACK = ["--toothed-rack", "--module", "2.5", "--pinion-teeth", "18", "--pinion-shift", "0.2", "--helix", "20", "--face-width", "20",
        "--datum-height", "25", "--pinion-upper-allowance", "-0.04", "--pinion-lower-allowance", "-0.08",
        "--toothed-rack-upper-allowance", "-0.03", "--toothed-rack-lower-allowance", "-0.1", "--distance-deviation", "0.05"]
# Class 5 of ISO 1328-1:2013 for the grain mill's pinion (d = 45 mm, m_n = 3 mm, b = 25 mm), from memory; four classes on, four times as much.
CLASS_5 = {"single_pitch": 0.001 * 45 + 0.4 * 3 + 5, "cumulative_pitch": 0.002 * 45 + 0.55 * math.sqrt(45) + 0.7 * 3 + 12,
           "profile_slope": 0.4 * 3 + 0.001 * 45 + 4, "helix_slope": 0.05 * math.sqrt(45) + 0.35 * math.sqrt(25) + 4}
REFUSED = [
    ["--internal", "--module", "2", "--pinion-teeth", "30", "--wheel-teeth", "20"],
    ["--toothed-rack", "--module", "2", "--pinion-teeth", "20", "--wheel-teeth", "40"],
    ["--toothed-rack", "--module", "2", "--pinion-teeth", "20", "--pinion-height", "1"],
    ["--datum-height", "20"],
    ["--tolerance-class", "12"],
    ["--distance-deviation", "-0.1"],
    ["--pinion-upper-allowance", "-0.1"],
    ["--pinion-upper-allowance", "-0.2", "--pinion-lower-allowance", "-0.1"],
    ["--backlash", "0.2", "--wheel-upper-allowance", "-0.1", "--wheel-lower-allowance", "-0.2"],
    ["--pinion-cutter-teeth", "2"],
    ["--protuberance", "0.1", "--protuberance-angle", "25"],
    ["--internal", "--module", "2", "--pinion-teeth", "20", "--wheel-teeth", "60", "--wheel-cutter-teeth", "60"],
]
SVG = "{http://www.w3.org/2000/svg}"

faults = []


def expect(holds, sentence):
    if not holds:
        faults.append(sentence)


def close(name, got, wanted, tolerance=1e-9):
    expect(math.isclose(got, wanted, rel_tol=0, abs_tol=tolerance), f"{name}: {got}, expected {wanted}")


def run(program, arguments, folder):
    return subprocess.run([program, *arguments, "--folder", folder], capture_output=True, text=True, check=False)


def values_of(program, arguments, folder):
    """The program's numbers by name."""
    done = run(program, [*arguments, "--values"], folder)
    if done.returncode != 0:
        sys.exit(f"{program} {' '.join(arguments)} ended with status {done.returncode}:\n{done.stdout}{done.stderr}")
    return {name: float(value) for name, value, _ in (line.split("\t") for line in done.stdout.splitlines())}


def involute(angle):
    return math.tan(angle) - angle


def inverse_involute(value):
    low, high = 0.0, 1.5
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if involute(middle) < value else (low, middle)
    return low


def between_balls(teeth, module, shift, allowance, ball):
    """Of an internal spur gear of 20 degrees, its space taken for the tooth of an external one."""
    alpha = math.radians(20)
    base = teeth * module * math.cos(alpha)
    space = math.pi * module / 2 - 2 * shift * module * math.tan(alpha) - allowance
    at_centre = inverse_involute(space / (teeth * module) + involute(alpha) - ball / base)
    odd = math.cos(math.pi / 2 / teeth) if teeth % 2 else 1
    return base / math.cos(at_centre) * odd - ball


def internal_backlash(allowances, distance):
    """Normal backlash of the internal pair: gears without shift of both together, base circles and their half angles."""
    alpha, module, z1, z2 = math.radians(20), 2, 20, 61
    working = math.acos((z2 - z1) * module * math.cos(alpha) / 2 / distance)
    base_pitch = math.pi * module * math.cos(alpha)
    base_1, base_2 = z1 * module * math.cos(alpha), z2 * module * math.cos(alpha)
    thickness = [math.pi * module / 2 + 2 * x * module * math.tan(alpha) + e for x, e in zip((0.3, -0.3), allowances)]
    # Tooth of the pinion in a space of the wheel, both laid off on the wheel's and the pinion's base circles.
    tooth = base_1 * (thickness[0] / (z1 * module) + involute(alpha) - involute(working))
    space = base_2 * ((math.pi * module - thickness[1]) / (z2 * module) + involute(alpha) - involute(working))
    expect(base_pitch > tooth > 0, "the pinion's tooth is wider than the pitch")
    return space - tooth


def drawn_radii(path, centre):
    """Distances of a path's corners from a point on the x axis. Of an arc only the end is a corner."""
    corners = [words.split()[-2:] for words in path.strip("MZ\n").replace("A", "L").replace("\n", "").split("L")]
    return [math.hypot(float(x) - centre, float(y)) for x, y in corners]


def check_internal(program, scratch):
    folder = os.path.join(scratch, "internal")
    values = values_of(program, INTERNAL, folder)
    paths = {element.get("class"): element.get("d") for element in tree.parse(os.path.join(folder, "pair.svg")).getroot().iter(SVG + "path")}
    for gear, centre in (("pinion", 0), ("wheel", -values["pair.centre_distance"])):
        # A land at each tip, and one at each root unless the cutter's tip has its full radius.
        expect(paths[gear].count("A") / values[gear + ".teeth"] in (1, 2), f"{paths[gear].count('A')} arcs in the {gear} of the internal pair")
        radii = drawn_radii(paths[gear], centre)
        ends = [values[f"{gear}.{end}_diameter"] / 2 for end in ("tip", "generated_root")]
        close(f"the least drawn radius of the {gear}", min(radii), min(ends), 1e-3)
        close(f"the greatest drawn radius of the {gear}", max(radii), max(ends), 1e-3)
    close("the dimension between pins at the mean thickness", values["wheel.dimension_between_pins"], between_balls(61, 2, -0.3, -0.07, 3.5))
    close("the greatest dimension between pins is that of the thinnest teeth", values["wheel.greatest_dimension_between_pins"],
          between_balls(61, 2, -0.3, -0.09, 3.5))
    close("the least one that of the thickest", values["wheel.least_dimension_between_pins"], between_balls(61, 2, -0.3, -0.05, 3.5))
    close("the centre distance without a sum of shifts", values["pair.centre_distance"], 41)
    # Axes that move apart bring an internal pair's teeth together.
    close("the least backlash", values["pair.least_normal_backlash"], internal_backlash((-0.04, -0.05), 41.03))
    close("the greatest backlash", values["pair.greatest_normal_backlash"], internal_backlash((-0.07, -0.09), 40.97))
    expect(values["wheel.tip_diameter"] < values["wheel.root_diameter"], "the internal wheel's tips lie outside its roots")


def check_rack(program, scratch):
    folder = os.path.join(scratch, "rack")
    values = values_of(program, RACK, folder)
    alpha, beta, module = math.radians(20), math.radians(20), 2.5
    diameter = 18 * module / math.cos(beta)
    close("the travel per turn is the pinion's pitch circumference", values["pair.travel_per_turn"], math.pi * diameter)
    height = diameter / 2 + 0.2 * module + 25
    close("the pinion's height", values["pair.pinion_height"], height)
    for limit, allowance, raised in (("least", -0.07, -0.05), ("greatest", -0.18, 0.05)):
        close(f"the {limit} normal backlash", values[f"pair.{limit}_normal_backlash"],
              2 * raised * math.sin(alpha) - allowance * math.cos(alpha))
    pin = values["rack.pin_diameter"]
    for limit, allowance in (("greatest", -0.03), ("least", -0.1)):
        space = math.pi * module / 2 - allowance
        close(f"the {limit} height over the pin", values[f"rack.{limit}_height_over_pin"],
              25 + (pin / math.cos(alpha) - space) / 2 / math.tan(alpha) + pin / 2)
    expect(sorted(os.listdir(folder)) == ["pair.svg", "pinion.dxf"], f"the folder of the rack holds {os.listdir(folder)}")

    root = tree.parse(os.path.join(folder, "pair.svg")).getroot()
    paths = {element.get("class"): element.get("d") for element in root.iter(SVG + "path")}
    expect(paths["pinion"].count("A") == 2 * 18, f"{paths['pinion'].count('A')} arcs in the pinion of the picture")
    corners = [tuple(map(float, pair.split())) for pair in paths["rack"].strip("MZ\n").replace("\n", "").split("L")]
    pitch = math.pi * module / math.cos(beta)
    tip_line, deepest = max(y for _, y in corners), min(y for _, y in corners)
    close("the rack's tip line in the picture", tip_line, -(height - 25) + module, 1e-4)
    close("the rack's mounting face in the picture", deepest, -height, 1e-4)
    # Where the flanks cross the datum line, tooth and space alternate, the tooth thinned by the mean allowance.
    datum = -(height - 25)
    crossings = sorted(a[0] + (b[0] - a[0]) * (datum - a[1]) / (b[1] - a[1])
                       for a, b in zip(corners, corners[1:] + corners[:1]) if (a[1] - datum) * (b[1] - datum) < 0)[1:-1]
    space = (math.pi * module / 2 + 0.065) / math.cos(beta)
    for left, right in zip(crossings[::2], crossings[1::2]):
        close("a space of the rack in the picture", right - left, space, 1e-3)
        close("its middle, in pitches from the pinion", (left + right) / 2 / pitch, round((left + right) / 2 / pitch), 1e-4)
    picture = os.path.join(folder, "pair.png")
    done = subprocess.run(["rsvg-convert", "--output", picture, os.path.join(folder, "pair.svg")], capture_output=True, text=True, check=False)
    expect(done.returncode == 0 and not done.stderr, f"rsvg-convert on the rack's picture, status {done.returncode}: {done.stderr}")


def check_tools(program, scratch):
    folder = os.path.join(scratch, "tools")
    report = run(program, [*INTERNAL, "--wheel-cutter-teeth", "24", "--wheel-cutter-shift", "0.1"], folder).stdout
    expect("Wheel made by: pinion-type cutter of 24 teeth, shift 0.100" in report, "the report does not name the wheel's cutter")
    expect("Pinion made by: hob or rack cutter" in report, "the report does not name the pinion's customary tool")
    plain = values_of(program, [], folder)
    ground = values_of(program, ["--protuberance", "0.08", "--protuberance-angle", "10", "--finishing-allowance", "0.05"], folder)
    close("the stock on the span before finishing", ground["pinion.span_before_finishing"] - ground["pinion.span_measurement"],
          2 * 0.05 * 3)
    expect(ground["pinion.root_form_diameter"] > plain["pinion.root_form_diameter"], "protuberance leaves no mark on the form diameter")
    chamfered = values_of(program, ["--hob-chamfer-height", "0.75"], folder)
    expect(chamfered["wheel.tip_form_diameter"] < chamfered["wheel.tip_diameter"], "the semi-topping tool makes no chamfer")
    # On a rack, too: the tool's longer teeth cut the pinion's root deeper, and neither height nor backlash changes.
    on_rack = values_of(program, RACK, folder)
    deeper = values_of(program, [*RACK, "--hob-addendum", "1.4", "--hob-tip-radius", "0.2"], folder)
    close("the root of the pinion on a rack", on_rack["pinion.generated_root_diameter"] - deeper["pinion.generated_root_diameter"],
          2 * 0.15 * 2.5)
    for same in ("pinion_height", "normal_backlash", "transverse_contact_ratio"):
        close(f"{same} with another tool", deeper[f"pair.{same}"], on_rack[f"pair.{same}"])
    report = run(program, [*RACK, "--pinion-cutter-teeth", "24"], folder).stdout
    expect("Pinion made by: pinion-type cutter of 24 teeth" in report, "the report does not name the cutter of the pinion on a rack")


def check_limits(program, scratch):
    folder = os.path.join(scratch, "limits")
    values = values_of(program, [], folder)
    for name, class_5 in CLASS_5.items():
        got = values[f"pinion.{name}_tolerance"]
        expect(got == round(4 * class_5), f"{name} tolerance of class 9: {got}, class 5 is {class_5} before rounding")
    for name, value in values.items():
        owner, quantity = name.split(".")
        if not quantity.startswith("greatest_"):
            continue
        plain = quantity[len("greatest_"):]
        expect(values[f"{owner}.least_{plain}"] < values[f"{owner}.{plain}"] < value, f"{owner}.{plain} is not between its limits")


def check_refusals(program, scratch):
    for i, arguments in enumerate(REFUSED):
        folder = os.path.join(scratch, "refused", str(i))
        done = run(program, arguments, folder)
        name = " ".join(arguments)
        expect(done.returncode == 1, f"{name}: status {done.returncode}")
        expect(not done.stdout and not os.path.exists(folder), f"{name}: something was written")
        expect(done.stderr.startswith("gear_pair: ") and done.stderr.count("\n") == 1, f"{name}: says {done.stderr!r}")


def main():
    program, scratch = sys.argv[1:]
    os.makedirs(scratch, exist_ok=True)
    # What an earlier run has left must not be taken for what this one writes.
    with tempfile.TemporaryDirectory(dir=scratch) as own:
        for check in (check_internal, check_rack, check_tools, check_limits, check_refusals):
            check(program, own)
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
