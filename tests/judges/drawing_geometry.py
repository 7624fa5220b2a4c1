"""What the shape of a drawn wall says without a size: what lies on what, and what is tangent to what."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from drawing_solve import Equation, Number
from drawing_walls import Node, Wall, Walls


@dataclass(frozen=True)
class Arc:
    """The unknowns of an arc: its radius, and its centre's z and r where something else lies on its circle.

    Of an arc that only joins its ends the radius is enough, up to half a circle, at which a centre would be a double root.
    """

    wall: Wall
    piece: int
    radius: int
    centre: tuple[int, int] | None


def of(walls: Walls) -> list[Arc]:
    """Adds what the shapes say to the system; gives the arcs."""
    arcs = []
    for wall in walls.all:
        own = {}
        for piece, sense in enumerate(wall.senses):
            if sense:
                name = f"of arc {piece + 1} of {wall.name}"
                centre = None
                if wall.corners.keys() & {piece - 1, piece, piece + 1}:
                    centre = (walls.system.unknown(f"centre's z {name}"), walls.system.unknown(f"centre's r {name}"))
                own[piece] = Arc(wall, piece, walls.system.unknown(f"radius {name}"), centre)
        for piece, arc in own.items():
            ends = (wall.nodes[piece], wall.nodes[piece + 1]) if piece in wall.corners else wall.side(piece)
            for end in ends if arc.centre else ():
                on_circle(walls, arc, end)
        for piece in wall.corners:
            for end, side in ((piece, piece - 1), (piece + 1, piece + 1)):
                on_side(walls, wall, own, wall.nodes[end], side, own.get(piece))
        for first, last in wall.bridges:
            on_line(walls, wall.side(first - 1)[0], wall.nodes[first], wall.nodes[last])
            on_line(walls, wall.nodes[first], wall.nodes[last], wall.side(last)[1])
        arcs += own.values()
    return arcs


def add(walls: Walls, name: str, unknowns: tuple[int, ...], is_zero: Callable[..., Number]) -> None:
    walls.system.equations.append(Equation(name, unknowns, (), lambda x, v: is_zero(*x), drawn=False))


def on_circle(walls: Walls, arc: Arc, node: Node) -> None:
    def is_zero(z: Number, d: Number, cz: Number, cr: Number, radius: Number) -> Number:
        return (z - cz) ** 2 + (d / 2 - cr) ** 2 - radius**2

    name = f"an end of arc {arc.piece + 1}"
    add(walls, name, (node.z, node.d, *arc.centre, arc.radius), is_zero)


def on_line(walls: Walls, a: Node, b: Node, c: Node) -> None:
    def is_zero(za: Number, da: Number, zb: Number, db: Number, zc: Number, dc: Number) -> Number:
        return (zb - za) * (dc - da) - (zc - za) * (db - da)

    add(walls, "three points of a line", (a.z, a.d, b.z, b.d, c.z, c.d), is_zero)


def on_side(walls: Walls, wall: Wall, arcs: dict[int, Arc], end: Node, side: int, fillet: Arc | None) -> None:
    """The end of a cut lies on the side beside it; a fillet is tangent to that."""
    first, last = wall.side(side)
    if side in arcs:
        beside = arcs[side]
        on_circle(walls, beside, end)
        if fillet:
            def in_line(z: Number, d: Number, az: Number, ar: Number, bz: Number, br: Number) -> Number:
                return (z - az) * (d / 2 - br) - (z - bz) * (d / 2 - ar)

            add(walls, "two arcs are tangent", (end.z, end.d, *fillet.centre, *beside.centre), in_line)
        return
    if end.z not in (first.z, last.z) and end.d not in (first.d, last.d):
        on_line(walls, first, end, last)
    if fillet:
        def square(z: Number, d: Number, cz: Number, cr: Number, za: Number, da: Number, zb: Number, db: Number) -> Number:
            return (z - cz) * (zb - za) + (d / 2 - cr) * (db - da) / 2

        numbers = (end.z, end.d, *fillet.centre, first.z, first.d, last.z, last.d)
        add(walls, "an arc is tangent to a line", numbers, square)
