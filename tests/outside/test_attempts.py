"""Attempts, totals, bars and classes, against the IWF's Technical and Competition Rules (status S)."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.trade import formulas, load
from reportgen.words.phrases import said

TRADE = load()
Tries = list[tuple[float, bool]]


def test_the_total_is_the_best_snatch_and_the_best_clean_and_jerk() -> None:
    snatches: Tries = [(60, True), (63, False), (63, True)]
    assert formulas.contest_total(snatches, [(75, True), (79, True), (82, False)]) == 142


def faults_of(tries: Tries, day: dt.date | None = None) -> tuple[str, ...]:
    return tuple(map(said, formulas.attempt_faults(tries, TRADE, day)))


@pytest.mark.parametrize(
    ("snatches", "clean_and_jerks"),
    [
        ([(60, False), (60, False), (60, False)], [(75, True)]),
        ([(60, True)], [(75, False), (75, False), (76, False)]),
        ([(60, True)], []),
    ],
)
def test_a_lift_without_a_made_attempt_gives_no_total(snatches: Tries, clean_and_jerks: Tries) -> None:
    assert formulas.contest_total(snatches, clean_and_jerks) is None


@pytest.mark.parametrize(
    ("tries", "faults"),
    [
        ([(60, True), (61, False), (61, True)], ()),
        ([(60, False), (60, False), (60, False)], ()),
        ([(60, True), (60, True)], ("attempt 2 of 60 kg does not rise after a made 60 kg",)),
        ([(60, False), (59, True)], ("attempt 2 of 59 kg lies under the one before, 60 kg",)),
        ([(60.5, True)], ("attempt 1 of 60.5 kg is no whole kilogram",)),
        ([(60, True), (61, True), (62, True), (63, True)], ("attempt 4 is one more than 3",)),
    ],
)
def test_loads_are_whole_never_go_down_and_rise_after_a_made_lift(
    tries: Tries, faults: tuple[str, ...]
) -> None:
    assert faults_of(tries) == faults


@pytest.mark.parametrize(
    ("day", "faults"),
    [
        (dt.date(2005, 4, 30), ()),
        (dt.date(1999, 12, 31), ()),
        (dt.date(2005, 5, 1), ("attempt 1 of 92.5 kg is no whole kilogram",)),
        (None, ("attempt 1 of 92.5 kg is no whole kilogram",)),
    ],
)
def test_whole_kilograms_are_asked_for_from_may_2005_on_and_not_before(
    day: dt.date | None, faults: tuple[str, ...]
) -> None:
    assert faults_of([(92.5, True)], day) == faults


def test_before_may_2005_half_a_kilogram_more_is_a_rise_and_standing_still_or_going_down_is_a_fault() -> None:
    day = dt.date(2004, 8, 20)
    assert faults_of([(92.5, True), (93, True), (95, False)], day) == ()
    assert faults_of([(92.5, True), (92.5, True)], day) == (
        "attempt 2 of 92.5 kg does not rise after a made 92.5 kg",
    )
    assert faults_of([(92.5, False), (90, True)], day) == (
        "attempt 2 of 90 kg lies under the one before, 92.5 kg",
    )


def test_the_bar_and_collars_are_the_federations() -> None:
    weights = [TRADE.value(rule) for rule in ("bar_men_kg", "bar_women_kg", "collar_kg", "attempts_a_lift")]
    assert weights == [20, 15, 2.5, 3]


@pytest.mark.parametrize(
    ("load_kg", "standards", "side"),
    [  # C
        (100, "men", (25, 10, 2.5)),
        (101, "men", (25, 10, 2.5, 0.5)),
        (63, "women", (20, 1.5)),
        (25, "men", ()),
        (20, "women", ()),
    ],
)
def test_the_discs_of_a_side(load_kg: float, standards: str, side: tuple[float, ...]) -> None:
    assert formulas.bar_discs(load_kg, standards, TRADE) == side


@pytest.mark.parametrize(("load_kg", "standards"), [(24, "men"), (19, "women"), (60.5, "men"), (-5, "men")])
def test_a_load_that_no_discs_give_is_none(load_kg: float, standards: str) -> None:
    assert formulas.bar_discs(load_kg, standards, TRADE) is None


@given(st.integers(25, 300), st.sampled_from(["women", "men"]))
@settings(max_examples=60)
def test_discs_bar_and_collars_weigh_the_load(load_kg: int, standards: str) -> None:
    side = formulas.bar_discs(load_kg, standards, TRADE)
    assert side is not None
    bare_kg = TRADE.value(f"bar_{standards}_kg") + 2 * TRADE.value("collar_kg")
    assert bare_kg + 2 * sum(side) == load_kg
    assert list(side) == sorted(side, reverse=True)


#: S; 94 (2025) and the men of Aug 2026 R; 49 and 57 of the women of Aug 2026 M.
CLASSES = [
    ("2018-11-01", "men", "55 61 67 73 81 89 96 102 109", "S"),
    ("2018-11-01", "women", "45 49 55 59 64 71 76 81 87", "S"),
    ("2025-06-01", "men", "60 65 71 79 88 94 110", "R"),
    ("2025-06-01", "women", "48 53 58 63 69 77 86", "S"),
    ("2026-08-01", "men", "60 65 70 75 85 95 110", "R"),
    ("2026-08-01", "women", "49 53 57 61 69 77 86", "M"),
]


def test_body_mass_classes_have_their_dates() -> None:
    found = [(c.first, c.standards, " ".join(f"{k:g}" for k in c.limits_kg), c.status) for c in TRADE.classes]
    assert found == CLASSES


def test_attempts_of_senior_internationals_stand_beside() -> None:
    # C: 32 242 lifter-meets, 1998 to 2023.
    names = [
        f"{lift}_made_{nr}" for lift in ("snatch", "clean_and_jerk") for nr in ("first", "second", "third")
    ]
    assert [TRADE.published[name].mid for name in names] == [0.774, 0.635, 0.456, 0.812, 0.613, 0.368]
    openers = [TRADE.published[name].mid for name in ("snatch_opener", "clean_and_jerk_opener")]
    assert openers == [0.964, 0.968]
    assert {TRADE.published[name].status for name in names} == {"C"}


def test_proposed_attempts_are_those_of_practice() -> None:
    # P
    names = ["opener_low", "opener_high"]
    assert [TRADE.value(name) for name in names] == [0.90, 0.94]  # usually 90 to 95 % of the best
    assert {TRADE.rules[name].status for name in names} == {"P"}
