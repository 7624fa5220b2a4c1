"""R1 by a mesh library: one revolved body, less two grooves that are swept along their helices.

All is cut into the same number of sides a turn, which is the fewest that keep the chord error at the
widest radius. The grooves' skins are made at once for all turns, so that nearly all the time is spent
within the library.
"""

from __future__ import annotations

import manifold3d as m3
import numpy as np
import r1_reference as r1
from numpy.typing import NDArray

# Turns by which a groove runs on at either end, to be cut off there.
SPARE = 1
# The grooves' open side lies this far off the crests, so that no face of theirs falls on one.
CLEAR = 0.1
RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def groove(thread: r1.Thread, internal: bool, z0: float, z1: float, sides: int) -> m3.Manifold:
    """What a tool removes between two planes across the axis."""
    p, slope = thread.pitch, thread.depth / (5 * thread.pitch / 16)
    if internal:
        deep, open_, half, centre = thread.major, thread.minor - CLEAR, p / 16, thread.start
    else:
        deep, open_, half, centre = thread.minor, thread.major + CLEAR, p / 8, thread.start + p / 2
    wide = half + abs(deep - open_) / slope
    outline = np.array([(deep, centre - half), (deep, centre + half), (open_, centre + wide), (open_, centre - wide)])
    first = int(np.floor((z0 - thread.start) / p)) - SPARE
    steps = (int(np.ceil((z1 - thread.start) / p)) + SPARE - first) * sides
    turn = (np.arange(steps + 1) + first * sides)[:, None] / sides
    theta = 2 * np.pi * turn
    points = np.stack([outline[:, 0] * np.cos(theta), outline[:, 0] * np.sin(theta), outline[:, 1] + p * turn], -1)
    here, there = np.arange(4), (np.arange(4) + 1) % 4
    start = 4 * np.arange(steps)[:, None]
    a, b, c, d = (start + k for k in (here, there, there + 4, here + 4))
    sides_of = np.concatenate([np.stack([a, b, c], -1), np.stack([a, c, d], -1)]).reshape(-1, 3)
    last = 4 * steps
    ends = np.array([(0, 2, 1), (0, 3, 2), (last, last + 1, last + 2), (last, last + 2, last + 3)])
    triangles = np.concatenate([sides_of, ends]).astype(np.uint32)
    if internal:
        triangles = triangles[:, ::-1]
    swept = m3.Manifold(m3.Mesh(points.reshape(-1, 3).astype(np.float32), np.ascontiguousarray(triangles)))
    return swept.trim_by_plane((0, 0, 1), z0).trim_by_plane((0, 0, -1), -z1)


def build(chord: float) -> m3.Manifold:
    """R1."""
    sides = int(np.ceil(np.pi / np.arccos(1 - chord / r1.SHOULDER_R)))
    outline = [
        (r1.RECESS_R, 0.0), (r1.LIP_R, 0.0), (r1.SHOULDER_R, r1.SHOULDER), (r1.TENON.major, r1.SHOULDER),
        (r1.TENON.major, r1.TIP_Z), (r1.TIP_R, r1.LENGTH), (r1.THROUGH_R, r1.LENGTH), (r1.THROUGH_R, r1.DRILLED),
        (r1.UNIT.minor, r1.DRILLED), (r1.UNIT.minor, r1.THREAD), (r1.CLEARANCE_R, r1.THREAD),
        (r1.CLEARANCE_R, r1.FLOOR), (r1.RECESS_R, r1.FLOOR),
    ]  # fmt: skip
    plain = m3.CrossSection([outline]).revolve(sides)
    tenon = groove(r1.TENON, False, r1.SHOULDER, r1.LENGTH + 1.0, sides)
    unit = groove(r1.UNIT, True, r1.THREAD, r1.TAPPED, sides)
    whole = m3.Manifold.batch_boolean([plain, tenon, unit], m3.OpType.Subtract)
    if whole.status() != m3.Error.NoError or whole.is_empty():
        raise ValueError(whole.status())
    return whole


def write(stl: str, chord: float) -> None:
    """To a binary STL."""
    mesh = build(chord).to_mesh()
    corners: NDArray[np.float32] = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(across, axis=1, keepdims=True)
    records = np.zeros(len(corners), RECORD)
    records["corners"] = corners
    records["normal"] = across / np.where(length > 0, length, 1)
    with open(stl, "wb") as file:
        file.write(bytes(80) + np.uint32(len(corners)).tobytes())
        records.tofile(file)
