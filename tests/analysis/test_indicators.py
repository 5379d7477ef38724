"""Indicators: bands, limits, readings, and the goal lift that a figure supports."""

from dataclasses import replace

import pytest

from reportgen.model.facts import IndicatorFact
from reportgen.model.lifter import CoachBand, Goal, Lifter
from tests.analysis.logs import MAN, WOMAN, attempt, facts, row, weeks_of


def squat(kg: float, *, lifter: Lifter = MAN, shown: bool = True) -> IndicatorFact:
    log = [row("2026-01-05", "back squat", kg, effort=9 if shown else 5), row("2026-01-05", "snatch", 90)]
    return read("back_squat", *log, lifter=lifter)


def read(name: str, *log: dict[str, object], lifter: Lifter = MAN) -> IndicatorFact:
    found = facts(*log, lifter=lifter).indicators
    assert found is not None
    return next(fact for fact in found if fact.id == name)


def test_a_squat_of_150_supports_a_snatch_of_83_to_94() -> None:
    # Band 1.60 to 1.80 of the goal snatch: common practice (P); 150 / 1.80 and 150 / 1.60 computed (C).
    fact = squat(150)
    assert fact.supports_low_kg == pytest.approx(83.3333, abs=1e-4)
    assert fact.supports_high_kg == pytest.approx(93.75)
    assert fact.low_kg == pytest.approx(160)
    assert fact.high_kg == pytest.approx(180)


@pytest.mark.parametrize(
    ("kg", "reading"),
    [
        (149.98, "short"),
        (150, "lean"),
        (159.98, "lean"),
        (160, "within"),
        (180, "within"),
        (180.02, "beyond"),
    ],
)
def test_a_back_squat_reads_short_lean_within_and_beyond_with_the_edges_in_the_band(
    kg: float, reading: str
) -> None:
    assert squat(kg).reading == reading


def test_a_load_that_was_never_a_limit_is_never_short() -> None:
    fact = squat(100, shown=False)
    assert (fact.limit, fact.reading, fact.shortfall_kg) == ("open", "untested", None)
    assert fact.supports_high_kg == pytest.approx(62.5)  # it carries at least so much


def test_an_open_limit_above_the_edge_is_enough_all_the_same() -> None:
    assert squat(165, shown=False).reading == "within"


def test_a_miss_above_shows_the_limit() -> None:
    log = [row("2026-01-05", "back squat", 140), row("2026-01-06", "back squat", 145, made=0)]
    assert read("back_squat", *log).limit == "shown"


def test_a_miss_below_the_heaviest_shows_nothing() -> None:
    log = [row("2026-01-05", "back squat", 140), row("2026-01-06", "back squat", 135, made=0)]
    assert read("back_squat", *log).limit == "open"


def test_a_made_attempt_shows_the_limit() -> None:
    log = [attempt("2026-01-05", "back squat", 140, True, kind="test"), row("2026-01-06", "back squat", 130)]
    assert read("back_squat", *log).limit == "shown"


@pytest.mark.parametrize(("weeks", "reps", "limit"), [(6, 3, "near"), (5, 3, "open"), (6, 4, "open")])
def test_the_heaviest_of_six_sessions_at_three_or_fewer_is_near_a_limit(
    weeks: int, reps: int, limit: str
) -> None:
    assert read("back_squat", *weeks_of("back squat", 140, "2026-01-05", weeks, reps=reps)).limit == limit


def test_the_shortfall_is_the_way_to_the_band() -> None:
    assert squat(145).shortfall_kg == pytest.approx(15)


@pytest.mark.parametrize(
    ("kg", "reps", "reading"),
    # Snatch balance: 1.10 and over; a limit of 1.00 or less is short; the goal for three is enough (P).
    [(100, 1, "short"), (100.5, 1, "lean"), (110, 1, "within"), (150, 1, "within"), (100, 3, "within")],
)
def test_a_snatch_balance_has_an_open_upper_edge_and_the_goal_for_three_is_enough(
    kg: float, reps: int, reading: str
) -> None:
    fact = read("snatch_balance", row("2026-01-05", "snatch balance", kg, reps=reps, effort=9.5))
    assert fact.reading == reading
    assert (fact.high_kg, fact.supports_low_kg) == (None, None)


def test_an_untested_lift_says_so_and_keeps_its_band() -> None:
    fact = read("low_hang_snatch", row("2026-01-05", "snatch", 90))
    assert (fact.current_kg, fact.reading, fact.limit, fact.shortfall_kg) == (None, "untested", None, None)
    assert fact.low_kg == pytest.approx(80)


def test_the_present_share_of_a_power_snatch_is_of_the_present_single() -> None:
    log = [row("2026-01-05", "power snatch", 81, effort=9), row("2026-01-05", "snatch", 90)]
    fact = read("power_snatch", *log)
    assert fact.reading == "beyond"
    assert fact.present_share == pytest.approx(0.9)


def test_a_coachs_own_band_changes_the_reading_and_is_shown_as_the_coachs() -> None:
    lifter = replace(MAN, bands=(CoachBand(indicator="back_squat", low=1.40, high=1.60),))
    fact = squat(145, lifter=lifter)
    assert (fact.reading, fact.status, fact.source) == ("within", "coach", "coach")
    assert squat(145).reading == "short"


def test_two_figures_far_apart_in_time_say_so() -> None:
    log = [row("2026-01-05", "back squat", 150), row("2026-03-20", "snatch", 90)]
    assert read("back_squat", *log).days_apart == 74


def test_context_ratios_are_never_needs() -> None:
    found = facts(
        row("2026-01-05", "clean and jerk", 110), row("2026-01-05", "snatch", 90), lifter=MAN
    ).indicators
    assert found is not None
    assert [fact.id for fact in found if not fact.context] == [
        "back_squat", "power_snatch", "low_hang_snatch", "snatch_balance", "overhead_squat",
    ]  # fmt: skip
    assert all(fact.base == "present" for fact in found if fact.context)


def test_a_body_mass_goal_without_a_body_mass_has_no_goal_weight_and_no_indicators() -> None:
    lifter = replace(WOMAN, goals=(Goal(lift="snatch", times_body_mass=1.0),))
    found = facts(row("2026-01-05", "snatch", 55), lifter=lifter)
    assert (found.goals[0].goal_kg, found.goals[0].gap_kg, found.indicators) == (None, None, None)
