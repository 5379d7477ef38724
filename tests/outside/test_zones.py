"""Prilepin's table (as reported by Hristov 2005, status R), and a session's sums (C)."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.model.lifter import Goal, Lifter, PriorBest
from reportgen.trade import formulas, load
from tests.analysis.logs import facts, row

ZONES = load().zones


def test_prilepins_table_is_the_reported_one() -> None:
    # R
    found = [(z.reps_a_set_low, z.reps_a_set_high, z.optimal, z.range_low, z.range_high) for z in ZONES]
    assert found == [(3, 6, 24, 18, 30), (3, 6, 18, 12, 24), (2, 4, 15, 10, 20), (1, 2, 7, 4, 10)]
    assert [(z.low, z.high) for z in ZONES] == [(None, 0.70), (0.70, 0.80), (0.80, 0.90), (0.90, None)]
    assert {z.status for z in ZONES} == {"R"}


def test_at_80_per_cent_the_upper_zone_is_taken() -> None:
    # The table is also printed with touching zones; the rule taken is [low, high).
    shares = [0.6999, 0.70, 0.7999, 0.80, 0.8999, 0.90, 1.05]
    assert [formulas.zone_index(share, ZONES) for share in shares] == [0, 1, 1, 2, 2, 3, 3]


@pytest.mark.parametrize(
    ("sets", "reps", "share", "inside", "over_optimal"),
    [  # C
        (5, 3, 0.75, True, False),  # 15
        (6, 2, 0.825, True, False),  # 12
        (8, 1, 0.92, True, True),  # 8 inside, above 7
        (5, 5, 0.85, False, True),  # 25 above 20
    ],
)
def test_a_session_against_the_table(
    sets: int, reps: int, share: float, inside: bool, over_optimal: bool
) -> None:
    zone = ZONES[formulas.zone_index(share, ZONES)]
    reps_by_zone = [sets * reps if one is zone else 0 for one in ZONES]
    assert (formulas.prilepin_load(reps_by_zone, ZONES) <= 1) is inside
    assert zone.range_low <= sets * reps
    assert (sets * reps > zone.optimal) is over_optimal


def test_the_bound_is_summed_over_zones() -> None:
    # C: 12/24 + 10/20 = 1, one repetition at 92 % more is a tenth over.
    assert formulas.prilepin_load([0, 12, 10, 0], ZONES) == pytest.approx(1.0)
    assert formulas.prilepin_load([0, 12, 10, 1], ZONES) == pytest.approx(1.1)


def test_repetitions_tonnage_and_relative_load_of_one_session() -> None:
    # C: snatch 60x3 70x2 80x2 85 90 92, best 100: 10 repetitions, 747 kg, mean 74.7 kg, mean relative 0.747.
    best = PriorBest(lift="snatch", kg=100, date=dt.date(2026, 1, 10), where="contest")
    man = Lifter(name="Ib Strand", standards="men", goals=(Goal(lift="snatch", kg=105.0),), bests=(best,))
    session = [(60, 3), (70, 2), (80, 2), (85, 1), (90, 1), (92, 1)]
    log = [row("2026-03-02", "snatch", load_kg, reps=reps) for load_kg, reps in session]
    exposure = facts(*log, lifter=man).exposure
    assert exposure is not None
    (week,) = exposure.weeks
    assert (week.repetitions, week.tonnage_kg, week.counted_repetitions) == (10, 747, 10)
    assert week.tonnage_kg / week.repetitions == pytest.approx(74.7)
    assert week.relative_load == pytest.approx(0.747)


@given(st.lists(st.floats(0.3, 1.3), min_size=1, max_size=30))
@settings(max_examples=40)
def test_many_shares_fall_into_the_zones_that_each_one_falls_into(shares: list[float]) -> None:
    assert list(formulas.zone_indices(shares, ZONES)) == [formulas.zone_index(s, ZONES) for s in shares]


@given(st.integers(40, 600), st.sampled_from([0.7, 0.8, 0.9]))
@settings(max_examples=60)
def test_a_log_in_pounds_falls_into_the_same_zone(best: int, edge: float) -> None:
    in_kg = formulas.zone_index(edge * best / best, ZONES)
    pounds = [load_lb * load().value("pound") for load_lb in (edge * best, best)]
    assert formulas.zone_index(pounds[0] / pounds[1], ZONES) == in_kg
    assert formulas.zone_indices(np.array([pounds[0] / pounds[1]]), ZONES)[0] == in_kg
