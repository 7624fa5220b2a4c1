"""PDF and SVG of the sheets that tests/export/pdf.rs leaves: read by pypdf, drawn by PDFium and by resvg."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import designs
import numpy as np
import pdf_file
import pytest
import svg_file
from PIL import Image, ImageFilter

# Pixels across a sheet: five for a narrow line of a sheet of 210 mm would be 4200; two tell it from none.
WIDTH = 1680
# Grey levels, after a blur of two pixels, by which two programs' edges differ; a line that one lacks differs by more.
SHADES = 60
# A pixel of a page in a point: what PDFium rounds a page's width to.
INCH_PER_POINT_MM = 0.01


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
    assert pdf.size_mm == pytest.approx(said["size_mm"], abs=INCH_PER_POINT_MM)
    assert pdf.title == said["title"]
    assert pdf.language == "en"
    assert len(pdf.fonts) == 1 and "DejaVuSans" in pdf.fonts[0]
    assert pdf.without_outlines == []
    assert pdf.images == 0
    assert not pdf.dated


def test_every_word_is_found(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, said = sheet
    found = plain(pdf_file.read(path).words)
    missing = [words for words in said["words"] if plain(words) not in found]
    assert missing == []


def test_signs_come_back() -> None:
    words = pdf_file.read(designs.sheets() / "trial.pdf").words
    assert [sign for sign in "Ø±°×⌀↗↧²½≤漢字" if sign not in words] == []


def differ(a: Image.Image, b: Image.Image) -> float:
    """The greatest difference of two pictures in grey, once edges are blurred."""
    blurred = [np.asarray(picture.filter(ImageFilter.GaussianBlur(2)), dtype=np.int16) for picture in (a, b)]
    return float(np.abs(blurred[0] - blurred[1]).max())


def test_pdf_and_svg_show_the_same(sheet: tuple[Path, dict[str, Any]]) -> None:
    path, _ = sheet
    page = pdf_file.render(path, WIDTH)
    picture = svg_file.picture(path.with_suffix(".svg"), WIDTH).resize(page.size)
    assert differ(page, picture) < SHADES


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


def test_self_a_missing_line_shows() -> None:
    """A line of two pixels, the narrow ones here, and the same at another place."""
    a, b = (Image.new("L", (100, 100), 255) for _ in range(2))
    assert differ(a, b) == 0
    a.paste(0, (10, 10, 90, 12))
    assert differ(a, b) > SHADES
