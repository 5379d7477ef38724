"""Published figures on tapers beside the lifter's own: a frame to read them in, no grade."""

from typing import Final

from reportgen.model.peaks import TestDayFact
from reportgen.trade.schema import Published
from reportgen.view import history
from reportgen.view.page import Block, Paragraph, Table
from reportgen.view.reader import Reader, words
from reportgen.words import numbers

#: Up to so many tapers prove nothing, and the page says so.
FEW_TAPERS: Final = 3
#: What a figure's name ends with where its edges are a spread about the middle.
SPREAD: Final = "mean and one SD"


def beside(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The published ranges beside the lifter's own tapers: a frame to read them in, no grade."""
    trade = reader.trade
    own = history.peaks(tuple(t for t in tests if t.taper is not None and t.taper.days is not None), trade)
    if not own:
        return ()
    rows = tuple(
        (words(one.what), words(_range(one)), words(_note(one)), words(trade.sources[one.source].citation))
        for one in trade.published.values()
        if one.id.startswith("taper_")
    )
    few = (
        f"{numbers.sentence(numbers.count(len(own), 'taper'))} of one lifter prove nothing; they are a beginning "
        "to compare with."
    )
    if len(own) == 1:
        few = "One taper of one lifter proves nothing; it is a beginning to compare with."
    blocks: tuple[Block, ...] = ()
    if len(own) <= FEW_TAPERS:
        blocks = (Paragraph(text=(few,)),)
    if rows:
        blocks += (
            Table(
                caption="What was published on tapers, to read these beside; no grade",
                head=("what", "figure", "beside it", "source"),
                rows=rows,
                folded=True,
                id="tapers-published",
            ),
        )
    return blocks


def _range(one: Published) -> str:
    """A published figure with the digits of its source: a range, a mean with its spread or a middle."""
    share = one.unit.startswith("share")
    unit = "%" if share else one.unit

    def number(value: float) -> str:
        # As a float 100 x 0.577 is a hair less.
        return numbers.number(round(100 * value, 6) if share else value, 2)

    low, mid, high = one.low, one.mid, one.high
    if low is None and high is None:
        return "" if mid is None else f"{number(mid)} {unit}"
    if low is not None and mid is not None and high is not None and one.what.endswith(SPREAD):
        return f"{number(mid)} ± {number(high - mid)} {unit}"
    if high is None or low is None:
        edge = f"up to {number(high)} {unit}" if high is not None else f"{number(low or 0.0)} {unit} and more"
    else:
        # An upper edge that stays open is a number with words in the note.
        more = "more than " if f"more than {number(high)}" in one.note else ""
        edge = f"{number(low)} to {more}{number(high)} {unit}"
    return edge if mid is None else f"{edge}, middle {number(mid)} {unit}"


def _note(one: Published) -> str:
    """What the source says beside the figure; nothing where it only says the figure again."""
    return "" if one.note == f"From {_range(one)}." else one.note
