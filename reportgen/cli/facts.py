"""`reportgen facts`: every computed figure as JSON on standard output."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import click

from reportgen.cli import options


@click.command()
@options.folder
@options.as_of
@click.pass_context
def command(ctx: click.Context, folder: Path, as_of: dt.date | None) -> None:
    """Print the facts file: one JSON object for a lifter, a list of them for a squad.

    Standard output holds JSON only; problems go to standard error.
    """
    import json

    from reportgen.cli import run, terminal
    from reportgen.model.export import as_json

    found = []
    codes = []
    unit = run.squad(folder)[0].unit
    for lifter in run.lifters(folder):
        intake = run.read(lifter, as_of, unit)
        codes.append(run.exit_code(intake))
        for line in terminal.problem_lines(lifter.resolve().name, intake.problems, terminal.MOST_PROBLEMS):
            terminal.say(line)
        if intake.records is not None:
            found.append(as_json(run.dossier(intake.records).facts))
    if run.is_squad(folder) or found:
        answer = found if run.is_squad(folder) else found[0]
        click.echo(json.dumps(answer, ensure_ascii=False, indent=1, allow_nan=False))
    ctx.exit(run.together(codes))
