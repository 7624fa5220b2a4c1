"""What the checks say, against booleans and distances of outside libraries on the files that are written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import conftest
import designs
import igl
import mated
import names
import numpy as np
import pytest
import random_designs
import stl_file
from conftest import Maker
from numpy.typing import NDArray

# A tenth of the gap between R1's flanks, 0.0125.
CHORD = 0.00125
# What a length may be off beside the chord, in mm.
BESIDE = 0.002
MICRON = 1e-3
# Of a volume in common by Open CASCADE: splines are off by 1e-7 mm, on slivers 0.046 mm wide.
KERNEL = 1e-5

# R1 with a tenon that is cut small enough to leave play as drawn, and with both inner threads too large.
FREE = "form = { major = 9.94, pitch_diameter = 9.45, minor = 9.12 }", 8.00
TIGHT = "form = { major = 10.06, pitch_diameter = 9.57, minor = 9.25 }", 8.13
PAIRS = ("unit", "tenon")


def described(folder: Path, tenon: str, unit_major: float) -> Path:
    """R1 with other inner threads."""
    folder.mkdir(parents=True)
    (folder / "mated-unit.toml").write_text(
        f'format = 1\nlike = "{designs.FIXTURES / "r1-unit.toml"}"\nname = "unit"\n[thread]\nmajor = {unit_major}\n', "utf-8"
    )
    path = folder / "mated.toml"
    path.write_text(f'format = 1\nlike = "{designs.R1}"\nname = "mated"\nunit = "mated-unit.toml"\n[barrel]\nthread = "M10x0.75-6H"\n[tenon]\n{tenon}\n', "utf-8")
    return path


@dataclass(frozen=True)
class Screwed:
    """A pair of parts and what the program says of it."""

    files: Path
    pair: mated.Mated
    angle: float
    said: dict[str, dict[str, Any]]


def found(report: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {check["code"]: check for check in report["checks"] + report["information"]}


@pytest.fixture(scope="module")
def screwed(tmp_path_factory: pytest.TempPathFactory) -> Callable[[tuple[str, float], str], Screwed]:
    """`screwed(FREE, "unit")`: both parts' meshes in place, turned until flanks are even."""
    made: dict[tuple[str, float], tuple[Path, dict[str, Any]]] = {}
    kept: dict[tuple[tuple[str, float], str], Screwed] = {}

    def once(kind: tuple[str, float], which: str) -> Screwed:
        if (kind, which) in kept:
            return kept[kind, which]
        if kind not in made:
            folder = tmp_path_factory.mktemp("mated")
            design = described(folder / "in", *kind)
            arguments = ["make", str(design), "--out", "out", "--part", "section,unit,barrel", "--only", "stl,step"]
            done = conftest.run([*arguments, "--chord", str(CHORD)], folder)
            assert done.returncode != names.INPUT_WRONG, done.stderr
            (out,) = (folder / "out").iterdir()
            made[kind] = out, conftest.report(out)
        out, report = made[kind]
        said = found(report)
        run = said[f"thread.{which}.turns"]["details"]
        low, high = run["from z (mm)"], run["to z (mm)"]
        section = mated.manifold(out / f"{names.STL}")
        if which == "unit":
            unit, seat = mated.manifold(out / "unit.stl"), said["clear.seat"]["details"]["the collar rests at z (mm)"]
            pair = mated.Mated(unit, section, seat, low, high, 0.55)
        else:
            # The barrel begins at the shoulder, z 21 of R1.
            barrel = mated.manifold(out / "barrel.stl")
            pair = mated.Mated(section, barrel, -21.0, low - 21.0, high - 21.0, 0.75)
        kept[kind, which] = Screwed(out, pair, pair.centred(), said)
        return kept[kind, which]

    return once


@pytest.mark.parametrize("which", PAIRS)
def test_threads_that_have_play_share_nothing(screwed: Any, which: str) -> None:
    got = screwed(FREE, which)
    assert got.said[f"thread.{which}.play"]["measured"] > 0.02
    assert got.said[f"thread.{which}.interference"]["measured"] == 0.0
    assert got.pair.common(got.angle).volume() < mated.NOTHING


@pytest.mark.parametrize("which", PAIRS)
@pytest.mark.parametrize("side", [-1.0, 1.0])
def test_pushed_by_half_their_play_threads_touch(screwed: Any, which: str, side: float) -> None:
    got = screwed(FREE, which)
    half = got.said[f"thread.{which}.play"]["measured"] / 2
    assert got.pair.common(got.angle, side * (half - CHORD - BESIDE)).volume() < mated.NOTHING
    touching = got.pair.common(got.angle, side * (half + CHORD + BESIDE))
    assert touching.volume() > 100 * mated.NOTHING


@pytest.mark.parametrize("which", PAIRS)
def test_interference_is_what_booleans_find(screwed: Any, which: str) -> None:
    """Surfaces off by the chord would add or take no more than the skin of what both share, times the chord."""
    got = screwed(TIGHT, which)
    said, common = got.said[f"thread.{which}.interference"], got.pair.common(got.angle)
    assert got.said[f"thread.{which}.play"]["measured"] < 0.0
    assert common.volume() > 1.0
    assert said["measured"] == pytest.approx(common.volume(), abs=CHORD * common.surface_area())
    # By far most of that bound is not used: with the same sign all over, it would be.
    assert said["measured"] == pytest.approx(common.volume(), rel=0.03)
    # It stands where it is said to be: the place lies in the run, between crest and root.
    place, run = said["where"], got.said[f"thread.{which}.turns"]["details"]
    assert run["from z (mm)"] <= place["z_mm"] <= run["to z (mm)"]


def test_interference_is_what_a_kernel_finds(occt: Any, screwed: Any) -> None:
    """Over two turns, a thirteenth of the time of all; where leads agree, each turn has its share."""
    import mated_solids

    got = screwed(TIGHT, "unit")
    pair, said = got.pair, got.said["thread.unit.interference"]["measured"]
    low = (pair.low + pair.high) / 2 - pair.pitch
    share = 2 * pair.pitch / (pair.high - pair.low)
    files = got.files / "unit.step", got.files / names.STEP
    exact = mated_solids.common(*files, got.angle, pair.rests, low, low + 2 * pair.pitch)
    assert said * share == pytest.approx(exact, rel=KERNEL)


# Zones that are all of a bore's surface, and those that are all of an outside's; the least wall is both.
BY_BORE = {names.WALL_LIP, names.WALL_RECESS, names.WALL_CLEARANCE, names.WALL_UNIT_THREAD, names.WALL_LEAST}
BY_OUTSIDE = {names.WALL_TENON, names.WALL_TENON_TIP, names.WALL_RELIEF, names.WALL_LEAST}
# Angles at which a point of the half-section is taken: a thread's root, a quarter of a pitch wide, passes some.
ANGLES = 128


def skins(mesh: stl_file.StlFile) -> dict[str, NDArray[np.int64]]:
    """Triangles that look to the axis, and that look away from it; those across the axis are neither's."""
    corners = mesh.vertices[mesh.faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    outwards = (normals[:, :2] * corners.mean(axis=1)[:, :2]).sum(axis=1)
    slanted = np.abs(outwards) > 1e-6 * np.linalg.norm(normals, axis=1)
    return {"bore": mesh.faces[slanted & (outwards < 0.0)], "outside": mesh.faces[slanted & (outwards > 0.0)]}


def spots(where: dict[str, Any], side: str, angles: int) -> NDArray[np.float64]:
    """A point of the half-section at angles all round."""
    turn = 2 * np.pi * np.arange(angles) / angles
    r, z = where[side]["diameter_mm"] / 2, where[side]["z_mm"]
    return np.column_stack([r * np.cos(turn), r * np.sin(turn), np.full(angles, z)])


def off(points: NDArray[np.float64], mesh: stl_file.StlFile, faces: NDArray[np.int64]) -> NDArray[np.float64]:
    """Distances of points to triangles."""
    return np.sqrt(igl.point_mesh_squared_distance(points, mesh.vertices, faces)[0])


# Its rim is rounded: that belongs to the front face, and no normal tells it from the outside.
ROUNDED = designs.FIXTURES / "outside.toml"


@pytest.mark.parametrize("design", [None, designs.R1, ROUNDED], ids=lambda d: d.stem if d else "demo")
def test_walls_are_distances_on_the_mesh(made: Maker, design: Path | None) -> None:
    """A thread counts at its root at any angle: the least over angles all round is taken on the mesh too."""
    got = made(design, CHORD)
    mesh = stl_file.parse(got.file(names.STL).read_bytes())
    skin, walls = skins(mesh), {c: f for c, f in found(got.report).items() if c.startswith("wall.") and f["where"]}
    assert len(walls) >= 8
    near = CHORD + BESIDE
    for code, wall in walls.items():
        if code == names.WALL_WORST:
            continue
        where, measured = wall["where"], wall["measured"]
        inner, outer = (np.array([where[s]["diameter_mm"] / 2, where[s]["z_mm"]]) for s in ("inner", "outer"))
        assert np.hypot(*(outer - inner)) == pytest.approx(measured, abs=1e-8), code
        # Both points lie on the part, and from the one whose skin makes the zone there is no shorter way.
        assert off(spots(where, "inner", ANGLES), mesh, mesh.faces).min() <= near, code
        assert off(spots(where, "outer", ANGLES), mesh, mesh.faces).min() <= near, code
        if code in BY_BORE:
            assert off(spots(where, "inner", ANGLES), mesh, skin["outside"]).min() == pytest.approx(measured, abs=near), code
        if code in BY_OUTSIDE:
            assert off(spots(where, "outer", ANGLES), mesh, skin["bore"]).min() == pytest.approx(measured, abs=near), code
    if design == ROUNDED:
        return
    # Between all corners of either skin and the other one there is none shorter than the least wall.
    least = walls[names.WALL_LEAST]["measured"]
    both = [("bore", "outside"), ("outside", "bore")]
    nearest = min(off(mesh.vertices[np.unique(skin[a])], mesh, skin[b]).min() for a, b in both)
    assert nearest == pytest.approx(least, abs=CHORD + BESIDE)


def any_of(*prefixes: str) -> Callable[[str], bool]:
    return lambda name: name.startswith(prefixes)


BORES = any_of("recess", "clearance-bore", "tap-drill", "through-bore")
OUTSIDE = any_of("grip", "shoulder", "tenon", "relief", "pilot")
# Zones that a part without threads has as well: faces of the bore, and of the outside.
PLAIN = {
    names.WALL_LIP: (lambda name: name == "recess", OUTSIDE),
    names.WALL_RECESS: (any_of("recess."), OUTSIDE),
    names.WALL_CLEARANCE: (any_of("clearance-bore"), OUTSIDE),
    names.WALL_THROUGH: (any_of("through-bore"), any_of("grip")),
    names.WALL_TENON_TIP: (BORES, any_of("tenon.", "pilot")),
}
RANDOM = random_designs.designs(6)


@pytest.mark.parametrize("design", [None, designs.R1, *RANDOM], ids=lambda d: getattr(d, "stem", getattr(d, "name", "demo")))
def test_walls_are_distances_between_faces(occt: Any, made: Maker, tmp_path: Path, design: Any) -> None:
    import plain_walls

    if isinstance(design, random_designs.Design):
        got = conftest.make(design.write(tmp_path / "in"), tmp_path / "out")
    else:
        got = made(design)
    faces, said = plain_walls.faces(got.file(names.PLAIN_STEP)), found(got.report)
    compared = [code for code in PLAIN if code in said]
    assert len(compared) >= 4, said.keys()
    for code in compared:
        assert plain_walls.distance(faces, *PLAIN[code]) == pytest.approx(said[code]["measured"], abs=MICRON), code
