"""DIMENSION entities of a drawing made by hand (tests/export/dimensions.rs leaves it), by ezdxf.

The measured values are worked out by hand from that drawing's points: lengths are differences, 9.525 mm is 3/8 in,
the radius of the last arc is the 5 of 3, 4, 5, a drill's cone has 118 degrees, a countersink as deep as its radius 90.
"""

from __future__ import annotations

import math
import os
from collections.abc import Iterator
from pathlib import Path

import designs
import dxf_file
import picture
import pytest
from ezdxf import recover
from ezdxf.document import Drawing
from ezdxf.entities import Dimension
from ezdxf.tools.text import plain_text

# Kinds: DXF reference, DIMENSION, group 70.
LINEAR, RADIUS, THREE_POINTS = 0, 4, 5
KNOWN = [
    (LINEAR, "12.00", 12.0),
    (LINEAR, "20.125 ±0.050", 20.125),
    (LINEAR, "8.1250", 8.125),
    (LINEAR, "Ø14.000", 14.0),
    (LINEAR, "Ø10", 10.0),
    (LINEAR, "Ø0.3750", 9.525),
    (LINEAR, "M14x0.75-6g", 14.0),
    (RADIUS, "R2.0", 2.0),
    (RADIUS, "R5.0", 5.0),
    (THREE_POINTS, "118°", 118.0),
    (THREE_POINTS, "90.0° ±0.5°", 90.0),
    (LINEAR, "3.12", 3.125),
    (LINEAR, "{8.00} a\\b as written", 8.0),
]
# Coordinates are written to twelve decimals.
WRITTEN = 1e-10


def path() -> Path:
    target = Path(os.environ.get("CARGO_TARGET_DIR", designs.ROOT / "target"))
    made = target / "tmp" / "dxf" / "dimensions.dxf"
    assert made.is_file(), f"{made} is not there: cargo test --test export"
    return made


@pytest.fixture
def doc() -> Drawing:
    return dxf_file.read(path(), dxf_file.WORDED)


@pytest.fixture
def decoded() -> Drawing:
    """As the reader for files of any program reads it: with `\\U+00D7` as the letter that it stands for."""
    doc, auditor = recover.readfile(path())
    assert not auditor.errors and not auditor.fixes
    return doc


def dimensions(doc: Drawing) -> list[Dimension]:
    return list(doc.modelspace().query("DIMENSION"))


def words(layout: Iterator) -> list[str]:
    """What is written in a block, signs decoded."""
    return [plain_text(e.dxf.text) if e.dxftype() == "TEXT" else e.plain_text() for e in layout if "TEXT" in e.dxftype()]


def test_each_measures_its_known_value(doc: Drawing) -> None:
    drawn = dimensions(doc)
    assert len(drawn) == len(KNOWN)
    for dimension, (kind, shown, value) in zip(drawn, KNOWN, strict=True):
        assert dimension.dimtype == kind, shown
        assert dimension.get_measurement() == pytest.approx(value, abs=WRITTEN), shown
        # Group 42: millimetres, or radians.
        held = math.radians(value) if kind == THREE_POINTS else value
        assert dimension.dxf.actual_measurement == pytest.approx(held, abs=WRITTEN), shown
        # 32: the block is this dimension's alone; 128: its words stand where the drawing has them.
        assert dimension.dxf.dimtype == kind | 32 | 128
        assert dimension.dxf.layer == "dimension"
        assert dimension.dxf.attachment_point == 5


def test_each_has_a_picture_of_its_own(decoded: Drawing) -> None:
    blocks = [dimension.dxf.geometry for dimension in dimensions(decoded)]
    assert blocks == [f"*D{n}" for n in range(1, len(KNOWN) + 1)]
    for dimension, (_, shown, _) in zip(dimensions(decoded), KNOWN, strict=True):
        block = dimension.get_geometry_block()
        assert block is not None and block.block.dxf.flags == 1
        assert words(block) == [shown]
        assert {e.dxf.layer for e in block} == {"dimension"}
        assert {e.dxftype() for e in block} <= dxf_file.WORDED - {"DIMENSION"}
    # Nothing of the pictures lies in model space besides: it would be drawn twice.
    assert {e.dxftype() for e in decoded.modelspace()} == {"LINE", "LWPOLYLINE", "DIMENSION"}


def test_a_reader_that_draws_them_anew_shows_the_same_words(decoded: Drawing) -> None:
    for dimension, (_, shown, _) in zip(dimensions(decoded), KNOWN, strict=True):
        old = dimension.dxf.geometry
        dimension.render()
        assert dimension.dxf.geometry != old
        assert words(dimension.get_geometry_block()) == [shown]


def test_styles_leave_nothing_to_the_reader(doc: Drawing) -> None:
    used = {dimension.dxf.dimstyle for dimension in dimensions(doc)}
    assert used and "STANDARD" not in {name.upper() for name in used}
    for name in used:
        style = doc.dimstyles.get(name).dxf
        assert style.dimtxt > 0 and style.dimasz > 0 and style.dimscale == 1.0
        # No zero is left out, decimal, a point, no rounding, no second unit, no limits, no centre mark.
        zero = (style.dimzin, style.dimazin, style.dimalt, style.dimtol, style.dimlim, style.dimcen)
        assert zero == (0,) * len(zero), name
        # ezdxf takes a rounding of 0 for whole numbers.
        assert not style.hasattr("dimrnd"), name
        assert (style.dimlunit, style.dimdsep, style.dimaunit, style.dimfrac) == (2, 46, 0, 0), name
        assert style.dimadec == style.dimdec
        # Colour and width of the dimension: by block.
        assert (style.dimclrd, style.dimclre, style.dimclrt) == (0, 0, 0)
        assert (style.dimlwd, style.dimlwe) == (-2, -2)


def test_words_are_along_the_line_or_as_the_drawing_has_them(doc: Drawing) -> None:
    """ISO 129-1: read from the bottom or from the right."""
    for dimension, (kind, shown, _) in zip(dimensions(doc), KNOWN, strict=True):
        style = doc.dimstyles.get(dimension.dxf.dimstyle).dxf
        assert style.dimtih == style.dimtoh, shown
        text = next(e for e in dimension.get_geometry_block() if e.dxftype() == "TEXT")
        along = dimension.dxf.angle if kind == LINEAR else None
        anew = 0.0 if style.dimtih else dimension.dxf.text_rotation or along
        assert anew == text.dxf.rotation, shown


def test_they_are_drawn(decoded: Drawing, tmp_path: Path) -> None:
    dxf_file.render(decoded, tmp_path / "all.png")
    whole = picture.inked(tmp_path / "all.png")
    for dimension in dimensions(decoded):
        decoded.modelspace().delete_entity(dimension)
    dxf_file.render(decoded, tmp_path / "bare.png")
    assert whole > picture.inked(tmp_path / "bare.png") > 0.001
