"""`reportgen write`: one HTML dossier a lifter, an index for a squad."""

import datetime as dt
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TextIO

import click

from reportgen import face, pages
from reportgen.cli import passphrase, pool, terminal
from reportgen.cli import run as asked
from reportgen.cli.order import Order, Outcome
from reportgen.intake import find_lifters
from reportgen.model.letters import shown
from reportgen.model.lifter import Squad, Unit
from reportgen.view import Edition
from reportgen.words import text


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


def run(
    *,
    folder: Path,
    jobs: int | None,
    only: tuple[str, ...],
    only_from: TextIO | None,
    ask: bool,
    passphrase_file: Path | None,
    strict: bool,
    opened: bool,
    **more: Any,
) -> int:
    """Write what was asked for and tell what became of everybody; returns the exit code."""
    given = Given(**more)
    chosen = asked.lifters(folder)
    wanted = _only(chosen, only, only_from)
    _agree(given, len(chosen if wanted is None else wanted))
    settings = asked.told(folder)
    settings = settings if given.named else replace(settings, coach="")
    theme = given.theme or settings.theme or pages.BUILT_IN
    secret = _secret(ask, passphrase_file)
    orders = _orders(given, chosen, settings.unit, theme, secret)
    if wanted is not None:  # a page keeps the address that it has in the whole squad
        orders = [order for order in orders if order.name in wanted]
    whole = wanted is None and asked.is_squad(folder)
    others = asked.others(folder) if wanted is None else []
    index = None
    with _writing():
        with terminal.progress(len(orders)) as step:
            outcomes = pool.write_all(orders, jobs or pool.cores(), lambda outcome: step(outcome.folder))
        if secret and asked.is_squad(folder):
            terminal.say(text("cli.write.no_index"))
        elif whole and any(outcome.line for outcome in outcomes):
            index = _index(given, folder, settings, outcomes, others, theme)
            click.echo(text("cli.index.written", page=str(index)))
    for outcome in outcomes:
        for line in outcome.lines:
            terminal.say(line)
        click.echo(shown(f"{outcome.path or outcome.folder}: {outcome.verdict}"))
    for name, why in others:
        click.echo(f"{name}: {why}")
    page = index or next((outcome.path for outcome in outcomes if outcome.path), None)
    if page is not None and not opened:
        click.echo(text("cli.write.open", page=str(page)))
    elif page is not None and click.launch(str(page.resolve())):
        terminal.say(text("cli.write.no_browser", page=str(page)))
    return asked.left([outcome.code for outcome in outcomes], strict=strict)


@contextmanager
def _writing() -> Iterator[None]:
    """Turn a theme or a disk that fails into one clear line and exit code 2."""
    try:
        yield
    except (pages.WriteProblem, pages.ThemeProblem) as problem:
        raise terminal.Failure(str(problem)) from problem


def _orders(
    given: Given, chosen: tuple[Path, ...], unit: Unit, theme: str, secret: str | None
) -> list[Order]:
    """What to write for each lifter; no address names a lifter of a sealed or a nameless page."""
    orders = []
    slugs = face.slugs(lifter.resolve().name for lifter in chosen)
    for number, lifter, slug in zip(_numbers(chosen), chosen, slugs, strict=True):
        named = f"{slug}-share" if given.share else slug
        order = Order(
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


def _numbers(folders: tuple[Path, ...]) -> tuple[int, ...]:
    """The number of each lifter in the squad, for pages that must not name anybody.

    One lifter alone has the number that the squad around it gives: pages of two lifters that are written one
    after the other into one folder do not take each other's place.
    """
    if len(folders) == 1:
        beside = [one.resolve() for one in find_lifters(folders[0].resolve().parent)]
        if folders[0].resolve() in beside:
            return (beside.index(folders[0].resolve()) + 1,)
    return tuple(range(1, len(folders) + 1))


def _index(
    given: Given,
    folder: Path,
    settings: Squad,
    outcomes: list[Outcome],
    others: list[tuple[str, str]],
    theme: str,
) -> Path:
    """The squad's index; of a copy to share only its address, since the reason quotes a file."""
    failed = [
        (one.shared, text("cli.index.not_written")) if one.shared else (one.folder, one.verdict)
        for one in outcomes
        if one.line is None
    ]
    return face.index(
        (settings, face.title(settings, folder) if given.named else text("cli.index.nameless")),
        [one.line for one in outcomes if one.line is not None],
        failed + (others if given.named else []),
        given.out,
        theme,
        given.edition,
    )


def _only(chosen: tuple[Path, ...], only: tuple[str, ...], file: TextIO | None) -> frozenset[str] | None:
    """The names of the folders that were asked for; None = all of them."""
    if not only and file is None:
        return None
    try:
        listed = [line.strip() for line in file] if file is not None else []
    except (OSError, UnicodeDecodeError) as error:
        raise terminal.usage(text("cli.wrong.only_from")) from error
    wanted = frozenset({*only, *(line for line in listed if line)})
    for name in sorted(wanted - {lifter.resolve().name for lifter in chosen}):
        raise terminal.usage(text("cli.wrong.only", name=shown(name)))
    return wanted


def _agree(given: Given, lifters: int) -> None:
    """Refuse arguments that do not go together."""
    if given.keep and not given.share and (given.edition, set(given.keep)) != ("progress", {"screening"}):
        raise terminal.usage(text("cli.wrong.keep"))
    if (given.start or given.end) and given.edition != "season":
        raise terminal.usage(text("cli.wrong.season"))
    if given.start and given.end and given.start > given.end:
        raise terminal.usage(text("cli.wrong.span", first=str(given.start), last=str(given.end)))
    if isinstance(given.since, Path) and lifters > 1:
        raise terminal.usage(text("cli.wrong.since_squad"))
    if isinstance(given.since, Path) and given.share:
        raise terminal.usage(text("cli.wrong.since_share"))


def _secret(ask: bool, file: Path | None) -> str | None:
    """The passphrase to seal with; None leaves the pages open."""
    if file is not None:
        return passphrase.from_file(file, to_seal=True)
    return passphrase.ask(confirm=True) if ask else None
