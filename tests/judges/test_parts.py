"""Parts beside the section: each STEP file through Open CASCADE, each STL through numpy, against report.json.

The report's numbers are closed forms over the same solids; volume and area here are the readers' own.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import conftest
import designs
import pytest
import stl_file

FIXED = ["unit", "barrel", "check-plug", "unit-ring", "check-ring", "barrel-plug", "bushing", "lip-plug", "sizing-tap"]
# Of the volume, as for the section: splines are off by 1e-7 mm.
RELATIVE = 1e-6
SAMPLE = [None, designs.FIXTURES / "both-ends.toml", designs.FIXTURES / "threads.toml"]


@pytest.mark.parametrize("design", SAMPLE, ids=lambda d: designs.name(d) if d else "demo")
def test_every_part_is_a_sound_solid(occt: Any, tmp_path: Path, design: Path | None) -> None:
    import step_file

    names = FIXED + [f"blank-{n}" for n in range(1, 6)]
    arguments = ["make", str(design)] if design else ["make"]
    done = conftest.run([*arguments, "--out", "out", "--part", ",".join(names), "--only", "stl,step"], tmp_path)
    assert done.returncode in (0, 1), done.stderr
    (folder,) = (tmp_path / "out").iterdir()
    report = conftest.report(folder)
    assert [part["name"] for part in report["parts"]] == names
    for part in report["parts"]:
        exact, mesh = part["solid"], part["mesh"]
        step = step_file.read(folder / f"{part['name']}.step")
        assert step.faults == [], part["name"]
        assert step.volume == pytest.approx(exact["volume_mm3"], rel=RELATIVE), part["name"]
        assert step.area == pytest.approx(exact["area_mm2"], rel=RELATIVE), part["name"]
        stl = stl_file.judge(folder / f"{part['name']}.stl", mesh["genus"])
        assert len(stl.faces) == mesh["triangles"]
        # A surface moved by no more than the chord error encloses no more than area x error.
        assert stl.volume() == pytest.approx(exact["volume_mm3"], abs=exact["area_mm2"] * mesh["chord_error_mm"])
