"""R1 as a solid of Open CASCADE's: revolved pieces, and grooves from helicoid faces of one turn each.

One turn a face: with one long face, a pipe or a loft, Open CASCADE returns solids that its own check
calls valid with whole threads missing. Imports OCP, so it is imported by the judge alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np
import r1_reference as r1
from OCP.BRep import BRep_Builder
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepFill import BRepFill
from OCP.BRepGProp import BRepGProp
from OCP.BRepLib import BRepLib
from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
from OCP.GeomAPI import GeomAPI_Interpolate
from OCP.collections import HArray1_gp_Pnt
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt
from OCP.GProp import GProp_GProps
from OCP.TopoDS import TopoDS, TopoDS_Shape

AXIS = gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))
# Points of the cubic spline through one turn of a helix: off it by 5 (2 pi / 96)^4 / 384 = 2.4e-7 mm.
# Fewer and the volume leaves its last printed digits, more and the booleans slow down.
TURN_POINTS = 96
# Relative error asked of the adaptive integration; a tenth of what is judged, which triples the time.
INTEGRATION = 1e-8
# The grooves' open side lies this far off the crests, so that no face of theirs falls on one.
CLEAR = 0.1

HalfPlane = Iterable[tuple[float, float]]


def revolved(outline: HalfPlane) -> TopoDS_Shape:
    """The closed outline of (r, z) corners, turned about the axis."""
    polygon = BRepBuilderAPI_MakePolygon()
    for r, z in outline:
        polygon.Add(gp_Pnt(r, 0, z))
    polygon.Close()
    return BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(polygon.Wire()).Face(), AXIS).Shape()


def helix(r: float, z: float, lead: float, turn: int) -> TopoDS_Shape:
    """One turn of the helix that passes (r, z) at theta 0 of turn 0."""
    points = HArray1_gp_Pnt(1, TURN_POINTS + 1)
    for i in range(TURN_POINTS + 1):
        theta = 2 * np.pi * i / TURN_POINTS
        rise = z + lead * (turn + i / TURN_POINTS)
        points.SetValue(i + 1, gp_Pnt(r * np.cos(theta), r * np.sin(theta), rise))
    curve = GeomAPI_Interpolate(points, False, 1e-9)
    curve.Perform()
    return BRepBuilderAPI_MakeEdge(curve.Curve()).Edge()


def groove(corners: list[tuple[float, float]], lead: float, turns: range) -> TopoDS_Shape:
    """A solid swept by the closed outline of (r, z) corners as it climbs `lead` a turn."""
    sewing = BRepBuilderAPI_Sewing(1e-6)
    closed = [*corners, corners[0]]
    for turn in turns:
        for (ra, za), (rb, zb) in pairwise(closed):
            sewing.Add(BRepFill.Face_s(helix(ra, za, lead, turn), helix(rb, zb, lead, turn)))
    for turn in (turns.start, turns.stop):
        cap = BRepBuilderAPI_MakePolygon()
        for r, z in corners:
            cap.Add(gp_Pnt(r, 0, z + lead * turn))
        cap.Close()
        sewing.Add(BRepBuilderAPI_MakeFace(cap.Wire()).Face())
    sewing.Perform()
    solid = BRepBuilderAPI_MakeSolid(TopoDS.Shell(sewing.SewedShape())).Solid()
    BRepLib.OrientClosedSolid_s(solid)
    return solid


def groove_of(thread: r1.Thread, z: float, internal: bool, turns: range) -> TopoDS_Shape:
    """What a tool removes: an internal thread's ridge of air, or an external thread's groove."""
    p, h = thread.pitch, thread.depth
    slope = h / (5 * p / 16)
    if internal:
        deep, open_, half = thread.major, thread.minor - CLEAR, p / 16
        centre = z
    else:
        deep, open_, half = thread.minor, thread.major + CLEAR, p / 8
        centre = z + p / 2
    wide = half + abs(deep - open_) / slope
    corners = [(deep, centre - half), (deep, centre + half), (open_, centre + wide), (open_, centre - wide)]
    return groove(corners, p, turns)


def build() -> TopoDS_Shape:
    """R1."""
    grip = revolved([(3.0, 0.0), (r1.LIP_R, 0.0), (r1.SHOULDER_R, r1.SHOULDER), (3.0, r1.SHOULDER)])
    tenon = revolved([(3.0, 21.0), (5.0, 21.0), (5.0, r1.TIP_Z), (r1.TIP_R, 32.0), (3.0, 32.0)])
    tenon = BRepAlgoAPI_Cut(tenon, groove_of(r1.TENON, r1.TENON.start, False, range(-2, 17))).Shape()
    thread = groove_of(r1.UNIT, r1.UNIT.start, True, range(-2, 15))
    between = revolved([(3.5, r1.THREAD), (4.3, r1.THREAD), (4.3, r1.TAPPED), (3.5, r1.TAPPED)])
    thread = BRepAlgoAPI_Common(thread, between).Shape()
    stations = [
        (0.0, r1.RECESS_R),
        (r1.FLOOR, r1.CLEARANCE_R),
        (r1.THREAD, r1.UNIT.minor),
        (r1.DRILLED, r1.THROUGH_R),
        (r1.LENGTH, 0.0),
    ]
    steps = [(r, z) for (za, r), (zb, _) in pairwise(stations) for z in (za, zb)]
    bore = revolved([(0.0, 0.0), *steps, (0.0, r1.LENGTH)])
    whole = BRepAlgoAPI_Fuse(grip, tenon).Shape()
    whole = BRepAlgoAPI_Cut(whole, bore).Shape()
    return BRepAlgoAPI_Cut(whole, thread).Shape()


def is_valid(shape: TopoDS_Shape) -> bool:
    """Open CASCADE's own check."""
    return BRepCheck_Analyzer(shape).IsValid()


def measured(shape: TopoDS_Shape) -> r1.Integrals:
    """Volume, area and centroid, by adaptive integration over the faces."""
    solid, skin = GProp_GProps(), GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, solid, INTEGRATION)
    BRepGProp.SurfaceProperties_s(shape, skin, INTEGRATION)
    centre = solid.CentreOfMass()
    return r1.Integrals(solid.Mass(), centre.X(), centre.Y(), centre.Z(), skin.Mass())
