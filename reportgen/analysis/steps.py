"""Weeks in which every lift at once stands over all that was logged before: another bar, unit or lifter.

A week of tests is heavier at its top and begins as light as ever; loads that are all typed too heavy are so
from the first row of a session to the last.
"""

from collections.abc import Iterator

import numpy as np

from reportgen.analysis import support
from reportgen.analysis.support import Log, Mask, Rows
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Where the loads stand at another level from one day on."""

    day: int  # days since 1970
    share: float  # how far over what was logged before, at the middle lift


def read(records: Records, log: Log, trade: Trade) -> Iterator[Step]:
    """The days of the current weeks from which all lifts are too heavy to be progress."""
    least, begun = trade.value("level_step"), log.as_of - 7 * records.lifter.weeks_current
    firsts = [rows.day[0] for rows in log.lifts.values() if len(rows.day)]
    begun = max(begun, int(min(firsts, default=0)) + int(trade.value("level_before_days")))
    begins: set[int] = set()
    for rows in log.lifts.values():
        days = support.days(rows)
        before = np.concatenate([[np.inf], np.maximum.accumulate(days.bears)[:-1]])
        begins |= {*days.day[(days.bears > before * least) & (days.day >= begun)].tolist()}
    for day in sorted(begins):
        for span in (7, int(trade.value("level_before_days"))):
            found = [_share(rows, day, span, trade) for rows in log.lifts.values()]
            shares = [one for one in found if one is not None]
            middle = float(np.median(shares)) if shares else 0.0
            enough = len(shares) >= trade.value("level_lifts")
            if enough and middle >= least and min(shares) >= trade.value("level_step_each"):
                yield Step(day=int(day), share=middle - 1)
                break


def _share(rows: Rows, day: int, span: int, trade: Trade) -> float | None:
    """How far a week stands over all before it, at its top and its lightest; None where nothing tells."""
    did = rows.bears > 0
    before = did & (rows.day < day)
    week = did & (rows.day >= day) & (rows.day < day + span)
    if not week.any() or len(np.unique(rows.day[before])) < trade.value("level_days"):
        return None
    top = float(rows.bears[week].max() / rows.bears[before].max())
    late = before & (rows.day > rows.day[before].max() - trade.value("level_before_days"))
    return min(top, _lightest(rows, week) / _lightest(rows, late))


def _lightest(rows: Rows, these: Mask) -> float:
    """The middle one of the lightest loads of the days [kg]."""
    first = np.flatnonzero(np.diff(rows.day[these], prepend=-1))
    return float(np.median(np.minimum.reduceat(rows.kg[these], first)))
