"""`reportgen sheet`: the platform sheet of one lifter, one page for the day."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import click

from reportgen.cli import options


@click.command()
@options.folder
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("site_out"),
    show_default=True,
    help="Where the page goes; made if it is not there.",
)
@options.as_of
@click.option("--theme", default="plain", show_default=True, help="A theme by name, or a folder.")
@click.pass_context
def command(ctx: click.Context, folder: Path, out: Path, as_of: dt.date | None, theme: str) -> None:
    """Write the sheet for the next contest or test day of one lifter: attempts, warm-ups, plates, cues.

    One printed page, black on white, read on a phone as well. A draft for coach and lifter to change.
    """
    from reportgen import pages
    from reportgen.cli import run, terminal
    from reportgen.face import slug
    from reportgen.pages.sheet import render_sheet
    from reportgen.trade import load
    from reportgen.view import sheet
    from reportgen.view.reader import Reader
    from reportgen.words import plain

    chosen = run.lifters(folder)
    if run.is_squad(folder):
        raise terminal.usage(f"'{folder}' is a squad; name one lifter's folder")
    intake = run.read(chosen[0], as_of)
    for line in terminal.problem_lines(chosen[0].resolve().name, intake.problems, terminal.MOST_PROBLEMS):
        terminal.say(line)
    if intake.records is None:
        ctx.exit(2)
    unit = intake.records.lifter.unit
    page = sheet.page(Reader(dossier=run.dossier(intake.records), trade=load(), unit=unit))
    if page.missing:
        raise terminal.Failure(plain(page.missing, unit))
    path = out / f"{slug(chosen[0].resolve().name)}-sheet.html"
    try:
        pages.write(path, render_sheet(page, theme=theme))
    except (pages.WriteProblem, pages.ThemeProblem) as problem:
        raise terminal.Failure(str(problem)) from problem
    click.echo(f"{path}: written; a draft for coach and lifter to change")
