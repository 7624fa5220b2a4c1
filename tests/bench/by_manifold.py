"""R1 by a mesh library: revolved bodies and threaded rods, put together by its booleans.

All is cut into the same number of sides a turn, which is the fewest that keep the chord error at the
widest radius. The rods' skins are made at once for all turns, so that nearly all the time is spent
within the library. Of two ways tried, the faster and leaner: grooves swept along the helix and cut from
a plain body make a third more triangles, for they meet the slanting edges of its long ones.
"""

from __future__ import annotations

import manifold3d as m3
import numpy as np
import r1_reference as r1
from numpy.typing import NDArray

# Turns by which a thread runs on at either end, to be cut off there.
SPARE = 1
RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def rod(thread: r1.Thread, z0: float, z1: float, sides: int) -> m3.Manifold:
    """All that is inside a thread, between two planes across the axis.

    The skin follows the four corners of the profile along their helices; at either end it is closed
    over a point of the axis, outside of the planes.
    """
    p, h = thread.pitch, thread.depth
    profile = np.array([(h, -p / 16), (h, p / 16), (0, 3 * p / 8), (0, 5 * p / 8)])
    first = int(np.floor((z0 - thread.start) / p)) - SPARE
    steps = (int(np.ceil((z1 - thread.start) / p)) + SPARE - first) * sides
    turn = (np.arange(steps + 1) + first * sides)[:, None] / sides
    theta, r = 2 * np.pi * turn, thread.minor + profile[:, 0]
    z = thread.start + profile[:, 1] + p * turn
    skin = np.stack([r * np.cos(theta), r * np.sin(theta), z], -1).reshape(-1, 3)
    ends = np.array([(0, 0, z[0, 0] - 1), (0, 0, z[-1, 3] + 1)])
    bottom, top = len(skin), len(skin) + 1

    def strip(low: int, high: int, count: int) -> NDArray[np.int64]:
        """Between the helices that begin at two points; point i + 4 follows point i."""
        a, b = low + 4 * np.arange(count), high + 4 * np.arange(count)
        return np.concatenate([np.stack([a, a + 4, b + 4], -1), np.stack([a, b + 4, b], -1)])

    def cone(rim: NDArray[np.int64], tip: int) -> NDArray[np.int64]:
        """From a closed rim, walked with the face to its left, to a point of the axis."""
        return np.stack([rim, np.roll(rim, -1), np.full_like(rim, tip)], -1)

    last = 4 * steps
    low_rim = np.concatenate([[0, 1, 2, 3], 4 * np.arange(sides, 0, -1)])
    high_rim = np.concatenate([3 + 4 * np.arange(steps - sides, steps + 1), last + np.array([2, 1, 0])])
    triangles = np.concatenate([
        strip(0, 1, steps), strip(1, 2, steps), strip(2, 3, steps), strip(3, 4 * sides, steps - sides),
        cone(low_rim, bottom), cone(high_rim, top),
    ])  # fmt: skip
    points = np.concatenate([skin, ends]).astype(np.float32)
    swept = m3.Manifold(m3.Mesh(points, triangles.astype(np.uint32)))
    if swept.status() != m3.Error.NoError or swept.volume() <= 0:
        raise ValueError(swept.status())
    return swept.trim_by_plane((0, 0, 1), z0).trim_by_plane((0, 0, -1), -z1)


def build(chord: float) -> m3.Manifold:
    """R1."""
    sides = int(np.ceil(np.pi / np.arccos(1 - chord / r1.SHOULDER_R)))

    def turned(*outline: tuple[float, float]) -> m3.Manifold:
        return m3.CrossSection([list(outline)]).revolve(sides)

    # The rods reach through the planes where they meet other bodies: no two faces fall together.
    deep = 0.1
    grip = turned((0, 0), (r1.LIP_R, 0), (r1.SHOULDER_R, r1.SHOULDER), (0, r1.SHOULDER))
    far = r1.LENGTH + 1
    wide = r1.TENON.major + 1
    chamfer = turned((r1.TIP_R - 1, far), (wide, r1.TIP_Z - 1), (wide, far))
    tenon = rod(r1.TENON, r1.SHOULDER - deep, r1.LENGTH, sides) - chamfer
    front = turned((0, -1), (r1.RECESS_R, -1), (r1.RECESS_R, r1.FLOOR), (r1.CLEARANCE_R, r1.FLOOR),
                   (r1.CLEARANCE_R, r1.THREAD), (0, r1.THREAD))  # fmt: skip
    thread = rod(r1.UNIT, r1.THREAD - deep, r1.TAPPED, sides)
    back = turned((0, r1.TAPPED - deep), (r1.UNIT.minor, r1.TAPPED - deep), (r1.UNIT.minor, r1.DRILLED),
                  (r1.THROUGH_R, r1.DRILLED), (r1.THROUGH_R, far), (0, far))  # fmt: skip
    whole = m3.Manifold.batch_boolean([grip + tenon, front, thread, back], m3.OpType.Subtract)
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
