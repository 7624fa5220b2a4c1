"""An SVG file as XML, and drawn by resvg."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as xml
from pathlib import Path

import resvg_py
from PIL import Image

SVG = "{http://www.w3.org/2000/svg}"
# Anything that a viewer would fetch or run.
ACTIVE = {"script", "foreignObject", "image", "iframe", "audio", "video"}


def faults(text: str) -> list[str]:
    """Not an SVG, no view box, anything from outside the file; ParseError where it is no XML."""
    root = xml.fromstring(text)
    found: list[str] = []
    if root.tag != f"{SVG}svg":
        found.append(f"root {root.tag}")
    box = [float(v) for v in re.split(r"[\s,]+", root.get("viewBox", "").strip()) if v]
    if len(box) != 4 or not (box[2] > 0.0 and box[3] > 0.0):
        found.append(f"viewBox {root.get('viewBox')!r}")
    if "<!DOCTYPE" in text or "<!ENTITY" in text or "<?xml-stylesheet" in text:
        found.append("a document type, entity or style sheet of outside")
    for element in root.iter():
        if element.tag.removeprefix(SVG) in ACTIVE:
            found.append(f"a {element.tag.removeprefix(SVG)}")
        for name, value in element.attrib.items():
            if name.split("}")[-1] in ("href", "src") and not value.startswith("#"):
                found.append(f"a reference to {value!r}")
            if re.match("on[a-z]", name):
                found.append(f"a handler {name}")
        styled = " ".join([*element.attrib.values(), element.text or ""])
        if re.search(r"url\(\s*['\"]?(?!#)|@import", styled):
            found.append(f"a style that refers outside: {styled!r}")
    return found


def render(path: Path, png: Path) -> None:
    """Draws the file as a PNG 1000 pixels wide."""
    png.write_bytes(bytes(resvg_py.svg_to_bytes(svg_path=str(path), width=1000, dpi=96)))


def picture(path: Path, width: int, fonts: list[Path] | None = None) -> Image.Image:
    """The file in grey on white, with no other fonts than those of the files."""
    families = {"sans_serif_family": "DejaVu Sans", "font_files": [str(font) for font in fonts]} if fonts else {}
    png = resvg_py.svg_to_bytes(
        svg_path=str(path), width=width, dpi=96, background="white", skip_system_fonts=True, **families
    )
    with Image.open(io.BytesIO(bytes(png))) as image:
        return image.convert("L")
