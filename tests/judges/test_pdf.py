"""PDF and SVG of the sheets that tests/export/pdf.rs leaves: read by pypdf, drawn by PDFium and by resvg."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import designs
import numpy as np
import pdf_file
import pytest
import svg_file
from PIL import Image, ImageFilter

# Pixels across a sheet: 8 a millimetre of A4, so that a narrow line (0.25 mm) has two.
WIDTH = 1680
# How far apart the same ink may lie, in pixels: 0.4 mm. PDFium moves edges to whole pixels, and takes a letter's width
# for whole thousandths of an em, which after forty letters of a title 7 mm high are 0.3 mm.
NEAR = 3
# Grey levels of what is surely ink, and of what is surely paper.
INK, PAPER = 96, 160
# Of a page, in mm: f32 points are a tenth of a micrometre or finer.
SIZE_ERROR = 0.001
# What the trial sheet says and the font lacks; shown, and found, as the replacement character.
LACKING = "漢字"


def about() -> dict[str, dict[str, Any]]:
    """What each sheet holds, by its name; one that fails where the Rust tests have not been run."""
    path = designs.sheets() / "about.json"
    return json.loads(path.read_text("utf-8")) if path.is_file() else {"run cargo test first": {}}


@pytest.fixture(params=about().items(), ids=lambda item: item[0])
def sheet(request: pytest.FixtureRequest) -> tuple[Path, dict[str, Any]]:
    """A sheet's PDF, and what it holds."""
    name, said = request.param
    path = designs.sheets() / f"{name}.pdf"
    assert path.is_file(), f"no {path}: cargo test --test export"
    return path, said


def plain(words: str) -> str:
    """Without spaces: readers put them where gaps look like one."""
    return "".join(words.split())


def test_a_page_is_what_it_was_drawn_as(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, said = sheet
    pdf = pdf_file.read(path)
    assert pdf.pages == 1
    assert pdf.size_mm == pytest.approx(said["size_mm"], abs=SIZE_ERROR)
    assert pdf.title == said["title"]
    assert pdf.language == "en"
    assert len(pdf.fonts) == 1 and "DejaVuSans" in pdf.fonts[0]
    assert pdf.without_outlines == []
    assert pdf.images == 0
    assert not pdf.dated


def test_every_word_is_found(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, said = sheet
    found = plain(pdf_file.read(path).words)
    seen = [re.sub(f"[{LACKING}]", "\ufffd", words) for words in said["words"]]
    missing = [words for words in seen if plain(words) not in found]
    assert missing == []


def test_signs_come_back() -> None:
    words = pdf_file.read(designs.sheets() / "trial.pdf").words
    assert [sign for sign in "Ø±°×⌀↗↧²½≤\ufffd" if sign not in words] == []


def strays(a: Image.Image, b: Image.Image) -> int:
    """Pixels of ink in one picture round which the other is paper."""

    def alone(ink: Image.Image, other: Image.Image) -> int:
        darkest_near = np.asarray(other.filter(ImageFilter.MinFilter(2 * NEAR + 1)))
        return int(((np.asarray(ink) < INK) & (darkest_near > PAPER)).sum())

    return alone(a, b) + alone(b, a)


def test_pdf_and_svg_show_the_same(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, _ = sheet
    page = pdf_file.render(path, WIDTH)
    picture = svg_file.picture(path.with_suffix(".svg"), WIDTH).resize(page.size)
    assert strays(page, picture) == 0


def test_a_picture_needs_no_font(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, _ = sheet
    svg = path.with_suffix(".svg")
    with_fonts = svg_file.picture(svg, WIDTH, fonts=[designs.FONT])
    assert svg_file.picture(svg, WIDTH).tobytes() == with_fonts.tobytes()


def test_self_fonts_show_where_a_picture_needs_them(tmp_path: Path) -> None:
    svg = tmp_path / "a.svg"
    svg.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><text y="8" font-family="sans-serif">A</text></svg>',
        "utf-8",
    )
    with_fonts = svg_file.picture(svg, 100, fonts=[designs.FONT])
    assert svg_file.picture(svg, 100).tobytes() != with_fonts.tobytes()


def test_self_a_line_that_one_lacks_or_has_elsewhere_shows() -> None:
    """A line of two pixels, as narrow ones are here: there, a pixel off, half a millimetre off, not there."""
    line = Image.new("L", (100, 100), 255)
    line.paste(0, (10, 10, 90, 12))
    for top, shows in ((10, False), (11, False), (15, True), (None, True)):
        other = Image.new("L", (100, 100), 255)
        if top is not None:
            other.paste(0, (10, top, 90, top + 2))
        assert (strays(line, other) > 0) == shows, top
