"""The part that a drawing describes, in millimetres, rebuilt from its words."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

import drawing_sizes
import numpy as np
from drawing_file import Sheet
from drawing_sizes import Sizes
from drawing_walls import Node, Wall
from drawing_words import LENGTH_ROUNDING, DrawingFault

# Of a cut's sides, so much is taken off in the first guess where only its radius is known.
GUESSED_CUT = 0.3
# A half circle's radius may be rounded to less than half of its chord, in mm.
HALF_CIRCLE = 2 * LENGTH_ROUNDING


@dataclass
class Rebuilt:
    """A solved drawing: `x` are its unknowns in the order of the system's names."""

    sizes: Sizes
    x: np.ndarray

    def chain(self, wall: Wall) -> list[tuple[float, float, float]]:
        """z, diameter, and the bulge of the piece behind, of each point from the front to the back."""
        bulges = [0.0] * len(wall.nodes)
        for arc in self.sizes.arcs:
            if arc.wall is wall:
                a, b = wall.nodes[arc.piece : arc.piece + 2]
                bulges[arc.piece] = wall.senses[arc.piece] * self.bulge(a, b, self.x[arc.radius])
        return [(self.x[n.z], self.x[n.d], bulge) for n, bulge in zip(wall.nodes, bulges)]

    def bulge(self, a: Node, b: Node, radius: float) -> float:
        """Of the lesser arc between two points: the tangent of a quarter of its sweep."""
        sine = hypot(self.x[b.z] - self.x[a.z], (self.x[b.d] - self.x[a.d]) / 2) / 2 / radius
        return min(sine, 1.0) / (1 + sqrt(max(1 - sine * sine, 0.0)))

    def rounding(self) -> np.ndarray:
        """How far each unknown may be off because the drawing's numbers are rounded."""
        slopes = self.sizes.walls.system.sensitivity(self.x)
        return np.abs(slopes) @ np.array([value.rounding for value in self.sizes.values])

    def with_values(self, values: np.ndarray) -> Rebuilt:
        """The part whose dimensions have these values."""
        return Rebuilt(self.sizes, self.sizes.walls.system.again(self.x, values))


def faults(sheet: Sheet) -> list[str]:
    """Everything that keeps a drawing from being one part, and one part only."""
    try:
        sizes = drawing_sizes.of(sheet)
        found = list(sizes.faults)
        for value in sizes.values:
            try:
                value.may_be_off(sheet.notes.general)
            except DrawingFault as fault:
                found.append(str(fault))
        x = sizes.walls.system.solve(guess(sizes))
        return found + sizes.walls.system.faults(x) + disorder(Rebuilt(sizes, x))
    except DrawingFault as fault:
        return [str(fault)]


def rebuild(sheet: Sheet) -> Rebuilt:
    """The part; fails with everything that is wrong with its drawing."""
    found = faults(sheet)
    assert found == [], found
    sizes = drawing_sizes.of(sheet)
    return Rebuilt(sizes, sizes.walls.system.solve(guess(sizes)))


def disorder(part: Rebuilt) -> list[str]:
    """Pieces that run another way in the part than on the paper, and arcs too small for their chords."""
    found = []
    for arc in part.sizes.arcs:
        a, b = arc.wall.nodes[arc.piece : arc.piece + 2]
        half = hypot(part.x[b.z] - part.x[a.z], (part.x[b.d] - part.x[a.d]) / 2) / 2
        if half > part.x[arc.radius] + HALF_CIRCLE:
            found.append(f"contradiction: an arc of radius {part.x[arc.radius]} over a chord of {2 * half:.4f}")
    for wall in part.sizes.walls.all:
        for a, b in zip(wall.nodes, wall.nodes[1:]):
            for what, one, other, n in (("z", a.z, b.z, 0), ("diameter", a.d, b.d, 1)):
                real, drawn = part.x[other] - part.x[one], b.spot[n] - a.spot[n]
                if np.sign(np.round(real, 7)) != np.sign(drawn):
                    found.append(f"{part.sizes.walls.system.names[other]} is off its {what}'s order")
    return found


def guess(sizes: Sizes) -> np.ndarray:
    """Where to begin: what is given outright, what lies between that, and cuts near their corners."""
    system, walls = sizes.walls.system, sizes.walls
    zero = np.zeros(len(system.names))
    values = np.array(system.values)
    linear = [e for e in system.equations if e.drawn or len(e.unknowns) == 1]
    rows = [system.equations.index(e) for e in linear]
    slopes = system.slopes(zero, values)[0][rows]
    off = np.array([e.is_zero([0.0] * len(e.unknowns), [values[i] for i in e.values]) for e in linear])
    x = np.linalg.lstsq(slopes, -off, rcond=1e-12)[0]
    _, spread, right = np.linalg.svd(slopes)
    rank = int((spread > 1e-9).sum())
    known = np.abs(right[rank:]).max(axis=0, initial=0.0) < 1e-9
    for n, (axis, name, at) in walls.places.items():
        if not known[n]:
            fixed = sorted((p[2], x[m]) for m, p in walls.places.items() if p[:2] == (axis, name) and known[m])
            if fixed:
                x[n] = np.interp(at, *zip(*fixed))
    for wall in walls.all:
        for piece, corner in wall.corners.items():
            for end, beside in ((piece, wall.side(piece - 1)[0]), (piece + 1, wall.side(piece + 1)[1])):
                node = wall.nodes[end]
                for own, of, to in ((node.z, corner.z, beside.z), (node.d, corner.d, beside.d)):
                    if own != of:
                        x[own] = x[of] + GUESSED_CUT * (x[to] - x[of])
    for arc in sizes.arcs:
        a, b = arc.wall.nodes[arc.piece : arc.piece + 2]
        chord = np.array([x[b.z] - x[a.z], (x[b.d] - x[a.d]) / 2])
        middle = np.array([x[b.z] + x[a.z], (x[b.d] + x[a.d]) / 2]) / 2
        long = max(hypot(*chord), 1e-3)
        if not known[arc.radius]:
            x[arc.radius] = long
        rise = sqrt(max(x[arc.radius] ** 2 - long**2 / 4, (0.1 * long) ** 2))
        left = np.array([-chord[1], chord[0]]) / long
        if arc.centre:
            x[list(arc.centre)] = middle + arc.wall.senses[arc.piece] * rise * left
    return x
