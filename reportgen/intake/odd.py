"""Rows that are odd but possible, and the review day that rows set."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from reportgen.intake.bounds import MOST_ODD
from reportgen.intake.kinds import LOADS
from reportgen.intake.messages import LONGEST_FOUND, Said, Want
from reportgen.intake.sheet import Column, Sheet
from reportgen.intake.tables import Reading
from reportgen.model.lifter import PriorBest
from reportgen.trade import load
from reportgen.trade.claims import claims, finding_near


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewDay:
    """The day that the rows set; `alone` is a newest day too far from the one `before` it to set it."""

    day: dt.date | None
    alone: dt.date | None = None
    before: dt.date | None = None


def review_day(readings: Iterable[Reading]) -> ReviewDay:
    """The newest day of the used rows, unless it lies too far after the one before it.

    The rule is applied once: the day before the lone one sets the review day however far it lies from others.
    """
    days = np.unique(
        np.concatenate(
            [np.zeros(0, dtype="datetime64[s]"), *(one.table["date"].to_numpy() for one in readings)]
        )
    )
    if not len(days):
        return ReviewDay(day=None)
    newest = _day(days[-1])
    if len(days) > 1:
        before = _day(days[-2])
        if (newest - before).days > load().value("odd_newest_days"):
            return ReviewDay(day=before, alone=newest, before=before)
    return ReviewDay(day=newest)


def _day(moment: np.datetime64) -> dt.date:
    day: dt.date = moment.astype("datetime64[D]").item()
    return day


def mark_days(reading: Reading, as_of: dt.date, review: ReviewDay | None) -> None:
    """Report used rows after the review day; those of a lone newest day with their own reason."""
    days = reading.table["date"].to_numpy()
    column = reading.sheet.column("date")
    late = days > np.datetime64(as_of, "s")
    lone = np.zeros(len(days), dtype=np.bool_)
    if review is not None and review.alone is not None and review.before is not None:
        lone = late & (days == np.datetime64(review.alone, "s"))
        rows = np.unique(reading.rows[lone])
        holes = {"days": (review.alone - review.before).days, "day": review.before.isoformat()}
        want = Want.NEAR_DAY.format(days=int(load().value("odd_newest_days")))
        reading.sheet.odd(Said.ALONE, rows, column, [want] * len(rows), [holes] * len(rows))
    rows = np.unique(reading.rows[late & ~lone])
    today = {"day": as_of.isoformat()}
    reading.sheet.odd(
        Said.AHEAD, rows, column, [Want.BY_THEN.format(**today)] * len(rows), [today] * len(rows)
    )


def mark_first(readings: Sequence[Reading]) -> None:
    """Report rows of a first day that lies far before the next one: a slip in a year makes empty weeks."""
    days = [reading.table["date"].to_numpy() for reading in readings]
    every = np.unique(np.concatenate([np.zeros(0, dtype="datetime64[s]"), *days]))
    most = load().value("odd_oldest_days")
    if len(every) < 3 or (_day(every[1]) - _day(every[0])).days <= most:
        return
    holes = {"days": (_day(every[1]) - _day(every[0])).days, "day": _day(every[1]).isoformat()}
    want = Want.NEAR_FIRST.format(days=int(most))
    for reading, mine in zip(readings, days, strict=True):
        rows, column = np.unique(reading.rows[mine == every[0]]), reading.sheet.column("date")
        reading.sheet.odd(Said.EARLY, rows, column, [want] * len(rows), [holes] * len(rows))


def mark_no_misses(readings: Sequence[Reading]) -> None:
    """Ask about a long log without one miss: misses may be marked by a colour, which nobody reads.

    Args:
        readings: training.csv and attempts.csv, the training first.
    """
    tables = [one.table for one in readings if len(one.table)]
    if sum(map(len, tables)) < load().value("odd_no_miss_rows") or any(
        (table["made"] < table["reps"]).any() for table in tables
    ):
        return
    days = np.concatenate([table["date"].to_numpy() for table in tables])
    span = (_day(days.max()) - _day(days.min())).days
    if span < load().value("odd_no_miss_days"):
        return
    sheet = next(one.sheet for one in readings if len(one.table))
    sheet.say(Said.NO_MISSES, line=int(sheet.lines[0]), level="odd", want=Want.A_MISS, holes={"days": span})


def mark_findings(reading: Reading) -> None:
    """Report decisions about findings that are not known: a slip, or a finding of another version."""
    found = reading.table["finding"]
    rows = reading.rows[~found.isin(claims().findings).to_numpy()]
    column = reading.sheet.column("finding")
    near = [
        {"near": finding_near(column.words[column.codes[row]][:LONGEST_FOUND])} for row in rows[:MOST_ODD]
    ]
    reading.sheet.odd(Said.NO_FINDING, rows, column, [Want.FINDING] * len(near), near)


def mark_same(reading: Reading) -> None:
    """Report the second of two rows that say the same, and any further one."""
    table = reading.table.drop(columns=["file", "line"])
    if not len(table) or "?nth" in reading.sheet.columns:  # a row a set: sets done alike are rows alike
        return
    marks = pd.util.hash_pandas_object(table, index=False).to_numpy()
    if "part" in table:
        # One mark a file row: the parts of a complex in their order.
        marks = marks * (table["part"].to_numpy().astype(np.uint64) * np.uint64(2) + np.uint64(1))
        first = np.flatnonzero(table["part"].to_numpy() == 0)
        marks = np.add.reduceat(marks, first)
        rows = reading.rows[first]
    else:
        rows = reading.rows
    order = np.argsort(rows, kind="stable")
    rows, marks = rows[order], marks[order]
    codes, _ = pd.factorize(marks)
    firsts = np.full(codes.max() + 1, len(rows), dtype=np.int64)
    np.minimum.at(firsts, codes, np.arange(len(rows)))
    again = firsts[codes] < np.arange(len(rows))
    lines = reading.sheet.lines
    same = lines[rows[firsts[codes]]] == lines[rows]
    again &= ~(same if reading.sheet.entries is not None else np.zeros(len(rows), dtype=np.bool_))
    others = [{"other": int(lines[rows[firsts[code]]])} for code in codes[again].tolist()]
    reading.sheet.odd(Said.SAME, rows[again], None, [Want.ONCE] * len(others), others)


def mark_jumps(readings: Sequence[Reading], bests: Sequence[PriorBest]) -> None:
    """Report loads far over any earlier day's load of the same lift, over all files about sets.

    Args:
        readings: training.csv and attempts.csv.
        bests: Bests from before the log count as earlier loads.
    """
    frames = [
        one.table[["date", "lift", "load_kg"]].assign(of=i, at=range(len(one.table)))
        for i, one in enumerate(readings)
    ]
    prior = pd.DataFrame(
        {
            "date": np.array([one.date for one in bests], dtype="datetime64[s]"),
            "lift": pd.Series([one.lift for one in bests], dtype="str"),
            "load_kg": np.array([one.kg for one in bests], dtype=np.float64),
        }
    )
    every = pd.concat([*frames, prior.assign(of=-1, at=-1)], ignore_index=True)
    every = every[every["lift"] != "other"]
    if every.empty:
        return
    days = every.groupby(["lift", "date"], sort=True)["load_kg"].max()
    earlier = days.groupby("lift").cummax().groupby("lift").shift()
    before = earlier.reindex(pd.MultiIndex.from_frame(every[["lift", "date"]])).to_numpy()
    share = load().value("odd_load_share")
    every["before"] = before
    # A load is compared to a millionth of a kilogram, so that 130 is not over 1.3 times 100.
    over = every[every["load_kg"].to_numpy() > before * (1 + share) + 1e-6]
    for i, reading in enumerate(readings):
        mine = over[over["of"] == i]
        rows, where = np.unique(reading.rows[mine["at"].to_numpy(dtype=np.int64)], return_index=True)
        one = mine.iloc[where[:MOST_ODD]]
        holes = [
            {
                "load": f"{round(kg, 1):g}",
                "lift": lift,
                "percent": f"{share:.0%}",
                "earlier": f"{round(was, 1):g}",
                "near": _near_load(kg, was, share, in_kg=_load_column(reading.sheet).name == "kg"),
            }
            for kg, lift, was in zip(one["load_kg"], one["lift"], one["before"], strict=True)
        ]
        wants = [Want.LIGHTER.format(most=f"{round(was * (1 + share), 1):g}") for was in one["before"]]
        reading.sheet.odd(Said.JUMP, rows, _load_column(reading.sheet), wants, holes)


def _near_load(load_kg: float, earlier_kg: float, share: float, *, in_kg: bool) -> str | None:
    """What a load that is far too high may have meant: a lost point, or pounds in a column of kilograms."""
    if not in_kg:
        return None
    tenth_kg, pounds_kg = load_kg / 10, load_kg * load().value("pound")
    if earlier_kg * (1 - share) <= tenth_kg <= earlier_kg * (1 + share):
        return f"{tenth_kg:g}"
    # Nearer to the earlier load than a point would have to be: a beginner's good day is no pounds.
    return (
        f"{load_kg:g} lb" if earlier_kg * (1 - share / 2) <= pounds_kg <= earlier_kg * (1 + share) else None
    )


def _load_column(sheet: Sheet) -> Column:
    return next((sheet.columns[name] for name in LOADS if name in sheet.columns), sheet.column("kg"))
