"""`write --since`: what an earlier day or dossier is compared with, and what is refused."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reportgen.cli import terminal

if TYPE_CHECKING:
    from reportgen.cli.run import Order
    from reportgen.model.dossier import Dossier


def agreed(orders: list[Order]) -> list[Order]:
    """The orders, each knowing whether it is the only one; refused where none of them can be compared.

    A review day that was asked for holds for all, so a day to compare with that is not before it is a slip.
    """
    for order in orders:
        if isinstance(order.since, dt.date) and order.as_of is not None and order.since >= order.as_of:
            raise terminal.usage(f"--since {order.since} is not before --as-of {order.as_of}")
    return [replace(order, alone=len(orders) == 1) for order in orders]


def compared(made: Dossier, order: Order) -> tuple[Dossier, tuple[str, ...]]:
    """The dossier with what changed since a day or an earlier dossier, and what the terminal is told beside.

    Lifters of a squad have review days of their own. One who has not trained since the day asked for has
    nothing to compare: that is told, and the dossier is written without. One lifter alone is refused.

    Raises:
        Failure: The day does not lie before the review day, or the earlier dossier is of somebody else, or
            can't be read.
    """
    from reportgen.analysis.changes import between
    from reportgen.cli.run import dossier
    from reportgen.trade import load
    from reportgen.words import as_json

    since, as_of = order.since, made.facts.as_of
    if since is None:
        return made, ()
    now = as_json(made.facts)
    if isinstance(since, Path):
        before = earlier_facts(since, now, order.passphrase)
        changes = between(before, now, source=since.name, trade=load(), sets=made.tables.sets)
        if changes.since >= as_of:
            days = f"its review day {changes.since} is not before this one's, {as_of}"
            raise terminal.Failure(f"{since}: can't be compared with: {days}")
    elif since < as_of:
        # The same log as it stood on that day: nothing later enters.
        before = as_json(dossier(replace(made.records, as_of=since)).facts)
        changes = between(before, now, source="the log", trade=load())
    elif order.alone:
        raise terminal.Failure(f"--since {since} is not before the review day, {as_of}")
    else:
        return made, (f"the review day {as_of} is not after --since {since}: written without what changed",)
    return replace(made, facts=replace(made.facts, changes=changes)), ()


def earlier_facts(page: Path, now: dict[str, Any], passphrase: str | None = None) -> dict[str, Any]:
    """The facts that an earlier dossier of the same lifter carries, sealed with the same passphrase or open.

    Args:
        page: The earlier dossier.
        now: The facts of today, to tell whose it is.
        passphrase: Opens it where it is sealed.

    Raises:
        Failure: It carries none, or those of somebody else, in one clear line.
    """
    from reportgen import pages
    from reportgen.analysis.earlier import UnreadableError, another, read
    from reportgen.words.phrases import text_of

    try:
        text = pages.page_text(page)
        if pages.is_sealed(text):
            if passphrase is None:
                raise terminal.Failure(f"{page}: is sealed; comparing with it needs its passphrase")
            text = pages.unseal(text, passphrase)
        found = pages.recover(text).facts
        if found is None or "as_of" not in found:
            raise terminal.Failure(f"{page}: carries no facts to compare with")
        other = another(read(found).facts, now)
    except (pages.ArchiveProblem, pages.SealProblem, UnreadableError) as problem:
        why = text_of(problem.why) if isinstance(problem, UnreadableError) else str(problem)
        raise terminal.Failure(f"{page}: can't be compared with: {why}") from problem
    if other:
        who = now["lifter"]
        raise terminal.Failure(
            f"{page}: can't be compared with: {text_of(other)}, "
            f"and this is {who['name']} in folder {who['folder']}"
        )
    return found
