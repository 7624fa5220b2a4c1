"""R1, the reference part (mm, invented), by numbers alone: no solid, no mesh, no code of the project's.

The part is a pair of height fields r(theta, z) over the axis. Each integral is a Gauss-Legendre sum
over pieces on which the integrand is smooth, so it is exact to rounding; the method has nothing in
common with the divergence theorem over screw surfaces that the tool uses.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

LENGTH, SHOULDER, FLOOR, THREAD, TAPPED, DRILLED = 32.0, 21.0, 1.2, 4.6, 11.75, 13.5
LIP_R, SHOULDER_R, TIP_R, TIP_Z = 4.85, 5.7, 4.5, 31.5
RECESS_R, CLEARANCE_R, THROUGH_R = 4.45, 4.15, 3.45
SLOPE = (SHOULDER_R - LIP_R) / SHOULDER


@dataclass(frozen=True)
class Thread:
    """ISO 68-1 basic profile: flats P/8 at the major diameter and P/4 at the minor, depth 5H/8."""

    major: float  # radius
    pitch: float
    start: float  # z of a major flat's centre at theta 0

    @property
    def depth(self) -> float:
        return 5.0 / 8.0 * np.sqrt(3.0) / 2.0 * self.pitch

    @property
    def minor(self) -> float:
        return self.major - self.depth

    @property
    def lead(self) -> float:
        return self.pitch / (2.0 * np.pi)

    def radius(self, s: Array) -> Array:
        """Radius at the axial distance s from a major flat's centre."""
        away = np.abs((s + self.pitch / 2) % self.pitch - self.pitch / 2)
        return self.major - self.depth * np.clip((away - self.pitch / 16) / (5 * self.pitch / 16), 0.0, 1.0)


TENON = Thread(5.0, 0.75, SHOULDER)
UNIT = Thread(4.025, 0.55, THREAD)


@dataclass
class Integrals:
    """Of the space inside a height field: volume, moments, and the field's own area."""

    volume: float = 0.0
    x: float = 0.0
    y: float = 0.0
    z: float = 0.0
    area: float = 0.0

    def __add__(self, o: "Integrals") -> "Integrals":
        return Integrals(self.volume + o.volume, self.x + o.x, self.y + o.y, self.z + o.z, self.area + o.area)

    def hollow(self, o: "Integrals") -> "Integrals":
        """Less the space inside `o`; both areas bound what is left."""
        return Integrals(self.volume - o.volume, self.x - o.x, self.y - o.y, self.z - o.z, self.area + o.area)


NODES, WEIGHTS = np.polynomial.legendre.leggauss(16)


def gauss(breaks: Array) -> tuple[Array, Array]:
    """Nodes and weights on each interval between breaks (last axis), flattened over that axis."""
    low, half = breaks[..., :-1, None], np.diff(breaks)[..., None] / 2
    nodes = low + half * (NODES + 1.0)
    weights = np.broadcast_to(half * WEIGHTS, nodes.shape)
    shape = (*breaks.shape[:-1], -1)
    return nodes.reshape(shape), weights.reshape(shape)


def turned(r0: float, r1: float, z0: float, z1: float) -> Integrals:
    """Inside a cone or cylinder."""
    z, w = gauss(np.array([z0, z1]))
    slope = (r1 - r0) / (z1 - z0)
    r = r0 + slope * (z - z0)
    disc = np.pi * r**2 * w
    return Integrals(disc.sum(), 0.0, 0.0, (disc * z).sum(), (2 * np.pi * r * np.sqrt(1 + slope**2) * w).sum())


def threaded(thread: Thread, z0: float, z1: float, tip: tuple[float, float] | None = None) -> Integrals:
    """Inside a thread, trimmed by a cone at 45 degrees falling from (radius, z) = tip when given."""
    pitch, lead = thread.pitch, thread.lead
    stops = [z0, z1]
    if tip is not None:
        # The cone meets the minor radius here; beyond, it alone is the surface.
        stops.insert(1, tip[1] + tip[0] - thread.minor)
    pieces = np.concatenate([np.linspace(a, b, 4 + int((b - a) / (pitch / 8))) for a, b in zip(stops, stops[1:])])
    z, wz = gauss(np.unique(pieces))
    cone = np.full_like(z, np.inf) if tip is None else tip[0] - (z - tip[1])
    # Over one turn, s = z - start - lead theta runs over one pitch.
    bend = np.clip((thread.major - cone) / thread.depth, 0.0, 1.0) * 5 / 16 * pitch + pitch / 16
    half = np.stack([np.zeros_like(z), np.full_like(z, pitch / 16), bend, np.full_like(z, 3 * pitch / 8), np.full_like(z, pitch / 2)], -1)
    s, ws = gauss(np.concatenate([-half[:, :0:-1], half], -1))
    theta = (z[:, None] - thread.start - s) / lead
    w = ws * wz[:, None] / lead
    full = thread.radius(s)
    r = np.minimum(full, cone[:, None])
    flank = np.where((full < thread.major) & (full > thread.minor), thread.depth / (5 * pitch / 16), 0.0)
    on_cone = cone[:, None] < full
    element = np.where(on_cone, r * np.sqrt(2.0), np.sqrt(r**2 * (1 + flank**2) + (lead * flank) ** 2))
    return Integrals(
        (r**2 / 2 * w).sum(),
        (r**3 / 3 * np.cos(theta) * w).sum(),
        (r**3 / 3 * np.sin(theta) * w).sum(),
        (r**2 / 2 * z[:, None] * w).sum(),
        (element * w).sum(),
    )


def section_area(thread: Thread) -> float:
    """Area inside a full-form thread's cross-section, the same at every z."""
    s, w = gauss(thread.pitch * np.array([-1 / 2, -3 / 8, -1 / 16, 1 / 16, 3 / 8, 1 / 2]))
    return float((np.pi / thread.pitch * thread.radius(s) ** 2 * w).sum())


def r1() -> Integrals:
    """Volume (mm3), area (mm2) and centroid (mm, in x, y, z) of R1."""
    outside = (
        turned(LIP_R, SHOULDER_R, 0.0, SHOULDER)
        + threaded(TENON, SHOULDER, TIP_Z)
        + threaded(TENON, TIP_Z, LENGTH, (TENON.major, TIP_Z))
    )
    bore = (
        turned(RECESS_R, RECESS_R, 0.0, FLOOR)
        + turned(CLEARANCE_R, CLEARANCE_R, FLOOR, THREAD)
        + threaded(UNIT, THREAD, TAPPED)
        + turned(UNIT.minor, UNIT.minor, TAPPED, DRILLED)
        + turned(THROUGH_R, THROUGH_R, DRILLED, LENGTH)
    )
    whole = outside.hollow(bore)
    rings = [(LIP_R, RECESS_R), (RECESS_R, CLEARANCE_R), (UNIT.minor, THROUGH_R), (TIP_R, THROUGH_R)]
    planes = np.pi * sum(a**2 - b**2 for a, b in rings)
    planes += np.pi * SHOULDER_R**2 - section_area(TENON)
    planes += np.pi * CLEARANCE_R**2 - section_area(UNIT)
    planes += section_area(UNIT) - np.pi * UNIT.minor**2
    v = whole.volume
    return Integrals(v, whole.x / v, whole.y / v, whole.z / v, whole.area + planes)


def to_grip(r: float, z: float) -> float:
    """Distance in the half-plane from a point of the bore to the grip's cone."""
    return float((LIP_R + SLOPE * z - r) / np.sqrt(1 + SLOPE**2))


def strayed(points: Array) -> Array:
    """For points (n, 3) of a mesh: distance to R1's surface, in the half-plane through each point.

    That is no less than the distance in space, and more by the lead angle's cosine at most (0.03 %).
    A face counts as its whole annulus, and the chamfer as its whole cone, threads or not: this tells
    how far a mesh strays, not whether it is complete (its volume does).
    """
    r, z = np.hypot(points[:, 0], points[:, 1]), points[:, 2]
    theta = np.arctan2(points[:, 1], points[:, 0])
    fixed = [
        ((LIP_R, 0.0), (SHOULDER_R, SHOULDER)),
        ((TENON.minor, SHOULDER), (SHOULDER_R, SHOULDER)),
        ((TENON.major, TIP_Z), (TIP_R, LENGTH)),
        ((TIP_R, LENGTH), (THROUGH_R, LENGTH)),
        ((THROUGH_R, LENGTH), (THROUGH_R, DRILLED)),
        ((THROUGH_R, DRILLED), (UNIT.minor, DRILLED)),
        ((UNIT.minor, DRILLED), (UNIT.minor, TAPPED)),
        ((UNIT.minor, TAPPED), (UNIT.major, TAPPED)),
        ((UNIT.minor, THREAD), (CLEARANCE_R, THREAD)),
        ((CLEARANCE_R, THREAD), (CLEARANCE_R, FLOOR)),
        ((CLEARANCE_R, FLOOR), (RECESS_R, FLOOR)),
        ((RECESS_R, FLOOR), (RECESS_R, 0.0)),
        ((RECESS_R, 0.0), (LIP_R, 0.0)),
    ]
    least = np.full(len(points), np.inf)
    for (r0, z0), (r1_, z1) in fixed:
        least = np.minimum(least, to_segment(r, z, r0, z0, r1_, z1))
    for thread, z0, z1 in ((TENON, SHOULDER, LENGTH), (UNIT, THREAD, TAPPED)):
        p = thread.pitch
        profile = [(-p / 2, 0.0), (-3 * p / 8, 0.0), (-p / 16, 1.0), (p / 16, 1.0), (3 * p / 8, 0.0), (p / 2, 0.0)]
        turn = np.round((z - thread.start - thread.lead * theta) / p)
        centre = thread.start + thread.lead * theta + turn * p
        for (s0, h0), (s1, h1) in zip(profile, profile[1:]):
            # The part of this side of the thread that lies between the thread's ends.
            low, high = np.clip(centre + s0, z0, z1), np.clip(centre + s1, z0, z1)
            rise = thread.depth * (h1 - h0) / (s1 - s0)
            base = thread.minor + thread.depth * h0
            away = to_segment(r, z, base + rise * (low - centre - s0), low, base + rise * (high - centre - s0), high)
            least = np.minimum(least, np.where(high > low, away, np.inf))
    return least


def to_segment(r: Array, z: Array, r0: Array | float, z0: Array | float, r1_: Array | float, z1: Array | float) -> Array:
    """Distance of points to segments of the half-plane."""
    dr, dz = np.asarray(r1_ - r0), np.asarray(z1 - z0)
    square = dr**2 + dz**2
    t = np.clip(((r - r0) * dr + (z - z0) * dz) / np.where(square > 0.0, square, 1.0), 0.0, 1.0)
    return np.hypot(r - r0 - t * dr, z - z0 - t * dz)
