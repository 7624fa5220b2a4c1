"""Volumes of a rebuilt part, in closed form and Gauss-Legendre sums; no code of the project's.

A thread of the basic profile (ISO 68-1) that ends in planes has at every z the same share of its section at each depth: an
eighth of the pitch at the major diameter, a quarter at the minor one, the flanks between. What is left of it at a z is the
lesser of it and the outside there, or the greater of it and the bore.
"""

from __future__ import annotations

from math import atan, cos, hypot, pi, sin, sqrt

import numpy as np
from drawing_part import Rebuilt

# Pieces and nodes of an integral over a line that a thread is cut into: its kinks fall inside pieces, at an error of their
# share of the thread's own volume.
PIECES = 400
NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)
TWO = 1 / sqrt(3)

Point = tuple[float, float, float]


def plain(part: Rebuilt) -> float:
    """Of the part without threads, in mm^3."""
    outside, *bores = part.sizes.walls.all
    return inside(part.chain(outside)) - sum(inside(part.chain(bore)) for bore in bores)


def inside(chain: list[Point]) -> float:
    """Between a chain and the axis: the integral of pi r^2 along z."""
    total = 0.0
    for (za, da, bulge), (zb, db, _) in zip(chain, chain[1:]):
        ra, rb = da / 2, db / 2
        if bulge == 0:
            total += pi / 3 * (ra * ra + ra * rb + rb * rb) * (zb - za)
            continue
        # By the turn along the arc: centre to the left of the chord where it turns left.
        sweep = 4 * atan(bulge)
        dz, dr = zb - za, rb - ra
        radius = hypot(dz, dr) / 2 / sin(sweep / 2)
        start = np.arctan2(dr, dz) - sweep / 2
        centre = ra + radius * cos(start)
        turns = start + sweep * (NODES + 1) / 2
        total += pi * float(WEIGHTS @ ((centre - radius * np.cos(turns)) ** 2 * radius * np.cos(turns))) * sweep / 2
    return total


def threads(part: Rebuilt) -> float:
    """What all threads take away, in mm^3."""
    total = 0.0
    for thread in part.sizes.threads:
        words, (low, high) = thread.words, (part.x[z] for z in thread.z)
        major = words.nominal / 2
        if thread.external:
            major = max(part.x[n.d] / 2 for n in thread.wall.nodes if n.spot[1] == max(thread.crest()))
        minor = major - 5 / 8 * sqrt(3) / 2 * words.pitch
        for (za, da, _), (zb, db, _) in zip(chain := part.chain(thread.wall), chain[1:]):
            start, end = max(za, low), min(zb, high)
            if start < end:
                edges = np.linspace(start, end, PIECES + 1 if da != db else 2)
                middles, halves = (edges[1:] + edges[:-1]) / 2, np.diff(edges) / 2
                z = np.concatenate([middles - TWO * halves, middles + TWO * halves])
                r = (da + (db - da) * (z - za) / (zb - za)) / 2
                taken = r**2 - lesser(major, minor, r) if thread.external else greater(major, minor, r) - r**2
                total += pi * float(taken @ np.tile(halves, 2))
    return total


def lesser(major: float, minor: float, r: np.ndarray) -> np.ndarray:
    """The mean of the square of the lesser of the thread's radius and another."""
    cut = np.clip(r, minor, major)
    flank = ((cut**3 - minor**3) / 3 + cut**2 * (major - cut)) / (major - minor)
    flank = np.where(r < minor, r**2, flank)
    return np.minimum(major, r) ** 2 / 8 + np.minimum(minor, r) ** 2 / 4 + flank * 5 / 8


def greater(major: float, minor: float, r: np.ndarray) -> np.ndarray:
    """The mean of the square of the greater of both: their squares' sum less the lesser's."""
    mean = major**2 / 8 + minor**2 / 4 + (major**2 + major * minor + minor**2) / 3 * 5 / 8
    return mean + r**2 - lesser(major, minor, r)
