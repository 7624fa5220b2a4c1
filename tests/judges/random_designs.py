"""Random designs, as files for the program and as numbers for the judges. All numbers are invented.

Every key that bears on the solid is written, so that nothing of it is derived by the program.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from math import radians, tan
from pathlib import Path

from turned import Thread, Turned

# Change it, and every random design is another one.
SEED = 20214


@dataclass(frozen=True)
class Design:
    """A design: the text of both its files, and the part that they describe."""

    name: str
    text: str
    unit: str
    part: Turned

    def write(self, folder: Path) -> Path:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{self.name}-unit.toml").write_text(self.unit, "utf-8")
        path = folder / f"{self.name}.toml"
        path.write_text(self.text, "utf-8")
        return path


def point_length(r: float, angle: float | None, to: float) -> float:
    """How far a point's cone reaches along z while it narrows from one radius to another."""
    return 0.0 if angle is None else (r - to) / tan(radians(angle / 2))


def point_text(angle: float | None) -> str:
    return '"flat"' if angle is None else f"{angle:g}"


def one(dice: random.Random, number: int) -> Design:
    """A design that can be made: each hole leaves the one in front of it standing, each wall is some tenths."""

    def within(low: float, high: float) -> float:
        return round(dice.uniform(low, high), 2)

    def pick(*values):
        return dice.choice(values)

    name = f"random-{number}"
    # The unit: thread, collar, lengths from the collar's underside.
    pitch, starts, left = pick(0.5, 0.55, 0.6, 0.75), pick(1, 1, 1, 2), dice.random() < 0.2
    major = within(7.4, 8.4)
    depth = 5 / 8 * 3**0.5 / 2 * pitch
    collar = round(major + within(0.7, 1.0), 2)
    plain, threaded = within(2.5, 4.0), within(8.0, 10.0)
    seat, recess_d = within(0.8, 1.5), round(collar + 0.3, 2)
    clearance_d = pick(round(major + 0.2, 2), round(major + 0.3, 2), major)
    clearance_z = round(seat + plain, 2)
    thread_z = round(seat + threaded + within(0.3, 1.0), 2)
    basic = dice.random() < 0.4
    drill_d = 2 * (major / 2 - depth) if basic else round(major - within(0.8, 1.0) * 2 * depth, 2)
    drill_z = round(thread_z + pick(0.0, 1.0, 1.8), 2)
    through_d = round(drill_d - within(0.4, 1.0), 2)
    clearance_point, drill_point = pick(None, 118, 90), pick(None, 118, 135)
    # The outside.
    tenon_pitch, tenon_starts, tenon_left = pick(0.5, 0.75, 0.8, 1.0), pick(1, 1, 2, 3), dice.random() < 0.2
    tenon_d = pick(10.0, 10.5, 11.0)
    tenon_depth = 5 / 8 * 3**0.5 / 2 * tenon_pitch
    shoulder = round(drill_z + within(2.0, 6.0), 2)
    length = within(7.0, 10.0)
    front, back = round(recess_d + within(0.9, 1.6), 2), round(tenon_d + within(1.0, 2.4), 2)
    knees = [(round(shoulder * share, 2), round(recess_d + within(1.2, 2.6), 2)) for share in (0.3, 0.7)]
    straight = dice.random() < 0.5
    runs = [(knees[0][0], front if straight else knees[0][1]), knees[1], (shoulder, back)]
    relief = dice.random() < 0.5 and (within(1.0, 1.6), round(tenon_d - 2 * tenon_depth - within(0.1, 0.4), 2))
    pilot = dice.random() < 0.4 and (within(0.8, 1.6), round(tenon_d - 2 * tenon_depth - within(0.1, 0.4), 2))
    chamfer = pick(0.0, 0.3, 0.5, round(tenon_depth, 2))
    end = round(shoulder + length, 2)
    tip = round(end - (pilot[0] if pilot else 0.0), 2)
    start = round(shoulder + (relief[0] if relief else 0.0), 2)

    outside = [(front / 2, 0.0), *((d / 2, z) for z, d in runs)]
    if relief:
        outside += [(relief[1] / 2, shoulder), (relief[1] / 2, start)]
    outside.append((tenon_d / 2, start))
    outside.append((tenon_d / 2, tip - chamfer))
    if chamfer:
        outside.append((tenon_d / 2 - chamfer, tip))
    if pilot:
        outside += [(pilot[1] / 2, tip), (pilot[1] / 2, end)]
    radii = [recess_d / 2, clearance_d / 2, drill_d / 2, through_d / 2]
    ends, points = [seat, clearance_z, drill_z, end], [None, clearance_point, drill_point, None]
    bore = [(radii[0], 0.0)]
    for r, z, angle, following in zip(radii, ends, points, [*radii[1:], 0.0]):
        bore.append((r, z))
        if z != end:
            bore.append((following, z + point_length(r, angle, following)))
    threads = [
        Thread(tenon_d / 2, tenon_pitch, start, tip, starts=tenon_starts, left=tenon_left),
        Thread(major / 2, pitch, clearance_z, thread_z, True, drill_d / 2, starts, left),
    ]

    def designation(d: float, p: float, n: int, lh: bool) -> str:
        form = f"M{d:g}x{p:g}" if n == 1 else f"M{d:g}xPh{round(p * n, 4):g}P{p:g}"
        return form + ("-LH" if lh else "")

    of_unit = designation(major, pitch, starts, left)
    text = f"""format = 1
name = "{name}"
unit = "{name}-unit.toml"
material = "cast-resin"
[grip]
length = {shoulder}
front = {front}
""" + "".join(f"[[grip.run]]\nto = {z}\ndiameter = {d}\n" for z, d in runs) + f"""[tenon]
thread = "{designation(tenon_d, tenon_pitch, tenon_starts, tenon_left)}"
length = {length}
chamfer = {chamfer}
"""
    if relief:
        text += f"relief = {{ width = {relief[0]}, diameter = {relief[1]} }}\n"
    if pilot:
        text += f"pilot = {{ length = {pilot[0]}, diameter = {pilot[1]} }}\n"
    text += f"""[bores.recess]
diameter = {recess_d}
depth = {seat}
[bores.clearance]
diameter = {clearance_d}
depth = {clearance_z}
point = {point_text(clearance_point)}
[bores.thread]
designation = "{of_unit}"
to = {thread_z}
[bores.tap_drill]
diameter = {'"basic"' if basic else drill_d}
depth = {drill_z}
point = {point_text(drill_point)}
[bores.through]
diameter = {through_d}
[barrel]
depth = {length + 6}
"""
    unit = f"""format = 1
name = "unit of {name}"
[collar]
diameter = {collar}
thickness = {seat}
[plain]
diameter = {round(major - 0.4, 2)}
to = {plain}
[thread]
designation = "{of_unit}"
major = {round(major - 0.05, 2)}
to = {threaded}
[tail]
diameter = {round(through_d - 0.3, 2)}
to = {round(threaded + 1.5, 2)}
[nib]
reach = 20
width = 6
"""
    return Design(name, text, unit, Turned(outside, bore, threads))


def designs(count: int) -> list[Design]:
    """So many designs, always the same ones."""
    dice = random.Random(SEED)
    return [one(dice, number) for number in range(count)]
