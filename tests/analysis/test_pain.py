"""Pain: what is open stops proposals, what is settled stops nothing; under 18."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

from reportgen import trade
from reportgen.analysis import doubts, pain, trust
from reportgen.model.findings import PainReading
from reportgen.model.lifter import Goal, Lifter
from reportgen.model.records import Records
from reportgen.model.tables import PAIN, SETS, empty, typed
from reportgen.words.phrases import said

TRADE = trade.load()
LIFTER = Lifter(name="Ib Strand", standards="men", goals=(Goal(lift="snatch", kg=100.0),))
BASE = Records(folder="ib", lifter=LIFTER, as_of=dt.date(2026, 6, 30), sets=empty(SETS))


def rows(*cells: tuple[str, str, str, str, str]) -> pd.DataFrame:
    """Rows of date, place, lift, kind, settled."""
    return typed(
        {
            "date": [np.datetime64(cell[0], "s") for cell in cells],
            "place": [cell[1] for cell in cells],
            "lift": [cell[2] for cell in cells],
            "score": [4.0] * len(cells),
            "kind": [cell[3] for cell in cells],
            "settled": [np.datetime64(cell[4] or "NaT", "s") for cell in cells],
            "remark": [""] * len(cells),
            "file": ["pain.csv"] * len(cells),
            "line": list(range(2, len(cells) + 2)),
        },
        PAIN,
    )


def read(*cells: tuple[str, str, str, str, str]) -> PainReading:
    found = pain.read(replace(BASE, pain=rows(*cells)), TRADE)
    assert found is not None
    return found


def test_without_a_row_nothing_is_said() -> None:
    assert pain.read(BASE, TRADE) is None


def test_open_pain_names_a_clinician_and_stops_the_lifts_that_load_the_place() -> None:
    fact = read(("2026-06-20", "right knee", "back squat", "ache", ""))
    assert {"back squat", "front squat", "snatch", "clean and jerk"} <= set(fact.lifts)
    assert not {"strict press"} & set(fact.lifts)
    assert not fact.nothing_proposed
    assert "clinician" in said(fact.cautions[0])
    assert "right knee" in said(fact.cautions[0])


@pytest.mark.parametrize("kind", ["numb", "locking", "injury"])
def test_numbness_locking_and_injury_stop_every_proposal(kind: str) -> None:
    fact = read(("2026-06-20", "left elbow", "", kind, ""))
    assert fact.nothing_proposed
    assert "clinician" in said(fact.cautions[0])


def test_settled_pain_is_shown_and_stops_nothing() -> None:
    fact = read(("2026-05-01", "left wrist", "snatch", "numb", "2026-05-20"))
    assert (fact.lifts, fact.cautions, fact.nothing_proposed) == ((), (), False)
    assert (fact.places[0].open, fact.places[0].settled) == (False, dt.date(2026, 5, 20))


def test_pain_that_settles_after_the_review_day_is_open() -> None:
    assert read(("2026-06-20", "hip", "snatch", "ache", "2026-07-05")).places[0].open


def test_open_pain_is_dated_by_itself_and_not_by_the_first_time_that_the_place_hurt() -> None:
    fact = read(("2026-05-01", "knee", "", "ache", "2026-05-10"), ("2026-06-20", "Knee", "", "sharp", ""))
    (place,) = fact.places
    assert (place.open, place.kind, place.first, place.last) == (
        True,
        "sharp",
        dt.date(2026, 6, 20),
        dt.date(2026, 6, 20),
    )


def test_a_place_stays_open_while_one_of_its_rows_is() -> None:
    (place,) = read(("2026-05-01", "hip", "", "ache", ""), ("2026-06-20", "hip", "", "", "2026-06-22")).places
    assert (place.open, place.first) == (True, dt.date(2026, 5, 1))


@pytest.mark.parametrize(("again", "starts"), [("2026-05-17", 1), ("2026-05-18", 2)])
def test_pain_that_is_back_within_a_week_had_not_settled(again: str, starts: int) -> None:
    cells = rows(("2026-05-01", "hip", "", "", "2026-05-10"), (again, "hip", "", "", "2026-06-01"))
    assert len(pain.episodes(replace(BASE, pain=cells), TRADE)) == starts


@pytest.mark.parametrize("during", ["back squat", "snatch", ""])
def test_an_unknown_place_is_loaded_by_everything_whatever_the_lift_in_which_it_hurt(during: str) -> None:
    assert set(read(("2026-06-20", "somewhere", during, "ache", "")).lifts) == set(TRADE.lifts)


@pytest.mark.parametrize(
    "knee", ["Knie rechts", "genou", "la rodilla", "ginocchio", "joelho", "kolano", "колено"]
)
def test_a_knee_in_another_language_is_a_knee(knee: str) -> None:
    assert (
        read(("2026-06-20", knee, "snatch", "ache", "")).lifts
        == read(("2026-06-20", "knee", "snatch", "ache", "")).lifts
    )


@pytest.mark.parametrize(("born", "young"), [(2010, True), (2008, True), (2007, False), (None, False)])
def test_who_may_be_under_eighteen_is_treated_so(born: int | None, young: bool) -> None:
    assert doubts.is_youth(replace(BASE, lifter=replace(LIFTER, born=born)), TRADE) is young


@pytest.mark.parametrize(
    ("supervised", "first", "allowed"),
    [(True, "2025-06-30", True), (True, "2025-07-01", False), (False, "2024-01-01", False)],
)
def test_heavy_singles_under_eighteen_need_supervision_and_a_year_of_log(
    supervised: bool, first: str, allowed: bool
) -> None:
    sets = typed({name: [_cell(name, kind, first)] for name, kind in SETS.items()}, SETS)
    young = replace(LIFTER, born=2011, supervised=supervised)
    assert trust.old_enough(replace(BASE, lifter=young, sets=sets), TRADE) is allowed


def _cell(name: str, kind: str, first: str) -> object:
    if name == "date":
        return np.datetime64(first, "s")
    return "snatch" if name == "lift" else "" if kind == "str" else 1
