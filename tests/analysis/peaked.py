"""Logs around test days, and everything that is read from them."""

import datetime as dt

import pandas as pd

from reportgen.analysis import bests, frames, goals
from reportgen.analysis import peaks as reading
from reportgen.analysis.peaks import Peaks
from reportgen.model.lifter import Lifter
from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.model.records import Records
from reportgen.trade import load
from tests.analysis.logs import WOMAN, records, row

Row = dict[str, object]


def peaks(
    *rows: Row,
    lifter: Lifter = WOMAN,
    as_of: str = "",
    span: tuple[dt.date, dt.date] | None = None,
    **more: object,
) -> Peaks:
    """Everything about peaks of these rows."""
    return of(records(*rows, lifter=lifter, as_of=as_of, **more), span)


def of(given: Records, span: tuple[dt.date, dt.date] | None = None) -> Peaks:
    """Everything about peaks of these records."""
    trade, lifter = load(), given.lifter
    as_of = pd.Timestamp(given.as_of).as_unit("s")
    sets = frames.prepare(given.sets, as_of=as_of, bests=lifter.bests, trade=trade)
    scored = bests.scoring(sets, lifter.bests, as_of)
    now = bests.current(scored, sets, first=bests.since(as_of, lifter.weeks_current), trade=trade)
    goal = goals.stand(lifter.goals, now, goals.body_mass(given.bodymass, as_of), trade)[0]
    days = frames.by_day(sets, goals.lifts_of(goal))
    return reading.read(given, sets, days, scored, (goal,), trade, span=span)


def weekly(start: dt.date, loads_kg: list[float], weekdays: tuple[int, ...]) -> list[Row]:
    """Back squats that add up to so many kilograms a week, spread over these weekdays (0 = Monday)."""
    each_day = [0.0] * (7 * len(loads_kg))
    for week, kg in enumerate(loads_kg):
        for day in weekdays:
            each_day[7 * week + day] = kg / len(weekdays)
    return daily(start, each_day)


def daily(start: dt.date, loads_kg: list[float]) -> list[Row]:
    """One row of back squats a day, so many kilograms in all; 0 = no session."""
    return [
        row((start + dt.timedelta(day)).isoformat(), "back squat", kg / 50, sets=10, reps=5)
        for day, kg in enumerate(loads_kg)
        if kg > 0
    ]


def last(found: Peaks) -> TestDayFact:
    """The last test day."""
    assert found.test_days
    return found.test_days[-1]


def taper(found: Peaks) -> TaperFact:
    """The taper before the last test day."""
    fact = last(found).taper
    assert fact is not None
    return fact
