"""Make rates by zone, kinds of miss, the sure weight, and where the goal weight has been."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.model.facts import Facts, MakeRateFact
from reportgen.model.lifter import Goal, PriorBest
from tests.analysis.logs import WOMAN, dossier, facts, row
from tests.searches import examples

KNOWN = replace(
    WOMAN,
    bests=(
        PriorBest(lift="snatch", kg=60, date=dt.date(2025, 12, 1)),
        PriorBest(lift="clean and jerk", kg=80, date=dt.date(2025, 12, 1)),
    ),
)


def rate(found: Facts, lift: str, low: float | None) -> MakeRateFact:
    assert found.make_rates is not None
    return next(r for r in found.make_rates if r.lift == lift and r.zone_low == low)


def test_zones_take_their_lower_edge_in() -> None:
    loads = [41.9, 42, 47.9, 48, 53.9, 54]
    found = facts(*[row("2026-01-05", "snatch", kg) for kg in loads], lifter=KNOWN)
    assert found.make_rates is not None
    assert [(r.zone_low, r.zone_high, r.tried) for r in found.make_rates] == [
        (None, 0.7, 1), (0.7, 0.8, 2), (0.8, 0.9, 2), (0.9, None, 1),
    ]  # fmt: skip


def test_misses_by_weight_are_counted_in_steps_of_a_twentieth_of_the_best_of_that_day() -> None:
    loads = [47.9, 48, 50.9, 51, 54, 57, 59.9, 60, 63]
    log = [row("2026-01-05", "snatch", kg, made=0 if kg in (57, 63) else 1) for kg in loads]
    found = dossier(*log, row("2026-01-05", "power snatch", 40), lifter=KNOWN).tables.rates
    assert [(r.zone_low, r.zone_high, r.made, r.tried) for r in found] == [
        (None, 0.8, 1, 1), (0.8, 0.85, 2, 2), (0.85, 0.9, 1, 1), (0.9, 0.95, 1, 1), (0.95, 1.0, 1, 2),
        (1.0, None, 1, 2),
    ]  # fmt: skip
    assert {r.lift for r in found} == {"snatch"}


def test_eight_made_of_ten_has_the_published_wilson_interval() -> None:
    # check value C: 0.4902 to 0.9433.
    log = [row("2026-01-05", "snatch", 55, sets=8), row("2026-01-06", "snatch", 55, sets=2, made=0)]
    found = rate(facts(*log, lifter=KNOWN), "snatch", 0.9)
    assert (found.tried, found.made, found.rate) == (10, 8, 0.8)
    assert found.rate_low == pytest.approx(0.4902, abs=5e-5)
    assert found.rate_high == pytest.approx(0.9433, abs=5e-5)


def test_misses_are_counted_by_kind_over_all_sets() -> None:
    log = [
        row("2026-01-05", "snatch", 55, sets=2, reps=2, made=1, miss="behind"),
        row("2026-01-06", "snatch", 55, reps=3, made=0, miss="behind+forward+forward"),
        row("2026-01-07", "snatch", 55, made=0),
    ]
    assert rate(facts(*log, lifter=KNOWN), "snatch", 0.9).misses == {
        "behind": 3,
        "forward": 2,
        "not stated": 1,
    }


@examples(15, 40)
@given(
    st.lists(
        st.tuples(
            st.integers(1, 4), st.integers(1, 5), st.integers(0, 5),
            st.lists(st.sampled_from(["behind", "forward", "recovery"]), max_size=3),
        ),
        min_size=1, max_size=12,
    )
)  # fmt: skip
def test_kinds_of_miss_always_add_up_to_the_misses(rows: list[tuple[int, int, int, list[str]]]) -> None:
    log = [
        row("2026-01-05", "snatch", 50 + n, sets=sets, reps=reps, made=min(made, reps), miss="+".join(kinds))
        for n, (sets, reps, made, kinds) in enumerate(rows)
    ]
    made = dossier(*log, lifter=KNOWN)
    assert made.tables.misses["count"].sum() == made.tables.sets["missed"].sum()
    assert (made.tables.misses["count"] > 0).all()


def test_cleans_and_jerks_are_judged_apart() -> None:
    lifter = replace(KNOWN, goals=(Goal(lift="clean and jerk", kg=90),))
    log = [
        row("2026-01-05", "clean and jerk", 75, sets=6),
        row("2026-01-06", "clean and jerk", 75, sets=1, made=0, miss="clean"),
        row("2026-01-07", "clean and jerk", 75, sets=3, made=0, miss="jerk"),
    ]
    clean, jerk = rate(facts(*log, lifter=lifter), "clean and jerk", 0.9).parts
    assert (clean.tried, clean.made, jerk.tried, jerk.made) == (10, 9, 9, 6)


def heavy(weeks: int, top: float = 60.0) -> list[dict[str, object]]:
    """A heavy day a week: singles up to a top, and a miss over it."""
    log = []
    for week in range(weeks):
        day = (dt.date(2026, 1, 5) + dt.timedelta(weeks=week)).isoformat()
        log += [row(day, "snatch", top * share) for share in (0.85, 0.9, 0.95, 1.0)]
        log.append(row(day, "snatch", top * 1.05, made=0))
    return log


def test_the_sure_weight_is_the_abilitys_with_the_tries_a_little_under_it() -> None:
    made = facts(*heavy(14), lifter=KNOWN)
    sure = made.sure_weight
    assert sure is not None
    assert made.ability is not None
    assert (sure.lift, sure.kg) == ("snatch", made.ability[0].sure_kg)
    assert 57 < sure.kg < 60
    # 57 is 95 % of 60: one try in each of the last twelve weeks.
    assert (sure.tried, sure.made) == (12, 12)


def test_a_log_that_carries_no_ability_has_no_sure_weight() -> None:
    made = facts(*heavy(1), lifter=KNOWN)
    assert made.ability == ()
    assert made.sure_weight is None


def test_the_sure_weights_change_needs_twelve_weeks() -> None:
    short, long = (facts(*heavy(weeks), lifter=KNOWN).sure_weight for weeks in (10, 20))
    assert short is not None
    assert long is not None
    assert short.change_kg is None
    assert long.change_kg is not None
    assert abs(long.change_kg) < 2


def test_where_the_goal_weight_has_been_lists_every_part_and_what_is_missing() -> None:
    log = [
        row("2026-01-05", "snatch pull", 64, sets=2, reps=3, aid="straps"),
        row("2026-01-05", "back squat", 90, reps=5),
        row("2026-01-06", "snatch", 64, made=0, miss="behind"),
        row("2026-01-06", "snatch", 63.5),
    ]
    found = facts(*log, lifter=KNOWN).goal_weight
    assert found is not None
    assert [(f.part, f.lift, f.times, f.made, f.misses) for f in found] == [
        ("pulled", "snatch pull", 6, 6, {}),
        ("squatted", "back squat", 5, 5, {}),
        ("overhead", "snatch balance", 0, 0, {}),
        ("hang", "low hang snatch", 0, 0, {}),
        ("floor", "snatch", 1, 0, {"behind": 1}),
    ]
    assert found[-1].heaviest_kg == 63.5
