"""The reader of drawings itself, on a drawing made here: it rebuilds the part, and sees what is missing or too much."""

from __future__ import annotations

from math import pi, sqrt, tan

import drawing_file
import drawing_part
import drawing_sample
import drawing_truth
import drawing_volume
import drawing_words
import numpy as np
import pytest
from ezdxf.document import Drawing
from ezdxf.entities import DXFGraphic

NUMBERS = pytest.mark.parametrize("seed", range(5))


def faults(doc: Drawing, seed: int = 1) -> list[str]:
    return drawing_part.faults(drawing_file.sheet(doc, seed))


def dimensions(doc: Drawing) -> list[DXFGraphic]:
    return list(doc.modelspace().query("DIMENSION"))


def words_of(doc: Drawing, entity: DXFGraphic) -> DXFGraphic:
    return next(iter(doc.blocks[entity.dxf.geometry]))


@NUMBERS
def test_the_part_is_rebuilt(seed: int) -> None:
    part = drawing_part.rebuild(drawing_file.sheet(drawing_sample.drawing(), seed))
    walls = part.sizes.walls.all
    for wall, expected in zip(walls, (drawing_sample.outside(), drawing_sample.bore()), strict=True):
        for found, point in zip(part.chain(wall), expected, strict=True):
            assert found == pytest.approx(point, abs=1e-8)
    ends = [[part.x[z] for z in thread.z] for thread in part.sizes.threads]
    assert ends == [pytest.approx([19.5, 27.0]), pytest.approx([4.0, 11.0])]
    assert [thread.words.pitch for thread in part.sizes.threads] == [0.75, 0.55]


def test_no_coordinate_is_believed() -> None:
    """Every coordinate is another one; what is rebuilt is the same."""
    drawn = drawing_file.sheet(drawing_sample.drawing(), 3)
    true = drawing_sample.outside()
    moved = drawn.chains["outline"][0].points
    assert all(abs(x - z) > 1e-3 or abs(2 * y - d) > 1e-3 for (x, y), (z, d, _) in zip(moved, true))
    assert [x > y for x, y in zip(moved, moved[1:])] == [a[:2] > b[:2] for a, b in zip(true, true[1:])]


def test_each_dimension_is_needed() -> None:
    count = len(dimensions(drawing_sample.drawing()))
    assert count == 26
    for n in range(count):
        doc = drawing_sample.drawing()
        gone = dimensions(doc)[n]
        text = words_of(doc, gone).dxf.text
        doc.modelspace().delete_entity(gone)
        wanted = "no callout" if text == "M8x0.55" else "missing"
        assert any(wanted in fault for fault in faults(doc)), text


def test_no_dimension_may_be_said_twice() -> None:
    for n in range(len(dimensions(drawing_sample.drawing()))):
        drawn = drawing_file.sheet(drawing_sample.drawing(), 1)
        twice = drawn.dimensions[n]
        drawn.dimensions.append(twice)
        assert any("redundant" in fault for fault in drawing_part.faults(drawn)), twice.text


def test_a_chain_of_dimensions_is_redundant() -> None:
    doc = drawing_sample.drawing()
    drawing_sample.dimension(doc, "7.5", (19.5, 5), (27, 4.5), 0)
    (fault,) = faults(doc)
    assert fault.startswith("redundant: 1 of") and all(text in fault for text in ("7.5", "9", "1.5"))


@pytest.mark.parametrize(
    ("text", "becomes", "says"),
    [
        ("18", "17.9", None),
        ("18", "circa 18", "these words are no size"),
        ("M8x0.55", "M8", "no callout"),
        ("R40", "R4", "contradiction"),
        ("12", "3", "order"),
        ("1 %%p0.05", "0.4", "no limits of its own"),
    ],
)
def test_a_changed_text_changes_the_part(text: str, becomes: str, says: str | None) -> None:
    doc = drawing_sample.drawing()
    drawn = next(w for e in dimensions(doc) if (w := words_of(doc, e)).dxf.text == text)
    drawn.dxf.text = becomes
    if says:
        assert any(says in fault for fault in faults(doc)), faults(doc)
    else:
        part = drawing_part.rebuild(drawing_file.sheet(doc, 1))
        assert part.chain(part.sizes.walls.outside)[8][0] == pytest.approx(float(becomes))


def test_rounding_goes_through() -> None:
    """The tip of a drill's cone: its z moves with the depth, and by half a diameter over tan 59 degrees with each diameter,
    by 0.7 / sin^2 of it with half the angle."""
    part = drawing_part.rebuild(drawing_file.sheet(drawing_sample.drawing(), 1))
    tip = part.sizes.walls.all[1].nodes[6]
    mm, degrees = drawing_words.LENGTH_ROUNDING, drawing_words.ANGLE_ROUNDING
    sine = drawing_sample.TAN_59 / (1 + drawing_sample.TAN_59**2) ** 0.5
    expected = mm * (1 + 1 / drawing_sample.TAN_59) + 0.7 / sine**2 * degrees / 2 * pi / 180
    assert part.rounding()[tip.z] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "number", "limits"),
    [
        ("12.5", 12.5, None),
        ("12.50 ±0.03", 12.5, (-0.03, 0.03)),
        ("12.5 +0.05/0", 12.5, (0.0, 0.05)),
        ("12.5 +0.1/-0.05", 12.5, (-0.05, 0.1)),
        ("12.5 0/-0.1", 12.5, (-0.1, 0.0)),
        ("Ø8.3 ±0.02 counterbore", 8.3, (-0.02, 0.02)),
        ("R0.5", 0.5, None),
        ("118° ±2°", 118.0, (-2.0, 2.0)),
        ("0.5 ±0.1 × 45°", 0.5, (-0.1, 0.1)),
    ],
)
def test_words_are_read(text: str, number: float, limits: tuple[float, float] | None) -> None:
    _, (first, *_) = drawing_words.values(text)
    assert (first.number, first.limits) == (number, limits)


def test_threads_and_notes_are_read() -> None:
    thread = drawing_words.ThreadWords
    for text, expected in (
        ("M10x0.75-6g", thread("M", 10.0, 0.75, 1, False)),
        ("M13xPh2.4P0.8-6g", thread("M", 13.0, 0.8, 3, False)),
        ("Tr10.4x3P1.5-LH", thread("Tr", 10.4, 1.5, 2, True)),
    ):
        assert drawing_words.thread(text) == expected
    notes = drawing_words.Notes.of(["Cone angles 118° unless shown.", "ISO 2768-f; not kept by these limits: wall.lip"])
    assert (notes.general, notes.cone.number, notes.not_kept) == ("f", 118.0, {"wall.lip"})


def test_general_limits_are_those_of_the_class() -> None:
    """ISO 2768-1 table 1, class m: over 6 up to 30 mm plus and minus 0.2; class f 0.1."""
    _, (length,) = drawing_words.values("12.5")
    assert (length.may_be_off("m"), length.may_be_off("f")) == ((-0.2, 0.2), (-0.1, 0.1))
    with pytest.raises(drawing_words.DrawingFault):
        length.may_be_off(None)


def test_volumes_are_those_of_handbooks() -> None:
    """A cylinder pi d^2 h / 4, a frustum pi h (R^2 + R r + r^2) / 3, a ball 4/3 pi r^3 as a half circle and as two quarters."""
    quarter = tan(pi / 8)
    for chain, expected in (
        ([(0, 4, 0), (5, 4, 0)], 20 * pi),
        ([(0, 4, 0), (3, 2, 0)], pi * 7),
        ([(0, 0, -1), (6, 0, 0)], 36 * pi),
        ([(0, 0, -quarter), (3, 6, -quarter), (6, 0, 0)], 36 * pi),
    ):
        assert drawing_volume.inside(chain) == pytest.approx(expected, rel=1e-12)


def test_threads_are_those_of_the_basic_profile() -> None:
    """By a sum over the profile's own line, at radii that cut none, some, and all of it."""
    major, pitch = 5.0, 0.75
    depth = 5 / 8 * sqrt(3) / 2 * pitch
    away = (np.arange(200000) + 0.5) / 200000 / 2
    profile = major - depth * np.clip((away - 1 / 16) / (5 / 16), 0, 1)
    for r in (4.4, 4.7, 4.9, 5.0, 5.2):
        lesser = drawing_volume.lesser(major, major - depth, np.array([r]))[0]
        greater = drawing_volume.greater(major, major - depth, np.array([r]))[0]
        assert lesser == pytest.approx((np.minimum(profile, r) ** 2).mean(), rel=1e-8)
        assert greater == pytest.approx((np.maximum(profile, r) ** 2).mean(), rel=1e-8)


def test_the_sample_is_its_own_truth() -> None:
    part = drawing_part.rebuild(drawing_file.sheet(drawing_sample.drawing(), 1))
    truth = [drawing_sample.outside(), drawing_sample.bore()]
    assert drawing_truth.differences(part, truth) == []
    z, d, bulge = truth[0][9]
    truth[0][9] = (z, d + 0.002, bulge)
    (found,) = drawing_truth.differences(part, truth)
    assert "diameter of outside" in found
