"""`reportgen facts`: every computed figure as JSON on standard output."""

import datetime as dt
import sys
from contextlib import closing
from pathlib import Path

import click
import msgspec

from reportgen.cli import pool, streams, terminal
from reportgen.cli import run as asked
from reportgen.cli.run import dossier
from reportgen.intake import exit_code
from reportgen.model.lifter import Unit
from reportgen.model.values import dataclass
from reportgen.words import compact_json, text


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked for of one lifter; it crosses to another process."""

    folder: Path
    as_of: dt.date | None
    unit: Unit
    compact: bool  # on one line
    deep: int  # columns that the JSON stands in from the left


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One lifter's facts as JSON text, None where there are none; the lines told of it; the exit code."""

    json: str | None
    lines: tuple[str, ...]
    code: int


def run(folder: Path, as_of: dt.date | None, lines: bool, jobs: int | None, strict: bool) -> int:
    """Print the facts of a lifter or of each one of a squad, as they come; returns the exit code."""
    squad = asked.is_squad(folder)
    unit = asked.told(folder).unit
    many = squad and not lines
    tasks = [
        Asked(folder=lifter, as_of=as_of, unit=unit, compact=lines, deep=int(many))
        for lifter in asked.lifters(folder)
    ]
    told: list[str] = []
    codes: list[int] = []
    printed = 0
    work = _apart if squad else _one
    results = pool.in_turn(tasks, work, _lost, jobs or pool.cores())
    # On a terminal the facts themselves would stand between the bar and its next step.
    bar = terminal.progress(0 if len(tasks) == 1 or sys.stdout.isatty() else len(tasks), "computing")
    with closing(results), bar as step:
        for task, found in zip(tasks, results, strict=True):
            codes.append(found.code)
            told += found.lines
            if found.json is not None:
                opening = ("," if printed else "[") + "\n " if many else ""
                terminal.say_json(opening + found.json, nl=not many)
                printed += 1
            step(task.folder.name)
            if not streams.heard():
                break
    if many:
        click.echo("\n]" if printed else "[]")
    for line in told:
        terminal.say(line)
    for name, why in asked.others(folder):
        terminal.say(f"{name}: {why}")
    return asked.left(codes, strict=strict)


def _one(task: Asked) -> Found:
    """Read and compute one lifter."""
    intake = asked.read(task.folder, task.as_of, task.unit)
    name = task.folder.resolve().name
    lines = tuple(terminal.problem_lines(name, intake.problems, terminal.MOST_PROBLEMS))
    if intake.records is None:
        return Found(json=None, lines=lines, code=exit_code(intake))
    facts = dossier(intake.records).facts
    if task.compact:
        return Found(json=compact_json(facts), lines=lines, code=exit_code(intake))
    pretty = msgspec.json.format(compact_json(facts), indent=1).replace("\n", "\n" + " " * task.deep)
    return Found(json=pretty, lines=lines, code=exit_code(intake))


def _apart(task: Asked) -> Found:
    return pool.apart(lambda: _one(task), lambda why: _lost(task, why), task.folder)


def _lost(task: Asked, why: str) -> Found:
    told = text("cli.write.told", folder=task.folder.resolve().name, told=why)
    return Found(json=None, lines=(told,), code=2)
