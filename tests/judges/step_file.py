"""A STEP file through Open CASCADE's reader. Imports OCP, so it is imported by the judges alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import turned
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPControl import STEPControl_Reader
from OCP.ShapeAnalysis import ShapeAnalysis_ShapeTolerance
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Shape

# Relative error asked of the integration of volume and area.
INTEGRATION = 1e-8
# What edges may be off their faces after reading: ten times the uncertainty that the file states.
TOLERANCE = 1e-5


@dataclass(frozen=True)
class StepFile:
    """What Open CASCADE made of a file."""

    text: str
    faults: list[str]
    volume: float
    area: float
    tolerance: float
    faces: int
    cylinders: list[tuple[float, ...]]
    cones: list[tuple[float, ...]]

    def names(self) -> set[str]:
        """Of the faces, as written."""
        return set(re.findall(r"ADVANCED_FACE\('([^']*)'", self.text))

    def instances(self, entity: str) -> int:
        return len(re.findall(rf"={entity}\(", self.text))


def each(shape: TopoDS_Shape, kind: TopAbs_ShapeEnum) -> list[TopoDS_Shape]:
    explorer, found = TopExp_Explorer(shape, kind), []
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def read(path: Path) -> StepFile:
    """Reads and measures; what is wrong with it is listed."""
    reader, faults = STEPControl_Reader(), []
    if reader.ReadFile(str(path)) != IFSelect_RetDone:
        return StepFile(path.read_text("ascii"), ["not read"], 0.0, 0.0, 0.0, 0, [], [])
    session = reader.WS()
    # False: warnings count as well as failures.
    if not session.ModelCheckList(False).IsEmpty(False):
        faults.append("messages on reading")
    if reader.TransferRoots() != 1:
        faults.append(f"{reader.NbShapes()} roots")
    if not session.TransferReader().LastCheckList().IsEmpty(False):
        faults.append("messages on transfer")
    shape = reader.OneShape()
    solids = each(shape, TopAbs_ShapeEnum.TopAbs_SOLID)
    shells = each(shape, TopAbs_ShapeEnum.TopAbs_SHELL)
    if (len(solids), len(shells)) != (1, 1):
        faults.append(f"{len(solids)} solids, {len(shells)} shells")
    if not all(shell.Closed() for shell in shells):
        faults.append("open shell")
    if not BRepCheck_Analyzer(shape).IsValid():
        faults.append("not valid")
    tolerance = ShapeAnalysis_ShapeTolerance().Tolerance(shape, 1)
    if tolerance > TOLERANCE:
        faults.append(f"tolerance {tolerance}")
    cylinders, cones = [], []
    faces = each(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    for face in faces:
        surface = BRepAdaptor_Surface(TopoDS.Face(face))
        if surface.GetType() == GeomAbs_SurfaceType.GeomAbs_Cylinder:
            cylinder = surface.Cylinder()
            faults += off_axis(cylinder.Axis())
            cylinders.append((cylinder.Radius(),))
        elif surface.GetType() == GeomAbs_SurfaceType.GeomAbs_Cone:
            cone = surface.Cone()
            faults += off_axis(cone.Axis())
            # Two points on it, along its own axis.
            (ra, za), (rb, zb) = (half_plane(surface, v) for v in (0.0, 1.0))
            cones.append(turned.cone(ra, za, rb, zb))
    solid, skin = GProp_GProps(), GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, solid, INTEGRATION)
    BRepGProp.SurfaceProperties_s(shape, skin, INTEGRATION)
    return StepFile(
        path.read_text("ascii"),
        sorted(set(faults)),
        solid.Mass(),
        skin.Mass(),
        tolerance,
        len(faces),
        turned.distinct(cylinders),
        turned.distinct(cones),
    )


def reader(path: Path) -> STEPControl_Reader:
    """A reader that has read and transferred a file, for those who judge something else than the file."""
    reader = STEPControl_Reader()
    assert reader.ReadFile(str(path)) == IFSelect_RetDone, path
    reader.TransferRoots()
    return reader


def shape(path: Path) -> TopoDS_Shape:
    """The solid of a file."""
    return reader(path).OneShape()


def half_plane(surface: BRepAdaptor_Surface, v: float) -> tuple[float, float]:
    point = surface.Value(0.0, v)
    return (point.X() ** 2 + point.Y() ** 2) ** 0.5, point.Z()


def off_axis(axis) -> list[str]:
    place, along = axis.Location(), axis.Direction()
    straight = max(abs(place.X()), abs(place.Y()), abs(along.X()), abs(along.Y())) < 1e-12
    return [] if straight else ["not about the axis"]
