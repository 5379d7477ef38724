"""How many sets of each line fit into a volume."""

import datetime as dt
from collections import defaultdict

from reportgen.analysis.block.lines import Line, prilepin
from reportgen.analysis.block.rhythm import Volume
from reportgen.trade.schema import Trade

Filled = list[tuple[Line, int]]
_HAIR = 1e-9


def volume(filled: Filled) -> Volume:
    """Repetitions and tonnage of lines with their sets."""
    return Volume(
        repetitions=sum(line.repetitions * sets for line, sets in filled),
        tonnage_kg=sum(line.tonnage_kg * sets for line, sets in filled),
    )


#: Some lifts and what they may come to together.
Held = tuple[frozenset[str], Volume]


def fill(lines: list[Line], limit: Volume, trade: Trade, held: tuple[Held, ...] = ()) -> Filled | None:
    """Give lines their sets: first what the sessions stand on, then by weight, then set by set.

    Args:
        lines: Lines of one week, or of the days of a taper.
        limit: What they may come to at most.
        trade: Zones.
        held: Lifts on their way back after pain, which hold less than the rest.

    Returns:
        Lines with at least one set, in the order given; None where not even the needed ones fit.
    """
    counts = dict.fromkeys(range(len(lines)), 0)
    for index, line in enumerate(lines):
        if line.needed:
            counts[index] = 1
    if not _fits(lines, counts, limit, held):
        return None
    order = sorted(range(len(lines)), key=lambda index: (lines[index].weight, lines[index].day))
    for index in order:
        # Where what a squat is done with now does not fit, as much of it as does.
        most = max(0, lines[index].least - counts[index])
        fewer = range(most - 1, 1, -1) if lines[index].role == "squat" else ()
        any(_add(lines, counts, index, sets, limit, trade, held) for sets in (most, *fewer))
    growing = [index for index in order if counts[index]]
    while growing:
        growing = [
            index
            for index in growing
            if counts[index] < lines[index].most and _add(lines, counts, index, 1, limit, trade, held)
        ]
    return [(line, counts[index]) for index, line in enumerate(lines) if counts[index]]


def _add(
    lines: list[Line],
    counts: dict[int, int],
    index: int,
    sets: int,
    limit: Volume,
    trade: Trade,
    held: tuple[Held, ...],
) -> bool:
    """Add sets to a line where the volume and the session's upper bound allow it."""
    if not sets:
        return False
    counts[index] += sets
    day: dt.date = lines[index].day
    session = [(line, counts[n]) for n, line in enumerate(lines) if line.day == day and counts[n]]
    whole = trade.value("prilepin_load_max")
    if _fits(lines, counts, limit, held) and prilepin(session, trade) <= whole + _HAIR:
        return True
    counts[index] -= sets
    return False


def _fits(lines: list[Line], counts: dict[int, int], limit: Volume, held: tuple[Held, ...]) -> bool:
    every = [(line, counts[index]) for index, line in enumerate(lines)]
    if not volume(every).within(limit):
        return False
    return all(volume([(o, n) for o, n in every if lifts & {*o.parts}]).within(most) for lifts, most in held)


def by_day(filled: Filled) -> dict[dt.date, Filled]:
    """The lines of each day."""
    days: dict[dt.date, Filled] = defaultdict(list)
    for line, sets in filled:
        days[line.day].append((line, sets))
    return dict(days)
