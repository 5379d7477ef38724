"""The ability: what every try made and missed says of the weight that goes up one time in two."""

import datetime as dt
from dataclasses import replace
from functools import cache

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.analysis import ability, arrival, form, frames, platform
from reportgen.analysis.ability import Ability
from reportgen.analysis.outlook import Outlook
from reportgen.model.facts import RepMaxFact
from reportgen.model.peaks import TaperEffect
from reportgen.trade import load
from tests.analysis.logs import attempt, row, table

TRADE = load()
FIRST = dt.date(2026, 1, 5)
LAST = FIRST + dt.timedelta(days=7 * 19 + 5)
Row = dict[str, object]


def on(week: int, weekday: int = 0) -> str:
    return (FIRST + dt.timedelta(days=7 * week + weekday)).isoformat()


def training(
    weeks: range = range(20), top: float = 90.0, missed: tuple[float, ...] = (95.0,), **more: object
) -> list[Row]:
    """Two days a week: doubles, singles up to a top, and misses over it."""
    rows = []
    for week in weeks:
        for weekday in (0, 3):
            rows += [row(on(week, weekday), "snatch", top * 0.82, reps=2, sets=2)]
            rows += [row(on(week, weekday), "snatch", top * share, **more) for share in (0.9, 0.95, 1.0)]
        rows += [row(on(week, 3), "snatch", kg, made=0) for kg in missed]
    return rows


def sets_of(rows: list[Row], as_of: dt.date = LAST) -> pd.DataFrame:
    return frames.prepare(table(rows), as_of=pd.Timestamp(as_of).as_unit("s"), bests=(), trade=TRADE)


def read(rows: list[Row], as_of: dt.date = LAST) -> Ability:
    found = ability.read(sets_of(rows, as_of), "snatch", as_of=as_of, trade=TRADE)
    assert found is not None
    return found


@cache
def usual() -> Ability:
    return read(training())


def kg(found: Ability) -> float:
    return ability.fact(found).kg


def width(found: Ability) -> float:
    told = ability.fact(found)
    return told.high / told.low


def test_it_lies_between_what_is_always_made_and_what_is_never() -> None:
    told = ability.fact(usual())
    assert 90 < told.kg < 95
    assert told.low < told.kg < told.high
    assert told.sure_kg < told.kg


def test_the_same_makes_with_other_misses_are_another_ability() -> None:
    often, hardly = read(training(missed=(91.0, 92.0))), read(training(missed=(99.0,)))
    assert kg(often) + 1 < kg(usual()) < kg(hardly)


def test_more_tries_narrow_the_range() -> None:
    few = read(training(range(14, 20)))
    assert width(usual()) < width(few)


def test_a_made_weight_raises_and_a_missed_one_lowers() -> None:
    over = [row(on(19, 5), "snatch", 93) for _ in range(3)]
    under = [row(on(19, 5), "snatch", 90, made=0) for _ in range(3)]
    assert kg(read(training() + under)) < kg(usual()) < kg(read(training() + over))


def test_easy_makes_far_below_say_nothing() -> None:
    light = [row(on(week, 1), "snatch", 50, sets=5, reps=3) for week in range(20)]
    assert kg(read(training() + light)) == pytest.approx(kg(usual()), rel=0.004)


def test_rows_after_the_day_are_not_seen() -> None:
    later = training(range(20, 24), top=110)
    rows = sets_of(training() + later, LAST + dt.timedelta(days=60))
    seen = ability.read(rows, "snatch", as_of=LAST, trade=TRADE)
    assert seen is not None
    assert ability.fact(seen) == ability.fact(usual())


@settings(max_examples=4, deadline=None)
@given(st.randoms(use_true_random=False))
def test_the_order_of_the_rows_changes_nothing(chance: object) -> None:
    rows = training()
    chance.shuffle(rows)  # type: ignore[attr-defined]
    assert ability.fact(read(rows)) == ability.fact(usual())


@settings(max_examples=6, deadline=None)
@given(st.integers(0, 19), st.sampled_from((0.45, 1.1, 2.2046)), st.booleans())
def test_one_slip_of_the_pen_moves_it_by_no_more_than_a_per_cent(week: int, by: float, made: bool) -> None:
    slip = row(on(week, 4), "snatch", 90 * by, made=int(made))
    assert kg(read([*training(), slip])) == pytest.approx(kg(usual()), rel=0.01)


def test_ten_tries_give_a_wide_range_or_none() -> None:
    rows = [row(on(week), "snatch", load) for week in range(15, 20) for load in (86.0, 90.0)]
    found = ability.read(sets_of(rows), "snatch", as_of=LAST, trade=TRADE)
    assert found is None or width(found) > 1.09
    fewer = ability.read(sets_of(rows[:6]), "snatch", as_of=LAST, trade=TRADE)
    assert fewer is None


def test_a_lift_that_was_never_near_its_limit_or_never_made_has_none() -> None:
    misses = [row(on(week), "snatch", 90, made=0) for week in range(20)]
    assert ability.read(sets_of(misses), "snatch", as_of=LAST, trade=TRADE) is None
    assert ability.read(sets_of(training()), "clean and jerk", as_of=LAST, trade=TRADE) is None
    assert ability.read(sets_of(training()).iloc[:0], "snatch", as_of=LAST, trade=TRADE) is None
    # Makes alone say from where up the limit lies, and never where.
    assert ability.read(sets_of(training(missed=())), "snatch", as_of=LAST, trade=TRADE) is None


def test_weeks_away_widen_and_lower() -> None:
    before = read(training(range(14)), FIRST + dt.timedelta(days=7 * 13 + 5))
    gone = read(training(range(14)))
    assert kg(gone) < kg(before) * 0.98
    assert width(gone) > width(before)


def test_weeks_of_other_lifts_are_not_weeks_away() -> None:
    squats = [row(on(week), "back squat", 150, reps=3) for week in range(14, 20)]
    away, busy = read(training(range(14))), read(training(range(14)) + squats)
    assert kg(busy) > kg(away)


def test_logged_effort_tells_an_easy_single_from_a_limit() -> None:
    hard, easy = (read(training(missed=(99.0,), effort=effort)) for effort in (10.0, 8.0))
    assert kg(hard) + 0.5 < kg(easy)


def test_a_set_of_several_implies_a_heavier_single() -> None:
    rows = [row(on(week, day), "snatch", 85, reps=2) for week in range(20) for day in (0, 3)]
    rows += [row(on(week, 3), "snatch", 89, reps=2, made=1) for week in range(20)]
    assert 88 < kg(read(rows)) < 93


def test_the_chance_falls_with_the_load_and_rises_fresh() -> None:
    loads = np.linspace(70, 110, 30)
    chances = usual().chances(loads)
    assert np.all(np.diff(chances) <= 1e-9)
    assert usual().chance(kg(usual())) == pytest.approx(0.5, abs=0.03)
    assert usual().chance(90, fresh=0.02) > usual().chance(90)
    assert usual().chance(ability.fact(usual()).sure_kg) >= 0.9 - 1e-3


def test_the_path_ends_where_the_ability_stands_and_has_a_day_a_week() -> None:
    told = ability.fact(usual())
    assert told.weeks[-1].date == LAST
    assert (told.weeks[-1].kg, told.weeks[-1].low, told.weeks[-1].high) == (told.kg, told.low, told.high)
    apart = {(b.date - a.date).days for a, b in zip(told.weeks, told.weeks[1:], strict=False)}
    assert apart == {7}


def test_a_rise_is_told_with_its_range() -> None:
    rising: list[Row] = []
    for week in range(20):
        top = 80 + 0.6 * week
        rising += training(range(week, week + 1), top, (top * 1.04,))
    up, level = ability.fact(read(rising)), ability.fact(usual())
    for told in (up, level):
        assert told.change_kg is not None
        assert told.change_low is not None
        assert told.change_high is not None
        assert told.change_low < told.change_kg < told.change_high
    assert (up.change_low or 0) > 0
    assert up.change_kg == pytest.approx(0.6 * 12, abs=3)
    assert (level.change_high or 0) < (up.change_high or 0)


def test_a_test_day_is_judged_by_its_tries_against_the_weeks_before() -> None:
    good = [attempt(on(19, 5), "snatch", load, True, kind="test") for load in (92, 95, 97)]
    bad = [attempt(on(19, 5), "snatch", load, False, kind="test") for load in (88, 88, 88)]
    up, down = (form.Forms(sets_of(training() + day), "snatch", TRADE).of(LAST) for day in (good, bad))
    assert up is not None
    assert down is not None
    assert down.share < 0 < up.share
    assert up.low < up.share < up.high
    assert form.Forms(sets_of(training()), "snatch", TRADE).of(LAST) is None


def test_the_form_of_a_day_sees_nothing_after_it_and_nothing_of_its_taper() -> None:
    day, start = FIRST + dt.timedelta(days=7 * 15 + 5), FIRST + dt.timedelta(days=7 * 14)
    tries = [attempt(day.isoformat(), "snatch", load, True, kind="test") for load in (92, 95)]
    before = training(range(14)) + tries
    told = form.Forms(sets_of(before), "snatch", TRADE).of(day, start=start)
    heavy = training(range(14, 15), top=99) + training(range(16, 20), top=120)
    assert told is not None
    assert form.Forms(sets_of(before + heavy), "snatch", TRADE).of(day, start=start) == told


def test_one_taper_says_little_and_ten_say_more() -> None:
    one = TaperEffect(share=-0.03, low=-0.06, high=0.0, tapers=1)
    none, few, many = (form.pooled((one,) * count, TRADE) for count in (0, 1, 10))
    assert none.share == TRADE.value("taper_gain")
    assert many.share < few.share < none.share
    assert many.high - many.low < few.high - few.low < none.high - none.low
    assert many.tapers == 10


def test_the_chance_of_a_goal_falls_with_its_weight_and_rises_with_time() -> None:
    def told(goal: float, days: int) -> float:
        by = LAST + dt.timedelta(days=days)
        got = arrival.read((usual(),), goal, by, present_kg=90.0, fresh=0.02, trade=TRADE)
        assert got is not None
        assert got.chance is not None
        assert got.rare is (got.chance < TRADE.value("arrival_rare"))
        return got.chance

    assert told(93, 90) > told(97, 90) > told(110, 90)
    assert told(97, 300) > told(97, 30)
    assert told(130, 60) < 0.01


def test_arrival_asks_so_much_a_month_and_says_not_within_two_years() -> None:
    by = LAST + dt.timedelta(days=61)
    got = arrival.read((usual(),), 130.0, by, present_kg=90.0, fresh=0.02, trade=TRADE)
    assert got is not None
    assert got.asked_kg_per_month == pytest.approx(40 / 61 * 30.4375)
    assert (got.early, got.late) == (None, None)
    near = arrival.read((usual(),), 94.0, None, present_kg=90.0, fresh=0.02, trade=TRADE)
    assert near is not None
    assert (near.chance, near.rare) == (None, None)
    assert near.early is not None
    assert near.early > LAST
    reached = arrival.read((usual(),), 90.0, by, present_kg=90.0, fresh=0.02, trade=TRADE)
    assert reached is None


def test_a_platform_chance_is_the_numbers_rate_without_an_ability_and_blended_with_one() -> None:
    def chance(load: float, found: Ability | None, number: int = 3) -> float:
        return platform.chance(load, number, "snatch", found, fresh=0.0, trade=TRADE)

    assert chance(95, None) == 0.456
    assert chance(85, None, 1) == 0.774
    assert chance(98, usual()) < chance(92, usual()) < chance(85, usual(), 1)
    from_contests = replace(usual(), trained=False)
    assert abs(chance(99, from_contests) - 0.456) < abs(chance(99, usual()) - 0.456)


def triple(implied_kg: float) -> RepMaxFact:
    return RepMaxFact(
        lift="snatch", reps=3, kg=implied_kg * 0.92, date=LAST, implied_single_kg=implied_kg, single_kg=90.0,
        transfer_gap_kg=implied_kg - 90.0, implied_single_high_kg=implied_kg,
    )  # fmt: skip


def test_a_double_or_triple_is_not_yet_a_single_unless_the_ability_says_that_the_single_is_there() -> None:
    told = replace(nothing_known(), lifts={"snatch": usual()})
    there, not_yet = told.transfer((triple(92.3), triple(99.0)), TRADE)
    assert there.chance == usual().chance(92.3)
    assert there.chance >= 0.5
    assert there.transfer_gap_kg == 0.0
    assert not_yet.chance == usual().chance(99.0)
    assert not_yet.transfer_gap_kg == 9.0
    assert nothing_known().transfer((triple(92.3),), TRADE) == (triple(92.3),)


def nothing_known() -> Outlook:
    taper = form.pooled((), TRADE)
    return Outlook(ability=(), lifts={}, taper=taper, arrival=None, trend=None)


@pytest.mark.parametrize("chance", [0.1, 0.5, 0.6, 0.9])
def test_the_heaviest_load_of_a_chance_has_that_chance(chance: float) -> None:
    assert usual().chance(usual().heaviest(chance)) == pytest.approx(chance, abs=0.005)


@settings(max_examples=8, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 139), st.floats(1, 600), st.integers(0, 3)), min_size=30, max_size=90)
)
def test_whatever_a_log_holds_the_numbers_are_numbers(tries: list[tuple[int, float, int]]) -> None:
    rows = [
        row((FIRST + dt.timedelta(days=day)).isoformat(), "snatch", load, reps=3, made=made, sets=50)
        for day, load, made in tries
    ]
    found = ability.read(sets_of(rows), "snatch", as_of=LAST, trade=TRADE)
    if found is not None:
        told = ability.fact(found)
        assert 0 < told.low <= told.kg <= told.high < 1000
        assert 0 < told.sure_kg < told.high


def test_a_goal_that_is_reached_but_for_the_rounding_of_pounds_has_no_arrival() -> None:
    found = (usual(),)
    assert arrival.read(found, 64 + 1e-9, None, present_kg=64.0, fresh=0.02, trade=TRADE) is None
