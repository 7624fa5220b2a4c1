"""The 3MF judges themselves: they pass what is sound, and name each way of being unsound."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import sample_mesh
import stl_file
import three_mf_file

TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
RELATIONSHIPS = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="m" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)
BOX = sample_mesh.stl_bytes(sample_mesh.box((0, 0, 0), (1, 2, 3)))
AT = [5.0, 6.0]


def sound() -> str:
    """A model of a box at (5, 6), of our own hand."""
    mesh = stl_file.parse(BOX)
    points = "".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in mesh.vertices)
    faces = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.faces)
    return (
        '<?xml version="1.0" encoding="UTF-8"?>'
        '<model unit="millimeter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">'
        '<metadata name="Title">Box</metadata>'
        f'<resources><object id="1" type="model" name="a &amp; b"><mesh><vertices>{points}</vertices>'
        f"<triangles>{faces}</triangles></mesh></object></resources>"
        '<build><item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 6 0"/></build></model>'
    )


def package(model: str, names: list[str] | None = None, date: tuple[int, ...] = three_mf_file.DATE) -> bytes:
    """A package of this model."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as out:
        for name, text in zip(names or three_mf_file.FILES, [TYPES, RELATIONSHIPS, model], strict=True):
            info = zipfile.ZipInfo(name, date)
            info.compress_type = zipfile.ZIP_DEFLATED
            out.writestr(info, text)
    return data.getvalue()


def faults(data: bytes, folder: Path) -> str:
    """Everything that the judges say of a package that should be the box's."""
    path = folder / "box.3mf"
    path.write_bytes(data)
    found = three_mf_file.faults_of_package(data)
    try:
        plate = three_mf_file.read(path)
    except ValueError as error:
        return "; ".join([*found, str(error)])
    found += three_mf_file.faults_of_plate(plate)
    for part in plate.parts:
        found += three_mf_file.faults_of_part(part, "a & b", AT, stl_file.parse(BOX))
    return "; ".join(found + three_mf_file.faults_by_trimesh(path, plate))


def test_a_sound_box_passes(tmp_path: Path) -> None:
    assert faults(package(sound()), tmp_path) == ""


def without_a_triangle(model: str) -> str:
    start = model.index("<triangle ")
    return model[:start] + model[model.index("/>", start) + 2 :]


def turned_inside_out(model: str) -> str:
    return model.replace("v2=", "v9=").replace("v3=", "v2=").replace("v9=", "v3=")


DATED = '<metadata name="CreationDate">2026-01-01</metadata>'

# A change to the sound model, and what is said of it.
UNSOUND: list[tuple[str, Callable[[str], str], str]] = [
    ("inches", lambda m: m.replace("millimeter", "inch"), "unit"),
    ("a hole", without_a_triangle, "is not manifold"),
    ("inside out", turned_inside_out, "has a volume of -6"),
    ("a point moved by a bit", lambda m: m.replace('x="1.0"', 'x="1.0000001"', 1), "not the STL's to the bit"),
    ("an index too many", lambda m: m.replace('v1="0"', 'v1="8"', 1), "lib3mf refuses it"),
    ("a corner twice", lambda m: m.replace('v2="', 'v2="0" was="', 1).replace('v1="', 'v1="0" is="', 1), "lib3mf"),
    ("another name", lambda m: m.replace("a &amp; b", "c"), "called 'c'"),
    ("a name not escaped", lambda m: m.replace("&amp;", "&"), "lib3mf refuses it"),
    ("no name for a key", lambda m: m.replace(' name="a', ' label="a'), "called ''"),
    ("an object left out", lambda m: m[: m.index("<item")] + "</build></model>", "1 objects for 0 items"),
    ("an item twice", lambda m: m.replace("</build>", m[m.index("<item") :].replace("</model>", "")), "2 items"),
    ("another place", lambda m: m.replace("5 6 0", "5 7 0"), "stands at"),
    ("off the plate", lambda m: m.replace("5 6 0", "5 -1 0"), "beyond the plate's edge"),
    ("in the air", lambda m: m.replace("5 6 0", "5 6 0.5"), "does not stand on the plate"),
    ("larger", lambda m: m.replace('"1 0 0', '"2 0 0'), "turned or scaled"),
    ("no title", lambda m: m.replace('<metadata name="Title">Box</metadata>', ""), "metadata"),
    ("a date", lambda m: m.replace("<resources>", f"{DATED}<resources>"), "metadata"),
    ("no number", lambda m: m.replace('x="1.0"', 'x="one"', 1), "lib3mf"),
]


@pytest.mark.parametrize(("change", "said"), [(c, s) for _, c, s in UNSOUND], ids=[name for name, _, _ in UNSOUND])
def test_an_unsound_model_is_seen(change: Callable[[str], str], said: str, tmp_path: Path) -> None:
    model = change(sound())
    assert model != sound(), "nothing was changed"
    found = faults(package(model), tmp_path)
    assert found != "" and said in found, found


def test_an_unsound_package_is_seen(tmp_path: Path) -> None:
    assert "is dated" in faults(package(sound(), date=(2026, 11, 26, 6, 0, 0)), tmp_path)
    moved = [*three_mf_file.FILES[:2], "3D/model.model"]
    assert "files" in faults(package(sound(), moved), tmp_path)
    assert "lib3mf refuses it" in faults(package(sound(), moved), tmp_path)
    stored = io.BytesIO()
    with zipfile.ZipFile(stored, "w") as out:
        for name, text in zip(three_mf_file.FILES, [TYPES, RELATIONSHIPS, sound()], strict=True):
            out.writestr(zipfile.ZipInfo(name, three_mf_file.DATE), text)
    assert "is not deflated" in faults(stored.getvalue(), tmp_path)
    damaged = bytearray(package(sound()))
    damaged[-300] ^= 0xFF
    assert "is damaged" in faults(bytes(damaged), tmp_path)


def test_trimesh_is_asked_too(tmp_path: Path) -> None:
    """What lib3mf says is held against trimesh: a plate that is not the file's is seen."""
    path = tmp_path / "box.3mf"
    path.write_bytes(package(sound()))
    plate = three_mf_file.read(path)
    part = plate.parts[0]
    moved = replace(part, vertices=part.vertices * np.float32(1.01), shift=part.shift + 1)
    other = replace(plate, parts=[moved])
    found = "; ".join(three_mf_file.faults_by_trimesh(path, other))
    assert "stands at" in found and "has a volume of" in found
