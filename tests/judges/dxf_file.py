"""A DXF file by its raw tags, and through ezdxf's reader, auditor and renderer."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import ezdxf
import matplotlib

matplotlib.use("Agg")

from ezdxf import bbox
from ezdxf.addons.drawing import matplotlib as drawing
from ezdxf.document import Drawing

ALLOWED = {"LINE", "LWPOLYLINE", "ARC"}
# What a drawing with words and dimensions may hold besides, and the blocks that draw its dimensions.
WORDED = ALLOWED | {"TEXT", "SOLID", "DIMENSION"}
# $INSUNITS 4 is millimetres, $MEASUREMENT 1 metric, AC1015 is R2000. Source: DXF reference, HEADER table.
MILLIMETRES, METRIC, R2000 = 4, 1, "AC1015"


def tags(path: Path) -> Iterator[tuple[int, str]]:
    """Group codes and values, line by line."""
    lines = path.read_text("ascii").splitlines()
    assert len(lines) % 2 == 0, "a group code without a value"
    for code, value in zip(lines[::2], lines[1::2]):
        yield int(code), value.strip()


def faults_of_tags(path: Path) -> list[str]:
    """Handles given twice, pointers to nothing: readers mend these in silence, so they are sought in the raw tags."""
    handles: Counter[str] = Counter()
    pointers: set[str] = set()
    record = variable = ""
    for code, value in tags(path):
        if code == 0:
            record, variable = value, ""
        elif code == 9:
            variable = value
        elif variable:
            continue  # the header's own variables, $HANDSEED among them
        elif code == (105 if record == "DIMSTYLE" else 5):
            handles[value.upper()] += 1
        elif 320 <= code <= 369 or code in (390, 480):
            pointers.add(value.upper())
    faults = [f"handle {h} given {n} times" for h, n in handles.items() if n > 1]
    return faults + [f"pointer to {p}, which is nothing" for p in sorted(pointers - handles.keys() - {"0"})]


def faults_of_document(doc: Drawing, allowed: set[str] = ALLOWED) -> list[str]:
    """What the auditor (undefined line types among it) and the project's own rules for drawings find wrong."""
    auditor = doc.audit()
    faults = [f"error {e.code}: {e.message}" for e in auditor.errors]
    faults += [f"mended {e.code}: {e.message}" for e in auditor.fixes]
    header = (doc.dxfversion, doc.header.get("$INSUNITS"), doc.header.get("$MEASUREMENT"))
    if header != (R2000, MILLIMETRES, METRIC):
        faults.append(f"version, unit, measurement {header}")
    layers = {layer.dxf.name for layer in doc.layers}
    entities = list(doc.modelspace())
    if not entities:
        faults.append("nothing drawn")
    pictures = [block for block in doc.blocks if not block.is_any_layout]
    for entity in itertools.chain(entities, *pictures):
        kind, layer = entity.dxftype(), entity.dxf.layer
        if kind not in allowed:
            faults.append(f"a {kind}")
        # 256, -1 and BYLAYER: colour, width and line type of the layer. Source: DXF reference, common group codes.
        style = (entity.dxf.color, entity.dxf.lineweight, entity.dxf.linetype.upper(), entity.dxf.ltscale)
        if style != (256, -1, "BYLAYER", 1.0):
            faults.append(f"a {kind} with a style of its own, {style}")
        if layer not in layers or layer.upper() in ("0", "DEFPOINTS"):
            faults.append(f"a {kind} on layer {layer!r}, which is not one of the drawing's own")
    return sorted(set(faults))


def read(path: Path, allowed: set[str] = ALLOWED) -> Drawing:
    """The document, of entities of these kinds; fails with everything that is wrong with it."""
    assert faults_of_tags(path) == [], path
    doc = ezdxf.readfile(path)
    assert faults_of_document(doc, allowed) == [], path
    return doc


def extents(doc: Drawing, layer: str) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of a layer, in mm."""
    drawn = [e for e in doc.modelspace() if e.dxf.layer == layer]
    assert drawn, f"layer {layer!r} is empty; there are {sorted({e.dxf.layer for e in doc.modelspace()})}"
    box = bbox.extents(drawn, fast=False)
    return (*box.extmin.vec2, *box.extmax.vec2)


def render(doc: Drawing, png: Path) -> None:
    """Draws the model space as a PNG on white."""
    drawing.qsave(doc.modelspace(), str(png), bg="#FFFFFF", fg="#000000", dpi=100)
