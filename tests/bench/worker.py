"""Builds R1 by one of the other libraries, again and again in one process; prints processor time and memory.

    worker.py by_manifold|by_occt STL CHORD TIMES
"""

from __future__ import annotations

import importlib
import json
import sys
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[1] / "judges")]


def held(key: str) -> int:
    """Of /proc/self/status, in kB."""
    lines = Path("/proc/self/status").read_text("ascii").splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith(key))


def main() -> None:
    name, stl, chord, times = sys.argv[1:]
    library = importlib.import_module(name)
    before = held("VmRSS:")
    seconds = []
    for _ in range(int(times)):
        begun = time.process_time()
        library.write(stl, float(chord))
        seconds.append(time.process_time() - begun)
    print(json.dumps({"seconds": seconds, "peak_kb": held("VmHWM:"), "before_kb": before}))


main()
