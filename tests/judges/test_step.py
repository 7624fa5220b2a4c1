"""section.step and section-plain.step of every design, read by Open CASCADE, against numbers from outside.

Volume and area: report.json of the same run (which R1's and the random sections' independent routes confirm).
Surfaces: counted from the design's numbers (random designs) or from half-section.dxf (files in the repository).
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

import conftest
import designs
import dxf_file
import names
import pytest
import random_designs
import turned
from conftest import Made, Maker

RANDOM = random_designs.designs(14)
FILES = [*designs.DESIGNS, *designs.COINCIDENCES]
# Of the volume: splines are off by 1e-7 mm, so the volume by no more than area x that: under 2e-7 of it on a section.
RELATIVE = 1e-6
# Bytes of R1: more, and mail and browsers' viewers balk.
LARGEST = 3_000_000


@pytest.fixture(scope="module")
def reader(occt: Any) -> Callable[[Path], Any]:
    import step_file

    return step_file.read


def judge(step: Any, exact: dict[str, Any], cylinders: int, cones: int) -> None:
    """One valid solid of the right size, its holes and tapers recognised, no surface written twice."""
    assert step.faults == []
    assert step.volume == pytest.approx(exact["volume_mm3"], rel=RELATIVE)
    assert step.area == pytest.approx(exact["area_mm2"], rel=RELATIVE)
    assert (len(step.cylinders), len(step.cones)) == (cylinders, cones)
    assert (step.instances("CYLINDRICAL_SURFACE"), step.instances("CONICAL_SURFACE")) == (cylinders, cones)
    assert step.instances("MANIFOLD_SOLID_BREP") == 1
    assert step.faces == step.instances("ADVANCED_FACE")


def judge_both(made: Made, reader: Callable[[Path], Any], part: turned.Turned, leads: int = 0) -> None:
    """Both files of a run; each lead of a tap or die is one more cone."""
    cones = len(part.cones())
    threaded = reader(made.file(names.STEP))
    judge(threaded, made.report["solid"], len(part.cylinders(True)), cones + leads)
    plain = reader(made.file(names.PLAIN_STEP))
    judge(plain, made.report["plain"], len(part.cylinders(False)), cones)
    assert plain.instances("B_SPLINE_SURFACE_WITH_KNOTS") == 0
    assert "Threads are not modelled" in plain.text and "the drawing governs" in plain.text
    assert {"tenon-thread.crest", "unit-thread.flank.front", "recess", "back-face"} <= threaded.names()
    assert not any("thread" in name for name in plain.names())


def leads(design: Path) -> int:
    """How many threads of the section have a tap's or die's lead, by the design file."""
    written = tomllib.loads(design.read_text(encoding="utf-8"))
    bores = written.get("bores", {})
    tables = [written.get("tenon", {}), bores.get("thread", {}), *written.get("grip", {}).get("run", [])]
    return sum("lead" in table.get("run_out", {}) for table in tables)


@dataclass(frozen=True)
class Drawn(turned.Turned):
    """A half-section in chains that arcs, or the axis between two holes that do not meet, part."""

    chains: list[turned.HalfPlane] = field(default_factory=list)

    def lines(self) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
        for chain in self.chains:
            yield from pairwise(chain)


def drawn(path: Path) -> turned.Turned:
    """The half-section as half-section.dxf has it: outline, bore, and the roots of threads."""
    space = dxf_file.read(path).modelspace()
    chains: dict[str, list[turned.HalfPlane]] = {"outline": [], "bore": []}
    for chain in space.query("LWPOLYLINE"):
        vertices = list(chain.get_points("xyb"))
        if chain.dxf.layer not in chains or any(y < 0.0 for _, y, _ in vertices):
            continue
        # An arc is no cylinder and no cone: the chain goes on behind it.
        points: list[turned.HalfPlane] = [[]]
        for x, y, bulge in vertices:
            points[-1].append((y, x))
            if bulge:
                points.append([])
        chains[chain.dxf.layer].extend(piece for piece in points if len(piece) > 1)
    roots = {round(abs(line.dxf.start.y), 6): line for line in space.query("LINE") if line.dxf.layer == "thread"}
    # A root's line stands for a thread whose root it is.
    threads = [turned.Thread(r, 1.0, 0.0, 1.0, internal=True, hole=r) for r in roots]
    return Drawn([], [], threads, [*chains["outline"], *chains["bore"]])


@pytest.mark.parametrize("design", FILES, ids=designs.name)
def test_step_of_each_design(made: Maker, reader: Callable[[Path], Any], design: Path) -> None:
    got = made(design)
    if got.status == names.INPUT_WRONG:
        assert design in designs.COINCIDENCES and got.stderr.strip()
        return
    judge_both(got, reader, drawn(got.file(names.DXF)), leads(design))


@pytest.fixture(scope="module")
def random_made(tmp_path_factory: pytest.TempPathFactory) -> Callable[[random_designs.Design], Made]:
    kept: dict[str, Made] = {}

    def once(design: random_designs.Design) -> Made:
        if design.name not in kept:
            folder = tmp_path_factory.mktemp(design.name)
            kept[design.name] = conftest.make(design.write(folder / "in"), folder / "out")
        return kept[design.name]

    return once


@pytest.mark.parametrize("design", RANDOM, ids=lambda d: d.name)
def test_step_of_random_designs(random_made: Any, reader: Callable[[Path], Any], design: random_designs.Design) -> None:
    got = random_made(design)
    assert got.folder is not None, got.stderr
    judge_both(got, reader, design.part)


def test_at_least_forty_files_are_read(made: Maker) -> None:
    designs_made = sum(made(design).folder is not None for design in FILES) + len(RANDOM)
    assert 2 * designs_made >= 40


def test_step_of_bodies_that_no_design_asks_for(reader: Callable[[Path], Any]) -> None:
    """Units, balls, cones and tori of every kind, and random parts with coincidences, written by the Rust tests."""
    folder = designs.bodies()
    exact = json.loads((folder / "exact.json").read_text("utf-8"))
    assert len(exact) > 20
    wrong = {}
    for name, said in exact.items():
        step = reader(folder / f"{name}.step")
        found = (len(step.cylinders), len(step.cones))
        faults = list(step.faults)
        if step.volume != pytest.approx(said["volume_mm3"], rel=RELATIVE):
            faults.append(f"volume {step.volume}")
        if step.area != pytest.approx(said["area_mm2"], rel=RELATIVE):
            faults.append(f"area {step.area}")
        if found != (said["cylinders"], said["cones"]):
            faults.append(f"cylinders and cones {found}")
        if faults:
            wrong[name] = faults
    assert wrong == {}


def test_r1_is_small(made: Maker) -> None:
    assert made(designs.R1).file(names.STEP).stat().st_size < LARGEST


@pytest.mark.parametrize("spoil", ["no reference", "no face"])
def test_self_a_spoilt_file_is_seen(made: Maker, reader: Callable[[Path], Any], tmp_path: Path, spoil: str) -> None:
    text = made(designs.R1).file(names.PLAIN_STEP).read_text("ascii")
    if spoil == "no reference":
        text = text.replace("VERTEX_POINT('',#1)", "VERTEX_POINT('',#99999)", 1)
    else:
        shell = text.index("CLOSED_SHELL('',(")
        end = text.index(",", shell + len("CLOSED_SHELL('',("))
        text = text[: shell + len("CLOSED_SHELL('',(")] + text[end + 1 :]
    path = tmp_path / "spoilt.step"
    path.write_text(text, "ascii")
    assert reader(path).faults


def test_self_surfaces_are_counted_by_their_place() -> None:
    part = turned.Turned([(5.0, 0.0), (5.0, 4.0), (6.0, 6.0), (7.0, 8.0), (7.0, 9.0)], [(3.0, 0.0), (3.0, 9.0)])
    assert len(part.cylinders(False)) == 3
    assert len(part.cones()) == 1, "two runs on one cone"
    assert all(a != b for a, b in pairwise(part.cylinders(False)))
