"""A 3MF file read by the 3MF Consortium's own library, strictly, and by trimesh, and what is wrong with it."""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from pathlib import Path

import lib3mf
import numpy as np
import stl_file
import trimesh
from numpy.typing import NDArray

# The parts of a package, in the order in which they are written. Source: 3MF Core Specification and
# Open Packaging Conventions (ISO/IEC 29500-2).
FILES = ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]
# The first date that a zip knows: any other one is a clock's.
DATE = (1980, 1, 1, 0, 0, 0)
# lib3mf keeps a transform in float32: half a step below 256 mm.
HALF_STEP = 1e-5
# Two readers that sum the same triangles agree to this, relative.
SAME_VOLUME = 1e-6


@dataclass(frozen=True)
class Part:
    """A build item: its object's name and triangles, and where it is put."""

    name: str
    vertices: NDArray[np.float32]  # (m, 3) mm
    faces: NDArray[np.int64]  # (n, 3)
    rotation: NDArray[np.float64]  # (3, 3)
    shift: NDArray[np.float64]  # (3,) mm
    sound: bool  # manifold and oriented, says lib3mf

    def corners(self) -> NDArray[np.float32]:
        """Every triangle's corners, (n, 3, 3) mm."""
        return self.vertices[self.faces]

    def volume(self) -> float:
        """Enclosed volume in mm3 by the divergence theorem, in f64."""
        a, b, c = np.moveaxis(self.corners().astype(np.float64), 1, 0)
        return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)


@dataclass(frozen=True)
class Plate:
    """What stands in a file, in the order of its build."""

    title: str
    unit: str
    parts: list[Part]
    objects: int


def read(path: Path) -> Plate:
    """Reads a file; raises ValueError with what lib3mf, in strict mode, has against it."""
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    try:
        reader.ReadFromFile(str(path))
    except lib3mf.ELib3MFException as error:
        raise ValueError(f"lib3mf refuses it: {error}") from error
    if warnings := [reader.GetWarning(n)[1] for n in range(reader.GetWarningCount())]:
        raise ValueError(f"lib3mf warns: {warnings}")
    known = {}
    objects = model.GetMeshObjects()
    while objects.MoveNext():
        mesh = objects.GetCurrentMeshObject()
        known[mesh.GetResourceID()] = mesh
    parts = []
    items = model.GetBuildItems()
    while items.MoveNext():
        item = items.GetCurrent()
        mesh = known[item.GetObjectResourceID()]
        fields = np.array([list(row) for row in item.GetObjectTransform().Fields], np.float64)
        vertices = np.array([list(v.Coordinates) for v in mesh.GetVertices()], np.float32)
        faces = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()], np.int64)
        sound = mesh.IsManifoldAndOriented()
        parts.append(Part(mesh.GetName(), vertices, faces, fields[:3], fields[3], sound))
    data = model.GetMetaDataGroup()
    said = {data.GetMetaData(n).GetName(): data.GetMetaData(n).GetValue() for n in range(data.GetMetaDataCount())}
    if set(said) != {"Title"}:
        raise ValueError(f"metadata {sorted(said)}: a title, and neither dates nor people")
    return Plate(said["Title"], str(model.GetUnit()), parts, len(known))


def faults_of_package(data: bytes) -> list[str]:
    """What is wrong with the package: files, their order, dates, compression."""
    found: list[str] = []
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        if (bad := package.testzip()) is not None:
            found.append(f"{bad} is damaged")
        files = package.infolist()
        if [file.filename for file in files] != FILES:
            found.append(f"files {[file.filename for file in files]}")
        found += [f"{f.filename} is dated {f.date_time}" for f in files if f.date_time != DATE]
        found += [f"{f.filename} is not deflated" for f in files if f.compress_type != zipfile.ZIP_DEFLATED]
        found += [f"{f.filename} has extra fields" for f in files if f.extra or f.comment]
    return found


def faults_of_plate(plate: Plate) -> list[str]:
    """What is wrong with the plate, whatever it was meant to hold."""
    found: list[str] = []
    if plate.unit != str(lib3mf.ModelUnit.MilliMeter):
        found.append(f"unit {plate.unit}")
    if plate.objects != len(plate.parts):
        found.append(f"{plate.objects} objects for {len(plate.parts)} items")
    for n, part in enumerate(plate.parts):
        name = f"part {n}"
        if not part.sound:
            found.append(f"{name} is not manifold and oriented")
        if not part.volume() > 0.0:
            found.append(f"{name} has a volume of {part.volume()}")
        if not np.array_equal(part.rotation, np.eye(3)):
            found.append(f"{name} is turned or scaled")
        least = part.vertices.min(axis=0).astype(np.float64) + part.shift
        if least[:2].min() < -HALF_STEP:
            found.append(f"{name} lies beyond the plate's edge")
        if abs(least[2]) > HALF_STEP:
            found.append(f"{name} does not stand on the plate: {least[2]}")
    return found


def faults_of_part(part: Part, name: str, at: list[float], mesh: stl_file.StlFile) -> list[str]:
    """In what a part differs from its name, its place and the STL of the same mesh."""
    found: list[str] = []
    if part.name != name:
        found.append(f"called {part.name!r}, not {name!r}")
    if np.abs(part.shift[:2] - at).max() > HALF_STEP:
        found.append(f"stands at {part.shift[:2]}, not {at}")
    if part.corners().tobytes() != np.ascontiguousarray(mesh.corners).tobytes():
        found.append("its triangles are not the STL's to the bit")
    if not abs(part.volume() - mesh.volume()) <= SAME_VOLUME * mesh.volume():
        found.append(f"volume {part.volume()}, the STL's {mesh.volume()}")
    return found


def faults_by_trimesh(path: Path, plate: Plate) -> list[str]:
    """In what trimesh's own reader, which keeps no order of its own, differs from lib3mf."""
    if not plate.parts:
        return ["no part to look for"]
    found: list[str] = []
    scene = trimesh.load_scene(path)
    if scene.units not in ("millimeter", "mm"):
        found.append(f"unit {scene.units}")
    nodes = [scene.graph[node] for node in scene.graph.nodes_geometry]
    if len(nodes) != len(plate.parts) or len(scene.geometry) != len(plate.parts):
        return [*found, f"{len(nodes)} items of {len(scene.geometry)} objects, not {len(plate.parts)}"]
    for n, part in enumerate(plate.parts):
        away = [np.abs(transform[:3, 3] - part.shift).max() for transform, _ in nodes]
        transform, geometry = nodes[int(np.argmin(away))]
        mesh = scene.geometry[geometry]
        if min(away) > HALF_STEP:
            found.append(f"part {n} stands at {transform[:3, 3]}, not {part.shift}")
        # A name that stands twice gets a number.
        if not geometry.startswith(part.name):
            found.append(f"part {n} is called {geometry!r}, not {part.name!r}")
        if not mesh.is_watertight or not abs(mesh.volume - part.volume()) <= SAME_VOLUME * part.volume():
            found.append(f"part {n} has a volume of {mesh.volume}, not {part.volume()}")
    return found
