"""Test days, tapers, heavy days close together and the seasons, asked in one go."""

import datetime as dt

import pandas as pd

from reportgen.analysis import chases, daily, form, season, tapers, testdays
from reportgen.analysis.goals import lifts_of
from reportgen.model.facts import GoalFact
from reportgen.model.peaks import ChaseFact, TestDayFact
from reportgen.model.records import Records
from reportgen.model.season import SeasonFact
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Peaks:
    """Facts of the same names, and the table of the figure that aligns tapers on the test day."""

    test_days: tuple[TestDayFact, ...] | None
    chases: tuple[ChaseFact, ...] | None
    season: tuple[SeasonFact, ...] | None
    aligned: pd.DataFrame


def read(
    records: Records,
    sets: pd.DataFrame,
    days: pd.DataFrame,
    scored: pd.DataFrame,
    stand: tuple[GoalFact, ...],
    trade: Trade,
    *,
    span: tuple[dt.date, dt.date] | None = None,
) -> Peaks:
    """Ask everything about peaks of one lifter; `span` is the season asked for, None each calendar year.

    Test days and tapers are those of the first goal; heavy days lie close together in any goal's lifts.
    """
    lifts = lifts_of(stand[0])
    every = tuple(dict.fromkeys(lift for goal in stand for lift in lifts_of(goal)))
    each_day = daily.spread(days, sets, records.away, records.plan, lifts, trade)
    tests = testdays.find(sets, scored, lifts=lifts, weeks_current=records.lifter.weeks_current, trade=trade)
    if tests is not None:
        tests = form.attach(tapers.attach(tests, each_day, scored, trade), sets, trade)
    given = season.Given(sets=sets, records=records, tests=tests, lifts=lifts)
    return Peaks(
        test_days=tests,
        chases=chases.find(sets, scored, each_day, lifts=every, counted=lifts, trade=trade),
        season=season.sum_up(given, trade, span),
        aligned=tapers.aligned(tests or (), each_day, trade),
    )
