"""One dossier to one page, in one of three editions."""

from collections.abc import Callable
from typing import Final

from reportgen.model.changes import Changes
from reportgen.model.dossier import Dossier
from reportgen.trade.schema import Trade
from reportgen.view import (
    block,
    changed,
    exposure,
    head,
    ledger,
    misses,
    needs,
    notes,
    positions,
    progress,
    season,
    spans,
    stands,
    supports,
    tapers,
    technique,
)
from reportgen.view.page import Edition, Figure, Page, Section
from reportgen.view.reader import Reader
from reportgen.words import numbers, phrase, text

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


def build(
    dossier: Dossier,
    trade: Trade,
    *,
    unit: numbers.Unit | None = None,
    edition: Edition = "review",
    changes: Changes | None = None,
    keep_screening: bool = False,
) -> Page:
    """One edition of one dossier.

    Args:
        dossier: Facts and tables; what is None in the facts is not on the page.
        trade: The trade tables that the facts were computed with.
        unit: Unit of charts and summaries; the lifter's own where None. Sentences and tables keep weights.
        edition: For the coach (review), for the lifter who sends it (progress), for the archive (season).
        changes: What changed since a day; the facts' own where None.
        keep_screening: Positions are in the progress edition, too.

    Raises:
        ValueError: No such edition.
    """
    reader = Reader(dossier=dossier, trade=trade, unit=unit or dossier.records.lifter.unit)
    since = changes or dossier.facts.changes
    if edition == "review":
        top = head.head(reader, text("common.edition.review"))
        sections = _review(reader, since)
    elif edition == "progress":
        top = head.head(reader, text("common.edition.progress"))
        sections = progress.sections(reader, since, screening=keep_screening)
    elif edition == "season":
        held = spans.newest(reader)
        which = text("common.season_of", span=spans.named(held)) if held else text("common.season")
        top = head.head(reader, which, season.sentence(reader))
        sections = season.sections(reader)
    else:
        raise ValueError(f"no edition {edition!r}; expected review, progress or season")
    return Page(
        title=f"{dossier.facts.lifter.name}: {reader.lift}",
        head=top,
        sections=sections,
        footer=phrase("common.footer", date=dossier.facts.as_of),
    )


def _review(reader: Reader, changes: Changes | None) -> tuple[Section, ...]:
    """Everything, in the order of the page; on top what changed, where something was compared."""
    top = (changed.section(reader, changes), stands.section(reader), supports.section(reader))
    first = [part for part in top if part is not None]
    rest = [part for part in (make(reader) for make in _ORDER) if part is not None]
    every = (*first, *rest)
    figures = (b.id for part in every for b in part.blocks if isinstance(b, Figure))
    known = frozenset((*(part.id for part in every), *figures))
    ranked = needs.section(reader, known)
    return (*first, *((ranked,) if ranked is not None else ()), *rest)
