"""Bests, current and stale singles, doubles and triples that are not yet a single."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.facts import BestFact, Facts
from reportgen.model.lifter import PriorBest
from tests.analysis.logs import MAN, WOMAN, attempt, facts, row


def best(found: Facts, lift: str, reps: int) -> BestFact:
    return next(b for b in found.bests if (b.lift, b.reps) == (lift, reps))


def test_a_triple_is_a_best_of_one_two_and_three() -> None:
    found = facts(row("2026-01-05", "snatch", 50, reps=3))
    assert [(b.reps, b.kg) for b in found.bests] == [(1, 50), (2, 50), (3, 50)]


def test_two_made_of_three_are_a_best_of_two() -> None:
    found = facts(row("2026-01-05", "snatch", 50, reps=3, made=2, miss="behind"))
    assert [b.reps for b in found.bests] == [1, 2]


def test_the_first_day_of_equal_loads_is_the_day_of_the_best() -> None:
    found = facts(row("2026-02-05", "snatch", 50), row("2026-01-05", "snatch", 50))
    assert best(found, "snatch", 1).date == dt.date(2026, 1, 5)


def test_parts_of_a_complex_count_and_are_marked() -> None:
    pull = row("2026-01-05", "snatch pull", 55, part=0, parts=2, line=2)
    found = facts(
        pull, row("2026-01-05", "snatch", 55, part=1, parts=2, line=2), row("2026-01-06", "snatch", 50)
    )
    assert (best(found, "snatch", 1).kg, best(found, "snatch", 1).complex) == (55, True)


def test_variants_and_straps_from_the_floor_make_no_best_and_straps_are_shown_apart() -> None:
    found = facts(
        row("2026-01-05", "snatch", 50),
        row("2026-01-05", "snatch", 60, variant="no feet"),
        row("2026-01-05", "snatch", 62, aid="straps"),
    )
    assert best(found, "snatch", 1).kg == 50
    assert found.current[0].with_straps_kg == 62


def test_bests_in_contests_and_in_training_stand_apart() -> None:
    found = facts(row("2026-01-05", "snatch", 62), attempt("2026-01-07", "snatch", 60, True))
    assert {(b.where, b.kg) for b in found.bests_apart} == {("training", 62), ("contest", 60)}


def test_a_best_from_before_the_log_counts_from_its_day() -> None:
    lifter = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=61, date=dt.date(2024, 5, 18)),))
    found = facts(row("2026-01-05", "snatch", 55), lifter=lifter)
    assert (best(found, "snatch", 1).kg, best(found, "snatch", 1).file) == (61, "lifter.toml")
    assert (found.current[0].kg, found.goals[0].gap_kg) == (55, 9)


@pytest.mark.parametrize(("day", "current", "stale"), [("2026-01-05", 55, None), ("2026-01-04", None, 55)])
def test_current_means_within_weeks_current_the_edge_included(
    day: str, current: float | None, stale: float | None
) -> None:
    found = facts(row(day, "snatch", 55), as_of="2026-03-30").current[0]
    assert (found.kg, found.stale_kg) == (current, stale)


def test_a_stale_lift_leaves_the_present_and_the_gap_unknown() -> None:
    goal = facts(row("2026-01-05", "snatch", 55), as_of="2026-12-01").goals[0]
    assert (goal.goal_kg, goal.current_kg, goal.gap_kg) == (64, None, None)


def test_only_squats_and_presses_are_estimated_and_the_single_stands_beside() -> None:
    # Epley 1985 as reported (R): 100 kg for five -> 116.667 kg.
    found = {
        c.lift: c
        for c in facts(
            row("2026-01-05", "back squat", 100, reps=5), row("2026-01-05", "snatch", 50, reps=5)
        ).current
    }
    assert found["back squat"].kg == 100
    assert found["back squat"].estimated_kg == pytest.approx(116.667, abs=5e-4)
    assert found["snatch"].estimated_kg is None


@pytest.mark.parametrize(
    ("double", "gap"),
    # 0.96 of the single (practice, P): 98.4 implies 102.5, the first that is 2.5 % over 100.
    [(98.4, 2.5), (98.3, 0.0), (95.0, 0.0)],
)
def test_a_transfer_gap_is_named_only_where_even_the_upper_factor_implies_it(
    double: float, gap: float
) -> None:
    found = facts(
        row("2026-01-05", "snatch", 100), row("2026-01-06", "snatch", double, reps=2), lifter=MAN
    ).rep_maxes
    assert found is not None
    assert found[0].transfer_gap_kg == pytest.approx(gap)
    assert found[0].single_kg == 100


def days_of(*loads_kg: float) -> list[dict[str, object]]:
    """One snatch a week."""
    start = dt.date(2026, 1, 5)
    return [row((start + dt.timedelta(weeks=n)).isoformat(), "snatch", kg) for n, kg in enumerate(loads_kg)]


@pytest.mark.parametrize(
    ("loads_kg", "expected"),
    [
        ((50, 52, 54, 55, 520, 54), [520]),  # a point that was not typed, wherever it stands
        ((520, 50, 52, 54, 55, 54), [520]),
        ((50, 52, 54, 55, 56, 73), [73]),
        ((50, 52, 54, 520, 55, 510), [520]),  # two slips bear one another out no more than one
        ((50, 52, 54, 55, 56, 60), []),  # a good day
        ((30, 32, 35, 40, 44, 50), []),  # the lifter has only begun
    ],
)
def test_a_best_that_no_other_day_comes_near_is_told(
    loads_kg: tuple[float, ...], expected: list[float]
) -> None:
    assert [one.found for one in facts(*days_of(*loads_kg)).unsure] == [f"{kg:g} kg" for kg in expected]


def test_a_best_alone_says_where_it_stands() -> None:
    (alone,) = facts(*days_of(50, 52, 54, 55, 520, 54)).unsure
    assert (alone.lift, alone.place, alone.stops[0]) == ("snatch", "training.csv:6", "snatch")
    assert "snatch pull" in alone.stops  # its loads are taken from the snatch's
