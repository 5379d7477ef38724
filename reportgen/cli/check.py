"""`reportgen check`: read everything, report, write nothing."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import click

from reportgen.cli import options


@click.command()
@options.folder
@options.as_of
@click.option("--all", "everything", is_flag=True, help="Print every problem, however many.")
@click.pass_context
def command(ctx: click.Context, folder: Path, as_of: dt.date | None, everything: bool) -> None:
    """Read a lifter's or a squad's files and say what was not understood, line by line.

    Nothing is written. Leaves with 0 when every row was used, 1 when something was set aside, 2 when a
    lifter can't be read at all.
    """
    from reportgen.cli import run, terminal
    from reportgen.model.letters import shown

    codes = []
    unit = run.squad(folder)[0].unit
    for lifter in run.lifters(folder):
        intake = run.read(lifter, as_of, unit)
        codes.append(run.exit_code(intake))
        name = lifter.resolve().name
        terminal.say(click.style(shown(name), bold=True) + terminal.misses(intake.ledger), err=False)
        for line in (*terminal.ledger_table(intake.ledger), *terminal.layouts(intake.ledger)):
            terminal.say(line, err=False)
        for line in terminal.problem_lines(
            name, intake.problems, None if everything else terminal.MOST_PROBLEMS
        ):
            terminal.say(line, err=False)
        for line in terminal.taken_lines(name, intake.records.notes if intake.records else ()):
            terminal.say(line, err=False)
        terminal.say(f"  {shown(run.verdict(intake))}", err=False)
    for problem in run.squad(folder)[1]:
        terminal.say(shown(problem), err=False)
    ctx.exit(run.together(codes))
