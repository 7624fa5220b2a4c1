"""Reads drawing.dxf as someone does who trusts the words alone: every coordinate is distorted first.

x goes through a random rising function, y through a random rising odd one (so that what lies below the axis still
mirrors what lies above), and of an arc only its sense is kept. What is left of the geometry is which points coincide and
in which order they lie. Header values, measured values, scales and styles are not read.
"""

from __future__ import annotations

import random
from bisect import bisect
from dataclasses import dataclass, field
from itertools import accumulate
from pathlib import Path

import drawing_words as words
import ezdxf
from drawing_words import DrawingFault
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic

Spot = tuple[float, float]

# Coordinates nearer than this, in mm, are one: above the rounding of a file, below the least step of a part (1e-4).
SAME = 1e-6
CHAINS = ("outline", "bore")
LINES = ("extension", "thread", "thread-end", "thread-end-hidden")
DEFINITION = ("defpoint2", "defpoint3", "defpoint4", "defpoint5", "defpoint")


@dataclass(frozen=True)
class Chain:
    """Lines and arcs from the front to the back: points, and each piece's sense (0 straight, 1 turns left)."""

    points: list[Spot]
    senses: list[int]

    def from_front(self) -> Chain:
        if self.points[0][0] <= self.points[-1][0]:
            return self
        return Chain(self.points[::-1], [-sense for sense in self.senses[::-1]])


@dataclass(frozen=True)
class Dimension:
    """The words of a dimension and the points that it is defined by, by their group's name."""

    text: str
    spots: dict[str, Spot]
    upright: bool


@dataclass
class Sheet:
    """What is drawn, distorted."""

    chains: dict[str, list[Chain]] = field(default_factory=lambda: {layer: [] for layer in CHAINS})
    lines: dict[str, list[tuple[Spot, Spot]]] = field(default_factory=lambda: {layer: [] for layer in LINES})
    dimensions: list[Dimension] = field(default_factory=list)
    notes: words.Notes = words.Notes(None, None, frozenset())


def read(path: Path, seed: int = 1) -> Sheet:
    """The drawing in a file."""
    return sheet(ezdxf.readfile(path), seed)


def sheet(doc: Drawing, seed: int) -> Sheet:
    """The drawing, distorted by the dice of a seed."""
    drawn = Sheet()
    notes = []
    for entity in doc.modelspace():
        kind, layer = entity.dxftype(), entity.dxf.layer
        if kind == "DIMENSION":
            drawn.dimensions.append(dimension(doc, entity))
        elif kind == "TEXT":
            notes.append(words.decoded(entity.dxf.text))
        elif kind == "LINE" and layer in LINES:
            ends = [(p.x, p.y) for p in (entity.dxf.start, entity.dxf.end)]
            drawn.lines[layer].append((ends[0], ends[1]))
        elif kind == "LWPOLYLINE" and layer in CHAINS:
            drawn.chains[layer].append(chain(entity))
    drawn.notes = words.Notes.of(notes)
    return distorted(drawn, random.Random(seed))


def chain(entity: DXFGraphic) -> Chain:
    points = [(float(x), float(y)) for x, y, _ in entity.get_points("xyb")]
    senses = [int(b > 0) - int(b < 0) for _, _, b in entity.get_points("xyb")]
    return Chain(points, senses[:-1])


def dimension(doc: Drawing, entity: DXFGraphic) -> Dimension:
    """By the words in its picture, as they are read."""
    block = doc.blocks.get(entity.dxf.get("geometry", ""))
    drawn = [e for e in block or () if e.dxftype() in ("TEXT", "MTEXT")]
    if len(drawn) != 1:
        raise DrawingFault(f"a dimension with {len(drawn)} texts in its picture")
    text = drawn[0].dxf.text if drawn[0].dxftype() == "TEXT" else drawn[0].plain_text()
    spots = {n: (p.x, p.y) for n in DEFINITION if (p := entity.dxf.get(n)) is not None}
    return Dimension(words.decoded(text), spots, round(entity.dxf.get("angle", 0.0)) % 180 == 90)


class Rising:
    """A rising function through random values, one for each different value that it is made for."""

    def __init__(self, values: list[float], dice: random.Random) -> None:
        self.known: list[float] = []
        for value in sorted(values):
            if not self.known or value - self.known[-1] > SAME:
                self.known.append(value)
        steps = [dice.uniform(0.05, 20.0) for _ in self.known]
        self.images = list(accumulate(steps, initial=dice.uniform(-50.0, 50.0)))[1:]

    def __call__(self, value: float) -> float:
        after = bisect(self.known, value + SAME)
        return self.images[max(after - 1, 0)]


def distorted(drawn: Sheet, dice: random.Random) -> Sheet:
    """The same drawing with only the order of its coordinates kept, and which of them coincide."""
    spots = [p for chains in drawn.chains.values() for c in chains for p in c.points]
    spots += [p for lines in drawn.lines.values() for ends in lines for p in ends]
    spots += [p for d in drawn.dimensions for p in d.spots.values()]
    f = Rising([x for x, _ in spots], dice)
    off_axis = [abs(y) for _, y in spots if abs(y) > SAME]
    g = Rising(off_axis, dice)
    base = min(g.images, default=0.0)

    def moved(p: Spot) -> Spot:
        x, y = p
        size = 0.0 if abs(y) <= SAME else g(abs(y)) - base + 1.0
        return f(x), size if y >= 0 else -size

    dimensions = [
        Dimension(d.text, {n: moved(p) for n, p in d.spots.items()}, d.upright) for d in drawn.dimensions
    ]
    chains = {
        layer: [Chain([moved(p) for p in c.points], c.senses).from_front() for c in of]
        for layer, of in drawn.chains.items()
    }
    lines = {layer: [(moved(a), moved(b)) for a, b in of] for layer, of in drawn.lines.items()}
    return Sheet(chains, lines, dimensions, drawn.notes)
