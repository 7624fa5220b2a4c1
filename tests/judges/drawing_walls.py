"""The walls of a distorted drawing, their points as unknowns: what coincides is one unknown.

A wall is the outside with both faces, or one piece of the bore. Its corners are those that are dimensioned: where an
extension line leads from both ends of a chamfer or fillet to a point, that point is the corner, and the two ends lie on the
sides before and behind it.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from drawing_file import Chain, Sheet, Spot
from drawing_solve import Equation, System
from drawing_words import DrawingFault


@dataclass(frozen=True)
class Node:
    """A point of a wall: where it is drawn, and the unknowns that are its z and its diameter."""

    spot: Spot
    z: int
    d: int


@dataclass
class Wall:
    """A chain of pieces between nodes, from the front to the back."""

    name: str
    nodes: list[Node]
    senses: list[int]
    # By the number of a piece: the corner that it cuts.
    corners: dict[int, Node]
    # Pairs of nodes that a sloped line over a groove or bead joins.
    bridges: list[tuple[int, int]]

    def side(self, piece: int) -> tuple[Node, Node]:
        """The ends of a piece as it is dimensioned, run on to its corners."""
        return self.corners.get(piece - 1, self.nodes[piece]), self.corners.get(piece + 1, self.nodes[piece + 1])

    def dimensioned(self) -> list[Node]:
        """Corners, from the front to the back, without the ends of cuts."""
        cut = {n for piece in self.corners for n in (piece, piece + 1)}
        own = [node for n, node in enumerate(self.nodes) if n not in cut]
        return sorted([*own, *self.corners.values()], key=lambda node: node.spot)

    def straight(self, piece: int) -> bool:
        return self.senses[piece] == 0


@dataclass
class Walls:
    """All walls of a drawing, and the system that they are unknowns of."""

    system: System = field(default_factory=System)
    all: list[Wall] = field(default_factory=list)
    known: dict[tuple, int] = field(default_factory=dict)
    # What a bore's mouth shares with the outside.
    shared: dict[tuple, tuple] = field(default_factory=dict)
    # A place at which each unknown is drawn: whether z, which wall, and the distorted coordinate.
    places: dict[int, tuple[str, str, float]] = field(default_factory=dict)

    @property
    def outside(self) -> Wall:
        return self.all[0]

    def number(self, key: tuple, place: tuple[str, str, float]) -> int:
        key = self.shared.get(key, key)
        if key not in self.known:
            axis, wall, at = place
            self.known[key] = self.system.unknown(f"{axis} of {wall} at {' '.join(str(k) for k in key[2:])}")
            self.places[self.known[key]] = place
        return self.known[key]

    def z(self, wall: str, x: float, own: str = "") -> int:
        return self.number(("z", wall, round(x, 3), *([own] if own else [])), ("z", wall, x))

    def d(self, wall: str, y: float, own: str) -> int:
        return self.number(("d", wall, round(y, 3), own), ("d", wall, y))

    def fix(self, unknown: int) -> None:
        """Makes an unknown 0: on the axis, or at the origin."""
        name = f"{self.system.names[unknown]} is 0"
        self.system.equations.append(Equation(name, (unknown,), (), lambda x, v: x[0], drawn=False))


def walls(sheet: Sheet) -> Walls:
    """Finds them; the front face is z = 0."""
    upper = [c for c in sheet.chains["outline"] if max(y for _, y in c.points) > 0]
    if len(upper) != 1:
        raise DrawingFault(f"{len(upper)} outlines above the axis")
    bores = sorted(sheet.chains["bore"], key=lambda c: c.points[0])
    found = Walls()
    outline = upper[0]
    for n, bore in enumerate(bores):
        for end in (0, -1):
            if bore.points[end] == outline.points[end]:
                x, y = bore.points[end]
                name = f"bore {n + 1}"
                found.shared["z", name, round(x, 3)] = ("z", "outside", round(x, 3))
                if y > 0:
                    levels = [levels_of(chain, sheet.lines["extension"])[end] for chain in (bore, outline)]
                    found.shared["d", name, round(y, 3), levels[0]] = ("d", "outside", round(y, 3), levels[1])
    found.all.append(wall(found, "outside", outline, sheet.lines["extension"]))
    found.all += [wall(found, f"bore {n + 1}", bore, sheet.lines["extension"]) for n, bore in enumerate(bores)]
    found.fix(found.outside.nodes[0].z)
    axis = {node.d for w in found.all for node in w.nodes if node.spot[1] == 0}
    for unknown in sorted(axis):
        found.fix(unknown)
    return found


def levels_of(chain: Chain, extensions: list[tuple[Spot, Spot]]) -> list[str]:
    """What each point's diameter belongs to: one for the ends of a cylinder, and of its parts that a line joins.

    Two places of one diameter that nothing joins are two sizes: no reader can know that they are meant to be equal.
    """
    points = chain.points
    first = list(range(len(points)))
    joined = [(n, n + 1) for n in range(len(points) - 1) if points[n][1] == points[n + 1][1]]
    at = {spot: n for n, spot in enumerate(points)}
    joined += [(at[a], at[b]) for a, b in extensions if a in at and b in at and a[1] == b[1]]
    for _ in points:
        for a, b in joined:
            first[a] = first[b] = min(first[a], first[b])
    return [f"level {n}" for n in first]


def wall(walls: Walls, name: str, chain: Chain, extensions: list[tuple[Spot, Spot]]) -> Wall:
    """A chain's nodes; those that follow from others are unknowns of their own."""
    at = {spot: n for n, spot in enumerate(chain.points)}
    corners: dict[int, Spot] = {}
    leads: dict[Spot, list[int]] = {}
    bridges = []
    for a, b in extensions:
        if a in at and b in at:
            bridges.append((min(at[a], at[b]), max(at[a], at[b])))
        elif a in at or b in at:
            corner, end = (b, at[a]) if a in at else (a, at[b])
            leads.setdefault(corner, []).append(end)
    for corner, ends in leads.items():
        first, last = min(ends), max(ends)
        if len(ends) != 2 or last != first + 1:
            raise DrawingFault(f"extension lines lead from points {ends} of the {name} to one corner")
        corners[first] = corner
    cut = {n: corner for piece, corner in corners.items() for n in (piece, piece + 1)}
    levels = levels_of(chain, extensions)
    # Over a cylinder's interruption the diameter is one; over a taper's it follows from the taper.
    bridges = [pair for pair in bridges if chain.points[pair[0]][1] != chain.points[pair[1]][1]]
    over = {n for pair in bridges for n in pair}
    nodes = []
    for n, (x, y) in enumerate(chain.points):
        corner = cut.get(n)
        own = "" if corner is None else f"end of cut {n}"
        z = walls.z(name, x, own if corner and corner[0] != x else "")
        beside = own if corner and corner[1] != y else f"over groove {n}" if n in over else levels[n]
        nodes.append(Node((x, y), z, walls.d(name, y, beside)))
    sharp = {}
    for piece, (x, y) in corners.items():
        # A corner on the side that it runs on belongs to that side's cylinder.
        on = next((levels[n] for n in (piece, piece + 1) if chain.points[n][1] == y), f"corner {piece}")
        sharp[piece] = Node((x, y), walls.z(name, x), walls.d(name, y, on))
    return Wall(name, nodes, chain.senses, sharp, bridges)
