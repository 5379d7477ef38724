"""One dossier to one page, in one of three editions."""

from collections.abc import Callable
from typing import Final

from reportgen.model.dossier import Dossier
from reportgen.trade.schema import Trade
from reportgen.view import (
    block,
    changed,
    head,
    ledger,
    misses,
    needs,
    notes,
    pieces,
    positions,
    progress,
    season,
    spans,
    stands,
    supports,
    tapers,
    technique,
    training,
)
from reportgen.view.page import Edition, Figure, Page, Section, Table
from reportgen.view.reader import Reader
from reportgen.words import numbers, phrase, text

#: Sections behind the needs, in the order of the page: what to do, what carries the goal, training, test days,
#: positions and technique; what changed, said and done, notes; what it rests on.
_ORDER: Final[tuple[Callable[[Reader], Section | None], ...]] = (
    block.section,
    supports.section,
    stands.section,
    training.section,
    misses.section,
    tapers.section,
    positions.section,
    technique.section,
    season.said,
    notes.section,
    ledger.read,
    ledger.rules,
    ledger.cautions,
)
#: Sections that stand open as they are, and those that are folded whole; the others behind their first figure.
_OPEN: Final = frozenset(("block", "changed", "cautions"))
_FOLDED: Final = frozenset(("technique", "said", "notes", "read", "rules"))
#: Their first two figures are short.
_ABREAST: Final = frozenset(("supports", "misses"))


def build(
    dossier: Dossier,
    trade: Trade,
    *,
    unit: numbers.Unit | None = None,
    edition: Edition = "review",
    keep_screening: bool = False,
) -> Page:
    """One edition of one dossier.

    Args:
        dossier: Facts and tables; what is None in the facts is not on the page.
        trade: The trade tables that the facts were computed with.
        unit: Unit of charts and summaries; the lifter's own where None. Sentences and tables keep weights.
        edition: For the coach (review), for the lifter who sends it (progress), for the archive (season).
        keep_screening: Positions are in the progress edition, too.

    Raises:
        ValueError: No such edition.
    """
    reader = Reader(dossier=dossier, trade=trade, unit=unit or dossier.records.lifter.unit)
    if edition == "review":
        top = head.head(reader, text("common.edition.review"))
        sections = _review(reader)
    elif edition == "progress":
        top = head.head(reader, text("common.edition.progress"))
        sections = progress.sections(reader, screening=keep_screening)
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


def _review(reader: Reader) -> tuple[Section, ...]:
    """Everything, in the order of the page: what holds the lift back, what to do, then what it rests on."""
    rest = [part for part in (make(reader) for make in _ORDER) if part is not None]
    compared = changed.section(reader)
    if compared is not None:
        place = sum(part.id not in {"said", "notes", "read", "rules", "cautions"} for part in rest)
        rest.insert(place, compared)
    figures = (b.id for part in rest for b in part.blocks if isinstance(b, Figure))
    ranked = needs.section(reader, frozenset((*(part.id for part in rest), *figures)))
    return (ranked, *map(_folded, rest))


def _folded(part: Section) -> Section:
    """The section behind its first figure that isn't beside the head, or folded whole where it is evidence.

    Of two figures that follow each other, both stand open where they are short enough to stand abreast.
    """
    figures = ((n, one) for n, one in enumerate(part.blocks, start=1) if isinstance(one, Figure))
    places = [n for n, one in figures if one.id != head.PICTURE]
    ends = iter(places[1:] if part.id in _ABREAST and places[:2] == [1, 2] else places)
    # The lift's own picture stands in the head: here its words stay, and its tables are folded.
    tables = (n for n, one in enumerate(part.blocks) if isinstance(one, Table) and part.id == "stands")
    upto = None if part.id in _OPEN else 0 if part.id in _FOLDED else next(ends, next(tables, None))
    return pieces.folded(part, upto)
