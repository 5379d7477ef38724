"""Heavy days close together and long tapers as needs, from given facts."""

import datetime as dt
from dataclasses import replace
from typing import Literal

import pandas as pd

from reportgen import trade
from reportgen.analysis import bests, judgement
from reportgen.analysis.dossier import build
from reportgen.model import peaks
from reportgen.model.findings import Need
from reportgen.model.peaks import ChaseFact, TaperFact
from tests.analysis.logs import MAN, attempt, records, row

TRADE = trade.load()
LOG = (
    row("2026-04-01", "snatch", 90),
    row("2026-04-15", "snatch", 84),
    row("2026-04-29", "snatch", 84),
    row("2026-05-13", "snatch", 84),
    row("2026-05-30", "snatch", 88),
    attempt("2026-06-14", "snatch", 88, True),
)


def needs(
    chases: tuple[ChaseFact, ...] = (), days: tuple[peaks.TestDayFact, ...] = (), as_of: str = "2026-06-20"
) -> list[Need]:
    data = records(*LOG, lifter=MAN, as_of=as_of)
    built = build(data, TRADE)
    scored = bests.scoring(built.tables.sets, (), pd.Timestamp(data.as_of))
    facts = replace(built.facts, chases=chases, test_days=days)
    found = judgement.add(facts, data, built.tables, scored, TRADE).needs or ()
    return [need for need in found if need.id in ("chase", "long_taper")]


def chase(end: str) -> ChaseFact:
    last = dt.date.fromisoformat(end)
    return ChaseFact(start=last - dt.timedelta(days=15), end=last, heavy_days=4, missed_days=3, gain_kg=0.0)


def after_taper(
    reading: str,
    days: int,
    gain_kg: float | None,
    noise: bool | None = None,
    prolonged: Literal["", "over 21 days", "day moved on"] = "over 21 days",
) -> peaks.TestDayFact:
    taper = TaperFact(
        start=dt.date(2026, 5, 17),
        days=days,
        volume_cut=0.45,
        load_change=-0.02,
        reading=reading,  # type: ignore[arg-type]
        prolonged=prolonged if days > 10 else "",
    )
    return peaks.TestDayFact(
        date=dt.date(2026, 6, 14), kind="contest", event="", lift="snatch", best_kg=88.0,
        previous_best_kg=90.0,
        gain_kg=gain_kg, gain_share=None, tried=1, made=1, taper=taper, noise=noise,
    )  # fmt: skip


def test_heavy_days_close_together_are_a_need_for_eight_weeks() -> None:
    assert [need.id for need in needs(chases=(chase("2026-05-30"),))] == ["chase"]
    assert needs(chases=(chase("2026-04-24"),)) == []


def test_the_page_calls_a_chase_heavy_days_close_together() -> None:
    (need,) = needs(chases=(chase("2026-05-30"),))
    assert need.claim.startswith("Heavy days close together: 4 days")
    assert "chase" not in need.claim.casefold()
    assert need.evidence


def test_a_long_taper_that_gave_nothing_is_a_need() -> None:
    (need,) = needs(days=(after_taper("long", 28, -2.0),))
    assert (need.id, need.area, need.kilos) == ("long_taper", "programming", None)
    assert "28 days" in need.claim
    assert need.evidence[0].file == "attempts.csv"


def test_a_long_taper_that_gave_something_is_none() -> None:
    assert needs(days=(after_taper("long", 28, 3.0),)) == []
    assert [need.id for need in needs(days=(after_taper("long", 28, 1.0, noise=True),))] == ["long_taper"]


def test_a_taper_that_reads_long_and_was_not_drawn_out_is_no_need() -> None:
    assert needs(days=(after_taper("long", 24, -2.0, prolonged=""),)) == []


def test_a_taper_past_an_earlier_test_is_not_called_long() -> None:
    (need,) = needs(days=(after_taper("usual", 19, -2.0, prolonged="day moved on"),))
    assert "went on past an earlier test, 19 days with 45 % less work" in need.claim
    assert "long" not in need.claim


def test_heavy_days_that_gave_something_are_not_said_to_have_given_nothing() -> None:
    (flat,) = needs(chases=(chase("2026-05-30"),))
    assert "misses on 3, nothing gained." in flat.claim
    (need,) = needs(chases=(replace(chase("2026-05-30"), gain_kg=1.0),))
    assert "misses on 3, 1 kg gained." in need.claim


def test_a_usual_taper_is_no_need_whatever_the_day_gave() -> None:
    assert needs(days=(after_taper("usual", 10, -2.0),)) == []
