"""Test days: given or found, and what each gave."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.analysis.testdays import scatter_of
from reportgen.model.lifter import Goal, PriorBest
from reportgen.trade import load
from reportgen.words.phrases import said
from tests.analysis.logs import WOMAN, attempt, row
from tests.analysis.peaked import Row, last, peaks
from tests.searches import examples

KNOWN = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=60.0, date=dt.date(2025, 12, 1)),))
FIRST = dt.date(2026, 1, 5)


def on(day: int, kg: float, **more: object) -> Row:
    return row((FIRST + dt.timedelta(day)).isoformat(), "snatch", kg, **more)


def found_on(*rows: Row, **more: object) -> list[int]:
    tests = peaks(*rows, lifter=KNOWN, **more).test_days  # type: ignore[arg-type]
    return [(fact.date - FIRST).days for fact in tests or () if fact.kind == "found"]


def test_a_given_test_day_says_what_it_gave() -> None:
    rows = [
        on(0, 55),
        attempt("2026-03-07", "snatch", 58, True, event="Spring cup"),
        attempt("2026-03-07", "snatch", 62, False, attempt=2, event="Spring cup"),
        attempt("2026-03-07", "snatch", 62, True, attempt=3, event="Spring cup"),
    ]
    fact = last(peaks(*rows, lifter=KNOWN))
    assert (fact.date, fact.kind, fact.event, fact.lift) == (
        dt.date(2026, 3, 7),
        "contest",
        "Spring cup",
        "snatch",
    )
    assert (fact.best_kg, fact.previous_best_kg, fact.gain_kg) == (62.0, 60.0, 2.0)
    assert fact.gain_share == pytest.approx(2 / 60)
    assert (fact.tried, fact.made) == (3, 2)
    # C: the snatch of one lifter varies by 4.0 % from contest to contest.
    assert fact.noise is True


def test_contest_and_training_bests_are_told_apart() -> None:
    rows = [
        attempt("2026-01-10", "snatch", 57, True),
        on(20, 61),
        attempt("2026-03-07", "snatch", 62, True),
    ]
    fact = last(peaks(*rows, lifter=KNOWN))
    assert (fact.previous_contest_kg, fact.previous_training_kg) == (57.0, 61.0)


def test_a_test_in_week_two_is_no_gain_over_working_loads() -> None:
    rows = [row(f"2026-03-{day:02d}", "snatch", 75, reps=2) for day in (2, 4, 6, 9)]
    young = last(peaks(*rows, attempt("2026-03-14", "snatch", 101, True)))
    assert (young.previous_best_kg, young.gain_kg) == (75.0, 26.0)
    assert (said(young.gain_missing), young.noise) == ("not enough log before", None)
    older = last(peaks(row("2026-02-13", "snatch", 60), *rows, attempt("2026-03-14", "snatch", 101, True)))
    assert (older.gain_missing, older.noise) == ("", False)
    known = last(peaks(*rows, attempt("2026-03-14", "snatch", 101, True), lifter=KNOWN))
    assert known.gain_missing == ""


def test_three_misses_have_no_best_and_no_gain() -> None:
    rows = [attempt("2026-03-07", "snatch", 58, False, attempt=n) for n in (1, 2, 3)]
    fact = last(peaks(*rows, lifter=KNOWN))
    assert (fact.best_kg, fact.gain_kg, fact.gain_share, fact.noise) == (None, None, None, None)
    assert (fact.tried, fact.made) == (3, 0)


def test_a_declined_attempt_was_not_tried() -> None:
    rows = [
        attempt("2026-03-07", "snatch", 58, True),
        attempt("2026-03-07", "snatch", 60, False, attempt=2, declined=1),
    ]
    assert last(peaks(*rows, lifter=KNOWN)).tried == 1


def test_both_lifts_of_a_contest_are_test_days() -> None:
    rows = [attempt("2026-03-07", "snatch", 58, True), attempt("2026-03-07", "clean and jerk", 75, True)]
    tests = peaks(*rows, lifter=KNOWN).test_days
    assert tests is not None
    assert [fact.lift for fact in tests] == ["snatch", "clean and jerk"]


def test_a_limit_that_was_looked_for_is_a_found_test_day_by_a_new_best_or_a_miss_near_the_old_one() -> None:
    assert found_on(on(0, 50), on(40, 61)) == [40]
    assert found_on(on(0, 50), on(40, 60, made=0)) == [40]
    # 97 % of 60 kg is 58.2.
    assert found_on(on(0, 50), on(40, 58.5, made=0)) == [40]
    assert found_on(on(0, 50), on(40, 58, made=0)) == []


def test_easy_makes_up_to_the_best_are_a_training_day() -> None:
    assert found_on(on(0, 50), on(40, 58.5), on(40, 59), on(40, 60)) == []
    assert found_on(on(0, 50), on(40, 59), on(40, 61, made=0)) == [40]


def test_ten_days_apart_are_two_test_days_and_nine_are_one_and_a_heavy_day() -> None:
    assert found_on(on(0, 50), on(40, 61), on(50, 62)) == [40, 50]
    assert found_on(on(0, 50), on(40, 61), on(49, 62)) == [40]


def test_tries_every_week_are_heavy_days_after_the_first() -> None:
    assert found_on(on(0, 50), *[on(40 + 7 * n, 61 + n) for n in range(8)]) == [40]


def test_the_days_around_a_given_test_day_belong_to_it() -> None:
    given_day = attempt((FIRST + dt.timedelta(40)).isoformat(), "snatch", 61, True, kind="test")
    assert found_on(on(0, 50), on(35, 60.5), given_day, on(46, 62)) == []


def test_working_sets_of_several_are_no_test() -> None:
    assert found_on(*[on(7 * n, 60, reps=3, sets=3) for n in range(10)]) == []


def test_straps_and_variants_are_no_test() -> None:
    assert found_on(on(0, 50), on(40, 62, aid="straps"), on(60, 62, variant="no feet")) == []


def test_the_tries_of_a_found_day_are_its_singles_at_90_per_cent_and_over() -> None:
    fact = last(
        peaks(on(0, 50), on(40, 50, sets=3), on(40, 55), on(40, 60), on(40, 62, made=0), lifter=KNOWN)
    )
    assert (fact.tried, fact.made, fact.best_kg, fact.gain_kg) == (3, 2, 60.0, 0.0)


def test_a_best_from_before_a_young_log_is_not_forgotten() -> None:
    # 55 is the most that the log holds, and 92 % of what is known.
    assert found_on(on(0, 50), on(35, 55)) == []


def test_after_the_current_weeks_an_old_best_no_longer_holds() -> None:
    light = [on(7 * n, 50, reps=2) for n in range(20)]
    assert found_on(*light, on(140, 52)) == [140]


def test_without_a_known_reference_and_without_attempts_test_days_are_unknown() -> None:
    assert peaks(*[on(n, 50 + n) for n in range(0, 27, 3)]).test_days is None
    assert peaks(on(0, 50), on(10, 45), lifter=KNOWN).test_days == ()


def test_a_test_in_week_two_has_no_taper_and_says_why() -> None:
    fact = last(peaks(on(0, 50), on(3, 52), on(12, 61), lifter=KNOWN))
    assert (fact.kind, fact.taper, said(fact.taper_missing)) == ("found", None, "not enough log before")


def test_both_lifts_of_a_total_are_searched() -> None:
    lifter = replace(
        KNOWN,
        goals=(Goal(lift="total", kg=150.0),),
        bests=(*KNOWN.bests, PriorBest(lift="clean and jerk", kg=80.0, date=dt.date(2025, 12, 1))),
    )
    rows = [on(0, 50), on(40, 61), row((FIRST + dt.timedelta(54)).isoformat(), "clean and jerk", 81)]
    tests = peaks(*rows, lifter=lifter).test_days
    assert tests is not None
    assert [fact.lift for fact in tests] == ["snatch", "clean and jerk"]


@given(
    days=st.lists(st.tuples(st.integers(0, 200), st.integers(40, 66), st.booleans()), min_size=1, max_size=25)
)
@examples(12, 30)
def test_found_days_are_ten_days_apart_and_the_order_of_rows_changes_nothing(
    days: list[tuple[int, int, bool]],
) -> None:
    rows = [on(day, kg, made=int(made)) for day, kg, made in days]
    as_of = (FIRST + dt.timedelta(200)).isoformat()
    found = found_on(*rows, as_of=as_of)
    assert all(b - a >= 10 for a, b in pairwise(found))
    assert found == found_on(*reversed(rows), as_of=as_of)


def test_a_lift_that_is_none_of_the_two_varies_as_a_lift_does_and_not_as_a_total() -> None:
    shares = [
        scatter_of(lift, load()) for lift in ("total", "snatch", "clean and jerk", "clean", "back squat")
    ]
    published = [load().published[f"variation_{name}"].mid for name in ("total", "snatch", "clean_and_jerk")]
    assert shares == [*published, published[1], published[1]]
