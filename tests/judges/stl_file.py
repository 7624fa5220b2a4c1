"""An STL file read from its bytes, and what outside libraries say about its triangles."""

from __future__ import annotations

import struct
from dataclasses import dataclass
from pathlib import Path

import igl.copyleft.cgal as cgal
import manifold3d
import numpy as np
import trimesh
from numpy.typing import NDArray

# One record: normal, three corners (12 float32), attribute (uint16). Source: the binary STL layout,
# 80 byte header, uint32 count, 50 bytes a facet, little-endian, as numpy-stl 4.1.1 writes it.
RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
HEADER, COUNT = 80, 4
# A unit normal in float32 is off by a few 6e-8; a needle's normal by more. Larger lets a wrong normal
# through, smaller rejects the normals of long, thin strips.
NORMAL_SLACK = 1e-3
# Two libraries that sum the same triangles agree to this, relative. Larger hides a lost triangle of a
# fine mesh, smaller trips over the order of summation and manifold3d's merging of slivers.
SAME_VOLUME = 1e-6


@dataclass(frozen=True)
class StlFile:
    """The triangles of a binary STL, welded on equal float32 coordinates."""

    normals: NDArray[np.float32]  # (n, 3)
    corners: NDArray[np.float32]  # (n, 3, 3) mm
    vertices: NDArray[np.float64]  # (m, 3) mm, each a float32 value
    faces: NDArray[np.int64]  # (n, 3)

    def volume(self) -> float:
        """Enclosed volume in mm3 by the divergence theorem, in f64."""
        a, b, c = (self.vertices[self.faces[:, i]] for i in range(3))
        return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)

    def bounds(self) -> NDArray[np.float64]:
        """Least and greatest x, y, z in mm."""
        return np.array([self.vertices.min(axis=0), self.vertices.max(axis=0)])

    def genus(self) -> float:
        """Genus of a single closed body, from Euler's V - E + F = 2 - 2 g."""
        edges = np.sort(self.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
        euler = len(self.vertices) - len(np.unique(edges, axis=0)) + len(self.faces)
        return 1.0 - euler / 2.0


def parse(data: bytes) -> StlFile:
    """Reads binary STL; raises ValueError where the bytes are not one."""
    if len(data) < HEADER + COUNT:
        raise ValueError(f"{len(data)} bytes: shorter than the header")
    if data[:5].lower() == b"solid":
        raise ValueError("the header begins with 'solid': readers take the file for text")
    (count,) = struct.unpack_from("<I", data, HEADER)
    if len(data) != HEADER + COUNT + RECORD.itemsize * count:
        raise ValueError(f"{len(data)} bytes for {count} triangles: expected 84 + 50 n")
    records = np.frombuffer(data, RECORD, count, HEADER + COUNT)
    if records["attribute"].any():
        raise ValueError("an attribute is not 0: some readers take it for a colour")
    corners = records["corners"]
    if not np.isfinite(corners).all():
        raise ValueError("a coordinate is not finite")
    # Adding 0.0 makes -0.0 and 0.0 one point.
    points = corners.reshape(-1, 3).astype(np.float64) + 0.0
    vertices, inverse = np.unique(points, axis=0, return_inverse=True)
    return StlFile(records["normal"], corners, vertices, inverse.reshape(-1, 3).astype(np.int64))


def faults_of_triangles(mesh: StlFile) -> list[str]:
    """What is wrong with single triangles: area, repetition, stored normal."""
    faults: list[str] = []
    corners = mesh.corners
    # The area as a float32 reader computes it.
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    assert cross.dtype == np.float32
    if flat := int((np.linalg.norm(cross, axis=1) == 0.0).sum()):
        faults.append(f"{flat} triangles of no area in float32")
    distinct = np.unique(np.sort(mesh.faces, axis=1), axis=0)
    if repeated := len(mesh.faces) - len(distinct):
        faults.append(f"{repeated} triangles repeated")
    a, b, c = (mesh.vertices[mesh.faces[:, i]] for i in range(3))
    exact = np.cross(b - a, c - a)
    length = np.linalg.norm(exact, axis=1, keepdims=True)
    exact = np.divide(exact, length, out=np.zeros_like(exact), where=length > 0.0)
    if turned := int((np.abs(exact - mesh.normals).max(axis=1) > NORMAL_SLACK).sum()):
        faults.append(f"{turned} stored normals are not those of their corners, right-handed")
    return faults


def faults_of_surface(mesh: StlFile) -> list[str]:
    """What is wrong with the surface: open, inside out, in pieces, pinched (trimesh, manifold3d)."""
    faults: list[str] = []
    outside = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    if not outside.is_watertight:
        faults.append("not watertight")
    if not outside.is_winding_consistent:
        faults.append("winding not consistent")
    if not outside.volume > 0.0:
        faults.append(f"volume {outside.volume}: inside out or empty")
    if outside.body_count != 1:
        faults.append(f"{outside.body_count} bodies")
    if (second := as_manifold(mesh)).status() != manifold3d.Error.NoError:
        faults.append(f"no manifold: {second.status()}")
    return faults


def as_manifold(mesh: StlFile) -> manifold3d.Manifold:
    """The mesh as manifold3d takes it; it says nothing about crossings."""
    return manifold3d.Manifold(manifold3d.Mesh(mesh.vertices.astype(np.float32), mesh.faces.astype(np.uint32)))


def crossing_pairs(mesh: StlFile) -> int:
    """Pairs of triangles that meet in more than the corner or edge they share.

    libigl's CGAL module: exact predicates on the very coordinates of the file, so that neither a
    near miss counts nor a crossing of any depth is missed. Coplanar neighbours that fold count too.
    """
    _, _, pairs, _, _ = cgal.remesh_self_intersections(mesh.vertices, mesh.faces, detect_only=True)
    return len(pairs)


def faults(mesh: StlFile, genus: int) -> list[str]:
    """Everything that is wrong with a body of the genus given; empty when it is sound."""
    found = faults_of_triangles(mesh) + faults_of_surface(mesh)
    if mesh.genus() != genus:
        found.append(f"genus {mesh.genus()}, expected {genus}")
    if crossing := crossing_pairs(mesh):
        found.append(f"{crossing} pairs of triangles cross")
    return found


def judge(path: Path, genus: int) -> StlFile:
    """Reads a file, and fails with everything that is wrong with it."""
    mesh = parse(path.read_bytes())
    assert faults(mesh, genus) == [], path
    second = as_manifold(mesh)
    assert second.genus() == genus, path
    assert abs(second.volume() - mesh.volume()) <= SAME_VOLUME * mesh.volume(), path
    # The same file through trimesh's own reader.
    read = trimesh.load_mesh(path, file_type="stl")
    assert read.is_watertight, path
    assert len(read.faces) == len(mesh.faces), path
    assert abs(read.volume - mesh.volume()) <= SAME_VOLUME * mesh.volume(), path
    return mesh
