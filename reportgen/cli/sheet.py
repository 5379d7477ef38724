"""`reportgen sheet`: the platform sheet of one lifter, one page for the day."""

import datetime as dt
from pathlib import Path

import click

from reportgen import pages
from reportgen.cli import run as asked
from reportgen.cli import terminal
from reportgen.cli.options import Failure
from reportgen.face import dossier, slug
from reportgen.pages.sheet import render_sheet
from reportgen.trade import load
from reportgen.view import sheet
from reportgen.view.reader import Reader
from reportgen.words import plain, text


def run(folder: Path, out: Path, as_of: dt.date | None, theme: str) -> int:
    """Write the sheet for the next contest or test day of one lifter; returns the exit code."""
    chosen = asked.one_lifter(folder)
    intake = asked.read(chosen, as_of)
    for line in terminal.problem_lines(chosen.resolve().name, intake.problems, terminal.MOST_PROBLEMS):
        terminal.say(line)
    if intake.records is None:
        return 2
    unit = intake.records.lifter.unit
    page = sheet.page(Reader(dossier=dossier(intake.records), trade=load(), unit=unit))
    if page.missing:
        raise Failure(plain(page.missing, unit))
    path = out / f"{slug(chosen.resolve().name)}-sheet.html"
    try:
        pages.write(path, render_sheet(page, theme=theme or pages.BUILT_IN))
    except (pages.WriteProblem, pages.ThemeProblem) as problem:
        raise Failure(str(problem)) from problem
    click.echo(text("sheet.written", path=str(path)))
    return 0
