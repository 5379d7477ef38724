"""Planned against done, by week."""

import datetime as dt

import pandas as pd
import pytest

from reportgen.analysis.planned import compare
from reportgen.model.proposal import PlannedWeek, Skipped
from reportgen.trade import load
from tests.analysis.logs import dossier, row, table

Rows = list[dict[str, object]]


def weeks(plan: Rows, done: Rows, as_of: str = "2026-01-18") -> tuple[PlannedWeek, ...]:
    made = dossier(*done, as_of=as_of)
    found = compare(table(plan), made.tables.sets, pd.Timestamp(as_of), load())
    assert found is not None
    return found.weeks


def test_a_plan_that_was_kept_is_told_so() -> None:
    plan = [
        row("2026-01-05", "snatch", 50, sets=4, reps=2),
        row("2026-01-07", "back squat", 90, sets=3, reps=3),
    ]
    week = weeks(plan, plan)[0]
    assert (week.week, week.sessions_planned, week.sessions_done) == ("2026-W02", 2, 2)
    assert (week.sets_planned, week.sets_done, week.load_off, week.load_apart) == (7, 7, 0, 0)
    assert (week.sessions_moved, week.sessions_extra, week.sets_extra) == (0, 0, 0)


def test_a_missing_plan_is_no_fault() -> None:
    made = dossier(row("2026-01-05", "snatch", 50))
    assert made.facts.planned_done is None


def test_what_is_planned_after_the_review_day_is_not_missed() -> None:
    plan = [row("2026-01-05", "snatch", 50), row("2026-01-20", "snatch", 50)]
    found = weeks(plan, plan[:1], as_of="2026-01-10")
    assert [(w.sessions_planned, w.sessions_done) for w in found] == [(1, 1)]


def test_a_session_on_another_day_of_the_week_is_kept_and_told_as_moved() -> None:
    week = weeks([row("2026-01-05", "snatch", 50)], [row("2026-01-06", "snatch", 50)])[0]
    assert (week.sessions_done, week.sessions_moved, week.sets_done) == (1, 1, 1)


def test_more_than_planned_is_told_apart_and_never_over_the_plan() -> None:
    plan = [row("2026-01-05", "snatch", 50, sets=2)]
    done = [row("2026-01-05", "snatch", 50, sets=5), row("2026-01-08", "back squat", 90, sets=3)]
    week = weeks(plan, done)[0]
    assert (week.sessions_done, week.sessions_extra, week.sets_done, week.sets_extra) == (1, 1, 2, 6)


@pytest.mark.parametrize(("kg", "off"), [(55, 0.1), (45, -0.1)])
def test_loads_off_plan_keep_their_sign_and_their_size(kg: float, off: float) -> None:
    week = weeks([row("2026-01-05", "snatch", 50)], [row("2026-01-05", "snatch", kg)])[0]
    assert week.load_off == pytest.approx(off)
    assert week.load_apart == pytest.approx(0.1)


def test_sets_on_the_way_up_are_not_weighed_against_the_plan() -> None:
    plan = [row("2026-01-05", "snatch", 50, sets=3), row("2026-01-07", "snatch", 60, sets=2)]
    done = [
        row("2026-01-05", "snatch", 30, sets=4),
        row("2026-01-05", "snatch", 50, sets=3),
        row("2026-01-07", "snatch", 66, sets=2),
        row("2026-01-07", "back squat", 60, sets=3),
    ]
    week = weeks(plan, done)[0]
    assert (week.sets_planned, week.sets_done, week.sets_extra) == (5, 5, 7)
    # (3 x 50 + 2 x 66) against (3 x 50 + 2 x 60).
    assert week.load_off == pytest.approx(282 / 270 - 1)
    fewer = weeks(plan, done[:1])[0]
    assert fewer.load_off == pytest.approx(30 / 54 - 1)


def test_another_lift_does_not_stand_in_for_the_planned_one() -> None:
    week = weeks([row("2026-01-05", "snatch", 50, sets=3)], [row("2026-01-05", "power snatch", 50, sets=3)])[
        0
    ]
    assert (week.sessions_done, week.sets_done, week.load_off) == (1, 0, None)


def kept(skipped: int, other: int = 0) -> tuple[Skipped, ...]:
    """Six weeks of a plan of three lifts; the pull is left out of so many, the others of so many."""
    plan: Rows = []
    done: Rows = []
    for week in range(6):
        day = (dt.date(2026, 1, 5) + dt.timedelta(weeks=week)).isoformat()
        lines = [row(day, lift, 60) for lift in ("snatch", "back squat", "snatch pull")]
        plan += lines
        done += [*lines[: 2 if week >= other else 0], *lines[2 : 3 if week >= skipped else 2]]
    made = dossier(*done, as_of="2026-02-15")
    found = compare(table(plan), made.tables.sets, pd.Timestamp("2026-02-15"), load())
    assert found is not None
    return found.skipped


def test_a_lift_that_is_skipped_far_more_often_than_the_rest_is_named() -> None:
    assert kept(3) == (Skipped(lift="snatch pull", planned=6, skipped=3, rest_planned=12, rest_skipped=0),)


def test_twice_is_no_habit() -> None:
    assert kept(2) == ()


def test_lifts_that_are_skipped_with_the_rest_are_not_named() -> None:
    assert kept(3, other=3) == ()


def test_a_plan_that_was_kept_names_no_lift() -> None:
    assert kept(0) == ()
