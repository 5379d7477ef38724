"""What a log of a life takes: `python tests/bench/life.py [--rows 1000000] [--years 45]`.

Peak memory and processor time of `check` and `facts`, for a log that stands by day with its attempts beside
it, and for one with the newest day first, complexes and a goal in the clean and jerk. Nothing is asserted;
pytest does not run it.
"""

import argparse
import datetime as dt
import os
import random
import subprocess
import sys
import tempfile
from itertools import islice
from pathlib import Path

LAST = dt.date(2026, 11, 1)
LIFTS = {
    "plain": ("snatch", "power snatch", "clean and jerk", "back squat", "snatch pull"),
    "backwards": ("snatch", "clean + jerk", "clean and jerk", "back squat", "front squat + jerk"),
}
BEST_KG = {"power snatch": 75, "clean and jerk": 112, "back squat": 155, "snatch pull": 105, "snatch": 90}


def day_rows(day: dt.date, count: int, lifts: tuple[str, ...], chance: random.Random) -> list[str]:
    """So many rows of a day: five steps a lift, a quarter of the heaviest missed."""
    rows = []
    for n in range(count):
        lift, step = lifts[n // 5 % len(lifts)], n % 5
        kg = round(BEST_KG.get(lift, 105) * (0.58 + 0.09 * step + 0.02 * chance.random()))
        reps, missed = 3 if step < 3 else 1, step == 4 and chance.random() < 0.25
        done, made = ([n] * (1 + lift.count("+")) for n in (reps, reps - missed))
        some = ["+".join(map(str, one)) for one in (done, made)]
        when, remark = "evening" if n > count / 2 else "morning", "slow" if chance.random() < 0.05 else ""
        rows.append(f"{day},{when},{lift},{kg},1,{','.join(some)},{'forward' if missed else ''},{remark}\n")
    return rows


def lay(folder: Path, rows: int, years: int, kind: str) -> None:
    """A lifter's folder with a log of so many rows and years, and three attempts every 150 days."""
    chance, span = random.Random(1), round(365.25 * years)
    days = [LAST - dt.timedelta(days=n) for n in range(span)]
    days = [day for day in days if day.weekday() in (0, 2, 4, 5)]
    count = -(-rows // len(days))
    log = (row for day in days for row in day_rows(day, count, LIFTS[kind], chance))
    lines = list(islice(log, rows))
    if kind == "plain":
        lines.sort(key=lambda line: line[:10])
    goal = "snatch" if kind == "plain" else "clean and jerk"
    folder.mkdir(parents=True)
    head = "date,session,lift,kg,sets,reps,made,miss,remark\n"
    (folder / "training.csv").write_text(head + "".join(lines), encoding="utf-8")
    text = f'name = "Bench"\nstandards = "men"\nborn = 1970\n[[goal]]\nlift = "{goal}"\nkg = 130\n'
    (folder / "lifter.toml").write_text(text, encoding="utf-8")
    tries = [
        f"{LAST - dt.timedelta(days=ago)},open,contest,{goal},{n},{80 + 4 * n},{'yes' if n < 3 else 'no'}\n"
        for ago in range(100, span, 150)
        for n in (1, 2, 3)
    ]
    text = "date,event,kind,lift,attempt,kg,made\n" + "".join(tries)
    (folder / "attempts.csv").write_text(text, encoding="utf-8")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=1_000_000)
    parser.add_argument("--years", type=int, default=45)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        for kind in LIFTS:
            folder = Path(place) / kind
            lay(folder, asked.rows, asked.years, kind)
            size = (folder / "training.csv").stat().st_size / 1e6
            for command in ("check", "facts"):
                words = [sys.executable, "-m", "reportgen", command, str(folder)]
                with subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
                    _, status, used = os.wait4(running.pid, 0)
                    running.returncode = os.waitstatus_to_exitcode(status)
                took = used.ru_utime + used.ru_stime
                print(
                    f"{kind:10} {size:5.1f} MB  {command}  {used.ru_maxrss / 1024:6.0f} MB  {took:5.1f} CPU s"
                )


if __name__ == "__main__":
    main()
