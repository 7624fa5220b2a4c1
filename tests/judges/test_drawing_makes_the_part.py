"""drawing.dxf makes the part: read by its words alone, with all coordinates distorted, it gives the same solid.

The truth of a random design are its own numbers; of others the vertices of half-section.dxf, which other judges hold to
the solid. Volumes are held to report.json's.
"""

from __future__ import annotations

import json
import os
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from pathlib import Path

import conftest
import designs
import drawing_corners
import drawing_file
import drawing_part
import drawing_truth
import drawing_volume
import names
import numpy as np
import pytest
import random_designs
from conftest import Drawn, Made, Maker
from drawing_part import Rebuilt
from drawing_words import DrawingFault

# Any seed will do: the part must not depend on it.
SEED = 7
# Threads that are no basic profile of ISO 68-1 end to end: their form or their run-out is not this judge's.
OTHER_FORMS = {"threads"}
EVERY = pytest.mark.parametrize("design", [*designs.DESIGNS, None], ids=lambda d: designs.name(d) if d else "demo")
# Of a volume: what Gauss-Legendre sums and the report's digits leave.
RELATIVE = 1e-7
# All checks by their kinds: with a list the program leaves out the room of sizes, which takes most of its time.
KINDS = "wall.*,thread.*,made.*,clear.*,joint.*"


def sheet_of(drawn: Drawn) -> drawing_file.Sheet:
    """A random design's drawing, distorted."""
    return drawing_file.read(drawn.folder / names.DRAWING, SEED)


def volumes(part: Rebuilt, report: dict, threads: bool) -> list[str]:
    """Volumes that are off by more than what rounding of the drawing's numbers makes of them."""
    drawn = np.array(part.sizes.walls.system.values)
    rounding = np.array([value.rounding for value in part.sizes.values])
    may = float(np.abs(drawing_corners.material(part, drawn)) @ rounding)
    plain = drawing_volume.plain(part)
    found = {"plain": (plain, report["plain"]["volume_mm3"], may)}
    if threads:
        taken = drawing_volume.threads(part)
        # What threads take away moves with the same numbers, and by less.
        found["threaded"] = (plain - taken, report["solid"]["volume_mm3"], 2 * may)
    return [
        f"{name} volume {own:.4f}, not {true:.4f} (by {by:.4f})"
        for name, (own, true, by) in found.items()
        if abs(own - true) > by + RELATIVE * true
    ]


@EVERY
def test_the_drawing_makes_the_part(made: Maker, design: Path | None) -> None:
    got: Made = made(design)
    part = drawing_part.rebuild(drawing_file.read(got.file(names.DRAWING), SEED))
    assert drawing_truth.differences(part, drawing_truth.of_file(got.file(names.DXF))) == []
    assert volumes(part, got.report, design is None or design.stem not in OTHER_FORMS) == []


def test_random_drawings_make_their_parts(random_drawings: list[Drawn]) -> None:
    wrong = {}
    for drawn in random_drawings:
        sheet = sheet_of(drawn)
        found = drawing_part.faults(sheet)
        if not found:
            part = drawing_part.rebuild(sheet)
            truth = random_designs.part(drawn.sizes)
            found = drawing_truth.differences(part, drawing_truth.of_part(truth))
            found += volumes(part, conftest.report(drawn.folder), threads=True)
            found += threads_off(part, truth)
        if found:
            wrong[drawn.sizes.name] = found
    assert wrong == {}


def threads_off(part: Rebuilt, truth: random_designs.Turned) -> list[str]:
    """Threads that are not those of the design, by callout and ends."""
    def told(internal: bool, major: float, pitch: float, starts: int, left: bool) -> tuple:
        return internal, round(2 * major, 6), pitch, starts, left

    drawn = {}
    for own in part.sizes.threads:
        words = own.words
        drawn[told(not own.external, words.nominal / 2, words.pitch, words.starts, words.left)] = own
    may, found = part.rounding() + drawing_truth.BESIDE, []
    for thread in truth.threads:
        own = drawn.get(told(thread.internal, thread.major, thread.pitch, thread.starts, thread.left))
        if own is None:
            found.append(f"no thread {thread.major} x {thread.pitch} in {list(drawn)}")
            continue
        for number, true in zip(own.z, (thread.low, thread.high)):
            if abs(part.x[number] - true) > may[number]:
                found.append(f"full thread ends at {part.x[number]:.4f}, not at {true:.4f}")
    return found


@pytest.mark.parametrize("design", [None, designs.FIXTURES / "outside.toml", designs.FIXTURES / "both-ends.toml"])
def test_no_dimension_is_missing_or_redundant(made: Maker, design: Path | None) -> None:
    """Each dimension in turn left out of a true drawing, then said twice; each is noticed."""
    whole = drawing_file.read(made(design).file(names.DRAWING), SEED)
    assert drawing_part.faults(whole) == []
    for n, dimension in enumerate(whole.dimensions):
        without = drawing_file.Sheet(whole.chains, whole.lines, [*whole.dimensions[:n], *whole.dimensions[n + 1 :]], whole.notes)
        found = drawing_part.faults(without)
        assert any("missing" in f or "no callout" in f for f in found), (dimension.text, found)
        twice = drawing_file.Sheet(whole.chains, whole.lines, [*whole.dimensions, dimension], whole.notes)
        assert any("redundant" in f for f in drawing_part.faults(twice)), dimension.text


def test_the_worst_corners_hold(random_drawings: list[Drawn]) -> None:
    """At every corner of the drawing's limits, no check that is kept as drawn is broken, but those that a note names."""
    def judge(drawn: Drawn) -> list[str]:
        sheet = sheet_of(drawn)
        part = drawing_part.rebuild(sheet)
        as_drawn = margins(drawn.folder.parent.parent / f"{drawn.sizes.name}.toml")
        kept = {code for code, (margin, _) in as_drawn.items() if margin >= 0} - sheet.notes.not_kept
        found = []
        for number, (name, values) in enumerate(drawing_corners.corners(part, SEED)):
            try:
                sizes = drawing_corners.sizes(drawn.sizes, part, part.with_values(values))
            except DrawingFault as fault:
                found.append(f"{drawn.sizes.name}, {name}: {fault}")
                continue
            path = random_designs.design(sizes).write(drawn.folder.parent.parent / f"corner-{number}")
            there = margins(path)
            broken = [f"{code} {there[code][0]:.4f}" for code in sorted(kept & there.keys()) if there[code][0] < -there[code][1]]
            if broken:
                found.append(f"{drawn.sizes.name}, {name}: {', '.join(broken)}")
            lost = kept - there.keys()
            if lost:
                found.append(f"{drawn.sizes.name}, {name}: no longer checked: {sorted(lost)}")
        return found

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        assert [fault for found in pool.map(judge, random_drawings) for fault in found] == []


@cache
def margins(design: Path) -> dict[str, tuple[float, float]]:
    """Each check's margin and error; a design that can't be made has none that holds."""
    done = conftest.run(["check", str(design), "--json", "--only", KINDS], design.parent)
    assert done.returncode != names.INPUT_WRONG, (design, done.stderr)
    checks = json.loads(done.stdout)["checks"]
    return {check["code"]: (check["margin"], check["error"] or 0.0) for check in checks if check["margin"] is not None}
