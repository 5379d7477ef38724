"""`reportgen write`: one HTML dossier a lifter, an index for a squad."""

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
    help="Where the pages go; made if it is not there.",
)
@options.as_of
@click.option("--theme", default="", help="A built-in theme's name, or a folder with a theme of your own.")
@click.option("--jobs", type=click.IntRange(1), help="Processes to use.  [default: all cores]")
@click.pass_context
def command(
    ctx: click.Context, folder: Path, out: Path, as_of: dt.date | None, theme: str, jobs: int | None
) -> None:
    """Write the dossier of a lifter, or of every lifter of a squad with an index.html beside them.

    A page is written whole or not at all; the old one stays until then. One lifter's broken folder never
    stops the others.
    """
    from reportgen.cli import run, squad, terminal

    chosen = run.lifters(folder)
    whole_squad = run.is_squad(folder)
    settings, odd = run.squad(folder)
    for problem in odd:
        terminal.say(str(problem))
    theme = theme or settings.theme or "plain"
    orders = [
        run.Order(folder=lifter, slug=slug, out=out, as_of=as_of, theme=theme)
        for lifter, slug in zip(chosen, squad.slugs(chosen), strict=True)
    ]
    with squad.writing():
        with terminal.progress(len(orders)) as step:
            outcomes = run.write_all(orders, jobs or run.cores(), lambda outcome: step(outcome.folder))
        if whole_squad and any(outcome.line for outcome in outcomes):
            title = folder.resolve().name
            click.echo(f"{squad.write_index(settings, title, outcomes, out, theme)}: the squad's index")
    for outcome in outcomes:
        for line in outcome.lines:
            terminal.say(line)
        click.echo(f"{outcome.path or outcome.folder}: {outcome.verdict}")
    ctx.exit(run.together([outcome.code for outcome in outcomes]))
