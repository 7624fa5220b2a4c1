"""drawing.dxf through an outside reader: audited, drawn, nothing over anything else, nothing outside its frame."""

from __future__ import annotations

from pathlib import Path

import designs
import drawing_layout
import dxf_file
import names
import picture
import pytest
from conftest import Drawn, Maker

# Every part that a drawing may be of; those that a design lacks are left out by their names.
PARTS = "unit,barrel,check-plug,unit-ring,check-ring,barrel-plug,bushing,lip-plug,sizing-tap,tap-order,blank-3"


@pytest.mark.parametrize("design", [*designs.DESIGNS, None], ids=lambda d: designs.name(d) if d else "demo")
def test_a_drawing_is_sound_and_clear(made: Maker, design: Path | None, tmp_path: Path) -> None:
    doc = dxf_file.read(made(design).file(names.DRAWING), dxf_file.WORDED)
    assert drawing_layout.clashes(doc) == []
    dxf_file.render(doc, tmp_path / "drawn.png")
    assert 0.001 < picture.inked(tmp_path / "drawn.png") < 0.9


def test_random_drawings_are_sound_and_clear(random_drawings: list[Drawn]) -> None:
    wrong = {}
    for drawn in random_drawings:
        # Fails with what the audit finds or mends.
        doc = dxf_file.read(drawn.folder / names.DRAWING, dxf_file.WORDED)
        for name in (names.DXF, names.PROFILE):
            dxf_file.read(drawn.folder / name, dxf_file.WORDED | {"POINT"})
        if found := drawing_layout.clashes(doc):
            wrong[drawn.sizes.name] = found
    assert wrong == {}


def test_every_part_is_drawn(run_in: Path) -> None:
    folder = run_in / "demo"
    drawings = sorted(folder.glob("*.dxf"))
    assert len(drawings) == len(PARTS.split(","))
    for path in drawings:
        doc = dxf_file.read(path, dxf_file.WORDED)
        assert drawing_layout.clashes(doc) == [], path.name
        assert path.with_suffix(".svg").is_file() and path.with_suffix(".pdf").is_file()


@pytest.fixture(scope="module")
def run_in(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder into which the demo's parts are drawn."""
    from conftest import run

    out = tmp_path_factory.mktemp("parts") / "out"
    done = run(["draw", "demo", "--part", PARTS, "--out", str(out), "--quiet"], out.parent)
    assert done.returncode != names.INPUT_WRONG, done.stderr
    return out


def test_clashes_are_seen() -> None:
    """The judge judged: a text on a line, one on another, one outside the frame."""
    import ezdxf

    doc = ezdxf.new()
    for layer in ("frame", "note"):
        doc.layers.add(layer)
    msp = doc.modelspace()
    msp.add_lwpolyline([(0, 0), (100, 0), (100, 50), (0, 50), (0, 0)], dxfattribs={"layer": "frame"})
    for at in ((10, 10), (12, 11), (99, 30)):
        msp.add_text("words", height=3, dxfattribs={"layer": "note"}).set_placement(at)
    msp.add_line((0, 31), (60, 31), dxfattribs={"layer": "note"})
    msp.add_text("on", height=3, rotation=90, dxfattribs={"layer": "note"}).set_placement((50, 30))
    found = drawing_layout.clashes(doc)
    assert any("over" in f for f in found) and any("'on' on a line" in f for f in found)
    assert any("outside" in f for f in found)
