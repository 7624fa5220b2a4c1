"""The DXF judges themselves, on drawings made and spoilt here."""

from __future__ import annotations

from pathlib import Path

import dxf_file
import ezdxf
import picture
import pytest
from ezdxf.document import Drawing


def drawn() -> Drawing:
    doc = ezdxf.new("R2000", units=4)
    doc.header["$MEASUREMENT"] = 1
    doc.layers.add("outline")
    space = doc.modelspace()
    space.add_line((0, 0), (32, 0), dxfattribs={"layer": "outline"})
    # A half circle of radius 5.7 by its bulge: the extents must see the arc, not its ends alone.
    space.add_lwpolyline([(10.3, 0, 0, 0, -1), (21.7, 0, 0, 0, 0)], dxfattribs={"layer": "outline"})
    return doc


def saved(doc: Drawing, folder: Path) -> Path:
    doc.saveas(folder / "a.dxf")
    return folder / "a.dxf"


def test_a_sound_drawing_passes(tmp_path: Path) -> None:
    doc = dxf_file.read(saved(drawn(), tmp_path))
    assert dxf_file.extents(doc, "outline") == pytest.approx((0.0, 0.0, 32.0, 5.7), abs=1e-6)
    dxf_file.render(doc, tmp_path / "a.png")
    assert picture.inked(tmp_path / "a.png") > 0.001


def test_a_blank_picture_is_seen(tmp_path: Path) -> None:
    dxf_file.render(ezdxf.new("R2000"), tmp_path / "a.png")
    assert picture.inked(tmp_path / "a.png") == 0.0


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda d: d.header.__setitem__("$INSUNITS", 6), "version, unit"),
        (lambda d: d.header.__setitem__("$MEASUREMENT", 0), "version, unit"),
        (lambda d: d.modelspace().add_circle((0, 0), 1, dxfattribs={"layer": "outline"}), "a CIRCLE"),
        (lambda d: d.modelspace().add_line((0, 0), (1, 1)), "layer '0'"),
        (lambda d: d.modelspace().add_line((0, 0), (1, 1), dxfattribs={"layer": "other"}), "layer 'other'"),
        (lambda d: d.layers.get("outline").dxf.__setattr__("linetype", "NONE"), "undefined linetype NONE"),
        (lambda d: d.modelspace().delete_all_entities(), "nothing drawn"),
        (lambda d: d.modelspace()[0].dxf.__setattr__("color", 1), "style of its own"),
        (lambda d: d.modelspace()[0].dxf.__setattr__("lineweight", 0), "style of its own"),
        (lambda d: d.blocks.new_anonymous_block("D").add_line((0, 0), (1, 1)), "layer '0'"),
    ],
)
def test_a_spoilt_drawing_is_named(spoil, says: str) -> None:
    doc = drawn()
    spoil(doc)
    assert says in "; ".join(dxf_file.faults_of_document(doc))


def test_handles_are_sought_in_the_raw_tags(tmp_path: Path) -> None:
    path = saved(drawn(), tmp_path)
    line = next(e for e in ezdxf.readfile(path).modelspace() if e.dxftype() == "LINE")
    text = path.read_text("ascii")
    entities = text.index("ENTITIES")
    own, owner = f"\n  5\n{line.dxf.handle}\n", f"\n330\n{line.dxf.owner}\n"
    assert own in text[entities:] and owner in text[entities:]
    twice = text[:entities] + text[entities:].replace(own, f"\n  5\n{line.dxf.owner}\n", 1)
    lost = text[:entities] + text[entities:].replace(owner, "\n330\nFFFF\n", 1)
    for spoilt, says in ((twice, "given 2 times"), (lost, "pointer to FFFF")):
        path.write_text(spoilt, "ascii")
        assert says in "; ".join(dxf_file.faults_of_tags(path))
