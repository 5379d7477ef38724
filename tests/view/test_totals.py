"""A goal in the total: nothing is said of one lift against the weight of both."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace

import pytest

from reportgen.model.facts import CurrentFact
from reportgen.model.lifter import Goal
from reportgen.trade import load
from reportgen.view import build
from reportgen.view.options import CalendarRows, Levels
from reportgen.view.page import Figure, Page
from reportgen.view.reader import plain
from reportgen.words import Weight, numbers
from tests.view import sample
from tests.view.reading import section

TRADE = load()
TOTAL_KG = 150.0


@pytest.fixture(scope="module")
def page() -> Page:
    goal = Goal(lift="total", kg=TOTAL_KG)
    return build(sample.full(replace(sample.LIFTER, goals=(goal,))), TRADE)


def figure(page: Page, id_: str) -> Figure:
    return next(b for s in page.sections for b in s.blocks if isinstance(b, Figure) and b.id.startswith(id_))


def weights(value: object) -> Iterator[float]:
    """Every weight of some part of a page."""
    if isinstance(value, Weight):
        yield value.kg
    elif is_dataclass(value):
        for part in fields(value):
            yield from weights(getattr(value, part.name))
    elif isinstance(value, tuple):
        for one in value:
            yield from weights(one)


def test_the_weight_of_a_total_stands_only_where_the_goal_itself_is_told(page: Page) -> None:
    assert TOTAL_KG in set(weights(page.head.goal))
    assert not [one.id for one in page.sections if TOTAL_KG in set(weights(one))]


def test_the_strip_counts_each_lift_by_its_own_part_of_the_total(page: Page) -> None:
    made = sample.full(replace(sample.LIFTER, goals=(Goal(lift="total", kg=TOTAL_KG),)))
    split = made.facts.goals[0].split
    assert split is not None
    sets = made.tables.sets
    for lift, kg in (("snatch", split.snatch_kg), ("clean and jerk", split.clean_and_jerk_kg)):
        pulls = sets["lift"].isin(TRADE.goal_weight[lift]["pulled"]) & (sets["load_kg"] >= kg)
        facts = [f for f in made.facts.goal_weight or () if (f.goal_lift, f.part) == (lift, "pulled")]
        assert {f.goal_kg for f in facts} == {kg}
        assert sum(f.made for f in facts) == int(sets.loc[pulls, "made_reps"].sum())
        assert f"{numbers.weight(kg, 'kg')} or more, the {lift} of the total, was" in section(
            page, "supports"
        )
    squats = [f for f in made.facts.goal_weight or () if f.lift == "back squat"]
    assert [f.goal_lift for f in squats] == ["snatch", "clean and jerk"]


def test_the_marks_of_a_total_s_strip_are_those_of_its_counts(page: Page) -> None:
    strip = figure(page, "goal-weight")
    marked = set(strip.data["marks"]["part"])
    rows = strip.given(CalendarRows).rows
    assert len(set(rows)) == len(rows) == 10
    assert marked == {row for row in rows if not row.endswith("never")}


def test_a_squat_that_carries_both_lifts_says_which_of_them_it_is_read_for(page: Page) -> None:
    labels = tuple(figure(page, "enough-for").data["ranges"]["label"])
    assert len(set(labels)) == len(labels)
    assert sum(label.startswith("back squat for the ") for label in labels) == 2


def test_an_angle_is_carried_on_to_the_snatch_of_a_total_and_not_to_the_total(page: Page) -> None:
    heavier = figure(page, "heavier-")
    goal = heavier.given(Levels).goal
    assert goal is not None
    assert goal.at < 80
    assert goal.label.startswith("goal snatch ")


def test_nobody_does_a_session_of_a_total() -> None:
    goal = Goal(lift="total", kg=TOTAL_KG)
    made = sample.full(replace(sample.LIFTER, goals=(goal,)))
    progress = build(made, TRADE, edition="progress")
    assert "Sessions with the full snatch or clean and jerk" in section(progress, "stands")


def test_a_body_mass_total_is_not_drawn_against_the_bar_of_one_lift() -> None:
    made = sample.full(replace(sample.LIFTER, goals=(Goal(lift="total", times_body_mass=2.3),)))
    mass = figure(build(made, TRADE), "body-mass")
    assert (mass.title, set(mass.data)) == ("Body mass", {"body"})
    assert "the weight that the goal asks for moved by" in plain(mass.sentence, "kg")


def test_an_old_best_of_either_lift_of_a_total_is_told_at_the_head() -> None:
    made = sample.full(replace(sample.LIFTER, goals=(Goal(lift="total", kg=TOTAL_KG),)))
    old = CurrentFact(
        lift="clean and jerk", kg=None, date=None, stale_kg=70.0, stale_date=dt.date(2025, 9, 1)
    )
    others = tuple(one for one in made.facts.current if one.lift != "clean and jerk")
    page = build(replace(made, facts=replace(made.facts, current=(*others, old))), TRADE)
    told = [plain(alert, "kg") for alert in page.head.alerts]
    assert "The last clean and jerk best, 70 kg, is from 1 Sep 2025: too old to count as present." in told
