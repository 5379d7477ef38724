"""Positions and joints: what is reached, what changed, what is kept up, what the bar brings out."""

import datetime as dt

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen import trade
from reportgen.analysis import screening
from reportgen.model.findings import CompensationFact, ScreeningFact, ScreeningItem
from reportgen.model.lifter import Goal, Lifter
from reportgen.model.records import Records
from reportgen.model.tables import MOBILITY, SCREENING, SETS, empty, typed
from reportgen.words.phrases import said

TRADE = trade.load()
LIFTER = Lifter(name="Ib Strand", standards="men", goals=(Goal(lift="snatch", kg=100.0),), born=1990)


def rows(*cells: tuple[str, str, str, float | None, float | None, str, str]) -> pd.DataFrame:
    """Rows of date, item, side, kg, reading, grade, conditions."""
    return typed(
        {
            "date": [np.datetime64(cell[0], "s") for cell in cells],
            "item": [cell[1] for cell in cells],
            "side": [cell[2] for cell in cells],
            "load_kg": [np.nan if cell[3] is None else cell[3] for cell in cells],
            "reading": [np.nan if cell[4] is None else cell[4] for cell in cells],
            "grade": [cell[5] for cell in cells],
            "conditions": [cell[6] for cell in cells],
            "remark": [""] * len(cells),
            "file": ["screening.csv"] * len(cells),
            "line": list(range(2, len(cells) + 2)),
        },
        SCREENING,
    )


def work(*cells: tuple[str, str, float]) -> pd.DataFrame:
    """Rows of date, area, minutes."""
    return typed(
        {
            "date": [np.datetime64(cell[0], "s") for cell in cells],
            "area": [cell[1] for cell in cells],
            "minutes": [cell[2] for cell in cells],
            "remark": [""] * len(cells),
            "file": ["mobility.csv"] * len(cells),
            "line": list(range(2, len(cells) + 2)),
        },
        MOBILITY,
    )


def read(
    table: pd.DataFrame,
    *,
    mobility: pd.DataFrame | None = None,
    as_of: str = "2026-06-30",
    goal_kg: float = 100.0,
) -> ScreeningFact:
    records = Records(
        folder="ib",
        lifter=LIFTER,
        as_of=dt.date.fromisoformat(as_of),
        sets=empty(SETS),
        screening=table,
        mobility=empty(MOBILITY) if mobility is None else mobility,
    )
    found = screening.read(records, TRADE, best_kg=90.0, goal_kg=goal_kg)
    assert found is not None
    return found


def only(fact: ScreeningFact) -> ScreeningItem:
    (item,) = fact.items
    return item


def wall(
    date: str, reading: float, side: str = "left", conditions: str = "barefoot"
) -> tuple[str, str, str, None, float, str, str]:
    return (date, "knee to wall", side, None, reading, "", conditions)


def test_without_a_row_there_is_no_screening() -> None:
    records = Records(folder="ib", lifter=LIFTER, as_of=dt.date(2026, 6, 30), sets=empty(SETS))
    assert screening.read(records, TRADE) is None


def test_a_change_of_a_whole_centimetre_in_the_knee_to_wall_test_is_a_clear_one() -> None:
    # Smallest real change 1.0 cm: Chisholm et al., Physiother Can 2012;64:347-355 (S).
    clear = only(read(rows(wall("2026-05-01", 7.0), wall("2026-06-01", 8.0))))
    unclear = only(read(rows(wall("2026-05-01", 7.0), wall("2026-06-01", 7.9))))
    assert clear.change == pytest.approx(1.0)
    assert clear.clear_change is True
    assert unclear.change == pytest.approx(0.9)
    assert unclear.clear_change is False


def test_a_change_of_five_degrees_in_thoracic_rotation_is_noise() -> None:
    # Under 6 degrees is noise: Johnson et al., J Athl Train 2012;47:52-60 (S).
    def turned(date: str, reading: float) -> tuple[str, str, str, None, float, str, str]:
        return (date, "thoracic rotation", "left", None, reading, "", "")

    assert only(read(rows(turned("2026-05-01", 40), turned("2026-06-01", 45)))).clear_change is False
    assert only(read(rows(turned("2026-05-01", 40), turned("2026-06-01", 46)))).clear_change is True


def test_unlike_conditions_are_not_compared() -> None:
    item = only(
        read(rows(wall("2026-05-01", 7.0, conditions="cold"), wall("2026-06-01", 12.0, conditions="warm")))
    )
    assert (item.latest, item.change, item.clear_change, item.earlier_date) == (12.0, None, None, None)


def test_left_and_right_lie_beside_one_another_when_read_together() -> None:
    left, right = read(rows(wall("2026-06-01", 7.0), wall("2026-06-01", 9.5, "right"))).items
    assert left.side_difference == pytest.approx(-2.5)
    assert right.side_difference == pytest.approx(2.5)
    apart = read(rows(wall("2026-03-01", 7.0), wall("2026-06-01", 9.5, "right"))).items
    assert [item.side_difference for item in apart] == [None, None]


@pytest.mark.parametrize(
    ("reading", "reached"), [(6.0, False), (6.5, None), (9.5, None), (10.0, True), (13.0, True)]
)
def test_range_is_missing_only_under_the_lower_end_of_healthy_people(
    reading: float, reached: bool | None
) -> None:
    # 12 cm less two standard deviations of 2.8 cm: Hoch & McKeon 2011, as reported (R).
    assert only(read(rows(wall("2026-06-01", reading)))).reached is reached


def test_a_reading_that_fell_clearly_from_the_lifters_own_best_is_missing_range() -> None:
    def last(then: float, now: float) -> ScreeningItem:
        return only(read(rows(wall("2026-05-01", then), wall("2026-06-01", now))))

    assert last(9.8, 8.0).reached is False
    assert last(9.8, 8.0).fell == pytest.approx(1.8)
    assert (last(9.8, 9.0).reached, last(9.8, 9.0).fell) == (None, None)
    assert (last(14.0, 12.0).reached, last(14.0, 12.0).fell) == (True, None)


@pytest.mark.parametrize(("grade", "reached"), [("held", True), ("partly", False), ("no", False), ("", None)])
def test_a_position_without_a_norm_goes_by_its_grade(grade: str, reached: bool | None) -> None:
    assert (
        only(read(rows(("2026-06-01", "snatch bottom position", "both", None, None, grade, "")))).reached
        is reached
    )


def test_rows_after_the_review_day_enter_nothing() -> None:
    item = only(read(rows(wall("2026-05-01", 7.0), wall("2026-07-02", 12.0))))
    assert item.latest == 7.0


def test_items_come_in_the_order_of_the_three_questions() -> None:
    fact = read(
        rows(
            ("2026-06-01", "Beighton score", "both", None, 3, "", ""),
            ("2026-06-01", "wrist laid back", "left", 60, 12, "", ""),
            ("2026-06-01", "dowel snatch", "both", None, None, "held", ""),
            wall("2026-06-01", 11.0),
        )
    )
    assert [item.kind for item in fact.items] == ["flexibility", "control", "compensation", "laxity"]


def test_a_reached_position_whose_work_stopped_three_weeks_ago_is_flagged() -> None:
    table = rows(wall("2026-05-01", 12.0))
    stopped = read(table, mobility=work(("2026-06-09", "ankles", 10)))
    going = read(table, mobility=work(("2026-06-10", "ankles", 10)))
    for fact, days, over in ((stopped, 21, True), (going, 20, False)):
        assert (fact.upkeep[0].days_since, fact.upkeep[0].stopped, only(fact).lapsed) == (days, over, over)
    assert only(read(table)).lapsed is None
    assert (
        only(read(rows(wall("2026-05-01", 6.0)), mobility=work(("2026-06-01", "ankles", 10)))).lapsed is False
    )


def test_upkeep_is_minutes_a_week_of_four_weeks_and_their_peak() -> None:
    (fact,) = read(
        rows(wall("2026-05-01", 12.0)),
        mobility=work(("2026-03-02", "hips", 40), ("2026-03-09", "hips", 40), ("2026-06-20", "hips", 20)),
    ).upkeep
    assert (fact.minutes_per_week, fact.peak_minutes_per_week, fact.days_since) == (5.0, 20.0, 10)


def laid(
    load_kg: float, reading: float, date: str = "2026-06-01"
) -> tuple[str, str, str, float, float, str, str]:
    return (date, "wrist laid back", "left", load_kg, reading, "", "video")


def bent(*cells: tuple[str, str, str, float, float, str, str], goal_kg: float = 100.0) -> CompensationFact:
    (fact,) = read(rows(*cells), goal_kg=goal_kg).compensation
    return fact


def test_an_angle_that_grows_by_half_a_degree_a_kilogram_is_carried_on_to_the_goal() -> None:
    fact = bent(laid(50, 10), laid(70, 20), laid(90, 30))
    assert fact.per_kg == pytest.approx(0.5)
    assert fact.at_goal == pytest.approx(35.0)
    assert fact.grows is True
    # A phone's angle is worth about 5 degrees: at the goal three exact readings are still worth no less.
    assert fact.low is not None
    assert fact.high is not None
    assert fact.low < 35.0 - 5.0
    assert fact.high - 35.0 == pytest.approx(35.0 - fact.low)


def test_the_goal_is_reached_only_inside_1_3_times_the_heaviest_reading() -> None:
    inside = bent(laid(50, 10), laid(70, 20), laid(80, 25), goal_kg=104.0)
    outside = bent(laid(50, 10), laid(70, 20), laid(80, 25), goal_kg=104.1)
    assert inside.at_goal is not None
    assert (outside.at_goal, outside.low, outside.high) == (None, None, None)
    assert outside.per_kg is not None
    assert "too far" in said(outside.reason)


def test_two_loads_or_a_narrow_span_make_no_line() -> None:
    assert bent(laid(50, 10), laid(90, 30)).per_kg is None
    # 15 % of a best of 90 kg is 13.5 kg.
    assert bent(laid(70, 10), laid(75, 12), laid(83, 15)).per_kg is None
    assert bent(laid(70, 10), laid(75, 12), laid(83.5, 15)).per_kg is not None


def test_an_angle_within_the_phones_error_does_not_grow() -> None:
    assert bent(laid(50, 10), laid(70, 12), laid(90, 13)).grows is False


@given(shift=st.floats(-20, 20), slope=st.floats(0, 1))
@settings(max_examples=25)
def test_a_line_through_exact_readings_comes_back(shift: float, slope: float) -> None:
    fact = bent(*(laid(load, shift + slope * load) for load in (50.0, 65.0, 80.0, 90.0)))
    assert fact.per_kg == pytest.approx(slope, abs=1e-9)
    assert fact.at_goal == pytest.approx(shift + slope * 100.0, abs=1e-6)


@pytest.mark.parametrize(("age", "points"), [(10, 6), (12, 6), (13, 5), (50, 5), (51, 4), (None, 5)])
def test_loose_joints_are_spoken_of_by_age(age: int | None, points: float) -> None:
    # Beighton, 2017 international criteria: 6 before puberty, 5 to age 50, 4 over 50 (R).
    assert screening.loose_from(age, TRADE) == points


def test_two_readings_of_one_week_that_lie_far_apart_are_a_doubt_and_no_change() -> None:
    item = only(read(rows(wall("2026-06-01", 10.5), wall("2026-06-05", 8.0))))
    assert (item.contradicted, item.change, item.fell, item.reached, item.lapsed) == (True, *[None] * 4)
    assert (item.latest, item.earlier, item.lines) == (8.0, 10.5, (2, 3))
    same_day = only(read(rows(wall("2026-06-05", 10.5), wall("2026-06-05", 8.0))))
    assert (same_day.contradicted, same_day.earlier) == (True, 10.5)


@pytest.mark.parametrize(
    ("then", "day", "why"),
    [
        (10.5, "2026-06-09", "a week is over"),
        (10.0, "2026-06-05", "not more than twice the smallest real change"),
    ],
)
def test_what_may_have_moved_or_is_near_is_no_doubt(then: float, day: str, why: str) -> None:
    item = only(read(rows(wall("2026-06-01", then), wall(day, 8.0))))
    assert not item.contradicted, why
    assert item.change == pytest.approx(8.0 - then)


def test_a_third_reading_settles_which_of_two_is_told() -> None:
    fell = only(read(rows(
        wall("2026-05-01", 9.4), wall("2026-06-01", 10.5), wall("2026-06-04", 8.0), wall("2026-06-06", 7.9)
    )))  # fmt: skip
    assert (fell.contradicted, fell.earlier, fell.best) == (False, 9.4, 9.4)
    assert fell.fell == pytest.approx(1.5)
    kept = only(read(rows(wall("2026-05-01", 10.2), wall("2026-06-01", 8.0), wall("2026-06-03", 10.4))))
    assert (kept.contradicted, kept.fell, kept.reached) == (True, None, None)
    again = only(read(rows(
        wall("2026-05-29", 10.2), wall("2026-06-01", 8.0), wall("2026-06-03", 10.4)
    )))  # fmt: skip
    assert (again.contradicted, again.fell, again.reached) == (False, None, True)
