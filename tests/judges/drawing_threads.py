"""The threads of a distorted drawing (ISO 6410-1): where the line of the root lies, where full thread ends."""

from __future__ import annotations

from dataclasses import dataclass

from drawing_file import Sheet, Spot
from drawing_walls import Wall, Walls
from drawing_words import DrawingFault, ThreadWords


@dataclass
class Drawn:
    """A thread as it is drawn: its wall, the places of its ends and their unknowns, and what its callout says."""

    external: bool
    wall: Wall
    ends: tuple[float, float]
    z: tuple[int, int]
    words: ThreadWords | None = None

    def crest(self) -> list[float]:
        """Heights of the cylinders that it is cut into."""
        low, high = self.ends
        found = []
        for a, b in zip(self.wall.nodes, self.wall.nodes[1:]):
            if a.spot[1] == b.spot[1] and a.spot[0] < high and b.spot[0] > low:
                found.append(a.spot[1])
        return found


def find(sheet: Sheet, walls: Walls) -> list[Drawn]:
    """Root lines of one height are one thread; an external one is drawn below the axis too."""
    lines = [tuple(sorted(ends)) for ends in sheet.lines["thread"]]
    mirrored = {((a[0], -a[1]), (b[0], -b[1])) for a, b in lines}
    above = [ends for ends in lines if ends[0][1] > 0]
    threads = []
    for external in (True, False):
        heights: dict[float, list[tuple[Spot, Spot]]] = {}
        for ends in above:
            if (ends in mirrored) == external:
                heights.setdefault(ends[0][1], []).append(ends)
        for of in heights.values():
            low, high = min(a[0] for a, _ in of), max(b[0] for _, b in of)
            wall = walls.outside if external else bore_of(walls, low, high)
            ends = (full_end(sheet, wall, low, -1), full_end(sheet, wall, high, 1))
            numbers = tuple(unknown(walls, wall, x, f"thread {len(threads) + 1}") for x in ends)
            threads.append(Drawn(external, wall, ends, numbers))
    return threads


def bore_of(walls: Walls, low: float, high: float) -> Wall:
    for wall in walls.all[1:]:
        if wall.nodes[0].spot[0] <= low and high <= wall.nodes[-1].spot[0]:
            return wall
    raise DrawingFault("a thread's root line lies beside no bore")


def full_end(sheet: Sheet, wall: Wall, x: float, way: int) -> float:
    """Where full thread ends whose root line ends at x: there, or at the end of the slope that the line ends in."""
    limits = {a[0] for layer in ("thread-end", "thread-end-hidden") for a, b in sheet.lines[layer] if a[0] == b[0]}
    corners = {node.spot[0] for node in [*wall.nodes, *wall.corners.values()]}
    if x in limits or x in corners:
        return x
    for a, b in zip(wall.nodes, wall.nodes[1:]):
        if a.spot[0] < x < b.spot[0] and a.spot[1] != b.spot[1]:
            far = b.spot[0] if way > 0 else a.spot[0]
            between = [z for z in limits if min(x, far) < z < max(x, far)]
            return min(between, key=lambda z: abs(z - x)) if between else far
    raise DrawingFault("nothing shows where a thread ends")


def unknown(walls: Walls, wall: Wall, x: float, name: str) -> int:
    for node in wall.dimensioned():
        if node.spot[0] == x:
            return node.z
    return walls.z(wall.name, x, name)
