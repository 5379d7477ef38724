"""`reportgen sheet`: the platform sheet of one lifter, one page for the day."""

import datetime as dt
from pathlib import Path

import click

from reportgen import pages
from reportgen.cli import clock, terminal
from reportgen.cli import run as asked
from reportgen.cli.options import Failure
from reportgen.face import dossier, slug
from reportgen.pages.sheet import render_sheet
from reportgen.trade import load
from reportgen.view import sheet
from reportgen.view.reader import Reader
from reportgen.words import plain, text


def run(folder: Path, out: Path, as_of: dt.date | None, theme: str) -> int:
    """Write the sheet for the next contest or test day of one lifter; returns the exit code."""
    records = asked.records(folder, as_of)
    if records is None:
        return 2
    if over := clock.ahead(records.as_of, as_of):
        terminal.say(over)
    unit = records.lifter.unit
    page = sheet.page(Reader(dossier=dossier(records), trade=load(), unit=unit))
    if page.missing:
        raise Failure(plain(page.missing, unit))
    path = out / f"{slug(folder.resolve().name)}-sheet.html"
    with terminal.writing():
        pages.write(path, render_sheet(page, theme=theme or pages.BUILT_IN))
    click.echo(text("sheet.written", path=str(path)))
    return 0
