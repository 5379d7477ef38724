"""One lifter, a squad, and the pool of processes that writes a squad."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from typing import TYPE_CHECKING

from reportgen.cli import terminal

if TYPE_CHECKING:
    from reportgen.intake import Intake
    from reportgen.model.dossier import Dossier
    from reportgen.model.lifter import Squad
    from reportgen.model.problems import Problem
    from reportgen.model.records import Records
    from reportgen.view.page import SquadLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What to write, for one lifter; it crosses to another process, so it is plain values only."""

    folder: Path
    slug: str
    out: Path
    as_of: dt.date | None
    theme: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one lifter."""

    folder: str
    path: Path | None
    code: int
    lines: tuple[str, ...]
    verdict: str
    line: SquadLine | None


def lifters(folder: Path) -> tuple[Path, ...]:
    """The lifters' folders in a folder, which may be one itself; a usage error where there is none."""
    from reportgen.intake import find_lifters

    if not folder.exists():
        raise terminal.usage(f"there is no folder '{folder}'")
    if not folder.is_dir():
        raise terminal.usage(f"'{folder}' is a file; expected a lifter's folder or a squad's")
    found = find_lifters(folder)
    if not found:
        raise terminal.usage(
            f"'{folder}' holds no training.csv and no folder that does (`reportgen start` lays one out)"
        )
    return found


def is_squad(folder: Path) -> bool:
    """Whether the folder is a squad: it is not itself a lifter."""
    return lifters(folder) != (folder,)


def squad(folder: Path) -> tuple[Squad, tuple[Problem, ...]]:
    """What squad.toml beside the lifters says; defaults for a single lifter."""
    from reportgen.intake import read_squad
    from reportgen.model.lifter import Squad

    return read_squad(folder) if is_squad(folder) else (Squad(), ())


def read(folder: Path, as_of: dt.date | None) -> Intake:
    """Read one lifter's folder."""
    from reportgen.intake import read_folder

    return read_folder(folder, as_of=as_of)


def exit_code(intake: Intake) -> int:
    """0 all used, 1 something set aside, 2 nothing to work with."""
    from reportgen.intake import exit_code as code

    return code(intake)


def together(codes: list[int]) -> int:
    """The exit code of several lifters: 2 only where none could be read."""
    if all(code == 0 for code in codes):
        return 0
    return 2 if all(code == 2 for code in codes) else 1


def verdict(intake: Intake) -> str:
    """One line that sums up what was read."""
    if intake.records is None:
        return "can't be read: " + "; ".join(problem.message for problem in intake.fatal)
    aside = sum(entry.rows_set_aside for entry in intake.ledger)
    used = sum(entry.rows_used for entry in intake.ledger)
    odd = sum(p.level == "odd" for entry in intake.ledger for p in entry.problems)
    words = [f"{used} rows used", f"{aside} set aside"]
    if odd:
        words.append(f"{odd} odd but used")
    return ", ".join(words) + f"; review day {intake.records.as_of.isoformat()}"


def dossier(records: Records) -> Dossier:
    """Every figure of one lifter."""
    from reportgen.analysis.dossier import build
    from reportgen.trade import load

    return build(records, load())


def write_one(order: Order) -> Outcome:
    """Read, compute and write one lifter; a broken folder is an outcome, never an exception."""
    from reportgen import pages, view
    from reportgen.trade import load

    intake = read(order.folder, order.as_of)
    name = order.folder.resolve().name
    problems = [*intake.fatal, *(p for entry in intake.ledger for p in entry.problems)]
    lines = tuple(terminal.problem_lines(name, problems, terminal.MOST_PROBLEMS))
    code = exit_code(intake)
    if intake.records is None:
        return Outcome(folder=name, path=None, code=code, lines=lines, verdict=verdict(intake), line=None)
    made = dossier(intake.records)
    path = order.out / f"{order.slug}.html"
    pages.write_dossier(view.build(made, load()), path, theme=order.theme)
    return Outcome(
        folder=name,
        path=path,
        code=code,
        lines=lines,
        verdict=verdict(intake),
        line=view.squad_line(made, path.name),
    )


def write_all(orders: list[Order], jobs: int, done: Callable[[Outcome], None]) -> list[Outcome]:
    """Write every order, on several processes where there is work for them; outcomes in the orders' order."""
    outcomes: dict[int, Outcome] = {}
    for index, outcome in _outcomes(orders, min(jobs, len(orders))):
        outcomes[index] = outcome
        done(outcome)
    return [outcomes[index] for index in range(len(orders))]


def _outcomes(orders: list[Order], jobs: int) -> Iterator[tuple[int, Outcome]]:
    if jobs <= 1:
        yield from ((index, write_one(order)) for index, order in enumerate(orders))
        return
    # The drawing library hangs when forked after its first use, and holds the lock that threads need.
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        waiting = {pool.submit(write_one, order): index for index, order in enumerate(orders)}
        for future in as_completed(waiting):
            yield waiting[future], future.result()


def cores() -> int:
    """Processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
