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
    blocks: list[Block] = []
    if own <= trade.value("taper_few"):
        blocks.append(pieces.paragraph(f"history.few.{'one' if own == 1 else 'several'}", tapers=own))
    rows = [
        (one.what, _figure(one), one.note or None, trade.sources[one.source].citation)
        for one in trade.published.values()
        if one.id.startswith("taper_")
    ]
    if rows:
        blocks.append(pieces.table("history.published", rows, address="tapers-published", folded=True))
    return tuple(blocks)


def _figure(one: Published) -> Say:
    """A published figure with the digits of its source: a range, a mean with its spread or a middle."""
    share = one.unit.startswith("share")
    unit = text("history.published.per_cent") if share else one.unit
    # As a float 100 x 0.577 is a hair less.
    low, mid, high = (
        value if value is None or not share else round(100 * value, 6)
        for value in (one.low, one.mid, one.high)
    )
    if low is not None and mid is not None and high is not None and one.spread:
        return say("history.published.spread", mid=mid, spread=high - mid, unit=unit)
    if low is not None and high is not None:
        edge = say("history.published.between", low=low, high=high, unit=unit)
    elif low is not None:
        edge = say("history.published.from", low=low, unit=unit)
    elif high is not None:
        edge = say("history.published.up_to", high=high, unit=unit)
    else:
        return say("history.published.middle", mid=mid or 0.0, unit=unit)
    return edge if mid is None else say("history.published.with_middle", edge=edge, mid=mid, unit=unit)
