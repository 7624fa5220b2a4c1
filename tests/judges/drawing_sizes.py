"""What the dimensions of a drawing say about the unknowns of its walls."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import pi

import drawing_geometry
import drawing_threads
import drawing_walls
import drawing_words as words
import numpy as np
from drawing_file import Dimension, Sheet, Spot
from drawing_solve import Equation, Number
from drawing_walls import Node, Wall, Walls
from drawing_words import DrawingFault, Value


@dataclass
class Sizes:
    """The walls, arcs and threads of a sheet, its dimensions as equations, and their values in the order of use."""

    sheet: Sheet
    walls: Walls
    arcs: list[drawing_geometry.Arc]
    threads: list[drawing_threads.Drawn]
    values: list[Value] = field(default_factory=list)
    # Unknowns that have a diameter of their own, so that a thread's designation need not give it.
    diameters: set[int] = field(default_factory=set)
    # What is wrong with single dimensions.
    faults: list[str] = field(default_factory=list)

    def add(self, name: str, unknowns: tuple[int, ...], value: Value, is_zero: Callable[..., Number]) -> None:
        """An equation in some unknowns and one value."""
        self.values.append(value)
        system = self.walls.system
        system.values.append(value.number)
        number = len(system.values) - 1
        system.equations.append(Equation(name, unknowns, (number,), lambda x, v: is_zero(*x, v[0])))


def of(sheet: Sheet) -> Sizes:
    """Reads every dimension."""
    walls = drawing_walls.walls(sheet)
    sizes = Sizes(sheet, walls, drawing_geometry.of(walls), drawing_threads.find(sheet, walls))
    kinds = {"length": length, "chamfer": chamfer, "diameter": diameter, "radius": radius}
    callouts = []
    angled: set[tuple[str, int]] = set()
    for dimension in sheet.dimensions:
        thread = words.thread(dimension.text)
        if thread:
            callouts.append((dimension, thread))
            continue
        found = words.values(dimension.text)
        try:
            if found is None:
                raise DrawingFault("these words are no size")
            kind, values = found
            if kind == "angle":
                angled.add(angle(sizes, dimension, values))
            else:
                kinds[kind](sizes, dimension, values)
        except DrawingFault as fault:
            sizes.faults.append(f"{dimension.text!r}: {fault}")
    for dimension, thread in callouts:
        try:
            callout(sizes, dimension, thread)
        except DrawingFault as fault:
            sizes.faults.append(f"{dimension.text!r}: {fault}")
    sizes.faults += [f"a thread of the {t.wall.name} has no callout" for t in sizes.threads if t.words is None]
    if sheet.notes.cone:
        for wall in walls.all[1:]:
            for piece in slopes(wall):
                if (wall.name, piece) not in angled:
                    cone(sizes, wall, piece, sheet.notes.cone, "the note on cones")
    return sizes


def upper(spot: Spot) -> Spot:
    return spot[0], abs(spot[1])


def at(sizes: Sizes, spot: Spot) -> Node | None:
    """The corner that is drawn at a point."""
    for wall in sizes.walls.all:
        for node in [*wall.dimensioned(), *wall.nodes]:
            if node.spot == spot:
                return node
    return None


def z_at(sizes: Sizes, spot: Spot) -> int:
    """The z that a length ends at: of a corner, or of an end of a thread."""
    node = at(sizes, spot)
    if node:
        return node.z
    ends = [t for t in sizes.threads if spot[0] in t.ends]
    # An external thread's end is pointed at on its crest.
    own = [t for t in ends if t.external == any(spot[1] in o.crest() for o in ends if o.external)]
    for thread in own or ends:
        return thread.z[thread.ends.index(spot[0])]
    raise DrawingFault("it ends at nothing")


def length(sizes: Sizes, dimension: Dimension, values: list[Value]) -> None:
    ends = sorted(upper(dimension.spots[n]) for n in ("defpoint2", "defpoint3"))
    if dimension.upright or ends[0][0] == ends[1][0]:
        raise DrawingFault("it measures no length along the axis")
    low, high = (z_at(sizes, spot) for spot in ends)
    sizes.add(dimension.text, (low, high), values[0], lambda a, b, v: b - a - v)


def chamfer(sizes: Sizes, dimension: Dimension, values: list[Value]) -> None:
    ends = sorted(upper(dimension.spots[n]) for n in ("defpoint2", "defpoint3"))
    for wall in sizes.walls.all:
        for a, b in zip(wall.nodes, wall.nodes[1:]):
            if [a.spot, b.spot] == ends:
                sign = 1 if b.spot[1] > a.spot[1] else -1
                sizes.add(f"{dimension.text} (its length)", (a.z, b.z), values[0], lambda p, q, v: q - p - v)
                numbers = (a.z, a.d, b.z, b.d)
                name = f"{dimension.text} (its angle)"
                sizes.add(name, numbers, values[1], lambda za, da, zb, db, v: rise(da, db, za, zb, sign, v))
                return
    raise DrawingFault("no slope lies between its ends")


def rise(da: Number, db: Number, za: Number, zb: Number, sign: int, degrees: Number) -> Number:
    """0 where a slope has an angle to the axis."""
    return (db - da) / 2 - sign * np.tan(degrees * pi / 180) * (zb - za)


def diameter(sizes: Sizes, dimension: Dimension, values: list[Value]) -> None:
    node = on_wall(sizes, upper(dimension.spots["defpoint2"]))
    if node is None or not dimension.upright:
        raise DrawingFault("it measures the diameter of nothing")
    sizes.diameters.add(node.d)
    sizes.add(dimension.text, (node.d,), values[0], lambda d, v: d - v)


def on_wall(sizes: Sizes, spot: Spot) -> Node | None:
    """The corner at a point, or one of the cylinder that the point lies on."""
    found = at(sizes, spot)
    for wall in () if found else sizes.walls.all:
        for piece in range(len(wall.senses)):
            a, b = wall.side(piece)
            if a.spot[1] == b.spot[1] == spot[1] and a.spot[0] <= spot[0] <= b.spot[0]:
                return a
    return found


def radius(sizes: Sizes, dimension: Dimension, values: list[Value]) -> None:
    x, y = dimension.spots["defpoint4"]
    for arc in sizes.arcs:
        low, high = (arc.wall.nodes[n].spot[0] for n in (arc.piece, arc.piece + 1))
        if low < x < high and y != 0:
            sizes.add(dimension.text, (arc.radius,), values[0], lambda r, v: r - v)
            return
    raise DrawingFault("it points at no arc")


def slopes(wall: Wall) -> list[int]:
    return [
        n
        for n, (a, b) in enumerate(zip(wall.nodes, wall.nodes[1:]))
        if wall.straight(n) and a.spot[0] != b.spot[0] and a.spot[1] != b.spot[1]
    ]


def angle(sizes: Sizes, dimension: Dimension, values: list[Value]) -> tuple[str, int]:
    """The included angle of the cone whose wide end it touches, and that narrows towards its tip."""
    spots = {upper(spot) for spot in dimension.spots.values()}
    tip = dimension.spots["defpoint4"][0]
    for wall in sizes.walls.all[1:] + sizes.walls.all[:1]:
        for piece in slopes(wall):
            narrow, wide = sorted(wall.nodes[piece : piece + 2], key=lambda node: node.spot[1])
            if wide.spot in spots and (tip > wide.spot[0]) == (narrow.spot[0] > wide.spot[0]):
                cone(sizes, wall, piece, values[0], dimension.text)
                return wall.name, piece
    raise DrawingFault("it touches no cone's wide end")


def cone(sizes: Sizes, wall: Wall, piece: int, value: Value, name: str) -> None:
    a, b = wall.nodes[piece : piece + 2]
    sign = 1 if b.spot[1] > a.spot[1] else -1
    numbers = (a.z, a.d, b.z, b.d)
    sizes.add(name, numbers, value, lambda za, da, zb, db, v: rise(da, db, za, zb, sign, v / 2))


def callout(sizes: Sizes, dimension: Dimension, thread: words.ThreadWords) -> None:
    """A thread's designation: of an external one its nominal diameter is the crest's, unless that has its own."""
    spot = upper(dimension.spots["defpoint2"])
    outside = [t for t in sizes.threads if t.external and spot[1] in t.crest()]
    inside = [t for t in sizes.threads if not t.external]
    near = sorted(outside or inside, key=lambda t: max(t.ends[0] - spot[0], spot[0] - t.ends[1], 0.0))
    if not near:
        raise DrawingFault("it stands at no thread")
    if near[0].words:
        raise DrawingFault("redundant: the thread has a callout")
    near[0].words = thread
    if outside:
        node = on_wall(sizes, spot)
        if node is None:
            raise DrawingFault("it stands on no cylinder")
        if node.d not in sizes.diameters:
            value = Value(thread.nominal, 0.0, (0.0, 0.0), "diameter")
            sizes.add(dimension.text, (node.d,), value, lambda d, v: d - v)
