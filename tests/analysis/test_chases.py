"""Heavy days close together: what is a chase, what is not, and what it costs."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.lifter import PriorBest
from tests.analysis.logs import WOMAN, attempt, row
from tests.analysis.peaked import Row, peaks, weekly

KNOWN = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=60.0, date=dt.date(2025, 12, 1)),))
FIRST = dt.date(2026, 1, 5)


def on(day: int, kg: float, **more: object) -> Row:
    return row((FIRST + dt.timedelta(day)).isoformat(), "snatch", kg, **more)


def chases(*rows: Row) -> list[tuple[int, int, int, int]]:
    found = peaks(*rows, lifter=KNOWN).chases
    assert found is not None
    return [
        ((fact.start - FIRST).days, (fact.end - FIRST).days, fact.heavy_days, fact.missed_days)
        for fact in found
    ]


def test_three_heavy_days_in_three_weeks_without_a_gain_are_a_chase() -> None:
    # 58.2 is 97 % of 60.
    assert chases(on(40, 58.2), on(50, 59), on(61, 60)) == [(40, 61, 3, 0)]


def test_two_heavy_days_or_three_further_apart_are_none() -> None:
    assert chases(on(40, 59), on(50, 59)) == []
    assert chases(on(40, 59), on(50, 59), on(62, 59)) == []
    assert chases(on(40, 58), on(47, 58), on(54, 58)) == []


def test_a_gain_ends_it_unless_two_days_only_missed() -> None:
    assert chases(on(40, 59), on(45, 59), on(50, 61)) == []
    assert chases(on(40, 61, made=0), on(45, 61, made=0), on(50, 61)) == [(40, 50, 3, 2)]


def test_a_novice_who_sets_a_best_every_week_has_no_chase() -> None:
    rows = [on(7 * n, 60 + n) for n in range(20)]
    assert chases(*rows) == []
    # ... not even one who misses the next kilogram on each of these days.
    assert chases(*rows, *[on(7 * n, 61 + n, made=0) for n in range(20)]) == []


@pytest.mark.parametrize("share", [0.90, 0.93, 0.96])
def test_heavy_singles_twice_a_week_are_no_chase(share: float) -> None:
    rows = [on(7 * week + day, 60 * share, sets=3) for week in range(20) for day in (0, 3)]
    assert chases(*rows) == []


def test_working_sets_at_an_untested_best_are_no_chase() -> None:
    assert chases(*[on(3 * n, 60, reps=3, sets=4) for n in range(20)]) == []


def test_the_ten_days_before_a_contest_and_its_week_are_left_out() -> None:
    # The contest is on Saturday of the seventh week.
    contest = attempt((FIRST + dt.timedelta(47)).isoformat(), "snatch", 60, True)
    near = [on(day, 59) for day in (37, 40, 43, 45, 48)]
    assert chases(*near, contest) == []
    assert chases(*near) == [(37, 48, 5, 0)]


def test_heavy_days_before_that_count_whatever_comes_after() -> None:
    contest = attempt((FIRST + dt.timedelta(47)).isoformat(), "snatch", 60, True)
    assert chases(on(20, 59), on(27, 59), on(34, 59), on(40, 59), contest) == [(20, 34, 3, 0)]


def test_a_long_row_of_heavy_days_is_one_chase() -> None:
    rows = [on(40 + 5 * n, 61, made=0) for n in range(9)]
    assert chases(*rows) == [(40, 80, 9, 9)]


def test_two_rows_far_apart_are_two() -> None:
    rows = [on(day, 59) for day in (40, 47, 54, 120, 127, 134)]
    assert chases(*rows) == [(40, 54, 3, 0), (120, 134, 3, 0)]


def test_a_chase_says_what_it_cost_and_what_came_since() -> None:
    usual = weekly(FIRST, [9000.0] * 12 + [4000.0] * 3, (0, 2, 4))
    full = [on(7 * week + day, 50) for week in range(12) for day in (1, 3)]
    heavy = [on(84 + 7 * n, 59) for n in range(3)]
    (fact,) = peaks(*usual, *full, *heavy, on(110, 58), lifter=KNOWN).chases or ()
    assert (fact.weeks_below, fact.best_since_kg, fact.gain_kg) == (2, 58.0, 0.0)
    # Two a week before; three in the 15 days of the chase.
    assert fact.full_lost == pytest.approx(2 * 15 / 7 - 3)


def test_without_a_known_reference_nothing_is_said() -> None:
    assert peaks(*[on(3 * n, 50) for n in range(5)]).chases is None
