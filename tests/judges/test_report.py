"""report.json of every design: its schema, the sums of the files, the exit status, and that runs agree."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import conftest
import designs
import jsonschema
import names
import pytest
from conftest import Maker

EVERY = pytest.mark.parametrize("design", [*designs.DESIGNS, None], ids=lambda d: designs.name(d) if d else "demo")


@pytest.fixture(scope="session")
def schema() -> jsonschema.Draft202012Validator:
    content = json.loads(designs.SCHEMA.read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(content)
    return jsonschema.Draft202012Validator(content)


@EVERY
def test_report_keeps_to_its_schema(made: Maker, design: Path | None, schema: jsonschema.Draft202012Validator) -> None:
    got = made(design)
    got.file(names.REPORT)
    assert [e.message for e in schema.iter_errors(got.report)] == []


def spoilt(report: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """Reports that a schema worth its name refuses."""
    def change(*path: str | int, to: object) -> dict[str, Any]:
        copy = json.loads(json.dumps(report))
        *way, last = path
        place = copy
        for step in way:
            place = place[step]
        place[last] = to
        return copy

    return [
        ("empty", {}),
        ("format", change("format", to=2)),
        ("no number", change("solid", "volume_mm3", to=None)),
        ("short centroid", change("solid", "centroid_mm", to=[0.0, 0.0])),
        ("open mesh", change("mesh", "triangles", to=-1)),
        ("verdict", change("checks", 0, "verdict", to="perhaps")),
        ("stranger", change("stranger", to=1)),
    ]


def test_the_schema_refuses_what_is_wrong(made: Maker, schema: jsonschema.Draft202012Validator) -> None:
    passed = [name for name, report in spoilt(made(designs.R1).report) if schema.is_valid(report)]
    assert passed == []


@EVERY
def test_each_file_is_listed_with_its_sum(made: Maker, design: Path | None) -> None:
    got = made(design)
    folder = got.file(names.REPORT).parent
    # The report cannot hold its own sum, and does not depend on the build.
    beside = {names.REPORT, names.MADE_BY}
    there = {str(p.relative_to(folder)): p for p in folder.rglob("*") if p.is_file() and p.name not in beside}
    assert {n: hashlib.sha256(p.read_bytes()).hexdigest() for n, p in there.items()} == got.report["files"]
    assert {names.STL, names.STEP, names.PLAIN_STEP, names.DXF, names.SVG} <= there.keys()


@EVERY
def test_the_exit_status_says_whether_a_check_breaks(made: Maker, design: Path | None) -> None:
    got = made(design)
    assert got.folder is not None, got.stderr
    breaks = [c["code"] for c in got.report["checks"] if c["verdict"] == "breaks"]
    assert got.status == (names.A_CHECK_BREAKS if breaks else names.NOTHING_BREAKS), breaks
    assert got.report["checks"], "nothing checked"


@EVERY
def test_the_same_input_gives_the_same_bytes(made: Maker, design: Path | None, tmp_path: Path) -> None:
    """A second run in another folder, another locale and another time zone."""
    first = made(design)
    second = conftest.make(design, tmp_path / "again", LC_ALL="tr_TR.UTF-8", TZ="Pacific/Apia", COLUMNS="40")
    assert first.folder is not None and second.folder is not None, first.stderr
    assert first.folder.name == second.folder.name
    one, two = ({str(p.relative_to(m.folder)): p.read_bytes() for p in m.folder.rglob("*") if p.is_file()} for m in (first, second))
    assert one.keys() == two.keys()
    assert [n for n in one if one[n] != two[n]] == []
