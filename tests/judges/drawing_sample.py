"""A small drawing by the conventions of drawing.dxf, made without the program: invented numbers, worked out by hand.

```text
   R0.3  groove   R40      relief   M10x0.75
    .------|_|--.______.-'|  ________
    |                     |_|        `.   0.5 x 45
    |__                                |
       |__ . M8x0.55 _____             |
                          `.___________|
```
"""

from __future__ import annotations

from math import atan2, pi, sqrt, tan

import ezdxf
from ezdxf.document import Drawing

Spot = tuple[float, float]

# The taper from the front rim to z 10, by its diameters there.
FRONT, WAIST, WAIST_Z = 11.0, 11.6, 10.0
RADIUS = 0.3
TAN_59 = tan(59 * pi / 180)
LAYERS = ("outline", "bore", "extension", "thread", "thread-end", "dimension", "title")


def taper(z: float) -> float:
    """Diameter of the taper."""
    return FRONT + (WAIST - FRONT) * z / WAIST_Z


def fillet() -> tuple[Spot, Spot, float]:
    """Where the front rim's fillet begins and ends (z, d), and its bulge: R / tan(half of the angle between) off."""
    slope = atan2((WAIST - FRONT) / 2, WAIST_Z)
    between = pi / 2 + slope
    off = RADIUS / tan(between / 2)
    end = off / sqrt(1 + ((WAIST - FRONT) / 2 / WAIST_Z) ** 2)
    return (0.0, FRONT - 2 * off), (end, taper(end)), -tan((pi - between) / 4)


def outside() -> list[tuple[float, float, float]]:
    """z, diameter, bulge of the piece behind."""
    first, last, bulge = fillet()
    chord, radius = sqrt(8.0**2 + 0.4**2), 40.0
    half = chord / 2 / radius
    hollow = half / (1 + sqrt(1 - half * half))
    return [
        (0, 9, 0), (*first, bulge), (*last, 0), (4, taper(4), 0), (4, 10.8, 0), (5, 10.8, 0), (5, taper(5), 0),
        (WAIST_Z, WAIST, hollow), (18, 12.4, 0), (18, 8.9, 0), (19.5, 8.9, 0), (19.5, 10, 0), (26.5, 10, 0), (27, 9, 0),
        (27, 6, 0),
    ]  # fmt: skip


def bore() -> list[tuple[float, float, float]]:
    points = [
        (0, 9), (1, 9), (1, 8.4), (4, 8.4), (4 + 0.5 / TAN_59, 7.4), (12, 7.4), (12 + 0.7 / TAN_59, 6), (27, 6)
    ]  # fmt: skip
    return [(z, d, 0) for z, d in points]


def drawing() -> Drawing:
    doc = ezdxf.new("R2000", units=4)
    for layer in LAYERS:
        doc.layers.add(layer)
    space = doc.modelspace()
    for layer, points in (("outline", outside()), ("bore", bore())):
        space.add_lwpolyline([(z, d / 2, 0, 0, b) for z, d, b in points], dxfattribs={"layer": layer})
    below = [(z, -d / 2, 0, 0, -b) for z, d, b in outside()]
    below[0], below[-1] = (0, 0, 0, 0, 0), (27, 0, 0, 0, 0)
    space.add_lwpolyline(below, dxfattribs={"layer": "outline"})

    def line(layer: str, a: Spot, b: Spot) -> None:
        space.add_line(a, b, dxfattribs={"layer": layer})

    first, last, _ = fillet()
    for end in (first, last):
        line("extension", (end[0], end[1] / 2), (0, FRONT / 2))
    for end in ((26.5, 5), (27, 4.5)):
        line("extension", end, (27, 5))
    line("extension", (4, taper(4) / 2), (5, taper(5) / 2))
    # The tenon's root line ends in the chamfer; the unit's begins in the drill's cone.
    for sign in (1, -1):
        line("thread", (19.5, sign * 4.6), (26.9, sign * 4.6))
    line("thread", (4 + 0.1 / TAN_59, 4.1), (11, 4.1))
    line("thread-end", (11, 4.1), (11, 3.7))

    lengths = [
        (27, 18, 6.2, 4.5), (19.5, 18, 6.2, 5), (18, 0, 5.5, 6.2), (4, 0, 5.5, taper(4) / 2), (5, 0, 5.5, taper(5) / 2),
        (10, 0, 5.5, 5.8), (1, 0, 5.5, 4.5), (4, 0, 5.5, 4.2), (11, 0, 5.5, 4.0), (12, 0, 5.5, 3.7),
    ]  # fmt: skip
    for z, datum, rim, r in lengths:
        limits = " %%p0.05" if z == 1 else " +0.1/0" if z == 4 and r == 4.2 else ""
        dimension(doc, f"{z - datum:g}{limits}", (datum, rim), (z, r), 0)
    for d, z in ((11, 0), (10.8, 4), (11.6, 10), (12.4, 18), (8.9, 18), (9, 0), (8.4, 1), (7.4, 5), (6, 20)):
        dimension(doc, f"%%c{d:g}", (z, d / 2), (z, -d / 2), 90)
    dimension(doc, "M10x0.75-6g", (19.5, 5), (19.5, -5), 90)
    dimension(doc, "M8x0.55", (4, 4.0), (4, -4.0), 90)
    dimension(doc, "0.5 \u00d7 45%%d", (26.5, 5), (27, 4.5), 0)
    dimension(doc, "R0.3 %%p0.1", (0.1, 5.4), None, 0, on=(0.1, 5.4))
    dimension(doc, "R40", (14, 5.7), None, 0, on=(14, 5.7))
    for z, r in ((4, 4.2), (12, 3.7)):
        dimension(doc, "118%%d", (z, r), (z, -r), 0, on=(z + r / TAN_59, 0))
    space.add_text("General tolerance ISO 2768-m.", dxfattribs={"layer": "title"})
    return doc


def dimension(doc: Drawing, text: str, one: Spot, other: Spot | None, angle: float, on: Spot | None = None) -> None:
    """A DIMENSION with its words in a block of its own; `on` is the point on an arc, or a cone's tip."""
    block = doc.blocks.new_anonymous_block("D")
    block.add_text(text)
    made = doc.modelspace().new_entity("DIMENSION", {"layer": "dimension", "geometry": block.name, "angle": angle})
    made.dxf.defpoint = (*one, 0)
    if on:
        made.dxf.defpoint4 = (*on, 0)
    if other:
        made.dxf.defpoint2, made.dxf.defpoint3 = (*one, 0), (*other, 0)
