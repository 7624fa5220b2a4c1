"""Corners of a drawing's limits: every size as far off as its limits allow, and the design that this is."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from math import atan, degrees

import drawing_volume
import numpy as np
from drawing_part import Rebuilt
from drawing_truth import BESIDE
from drawing_walls import Node, Wall
from drawing_words import DrawingFault
from random_designs import Sizes

# Corners by dice, beside those that are chosen.
RANDOM = 2
# A size moved by this, in mm or degrees, shows whether it adds material.
NUDGE = 1e-4


def corners(part: Rebuilt, seed: int) -> Iterator[tuple[str, np.ndarray]]:
    """Most and least material; the same of what lies across, with all that lies along the axis long, and short; random."""
    sizes = part.sizes
    off = np.array([value.may_be_off(sizes.sheet.notes.general) for value in sizes.values])
    drawn = np.array([value.number for value in sizes.values])
    more = material(part, drawn) > 0
    along = np.array([value.kind in ("length", "chamfer") for value in sizes.values])
    most = np.where(more, off[:, 1], off[:, 0])
    least = np.where(more, off[:, 0], off[:, 1])
    yield "most material", drawn + most
    yield "least material", drawn + least
    for name, across in (("most", most), ("least", least)):
        for way, end in (("short", 0), ("long", 1)):
            yield f"{name} material across, lengths {way}", drawn + np.where(along, off[:, end], across)
    dice = random.Random(seed)
    for n in range(RANDOM):
        ends = [dice.randrange(2) for _ in sizes.values]
        yield f"random {n}", drawn + off[np.arange(len(ends)), ends]


def material(part: Rebuilt, drawn: np.ndarray) -> np.ndarray:
    """By how much the plain part's volume grows with each size."""
    base = drawing_volume.plain(part)
    grown = []
    for n in range(len(drawn)):
        values = drawn.copy()
        values[n] += NUDGE
        grown.append((drawing_volume.plain(part.with_values(values)) - base) / NUDGE)
    return np.array(grown)


def sizes(of: Sizes, drawn: Rebuilt, at: Rebuilt) -> Sizes:
    """The sizes of a random design at a corner: each point of the drawing is found by its true place, and read there.

    A hole is as wide as the drawing lets it be: what its tool may cut over is in that already.
    """
    outside, bore = drawn.sizes.walls.all

    def moved(wall: Wall, z: float, d: float) -> tuple[float, float, Node]:
        def away(node: Node) -> float:
            return max(abs(drawn.x[node.z] - z), abs(drawn.x[node.d] - d))

        near = min(wall.nodes, key=away)
        if away(near) > drawn.rounding().max() + BESIDE:
            raise DrawingFault(f"{of.name} has no point at z {z}, diameter {d}")
        return at.x[near.z], at.x[near.d], near

    def included(wall: Wall, node: Node, angle: float | None) -> float | None:
        if angle is None:
            return None
        after = wall.nodes[wall.nodes.index(node) + 1]
        return 2 * degrees(atan((at.x[node.d] - at.x[after.d]) / 2 / (at.x[after.z] - at.x[node.z])))

    seat, recess_d, _ = moved(bore, of.seat, of.recess_d)
    clearance_z, clearance_d, clearance = moved(bore, of.clearance_z, of.clearance_d)
    drill_z, drill_d, drill = moved(bore, of.drill_z, of.drill_d)
    end, through_d, _ = moved(bore, of.end, of.through_d)
    (unit,) = (thread for thread in drawn.sizes.threads if not thread.external)
    changed = replace(
        of, exact=True, basic=False, seat=seat, recess_d=recess_d, clearance_z=clearance_z, clearance_d=clearance_d, drill_z=drill_z,
        drill_d=drill_d, end=end, through_d=through_d, thread_z=at.x[unit.z[1]],
        clearance_point=included(bore, clearance, of.clearance_point), drill_point=included(bore, drill, of.drill_point),
        front=moved(outside, 0.0, of.front)[1], runs=tuple(moved(outside, z, d)[:2] for z, d in of.runs),
    )  # fmt: skip
    if of.relief:
        z, d, _ = moved(outside, of.shoulder + of.relief[0], of.relief[1])
        changed = replace(changed, relief=(z - changed.shoulder, d))
    tip = of.end
    if of.pilot:
        tip -= of.pilot[0]
        z, d, _ = moved(outside, tip, of.pilot[1])
        changed = replace(changed, pilot=(end - z, d))
    if of.chamfer:
        z, d, _ = moved(outside, tip, of.tenon_d - 2 * of.chamfer)
        start, crest, _ = moved(outside, tip - of.chamfer, of.tenon_d)
        depth = (crest - d) / 2
        changed = replace(changed, chamfer=depth, chamfer_angle=degrees(atan(depth / (z - start))))
    return changed
