"""The chains that a drawing has to give back: of a random part by its numbers, of others by half-section.dxf."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import names
from drawing_part import Rebuilt
from turned import Turned

Point = tuple[float, float, float]

# Beside its rounding a drawing may be off by this, in mm: coincidence is decided at 1e-7.
BESIDE = 1e-6


def of_part(part: Turned) -> list[list[Point]]:
    """z, diameter and bulge of the outside from mouth to mouth, and of the bore."""
    outside = [part.bore[0], *part.outside, part.bore[-1]]
    return [merged([(z, 2 * r, 0.0) for r, z in chain]) for chain in (outside, part.bore)]


def of_file(path: Path) -> list[list[Point]]:
    """Of the upper half of a half-section that is drawn true to size."""
    found: dict[str, list[list[Point]]] = {names.OUTLINE_LAYER: [], names.BORE_LAYER: []}
    for entity in ezdxf.readfile(path).modelspace().query("LWPOLYLINE"):
        points = [(float(x), 2 * float(y), float(b)) for x, y, b in entity.get_points("xyb")]
        if entity.dxf.layer in found and max(d for _, d, _ in points) > 0:
            found[entity.dxf.layer].append(merged(points))
    bores = sorted(found[names.BORE_LAYER])
    (outline,) = found[names.OUTLINE_LAYER]
    return [outline, *bores]


def merged(chain: list[Point]) -> list[Point]:
    """Each point once; planes and cylinders that go on in each other as one."""
    points: list[Point] = []
    for point in chain:
        if points and max(abs(a - b) for a, b in zip(points[-1][:2], point)) < BESIDE and points[-1][2] == 0:
            points.pop()
        points.append(point)
    kept = []
    for n, point in enumerate(points):
        before, behind = points[max(n - 1, 0)], points[min(n + 1, len(points) - 1)]
        inner = 0 < n < len(points) - 1 and before[2] == 0 == point[2]
        along = any(max(abs(before[i] - point[i]), abs(behind[i] - point[i])) < BESIDE for i in (0, 1))
        if not (inner and along):
            kept.append(point)
    return kept


def differences(part: Rebuilt, truth: list[list[Point]]) -> list[str]:
    """Points of a rebuilt part that are off by more than the drawing's numbers are rounded."""
    walls = part.sizes.walls.all
    counts = [len(wall.nodes) for wall in walls], [len(chain) for chain in truth]
    if counts[0] != counts[1]:
        return [f"{counts[0]} points drawn, of {counts[1]}"]
    may, found = part.rounding() + BESIDE, []
    for wall, chain in zip(walls, truth):
        for node, (z, d, bulge), (_, _, rebuilt) in zip(wall.nodes, chain, part.chain(wall)):
            for what, number, true in (("z", node.z, z), ("diameter", node.d, d)):
                if abs(part.x[number] - true) > may[number]:
                    found.append(f"{what} of {wall.name}: {part.x[number]:.5f}, not {true:.5f} (by {may[number]:.5f})")
            if (bulge == 0) != (rebuilt == 0) or bulge * rebuilt < 0:
                found.append(f"an arc of {wall.name} at z {z:.3f} bends another way")
    return found
