"""A turned part as Open CASCADE builds it its own way: revolved outline, grooves from helicoid faces of one turn each.

One turn a face: with one long face, a pipe or a loft, Open CASCADE returns solids that its own check
calls valid with whole threads missing. Imports OCP, so it is imported by the judges alone.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import r1_reference as r1
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
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
from OCP.GProp import GProp_GProps
from OCP.TopoDS import TopoDS, TopoDS_Shape
from OCP.collections import HArray1_gp_Pnt, List_TopoDS_Shape
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt
from turned import HalfPlane, Thread, Turned

AXIS = gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))
# Points of the cubic spline through one turn of a helix: off it by 5 (2 pi / 96)^4 / 384 = 2.4e-7 mm.
# Fewer and the volume leaves its last printed digits, more and the booleans slow down.
TURN_POINTS = 96
# Relative error asked of the adaptive integration; a tenth of what is judged, which triples the time.
INTEGRATION = 1e-8
# The grooves reach this share of a crest's flat beyond the crests on either side, so that no face of theirs falls on
# one; at a half they would meet each other.
BEYOND = 0.2


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


def swept(corners: HalfPlane, lead: float, turns: range) -> TopoDS_Shape:
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


def groove(thread: Thread, start: int) -> TopoDS_Shape:
    """What a tool removes along one start, from before the thread's beginning to behind its end."""
    slope = np.tan(np.pi / 6)
    half = thread.pitch / (16 if thread.internal else 8)
    crest_flat = thread.pitch - 2 * (half + abs(thread.root - thread.crest) * slope)
    outwards = -1 if thread.internal else 1
    open_ = thread.crest + outwards * BEYOND * crest_flat / slope
    wide = half + abs(thread.root - open_) * slope
    centre = thread.low + thread.pitch * (start + (0 if thread.internal else 0.5))
    deep = thread.root
    corners = [(deep, centre - half), (deep, centre + half), (open_, centre + wide), (open_, centre - wide)]
    ends = sorted((z - centre) / thread.lead for z in (thread.low - wide, thread.high + wide))
    return swept(corners, thread.lead, range(int(np.floor(ends[0])) - 1, int(np.ceil(ends[1])) + 1))


def clipped(chain: HalfPlane, low: float, high: float) -> HalfPlane:
    """The part of a chain, which never goes back along z, between two z."""
    found = []
    for (ra, za), (rb, zb) in pairwise(chain):
        if zb <= low or za >= high:
            continue
        steps = (za, zb) if za == zb else (max(za, low), min(zb, high))
        for z, r in zip(steps, (ra, rb)):
            found.append((r if za == zb else ra + (rb - ra) * (z - za) / (zb - za), z))
    return [p for n, p in enumerate(found) if n == 0 or p != found[n - 1]]


def cut(shape: TopoDS_Shape, tools: list[TopoDS_Shape]) -> TopoDS_Shape:
    """A shape without its tools, in one go: one after the other takes twice as long for two starts."""
    kept, taken = List_TopoDS_Shape(), List_TopoDS_Shape()
    kept.Append(shape)
    for tool in tools:
        taken.Append(tool)
    operation = BRepAlgoAPI_Cut()
    operation.SetArguments(kept)
    operation.SetTools(taken)
    operation.Build()
    return operation.Shape()


def build(part: Turned) -> TopoDS_Shape:
    """The part, in slices that end where threads do: each turned, its thread cut into it, and all fused."""
    end = part.outside[-1][1]
    cuts = sorted({0.0, end, *(z for t in part.threads for z in (t.low, t.high))})
    whole = None
    for low, high in pairwise(cuts):
        outline = [*clipped(part.outside, low, high), *reversed(clipped(part.bore, low, high))]
        piece = revolved(outline)
        for thread in part.threads:
            if thread.low <= low and high <= thread.high:
                piece = cut(piece, [groove(thread, start) for start in range(thread.starts)])
        whole = piece if whole is None else BRepAlgoAPI_Fuse(whole, piece).Shape()
    return whole


def r1_part() -> Turned:
    """R1, by the reference's numbers."""
    minor = float(r1.UNIT.minor)
    outside = [
        (r1.LIP_R, 0.0),
        (r1.SHOULDER_R, r1.SHOULDER),
        (r1.TENON.major, r1.SHOULDER),
        (r1.TENON.major, r1.TIP_Z),
        (r1.TIP_R, r1.LENGTH),
    ]
    stations = [
        (0.0, r1.RECESS_R),
        (r1.FLOOR, r1.CLEARANCE_R),
        (r1.THREAD, minor),
        (r1.DRILLED, r1.THROUGH_R),
        (r1.LENGTH, 0.0),
    ]
    bore = [(r, z) for (za, r), (zb, _) in pairwise(stations) for z in (za, zb)]
    tenon = Thread(r1.TENON.major, r1.TENON.pitch, r1.SHOULDER, r1.LENGTH)
    unit = Thread(r1.UNIT.major, r1.UNIT.pitch, r1.THREAD, r1.TAPPED, internal=True, hole=minor)
    return Turned(outside, bore, [tenon, unit])


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


def volume(shape: TopoDS_Shape) -> float:
    """The volume alone, to a tenth of the accuracy of `measured` and in a quarter of its time."""
    solid = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, solid, 10 * INTEGRATION)
    return solid.Mass()
