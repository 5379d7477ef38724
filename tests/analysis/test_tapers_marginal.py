"""The usual week left open: the closed form against the covariance it stands for, and what it spares."""

from dataclasses import replace

import numpy as np
import pytest

from reportgen.analysis import onset
from reportgen.analysis.baseline import (
    WEEK,
    Array,
    Baseline,
    Days,
    Marginal,
    log_share,
    marginal,
    usual_session,
    usual_week,
)
from reportgen.trade import load
from tests.analysis.seasons import Plan, Season, draw_many, make, readable, windows

TRADE = load()
DAYS, SEARCHED = 70, 28


def usual(load_kg: Array) -> Baseline:
    rows = load_kg.reshape(1, -1, WEEK)
    return usual_week(rows, (rows > 0).astype(np.float64), TRADE)


def judged(seed: int) -> tuple[Array, Array, Days, Marginal]:
    """A small log without light weeks: daily load, weight, weekday, and how it is judged."""
    rng = np.random.default_rng(seed)
    column: Days = np.arange(DAYS)[None] % WEEK
    load_kg = np.where(np.isin(column, (0, 2, 5)), 8000 * rng.uniform(0.95, 1.05, (1, DAYS)), 0.0)
    weight = np.where(load_kg > 0, rng.uniform(0.5, 1.0, load_kg.shape), 0.0)
    return load_kg, weight, column, marginal(load_kg, weight, column, SEARCHED, usual(load_kg), TRADE)


@pytest.mark.parametrize("seed", range(5))
def test_what_is_left_is_the_quadratic_form_of_the_whole_covariance(seed: int) -> None:
    load_kg, weight, column, found = judged(seed)
    done = weight[0] > 0
    narrow = 1 / (1 + TRADE.value("taper_share_floor"))
    # The scatter that was used is known from the size of an odd day.
    variance = float(found.odd_size[0]) * (TRADE.value("taper_odd_size") * narrow) ** 2
    drift = (TRADE.value("taper_drift") * narrow) ** 2 / variance
    weekday = (TRADE.value("taper_weekday_spread") * narrow) ** 2 / variance
    days = np.arange(DAYS)[done]
    time = days / DAYS - 0.5
    same = column[0, done][:, None] == column[0, done][None, :]
    whole = np.diag(1 / weight[0, done]) + 1e3 + drift * np.outer(time, time) + weekday * same
    log_kg = log_share(load_kg[0, done] / usual_session(usual(load_kg))[0], TRADE)
    shift = np.random.default_rng(seed).uniform(-0.6, 0.0, (1, 4, SEARCHED))
    direct = []
    for one in shift[0]:
        off = log_kg - np.concatenate([np.zeros(DAYS - SEARCHED), one])[done]
        direct.append(off @ np.linalg.solve(whole, off))
    assert found.left(shift)[0] == pytest.approx(direct, rel=1e-6)


def test_two_shifts_together_are_their_sum() -> None:
    *_, found = judged(1)
    one, other = np.random.default_rng(1).uniform(-0.5, 0.0, (2, 1, 3, SEARCHED))
    both = found.both(one, other)
    for n in range(3):
        assert both[0, n] == pytest.approx(found.left(one[:, n : n + 1] + other)[0], rel=1e-9)


def test_one_odd_session_costs_less_than_its_distance() -> None:
    *_, found = judged(2)
    odd = np.zeros((1, 1, SEARCHED))
    odd[0, 0, 14] = -0.7
    assert found.likely(odd)[0, 0] > found.log(found.left(odd))[0, 0] + 3


@pytest.mark.parametrize("begins", range(60, 68))
def test_a_light_week_that_begins_on_any_day_leaves_the_usual_load(begins: int) -> None:
    plan = Plan(days=0, cut=0.5, weekdays=(0, 1, 3, 4, 6), noise=0.04)
    plain = make(np.random.default_rng(9), plan)
    light = replace(plain, load=plain.load.copy())
    light.load[-begins : 7 - begins] *= 0.55
    before, after = (onset.find(*windows([season]), TRADE) for season in (plain, light))
    assert after.base.session_kg == pytest.approx(before.base.session_kg, rel=0.05)
    assert after.spread[0] < 1.5 * before.spread[0]
    assert after.days.tolist() == [0]


def _halved(season: Season, before: int) -> Season:
    kg = season.load.copy()
    kg[-before] *= 0.45
    return replace(season, load=kg)


@pytest.mark.parametrize("before", [5, 10, 12, 19])
def test_half_a_session_once_is_no_taper_and_hides_none(before: int) -> None:
    plan = Plan(days=0, cut=0.5, weekdays=(2, 4, 5, 0), noise=0.06)
    seasons = [_halved(make(np.random.default_rng(seed), plan), before) for seed in range(20)]
    assert (onset.find(*windows(seasons), TRADE).days > 0).sum() <= 1


def test_a_rest_on_the_eve_says_nothing() -> None:
    plan = Plan(days=0, cut=0.5, weekdays=(1, 3, 6), noise=0.06, eve_off=True)
    season = make(np.random.default_rng(3), plan)
    rested = onset.find(*windows([season]), TRADE)
    trained = onset.find(*windows([make(np.random.default_rng(3), replace(plan, eve_off=False))]), TRADE)
    assert rested.days.tolist() == trained.days.tolist() == [0]


def test_tapers_are_found_when_whole_weeks_scatter_too() -> None:
    # Not how the seasons are made: every week is up or down as a whole.
    rng = np.random.default_rng(9)
    seasons = [season for season in draw_many(9, 300, noise=0.1, lost=0.0, taper=True) if readable(season)]
    uneven = []
    for season in seasons:
        weeks = np.exp(0.08 * rng.standard_normal(len(season.load) // WEEK + 1))
        uneven.append(replace(season, load=season.load * weeks[np.arange(len(season.load)) // WEEK]))
    days = onset.find(*windows(uneven), TRADE).days
    assert np.mean(np.abs(days - np.array([season.days for season in seasons])) <= 3) > 0.85
