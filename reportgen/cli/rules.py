"""`reportgen rules`: every rule, band and source in force."""

from pathlib import Path

import click

from reportgen.cli import run as asked
from reportgen.cli import terminal
from reportgen.model.lifter import CoachBand
from reportgen.trade import load
from reportgen.words.listing import listing


def run(folder: Path | None) -> int:
    """Print them, with a lifter's folder the coach's own bands in the list; returns the exit code."""
    bands: tuple[CoachBand, ...] = ()
    goal = ""
    if folder is not None:
        intake = asked.read(asked.one_lifter(folder), None)
        if intake.records is None:
            terminal.tell(folder.name, intake.fatal, None)
            return 2
        bands, goal = intake.records.lifter.bands, intake.records.lifter.goals[0].lift
    click.echo(listing(load(), bands, goal_lift=goal))
    return 0
