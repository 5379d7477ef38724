"""How long the whole way takes, and what a page weighs: `python tests/bench/whole.py [--rows 5000]`.

Processor time is printed beside two floors, since machines differ: importing pandas in a fresh process, and
importing every library a page needs and drawing one picture. Nothing is asserted. Not run by pytest.
"""

import argparse
import datetime as dt
import gzip
import random
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

TOML = (
    'name = "Bench"\nstandards = "men"\nborn = 1995\n[[goal]]\nlift = "snatch"\nkg = 100\nby = 2026-12-05\n'
)
LIFTS = (
    ("snatch", 90),
    ("power snatch", 75),
    ("clean and jerk", 112),
    ("back squat", 155),
    ("snatch pull", 105),
)


def lay(folder: Path, rows: int, seed: int) -> None:
    """A lifter's folder with so many set rows over about a year, attempts and body mass."""
    chance = random.Random(seed)
    day = dt.date(2026, 11, 1) - dt.timedelta(days=int(rows / 14))
    lines = ["date,lift,kg,sets,reps,made,miss"]
    while len(lines) <= rows:
        if day.weekday() in (0, 2, 4, 5):
            for lift, best in LIFTS:
                for step in range(5):
                    kg = round(best * (0.58 + 0.09 * step + 0.02 * chance.random()))
                    reps = 3 if step < 3 else 1
                    missed = step == 4 and chance.random() < 0.25
                    made, kind = (reps - 1, "forward") if missed else (reps, "")
                    lines.append(f"{day},{lift},{kg},1,{reps},{made},{kind}")
        day += dt.timedelta(days=1)
    folder.mkdir(parents=True)
    (folder / "training.csv").write_text("\n".join(lines[: rows + 1]) + "\n", encoding="utf-8")
    (folder / "lifter.toml").write_text(TOML, encoding="utf-8")
    meets = [day - dt.timedelta(days=n) for n in (250, 120, 10)]
    attempts = [
        f"{meet},open,contest,snatch,{n},{80 + 4 * n},{'yes' if n < 3 else 'no'}\n"
        for meet in meets
        for n in (1, 2, 3)
    ]
    head = "date,event,kind,lift,attempt,kg,made\n"
    (folder / "attempts.csv").write_text(head + "".join(attempts), encoding="utf-8")
    first = day - dt.timedelta(days=int(rows / 14))
    masses = "".join(f"{first + dt.timedelta(days=7 * n)},{88 - n / 20}\n" for n in range(int(rows / 100)))
    (folder / "bodymass.csv").write_text("date,kg\n" + masses, encoding="utf-8")


DRAWN = """
import altair, jinja2, markdown, nh3, pandas, vl_convert
chart = altair.Chart(pandas.DataFrame({"a": [1, 2], "b": [3, 4]})).mark_line().encode(x="a", y="b")
vl_convert.vega_to_svg(vl_convert.vegalite_to_vega(chart.to_dict()))
"""


def seconds(command: list[str], times: int = 5) -> float:
    """The median processor time of a command with all its processes: steadier than the clock."""
    found = []
    for _ in range(times):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run(command, check=False, capture_output=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        found.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return statistics.median(found)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=5000)
    rows = parser.parse_args().rows
    python = [sys.executable, "-m", "reportgen"]
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "bench"
        lay(folder, rows, seed=1)
        floor = seconds([sys.executable, "-c", "import pandas"])
        measured = {
            "importing pandas": floor,
            "one picture": seconds([sys.executable, "-c", DRAWN]),
            "importing click": seconds([sys.executable, "-c", "import click"]),
            "--help": seconds([*python, "--help"]),
            "check": seconds([*python, "check", str(folder)]),
            "facts": seconds([*python, "facts", str(folder)]),
            "write, no store": seconds(
                [*python, "write", str(folder), "--out", scratch, "--again", "--no-store"], 3
            ),
        }
        for name, took in measured.items():
            print(f"{name:18} {took:6.2f} s {took / floor:6.1f} x importing pandas")
        page = (Path(scratch) / "bench.html").read_bytes()
        print(
            f"page {len(page) / 1000:.0f} kB, {len(gzip.compress(page, 9)) / 1000:.0f} kB gzip, {rows} rows"
        )


if __name__ == "__main__":
    main()
