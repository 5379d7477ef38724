"""Said and done: what the coach decided beside what came of it."""

import datetime as dt
from dataclasses import replace
from typing import Literal

import numpy as np
import pandas as pd

from reportgen import trade
from reportgen.analysis import bests, decisions
from reportgen.analysis.dossier import build
from reportgen.model.findings import Need, SaidDone
from reportgen.model.tables import DECISIONS, typed
from tests.analysis.logs import MAN, records, row

TRADE = trade.load()


def need(rank: int, name: str) -> Need:
    return Need(
        rank=rank,
        area="skill",
        id=name,
        kilos=None,
        confidence="low",
        claim="",
        evidence=(),
        what_would_settle="",
    )


def said(
    *needs: Need, finding: str = "back_squat_short", check: str = "2026-05-01", later_kg: float = 84.0,
    verdict: Literal["kept", "changed", "dropped"] = "kept",
) -> SaidDone:  # fmt: skip
    table = typed(
        {
            "date": [np.datetime64("2026-03-01", "s")],
            "finding": [finding],
            "verdict": [verdict],
            "why": ["legs first"],
            "check": [np.datetime64(check or "NaT", "s")],
            "file": ["decisions.csv"],
            "line": [2],
        },
        DECISIONS,
    )
    data = records(
        row("2026-02-01", "snatch", 80), row("2026-06-01", "snatch", later_kg), lifter=MAN, as_of="2026-06-10"
    )
    data = replace(data, decisions=table)
    scored = bests.scoring(build(data, TRADE).tables.sets, (), pd.Timestamp(data.as_of))
    found = decisions.said_and_done(data, scored, ("snatch",), needs, TRADE)
    assert found is not None
    return found[0]


def test_without_decisions_nothing_is_said() -> None:
    data = records(row("2026-02-01", "snatch", 80), lifter=MAN)
    scored = bests.scoring(build(data, TRADE).tables.sets, (), pd.Timestamp(data.as_of))
    assert decisions.said_and_done(data, scored, ("snatch",), (), TRADE) is None


def test_a_finding_that_is_gone_after_a_gain_proved_right() -> None:
    one = said(need(1, "technique_off"))
    assert (one.state, one.gain_kg, one.proved, one.due) == ("gone", 4.0, True, True)
    assert one.text == (
        "Kept on 1 Mar 2026; it is no longer found. The best of the snatch has risen by 4 kg since."
    )


def test_a_finding_that_is_gone_without_a_gain_did_not_prove_right() -> None:
    one = said(later_kg=80.0)
    assert (one.state, one.gain_kg, one.proved) == ("gone", 0.0, False)


def test_a_finding_that_still_leads_or_is_still_listed_says_so() -> None:
    assert said(need(1, "back_squat_short")).state == "first"
    listed = said(need(1, "technique_off"), need(2, "back_squat_short"))
    assert (listed.state, listed.rank, listed.proved) == ("listed", 2, False)


def test_before_the_day_to_look_again_nothing_is_proved() -> None:
    one = said(check="2026-09-01")
    assert (one.due, one.proved) == (False, None)
    assert "1 Sep 2026" in one.text


def test_a_dropped_finding_proves_nothing() -> None:
    assert said(verdict="dropped").proved is None


def test_a_name_of_no_finding_is_unknown() -> None:
    one = said(finding="knees_cave")
    assert (one.state, one.proved) == ("unknown", None)


def test_a_gain_needs_a_best_on_both_sides_of_the_day() -> None:
    rows = pd.DataFrame({"date": pd.to_datetime(["2026-01-01", "2026-02-01"]), "load_kg": [80.0, 85.0]})
    assert decisions.gained(rows, dt.date(2026, 1, 15)) == 5.0
    assert decisions.gained(rows, dt.date(2025, 12, 1)) is None
    assert decisions.gained(rows, dt.date(2026, 3, 1)) is None
