"""What `print` writes, as a printer's program reads it: the plate against each part's own STL and the record."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import stl_file
import three_mf_file
import trimesh
from conftest import run

PLATES = {
    "all": ["print", "demo", "--what", "section,coupon,stand-in,ring,plug,cap-probe"],
    "ladder": ["print", "demo", "--what", "ladder,stand-in", "--rungs", "7"],
    "tenon": ["print", "demo", "--what", "ladder", "--thread", "tenon"],
    "smooth": ["print", "demo", "--printer", "filament", "--what", "section,coupon,stand-in"],
    "calibration": ["print", "--calibrate"],
}


@pytest.fixture(scope="module", params=sorted(PLATES))
def plate(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of one plate."""
    home = tmp_path_factory.mktemp(request.param)
    done = run(PLATES[request.param], home)
    assert done.returncode == 0, done.stderr
    (record,) = home.rglob("print.json")
    return record.parent


def said(plate: Path) -> dict[str, Any]:
    return json.loads((plate / "print.json").read_text("utf-8"))


def test_the_plate_holds_every_part_where_the_record_says(plate: Path) -> None:
    path = plate / "plate.3mf"
    assert three_mf_file.faults_of_package(path.read_bytes()) == []
    read = three_mf_file.read(path)
    assert three_mf_file.faults_of_plate(read) == []
    assert three_mf_file.faults_by_trimesh(path, read) == []
    pieces = said(plate)["pieces"]
    assert len(read.parts) == len(pieces) > 0
    for part, piece in zip(read.parts, pieces, strict=True):
        mesh = stl_file.parse((plate / piece["file"]).read_bytes())
        assert three_mf_file.faults_of_part(part, piece["name"], piece["at"], mesh) == []
        assert part.volume() == pytest.approx(piece["mesh_volume"], rel=1e-6)


def test_every_stl_is_closed_and_stands_on_the_plate(plate: Path) -> None:
    for piece in said(plate)["pieces"]:
        mesh = trimesh.load(plate / piece["file"])
        assert mesh.is_watertight and mesh.is_winding_consistent, piece["name"]
        assert mesh.body_count == 1, piece["name"]
        assert mesh.volume == pytest.approx(piece["mesh_volume"], rel=1e-6)
        assert mesh.bounds[0][2] == 0.0, piece["name"]
        assert mesh.bounds[1][2] == pytest.approx(piece["height"], abs=1e-4)
        foot = mesh.vertices[np.isclose(mesh.vertices[:, 2], 0.0, atol=1e-9)]
        radii = np.hypot(foot[:, 0], foot[:, 1])
        assert radii.max() > 1.0, piece["name"]


def test_the_record_lists_what_is_there(plate: Path) -> None:
    files = said(plate)["files"]
    there = {path.name for path in plate.iterdir()} - {"print.json", "readings.toml"}
    assert set(files) == there
    for name, digest in files.items():
        assert hashlib.sha256((plate / name).read_bytes()).hexdigest() == digest, name


def test_no_line_of_the_words_is_too_long_for_a_page(plate: Path) -> None:
    text = (plate / "what-to-look-for.txt").read_text("utf-8")
    assert max(map(len, text.splitlines())) <= 100
    assert "no approval" in re.sub(r"\s+", " ", text)
