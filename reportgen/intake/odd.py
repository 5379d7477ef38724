"""Rows that are odd but possible, and the review day that rows set."""

import datetime as dt
from collections.abc import Iterable, Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.intake.bounds import MOST_ODD
from reportgen.intake.kinds import LOADS
from reportgen.intake.messages import LONGEST_FOUND, Fault, expect
from reportgen.intake.sheet import Codes, Column
from reportgen.intake.tables import Reading
from reportgen.intake.twice import Marks, row_marks
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade import load
from reportgen.trade.claims import claims, finding_near


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewDay:
    """The day that the rows set; days after `before` lie too far beyond the others, None without."""

    day: dt.date | None
    before: dt.date | None = None


def review_day(readings: Iterable[Reading]) -> ReviewDay:
    """The newest day of the used rows that goes with the others.

    One newest day too far after the one before it doesn't set the review day, nor do a few a year beyond the
    rest, nor days that go on where the others end but for the year, nor a part of the log years beyond it:
    these are slips in a year. Who is back after a long break soon has more days, or another gap.
    """
    days = _every([one.table["date"].to_numpy() for one in readings])
    if not len(days):
        return ReviewDay(day=None)
    gaps = np.diff(days.astype("datetime64[D]").astype(np.int64)).astype(np.float64)
    behind = len(days) - 1 - np.arange(len(gaps))  # so many days lie after each gap
    rule = load().value
    far = (gaps > rule("odd_newest_days")) & (behind == 1)
    few = behind <= np.minimum(rule("odd_year_few"), rule("odd_years_share") * len(days))
    on = (gaps + rule("odd_year_near")) % 365.25 <= 2 * rule(
        "odd_year_near"
    )  # with another year it would simply go on
    far |= (gaps > rule("odd_year_days")) & (few | (on & (behind <= rule("odd_years_share") * len(days))))
    far |= (gaps > rule("odd_years_days")) & (behind <= rule("odd_years_share") * len(days))
    if not far.any():
        return ReviewDay(day=_day(days[-1]))
    before = _day(days[int(np.argmax(far))])
    return ReviewDay(day=before, before=before)


def _every(days: Sequence[NDArray[np.datetime64]]) -> NDArray[np.datetime64]:
    """Each day once, in order."""
    return np.unique(np.concatenate([np.zeros(0, dtype="datetime64[s]"), *days]))


def _day(moment: np.datetime64) -> dt.date:
    day: dt.date = moment.astype("datetime64[D]").item()
    return day


def mark_days(reading: Reading, as_of: dt.date, review: ReviewDay | None) -> None:
    """Report used rows after the review day; those too far beyond the others with their own reason."""
    days = reading.table["date"].to_numpy()
    column = reading.sheet.column("date")
    late = days > np.datetime64(as_of, "s")
    lone = np.zeros(len(days), dtype=np.bool_)
    if review is not None and review.before is not None:
        lone = late
        for day in np.unique(days[lone]):
            rows = np.unique(reading.rows[days == day])
            apart = (_day(day) - review.before).days
            said = say("intake.alone", n=apart, day=review.before.isoformat())
            reading.sheet.odd(rows, column, Fault(expect("near_day"), said=said))
    rows = np.unique(reading.rows[late & ~lone])
    today = as_of.isoformat()
    fault = Fault(expect("by_then", day=today), said=say("intake.ahead", day=today))
    reading.sheet.odd(rows, column, fault)


def mark_first(readings: Sequence[Reading]) -> None:
    """Report rows of a first day that lies far before the next one: a slip in a year makes empty weeks."""
    days = [reading.table["date"].to_numpy() for reading in readings]
    every = _every(days)
    apart = (_day(every[1]) - _day(every[0])).days if len(every) > 2 else 0
    if apart <= load().value("odd_oldest_days"):
        return
    fault = Fault(expect("near_first"), said=say("intake.early", n=apart, day=_day(every[1]).isoformat()))
    for reading, mine in zip(readings, days, strict=True):
        rows, column = np.unique(reading.rows[mine == every[0]]), reading.sheet.column("date")
        reading.sheet.odd(rows, column, fault)


def mark_no_misses(readings: Sequence[Reading]) -> None:
    """Ask about a long log without one miss, and about many more coloured cells than it has misses.

    Nobody reads a colour.
    """
    some = [one for one in readings if len(one.table)]
    tables = [one.table for one in some]
    missed = sum(int((table["made"] < table["reps"]).sum()) for table in tables)
    count = sum(len(one.sheet.coloured) for one in some)
    if not some or (missed and count <= load().value("odd_coloured_times") * missed):
        return
    coloured = [(one.sheet, min(one.sheet.coloured)) for one in some if one.sheet.coloured]
    if coloured:
        sheet, (line, number) = coloured[0]
        said, place = say("intake.coloured", n=count), Column(number=number)
        sheet.report(said, line=line, column=place, level="odd", want=expect("a_miss"))
        return
    days = np.concatenate([table["date"].to_numpy() for table in tables])
    span = (_day(days.max()) - _day(days.min())).days
    rule = load().value
    if sum(map(len, tables)) < rule("odd_no_miss_rows") or span < rule("odd_no_miss_days"):
        return
    sheet = some[0].sheet
    sheet.report(
        say("intake.no_misses", n=span), line=int(sheet.lines[0]), level="odd", want=expect("a_miss")
    )


def mark_comments(readings: Sequence[Reading]) -> None:
    """Tell that cells of a log have comments: nobody reads them, and one may say that its set was missed."""
    some = [(one.sheet, min(one.sheet.commented)) for one in readings if one.sheet.commented]
    count = sum(len(one.sheet.commented) for one in readings)
    if some:
        sheet, (line, number) = some[0]
        said, place = say("intake.commented", n=count), Column(number=number)
        sheet.report(said, line=line, column=place, level="odd", want=expect("a_miss"))


def mark_findings(reading: Reading) -> None:
    """Report decisions about findings that are not known: a slip, or a finding of another version."""
    found = reading.table["finding"]
    rows = reading.rows[~found.isin(claims().findings).to_numpy()]
    column = reading.sheet.column("finding")
    words = [column.words[column.codes[row]][:LONGEST_FOUND] for row in rows[:MOST_ODD]]
    faults = [Fault(expect("finding"), finding_near(word), say("intake.no_finding")) for word in words]
    reading.sheet.odd(rows, column, faults)


def mark_light(readings: Iterable[Reading], bar_kg: float) -> None:
    """Report a few sets under the empty bar of a lift that is done with far more: a figure may be missing."""
    few, share = load().value("odd_light_few"), load().value("odd_light_share")
    for reading in readings:
        table = reading.table
        usual = table.groupby("lift", sort=False)["load_kg"].transform("median")
        light = (table["load_kg"] < np.minimum(bar_kg, share * usual)) & (table["lift"] != "other")
        column = next((reading.sheet.columns[one] for one in LOADS if one in reading.sheet.columns), None)
        for _, rows in table[light].groupby("lift", sort=False):
            if len(rows) <= few and column is not None:
                said = say("intake.light", usual=say("intake.kilos", kg=f"{usual[rows.index[0]]:g}"))
                reading.sheet.odd(
                    np.unique(reading.rows[rows.index]), column, Fault(expect("over_bar"), said=said)
                )


def mark_same(reading: Reading) -> None:
    """Report the second of two rows that say the same, and any further one.

    Of sets that is told only where a block of them stands twice, or a day again further down: the same load,
    lift and repetitions once more is an ordinary set.
    """
    columns = [name for name in reading.table.columns if name not in ("file", "line")]
    if (
        not len(reading.table) or "?nth" in reading.sheet.columns
    ):  # a row a set: sets done alike are rows alike
        return
    rows, marks = row_marks(reading, columns)
    several = pd.Series(marks).duplicated(keep=False).to_numpy()
    if not several.any():
        return
    found = pd.DataFrame({"row": rows[several], "mark": marks[several]}).sort_values("row")
    lines = reading.sheet.lines
    first = found.groupby("mark")["row"].transform("first").to_numpy()
    again = found.duplicated("mark").to_numpy()
    if reading.sheet.entries is not None:
        again = again & (lines[first] != lines[found["row"]])
    hit, firsts = found["row"].to_numpy()[again], first[again]
    if "part" in reading.table and not (reading.table["attempt"] > 0).any():
        block = _in_blocks(rows, marks, hit, firsts) | _apart(reading, hit, firsts)
        hit, firsts = hit[block], firsts[block]
    faults = [Fault(expect("once"), said=say("intake.same", other=int(line))) for line in lines[firsts]]
    reading.sheet.odd(hit, None, faults)


def _in_blocks(rows: Codes, marks: Marks, hit: Codes, firsts: Codes) -> NDArray[np.bool_]:
    """Which rows that stand above already belong to so many different ones in a run that does."""
    run = np.cumsum(np.concatenate(([0], (np.diff(hit) != 1) | (np.diff(firsts) != 1)))) if len(hit) else hit
    mine = pd.Series(marks[np.searchsorted(rows, hit)])
    return (mine.groupby(run).transform("nunique") >= load().value("odd_same_block")).to_numpy(dtype=np.bool_)


def _apart(reading: Reading, hit: Codes, firsts: Codes) -> NDArray[np.bool_]:
    """Which rows stand below rows of another day than their own and the one above."""
    day = reading.table["date"].to_numpy()
    turns = np.cumsum(np.concatenate(([0], day[1:] != day[:-1])))
    at, above = (turns[np.searchsorted(reading.rows, some)] for some in (hit, firsts))
    return np.asarray(at != above, dtype=np.bool_)
