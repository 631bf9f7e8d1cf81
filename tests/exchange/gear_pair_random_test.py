#!/usr/bin/env python3
"""The example program's numbers for random pairs, checked against definitions written here: circles that roll, a rack that cuts, arcs and
lines that touch, planes that close on two cylinders. Nothing of the library is used.

    gear_pair_random_test.py GEAR_PAIR_PROGRAM SCRATCH_FOLDER

Ends with status 0 if all is well; otherwise says what is wrong and ends with status 1.
"""

import math
import random
import subprocess
import sys
from math import atan, atan2, cos, hypot, pi, sin, sqrt, tan

EXTERNAL_PAIRS = 120
INTERNAL_PAIRS = 60
# Rack: pressure angle, addendum, dedendum, root fillet radius. ISO 53:1998; ANSI B6.1, from memory.
RACKS = {"iso-53-a": (20, 1, 1.25, 0.38), "iso-53-b": (20, 1, 1.25, 0.30), "iso-53-c": (20, 1, 1.25, 0.25), "iso-53-d": (20, 1, 1.4, 0.39),
         "coarse-25": (25, 1, 1.25, 0.3)}


def inv(angle):
    return tan(angle) - angle


def inverse_inv(value):
    low, high = 0.0, pi / 2 - 1e-9
    while True:
        middle = (low + high) / 2
        if middle in (low, high):
            return middle
        low, high = (middle, high) if inv(middle) < value else (low, middle)


def bottom_of_valley(function, low, high):
    """Where a function with one valley has its least value."""
    for _ in range(120):
        a, b = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, b) if function(a) < function(b) else (a, high)
    return (low + high) / 2


def cross(u, v):
    return (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])


class Gear:
    """One gear; sigma is -1 for an internal one, whose tooth is the space of the same formulas."""

    def __init__(self, rack, module, teeth, helix, shift, alteration, allowance, internal=False):
        degrees, self.addendum, self.dedendum, self.fillet = rack
        self.m, self.z, self.x, self.k, self.allowance = module, teeth, shift, alteration, allowance
        self.sigma = -1 if internal else 1
        self.alpha, self.beta = math.radians(degrees), math.radians(helix)
        self.alpha_t = atan(tan(self.alpha) / cos(self.beta))
        self.mt = module / cos(self.beta)
        self.d = teeth * self.mt
        self.db = self.d * cos(self.alpha_t)
        self.beta_b = atan(tan(self.beta) * cos(self.alpha_t))
        self.xe = shift + allowance / (2 * module * tan(self.alpha))
        self.da = self.d + self.sigma * 2 * module * (self.addendum + shift + alteration)
        self.df = self.d - self.sigma * 2 * module * (self.dedendum - shift)
        self.dfe = self.d - self.sigma * 2 * module * (self.dedendum - self.xe)
        self.sn = module * (pi / 2 + 2 * self.xe * tan(self.alpha))
        self.half_base = self.sn / cos(self.beta) / self.d + self.sigma * inv(self.alpha_t)

    def thickness(self, diameter):
        return diameter * (self.half_base - self.sigma * inv(math.acos(self.db / diameter)))

    # ---- the root that the counterpart rack cuts into an external gear

    def fillet_point(self, theta):
        """Radius, and angle from the middle of the space, of what a place of the tool's tip rounding cuts: the normal there passes the
        point on which the pitch line rolls. theta is 0 at the deepest place; the rounding is a circle in the normal section."""
        m, r, rho = self.m, self.d / 2, self.fillet * self.m
        half_tooth_at_tip = m * pi / 4 - self.dedendum * m * tan(self.alpha)
        centre = half_tooth_at_tip - rho * (1 - sin(self.alpha)) / cos(self.alpha)
        along = (centre + rho * sin(theta)) / cos(self.beta)
        depth = m * (self.dedendum - self.fillet - self.xe) + rho * cos(theta)
        aside = depth * tan(theta) * cos(self.beta)
        return hypot(aside, r - depth), (along - aside) / r + atan2(aside, r - depth)

    def root_form(self):
        """Root form radius and the rounding's angle that ends the fillet."""
        last = pi / 2 - self.alpha
        rb = self.db / 2

        def beyond(theta):
            radius, angle = self.fillet_point(theta)
            space = pi / self.z - self.half_base + (inv(math.acos(rb / radius)) if radius > rb else 0)
            return angle - space

        depth = self.m * (self.dedendum - self.fillet - self.xe) + self.fillet * self.m * sin(self.alpha)
        if depth <= self.d / 2 * sin(self.alpha_t) ** 2:
            return self.fillet_point(last)[0], last
        steps = 2000
        high = last
        for i in range(1, steps):
            low = last * (1 - i / steps)
            if beyond(low) > 0:
                break
            high = low
        for _ in range(100):
            middle = (low + high) / 2
            low, high = (middle, high) if beyond(middle) > 0 else (low, middle)
        return self.fillet_point(low)[0], low

    def area(self):
        """Twice as many half teeth: sectors from the middle of the space to the middle of the tooth."""
        form, end = self.root_form()
        land = self.fillet_point(0)[1]
        half = self.dfe**2 / 8 * land
        # Simpson's rule over the fillet, in its own parameter.
        steps = 800
        points = [self.fillet_point(end * i / steps) for i in range(steps + 1)]
        tiny = end * 1e-5
        slope = [(self.fillet_point(end * i / steps + tiny)[1] - self.fillet_point(end * i / steps - tiny)[1]) / (2 * tiny)
                 for i in range(steps + 1)]
        weights = [1] + [4 if i % 2 else 2 for i in range(1, steps)] + [1]
        half += sum(w * p[0] ** 2 / 2 * s for w, p, s in zip(weights, points, slope)) * end / steps / 3
        rb = self.db / 2
        roll = [sqrt(max(r * r - rb * rb, 0)) / rb for r in (form, self.da / 2)]
        half += rb * rb * (roll[1] ** 3 - roll[0] ** 3) / 6
        half += self.da / 4 * self.thickness(self.da) / 2
        return 2 * self.z * half

    # ---- what the inspector reads

    def span(self, count):
        base_pitch = pi * self.m * cos(self.alpha)
        tooth_on_base = self.sn * cos(self.alpha) + self.z * self.m * cos(self.alpha) * inv(self.alpha_t)
        return (count - 1) * base_pitch + tooth_on_base

    def pin_centre(self, pin):
        """Radius of the middle of a pin between the flanks' parallels at its own radius; both in the normal of the base cylinder."""
        space = pi / self.z - self.half_base if self.sigma == 1 else self.half_base
        on_base = pin / cos(self.beta_b) / self.db
        return self.db / 2 / cos(inverse_inv(on_base - space if self.sigma == 1 else pi / self.z - self.half_base - on_base))

    def over_balls(self, pin):
        half_pitch = pi / 2 / self.z if self.z % 2 else 0
        return 2 * self.pin_centre(pin) * cos(half_pitch) + self.sigma * pin

    def over_pins(self, pin):
        """The least distance of the two planes that touch both pins, one pin sliding along its space."""
        radius = self.pin_centre(pin)
        lean = atan(tan(self.beta) * 2 * radius / self.d)
        start = pi - (pi / self.z if self.z % 2 else 0)

        def reading(rise):
            angle = start + rise * tan(lean) / radius
            first = (0, sin(lean), cos(lean))
            second = (-sin(angle) * sin(lean), cos(angle) * sin(lean), cos(lean))
            across = cross(first, second)
            size = sqrt(sum(c * c for c in across))
            between = (radius - radius * cos(angle), -radius * sin(angle), -rise)
            return abs(sum(a * b for a, b in zip(across, between))) / size + pin

        if self.beta == 0:
            return 2 * radius * cos((pi - start) / 2) + pin
        reach = 2 * abs((pi - start) * radius / tan(lean))
        return reading(bottom_of_valley(reading, -reach, reach))

    def chord(self):
        """The shortest way from one flank's line on the reference cylinder to the other's, and its height under the tip."""
        half, slope = self.sn / cos(self.beta) / self.d, tan(self.beta) / (self.d / 2)

        def length(rise):
            return hypot(self.d * sin(half + rise * slope / 2), rise)

        reach = self.d * max(1.0, abs(tan(self.beta)))
        rise = bottom_of_valley(length, -reach * half, reach * half)
        return length(rise), self.sigma * (self.da - self.d * cos(half + rise * slope / 2)) / 2

    def sizes(self, pin, count):
        sizes = {
            "transverse_module": self.mt, "transverse_pressure_angle": math.degrees(self.alpha_t),
            "base_helix_angle": math.degrees(self.beta_b), "generating_profile_shift": self.xe, "reference_diameter": self.d,
            "base_diameter": self.db, "tip_diameter": self.da, "root_diameter": self.df,
            "addendum": self.sigma * (self.da - self.d) / 2, "dedendum": self.sigma * (self.d - self.df) / 2,
            "tooth_depth": self.sigma * (self.da - self.df) / 2,
            "transverse_pitch": pi * self.mt, "normal_base_pitch": pi * self.m * cos(self.alpha),
            "transverse_base_pitch": pi * self.db / self.z, "normal_tooth_thickness": self.sn,
            "transverse_tooth_thickness": self.sn / cos(self.beta), "tip_thickness": self.thickness(self.da),
            "normal_tip_thickness": self.thickness(self.da) * cos(atan(tan(self.beta) * self.da / self.d)),
            "pin_centre_diameter": 2 * self.pin_centre(pin),
        }
        chord = self.chord()
        sizes["chordal_thickness"], sizes["chordal_height"] = chord
        if self.sigma == 1:
            sizes["dimension_over_balls"] = self.over_balls(pin)
            sizes["dimension_over_pins"] = self.over_pins(pin)
            sizes["radial_dimension_over_ball"] = self.pin_centre(pin) + pin / 2
            sizes["generated_root_diameter"] = self.dfe
            sizes["root_form_diameter"] = 2 * self.root_form()[0]
            sizes["transverse_section_area"] = self.area()
            sizes["span_measurement"] = self.span(count)
            sizes["span_contact_diameter"] = hypot(self.db, self.span(count) * cos(self.beta_b))
            sizes["constant_chord_thickness"] = self.sn * cos(self.alpha) ** 2
            sizes["constant_chord_height"] = (self.da - self.d) / 2 - self.sn / 2 * sin(self.alpha) * cos(self.alpha)
        else:
            sizes["dimension_between_balls"] = self.over_balls(pin)
        if self.beta:
            sizes["lead"] = pi * self.d / abs(tan(self.beta))
            sizes["axial_pitch"] = sizes["lead"] / self.z
        return sizes


def pair_sizes(one, other, distance, width):
    """Sizes of the pair, of the pinion in it and of the wheel in it."""
    sigma = other.sigma
    working = math.acos(abs(one.db + sigma * other.db) / 2 / distance)
    per_tooth = 2 * distance / abs(one.z + sigma * other.z)
    dw = [per_tooth * one.z, per_tooth * other.z]
    pitch = pi * per_tooth
    # On the working circles: of the pitch, what the two teeth leave.
    backlash = pitch - one.thickness(dw[0]) - other.thickness(dw[1])
    closed = inverse_inv(inv(one.alpha_t) + 2 * tan(one.alpha) * (one.xe + other.xe) / (one.z + sigma * other.z))
    radial = sigma * (distance - distance * cos(working) / cos(closed))
    pair = {"centre_distance": distance, "working_pressure_angle": math.degrees(working), "circumferential_backlash": backlash,
            "normal_backlash": backlash * cos(working) * cos(one.beta_b), "radial_backlash": radial,
            "reference_centre_distance": abs(one.d + sigma * other.d) / 2, "gear_ratio": other.z / one.z,
            "overlap_contact_ratio": width * sin(abs(one.beta)) / pi / one.m}
    each = [{"working_diameter": d, "angular_backlash": math.degrees(2 * backlash / d)} for d in dw]
    if sigma == 1:
        line = distance * sin(working)
        tip = [sqrt(g.da**2 - g.db**2) / 2 for g in (one, other)]
        form = [sqrt(max(g.root_form()[0] ** 2 - g.db**2 / 4, 0)) for g in (one, other)]
        start, end = max(line - tip[1], form[0]), min(tip[0], line - form[1])
        pair["length_of_path_of_contact"] = max(end - start, 0)
        pair["transverse_contact_ratio"] = max(end - start, 0) / (pi * one.db / one.z)
        each[0]["bottom_clearance"] = distance - one.da / 2 - other.dfe / 2
        each[1]["bottom_clearance"] = distance - other.da / 2 - one.dfe / 2
        each[0]["active_root_diameter"] = 2 * hypot(one.db / 2, start)
        each[1]["active_root_diameter"] = 2 * hypot(other.db / 2, max(line - tip[0], form[1]))
    return pair, each


def values_of(program, arguments):
    done = subprocess.run([program, *map(str, arguments), "--values"], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        return None, done.stderr
    return {name: float(value) for name, value, _ in (line.split("\t") for line in done.stdout.splitlines())}, ""


def random_case(draw, internal):
    rack = draw.choice(sorted(RACKS))
    module = round(draw.uniform(0.3, 12), 2)
    pinion = draw.randint(12, 60)
    wheel = pinion + draw.randint(15, 90) if internal else draw.randint(12, 130)
    helix = draw.choice([0, 0, round(draw.uniform(-32, 32), 2)])
    shifts = [round(draw.uniform(-0.2, 0.5), 3), round(draw.uniform(-0.3, 0.3), 3)]
    alterations = [round(draw.uniform(-0.15, 0), 3) for _ in range(2)]
    allowances = [round(module * draw.uniform(-0.06, 0), 4) for _ in range(2)]
    gears = [Gear(RACKS[rack], module, pinion, helix, shifts[0], alterations[0], allowances[0]),
             Gear(RACKS[rack], module, wheel, helix if internal else -helix, shifts[1], alterations[1], allowances[1], internal)]
    sigma = gears[1].sigma
    closed = inverse_inv(inv(gears[0].alpha_t) + 2 * tan(gears[0].alpha) * sum(shifts) / (pinion + sigma * wheel))
    distance = abs(gears[0].d + sigma * gears[1].d) / 2 * cos(gears[0].alpha_t) / cos(closed)
    distance = round(distance + draw.uniform(-0.01, 0.03) * module * sigma, 4)
    width = round(draw.uniform(5, 20) * module, 2)
    arguments = ["--rack", rack, "--module", module, "--pinion-teeth", pinion, "--wheel-teeth", wheel, "--helix", helix,
                 "--pinion-shift", shifts[0], "--wheel-shift", shifts[1], "--pinion-tip-alteration", alterations[0],
                 "--wheel-tip-alteration", alterations[1], "--pinion-allowance", allowances[0], "--wheel-allowance", allowances[1],
                 "--centre-distance", distance, "--face-width", width, *(["--internal"] if internal else [])]
    return arguments, gears, distance, width


def check(program, draw, internal):
    """What differs, and whether the pair was compared: not if the program refuses it or its teeth come to a point."""
    arguments, gears, distance, width = random_case(draw, internal)
    got, refusal = values_of(program, arguments)
    command = " ".join(map(str, arguments))
    if got is None:
        return [] if refusal.startswith("gear_pair: ") else [f"{command}: {refusal}"], False
    if any(g.sigma == 1 and g.thickness(g.da) <= 0 for g in gears):
        return [], False
    pair, each = pair_sizes(*gears, distance, width)
    expected = {f"pair.{name}": value for name, value in pair.items()}
    for owner, g, more in zip(("pinion", "wheel"), gears, each):
        sizes = {**g.sizes(got.get(f"{owner}.pin_diameter", g.m * 1.75), int(got.get(f"{owner}.teeth_spanned", 2))), **more}
        expected.update({f"{owner}.{name}": value for name, value in sizes.items()})
    # A refused measurement is left out of the values, and is said in the report; so is a radial backlash that never closes.
    missing = [name for name in expected if name not in got]
    expected = {name: value for name, value in expected.items() if name in got}
    faults = [f"{command}: {name} is {got[name]!r}, expected {value!r}" for name, value in expected.items()
              if abs(got[name] - value) > (2e-6 if name.endswith("area") else 1e-9) * max(abs(value), gears[0].m)]
    measured = ("span", "pin", "ball", "dimension", "overlap", "radial")
    faults += [f"{command}: {name} is missing" for name in missing if not any(word in name for word in measured)]
    return faults, True


def main():
    program = sys.argv[1]
    draw = random.Random(20)
    faults, checked = [], {False: 0, True: 0}
    for internal, pairs in ((False, EXTERNAL_PAIRS), (True, INTERNAL_PAIRS)):
        for _ in range(pairs):
            found, compared = check(program, draw, internal)
            faults += found
            checked[internal] += compared
    for kind, least_number in ((False, EXTERNAL_PAIRS * 3 // 4), (True, INTERNAL_PAIRS // 2)):
        if checked[kind] < least_number:
            faults.append(f"only {checked[kind]} {'internal' if kind else 'external'} pairs were compared")
    for fault in faults[:40]:
        print(fault)
    print(f"{checked[False]} external and {checked[True]} internal pairs compared, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
