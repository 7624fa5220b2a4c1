"""Whether a rendered picture shows anything."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from PIL import Image


def inked(png: Path) -> float:
    """Share of the pixels that differ from the corner pixel by more than a shade."""
    with Image.open(png) as image:
        flat = Image.new("RGBA", image.size, "white")
        flat.alpha_composite(image.convert("RGBA"))
        pixels = np.asarray(flat.convert("L"), dtype=np.int16)
    return float((np.abs(pixels - pixels[0, 0]) > 32).mean())
