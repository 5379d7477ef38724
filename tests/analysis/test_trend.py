"""The trend: which months qualify, a date only as a range, bar and body apart."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.lifter import Goal, PriorBest
from reportgen.model.peaks import TrendFact
from tests.analysis.logs import WOMAN, bodymass, row
from tests.analysis.peaked import Row, peaks

FIRST = dt.date(2026, 1, 15)
KNOWN = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=60.0, date=dt.date(2025, 12, 1)),))


def singles(*loads_kg: float, every: int = 30, **more: object) -> list[Row]:
    return [
        row((FIRST + dt.timedelta(every * number)).isoformat(), "snatch", kg, **more)
        for number, kg in enumerate(loads_kg)
    ]


def trend(*rows: Row, lifter: object = KNOWN, **more: object) -> TrendFact | None:
    return peaks(*rows, lifter=lifter, **more).trend  # type: ignore[arg-type]


def test_a_steady_rise_has_its_slope_and_a_range_of_arrival() -> None:
    fact = trend(*singles(58, 59, 60, 60, 61, 62))
    assert fact is not None
    assert fact.months == 6
    assert fact.low > 0
    assert fact.low <= fact.kg_per_month <= fact.high
    assert fact.reach_early is not None
    assert fact.reach_date is not None
    assert fact.reach_late is not None
    as_of = FIRST + dt.timedelta(days=150)
    assert as_of < fact.reach_early <= fact.reach_date <= fact.reach_late
    # 64 is the goal, 62 the present lift: 2 kg at the lower slope.
    assert (fact.reach_late - as_of).days == round(2 / (fact.low / 30.4375))


def test_a_slope_that_may_be_none_gives_no_date() -> None:
    fact = trend(*singles(60, 58, 61, 57, 60, 59))
    assert fact is not None
    assert fact.low <= 0
    assert (fact.reach_early, fact.reach_date, fact.reach_late) == (None, None, None)
    assert "standstill" in fact.reason


def test_a_gain_inside_the_scatter_of_one_lifter_is_named_as_such() -> None:
    # C: senior internationals vary by 4.0 % in the snatch from contest to contest.
    small, large = trend(*singles(59, 59.5, 60, 60, 60.5)), trend(*singles(56, 58, 60, 62, 64))
    assert small is not None
    assert large is not None
    assert small.noise is True
    assert large.noise is False
    assert large.change_share == pytest.approx(8 / 60)
    assert small.noise_share == pytest.approx(0.04)


def test_months_without_a_heavy_single_measure_the_phase_and_do_not_count() -> None:
    # 50 is 83 % of 60: under 92 %.
    fact = trend(*singles(58, 59, 50, 60, 50, 60))
    assert fact is not None
    assert fact.months == 4
    assert trend(*singles(58, 50, 59, 50, 60, 50)) is None


def test_doubles_misses_and_straps_are_no_singles() -> None:
    good = singles(58, 59, 60)
    at = (FIRST + dt.timedelta(days=95)).isoformat()
    for bad in (
        row(at, "snatch", 62, reps=2),
        row(at, "snatch", 62, made=0),
        row(at, "snatch", 62, aid="straps"),
        row(at, "snatch", 62, variant="pause"),
    ):
        assert trend(*good, bad) is None
    assert trend(*good, row(at, "snatch", 61)) is not None


@pytest.mark.parametrize("number", [0, 1, 2, 3])
def test_fewer_than_four_months_have_no_trend(number: int) -> None:
    assert trend(*singles(*[60.0] * number), row("2026-01-02", "back squat", 90)) is None


def test_older_months_than_a_year_say_nothing() -> None:
    fact = trend(*singles(*[58.0] * 18))
    assert fact is not None
    assert fact.months == 13
    assert fact.first == dt.date(2026, 6, 14)
    assert fact.last == dt.date(2027, 6, 9)


def test_bar_and_body_are_told_apart_for_a_goal_in_times_body_mass() -> None:
    lifter = replace(KNOWN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    dates = [FIRST + dt.timedelta(30 * n) for n in range(6)]
    weighed = bodymass(*((day.isoformat(), 70.0 - n) for n, day in enumerate(dates)))
    fact = trend(*singles(60, 60, 60, 60, 60, 60), lifter=lifter, bodymass=weighed)
    assert fact is not None
    assert fact.bar_kg_per_month == 0.0
    assert fact.body_kg_per_month == pytest.approx(-30.4375 / 30)
    # The bar stands still, the body comes down: 5 kg of distance at 1 kg in 30 days.
    assert fact.reach_date == dates[-1] + dt.timedelta(days=150)


def test_without_weighings_a_body_mass_goal_has_no_date() -> None:
    lifter = replace(KNOWN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    fact = trend(*singles(58, 59, 60, 61, 62), lifter=lifter)
    assert fact is not None
    assert fact.reach_date is None
    assert "weighed" in fact.reason


def test_a_reached_goal_has_no_date() -> None:
    fact = trend(*singles(58, 60, 62, 64, 66))
    assert fact is not None
    assert fact.reach_date is None
    assert "reached" in fact.reason


def test_further_than_two_years_is_null() -> None:
    lifter = replace(KNOWN, goals=(Goal(lift="snatch", kg=90.0),))
    fact = trend(*singles(60, 60.2, 60.4, 60.6, 60.8, 61), lifter=lifter)
    assert fact is not None
    assert fact.low > 0
    assert (fact.reach_early, fact.reach_date, fact.reach_late) == (None, None, None)


def test_a_total_has_no_trend() -> None:
    lifter = replace(KNOWN, goals=(Goal(lift="total", kg=140.0),))
    assert trend(*singles(58, 59, 60, 61, 62), lifter=lifter) is None
