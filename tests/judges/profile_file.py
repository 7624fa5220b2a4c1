"""profile.dxf as an outside library reads it: its closed paths, their arcs, and what they enclose when turned."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from pathlib import Path

import dxf_file
import numpy as np
from ezdxf import path as ezpath
from ezdxf.entities import LWPolyline
from ezdxf.math import Vec2, bulge_to_arc
from manifold3d import CrossSection, FillRule
from scipy.integrate import quad

ENTITIES = {"LWPOLYLINE", "POINT", "TEXT"}
ORIGINS = {"origin-front", "origin-back"}
WORDS = "thread-data"
# No step that is meant is shorter (mm); a corner flatter than this (mm off its neighbours' line) is none.
LEAST, FLAT = 1e-6, 1e-9


@dataclass(frozen=True)
class Profile:
    """The paths by layer, the origins by layer, and the words."""

    paths: dict[str, LWPolyline]
    origins: dict[str, tuple[float, float, float]]
    words: list[str]

    def volume(self) -> float:
        """Of the outline turned about the axis, less what the bores take."""
        return sum(turned(path) * (1 if name == "outline" else -1) for name, path in self.paths.items())


def read(file: Path) -> Profile:
    """Fails with what is wrong with the file; each layer has one path, or one origin, or the words."""
    space = dxf_file.read(file, ENTITIES).modelspace()
    paths = {p.dxf.layer: p for p in space.query("LWPOLYLINE")}
    origins = {p.dxf.layer: tuple(p.dxf.location) for p in space.query("POINT")}
    texts = list(space.query("TEXT"))
    assert len(paths) + len(origins) + len(texts) == len(space), "a layer with two paths, or two origins"
    assert {t.dxf.layer for t in texts} == {WORDS}
    assert origins.keys() == ORIGINS
    assert paths.keys() in ({"outline", "bore"}, {"outline", "bore-front", "bore-back"}), paths.keys()
    return Profile(paths, origins, [t.plain_text() for t in texts])


def sides(path: LWPolyline) -> list[tuple[Vec2, Vec2, float]]:
    """Lines and arcs: begin, end, bulge; the last leads back to the first vertex."""
    assert path.closed
    points = list(path.get_points("xyb"))
    return [(Vec2(a[:2]), Vec2(b[:2]), a[2]) for a, b in zip(points, [*points[1:], points[0]])]


def turned(path: LWPolyline) -> float:
    """Volume enclosed when the path, walked clockwise, is turned about y = 0: pi times the integral of y^2 dx.

    Lines in closed form (a frustum's volume); arcs by quadrature on the centre and angles of ezdxf's own reading of a
    bulge.
    """
    volume = 0.0
    for a, b, bulge in sides(path):
        if bulge == 0.0:
            volume += pi * (b.x - a.x) * (a.y * a.y + a.y * b.y + b.y * b.y) / 3.0
            continue
        centre, start, end, radius = bulge_to_arc(a, b, bulge)
        # The arc runs from start to end against the clock; a negative bulge is walked the other way.
        sweep = (end - start) % (2.0 * pi)

        def rate(angle: float) -> float:
            y = centre.y + radius * np.sin(angle)
            return -y * y * radius * np.sin(angle)

        found, error = quad(rate, start, start + sweep, epsabs=1e-12, epsrel=1e-12)
        assert error < 1e-9
        volume += pi * found * (1.0 if bulge > 0.0 else -1.0)
    return volume


def faults(path: LWPolyline) -> list[str]:
    """What would have to be mended before a control takes the path."""
    found = []
    walked = sides(path)
    for (a, b, bulge), (_, c, following) in zip(walked, [*walked[1:], walked[0]]):
        if (b - a).magnitude < LEAST:
            found.append(f"no length at {a}")
        elif bulge == 0.0 == following and abs((b - a).det(c - b)) <= FLAT * max((c - a).magnitude, LEAST):
            found.append(f"no corner at {b}")
    if min(min(a.y for a, _, _ in walked), 0.0) < 0.0:
        found.append("beyond the axis")
    # Where a path crosses itself, what it goes round once and what it encloses are not the same.
    corners = [tuple(p.vec2) for p in ezpath.make_path(path).flattening(1e-4)]
    x, y = np.array(corners).T
    enclosed = abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2.0
    shape = CrossSection([corners], FillRule.EvenOdd)
    if abs(shape.area() - enclosed) > 1e-5 * enclosed or shape.num_contour() != 1:
        found.append(f"crosses itself: {shape.num_contour()} contours, {shape.area()} of {enclosed}")
    return found
