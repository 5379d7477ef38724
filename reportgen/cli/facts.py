"""`reportgen facts`: every computed figure as JSON on standard output."""

import datetime as dt
import json
from pathlib import Path

import click

from reportgen.cli import run as asked
from reportgen.cli import streams, terminal
from reportgen.cli.run import dossier
from reportgen.intake import exit_code
from reportgen.words import as_json, compact_json


def run(folder: Path, as_of: dt.date | None, lines: bool, strict: bool) -> int:
    """Print the facts of a lifter or of each one of a squad; returns the exit code."""
    found = []
    codes = []
    unit = asked.told(folder).unit
    for lifter in asked.lifters(folder):
        intake = asked.read(lifter, as_of, unit)
        codes.append(exit_code(intake))
        terminal.tell(lifter.resolve().name, intake.problems)
        if intake.records is None:
            continue
        facts = dossier(intake.records).facts
        if not lines:
            found.append(as_json(facts))
            continue
        click.echo(compact_json(facts))
        if not streams.heard():
            break
    for name, why in asked.others(folder):
        terminal.say(f"{name}: {why}")
    squad = asked.is_squad(folder)
    if not lines and (squad or found):
        click.echo(json.dumps(found if squad else found[0], ensure_ascii=False, indent=1, allow_nan=False))
    return asked.left(codes, strict=strict)
