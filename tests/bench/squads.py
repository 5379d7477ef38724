"""How a squad's time and memory grow: `python tests/bench/squads.py [--lifters 10 50 200] [--years 1 5]`.

A year is 5,000 rows. Each squad is written cold by the command itself, then again with one lifter changed.
Memory is the sum of what all its processes hold for themselves (PSS), sampled. `--stages` times one lifter's
stages in one process in CPU seconds, beside the floor: drawing the same pictures from ready specifications.
Nothing is asserted; not run by pytest.
"""

import argparse
import contextlib
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

ROWS_A_YEAR = 5000
COMMAND = (sys.executable, "-m", "reportgen", "write")


def session(leader: int) -> list[int]:
    """The processes of a session."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError, ValueError):
            if int(stat.read_text().rpartition(")")[2].split()[3]) == leader:
                found.append(int(stat.parent.name))
    return found


def held_mb(process: int) -> float:
    """What a process holds, shared pages divided by their sharers [MB]."""
    with contextlib.suppress(OSError):
        for line in Path(f"/proc/{process}/smaps_rollup").read_text().splitlines():
            if line.startswith("Pss:"):
                return int(line.split()[1]) / 1024
    return 0.0


def children_seconds() -> float:
    """CPU seconds of all ended children and of theirs: unlike the clock, nearly free of what else runs."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def measured(command: list[str]) -> tuple[float, float, float, float]:
    """Seconds, CPU seconds, peak MB of all processes together, and of the largest one."""
    start, used = time.perf_counter(), children_seconds()
    running = subprocess.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    )
    most, largest = 0.0, 0.0
    while running.poll() is None:
        each = [held_mb(process) for process in session(running.pid)]
        most, largest = max(most, sum(each)), max(largest, *each, 0.0)
        time.sleep(1.0)  # asking what a process holds stops it for a while
    return time.perf_counter() - start, children_seconds() - used, most, largest


def squad(folder: Path, lifters: int, years: int) -> None:
    """Lay out a squad, every lifter with a log of their own."""
    from tests.bench.whole import lay

    for number in range(lifters):
        lay(folder / f"lifter-{number:03}", ROWS_A_YEAR * years, seed=number)


def grown(lifters: int, years: int) -> None:
    """Write one squad cold, then with one lifter changed, and print a line."""
    with tempfile.TemporaryDirectory() as place:
        folder, out = Path(place) / "squad", Path(place) / "out"
        squad(folder, lifters, years)
        command = [*COMMAND, str(folder), "--out", str(out)]
        took, cpu, most, largest = measured(command)
        with (folder / "lifter-000" / "training.csv").open("a") as log:
            log.write("2026-11-01,snatch,55,1,1,1,\n")
        again, *_ = measured(command)
        page = statistics.median(path.stat().st_size for path in out.glob("lifter*.html")) / 1000
        print(
            f"{lifters:8} {years:6} {took:9.1f} {took / lifters:10.2f} {cpu / lifters:11.2f}"
            f" {most:9.0f} {largest:12.0f} {again:13.1f} {page:9.0f}",
            flush=True,
        )


def stages(years: int) -> None:
    """Print what each stage of one lifter takes in a warm process, and the floor."""
    from reportgen import charts, pages, view
    from reportgen.analysis.dossier import build
    from reportgen.intake import read_folder
    from reportgen.pages import drawing
    from reportgen.trade import load
    from reportgen.view.page import Figure

    with tempfile.TemporaryDirectory() as place:
        squad(Path(place), 1, years)
        folder = Path(place) / "lifter-000"
        for turn in ("cold", "warm"):
            marks = [time.process_time()]
            records = read_folder(folder).records
            if records is None:
                raise SystemExit("the bench's own log can't be read")
            marks.append(time.process_time())
            dossier = build(records, load())
            marks.append(time.process_time())
            page, other = view.build(dossier, load()), view.build(dossier, load(), unit="lb")
            marks.append(time.process_time())
            extras = pages.carried(records.sources, dossier.facts)
            pages.write(Path(place) / "a.html", pages.render_dossier(page, other_unit=other, extras=extras))
            marks.append(time.process_time())
            figures = [b for s in page.sections for b in s.blocks if isinstance(b, Figure)]
            specs = [(charts.draw(f, charts.Palette()).to_dict(), f) for f in figures]
            start = time.process_time()
            for spec, figure in specs:
                drawing.draw(spec, figure.id, over_time=figure.over_time)
            floor = time.process_time() - start
            parts = [end - begin for begin, end in pairwise(marks)]
            names = ("read", "facts", "view", "draw and write")
            shares = "  ".join(
                f"{name} {part:.2f} s ({part / sum(parts):.0%})"
                for name, part in zip(names, parts, strict=True)
            )
            print(f"{years:3} years, {turn}: {shares}; floor (drawing alone) {floor:.2f} s", flush=True)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lifters", type=int, nargs="*", default=[10, 50])
    parser.add_argument("--years", type=int, nargs="*", default=[1])
    parser.add_argument("--stages", action="store_true")
    asked = parser.parse_args()
    if asked.stages:
        for years in asked.years:
            stages(years)
        return
    print(
        " lifters  years   seconds  s/lifter  CPU/lifter  MB in all  MB largest  one changed  page kB",
        flush=True,
    )
    for years in asked.years:
        for lifters in asked.lifters:
            grown(lifters, years)


if __name__ == "__main__":
    main()
