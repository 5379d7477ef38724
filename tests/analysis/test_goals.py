"""Goals in kilograms, times body mass and as a total."""

from dataclasses import replace

import pytest

from reportgen.model.lifter import Goal
from tests.analysis.logs import MAN, WOMAN, bodymass, facts, row


def test_a_body_mass_goal_follows_the_latest_body_mass() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    found = facts(
        row("2026-01-10", "snatch", 58),
        lifter=lifter,
        bodymass=bodymass(("2026-01-09", 63.4), ("2026-01-02", 64.0), ("2026-02-01", 70.0)),
    ).goals[0]
    assert (found.goal_kg, found.body_mass_kg) == (63.4, 63.4)
    assert found.gap_kg == pytest.approx(5.4)


def test_a_goal_that_was_reached_has_no_gap() -> None:
    assert facts(row("2026-01-10", "snatch", 66)).goals[0].gap_kg == 0


def test_a_total_is_split_by_the_lifters_own_ratio_with_the_federations_beside_it() -> None:
    lifter = replace(MAN, goals=(Goal(lift="total", kg=225),))
    goal = facts(
        row("2026-01-10", "snatch", 88), row("2026-01-10", "clean and jerk", 110), lifter=lifter
    ).goals[0]
    assert (goal.current_kg, goal.gap_kg) == (198, 27)
    assert goal.split is not None
    assert goal.split.ratio == pytest.approx(0.8)
    assert goal.split.snatch_kg == pytest.approx(100)
    assert goal.split.clean_and_jerk_kg == pytest.approx(125)
    # Senior events 1998-2023: mean snatch / clean and jerk 0.806 (C).
    assert goal.split.reference_ratio == 0.806


def test_a_total_with_one_lift_unknown_stands_nowhere_yet() -> None:
    lifter = replace(MAN, goals=(Goal(lift="total", kg=225),))
    goal = facts(row("2026-01-10", "snatch", 88), lifter=lifter).goals[0]
    assert (goal.current_kg, goal.gap_kg) == (None, None)
    assert goal.split is not None
    assert goal.split.ratio is None


def test_every_goal_is_in_the_facts_and_the_first_one_is_asked_about() -> None:
    lifter = replace(MAN, goals=(Goal(lift="clean and jerk", kg=125), Goal(lift="snatch", kg=100)))
    found = facts(row("2026-01-10", "snatch", 88), row("2026-01-10", "clean and jerk", 110), lifter=lifter)
    assert [goal.lift for goal in found.goals] == ["clean and jerk", "snatch"]
    assert found.indicators is not None
    assert {fact.goal_lift for fact in found.indicators} == {"clean and jerk"}
