"""Two meshes screwed together by manifold3d's booleans: no number of the program's but where the inner one rests."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import manifold3d
import numpy as np
import stl_file

# Angles at which the turn is looked for, before it is found by halving.
SCAN = 24
# Halvings of a step of the scan: 15 degrees to 0.0005.
HALVINGS = 15
# Turns on which the angle is looked for: booleans of the whole run take ten times as long.
TURNS = 2.0
# Common volume in mm3 that is none: rounding of float32, and of the boolean itself.
NOTHING = 1e-6


def manifold(path: Path) -> manifold3d.Manifold:
    """The triangles of an STL as a solid."""
    mesh = stl_file.parse(path.read_bytes())
    return manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices, mesh.faces.astype(np.uint64)))


def slab(body: manifold3d.Manifold, low: float, high: float) -> manifold3d.Manifold:
    """What lies between two z."""
    return body.trim_by_plane((0, 0, 1), low).trim_by_plane((0, 0, -1), -high)


@dataclass(frozen=True)
class Mated:
    """An inner part in an outer one, between two z of the outer part."""

    inner: manifold3d.Manifold
    outer: manifold3d.Manifold
    rests: float  # z of the outer part at z = 0 of the inner one
    low: float
    high: float
    pitch: float

    def common(self, angle: float, push: float = 0.0) -> manifold3d.Manifold:
        """What both have in common, the inner part turned by so many degrees and pushed along the axis."""
        inner = self.inner.rotate((0, 0, angle)).translate((0, 0, self.rests + push))
        # Where both are thread: a push brings one end of the inner thread into the run, and what lies beyond it.
        ends = self.low + max(push, 0.0), self.high + min(push, 0.0)
        return slab(self.outer, *ends) ^ slab(inner, *ends)

    def centred(self) -> float:
        """The angle, in degrees, at which flanks are even: half-way between two of equal volume on either side."""
        middle, half = (self.low + self.high) / 2, TURNS / 2 * self.pitch
        outer = slab(self.outer, middle - half, middle + half)
        inner = slab(self.inner.translate((0, 0, self.rests)), middle - half, middle + half)

        def volume(angle: float) -> float:
            return (outer ^ inner.rotate((0, 0, angle))).volume()

        step = 360.0 / SCAN
        volumes = [volume(n * step) for n in range(SCAN)]
        least = int(np.argmin(volumes))
        level = min(volumes[(least + 3) % SCAN], volumes[least - 3])
        assert level > 1.2 * volumes[least] + NOTHING, volumes
        sides = []
        for side in (-1, 1):
            free, caught = 0.0, 3 * step
            for _ in range(HALVINGS):
                half_way = (free + caught) / 2
                if volume(least * step + side * half_way) < level:
                    free = half_way
                else:
                    caught = half_way
            sides.append(least * step + side * caught)
        return sum(sides) / 2
