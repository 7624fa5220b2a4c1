"""Where words and lines of a drawing stand, as an outside reader and its font see them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from ezdxf.document import Drawing
from ezdxf.entities import DXFEntity, Text
from ezdxf.fonts import fonts

# A box is taken this much smaller, in mm of the part: shared borders are no overlap.
HAIR = 1e-6
# Arcs are looked at as chords that stray by no more than this, in mm of the part.
CHORD = 0.01
# The reader's own font for what has none: the one whose widths it draws.
FONT = "DejaVuSans.ttf"

Box = tuple[float, float, float, float]
Line = tuple[float, float, float, float]


def entities(doc: Drawing) -> Iterator[DXFEntity]:
    """All that is drawn, dimensions as their pictures."""
    for entity in doc.modelspace():
        if entity.dxftype() == "DIMENSION":
            yield from entity.virtual_entities()
        else:
            yield entity


def box(text: Text) -> Box:
    """Left, bottom, right, top of a text, from baseline to capitals; turned texts run upwards."""
    _, at, _ = text.get_placement()
    kind = text.get_align_enum().name
    width = fonts.make_font(FONT, text.dxf.height).text_width(text.plain_text())
    before = {"LEFT": 0.0, "CENTER": width / 2, "RIGHT": width}[kind]
    if abs(text.dxf.rotation) < 1:
        return at.x - before, at.y, at.x - before + width, at.y + text.dxf.height
    assert abs(text.dxf.rotation - 90) < 1e-9, "words are read from below or from the right"
    return at.x - text.dxf.height, at.y - before, at.x, at.y - before + width


def lines(entity: DXFEntity) -> list[Line]:
    """The straight pieces of an entity."""
    match entity.dxftype():
        case "LINE":
            ends = [entity.dxf.start, entity.dxf.end]
        case "LWPOLYLINE":
            from ezdxf.path import make_path

            ends = list(make_path(entity).flattening(CHORD))
        case "SOLID":
            ends = [entity.dxf.vtx0, entity.dxf.vtx1, entity.dxf.vtx2, entity.dxf.vtx0]
        case _:
            return []
    return [(a.x, a.y, b.x, b.y) for a, b in pairwise(ends)]


def crosses(line: Line, room: Box) -> bool:
    """Whether a line has points inside a box (Liang and Barsky's clipping)."""
    x, y, to_x, to_y = line
    low, high = 0.0, 1.0
    for at, by, least, most in ((x, to_x - x, room[0], room[2]), (y, to_y - y, room[1], room[3])):
        if by == 0:
            if not least < at < most:
                return False
            continue
        near, far = sorted(((least - at) / by, (most - at) / by))
        low, high = max(low, near), min(high, far)
    return low < high


def clashes(doc: Drawing) -> list[str]:
    """Words over words or lines, and whatever lies outside the frame but the sheet's own border."""
    drawn = list(entities(doc))
    words = []
    for text in drawn:
        if text.dxftype() == "TEXT":
            left, bottom, right, top = box(text)
            words.append((text.plain_text(), (left + HAIR, bottom + HAIR, right - HAIR, top - HAIR)))
    found = [
        f"{one!r} over {two!r}"
        for (one, a), (two, b) in combinations(words, 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
    for entity in drawn:
        for line in lines(entity):
            found += [f"{word!r} on a line of {entity.dxf.layer}" for word, room in words if crosses(line, room)]
    left, bottom, right, top = frame(doc)
    for entity in drawn:
        # The border and its grid references lie round the frame.
        if entity.dxf.layer in ("frame", "title"):
            continue
        places = [box(entity)] if entity.dxftype() == "TEXT" else lines(entity)
        for x, y, to_x, to_y in places:
            if min(x, to_x) < left or min(y, to_y) < bottom or max(x, to_x) > right or max(y, to_y) > top:
                found.append(f"a {entity.dxftype()} of {entity.dxf.layer} outside the frame")
    return found


def frame(doc: Drawing) -> Box:
    """The frame: the largest rectangle of its layer."""
    rings = [list(ring.get_points("xy")) for ring in doc.modelspace().query('LWPOLYLINE[layer=="frame"]')]
    boxes = [(min(x), min(y), max(x), max(y)) for x, y in (zip(*ring) for ring in rings)]
    return max(boxes, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]))


def crowded(doc: Drawing) -> int:
    """How many words stand on it: the drawing with the most is the worst to lay out."""
    return sum(entity.dxftype() == "TEXT" for entity in entities(doc))
