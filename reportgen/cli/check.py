"""`reportgen check`: read everything, report, write nothing."""

import datetime as dt
import json
from pathlib import Path
from typing import Any

import click

from reportgen.cli import clock, terminal
from reportgen.cli import run as asked
from reportgen.intake import Intake, exit_code
from reportgen.model.letters import shown
from reportgen.model.problems import Problem
from reportgen.pages.places import data
from reportgen.words import as_json, text


def run(folder: Path, as_of: dt.date | None, everything: bool, machine: bool) -> int:
    """Tell what was not understood, line by line; returns the exit code."""
    unit = asked.squad(folder)[0].unit
    found: list[tuple[str, Intake]] = []
    for lifter in asked.lifters(folder):
        found.append((lifter.resolve().name, asked.read(lifter, as_of, unit)))
        if not machine:
            for line in _lines(*found[-1], None if everything else terminal.MOST_PROBLEMS):
                click.echo(line)
            records = found[-1][1].records
            if records is not None and (over := clock.ahead(records.as_of, as_of)):
                click.echo(f"  {over}")
    code = asked.together([exit_code(intake) for _, intake in found])
    if machine:
        terminal.say_json(
            json.dumps(_data(folder, found, code), ensure_ascii=False, indent=1, allow_nan=False)
        )
        return code
    for name, why in asked.others(folder):
        click.echo(f"{click.style(name, bold=True)}: {why}")
    asked.told(folder, err=False)
    click.echo(terminal.total(intake.ledger for _, intake in found))
    if code:
        click.echo(text("cli.check.guide", file=str(data("content_demo") / "README.md")))
    return code


def _lines(name: str, intake: Intake, most: int | None) -> list[str]:
    """One lifter: the ledger, the problems by cause, the sum."""
    return [
        terminal.head(name, intake.ledger),
        *asked.unsure_lines(name, intake),
        *terminal.ledger_table(intake.ledger),
        *terminal.layouts(intake.ledger),
        *terminal.problem_lines(name, intake.problems, most),
        *terminal.taken_lines(name, () if intake.records is None else intake.records.notes),
        f"  {shown(asked.verdict(intake))}",
    ]


def _data(folder: Path, found: list[tuple[str, Intake]], code: int) -> dict[str, Any]:
    """Ledger and problems of everybody as plain values."""

    def problems(some: tuple[Problem, ...]) -> list[dict[str, Any]]:
        return [{**as_json(one), "guide": terminal.guide(one)} for one in some]

    lifters = [
        {
            "folder": name,
            "exit_code": exit_code(intake),
            "as_of": None if intake.records is None else as_json(intake.records.as_of),
            "unsure": as_json(asked.unsure(intake)),
            "ledger": [{**as_json(entry), "problems": problems(entry.problems)} for entry in intake.ledger],
            "fatal": problems(intake.fatal),
        }
        for name, intake in found
    ]
    return {
        "exit_code": code,
        "lifters": lifters,
        "no_lifters": [{"folder": name, "why": why} for name, why in asked.others(folder)],
        "squad": problems(asked.squad(folder)[1]),
    }
