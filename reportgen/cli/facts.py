"""`reportgen facts`: every computed figure as JSON on standard output."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import click

from reportgen.cli import options


@click.command()
@options.folder
@options.as_of
@click.option("--lines", is_flag=True, help="A line of JSON a lifter, each as soon as it is there.")
@options.strict
@click.pass_context
def command(ctx: click.Context, folder: Path, as_of: dt.date | None, lines: bool, strict: bool) -> None:
    """Print the facts file: one JSON object for a lifter, a list of them for a squad.

    Standard output holds JSON only; problems go to standard error. Leaves with 0 when every lifter could be
    read, 1 when one of a squad could not, 2 when none could.
    """
    import json

    from reportgen.cli import run, streams, terminal
    from reportgen.words import as_json, compact_json

    found = []
    codes = []
    unit = run.told(folder).unit
    for lifter in run.lifters(folder):
        intake = run.read(lifter, as_of, unit)
        codes.append(run.exit_code(intake))
        for line in terminal.problem_lines(lifter.resolve().name, intake.problems, terminal.MOST_PROBLEMS):
            terminal.say(line)
        if intake.records is None:
            continue
        facts = run.dossier(intake.records).facts
        if not lines:
            found.append(as_json(facts))
            continue
        click.echo(compact_json(facts))
        if not streams.heard():
            break
    for name, why in run.others(folder):
        terminal.say(f"{name}: {why}")
    if not lines and (run.is_squad(folder) or found):
        answer = found if run.is_squad(folder) else found[0]
        click.echo(json.dumps(answer, ensure_ascii=False, indent=1, allow_nan=False))
    ctx.exit(run.left(codes, strict=strict))
