"""profile.dxf of every design and of 50 random ones: closed paths that a lathe's control takes as they are.

Volume: outline less bores, by ezdxf's reading of lines and arcs, against the plain solid's in report.json; for random
designs against the frusta of the design's own numbers too.
"""

from __future__ import annotations

import re
import tomllib
from math import pi
from pathlib import Path

import conftest
import designs
import names
import profile_file
import pytest
import random_designs
from conftest import Made, Maker
from profile_file import Profile

RANDOM = random_designs.designs(50)
FILES = designs.DESIGNS + designs.COINCIDENCES


def judge(made: Made) -> Profile:
    """Sound paths on their layers, origins in the faces, the plain solid's volume."""
    profile = profile_file.read(made.file(names.PROFILE))
    assert {name: profile_file.faults(path) for name, path in profile.paths.items() if profile_file.faults(path)} == {}
    plain = made.report["plain"]
    length = plain["bounds_mm"]["max"][2]
    assert profile.origins == {"origin-front": (0.0, 0.0, 0.0), "origin-back": pytest.approx((length, 0.0, 0.0))}
    outline = profile_file.sides(profile.paths["outline"])
    assert min(a.x for a, _, _ in outline) == 0.0
    assert max(a.x for a, _, _ in outline) == pytest.approx(length, abs=1e-9)
    assert profile.volume() == pytest.approx(plain["volume_mm3"], rel=1e-6)
    judge_words(profile)
    return profile


def judge_words(profile: Profile) -> None:
    """Every diameter that a path is said to follow is there, as a cylinder, over the thread's full length."""
    words = " ".join(profile.words)
    said = re.findall(r"diameter: Ø([\d.]+)\. Full thread [^(]*\(x ([\d.]+) to ([\d.]+)\)", words)
    assert len(said) == words.count("xternal thread") + words.count("nternal thread") >= 2, words
    cylinders = [
        (2 * a.y, min(a.x, b.x), max(a.x, b.x))
        for path in profile.paths.values()
        for a, b, bulge in profile_file.sides(path)
        if bulge == 0.0 and abs(a.y - b.y) < 1e-9 < a.y
    ]
    for diameter, low, high in (map(float, numbers) for numbers in said):
        # Words are rounded to a thousandth.
        assert any(
            abs(d - diameter) <= 6e-4 and begin <= low + 6e-4 and high - 6e-4 <= end for d, begin, end in cylinders
        ), (diameter, low, high, cylinders)
    assert "y is the radius" in words and "no approval" in words


@pytest.mark.parametrize("design", FILES, ids=designs.name)
def test_profile_of_each_design(made: Maker, design: Path) -> None:
    got = made(design)
    if got.status == names.INPUT_WRONG:
        assert design in designs.COINCIDENCES and got.stderr.strip()
        return
    profile = judge(got)
    two_holes = tomllib.loads(design.read_text("utf-8")).get("name") == "Blind"
    assert ("bore-back" in profile.paths) == two_holes


def test_profile_of_the_demo(made: Maker) -> None:
    judge(made(None))


def test_arcs_are_arcs(made: Maker) -> None:
    """outside.toml: fillets of 0.3, 5 and 0.2, a hollow of 60, a convex run of 8, two flares, an arc through a point,
    a bead and a round groove, by their radii or at least their number."""
    path = judge(made(designs.FIXTURES / "outside.toml")).paths["outline"]
    radii = [profile_file.bulge_to_arc(a, b, bulge)[3] for a, b, bulge in profile_file.sides(path) if bulge]
    for radius in (0.3, 60.0, 5.0, 0.2, 8.0):
        assert any(r == pytest.approx(radius, rel=1e-6) for r in radii), (radius, radii)
    assert len(radii) >= 9, radii


@pytest.mark.parametrize("design", RANDOM, ids=lambda d: d.name)
def test_profile_of_random_designs(design: random_designs.Design, tmp_path: Path) -> None:
    path = design.write(tmp_path / "in")
    done = conftest.run(["make", str(path), "--only", "dxf", "--out", "out", "--quiet"], tmp_path)
    folder = tmp_path / "out" / design.name
    profile = judge(Made(done.returncode, done.stderr, folder.parent, folder, conftest.report(folder)))
    frusta = [
        pi * (zb - za) * (ra * ra + ra * rb + rb * rb) / 3.0 * sign
        for chain, sign in ((design.part.outside, 1), (design.part.bore, -1))
        for (ra, za), (rb, zb) in zip(chain, chain[1:])
    ]
    assert profile.volume() == pytest.approx(sum(frusta), rel=1e-6)
