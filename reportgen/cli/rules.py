"""`reportgen rules`: every rule, band and source in force."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from reportgen.model.lifter import CoachBand


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), required=False)
@click.pass_context
def command(ctx: click.Context, folder: Path | None) -> None:
    """Print every rule, band, norm and coefficient with its unit, status and source.

    With a lifter's FOLDER the coach's own bands of that lifter are in the list, shown as the coach's.
    """
    from reportgen.trade import load
    from reportgen.words.listing import listing

    bands: tuple[CoachBand, ...] = ()
    goal = ""
    if folder is not None:
        from reportgen.cli import run, terminal

        chosen = run.lifters(folder)
        if len(chosen) != 1 or run.is_squad(folder):
            raise terminal.usage(f"'{folder}' is a squad; name one lifter's folder")
        intake = run.read(chosen[0], None)
        if intake.records is None:
            for line in terminal.problem_lines(chosen[0].name, intake.fatal, None):
                terminal.say(line)
            ctx.exit(2)
        bands, goal = intake.records.lifter.bands, intake.records.lifter.goals[0].lift
    click.echo(listing(load(), bands, goal_lift=goal))
