"""3MF files of plates (tests/three_mf.rs leaves them), by outside readers, against the STL of the same meshes.

They are of one part with an awkward name, of a part twice, of a printer's calibration plate, and of random
parts, all in one file.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import designs
import pytest
import stl_file
import three_mf_file

TARGET = designs.ROOT / Path(os.environ.get("CARGO_TARGET_DIR", "target"))
FOLDER = TARGET / "tmp" / "3mf"
PLATES = ["one", "twice", "calibration", "random"]


@pytest.fixture(scope="module")
def said() -> dict[str, Any]:
    """What is in each file."""
    path = FOLDER / "plates.json"
    assert path.is_file(), f"{path} is not there: cargo nextest run --test three_mf"
    return json.loads(path.read_text("utf-8"))


def test_every_plate_is_judged(said: dict[str, Any]) -> None:
    assert sorted(said) == sorted(PLATES)
    assert sorted(path.stem for path in FOLDER.glob("*.3mf")) == sorted(PLATES)


@pytest.mark.parametrize("name", PLATES)
def test_a_plate_holds_its_parts(said: dict[str, Any], name: str) -> None:
    path, expected = FOLDER / f"{name}.3mf", said[name]
    assert three_mf_file.faults_of_package(path.read_bytes()) == []
    plate = three_mf_file.read(path)
    assert three_mf_file.faults_of_plate(plate) == []
    assert plate.title == expected["title"]
    assert len(plate.parts) == len(expected["parts"])
    for part, of in zip(plate.parts, expected["parts"], strict=True):
        mesh = stl_file.parse((FOLDER / of["stl"]).read_bytes())
        assert three_mf_file.faults_of_part(part, of["name"], of["at"], mesh) == []
        assert part.volume() == pytest.approx(of["volume_mm3"], rel=1e-6)
    assert three_mf_file.faults_by_trimesh(path, plate) == []
