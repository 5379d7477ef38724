"""`reportgen write`: one HTML dossier a lifter, an index for a squad."""

from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from reportgen import face, pages
from reportgen.cli import passphrase, pool, several, store, terminal
from reportgen.cli import run as asked
from reportgen.cli.order import Order, Outcome
from reportgen.intake import find_lifters
from reportgen.model.letters import shown
from reportgen.model.lifter import Squad
from reportgen.words import text


def run(
    *,
    folder: Path,
    jobs: int | None,
    only: tuple[str, ...],
    listed: Path | None,
    ask: bool,
    passphrase_file: Path | None,
    strict: bool,
    opened: bool,
    theme: str,
    bare: bool,
    share: bool,
    keep: tuple[str, ...],
    no_store: bool,
    **more: Any,
) -> int:
    """Write what was asked for and tell what became of everybody; returns the exit code."""
    chosen = asked.lifters(folder)
    wanted = _only(chosen, only, listed)
    order = Order(
        folder=folder,
        slug="",
        theme=theme,
        bare=bare or share,
        share=tuple(sorted(keep)) if share else None,
        screening="screening" in keep,
        store=store.folder(no_store or ask or passphrase_file),
        **more,
    )
    _agree(order, keep, len(chosen if wanted is None else wanted))
    settings = asked.told(folder)
    settings = settings if order.named else replace(settings, coach="")
    secret = _secret(ask, passphrase_file)
    order = replace(order, theme=theme or settings.theme or pages.BUILT_IN)
    told = settings if order.share is None else replace(settings, coach="")  # a copy to share names no coach
    orders = _orders(replace(order, squad=told, passphrase=secret), chosen)
    if wanted is not None:  # a page keeps the address that it has in the whole squad
        orders = [order for order in orders if order.name in wanted]
    whole = wanted is None and asked.is_squad(folder)
    others = asked.others(folder) if wanted is None else []
    index = None
    with terminal.writing():
        with terminal.progress(len(orders)) as step:
            outcomes = several.write_all(orders, jobs or pool.cores(), lambda outcome: step(outcome.folder))
        if secret and asked.is_squad(folder):
            terminal.say(text("cli.write.no_index"))
        elif whole and any(outcome.line for outcome in outcomes):
            index = _index(order, settings, outcomes, others)
            click.echo(text("cli.index.written", page=str(index)))
    _tell(outcomes, others)
    page = index or next((outcome.path for outcome in outcomes if outcome.path), None)
    if page is not None:
        show(page, asked=opened)
    return asked.left([outcome.code for outcome in outcomes], strict=strict)


def show(page: Path, *, asked: bool) -> None:
    """Say which page to open, or open it where that was asked for."""
    if not asked:
        click.echo(text("cli.write.open", page=str(page)))
    elif click.launch(str(page.resolve())):
        terminal.say(text("cli.write.no_browser", page=str(page)))


def _tell(outcomes: list[Outcome], others: list[tuple[str, str]]) -> None:
    """A line a lifter, after what was odd about them; then who is none."""
    for outcome in outcomes:
        for line in outcome.lines:
            terminal.say(line)
        click.echo(shown(f"{outcome.path or outcome.folder}: {outcome.verdict}"))
    for name, why in others:
        click.echo(f"{name}: {why}")


def _orders(order: Order, chosen: tuple[Path, ...]) -> list[Order]:
    """What to write for each lifter; no address names a lifter of a sealed or a nameless page."""
    found = []
    slugs = face.slugs(lifter.resolve().name for lifter in chosen)
    for number, lifter, slug in zip(_numbers(chosen), chosen, slugs, strict=True):
        named = slug if order.share is None else f"{slug}-share"
        hidden = "dossier" if order.passphrase else "" if order.named else "lifter"
        found.append(replace(order, folder=lifter, slug=f"{hidden}-{number}" if hidden else named))
    return found


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


def _index(order: Order, settings: Squad, outcomes: list[Outcome], others: list[tuple[str, str]]) -> Path:
    """The squad's index; of a copy to share only its address, since the reason quotes a file."""
    failed = [
        (one.shared, text("cli.index.not_written")) if one.shared else (one.folder, one.verdict)
        for one in outcomes
        if one.line is None
    ]
    return face.index(
        (settings, face.title(settings, order.folder) if order.named else text("cli.index.nameless")),
        [one.line for one in outcomes if one.line is not None],
        failed + (others if order.named else []),
        order.out,
        order.theme,
        order.edition,
    )


def _only(chosen: tuple[Path, ...], only: tuple[str, ...], file: Path | None) -> frozenset[str] | None:
    """The names of the folders that were asked for; None = all of them."""
    if not only and file is None:
        return None
    known = {lifter.resolve().name for lifter in chosen}
    for name in only:
        if name not in known:
            raise terminal.usage(text("cli.wrong.only", name=shown(name)))
    wanted = [] if file is None else _listed(file)
    for number, name in wanted:
        if name not in known:
            place = f"{shown(file)}:{number}"
            raise terminal.usage(text("cli.wrong.listed", place=place, name=shown(name)))
    return frozenset({*only, *(name for _, name in wanted)})


def _listed(file: Path) -> list[tuple[int, str]]:
    """The folders' names in a file, each with its line's number; empty lines and remarks are passed over."""
    try:
        with click.open_file(str(file), encoding="utf-8-sig") as opened:
            lines = [line.strip().rstrip("/\\") for line in opened]
    except (OSError, UnicodeDecodeError) as error:
        why = getattr(error, "strerror", None) or text("cli.wrong.no_text")
        raise terminal.usage(text("cli.wrong.list", file=shown(file), why=why)) from error
    return [(number, line) for number, line in enumerate(lines, 1) if line and not line.startswith("#")]


def _agree(order: Order, keep: tuple[str, ...], lifters: int) -> None:
    """Refuse arguments that do not go together."""
    first, last, file = order.start, order.end, isinstance(order.since, Path)
    shared = order.share is not None
    refused = {
        "keep": keep and not shared and (order.edition, set(keep)) != ("progress", {"screening"}),
        "season": (first or last) and order.edition != "season",
        "span": first and last and first > last,
        "since_squad": file and lifters > 1,
        "since_share": file and shared,
    }
    for why, is_so in refused.items():
        if is_so:
            raise terminal.usage(text(f"cli.wrong.{why}", first=str(first), last=str(last)))


def _secret(ask: bool, file: Path | None) -> str | None:
    """The passphrase to seal with; None leaves the pages open."""
    if file is not None:
        return passphrase.from_file(file, to_seal=True)
    return passphrase.ask(confirm=True) if ask else None
