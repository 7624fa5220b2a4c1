"""Distances between named faces of a STEP file by Open CASCADE. Imports OCP, so it is imported by the judges alone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import step_file
from OCP.BRep import BRep_Builder
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopoDS import TopoDS_Compound, TopoDS_Face


def faces(path: Path) -> list[tuple[str, TopoDS_Face]]:
    """Each face with the name that it has in the file."""
    reader = step_file.reader(path)
    transfer = reader.WS().TransferReader()
    found = step_file.each(reader.OneShape(), TopAbs_ShapeEnum.TopAbs_FACE)
    return [(transfer.EntityFromShapeResult(face, 1).Name().ToCString(), face) for face in found]


def distance(of: list[tuple[str, TopoDS_Face]], one: Callable[[str], bool], other: Callable[[str], bool]) -> float:
    """The least distance between the faces of some names and those of others."""
    builder = BRep_Builder()
    sides = []
    for wanted in (one, other):
        side = TopoDS_Compound()
        builder.MakeCompound(side)
        chosen = [face for name, face in of if wanted(name)]
        assert chosen, sorted({name for name, _ in of})
        for face in chosen:
            builder.Add(side, face)
        sides.append(side)
    found = BRepExtrema_DistShapeShape(*sides)
    assert found.IsDone()
    return found.Value()
