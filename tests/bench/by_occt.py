"""R1 by Open CASCADE: built as its judge builds it, and cut by its own mesher, one thread."""

from __future__ import annotations

import occt_build
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.StlAPI import StlAPI_Writer

# Radians between neighbouring segments at most: the library's default.
ANGLE = 0.5


def write(stl: str, chord: float) -> None:
    """To a binary STL."""
    shape = occt_build.build(occt_build.r1_part())
    BRepMesh_IncrementalMesh(shape, chord, False, ANGLE, False)
    writer = StlAPI_Writer()
    writer.ASCIIMode = False
    if not writer.Write(shape, stl):
        raise OSError(stl)
