"""One dossier to one page, and to one line of the squad's index."""

from collections.abc import Callable
from typing import Final

from reportgen.model.dossier import Dossier
from reportgen.trade.schema import Trade
from reportgen.view import (
    block,
    exposure,
    head,
    ledger,
    misses,
    needs,
    notes,
    positions,
    stands,
    supports,
    tapers,
    technique,
    text,
)
from reportgen.view.page import Page, Section, SquadLine
from reportgen.view.reader import Reader

#: Sections in the order of the page, after where the lift stands, what carries it and the needs.
_ORDER: Final[tuple[Callable[[Reader], Section | None], ...]] = (
    exposure.section,
    misses.section,
    tapers.section,
    positions.section,
    technique.section,
    block.section,
    notes.section,
    ledger.read,
    ledger.rules,
    ledger.cautions,
)


def build(dossier: Dossier, trade: Trade, *, unit: text.Unit | None = None) -> Page:
    """The review page of one dossier.

    Args:
        dossier: Facts and tables; what is None in the facts is not on the page.
        trade: The trade tables that the facts were computed with.
        unit: Unit of charts and summaries; the lifter's own where None. Sentences and tables keep weights.
    """
    reader = Reader(dossier=dossier, trade=trade, unit=unit or dossier.records.lifter.unit)
    first = [part for part in (stands.section(reader), supports.section(reader)) if part is not None]
    rest = [part for part in (make(reader) for make in _ORDER) if part is not None]
    known = frozenset(part.id for part in (*first, *rest))
    ranked = needs.section(reader, known)
    sections = (*first, *((ranked,) if ranked is not None else ()), *rest)
    name = dossier.facts.lifter.name
    return Page(
        title=f"{name}: {reader.lift}",
        head=head.head(reader, "review"),
        sections=sections,
        footer=(
            f"Review day {text.day(dossier.facts.as_of)}. A proposal to a coach, not advice of a clinician.",
        ),
    )


def squad_line(dossier: Dossier, trade: Trade, *, href: str = "") -> SquadLine:
    """One lifter's line in the squad's index.

    Args:
        dossier: The lifter's dossier.
        trade: The trade tables that the facts were computed with.
        href: Address of the lifter's page beside the index.
    """
    facts = dossier.facts
    reader = Reader(dossier=dossier, trade=trade, unit=dossier.records.lifter.unit)
    last = facts.span.last
    best = dossier.tables.running_best
    best = best.loc[best["lift"] == reader.lifts[0]] if len(best) else best
    return SquadLine(
        name=facts.lifter.name,
        href=href,
        goal=head.goal(reader),
        present=head.present(reader),
        gap=head.gap(reader),
        first_need=facts.needs[0].claim if facts.needs else "",
        last_session="" if last is None else text.day(last),
        days_since=None if last is None else (facts.as_of - last).days,
        rows_set_aside=sum(entry.rows_set_aside for entry in facts.ledger),
        best=tuple((d.date().isoformat(), float(kg)) for d, kg in zip(best["date"], best["kg"], strict=True)),
        gap_kg=reader.goal.gap_kg if reader.goal is not None else None,
    )
