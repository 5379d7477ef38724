"""Said and done: what the coach decided, and what became of the thing that it was about."""

import datetime as dt
from dataclasses import replace
from typing import Literal

import numpy as np
import pandas as pd
import pytest

from reportgen.analysis import bests
from reportgen.model.findings import SaidDone
from reportgen.model.records import Records
from reportgen.model.tables import DECISIONS, SCREENING, TECHNIQUE, typed
from reportgen.words import plain, spoken
from tests.analysis.logs import MAN, attempt, records, row
from tests.analysis.test_needs import judged

THEN = "2026-03-01"


def said(
    data: Records, finding: str, *, check: str = "", verdict: Literal["kept", "changed", "dropped"] = "kept"
) -> SaidDone:
    table = typed(
        {
            "date": [np.datetime64(THEN, "s")],
            "finding": [finding],
            "verdict": [verdict],
            "why": ["legs first"],
            "check": [np.datetime64(check or "NaT", "s")],
            "file": ["decisions.csv"],
            "line": [2],
        },
        DECISIONS,
    )
    found = judged(replace(data, decisions=table)).said_and_done
    assert found is not None
    return found[0]


def squatted(then_kg: float, *later: tuple[float, int]) -> Records:
    """A squat before the decision and those after it, each with its makes."""
    rows = [row("2026-02-01", "back squat", then_kg, effort=9.0), row("2026-02-02", "snatch", 80)]
    rows += [
        row(f"2026-05-{place + 1:02d}", "back squat", kg, made=made, effort=9.5)
        for place, (kg, made) in enumerate(later)
    ]
    return records(*rows, lifter=MAN, as_of="2026-06-10")


def test_without_decisions_nothing_is_said() -> None:
    assert judged(squatted(120)).said_and_done is None


@pytest.mark.parametrize(
    ("later", "outcome", "proved"),
    [
        (((125, 1),), "better", True),
        (((120, 1),), "same", False),
        (((114, 1), (116, 0)), "worse", False),
        (((100, 1),), "untried", None),
        ((), "untried", None),
    ],
)
def test_a_short_squat_is_judged_by_the_squat(
    later: tuple[tuple[float, int], ...], outcome: str, proved: bool | None
) -> None:
    one = said(squatted(120, *later), "back_squat_short")
    assert (one.outcome, one.proved) == (outcome, proved)


def test_a_squat_that_rose_is_better_though_it_is_still_short_and_listed() -> None:
    one = said(squatted(120, (125, 1)), "back_squat_short")
    assert one.state in ("first", "listed")
    assert plain(spoken(one.text)) == "Kept on 1 Mar 2026: better. Back squat: 120 kg then, 125 kg since."


def test_a_retest_that_failed_is_told_with_its_weight() -> None:
    one = said(squatted(120, (118, 1), (124, 0)), "back_squat_short")
    assert "124 kg was tried and missed" in plain(spoken(one.text))


def test_a_position_is_judged_by_its_own_reading_under_like_conditions() -> None:
    def readings(now: float, conditions: str = "barefoot") -> Records:
        cells: dict[str, list[object]] = {
            "date": [np.datetime64("2026-02-01", "s"), np.datetime64("2026-05-01", "s")],
            "item": ["knee to wall"] * 2, "side": ["left"] * 2, "load_kg": [np.nan] * 2,
            "reading": [7.0, now], "grade": ["", ""], "conditions": ["barefoot", conditions],
            "remark": [""] * 2, "file": ["screening.csv"] * 2, "line": [2, 3],
        }  # fmt: skip
        return replace(squatted(120), screening=typed(cells, SCREENING))

    assert said(readings(9.0), "position_not_reached").outcome == "better"
    assert said(readings(7.5), "position_not_reached").outcome == "same"
    assert said(readings(5.5), "upkeep_stopped").outcome == "worse"
    assert said(readings(9.0, "shoes"), "position_not_reached").outcome == "untried"


def test_technique_is_judged_by_the_gradings_since() -> None:
    def graded(*now: str) -> Records:
        grades = ["off", "off", *now]
        days = ["2026-02-01", "2026-02-15", *(f"2026-05-{n + 1:02d}" for n in range(len(now)))]
        cells: dict[str, list[object]] = {
            "date": [np.datetime64(day, "s") for day in days], "lift": ["snatch"] * len(days),
            "load_kg": [np.nan] * len(days),
            "checkpoint": ["receiving depth"] * len(days), "grade": [*grades],
            "clip": [""] * len(days), "remark": [""] * len(days), "file": ["technique.csv"] * len(days),
            "line": list(range(2, len(days) + 2)),
        }  # fmt: skip
        return replace(squatted(120), technique=typed(cells, TECHNIQUE))

    assert said(graded("good", "good"), "technique_off").outcome == "better"
    assert said(graded("off", "off"), "technique_off").outcome == "same"
    assert said(graded(), "technique_off").outcome == "untried"


def test_misses_are_judged_per_heavy_try_before_and_since() -> None:
    def missed(since: int) -> Records:
        rows = [row("2025-12-01", "snatch", 100), row("2026-01-05", "snatch", 100)]
        rows += [
            row("2026-02-01", "snatch", 95, sets=4, made=0, miss="recovery"),
            row("2026-02-02", "snatch", 95, sets=8),
        ]
        rows += [row("2026-05-01", "snatch", 95, sets=12 - since)]
        rows += [row("2026-05-02", "snatch", 95, sets=since, made=0, miss="recovery")] if since else []
        return records(*rows, lifter=MAN, as_of="2026-06-10")

    assert said(missed(0), "misses_recovery").outcome == "better"
    assert said(missed(4), "misses_recovery").outcome == "same"
    assert said(missed(9), "misses_recovery").outcome == "worse"


def test_a_taper_is_judged_by_the_next_test_day() -> None:
    def tested(kg: float) -> Records:
        rows = [attempt("2026-02-20", "snatch", 90, True), attempt("2026-05-20", "snatch", kg, True)]
        return records(*rows, lifter=MAN, as_of="2026-06-10")

    assert said(tested(92), "long_taper", verdict="changed").outcome == "better"
    assert said(tested(89), "long_taper", verdict="changed").outcome == "worse"


def test_before_the_day_to_look_again_nothing_is_held_against_it() -> None:
    one = said(squatted(120, (118, 1)), "back_squat_short", check="2026-09-01")
    assert (one.due, one.outcome, one.proved) == (False, "too early", None)
    assert "1 Sep 2026" in plain(spoken(one.text))


def test_a_dropped_finding_proves_nothing() -> None:
    assert said(squatted(120, (125, 1)), "back_squat_short", verdict="dropped").proved is None


def test_a_name_of_no_finding_is_unknown() -> None:
    one = said(squatted(120, (125, 1)), "knees_cave")
    assert (one.state, one.outcome, one.proved) == ("unknown", "unknown", None)


def test_a_gain_needs_a_best_on_both_sides_of_the_day() -> None:
    rows = pd.DataFrame({"date": pd.to_datetime(["2026-01-01", "2026-02-01"]), "load_kg": [80.0, 85.0]})
    assert bests.gained(rows, pd.Timestamp(dt.date(2026, 1, 15))) == 5.0
    assert bests.gained(rows, pd.Timestamp(dt.date(2025, 12, 1))) is None
    assert bests.gained(rows, pd.Timestamp(dt.date(2026, 3, 1))) is None
