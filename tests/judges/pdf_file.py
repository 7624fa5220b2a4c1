"""A PDF file as pypdf reads it, and drawn by PDFium."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pypdf
import pypdfium2
from PIL import Image
from pypdf.generic import DictionaryObject

MM_PER_POINT = 25.4 / 72.0
# The streams that hold a font's outlines (ISO 32000-1:2008, table 126).
EMBEDDED = ("/FontFile", "/FontFile2", "/FontFile3")


@dataclass(frozen=True)
class Pdf:
    """What a reader finds in a file."""

    pages: int
    size_mm: tuple[float, float]
    title: str | None
    language: str | None
    words: str
    fonts: list[str]
    without_outlines: list[str]
    images: int
    dated: bool


def _fonts(resources: DictionaryObject) -> list[DictionaryObject]:
    """The fonts of a page that have a descriptor: a composite one's is its descendant's."""
    found: list[DictionaryObject] = []
    for font in resources.get("/Font", {}).values():
        font = font.get_object()
        parts = font["/DescendantFonts"] if "/DescendantFonts" in font else [font]
        found += [part.get_object() for part in parts]
    return found


def read(path: Path) -> Pdf:
    """Reads the first page, strictly: a file that needs mending raises."""
    reader = pypdf.PdfReader(path, strict=True)
    page = reader.pages[0]
    fonts = _fonts(page["/Resources"])
    bare = [
        str(font["/BaseFont"])
        for font in fonts
        if not any(key in font.get("/FontDescriptor", {}).get_object() for key in EMBEDDED)
    ]
    about = reader.metadata or {}
    return Pdf(
        pages=len(reader.pages),
        size_mm=(float(page.mediabox.width) * MM_PER_POINT, float(page.mediabox.height) * MM_PER_POINT),
        title=about.get("/Title"),
        language=reader.trailer["/Root"].get("/Lang"),
        words=page.extract_text(),
        fonts=[str(font["/BaseFont"]) for font in fonts],
        without_outlines=bare,
        images=len(page.images),
        dated="/CreationDate" in about or "/ModDate" in about or b"Date>" in path.read_bytes(),
    )


def render(path: Path, width: int) -> Image.Image:
    """The first page, in grey, so many pixels wide."""
    page = pypdfium2.PdfDocument(path)[0]
    return page.render(scale=width / page.get_width()).to_pil().convert("L")
