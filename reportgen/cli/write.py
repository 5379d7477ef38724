"""`reportgen write`: one HTML dossier a lifter, an index for a squad."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

import click

from reportgen.cli import options, passphrase
from reportgen.model import private

if TYPE_CHECKING:
    from reportgen.cli.run import Order, Outcome
    from reportgen.model.lifter import Squad, Unit
    from reportgen.view import Edition


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The arguments that say what a page holds and where it goes."""

    out: Path
    edition: Edition
    start: dt.date | None
    end: dt.date | None
    as_of: dt.date | None
    theme: str
    bare: bool
    share: bool
    keep: tuple[str, ...]
    since: dt.date | Path | None
    always: bool

    @property
    def named(self) -> bool:
        """Whether page and address may name the lifter."""
        return not self.share or "name" in self.keep


@click.command()
@options.folder
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("site_out"),
    show_default=True,
    help="Where the pages go; made if it is not there.",
)
@click.option(
    "--edition",
    type=click.Choice(["review", "progress", "season"]),
    default="review",
    show_default=True,
    help="For the coach, from the lifter to the coach, or one season for the archive.",
)
@click.option(
    "--from",
    "start",
    type=options.Day(),
    metavar="DATE",
    help="With --edition season: its first day.  [default: the log's]",
)
@click.option(
    "--until",
    "end",
    type=options.Day(),
    metavar="DATE",
    help="With --edition season: its last day.  [default: the review day]",
)
@options.as_of
@click.option("--theme", default="", help="A built-in theme's name, or a folder with a theme of your own.")
@click.option("--jobs", type=click.IntRange(1), help="Processes to use.  [default: all cores]")
@click.option("--without-sources", "bare", is_flag=True, help="Leave the source files out of the pages.")
@click.option(
    "--share",
    is_flag=True,
    help=f"A copy to share, without {private.listed()}. Body mass stays where a goal is set by it.",
)
@click.option(
    "--keep",
    multiple=True,
    type=click.Choice(list(private.PARTS)),
    help="With --share: leave this in; may be given more than once. With --edition progress, screening is "
    "shown only with --keep screening.",
)
@click.option(
    "--since",
    type=options.Earlier(),
    metavar="DATE|FILE.html",
    help="Say what changed since a day, or since an earlier dossier.",
)
@click.option(
    "--only", multiple=True, metavar="NAME", help="Only this lifter's folder; may be given more than once."
)
@click.option(
    "--only-from",
    type=click.File(encoding="utf-8-sig"),
    metavar="FILE",
    help="Only the folders that FILE names, one a line. A squad can be split over several machines so.",
)
@click.option("--passphrase", "ask", is_flag=True, help="Seal the pages; asks for the passphrase twice.")
@passphrase.file_option
@click.option("--all", "always", is_flag=True, help="Write every page, unchanged lifters' too.")
@options.strict
@click.option("--open", "opened", is_flag=True, help="Open the page, or the squad's index, in a browser.")
@click.pass_context
def command(
    ctx: click.Context,
    /,
    folder: Path,
    jobs: int | None,
    only: tuple[str, ...],
    only_from: TextIO | None,
    ask: bool,
    passphrase_file: Path | None,
    strict: bool,
    opened: bool,
    **asked: Any,
) -> None:
    """Write the dossier of a lifter, or of every lifter of a squad with an index.html beside them.

    Three editions: the review holds everything; progress is two pages from the lifter to the coach, best
    with --since; season sums up the newest calendar year, or --from and --until. One edition a call: the
    files are NAME.html, NAME-progress.html and NAME-season.html.

    A page is written whole or not at all; the old one stays until then. One lifter's broken folder never
    stops the others. --only and --only-from write no index: `write` without them adds it. A sealed page tells
    nothing of its lifter, its name neither; it is written every time, and there is no index.

    Leaves with 0 when every page was written, 1 when one of a squad was not, 2 when none was.
    """
    from reportgen.cli import pool, run, squad, terminal

    given = Given(**asked)
    chosen = run.lifters(folder)
    wanted = _only(chosen, only, only_from)
    _agree(given, len(chosen if wanted is None else wanted))
    settings = _settings(folder, named=given.named)
    theme = given.theme or settings.theme or "plain"
    orders = _orders(given, chosen, settings.unit, theme, _secret(ask, passphrase_file))
    sealed = orders[0].passphrase is not None
    if wanted is not None:  # a page keeps the address that it has in the whole squad
        orders = [order for order in orders if order.folder.resolve().name in wanted]
    index = None
    with squad.writing():
        with terminal.progress(len(orders)) as step:
            outcomes = pool.write_all(orders, jobs or pool.cores(), lambda outcome: step(outcome.folder))
        if sealed and run.is_squad(folder):
            terminal.say("no index.html: it would name everyone in the open")
        elif wanted is None and run.is_squad(folder) and any(outcome.line for outcome in outcomes):
            title = _title(folder, settings, named=given.named)
            idle = run.others(folder) if given.named else []
            index = squad.write_index(settings, title, outcomes, idle, given.out, theme, given.edition)
            click.echo(f"{index}: the squad's index")
    code = _tell(outcomes, run.others(folder) if wanted is None else [], strict=strict)
    page = index or next((outcome.path for outcome in outcomes if outcome.path), None)
    if page is not None:
        _last(page, opened=opened)
    ctx.exit(code)


def _orders(
    given: Given, chosen: tuple[Path, ...], unit: Unit, theme: str, secret: str | None
) -> list[Order]:
    """What to write for each lifter; no address names a lifter of a sealed or a nameless page."""
    from reportgen.cli import run, squad

    orders = []
    for number, lifter, slug in zip(squad.numbers(chosen), chosen, squad.slugs(chosen), strict=True):
        named = f"{slug}-share" if given.share else slug
        order = run.Order(
            folder=lifter,
            slug=f"dossier-{number}" if secret else named if given.named else f"lifter-{number}",
            out=given.out,
            as_of=given.as_of,
            theme=theme,
            unit=unit,
            always=given.always,
            bare=given.bare or given.share,
            share=tuple(sorted(given.keep)) if given.share else None,
            since=given.since,
            edition=given.edition,
            screening="screening" in given.keep,
            start=given.start,
            end=given.end,
            passphrase=secret,
        )
        orders.append(order)
    return orders


def _title(folder: Path, settings: Squad, *, named: bool) -> str:
    """Whose squad it is; the folder's name where no coach is given."""
    if settings.coach:
        return f"Lifters of {settings.coach}"
    return folder.resolve().name if named else "Squad"


def _settings(folder: Path, *, named: bool) -> Squad:
    """What squad.toml says, without the coach where nobody is to be named; its problems are told."""
    from reportgen.cli import run

    settings = run.told(folder)
    return settings if named else replace(settings, coach="")


def _only(chosen: tuple[Path, ...], only: tuple[str, ...], file: TextIO | None) -> frozenset[str] | None:
    """The names of the folders that were asked for; None = all of them."""
    from reportgen.cli import terminal
    from reportgen.model.letters import shown

    if not only and file is None:
        return None
    try:
        listed = [line.strip() for line in file] if file is not None else []
    except (OSError, UnicodeDecodeError) as error:
        raise terminal.usage(
            "the file of --only-from can't be read: expected a folder's name a line"
        ) from error
    wanted = frozenset({*only, *(line for line in listed if line)})
    for name in sorted(wanted - {lifter.resolve().name for lifter in chosen}):
        raise terminal.usage(f"'{shown(name)}' is no lifter of this folder")
    return wanted


def _agree(given: Given, lifters: int) -> None:
    """Refuse arguments that do not go together."""
    from reportgen.cli import terminal

    if given.keep and not given.share and (given.edition, set(given.keep)) != ("progress", {"screening"}):
        raise terminal.usage("--keep goes with --share; `--edition progress` alone takes --keep screening")
    if (given.start or given.end) and given.edition != "season":
        raise terminal.usage("--from and --until go with --edition season")
    if given.start and given.end and given.start > given.end:
        raise terminal.usage(f"--from {given.start} lies after --until {given.end}")
    if isinstance(given.since, Path) and lifters > 1:
        raise terminal.usage(
            "--since FILE compares one lifter; name its folder, choose one with --only, or give a date"
        )
    if isinstance(given.since, Path) and given.share:
        raise terminal.usage(
            "--since FILE can't go with --share: that file tells what is left out; give a date"
        )


def _secret(ask: bool, file: Path | None) -> str | None:
    """The passphrase to seal with; None leaves the pages open."""
    if file is not None:
        return passphrase.from_file(file, to_seal=True)
    return passphrase.ask(confirm=True) if ask else None


def _last(page: Path, *, opened: bool) -> None:
    """Which page to open, and open it where that was asked for."""
    from reportgen.cli import terminal

    if not opened:
        terminal.say(f"\nOpen {page} in a browser (or add --open).", err=False)
    elif click.launch(str(page.resolve())):
        terminal.say(f"{page}: no browser could be started; open it by hand")


def _tell(outcomes: list[Outcome], idle: list[tuple[str, str]], *, strict: bool) -> int:
    """Problems on standard error, a line a folder on standard output; returns the exit code."""
    from reportgen.cli import run, terminal
    from reportgen.model.letters import shown

    for outcome in outcomes:
        for line in outcome.lines:
            terminal.say(line)
        click.echo(shown(f"{outcome.path or outcome.folder}: {outcome.verdict}"))
    for name, why in idle:
        click.echo(f"{name}: {why}")
    return run.left([outcome.code for outcome in outcomes], strict=strict)
