"""half-section.dxf of every design, by ezdxf and by its raw tags."""

from __future__ import annotations

from pathlib import Path

import designs
import dxf_file
import names
import picture
import pytest
from conftest import Made, Maker


def judge_dxf(made: Made, png: Path) -> None:
    """True size, z along x, radius along y, audited clean, drawn."""
    doc = dxf_file.read(made.file(names.DXF))
    solid = made.report["solid"]["bounds_mm"]
    left, bottom, right, top = dxf_file.extents(doc, names.OUTLINE_LAYER)
    assert (left, right) == pytest.approx((solid["min"][2], solid["max"][2]), abs=1e-6)
    assert top == pytest.approx(solid["max"][0], abs=1e-6)
    # One half in section; the other, seen from outside, may be drawn too.
    assert bottom == pytest.approx(-top, abs=1e-6) or 0.0 <= bottom < top
    dxf_file.render(doc, png)
    assert 0.001 < picture.inked(png) < 0.9


@pytest.mark.parametrize("design", designs.DESIGNS, ids=designs.name)
def test_dxf_of_each_design(made: Maker, design: Path, tmp_path: Path) -> None:
    judge_dxf(made(design), tmp_path / "drawn.png")


def test_dxf_of_the_demo(made: Maker, tmp_path: Path) -> None:
    judge_dxf(made(None), tmp_path / "drawn.png")


def test_r1_is_drawn_at_its_true_size(made: Maker) -> None:
    """R1: length 32, greatest diameter 11.4 (radius 5.7 at the shoulder)."""
    left, _, right, top = dxf_file.extents(dxf_file.read(made(designs.R1).file(names.DXF)), names.OUTLINE_LAYER)
    assert (left, right, top) == pytest.approx((0.0, 32.0, 5.7), abs=1e-6)
