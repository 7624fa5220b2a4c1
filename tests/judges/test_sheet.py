"""The sheet for the lathe: in a browser, on paper, and as instructions that make the bore."""

from __future__ import annotations

import re
from pathlib import Path

import browser
import conftest
import designs
import names
import numpy as np
import profile_file
import pypdfium2
import pytest
import sheet_file
from ezdxf import path as ezpath

A4 = (210.0, 297.0)
MM_PER_POINT = 25.4 / 72.0
# White that printers need, in mm.
MARGIN = 5.0
# A phone, a tablet upright, A4 at 96 pixels an inch.
WIDTHS = (360, 400, 600, 794, 1280)
# Of a bar of 50 mm on paper, in mm: what a ruler shows.
BAR_ERROR = 0.1
# Numbers on the sheet are rounded to hundredths: a depth is a sum of two of them.
ROUNDING = 0.011
SHEETS = [None, designs.R1, designs.FIXTURES / "both-ends.toml", designs.FIXTURES / "outside.toml"]
TOOLS = """format = 1
name = "just so"
[[drill]]
size = 6.5
point = 118
[[drill]]
size = 7.3
point = 118
[[drill]]
size = 8.14
point = 118
[[end_mill]]
size = 9.13
"""


def made(work: Path, design: Path | None, *more: str) -> Path:
    """The folder of a design's sheet."""
    out = work / "out"
    words = ["sheet", *([str(design)] if design else []), "--out", str(out), "--quiet", *more]
    done = conftest.run(words, work)
    assert done.returncode in (names.NOTHING_BREAKS, names.A_CHECK_BREAKS), done.stderr
    (folder,) = out.iterdir()
    return folder


@pytest.fixture(scope="module", params=SHEETS, ids=lambda d: designs.name(d) if d else "demo")
def folder(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A design's sheet, made once."""
    return made(tmp_path_factory.mktemp("sheet"), request.param)


def letters(path: Path) -> list[list[tuple[float, float, float, float]]]:
    """Boxes of all letters of each page, in mm from its lower left corner, as PDFium has them."""
    pages = []
    for page in pypdfium2.PdfDocument(path):
        text = page.get_textpage()
        boxes = [text.get_charbox(n) for n in range(text.count_chars())]
        pages.append([tuple(v * MM_PER_POINT for v in box) for box in boxes if box[2] > box[0]])
    return pages


def words(path: Path) -> str:
    return " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(path))


def fits(path: Path) -> None:
    """Two pages of A4 at most, and every letter within their margins."""
    document = pypdfium2.PdfDocument(path)
    assert 1 <= len(document) <= 2, len(document)
    for page in document:
        size = (page.get_width() * MM_PER_POINT, page.get_height() * MM_PER_POINT)
        assert size == pytest.approx(A4, abs=0.5), size
    for boxes in letters(path):
        left, bottom = np.min([b[:2] for b in boxes], axis=0)
        right, top = np.max([b[2:] for b in boxes], axis=0)
        assert left > MARGIN and bottom > MARGIN, (left, bottom)
        assert right < A4[0] - MARGIN and top < A4[1] - MARGIN, (right, top)


def bars(path: Path) -> list[float]:
    """Distances of the middles of neighbouring upright ticks between 49 and 51 mm, in mm: a bar's ends."""
    found = []
    for page in pypdfium2.PdfDocument(path):
        ticks = []
        for thing in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH], max_depth=5):
            left, bottom, right, top = (v * MM_PER_POINT for v in thing.get_bounds())
            if right - left < 1.6 and 1.8 < top - bottom < 4.0:
                ticks.append(((left + right) / 2, (bottom + top) / 2))
        pairs = ((a, b) for a in ticks for b in ticks if a[0] < b[0] and abs(a[1] - b[1]) < 0.1)
        found += [b[0] - a[0] for a, b in pairs if 49.0 < b[0] - a[0] < 51.0]
    return found


def test_the_pages_fit_and_carry_the_bar(folder: Path) -> None:
    path = folder / names.SHEET_PDF
    fits(path)
    assert any(abs(length - 50.0) < BAR_ERROR for length in bars(path)), bars(path)


def test_no_letters_lie_over_each_other(folder: Path) -> None:
    for boxes in letters(folder / names.SHEET_PDF):
        # Shrunk by a tenth: letters of one word may touch.
        arr = np.array(boxes)
        inner = arr + np.array([0.1, 0.1, -0.1, -0.1])
        low, high = inner[:, None, :2], inner[:, None, 2:]
        apart = (high <= inner[None, :, :2]) | (inner[None, :, 2:] <= low)
        over = ~apart.any(axis=2)
        np.fill_diagonal(over, False)
        pairs = np.argwhere(over)
        assert len(pairs) == 0, [boxes[n] for n in pairs[0]]


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_reaches_over_the_screen(folder: Path, width: int, tmp_path: Path) -> None:
    found = browser.measured(folder / names.SHEET_HTML, width, tmp_path)
    assert found["scroll"] <= found["wide"], found
    assert found["over"] == [] and found["cut"] == [], found


def test_the_page_prints_on_two_pages(folder: Path, tmp_path: Path) -> None:
    path = browser.printed(folder / names.SHEET_HTML, tmp_path)
    fits(path)
    assert any(abs(length - 50.0) < BAR_ERROR for length in bars(path)), bars(path)
    # The foot with the digest of the report.
    report = conftest.report(folder)
    assert report["section_sha256"][:12] in words(path)


def test_page_and_pages_say_the_same(folder: Path) -> None:
    """Every word of the steps stands in the PDF too."""
    page = sheet_file.read(folder / names.SHEET_HTML)
    printed = "".join(words(folder / names.SHEET_PDF).split())
    assert len(page.steps) > 10
    for step in page.steps:
        for said in [step.title, *step.columns.values(), step.notes]:
            for word in re.split(r"\s+", said):
                assert word in printed, word


def test_the_steps_make_the_bore(tmp_path: Path) -> None:
    """Whoever reads only the sheet gets the bore of profile.dxf, to the rounding of the sheet's numbers."""
    (tmp_path / "tools.toml").write_text(TOOLS)
    folder = made(tmp_path, None, "--rack", str(tmp_path / "tools.toml"))
    holes = sheet_file.holes(sheet_file.read(folder / names.SHEET_HTML))
    assert len(holes) == 4
    conftest.run(["make", "--only", "dxf", "--quiet", "--out", str(tmp_path / "drawn")], tmp_path)
    profile = profile_file.read(tmp_path / "drawn" / "demo" / names.PROFILE)
    path = ezpath.make_path(profile.paths["bore"])
    wall = np.array([(v.x, v.y) for v in path.flattening(0.0005)])
    places = 0
    for z in np.arange(0.05, wall[:, 0].max() - 0.05, 0.1):
        # Steps are not sampled: their place is off by the rounding.
        near = [np.interp(z + d, *_ascending(wall)) for d in (-0.03, 0.03)]
        if abs(near[0] - near[1]) > 0.08:
            continue
        made_here = max(hole.radius_at(z) for hole in holes)
        meant = np.interp(z, *_ascending(wall))
        assert abs(made_here - meant) < ROUNDING + 0.02, (z, made_here, meant)
        places += 1
    assert places > 200


def _ascending(wall: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The bore's wall without what closes it along the axis, by z."""
    line = wall[wall[:, 1] > 0.0]
    order = np.argsort(line[:, 0], kind="stable")
    return line[order, 0], line[order, 1]
