"""The judges of profile.dxf themselves, on paths made and spoilt here."""

from __future__ import annotations

from math import pi

import ezdxf
import profile_file
import pytest
from ezdxf.entities import LWPolyline


def path(points: list[tuple[float, float, float]]) -> LWPolyline:
    return ezdxf.new("R2000").modelspace().add_lwpolyline(points, format="xyb", close=True)


def test_a_ball_has_its_volume() -> None:
    """A half circle of radius 2 about (2, 0), and the axis: 4/3 pi r^3."""
    ball = path([(0, 0, -1), (4, 0, 0)])
    assert profile_file.turned(ball) == pytest.approx(4 / 3 * pi * 8, rel=1e-9)
    assert profile_file.faults(ball) == []


def test_a_hollow_is_less_than_its_cylinder_by_pappus() -> None:
    """A cylinder of radius 5 and length 2 with a half circle of radius 1 cut in: the half disc's area pi / 2, its
    centroid 4 / (3 pi) under the chord."""
    hollow = path([(0, 0, 0), (0, 5, 1), (2, 5, 0), (2, 0, 0)])
    assert profile_file.turned(hollow) == pytest.approx(50 * pi - pi / 2 * 2 * pi * (5 - 4 / (3 * pi)), rel=1e-9)


@pytest.mark.parametrize(
    ("points", "says"),
    [
        ([(0, 0, 0), (0, 2, 0), (0, 2, 0), (4, 2, 0), (4, 0, 0)], "no length"),
        ([(0, 0, 0), (0, 2, 0), (1, 2, 0), (4, 2, 0), (4, 0, 0)], "no corner"),
        ([(0, 0, 0), (0, 2, 0), (4, -1, 0), (4, 0, 0)], "beyond the axis"),
        ([(0, 0, 0), (4, 2, 0), (0, 2, 0), (4, 0, 0)], "crosses itself"),
    ],
)
def test_a_spoilt_path_is_named(points: list[tuple[float, float, float]], says: str) -> None:
    assert says in "; ".join(profile_file.faults(path(points)))
