"""Strength against skill: how much of the squat reaches the bar, a squat that rises alone."""

import datetime as dt

import pandas as pd
import pytest

from reportgen import trade
from reportgen.analysis import bests, strength
from reportgen.analysis.dossier import build
from reportgen.analysis.strength import Rise
from tests.analysis.logs import MAN, dossier, records, row

TRADE = trade.load()


def rise(*cells: dict[str, object], as_of: str) -> Rise | None:
    built = dossier(*cells, lifter=MAN, as_of=as_of)
    scored = bests.scoring(built.tables.sets, MAN.bests, pd.Timestamp(as_of))
    return strength.rise(scored, built.tables.sets, "snatch", as_of=dt.date.fromisoformat(as_of), trade=TRADE)


STILL = (
    row("2026-01-05", "snatch", 80),
    row("2026-02-16", "snatch", 76, made=0),
    row("2026-03-16", "snatch", 78),
)
SQUATS = (row("2026-01-07", "back squat", 150), row("2026-03-25", "back squat", 156))


def test_a_squat_up_four_per_cent_while_a_tried_lift_stands_still_for_twelve_weeks() -> None:
    found = rise(*STILL, *SQUATS, as_of="2026-03-30")
    assert found is not None
    assert found.share == pytest.approx(0.04)
    assert (found.weeks, found.tried, len(found.tried_days)) == (12, True, 2)
    assert (found.squat_then_kg, found.squat_now_kg, found.reps) == (150, 156, 1)


def test_eleven_weeks_are_not_enough() -> None:
    assert rise(*STILL, *SQUATS, as_of="2026-03-29") is None


def test_a_squat_up_by_less_is_none() -> None:
    less = (SQUATS[0], row("2026-03-25", "back squat", 155.9))
    assert rise(*STILL, *less, as_of="2026-03-30") is None


def test_a_lift_that_rose_does_not_stand_still() -> None:
    assert rise(*STILL, row("2026-03-20", "snatch", 82), *SQUATS, as_of="2026-03-30") is None


def test_a_lift_that_was_not_tried_is_said_to_be_so() -> None:
    found = rise(STILL[0], row("2026-03-16", "snatch", 70), *SQUATS, as_of="2026-03-30")
    assert found is not None
    assert not found.tried


def test_singles_are_not_compared_with_triples() -> None:
    triple = row("2026-01-07", "back squat", 130, reps=3)
    assert rise(*STILL, triple, SQUATS[1], as_of="2026-03-30") is None
    found = rise(*STILL, triple, row("2026-03-25", "back squat", 140, reps=3), as_of="2026-03-30")
    assert found is not None
    assert found.reps == 3


def test_expressed_strength_is_the_lift_over_what_the_squat_carries() -> None:
    # 160 kg with a band from 1.60 carries 100 kg; 90 of 100 reach the bar. A light month says nothing.
    data = records(
        row("2026-01-05", "snatch", 88),
        row("2026-02-05", "snatch", 90),
        row("2026-02-06", "back squat", 160),
        row("2026-03-05", "snatch", 70),
        lifter=MAN,
    )
    sets = build(data, TRADE).tables.sets
    (one,) = strength.expressed(sets, "snatch", strength.squat_band(data, "snatch", TRADE), TRADE) or ()
    assert (one.month, one.snatch_kg) == ("2026-02", 90.0)
    assert one.supported_kg == pytest.approx(100.0)
    assert one.share == pytest.approx(0.9)


def test_without_a_band_there_is_no_expressed_strength() -> None:
    data = records(row("2026-01-05", "snatch", 88), lifter=MAN)
    assert strength.expressed(build(data, TRADE).tables.sets, "snatch", None, TRADE) is None
