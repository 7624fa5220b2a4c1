"""Meshes of our own for the judges' self-tests: a threaded tube, and ways to spoil it."""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import NDArray

Soup = NDArray[np.float64]  # (n, 3, 3): triangles by corners, mm

COLUMNS, ROWS = 96, 120
LENGTH, PITCH, OUTSIDE, DEPTH, BORE = 6.0, 1.0, 5.0, 0.3, 4.0


def threaded_tube(bore: float = BORE, overhang: float = 0.0) -> Soup:
    """A tube with a sine thread outside, genus 1, open along its axis.

    `bore` above OUTSIDE - DEPTH makes the skins cross. `overhang` bends the outside's middle rows
    back along z, which folds the surface over itself and leaves it closed.
    """
    angle = 2.0 * np.pi * np.arange(COLUMNS) / COLUMNS
    rise = np.arange(ROWS + 1) / ROWS
    outer_z = LENGTH * rise + overhang * np.sin(2.0 * np.pi * rise)
    turn = 2.0 * np.pi * LENGTH * rise / PITCH
    outer_r = OUTSIDE + DEPTH * np.sin(turn[:, None] - angle[None, :])
    outer = [np.column_stack([r * np.cos(angle), r * np.sin(angle), np.full(COLUMNS, z)]) for r, z in zip(outer_r, outer_z)]
    inner = [np.column_stack([bore * np.cos(angle), bore * np.sin(angle), np.full(COLUMNS, z)]) for z in (LENGTH, 0.0)]
    # Up the outside, in over the back, down the bore, out over the front.
    rings = outer + inner + outer[:1]
    soup = []
    for low, high in zip(rings, rings[1:]):
        for i in range(COLUMNS):
            j = (i + 1) % COLUMNS
            soup += [[low[i], low[j], high[j]], [low[i], high[j], high[i]]]
    return np.array(soup)


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Soup:
    """An axis-parallel box, genus 0."""
    x, y, z = ((a, b) for a, b in zip(low, high))
    corner = [(x[i & 1], y[i >> 1 & 1], z[i >> 2 & 1]) for i in range(8)]
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    return np.array([[corner[q[i]] for i in t] for q in quads for t in ((0, 1, 2), (0, 2, 3))])


def stl_bytes(soup: Soup, header: bytes = b"self-test") -> bytes:
    """Binary STL of the triangles."""
    corners = soup.astype("<f4")
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]).astype(np.float64)
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    normals = np.divide(normals, length, out=np.zeros_like(normals), where=length > 0.0).astype("<f4")
    body = b"".join(n.tobytes() + c.tobytes() + b"\0\0" for n, c in zip(normals, corners))
    return header.ljust(80, b"\0") + struct.pack("<I", len(soup)) + body
