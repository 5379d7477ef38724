"""The trend: the ability's path over half a year, a date only as a range, bar and body apart."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.facts import Facts
from reportgen.model.lifter import Goal, Lifter
from reportgen.model.peaks import TrendFact
from reportgen.words.phrases import said
from tests.analysis.logs import WOMAN, bodymass, facts, row

FIRST = dt.date(2026, 1, 5)
Row = dict[str, object]


def heavy(*tops: float) -> list[Row]:
    """Two heavy days a week: singles up to a top, and a miss over it."""
    log = []
    for week, top in enumerate(tops):
        for weekday in (0, 3):
            day = (FIRST + dt.timedelta(days=7 * week + weekday)).isoformat()
            log += [row(day, "snatch", top * share) for share in (0.85, 0.9, 0.95, 1.0)]
            log.append(row(day, "snatch", top * 1.04, made=0))
    return log


def level(weeks: int = 30, top: float = 58.0) -> list[Row]:
    return heavy(*[top] * weeks)


def rising(weeks: int = 30, top: float = 50.0, by: float = 0.3) -> list[Row]:
    return heavy(*[top + by * week for week in range(weeks)])


def told(*rows: Row, lifter: Lifter = WOMAN, **more: object) -> Facts:
    return facts(*rows, lifter=lifter, as_of="", **more)


def trend(*rows: Row, lifter: Lifter = WOMAN, **more: object) -> TrendFact | None:
    return told(*rows, lifter=lifter, **more).trend


def test_a_steady_rise_has_its_slope_and_a_range_of_arrival() -> None:
    made = told(*rising())
    fact, arrived = made.trend, made.arrival
    assert fact is not None
    assert arrived is not None
    assert (fact.weeks, fact.months) == (26, 6)
    assert fact.low > 0
    assert fact.kg_per_month == pytest.approx(0.3 * 30.4375 / 7, abs=0.4)
    assert fact.low < fact.kg_per_month < fact.high
    assert (fact.reach_early, fact.reach_date, fact.reach_late) == (
        arrived.early,
        arrived.middle,
        arrived.late,
    )
    assert arrived.early is not None
    assert arrived.middle is not None
    assert made.as_of < arrived.early <= arrived.middle


def test_a_standstill_lies_inside_the_range_and_far_goals_have_no_date() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", kg=90.0),))
    fact = trend(*level(), lifter=lifter)
    assert fact is not None
    assert fact.low < 0 < fact.high
    assert (fact.reach_early, fact.reach_date, fact.reach_late) == (None, None, None)
    assert "not within 2 years" in said(fact.reason)


def test_a_gain_inside_the_scatter_of_one_lifter_is_named_as_such() -> None:
    # C: senior internationals vary by 4.0 % in the snatch from contest to contest.
    small, large = trend(*level()), trend(*rising())
    assert small is not None
    assert large is not None
    assert small.noise is True
    assert large.noise is False
    assert small.noise_share == pytest.approx(0.04)


def test_fewer_than_twelve_weeks_have_no_trend() -> None:
    assert trend(*level(11)) is None
    assert trend(*level(14)) is not None
    assert trend(row("2026-01-02", "back squat", 90)) is None


def test_bar_and_body_are_told_apart_for_a_goal_in_times_body_mass() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    dates = [FIRST + dt.timedelta(30 * n) for n in range(7)]
    weighed = bodymass(*((day.isoformat(), 70.0 - n) for n, day in enumerate(dates)))
    lighter, without = (
        told(*level(), lifter=lifter, bodymass=weighed),
        told(*level(), lifter=lifter, bodymass=weighed.iloc[-1:]),
    )
    assert lighter.trend is not None
    assert lighter.trend.body_kg_per_month == pytest.approx(-30.4375 / 30)
    assert lighter.trend.bar_kg_per_month == lighter.trend.kg_per_month
    # The body comes down toward the bar: that is told, and no day of the goal rests on it.
    assert lighter.arrival is not None
    assert without.arrival is not None
    assert lighter.arrival.middle is not None
    assert without.arrival.middle is not None
    assert lighter.arrival.middle >= without.arrival.middle - dt.timedelta(days=60)
    assert without.trend is not None
    assert without.trend.body_kg_per_month is None


def test_without_weighings_a_body_mass_goal_has_no_date() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    made = told(*level(), lifter=lifter)
    assert made.trend is not None
    assert made.trend.reach_date is None
    assert made.arrival is None
    assert "not known" in said(made.trend.reason)


def test_a_reached_goal_has_no_date() -> None:
    made = told(*level(top=66))
    assert made.trend is not None
    assert made.trend.reach_date is None
    assert made.arrival is None
    assert "reached" in said(made.trend.reason)


def test_a_total_has_no_trend_and_an_arrival_where_both_lifts_have_an_ability() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="total", kg=133.0),))
    jerks = [
        one | {"lift": "clean and jerk", "load_kg": 1.25 * float(str(one["load_kg"]))} for one in level()
    ]
    both, one = told(*level(), *jerks, lifter=lifter), told(*level(), lifter=lifter)
    assert both.trend is None
    assert both.arrival is not None
    assert both.arrival.early is not None
    assert one.arrival is None


def test_the_chance_of_the_goals_day_is_told_with_what_it_asks_a_month() -> None:
    by = dt.date(2026, 12, 5)
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", kg=61.0, by=by),))
    arrived = told(*level(), lifter=lifter).arrival
    assert arrived is not None
    assert arrived.chance is not None
    assert 0 < arrived.chance < 1
    months = (by - (FIRST + dt.timedelta(days=7 * 29 + 3))).days / 30.4375
    assert arrived.asked_kg_per_month == pytest.approx(3.0 / months)
