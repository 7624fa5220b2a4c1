"""section.stl of every design, by outside readers, against report.json of the same run."""

from __future__ import annotations

from pathlib import Path

import designs
import names
import numpy as np
import pytest
import stl_file
from conftest import Made, Maker

# Half a step of float32 between 32 and 64 mm.
HALF_STEP = 1.9e-6


def judge_stl(made: Made, genus: int = 1) -> stl_file.StlFile:
    """A section's mesh is sound, and its numbers are those of the report."""
    mesh = stl_file.judge(made.file(names.STL), genus)
    solid, said = made.report["solid"], made.report["mesh"]
    assert len(mesh.faces) == said["triangles"]
    assert (said["closed"], said["genus"]) == (True, genus)
    assert mesh.volume() == pytest.approx(said["volume_mm3"], rel=1e-6)
    chord = said["chord_error_mm"]
    # A surface moved by no more than the chord error encloses no more than area x error.
    assert abs(mesh.volume() - solid["volume_mm3"]) <= solid["area_mm2"] * chord
    exact = np.array([solid["bounds_mm"]["min"], solid["bounds_mm"]["max"]])
    away = np.abs(mesh.bounds() - exact)
    assert away[:, 2].max() <= HALF_STEP, "z of the end faces"
    assert away[:, :2].max() <= chord + HALF_STEP
    assert exact[0, 2] == 0.0, "z = 0 is the front face"
    return mesh


@pytest.mark.parametrize("design", designs.DESIGNS, ids=designs.name)
def test_stl_of_each_design(made: Maker, design: Path) -> None:
    judge_stl(made(design), designs.handles(design))


def test_stl_of_the_demo(made: Maker) -> None:
    judge_stl(made(None))


@pytest.mark.parametrize("design", designs.COINCIDENCES, ids=designs.name)
def test_a_coincidence_gives_a_sound_solid_or_an_error(made: Maker, design: Path) -> None:
    """Steps that fall together: a mesh that passes every judge, or an error that says so; no third way."""
    got = made(design)
    if got.status == names.INPUT_WRONG:
        assert got.stderr.strip(), "no message"
        assert not got.out.exists() or not list(got.out.rglob("*.*")), "files beside an error"
    else:
        judge_stl(got)
