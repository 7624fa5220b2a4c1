"""half-section.svg and walls.svg of every design, and pictures of plates, as XML and drawn by resvg."""

from __future__ import annotations

from pathlib import Path

import designs
import names
import picture
import pytest
import svg_file
from conftest import Maker


@pytest.mark.parametrize("drawing", [names.SVG, names.WALLS])
@pytest.mark.parametrize("design", [*designs.DESIGNS, None], ids=lambda d: designs.name(d) if d else "demo")
def test_svg_of_each_design(made: Maker, design: Path | None, drawing: str, tmp_path: Path) -> None:
    path = made(design).file(drawing)
    assert svg_file.faults(path.read_text("utf-8")) == []
    svg_file.render(path, tmp_path / "drawn.png")
    assert 0.001 < picture.inked(tmp_path / "drawn.png") < 0.9


@pytest.mark.parametrize("path", designs.plates(), ids=lambda path: path.stem)
def test_svg_of_each_plate(path: Path, tmp_path: Path) -> None:
    assert path.is_file(), f"no {path}: cargo test --test export"
    assert svg_file.faults(path.read_text("utf-8")) == []
    svg_file.render(path, tmp_path / "drawn.png")
    assert 0.001 < picture.inked(tmp_path / "drawn.png") < 0.9


LINE = '<line x1="1" y1="1" x2="9" y2="9" stroke="black"/>'


def svg(inside: str, box: str = 'viewBox="0 0 10 10"') -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {box}>{inside}</svg>'


def test_self_a_line_passes_and_a_blank_page_does_not(tmp_path: Path) -> None:
    path, png = tmp_path / "a.svg", tmp_path / "a.png"
    for inside, shows in ((LINE, True), ("", False)):
        path.write_text(svg(inside), "utf-8")
        assert svg_file.faults(svg(inside)) == []
        svg_file.render(path, png)
        assert (picture.inked(png) > 0.001) == shows


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (svg(LINE, ""), "viewBox"),
        (svg(LINE, 'viewBox="0 0 0 10"'), "viewBox"),
        (svg("<script/>"), "a script"),
        (svg('<use href="other.svg#a"/>'), "reference"),
        (svg('<rect fill="url(other.svg#a)"/>'), "refers outside"),
        (svg("<style>@import 'a.css';</style>"), "refers outside"),
        (svg('<rect onclick="a()"/>'), "handler"),
        ("<html/>", "root html"),
    ],
)
def test_self_a_spoilt_svg_is_named(text: str, says: str) -> None:
    assert says in "; ".join(svg_file.faults(text))
