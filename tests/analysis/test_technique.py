"""Checkpoints over time: the latest grade, how long it has been off, from which load."""

import datetime as dt

import numpy as np
import pandas as pd
import pytest

from reportgen import trade
from reportgen.analysis import technique
from reportgen.model.findings import CheckpointFact, TechniqueFact
from reportgen.model.lifter import Goal, Lifter
from reportgen.model.records import Records
from reportgen.model.tables import SETS, TECHNIQUE, empty, typed

LIFTER = Lifter(
    name="Runa Velde", standards="women", goals=(Goal(lift="snatch", kg=64.0),), accepted=("pull under feet",)
)


def rows(*cells: tuple[str, str, float | None, str, str]) -> pd.DataFrame:
    """Rows of date, lift, kg, checkpoint, grade."""
    return typed(
        {
            "date": [np.datetime64(cell[0], "s") for cell in cells],
            "lift": [cell[1] for cell in cells],
            "load_kg": [np.nan if cell[2] is None else cell[2] for cell in cells],
            "checkpoint": [cell[3] for cell in cells],
            "grade": [cell[4] for cell in cells],
            "clip": [""] * len(cells),
            "remark": [""] * len(cells),
            "file": ["technique.csv"] * len(cells),
            "line": list(range(2, len(cells) + 2)),
        },
        TECHNIQUE,
    )


def read(*cells: tuple[str, str, float | None, str, str]) -> TechniqueFact:
    records = Records(
        folder="runa", lifter=LIFTER, as_of=dt.date(2026, 6, 30), sets=empty(SETS), technique=rows(*cells)
    )
    found = technique.read(records, trade.load())
    assert found is not None
    return found


def one(*cells: tuple[str, float | None, str]) -> CheckpointFact:
    """The fact of one checkpoint from date, kg, grade."""
    (fact,) = read(*((date, "snatch", kg, "receiving depth", grade) for date, kg, grade in cells)).checkpoints
    return fact


def test_without_a_row_there_is_no_technique() -> None:
    records = Records(folder="runa", lifter=LIFTER, as_of=dt.date(2026, 6, 30), sets=empty(SETS))
    assert technique.read(records, trade.load()) is None


def test_the_order_of_the_textbook_model_is_the_order() -> None:
    fact = read(
        ("2026-06-01", "snatch", 50, "receiving depth", "good"),
        ("2026-06-01", "snatch", 50, "start hips", "good"),
        ("2026-06-01", "", 50, "second pull extension", "good"),
    )
    assert [point.phase for point in fact.checkpoints] == ["start", "second pull", "receiving"]
    assert {point.lift for point in fact.checkpoints} == {"snatch"}


def test_off_persists_from_the_first_day_of_its_present_run() -> None:
    fact = one(
        ("2026-04-01", 50, "off"),
        ("2026-04-15", 50, "good"),
        ("2026-05-01", 50, "off"),
        ("2026-06-10", 50, "off"),
    )
    assert (fact.latest, fact.persistence_days) == ("off", 40)


def test_what_is_good_now_persists_for_no_time() -> None:
    fact = one(("2026-04-01", 50, "off"), ("2026-05-01", 50, "good"))
    assert (fact.latest, fact.persistence_days) == ("good", None)


def test_the_worst_grade_of_the_last_day_is_the_latest() -> None:
    fact = one(("2026-06-01", 45, "good"), ("2026-06-01", 55, "off"), ("2026-06-01", 50, "drifting"))
    assert fact.latest == "off"
    assert fact.load_onset_kg == 55


@pytest.mark.parametrize(
    ("cells", "onset"),
    [
        ((("2026-06-01", 45, "good"), ("2026-06-01", 55, "off"), ("2026-06-02", 60, "off")), 55),
        ((("2026-06-01", 55, "off"), ("2026-06-02", 60, "off")), None),
        ((("2026-06-01", 58, "good"), ("2026-06-01", 55, "off")), None),
        ((("2026-06-01", 45, "good"), ("2026-06-01", None, "off")), None),
    ],
)  # fmt: skip
def test_an_onset_needs_a_lighter_load_that_is_good(
    cells: tuple[tuple[str, float | None, str], ...], onset: float | None
) -> None:
    assert one(*cells).load_onset_kg == onset


def test_an_accepted_departure_says_so() -> None:
    (fact,) = read(("2026-06-01", "snatch", 50, "pull under feet", "off")).checkpoints
    assert (fact.departure, fact.accepted) == (True, True)


def test_rows_after_the_review_day_enter_nothing() -> None:
    fact = one(("2026-06-01", 50, "good"), ("2026-07-01", 50, "off"))
    assert fact.latest == "good"
