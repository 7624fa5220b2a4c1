"""Archives: read by Python's zipfile, their sums by hashlib; hostile files refused; full and read-only disks."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import stat
import subprocess
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import archive_file
import conftest
import designs
import pytest

# The status of a machine that failed.
FAILED = 3
NOBODY = 65534


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's archive, with a note and a photograph."""
    home = tmp_path_factory.mktemp("kept")
    (home / "nib.jpg").write_bytes(bytes(range(256)) * 40)
    arguments = ["keep", "demo", "--shelf", "shelf", "--note", "for R.", "--photo", "nib.jpg", "--date", "2031-05-01"]
    done = conftest.run(arguments, home)
    assert done.returncode == 0, done.stderr
    (path,) = (home / "shelf").iterdir()
    return path


def test_zipfile_reads_it_and_the_sums_agree(kept: Path) -> None:
    data = kept.read_bytes()
    manifest = archive_file.manifest(kept)
    with zipfile.ZipFile(kept) as archive:
        assert archive.testzip() is None
        assert archive.comment.decode() == archive_file.digest(data[:-64]), "the seal"
        entries = archive.infolist()
        names = [entry.filename for entry in entries]
        assert names == sorted(names) and len(set(names)) == len(names)
        for entry in entries:
            assert entry.compress_type == zipfile.ZIP_STORED and entry.date_time == (1980, 1, 1, 0, 0, 0)
            assert stat.S_ISREG(entry.external_attr >> 16)
        sums = {n: (len(archive.read(n)), archive_file.digest(archive.read(n))) for n in names if n != "manifest.json"}
        listed = {n: (it["bytes"], it["sha256"]) for n, it in manifest["files"].items()}
        assert sums == listed
        own = archive_file.digest(archive.read("manifest.json"))
        assert kept.name == f"demo-{own[:16]}.zip"
        for path in ("designs/demo.toml", "units/demo-unit.toml", "materials/cast-resin.toml"):
            text = (designs.ROOT / "profiles" / path).read_bytes()
            assert any(archive.read(n) == text for n in names if n.startswith("written/")), path
        sample = designs.ROOT / "out" / "demo"
        for file in sample.iterdir():
            assert archive.read(f"exports/{file.name}") == file.read_bytes(), "as `make` writes it"


def recall(path: Path) -> subprocess.CompletedProcess[str]:
    return conftest.run(["recall", str(path), "--to", str(path.parent / "back")], path.parent)


HOSTILE = {
    "a path out": archive_file.one("../out.txt"),
    "a path out, deeper": archive_file.one("a/../../out.txt"),
    "an absolute path": archive_file.one("/tmp/out.txt"),
    "a disk": archive_file.one("C:/out.txt"),
    "backslashes": archive_file.one("..\\out.txt"),
    "a link": archive_file.one("link", b"/etc/passwd", stat.S_IFLNK | 0o777),
    "a device": archive_file.one("device", b"", stat.S_IFCHR | 0o666),
    "a folder": archive_file.one("folder/", b""),
    "a bomb": archive_file.one("zeros", bytes(50_000_000), method=zipfile.ZIP_DEFLATED),
    "an overlapping bomb": archive_file.overlapping(2000, 100_000),
    "too many entries": archive_file.overlapping(60_000, 1),
    "empty": b"",
    "an empty ZIP": archive_file.made(lambda archive: None),
}


@pytest.mark.parametrize("data", HOSTILE.values(), ids=HOSTILE.keys())
def test_hostile_files_are_refused(tmp_path: Path, data: bytes) -> None:
    inside = tmp_path / "a" / "b"
    inside.mkdir(parents=True)
    path = inside / "hostile.zip"
    path.write_bytes(data)
    before = time.monotonic()
    done = recall(path)
    assert done.returncode == 2 and "error[archive." in done.stderr, done.stderr
    assert time.monotonic() - before < 20.0, "refused before it is unpacked"
    assert sorted(p.relative_to(tmp_path) for p in tmp_path.rglob("*") if p.is_file()) == [Path("a/b/hostile.zip")]
    assert [p.name for p in inside.iterdir()] == ["hostile.zip"]


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_two_entries_of_one_name_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "twice.zip"
    path.write_bytes(archive_file.twice("manifest.json"))
    done = recall(path)
    assert done.returncode == 2 and "archive.duplicate" in done.stderr, done.stderr


def test_every_cut_is_noticed(kept: Path, tmp_path: Path) -> None:
    data = kept.read_bytes()
    path = tmp_path / "cut.zip"
    for length in (1, 22, 64, 86, len(data) // 3, len(data) - 64, len(data) - 1):
        path.write_bytes(data[:length])
        assert recall(path).returncode == 2, length
    path.write_bytes(data + b"\0")
    assert recall(path).returncode == 2, "something behind it"
    path.write_bytes(b"\0" + data)
    assert recall(path).returncode == 2, "something before it"


def listing(folder: Path) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file()}


def limited(arguments: list[str], cwd: Path, before: Callable[[], None] | None = None) -> subprocess.CompletedProcess[str]:
    """The binary in a process that was made less able first."""
    return subprocess.run(
        [str(conftest.binary()), *arguments], cwd=cwd, capture_output=True, text=True, timeout=120, preexec_fn=before
    )


KEEP = ["keep", "demo", "--only", "report", "--quiet", "--shelf"]


def no_large_files() -> None:
    """Writes fail behind so many bytes, as on a full disk, whoever runs this."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))


def test_a_write_that_fails_half_way_leaves_the_old_state(tmp_path: Path) -> None:
    shelf = tmp_path / "shelf"
    assert conftest.run([*KEEP, str(shelf)], tmp_path).returncode == 0
    made = conftest.run(["make", "--quiet", "--only", "report,dxf"], tmp_path)
    assert made.returncode == 0
    old, out = listing(shelf), listing(tmp_path / "out" / "demo")
    (archive,) = old
    for arguments in (
        [*KEEP, str(shelf), "--note", "new"],
        ["make", "--quiet", "--only", "report,dxf,stl"],
        ["recall", str(shelf / archive), "--to", "back"],
        ["keep", "demo", "--only", "report", "--quiet", "--shelf", "new shelf"],
    ):
        done = limited(arguments, tmp_path, no_large_files)
        assert done.returncode == FAILED, (arguments, done.stderr)
        assert "archive.not-written" in done.stderr and "nothing was changed" in done.stderr
        assert listing(shelf) == old and listing(tmp_path / "out" / "demo") == out
        assert sorted(p.name for p in tmp_path.iterdir()) == ["out", "shelf"], arguments
        assert [p.name for p in (tmp_path / "out").iterdir()] == ["demo"]


def as_nobody() -> None:
    if os.geteuid() == 0:
        os.setgroups([])
        os.setgid(NOBODY)
        os.setuid(NOBODY)


@pytest.fixture
def open_home(tmp_path: Path) -> Iterator[Path]:
    """A folder that everybody can enter, with the binary in it."""
    home = tmp_path
    for folder in [home, *home.parents]:
        if folder.stat().st_uid == os.geteuid() and folder != Path("/"):
            folder.chmod(folder.stat().st_mode | 0o055)
    shutil.copy(conftest.binary(), home / "sectionwright")
    (home / "sectionwright").chmod(0o755)
    yield home
    for folder in home.rglob("*"):
        if folder.is_dir():
            folder.chmod(0o755)


def test_a_folder_that_can_only_be_read_stays(open_home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SECTIONWRIGHT_BIN", str(open_home / "sectionwright"))
    shelf = open_home / "shelf"
    assert conftest.run([*KEEP, str(shelf)], open_home).returncode == 0
    assert conftest.run(["make", "--quiet", "--only", "report"], open_home).returncode == 0
    old = listing(shelf)
    for folder in (shelf, open_home / "out", open_home / "out" / "demo", open_home):
        folder.chmod(0o555)
    for arguments in ([*KEEP, str(shelf), "--note", "new"], ["make", "--quiet", "--only", "report,dxf"]):
        done = limited(arguments, open_home, as_nobody)
        assert done.returncode == FAILED and "archive.not-written" in done.stderr, done.stderr
        assert listing(shelf) == old
    listed = limited(["shelf", str(shelf)], open_home, as_nobody)
    assert listed.returncode == 0 and "1 of 1" in listed.stdout, "a shelf that can only be read is listed"
    assert listing(shelf) == old


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of its own that holds 400 KiB."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=400k", "none", str(disk)], capture_output=True, text=True)
    if mounted.returncode:
        if os.environ.get("SECTIONWRIGHT_NO_SKIP") == "1":
            pytest.fail(f"needs root to mount a disk: {mounted.stderr}")
        pytest.skip(f"needs root to mount a disk: {mounted.stderr.strip()}")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)


def test_a_full_disk_leaves_the_old_state(small_disk: Path, tmp_path: Path) -> None:
    shelf = small_disk / "shelf"
    assert conftest.run([*KEEP, str(shelf)], tmp_path).returncode == 0
    old = listing(shelf)
    (tmp_path / "photo.jpg").write_bytes(os.urandom(500_000))
    done = limited([*KEEP, str(shelf), "--photo", "photo.jpg"], tmp_path)
    assert done.returncode == FAILED and "archive.not-written" in done.stderr, done.stderr
    assert listing(shelf) == old
    assert conftest.run(["make", "--quiet", "--only", "report", "--out", str(small_disk)], tmp_path).returncode == 0
    out = listing(small_disk / "demo")
    done = limited(["make", "--quiet", "--out", str(small_disk)], tmp_path)
    assert done.returncode == FAILED and "archive.not-written" in done.stderr, done.stderr
    assert listing(small_disk / "demo") == out
    (archive,) = old
    done = limited(["recall", str(shelf / archive), "--to", str(small_disk / "back")], tmp_path)
    assert done.returncode in (0, FAILED), done.stderr
    assert sorted(p.name for p in small_disk.iterdir() if p.name != "back") == ["demo", "shelf"]
    # The index of a full shelf is not written, and the shelf is listed all the same.
    left = small_disk / "filler"
    with pytest.raises(OSError), left.open("wb", buffering=0) as file:
        while True:
            file.write(bytes(4096))
    listed = conftest.run(["shelf", str(shelf)], tmp_path)
    assert listed.returncode == 0 and "1 of 1" in listed.stdout


# Archives of the shelf whose time is told; SECTIONWRIGHT_SHELF_SIZE=2000 is the bar's number.
SHELF_SIZE = int(os.environ.get("SECTIONWRIGHT_SHELF_SIZE", "100"))


def test_a_large_shelf_is_listed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Copies of one archive, each under a name of its own: listed whole, then by the index."""
    shelf = tmp_path / "shelf"
    assert conftest.run([*KEEP, str(shelf), "--note", "0"], tmp_path).returncode == 0
    (first,) = shelf.iterdir()
    for number in range(1, SHELF_SIZE):
        (shelf / f"demo-{number:016x}.zip").write_bytes(first.read_bytes())
    told = []
    for _ in range(3):
        before = time.monotonic()
        done = conftest.run(["shelf", str(shelf), "--tenon", "M10x0.75"], tmp_path)
        told.append(time.monotonic() - before)
        assert done.returncode == 0 and f"{SHELF_SIZE} of {SHELF_SIZE} in" in done.stdout
        time.sleep(2.1)
    with capsys.disabled():
        print(f"\n{SHELF_SIZE} archives: {told[0]:.2f} s without an index, {told[-1]:.3f} s with it")
