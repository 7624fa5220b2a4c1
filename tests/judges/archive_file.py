"""An archive as outsiders see it: Python's zipfile and hashlib, and hostile files of their making."""

from __future__ import annotations

import hashlib
import json
import struct
import zipfile
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

SEAL = 64


def digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def sealed(data: bytes) -> bytes:
    """The same ZIP file, its comment of 64 letters made the seal of what is before it."""
    assert data[-SEAL:] == b"0" * SEAL
    return data[:-SEAL] + digest(data[:-SEAL]).encode()


def made(fill: Callable[[zipfile.ZipFile], None]) -> bytes:
    """A ZIP file of somebody else's making, with a good seal."""
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.comment = b"0" * SEAL
        fill(archive)
    return sealed(buffer.getvalue())


def one(name: str, data: bytes = b"x", mode: int | None = None, method: int = zipfile.ZIP_STORED) -> bytes:
    """A sealed ZIP file of one entry, its name taken as it is."""
    info = zipfile.ZipInfo("placeholder")
    info.filename = name
    info.compress_type = method
    if mode is not None:
        info.create_system, info.external_attr = 3, mode << 16

    return made(lambda archive: archive.writestr(info, data))


def twice(name: str) -> bytes:
    """Two entries of one name."""
    def fill(archive: zipfile.ZipFile) -> None:
        archive.writestr(name, b"first")
        archive.writestr(name, b"second")

    return made(fill)


def overlapping(count: int, size: int) -> bytes:
    """Many central entries that all lead to one stored file: little on the disk, much unpacked."""
    data = b"\0" * size
    crc = zlib.crc32(data)
    local = struct.pack("<4s5H3I2H", b"PK\3\4", 20, 0, 0, 0, 0x21, crc, size, size, 1, 0) + b"a" + data
    head = struct.pack("<4s6H3I5H2I", b"PK\1\2", 20, 20, 0, 0, 0, 0x21, crc, size, size, 6, 0, 0, 0, 0, 0, 0)
    central = b"".join(head + f"{n:06}".encode() for n in range(count))
    end = struct.pack("<4s4H2IH", b"PK\5\6", 0, 0, count, count, len(central), len(local), SEAL)
    return sealed(local + central + end + b"0" * SEAL)


def manifest(path: Path) -> dict[str, object]:
    with zipfile.ZipFile(path) as archive:
        return json.loads(archive.read("manifest.json"))
