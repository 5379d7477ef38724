"""Where the time of one lifter goes: `PYTHONPATH=. python tests/bench/profile.py [--rows 5000] [--years 1]`.

A second thread looks at the stack of the first a thousand times a second and counts the innermost part of the
program that stands in it; what happens inside a library counts for whoever called it. The first run is cold,
start-up included, the second warm. Nothing is asserted. Not run by pytest.
"""

import argparse
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import FrameType

from tests.bench.whole import lay

EVERY_S = 0.001
MOST = 25


def part(frame: FrameType | None) -> str:
    """The innermost part of the program in a stack: a folder, in analysis a module; `start-up` in imports."""
    found = ""
    while frame is not None:
        file = frame.f_code.co_filename
        if "importlib" in file:
            return "start-up"
        if not found and "/reportgen/" in file.replace("\\", "/"):
            inside = file.replace("\\", "/").rpartition("/reportgen/")[2].removesuffix(".py").split("/")
            deep = inside[0] in {"analysis", "pages"}
            found = "/".join(inside[: 2 if deep else 1])
        frame = frame.f_back
    return found or "elsewhere"


def watched(work: Callable[[], object]) -> tuple[Counter[str], float]:
    """Shares of the time that some work takes, by part, and its seconds."""
    counts: Counter[str] = Counter()
    main, done = threading.get_ident(), threading.Event()

    def look() -> None:
        while not done.wait(EVERY_S):
            counts[part(sys._current_frames().get(main))] += 1

    watcher = threading.Thread(target=look)
    start = time.perf_counter()
    watcher.start()
    try:
        work()
    finally:
        done.set()
        watcher.join()
    return counts, time.perf_counter() - start


def page(folder: Path, out: Path) -> None:
    """Write one lifter's dossier as the command does, in this process."""
    from reportgen.cli.main import main

    main.main(["write", str(folder), "--out", str(out), "--again", "--jobs", "1"], standalone_mode=False)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=5000, help="rows of a year")
    parser.add_argument("--years", type=int, default=1)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "bench"
        lay(folder, given.rows * given.years, seed=1)
        runs = {name: watched(lambda: page(folder, Path(scratch))) for name in ("cold", "warm")}
    for name, (counts, took) in runs.items():
        print(f"\n{name}: {took:.2f} s")
        for where, many in counts.most_common(MOST):
            print(f"  {where:24} {many / counts.total():5.1%} {took * many / counts.total():6.2f} s")


if __name__ == "__main__":
    main()
