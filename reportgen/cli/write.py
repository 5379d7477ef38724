"""`reportgen write`: one HTML dossier a lifter, an index for a squad."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from reportgen.cli import options

if TYPE_CHECKING:
    from reportgen.cli.run import Outcome


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
@click.option("--without-sources", "bare", is_flag=True, help="Leave the source files out of the pages.")
@click.option(
    "--share",
    is_flag=True,
    help="A copy to share: without name, birth year, screening, pain, notes and source files.",
)
@click.option(
    "--keep",
    multiple=True,
    type=click.Choice(["name", "born", "screening", "pain", "notes"]),
    help="With --share: leave this in; may be given more than once.",
)
@click.option(
    "--since",
    type=options.Earlier(),
    metavar="DATE|FILE.html",
    help="Say what changed since a day, or since an earlier dossier.",
)
@click.option("--all", "always", is_flag=True, help="Write every page, unchanged lifters' too.")
@click.pass_context
def command(
    ctx: click.Context,
    folder: Path,
    out: Path,
    as_of: dt.date | None,
    theme: str,
    jobs: int | None,
    bare: bool,
    share: bool,
    keep: tuple[str, ...],
    since: dt.date | Path | None,
    always: bool,
) -> None:
    """Write the dossier of a lifter, or of every lifter of a squad with an index.html beside them.

    A page is written whole or not at all; the old one stays until then. One lifter's broken folder never
    stops the others.
    """
    from reportgen.cli import run, squad, terminal

    chosen = run.lifters(folder)
    settings, odd = run.squad(folder)
    for problem in odd:
        terminal.say(str(problem))
    _agree(len(chosen), share=share, keep=keep, since=since)
    named = not share or "name" in keep
    if not named:
        settings = replace(settings, coach="")
    theme = theme or settings.theme or "plain"
    orders = [
        run.Order(
            folder=lifter,
            slug=slug if named else f"lifter-{number}",
            out=out,
            as_of=as_of,
            theme=theme,
            unit=settings.unit,
            always=always,
            bare=bare or share,
            share=tuple(sorted(keep)) if share else None,
            since=since,
        )
        for number, (lifter, slug) in enumerate(zip(chosen, squad.slugs(chosen), strict=True), 1)
    ]
    with squad.writing():
        with terminal.progress(len(orders)) as step:
            outcomes = run.write_all(orders, jobs or run.cores(), lambda outcome: step(outcome.folder))
        if run.is_squad(folder) and any(outcome.line for outcome in outcomes):
            title = folder.resolve().name if named else "Squad"
            click.echo(f"{squad.write_index(settings, title, outcomes, out, theme)}: the squad's index")
    ctx.exit(_tell(outcomes))


def _agree(lifters: int, *, share: bool, keep: tuple[str, ...], since: dt.date | Path | None) -> None:
    """Refuse arguments that do not go together."""
    from reportgen.cli import terminal

    if keep and not share:
        raise terminal.usage("--keep goes with --share")
    if isinstance(since, Path) and lifters > 1:
        raise terminal.usage("--since FILE compares one lifter; name one lifter's folder, or give a date")
    if isinstance(since, Path) and share:
        raise terminal.usage(
            "--since FILE can't go with --share: that file tells what is left out; give a date"
        )


def _tell(outcomes: list[Outcome]) -> int:
    """Problems on standard error, a line a page on standard output; returns the exit code."""
    from reportgen.cli import run, terminal

    for outcome in outcomes:
        for line in outcome.lines:
            terminal.say(line)
        click.echo(f"{outcome.path or outcome.folder}: {outcome.verdict}")
    return run.together([outcome.code for outcome in outcomes])
