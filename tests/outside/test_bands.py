"""What usually goes with a goal, against the ratios between lifts of practice and of the literature."""

import math

import pytest

from reportgen.trade import load
from reportgen.trade.schema import Band
from tests.analysis.logs import MAN, facts, row

TRADE = load()


def band(key: str, goal_lift: str = "snatch", standards: str = "men") -> Band:
    (found,) = (b for b in TRADE.indicator_bands(goal_lift, standards) if b.id == key)
    return found


@pytest.mark.parametrize(
    ("key", "goal_lift", "low", "high", "short_at", "status"),
    [
        ("back_squat", "snatch", 1.60, 1.80, 1.50, "P"),
        ("power_snatch", "snatch", 0.75, 0.80, 0.75 * 0.975, "P"),
        ("low_hang_snatch", "snatch", 0.80, 0.85, 0.80 * 0.975, "P"),
        ("snatch_balance", "snatch", 1.10, None, 1.00, "P"),
        ("overhead_squat", "snatch", 1.00, None, 0.975, "R"),  # one coach's table
        ("back_squat", "clean and jerk", 1.20, 1.35, 1.20 * 0.975, "P"),
        ("front_squat", "clean and jerk", 1.05, 1.18, 1.05 * 0.975, "P"),
        ("clean", "clean and jerk", 1.02, 1.08, 1.02 * 0.975, "P"),
        ("jerk", "clean and jerk", 1.03, 1.10, 1.03 * 0.975, "P"),
        ("power_clean", "clean and jerk", 0.78, 0.85, 0.78 * 0.975, "P"),
        ("push_press", "clean and jerk", 0.75, 0.85, 0.75 * 0.975, "P"),
    ],
)
def test_a_mans_band_is_that_of_practice(
    key: str, goal_lift: str, low: float, high: float | None, short_at: float, status: str
) -> None:
    found = band(key, goal_lift)
    assert (found.low, found.high, found.status, found.base) == (low, high, status, "goal")
    assert found.short_at == pytest.approx(short_at, rel=1e-12)


def test_where_practice_states_no_lower_limit_short_is_the_tolerance_under_the_edge() -> None:
    stated = {("back_squat", "snatch"), ("snatch_balance", "snatch")}
    for found in TRADE.bands:
        if found.base == "goal" and (found.id, found.goal_lift) not in stated:
            assert found.low is not None
            assert found.short_at == pytest.approx(found.low * (1 - TRADE.value("short_tolerance")))


def test_women_power_snatch_about_080_of_the_goal_and_every_other_band_is_borrowed() -> None:
    # P: women about 0.80; where practice states none the band is the men's and says so.
    own = band("power_snatch", standards="women")
    assert own.low is not None
    assert own.high is not None
    assert (own.low + own.high) / 2 == pytest.approx(0.80)
    assert not own.borrowed
    for goal_lift in ("snatch", "clean and jerk"):
        for found in TRADE.indicator_bands(goal_lift, "women"):
            mens = band(found.id, goal_lift)
            if found.base == "goal" and found.id != "power_snatch":
                assert found.borrowed
                assert "men's" in found.note
                assert (found.low, found.high, found.short_at) == (mens.low, mens.high, mens.short_at)


def test_the_balance_is_short_at_the_goal_weight_unless_it_goes_for_three() -> None:
    # P: a limit of 1.00 or less means overhead work; the goal weight for three is enough.
    found = band("snatch_balance")
    assert (found.short_at, found.short_at_inclusive) == (1.00, True)
    assert (found.alternative_reps, found.alternative_share) == (3, 1.00)
    squat = band("front_squat", "clean and jerk")
    assert (squat.alternative_reps, squat.alternative_share) == (3, 1.00)


def test_a_back_squat_of_150_kg_supports_83_3_to_93_8_kg_in_the_snatch() -> None:
    # C: 150 / 1.80 and 150 / 1.60.
    found = facts(
        row("2026-03-02", "snatch", 80), row("2026-03-02", "back squat", 150, effort=9.0), lifter=MAN
    )
    assert found.indicators is not None
    (squat,) = (one for one in found.indicators if one.id == "back_squat")
    assert squat.supports_low_kg == pytest.approx(83.3, abs=0.05)
    assert squat.supports_high_kg == pytest.approx(93.8, abs=0.05)


@pytest.mark.parametrize(
    ("key", "goal_lift", "low", "high", "status"),
    [  # As printed, the goal lift / the other lift, except the last two.
        ("snatch_of_back_squat", "snatch", 1 / 0.64, 1 / 0.60, "R"),
        ("snatch_of_back_squat_higher", "snatch", 1 / 0.66, 1 / 0.64, "R"),
        ("snatch_of_clean_and_jerk", "snatch", 1 / 0.833, 1 / 0.779, "C"),
        ("clean_and_jerk_of_back_squat", "clean and jerk", 1 / 0.84, 1 / 0.76, "R"),
        ("snatch_of_clean_and_jerk", "clean and jerk", 0.779, 0.833, "C"),
        ("low_hang_snatch_present", "snatch", 0.85, 1.00, "P"),
    ],
)
def test_shares_of_the_present_lift_are_context_and_never_a_need(
    key: str, goal_lift: str, low: float, high: float, status: str
) -> None:
    for standards in ("men", "women"):
        found = band(key, goal_lift, standards)
        assert found.low == pytest.approx(low)
        assert found.high == pytest.approx(high)
        assert (found.base, found.context, found.short_at, found.status) == ("present", True, None, status)


def test_the_two_answers_about_the_power_snatch_are_kept_apart() -> None:
    # P 0.75 to 0.80 of the goal; S 0.88 of the present single (Czaplicki et al., PLoS ONE 2019).
    study = TRADE.published["power_snatch_of_snatch"]
    assert (study.mid, study.low, study.high, study.status) == (0.88, None, None, "S")
    assert study.unit == "share of the present lift"
    assert not any(b.lift == "power snatch" and b.base == "present" for b in TRADE.bands)
    assert (TRADE.value("power_snatch_inflated"), TRADE.rules["power_snatch_inflated"].status) == (0.90, "P")


@pytest.mark.parametrize(
    ("key", "mid", "status"),
    [
        ("hang_snatch_of_snatch", 0.95, "S"),
        ("hang_power_snatch_of_snatch", 0.79, "S"),
        ("overhead_squat_of_snatch", 1.00, "R"),
        ("snatch_balance_of_snatch", 1.05, "R"),
        ("hang_of_floor", 0.90, "P"),
        ("front_squat_of_back_squat", 0.85, "R"),
        ("power_clean_of_clean_and_jerk", 0.88, "R"),
        ("power_clean_knee_of_floor", 0.938, "C"),
        ("snatch_of_clean_and_jerk", 0.806, "C"),
        ("variation_total", 0.037, "C"),
        ("variation_snatch", 0.040, "C"),
    ],
)
def test_a_published_mean_stands_beside_with_its_status(key: str, mid: float, status: str) -> None:
    found = TRADE.published[key]
    assert (found.mid, found.status) == (mid, status)


def test_the_real_change_of_a_power_clean_follows_from_its_error() -> None:
    # S: typical error 2.9 kg, real change 8.0 kg (Faigenbaum et al., JSCR 2012).
    error, change = (TRADE.published[key].mid for key in ("power_clean_error", "power_clean_real_change"))
    assert error is not None
    assert 1.96 * math.sqrt(2) * error == pytest.approx(change, abs=0.05)


def test_lifts_more_than_90_days_apart_are_compared_with_a_warning_only() -> None:
    assert TRADE.value("pair_days_max") == 90
