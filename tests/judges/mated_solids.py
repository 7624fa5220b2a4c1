"""Two STEP solids screwed together by Open CASCADE's booleans. Imports OCP, so it is imported by the judges alone."""

from __future__ import annotations

from math import radians
from pathlib import Path

import occt_build
import step_file
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
from OCP.TopoDS import TopoDS_Shape
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec

# Beyond every part, in mm.
FAR = 50.0


def slab(shape: TopoDS_Shape, low: float, high: float) -> TopoDS_Shape:
    """What lies between two z."""
    box = BRepPrimAPI_MakeBox(gp_Pnt(-FAR, -FAR, low), gp_Pnt(FAR, FAR, high)).Shape()
    return BRepAlgoAPI_Common(shape, box).Shape()


def common(inner: Path, outer: Path, angle: float, rests: float, low: float, high: float) -> float:
    """The volume in common between two z of the outer part, the inner one turned by so many degrees."""
    turn, shift = gp_Trsf(), gp_Trsf()
    turn.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), radians(angle))
    shift.SetTranslation(gp_Vec(0, 0, rests))
    moved = BRepBuilderAPI_Transform(step_file.shape(inner), shift.Multiplied(turn), True).Shape()
    both = BRepAlgoAPI_Common(slab(step_file.shape(outer), low, high), slab(moved, low, high)).Shape()
    assert occt_build.is_valid(both)
    return occt_build.volume(both)
