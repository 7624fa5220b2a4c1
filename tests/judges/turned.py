"""A turned part by its numbers alone: outlines, threads, and what surfaces it must have. No code of the project's.

Radii and z in mm. Threads have the basic profile of ISO 68-1: 60 degrees, P/8 at the major diameter, P/4 at the minor
one of an external thread; an internal one goes in as far as its hole.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

HalfPlane = list[tuple[float, float]]

# Numbers that are one: far above the rounding of a file, far below a step that is meant (1e-4).
ONE = 1e-6


@dataclass(frozen=True)
class Thread:
    """A thread, cut between two z. At angle 0 a ridge (external) or a groove (internal) is centred on `low`."""

    major: float
    pitch: float
    low: float
    high: float
    internal: bool = False
    hole: float = 0.0  # radius that an internal thread is cut into
    starts: int = 1
    left: bool = False

    @property
    def depth(self) -> float:
        return 5.0 / 8.0 * np.sqrt(3.0) / 2.0 * self.pitch

    @property
    def crest(self) -> float:
        return self.hole if self.internal else self.major

    @property
    def root(self) -> float:
        return self.major if self.internal else self.major - self.depth

    @property
    def lead(self) -> float:
        """Climb a turn, negative for a left-hand thread."""
        return self.pitch * self.starts * (-1 if self.left else 1)


@dataclass(frozen=True)
class Turned:
    """Outline and bore from the front face to the back, and the threads cut into them."""

    outside: HalfPlane
    bore: HalfPlane
    threads: list[Thread] = field(default_factory=list)

    def whole(self) -> HalfPlane:
        """The half-section without threads, closed."""
        return [*self.outside, *reversed(self.bore)]

    def lines(self) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
        yield from pairwise(self.outside)
        yield from pairwise(self.bore)

    def cylinders(self, threaded: bool) -> list[float]:
        radii = [ra for (ra, za), (rb, zb) in self.lines() if abs(ra - rb) < ONE < min(ra, abs(za - zb))]
        return distinct([(r,) for r in radii + [t.root for t in self.threads if threaded]])

    def cones(self) -> list[tuple[float, float]]:
        slanted = [(a, b) for a, b in self.lines() if abs(a[0] - b[0]) > ONE and abs(a[1] - b[1]) > ONE]
        return distinct([cone(*a, *b) for a, b in slanted])


def cone(ra: float, za: float, rb: float, zb: float) -> tuple[float, float]:
    """A cone about the axis by its slope and its radius at z = 0."""
    slope = (rb - ra) / (zb - za)
    return slope, ra - slope * za


def distinct(values: list[tuple[float, ...]]) -> list:
    """Each value once, whatever the rounding of the others."""
    found: list[tuple[float, ...]] = []
    for value in values:
        if all(max(abs(a - b) for a, b in zip(value, known)) > ONE for known in found):
            found.append(value)
    return found
