"""A further goal has a first need of its own, in a line under the findings."""

from dataclasses import replace

from reportgen.model.facts import Facts, FirstNeed
from reportgen.model.lifter import Goal, GoalLift
from reportgen.words import plain, spoken
from tests.analysis.test_needs import case, judged


def with_goals(story: str, *goals: tuple[GoalLift, float]) -> Facts:
    """A lifter of the case book with other goals."""
    records = case(story).records
    every = tuple(Goal(lift=lift, kg=kg) for lift, kg in goals)
    return judged(replace(records, lifter=replace(records.lifter, goals=every)))


def of(facts: Facts, lift: str) -> FirstNeed | None:
    return next(goal.first_need for goal in facts.goals if goal.lift == lift)


def test_misses_at_the_jerk_are_the_first_need_of_a_second_goal_in_it() -> None:
    records = case("missed_at_the_jerk").records
    pair = with_goals(
        "missed_at_the_jerk", ("snatch", 200.0), ("clean and jerk", records.lifter.goals[0].kg or 0)
    )
    found = of(pair, "clean and jerk")
    assert found is not None
    assert found.id == case("missed_at_the_jerk").said["first"]["id"]
    assert "jerk" in plain(spoken(found.claim))
    assert of(pair, "snatch") is None


def test_what_a_first_need_rests_on_is_pointed_at_and_not_told_again() -> None:
    pair = with_goals("cannot_stand_up", ("snatch", 100.0), ("total", 230.0))
    found = of(pair, "total")
    assert found is not None
    assert pair.needs
    said = plain(spoken(found.claim))
    assert said.startswith(("the same as finding 1", "the same as finding 2"))


def test_a_second_goal_that_is_reached_or_was_not_done_of_late_is_not_weighed() -> None:
    assert (
        of(with_goals("missed_at_the_jerk", ("snatch", 200.0), ("clean and jerk", 1.0)), "clean and jerk")
        is None
    )
    assert of(with_goals("stiff_ankles", ("snatch", 100.0)), "snatch") is None


def test_a_second_goal_that_nothing_holds_back_says_so() -> None:
    pair = with_goals(
        "needs_time",
        ("clean and jerk", 200.0),
        ("snatch", case("needs_time").records.lifter.goals[0].kg or 0),
    )
    found = of(pair, "snatch")
    assert found is not None
    assert (found.id, plain(spoken(found.claim))) == ("", "nothing stands out.")
