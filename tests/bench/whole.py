"""Whole runs of the program, as people start them: time on the clock, time on the processor, memory.

    whole.py PROGRAM [TIMES]

`tests/bench/versus` prints the same table below those of other libraries.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

FIXTURES = Path(__file__).resolve().parents[1] / "fixtures"
# Runs of a grip that is checked.
RUNS = (10, 20, 40)
# Statuses with which a run has done its work: all holds, or a check breaks.
DONE = (0, 1)


def many_runs(count: int) -> str:
    """R1 with its one run cut into many, each a little wider than the one before: invented numbers."""
    text = (FIXTURES / "r1.toml").read_text("utf-8")
    one = "[[grip.run]]\nto = 21\ndiameter = 11.4\n"
    if one not in text:
        raise ValueError("R1 has another grip")
    runs = [
        f"[[grip.run]]\nto = {21 * n / count:.4f}\ndiameter = {9.7 + 1.7 * n / count:.4f}\n"
        for n in range(1, count + 1)
    ]
    return text.replace(one, "\n".join(runs)).replace('"r1-unit.toml"', f'"{FIXTURES / "r1-unit.toml"}"')


def commands(folder: Path) -> Iterator[tuple[str, list[str]]]:
    """What is run, by its name in the table."""
    r1, out = str(FIXTURES / "r1.toml"), ["--out", str(folder / "out"), "--quiet"]
    yield "make r1 --only stl", ["make", r1, "--only", "stl", *out]
    yield "make demo --only stl", ["make", "demo", "--only", "stl", *out]
    yield "check demo", ["check", "demo", "--quiet"]
    yield "make demo", ["make", "demo", *out]
    for count in RUNS:
        design = folder / f"runs-{count}.toml"
        design.write_text(many_runs(count), "utf-8")
        yield f"check, {count} runs", ["check", str(design), "--quiet"]


def start(command: list[str]) -> int:
    """The number of a process that says nothing."""
    quiet = [(os.POSIX_SPAWN_OPEN, fd, os.devnull, os.O_WRONLY, 0) for fd in (1, 2)]
    return os.posix_spawn(command[0], command, os.environ, file_actions=quiet)


def run(command: list[str]) -> tuple[float, float]:
    """Seconds on the clock, and on the processor."""
    begun = time.perf_counter()
    _, status, spent = os.wait4(start(command), 0)
    seconds = time.perf_counter() - begun
    if os.waitstatus_to_exitcode(status) not in DONE:
        raise RuntimeError(f"{' '.join(command)}: exit status {os.waitstatus_to_exitcode(status)}")
    return seconds, spent.ru_utime + spent.ru_stime


def peak_kb(command: list[str]) -> int:
    """The most memory that a run holds, read again and again until it ends.

    What the system counts for a child that has ended is no less than what its parent held.
    """
    child, most = start(command), 0
    while os.waitpid(child, os.WNOHANG) == (0, 0):
        try:
            status = Path(f"/proc/{child}/status").read_text("ascii")
            executed = os.readlink(f"/proc/{child}/exe") == command[0]
        except OSError:
            continue  # It ended in between; the next look says so.
        if executed and "VmHWM:" in status:
            most = max(most, int(status.split("VmHWM:")[1].split()[0]))
        time.sleep(2e-4)
    return most


def print_table(program: Path, times: int) -> None:
    """Each command so many times; files are synced to the disk, as they always are."""
    print(f"whole runs, start and sync included; {times} of each, all cores")
    print(f"{'':24}{'median':>10}{'least':>10}{'processor':>11}{'peak':>8}")
    print(f"{'':24}{'ms':>10}{'ms':>10}{'ms':>11}{'MB':>8}")
    with tempfile.TemporaryDirectory() as name:
        for words, command in commands(Path(name)):
            line = [str(program.resolve()), *command]
            clock, busy = zip(*(run(line) for _ in range(times)), strict=True)
            print(
                f"{words:24}{statistics.median(clock) * 1e3:10.1f}{min(clock) * 1e3:10.1f}"
                f"{statistics.median(busy) * 1e3:11.1f}{peak_kb(line) / 1024:8.1f}"
            )


if __name__ == "__main__":
    print_table(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 15)
