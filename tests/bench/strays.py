"""Of an STL of R1: triangles, volume, closedness, and how far mesh and exact surface lie apart.

    strays.py STL
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

import igl
import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).parents[1] / "judges"))

import r1_reference as r1  # noqa: E402
import stl_file  # noqa: E402

Array = NDArray[np.float64]
# Each triangle is looked at in points of a grid of so many steps a side.
STEPS = 6
# Points of the surface, drawn at random (seeded), outside and in the bore each.
SAMPLES = 200_000


def on_mesh(corners: Array) -> Array:
    """Points of every triangle, its own corners and edges included."""
    grid = [(i, j, STEPS - i - j) for i in range(STEPS + 1) for j in range(STEPS + 1 - i)]
    weights = np.array(grid) / STEPS
    return np.einsum("gk,tkx->tgx", weights, corners).reshape(-1, 3)


def on_surface() -> Array:
    """Random points of the outside and of the bore; the planes across the axis are flat anyway."""
    dice = np.random.default_rng(1)
    theta, z = dice.uniform(-np.pi, np.pi, SAMPLES), dice.uniform(0, r1.LENGTH, SAMPLES)
    tenon = r1.TENON.radius(z - r1.TENON.start - r1.TENON.lead * theta)
    unit = r1.UNIT.radius(z - r1.UNIT.start - r1.UNIT.lead * theta)
    cone = r1.TENON.major - np.maximum(z - r1.TIP_Z, 0.0)
    outer = np.where(z < r1.SHOULDER, r1.LIP_R + r1.SLOPE * z, np.minimum(tenon, cone))
    ends = [r1.FLOOR, r1.THREAD, r1.TAPPED, r1.DRILLED]
    inner = np.choose(
        np.searchsorted(ends, z), [r1.RECESS_R, r1.CLEARANCE_R, unit, r1.UNIT.minor, r1.THROUGH_R]
    )
    skins = [np.stack([r * np.cos(theta), r * np.sin(theta), z], -1) for r in (outer, inner)]
    return np.concatenate(skins)


def main() -> None:
    mesh = stl_file.parse(Path(sys.argv[1]).read_bytes())
    strays = max(float(r1.strayed(part).max()) for part in np.array_split(on_mesh(mesh.corners.astype(np.float64)), 20))
    faces = mesh.faces[(np.diff(np.sort(mesh.faces, axis=1), axis=1) > 0).all(axis=1)]
    square = igl.point_mesh_squared_distance(on_surface(), mesh.vertices, faces)[0]
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    keys = edges[:, 0] * len(mesh.vertices) + edges[:, 1]
    back = edges[:, 1] * len(mesh.vertices) + edges[:, 0]
    # Each way as often as back: single precision may lay two sheets of slivers on one another.
    closed = np.array_equal(np.sort(keys), np.sort(back))
    print(
        json.dumps(
            {
                "triangles": len(mesh.faces),
                "volume": mesh.volume(),
                "closed": bool(closed),
                "mesh_strays": strays,
                "surface_strays": float(np.sqrt(square.max())),
            }
        )
    )


main()
