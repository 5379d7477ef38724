"""`write --since`: what an earlier day or dossier is compared with, and what is refused."""

import datetime as dt
from dataclasses import replace
from pathlib import Path
from typing import Any

from reportgen import face, pages
from reportgen.analysis.changes import between
from reportgen.analysis.earlier import UnreadableError, another, read
from reportgen.cli import terminal
from reportgen.cli.order import Order
from reportgen.model.dossier import Dossier
from reportgen.model.say import Say
from reportgen.trade import load
from reportgen.words import as_json, text


def agreed(orders: list[Order]) -> list[Order]:
    """The orders, each knowing whether it is the only one; refused where none of them can be compared.

    A review day that was asked for holds for all, so a day to compare with that is not before it is a slip.
    """
    for order in orders:
        if isinstance(order.since, dt.date) and order.as_of is not None and order.since >= order.as_of:
            raise terminal.usage(text("cli.since.after", since=str(order.since), as_of=str(order.as_of)))
    return [replace(order, alone=len(orders) == 1) for order in orders]


def compared(made: Dossier, order: Order) -> tuple[Dossier, tuple[str, ...]]:
    """The dossier with what changed since a day or an earlier dossier, and what the terminal is told beside.

    Lifters of a squad have review days of their own. One who has not trained since the day asked for has
    nothing to compare: that is told, and the dossier is written without. One lifter alone is refused.

    Raises:
        Failure: The day does not lie before the review day, or the earlier dossier is of somebody else, or
            can't be read.
    """
    since, as_of = order.since, made.facts.as_of
    if since is None:
        return made, ()
    if isinstance(since, Path):
        now = as_json(made.facts)
        before = earlier_facts(since, now, order.passphrase)
        changes = between(before, now, source=since.name, trade=load(), sets=made.tables.sets, made=made)
        if changes.since >= as_of:
            raise _refused(since, "not_before", day=str(changes.since), as_of=str(as_of))
        return replace(made, facts=replace(made.facts, changes=changes)), ()
    if since < as_of:
        return face.changed(made, since), ()
    if order.alone:
        raise terminal.Failure(text("cli.since.alone", since=str(since), as_of=str(as_of)))
    return made, (text("cli.since.left_out", since=str(since), as_of=str(as_of)),)


def earlier_facts(page: Path, now: dict[str, Any], passphrase: str | None = None) -> dict[str, Any]:
    """The facts that an earlier dossier of the same lifter carries, sealed with the same passphrase or open.

    Raises:
        Failure: It carries none, or those of somebody else, in one clear line.
    """
    try:
        html = pages.page_text(page)
        if pages.is_sealed(html):
            if passphrase is None:
                raise _refused(page, "sealed")
            html = pages.unseal(html, passphrase)
        found = pages.recover(html).facts
        if found is None or "as_of" not in found:
            raise _refused(page, "no_facts")
        other = another(read(found).facts, now)
    except (pages.ArchiveProblem, pages.SealProblem, UnreadableError) as problem:
        why = problem.why if isinstance(problem, UnreadableError) else str(problem)
        raise _refused(page, "unreadable", why=why) from problem
    if other:
        raise _refused(
            page, "another", why=other, **{part: now["lifter"][part] for part in ("name", "folder")}
        )
    return found


def _refused(page: Path, kind: str, /, **values: str | Say) -> terminal.Failure:
    return terminal.Failure(text(f"cli.since.file.{kind}", page=str(page), **values))
