"""Published figures on tapers beside the lifter's own: a frame to read them in, no grade."""

from reportgen.model.peaks import TestDayFact
from reportgen.trade.schema import Published
from reportgen.view import outcome, pieces
from reportgen.view.page import Block
from reportgen.view.reader import Reader
from reportgen.words import Say, say, text


def beside(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The published ranges beside the lifter's own tapers: a frame to read them in, no grade."""
    trade = reader.trade
    tapered = tuple(t for t in tests if t.taper is not None and t.taper.days is not None)
    own = len(outcome.events(tapered, trade))
    if not own:
        return ()
    rows = [
        (one.what, _figure(one), one.note or None, trade.sources[one.source].citation)
        for one in trade.published.values()
        if one.id.startswith("taper_")
    ]
    table = pieces.table("history.published", rows, address="tapers-published", folded=True)
    few = pieces.paragraph(f"history.few.{'one' if own == 1 else 'several'}", tapers=own)
    return (few, table) if own <= trade.value("taper_few") else (table,)


def _figure(one: Published) -> Say:
    """A published figure with the digits of its source: a range, a mean with its spread or a middle."""
    share = one.unit.startswith("share")
    unit = text("history.published.per_cent") if share else one.unit
    edges = (("low", one.low), ("mid", one.mid), ("high", one.high))
    # As a float 100 x 0.577 is a hair less.
    known = {name: round(100 * edge, 6) if share else edge for name, edge in edges if edge is not None}
    if one.spread:
        return say(
            "history.published.spread", unit=unit, mid=known["mid"], spread=known["high"] - known["mid"]
        )
    return say(f"history.published.edges.{'_'.join(known)}", unit=unit, **known)
