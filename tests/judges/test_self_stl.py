"""The STL judges themselves: they pass what is sound, and name each way of being unsound."""

from __future__ import annotations

import numpy as np
import pytest
import sample_mesh
import stl_file


def faults(soup: sample_mesh.Soup, genus: int = 1) -> str:
    return "; ".join(stl_file.faults(stl_file.parse(sample_mesh.stl_bytes(soup)), genus))


def test_a_sound_threaded_tube_passes() -> None:
    mesh = stl_file.parse(sample_mesh.stl_bytes(sample_mesh.threaded_tube()))
    assert stl_file.faults(mesh, 1) == []
    # Mean of (R + a sin)^2 is R^2 + a^2 / 2; a chord polygon of n corners has sin(x)/x, x = 2 pi / n, of the area.
    x = 2.0 * np.pi / sample_mesh.COLUMNS
    whole = np.pi * sample_mesh.LENGTH * (sample_mesh.OUTSIDE**2 + sample_mesh.DEPTH**2 / 2 - sample_mesh.BORE**2)
    assert mesh.volume() == pytest.approx(whole * np.sin(x) / x, rel=1e-3)


def test_a_box_passes_with_genus_0_and_fails_with_1() -> None:
    solid = sample_mesh.box((0, 0, 0), (1, 2, 3))
    assert faults(solid, 0) == ""
    assert "genus 0.0, expected 1" in faults(solid, 1)


def test_two_parts_that_cross_are_seen() -> None:
    crossed = np.concatenate([sample_mesh.box((0, 0, 0), (2, 2, 2)), sample_mesh.box((1, 1, 1), (3, 3, 3))])
    assert "pairs of triangles cross" in faults(crossed)
    assert "2 bodies" in faults(crossed)


def test_two_skins_of_one_body_that_cross_are_seen() -> None:
    """Closed, wound alike, one body, genus 1: only the crossing tells."""
    found = faults(sample_mesh.threaded_tube(bore=4.8371))
    assert found.endswith("pairs of triangles cross") and ";" not in found


def test_a_surface_folded_over_itself_is_seen() -> None:
    """Closed, wound alike, positive volume, genus 1: only the crossing tells."""
    found = faults(sample_mesh.threaded_tube(overhang=1.4567))
    assert found.endswith("pairs of triangles cross") and ";" not in found


def test_a_flat_fold_is_seen() -> None:
    """A corner of a plane face moved over its neighbour, in the plane: no depth at all, still a fold."""
    x, y = [0.0, 1.0, 2.0, 3.0], [0.0, 1.0]
    top = [[(a, c, 1.0), (b, c, 1.0), (b, d, 1.0)] for a, b in zip(x, x[1:]) for c, d in [y]]
    top += [[(a, c, 1.0), (b, d, 1.0), (a, d, 1.0)] for a, b in zip(x, x[1:]) for c, d in [y]]
    soup = np.array(top)
    sound = stl_file.parse(sample_mesh.stl_bytes(soup))
    assert stl_file.crossing_pairs(sound) == 0
    soup[np.all(soup == (1.0, 1.0, 1.0), axis=2)] = (2.5, 1.0, 1.0)
    assert stl_file.crossing_pairs(stl_file.parse(sample_mesh.stl_bytes(soup))) > 0


def test_a_crossing_of_one_float32_step_is_seen() -> None:
    """The predicates are exact: two boxes that share a face's plane but for one step."""
    step = float(np.nextafter(np.float32(1.0), np.float32(0.0)))
    apart = np.concatenate([sample_mesh.box((0, 0, 0), (1, 1, 1)), sample_mesh.box((1.5, 0.25, 0.25), (2, 0.5, 0.5))])
    into = np.concatenate([sample_mesh.box((0, 0, 0), (1, 1, 1)), sample_mesh.box((step, 0.25, 0.25), (2, 0.5, 0.5))])
    assert "cross" not in faults(apart)
    assert "cross" in faults(into)


def test_a_hole_is_seen() -> None:
    assert "not watertight" in faults(sample_mesh.threaded_tube()[1:])


def test_an_inside_out_body_is_seen() -> None:
    assert "inside out" in faults(sample_mesh.threaded_tube()[:, ::-1])


def test_one_turned_triangle_is_seen() -> None:
    soup = sample_mesh.threaded_tube()
    soup[5] = soup[5, ::-1]
    assert "winding not consistent" in faults(soup)


def test_a_repeated_triangle_is_seen() -> None:
    soup = sample_mesh.threaded_tube()
    assert "1 triangles repeated" in faults(np.concatenate([soup, soup[:1]]))


def test_an_area_lost_in_float32_is_seen() -> None:
    """A sliver 1e-9 high in f64 has no area once cast."""
    soup = sample_mesh.threaded_tube()
    sliver = np.array([[[9.0, 0.0, 0.0], [10.0, 0.0, 0.0], [9.5, 1e-9, 0.0]]])
    sliver = sliver + np.array([0.0, 1.0, 0.0])
    assert "1 triangles of no area" in faults(np.concatenate([soup, sliver]))


def test_a_wrong_stored_normal_is_seen() -> None:
    data = bytearray(sample_mesh.stl_bytes(sample_mesh.threaded_tube()))
    data[84 + 11] ^= 0x80  # the sign of the first normal's z
    data[84 + 3] ^= 0x80  # and of its x
    assert "stored normals" in "; ".join(stl_file.faults(stl_file.parse(bytes(data)), 1))


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda b: b"solid" + b[5:], "begins with 'solid'"),
        (lambda b: b[:-1], "84 \\+ 50 n"),
        (lambda b: b[:-1] + b"\1", "attribute"),
        (lambda b: b[:96] + b"\0\0\xc0\x7f" + b[100:], "not finite"),
        (lambda b: b[:50], "shorter"),
    ],
)
def test_bytes_that_are_no_binary_stl_are_refused(spoil, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        stl_file.parse(spoil(sample_mesh.stl_bytes(sample_mesh.threaded_tube())))
