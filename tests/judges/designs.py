"""The design files that are judged."""

from __future__ import annotations

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FIXTURES = ROOT / "tests" / "fixtures"
R1 = FIXTURES / "r1.toml"
FONT = ROOT / "src" / "drawing" / "font" / "DejaVuSans.ttf"
SCHEMA = ROOT / "src" / "export" / "report.schema.json"


def found(folder: Path) -> list[Path]:
    """The designs of a folder; its pattern itself when there is none, so that a judge fails on it.

    A file `*-unit.toml` beside a design describes a nib unit.
    """
    files = sorted(p for p in folder.glob("*.toml") if not p.stem.endswith("-unit"))
    return files or [folder / "*.toml"]


SHIPPED = found(ROOT / "profiles" / "designs")
DESIGNS = SHIPPED + found(FIXTURES)
COINCIDENCES = found(FIXTURES / "coincidence")


def handles(design: Path) -> int:
    """Handles of the section: 1 where it is bored through, 0 for the fixtures called blind."""
    return 0 if design.stem.startswith("blind") else 1


def name(design: Path) -> str:
    """A test's id: the path inside the repository."""
    return str(design.relative_to(ROOT))


def bodies() -> Path:
    """Where the Rust tests leave STEP files of bodies that no design can ask for yet (tests/step.rs)."""
    return ROOT / os.environ.get("CARGO_TARGET_DIR", "target") / "tmp" / "step"


def sheets() -> Path:
    """Where the Rust tests leave sheets as PDF and SVG (tests/export/pdf.rs)."""
    return ROOT / os.environ.get("CARGO_TARGET_DIR", "target") / "tmp" / "pdf"


def plates() -> list[Path]:
    """Pictures of printers' plates that the Rust tests leave (tests/export/plate_picture.rs); a file that
    there is not where they have not been run."""
    folder = ROOT / os.environ.get("CARGO_TARGET_DIR", "target") / "tmp" / "plate"
    return sorted(folder.glob("*.svg")) or [folder / "run cargo test first.svg"]
