"""R1's reference numbers themselves, and the ruler that says how far a mesh strays from R1."""

from __future__ import annotations

import numpy as np
import pytest
import r1_reference as r1

# Printed by Open CASCADE 8.0 for R1 built from one-turn helicoid faces, and by the solid that was
# tried out before this project (the design's own notes on R1).
VOLUME, AREA, CENTROID = 1264.605798, 2170.634868, (0.0009144, 0.0016605, 16.735077)


def test_numbers_agree_with_those_printed() -> None:
    whole = r1.r1()
    assert whole.volume == pytest.approx(VOLUME, abs=1e-6)
    assert whole.area == pytest.approx(AREA, abs=1e-6)
    assert (whole.x, whole.y) == pytest.approx(CENTROID[:2], abs=6e-8)
    assert whole.z == pytest.approx(CENTROID[2], abs=6e-7)


def test_a_thread_without_depth_is_a_cylinder() -> None:
    """A limiting case: a pitch so fine that the profile vanishes."""
    fine = r1.Thread(5.0, 1e-3, 0.0)
    inside = r1.threaded(fine, 0.0, 0.01)
    assert inside.volume == pytest.approx(np.pi * 25.0 * 0.01, rel=3e-4)


def test_full_form_holds_the_area_of_its_cross_section() -> None:
    inside = r1.threaded(r1.TENON, 21.0, 30.0)
    assert inside.volume == pytest.approx(9.0 * r1.section_area(r1.TENON), rel=1e-12)


def test_points_of_the_surface_do_not_stray_and_others_do() -> None:
    theta = np.linspace(0.0, 20.0, 500)
    for thread, z0, z1 in ((r1.TENON, 21.0, 31.4), (r1.UNIT, 4.6, 11.75)):
        z = np.linspace(z0, z1, 500)
        r = thread.radius(z - thread.start - thread.lead * theta)
        on = np.column_stack([r * np.cos(theta), r * np.sin(theta), z])
        assert r1.strayed(on).max() < 1e-12
        # Moved along the axis by 0.01, a flank is 0.01 cos 30 deg away, a flat 0.
        assert 0.0086 < r1.strayed(on + [0.0, 0.0, 0.01])[5:-5].max() <= 0.01
        # The thread of the other hand strays by a large part of its depth.
        assert r1.strayed(on * [1.0, -1.0, 1.0]).max() > 0.1
