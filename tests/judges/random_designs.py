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


@dataclass(frozen=True)
class Sizes:
    """What a random design is made of: diameters, z from the front face, angles in degrees (none where flat)."""

    name: str
    # The unit: thread, collar, lengths from the collar's underside.
    pitch: float
    starts: int
    left: bool
    major: float
    collar: float
    plain: float
    threaded: float
    # The bores, from the front.
    seat: float
    recess_d: float
    clearance_d: float
    clearance_z: float
    thread_z: float
    basic: bool
    drill_d: float
    drill_z: float
    through_d: float
    clearance_point: float | None
    drill_point: float | None
    # The outside: the grip's runs as z and diameter of their ends; the tenon.
    front: float
    runs: tuple[tuple[float, float], ...]
    tenon_pitch: float
    tenon_starts: int
    tenon_left: bool
    tenon_d: float
    relief: tuple[float, float] | None
    pilot: tuple[float, float] | None
    chamfer: float
    chamfer_angle: float
    end: float
    # What the unit's file says of its collar's thickness and its tail, and the barrel's depth.
    thickness: float
    tail: float
    barrel: float
    # Holes are as wide as they are said to be: no tool cuts over.
    exact: bool = False

    @property
    def shoulder(self) -> float:
        return self.runs[-1][0]


def one(dice: random.Random, number: int) -> Design:
    """A design that can be made: each hole leaves the one in front of it standing, each wall is some tenths."""
    return design(sizes(dice, number))


def sizes(dice: random.Random, number: int) -> Sizes:
    """The sizes of such a design."""

    def within(low: float, high: float) -> float:
        return round(dice.uniform(low, high), 2)

    def pick(*values):
        return dice.choice(values)

    pitch, starts, left = pick(0.5, 0.55, 0.6, 0.75), pick(1, 1, 1, 2), dice.random() < 0.2
    major = within(7.4, 8.4)
    depth = thread_depth(pitch)
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
    tenon_pitch, tenon_starts, tenon_left = pick(0.5, 0.75, 0.8, 1.0), pick(1, 1, 2, 3), dice.random() < 0.2
    tenon_d = pick(10.0, 10.5, 11.0)
    tenon_depth = thread_depth(tenon_pitch)
    shoulder = round(drill_z + within(2.0, 6.0), 2)
    length = within(7.0, 10.0)
    front, back = round(recess_d + within(0.9, 1.6), 2), round(tenon_d + within(1.0, 2.4), 2)
    knees = [(round(shoulder * share, 2), round(recess_d + within(1.2, 2.6), 2)) for share in (0.3, 0.7)]
    straight = dice.random() < 0.5
    runs = ((knees[0][0], front if straight else knees[0][1]), knees[1], (shoulder, back))
    relief = dice.random() < 0.5 and (within(1.0, 1.6), round(tenon_d - 2 * tenon_depth - within(0.1, 0.4), 2))
    pilot = dice.random() < 0.4 and (within(0.8, 1.6), round(tenon_d - 2 * tenon_depth - within(0.1, 0.4), 2))
    chamfer = pick(0.0, 0.3, 0.5, round(tenon_depth, 2))
    return Sizes(
        name=f"random-{number}", pitch=pitch, starts=starts, left=left, major=major, collar=collar, plain=plain,
        threaded=threaded, seat=seat, recess_d=recess_d, clearance_d=clearance_d, clearance_z=clearance_z,
        thread_z=thread_z, basic=basic, drill_d=drill_d, drill_z=drill_z, through_d=through_d,
        clearance_point=clearance_point, drill_point=drill_point, front=front, runs=runs, tenon_pitch=tenon_pitch,
        tenon_starts=tenon_starts, tenon_left=tenon_left, tenon_d=tenon_d, relief=relief or None, pilot=pilot or None,
        chamfer=chamfer, chamfer_angle=45, end=round(shoulder + length, 2), thickness=seat,
        tail=round(through_d - 0.3, 2), barrel=length + 6,
    )  # fmt: skip


def thread_depth(pitch: float) -> float:
    """Of the basic profile, per side."""
    return 5 / 8 * 3**0.5 / 2 * pitch


def design(of: Sizes) -> Design:
    """The files and the part of some sizes."""
    return Design(of.name, section_text(of), unit_text(of), part(of))


def part(of: Sizes) -> Turned:
    """What the sizes describe."""
    shoulder, end = of.shoulder, of.end
    tip = round(end - (of.pilot[0] if of.pilot else 0.0), 6)
    start = round(shoulder + (of.relief[0] if of.relief else 0.0), 6)
    outside = [(of.front / 2, 0.0), *((d / 2, z) for z, d in of.runs)]
    if of.relief:
        outside += [(of.relief[1] / 2, shoulder), (of.relief[1] / 2, start)]
    outside.append((of.tenon_d / 2, start))
    lead = of.chamfer if of.chamfer_angle == 45 else of.chamfer / tan(radians(of.chamfer_angle))
    outside.append((of.tenon_d / 2, tip - lead))
    if of.chamfer:
        outside.append((of.tenon_d / 2 - of.chamfer, tip))
    if of.pilot:
        outside += [(of.pilot[1] / 2, tip), (of.pilot[1] / 2, end)]
    radii = [of.recess_d / 2, of.clearance_d / 2, of.drill_d / 2, of.through_d / 2]
    ends, points = [of.seat, of.clearance_z, of.drill_z, end], [None, of.clearance_point, of.drill_point, None]
    bore = [(radii[0], 0.0)]
    for r, z, angle, following in zip(radii, ends, points, [*radii[1:], 0.0]):
        bore.append((r, z))
        if z != end:
            bore.append((following, z + point_length(r, angle, following)))
    threads = [
        Thread(of.tenon_d / 2, of.tenon_pitch, start, tip, starts=of.tenon_starts, left=of.tenon_left),
        Thread(of.major / 2, of.pitch, of.clearance_z, of.thread_z, True, of.drill_d / 2, of.starts, of.left),
    ]
    return Turned(outside, bore, threads)


def designation(d: float, p: float, n: int, lh: bool) -> str:
    form = f"M{d:g}x{p:g}" if n == 1 else f"M{d:g}xPh{round(p * n, 4):g}P{p:g}"
    return form + ("-LH" if lh else "")


def section_text(of: Sizes) -> str:
    length = round(of.end - of.shoulder, 6)
    runs = "".join(f"[[grip.run]]\nto = {z}\ndiameter = {d}\n" for z, d in of.runs)
    at = f"{{ depth = {of.chamfer}, angle = {of.chamfer_angle} }}"
    text = f"""format = 1
name = "{of.name}"
unit = "{of.name}-unit.toml"
material = "cast-resin"
[grip]
length = {of.shoulder}
front = {of.front}
{runs}[tenon]
thread = "{designation(of.tenon_d, of.tenon_pitch, of.tenon_starts, of.tenon_left)}"
length = {length}
chamfer = {of.chamfer if of.chamfer_angle == 45 else at}
"""
    if of.relief:
        text += f"relief = {{ width = {of.relief[0]}, diameter = {of.relief[1]} }}\n"
    if of.pilot:
        text += f"pilot = {{ length = {of.pilot[0]}, diameter = {of.pilot[1]} }}\n"
    over = "cuts_over = [0, 0]\n" if of.exact else ""
    return text + f"""[bores.recess]
diameter = {of.recess_d}
{over}depth = {of.seat}
[bores.clearance]
diameter = {of.clearance_d}
{over}depth = {of.clearance_z}
point = {point_text(of.clearance_point)}
[bores.thread]
designation = "{designation(of.major, of.pitch, of.starts, of.left)}"
to = {of.thread_z}
[bores.tap_drill]
diameter = {'"basic"' if of.basic else of.drill_d}
{over}depth = {of.drill_z}
point = {point_text(of.drill_point)}
[bores.through]
diameter = {of.through_d}
{over}[barrel]
depth = {of.barrel}
"""


def unit_text(of: Sizes) -> str:
    return f"""format = 1
name = "unit of {of.name}"
[collar]
diameter = {of.collar}
thickness = {of.thickness}
[plain]
diameter = {round(of.major - 0.4, 2)}
to = {of.plain}
[thread]
designation = "{designation(of.major, of.pitch, of.starts, of.left)}"
major = {round(of.major - 0.05, 2)}
to = {of.threaded}
[tail]
diameter = {of.tail}
to = {round(of.threaded + 1.5, 2)}
[nib]
reach = 20
width = 6
"""


def designs(count: int) -> list[Design]:
    """So many designs, always the same ones."""
    dice = random.Random(SEED)
    return [one(dice, number) for number in range(count)]
