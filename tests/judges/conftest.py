"""Runs the built binary once for each design and chord, and hands its files to the judges."""

from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import designs
import names
import pytest
import random_designs

# No design takes longer; a run that does has hung.
RUN_SECONDS = 120
# Random designs that are drawn.
RANDOM_DRAWINGS = 50


@dataclass(frozen=True)
class Made:
    """What one run of `make` left."""

    status: int
    stderr: str
    out: Path
    folder: Path | None
    report: dict[str, Any] = field(default_factory=dict)

    def file(self, name: str) -> Path:
        """A file of the design's folder; fails when the run wrote none."""
        assert self.folder is not None, f"exit {self.status}, nothing written\n{self.stderr}"
        path = self.folder / name
        assert path.is_file(), f"no {name} in {sorted(p.name for p in self.folder.iterdir())}"
        return path


def binary() -> Path:
    """The release binary, or the one that SECTIONWRIGHT_BIN names."""
    target = Path(os.environ.get("CARGO_TARGET_DIR", "target"))
    path = Path(os.environ.get("SECTIONWRIGHT_BIN", designs.ROOT / target / "release" / "sectionwright"))
    assert path.is_file(), f"{path} is not built: cargo build --release"
    return path


def run(arguments: list[str], cwd: Path, **env: str) -> subprocess.CompletedProcess[str]:
    """Runs the binary; fails when it crashed."""
    done = subprocess.run(
        [str(binary()), *arguments],
        cwd=cwd,
        env=os.environ | env,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=RUN_SECONDS,
        check=False,
    )
    crashed = done.returncode not in (names.NOTHING_BREAKS, names.A_CHECK_BREAKS, names.INPUT_WRONG)
    assert not crashed and "panicked" not in done.stderr, f"exit {done.returncode}\n{done.stderr}"
    return done


def make(design: Path | None, out: Path, chord: float | None = None, **env: str) -> Made:
    """`make` into an empty folder; without a design, the demo."""
    arguments = ["make", "--out", str(out), "--quiet"]
    if design is not None:
        assert design.is_file(), f"missing: {designs.name(design)}"
        arguments.insert(1, str(design))
    if chord is not None:
        arguments += ["--chord", str(chord)]
    done = run(arguments, out.parent, **env)
    if done.returncode == names.INPUT_WRONG:
        return Made(done.returncode, done.stderr, out, None)
    folders = list(out.iterdir())
    assert len(folders) == 1 and folders[0].is_dir(), folders
    return Made(done.returncode, done.stderr, out, folders[0], report(folders[0]))


def report(folder: Path) -> dict[str, Any]:
    """What a design's folder says of itself."""
    return json.loads((folder / names.REPORT).read_text("utf-8"))


Maker = Callable[..., Made]


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Maker:
    """`made(design, chord=None)`: the run's files, kept for the session."""
    kept: dict[tuple[Path | None, float | None], Made] = {}

    def once(design: Path | None, chord: float | None = None) -> Made:
        if (design, chord) not in kept:
            out = tmp_path_factory.mktemp("made") / "out"
            kept[design, chord] = make(design, out, chord)
        return kept[design, chord]

    return once


@dataclass(frozen=True)
class Drawn:
    """A random design, and the folder that it was made into."""

    sizes: random_designs.Sizes
    folder: Path


@pytest.fixture(scope="session")
def random_drawings(tmp_path_factory: pytest.TempPathFactory) -> list[Drawn]:
    """The drawings of random designs, in DXF."""
    work = tmp_path_factory.mktemp("drawings")
    dice = random_designs.random.Random(random_designs.SEED)
    sizes = [random_designs.sizes(dice, number) for number in range(RANDOM_DRAWINGS)]

    def make_one(of: random_designs.Sizes) -> Drawn:
        path = random_designs.design(of).write(work / of.name)
        out = path.parent / "out"
        done = run(["make", str(path), "--out", str(out), "--quiet", "--only", "report,dxf"], path.parent)
        assert done.returncode != names.INPUT_WRONG, done.stderr
        (folder,) = out.iterdir()
        return Drawn(of, folder)

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        return list(pool.map(make_one, sizes))


@pytest.fixture(scope="session")
def occt() -> Any:
    """Open CASCADE, or a skip that names what it lacks; no skip where SECTIONWRIGHT_NO_SKIP is 1."""
    try:
        import OCP
    except ImportError as error:
        # A package that is missing is a fault of .judges; a system library needs root.
        if ".so" not in str(error) or os.environ.get("SECTIONWRIGHT_NO_SKIP") == "1":
            raise
        pytest.skip(f"needs the Debian packages libgl1, libx11-6 and libexpat1: {error}")
    return OCP
