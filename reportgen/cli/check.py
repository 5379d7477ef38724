"""`reportgen check`: read everything, report, write nothing."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from reportgen.cli import options

if TYPE_CHECKING:
    from reportgen.intake import Intake
    from reportgen.model.problems import Problem


@click.command()
@options.folder
@options.as_of
@click.option("--all", "everything", is_flag=True, help="Print every problem by itself, however many.")
@click.option("--json", "machine", is_flag=True, help="Print everything as JSON, for another program.")
@click.pass_context
def command(ctx: click.Context, folder: Path, as_of: dt.date | None, everything: bool, machine: bool) -> None:
    """Read a lifter's or a squad's files and say what was not understood, line by line.

    Nothing is written. Leaves with 0 when every row was used, 1 when something was set aside, 2 when a
    lifter can't be read at all.
    """
    from reportgen.cli import run, terminal

    unit = run.squad(folder)[0].unit
    found: list[tuple[str, Intake]] = []
    for lifter in run.lifters(folder):
        found.append((lifter.resolve().name, run.read(lifter, as_of, unit)))
        if not machine:
            _print(*found[-1], None if everything else terminal.MOST_PROBLEMS)
    code = run.together([run.exit_code(intake) for _, intake in found])
    if machine:
        import json

        click.echo(json.dumps(_data(folder, found, code), ensure_ascii=False, indent=1, allow_nan=False))
    else:
        _end(folder, found, code)
    ctx.exit(code)


def _print(name: str, intake: Intake, most: int | None) -> None:
    """One lifter: the ledger, the problems by cause, the sum."""
    from reportgen.cli import run, terminal
    from reportgen.model.letters import shown

    records = intake.records
    terminal.say(click.style(shown(name), bold=True) + terminal.misses(intake.ledger), err=False)
    for line in run.unsure_lines(name, intake):
        terminal.say(line, err=False)
    for line in (*terminal.ledger_table(intake.ledger), *terminal.layouts(intake.ledger)):
        terminal.say(line, err=False)
    for line in terminal.problem_lines(name, intake.problems, most):
        terminal.say(line, err=False)
    for line in terminal.taken_lines(name, records.notes if records is not None else ()):
        terminal.say(line, err=False)
    terminal.say(f"  {shown(run.verdict(intake))}", err=False)


def _end(folder: Path, found: list[tuple[str, Intake]], code: int) -> None:
    """What is said of the folder as a whole: who is no lifter, squad.toml, the total, where the guide is."""
    from reportgen.cli import run, terminal
    from reportgen.model.letters import shown
    from reportgen.pages.places import data

    for name, why in run.others(folder):
        terminal.say(f"{click.style(name, bold=True)}: {why}", err=False)
    settings, odd = run.squad(folder)
    for said in (*map(terminal.told, odd), *([settings.remark] if settings.remark else [])):
        terminal.say(shown(said), err=False)
    terminal.say(terminal.total(intake.ledger for _, intake in found), err=False)
    if code:
        terminal.say(f"The guide: {data('content_demo') / 'README.md'}", err=False)


def _data(folder: Path, found: list[tuple[str, Intake]], code: int) -> dict[str, Any]:
    """Ledger and problems of everybody as plain values."""
    from reportgen.cli import run, terminal
    from reportgen.words import as_json

    def problems(some: tuple[Problem, ...]) -> list[dict[str, Any]]:
        return [{**as_json(one), "guide": terminal.guide(one)} for one in some]

    lifters = [
        {
            "folder": name,
            "exit_code": run.exit_code(intake),
            "as_of": None if intake.records is None else as_json(intake.records.as_of),
            "unsure": as_json(run.unsure(intake)),
            "ledger": [{**as_json(entry), "problems": problems(entry.problems)} for entry in intake.ledger],
            "fatal": problems(intake.fatal),
        }
        for name, intake in found
    ]
    return {
        "exit_code": code,
        "lifters": lifters,
        "no_lifters": [{"folder": name, "why": why} for name, why in run.others(folder)],
        "squad": problems(run.squad(folder)[1]),
    }
