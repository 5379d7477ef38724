"""Heavy days close together and long tapers as needs, from given facts."""

import datetime as dt
from dataclasses import replace
from typing import Literal

import pandas as pd

from reportgen import trade
from reportgen.analysis import bests, needs
from reportgen.analysis.dossier import build
from reportgen.model import peaks
from reportgen.model.findings import Need
from reportgen.model.lifter import Goal
from reportgen.model.peaks import TaperFact
from reportgen.words import plain, spoken
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


def found(days: tuple[peaks.TestDayFact, ...] = (), *rows: dict[str, object]) -> list[Need]:
    data = records(*LOG, *rows, lifter=MAN, as_of="2026-06-20")
    built = build(data, TRADE)
    scored = bests.scoring(built.tables.sets, (), pd.Timestamp(data.as_of))
    facts = replace(built.facts, test_days=days)
    asked = needs.given(data, facts, built.tables, scored, TRADE)
    return [need for need in needs.read(asked)[0] if need.id in ("chase", "long_taper")]


def limits(count: int, last: str) -> list[dict[str, object]]:
    """Days a week apart on which a limit was looked for and not found."""
    day = dt.date.fromisoformat(last)
    return [
        row((day - dt.timedelta(weeks=place)).isoformat(), "snatch", 88, sets=2, made=0)
        for place in range(count)
    ]


def said(need: Need) -> str:
    return plain(spoken(need.claim))


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
        gain_kg=gain_kg, gain_share=None, tried=1, made=1, taper=taper, noise=noise, scatter_share=0.02,
    )  # fmt: skip


def test_a_limit_looked_for_week_by_week_is_a_need_and_now_and_then_is_none() -> None:
    assert [need.id for need in found((), *limits(7, "2026-06-18"))] == ["chase"]
    assert found((), *limits(2, "2026-06-18")) == []
    assert found((), *limits(7, "2026-04-10")) == []


def near(lift: str, kg: float, days: tuple[int, ...]) -> list[dict[str, object]]:
    """Made singles on these days before the review day."""
    last = dt.date(2026, 6, 20)
    return [row((last - dt.timedelta(days=day)).isoformat(), lift, kg) for day in days]


def named(lift: str, kg: float, days: tuple[int, ...], *goals: Goal) -> list[str]:
    """Whether the singles of a lift with a best of 110 kg are called days at the limit."""
    best = [row("2026-01-10", "snatch", 90), row("2026-01-10", "clean and jerk", 110)]
    easy = [
        row((dt.date(2026, 1, 12) + dt.timedelta(days=day)).isoformat(), lift, 80, reps=2)
        for day in range(120)
    ]
    easy += near("snatch", 83, tuple(range(1, 74, 7)))
    data = records(*best, *easy, *near(lift, kg, days), lifter=replace(MAN, goals=goals), as_of="2026-06-20")
    return [need.id for need in build(data, TRADE).facts.needs or () if need.id == "chase"]


def test_made_singles_near_the_limit_twice_a_week_are_testing_too_in_the_lift_of_any_goal() -> None:
    snatch, jerk = Goal(lift="snatch", kg=97.0), Goal(lift="clean and jerk", kg=118.0)
    twice = (60, 57, 53, 50, 46, 43, 39)
    assert named("clean and jerk", 108, twice, jerk) == ["chase"]
    assert named("clean and jerk", 108, twice, snatch, jerk) == ["chase"]
    # A lift without a goal, a load under the limit, once a week, and a week's peak or two are none.
    assert named("clean and jerk", 108, twice, snatch) == []
    assert named("clean and jerk", 106, twice, jerk) == []
    assert named("clean and jerk", 108, tuple(range(4, 74, 7)), jerk) == []
    assert named("clean and jerk", 108, (60, 57, 53, 50, 32, 29, 25, 22), jerk) == []


def test_the_page_calls_a_chase_maximum_days_and_says_what_they_gave() -> None:
    (need,) = found((), *limits(7, "2026-06-18"))
    assert said(need).startswith("7 days at the limit in 7 weeks, 7 May 2026 to 18 Jun 2026")
    assert "nothing gained" in said(need)
    assert "chase" not in said(need).casefold()
    assert need.evidence


def test_a_long_taper_that_gave_nothing_is_a_need() -> None:
    (need,) = found((after_taper("long", 28, -2.0),))
    assert (need.id, need.area, need.kilos) == ("long_taper", "programming", None)
    assert "28 days" in said(need)
    assert need.evidence[0].file == "attempts.csv"


def test_a_long_taper_that_gave_something_is_none() -> None:
    assert found((after_taper("long", 28, 3.0),)) == []
    assert [need.id for need in found((after_taper("long", 28, 1.0, noise=True),))] == ["long_taper"]


def test_a_taper_that_reads_long_and_was_not_drawn_out_is_no_need() -> None:
    assert found((after_taper("long", 24, -2.0, prolonged=""),)) == []


def test_a_taper_past_an_earlier_test_is_not_called_long() -> None:
    (need,) = found((after_taper("usual", 19, -2.0, prolonged="day moved on"),))
    assert "went on past an earlier test: 19 days with 45 % less work" in said(need)
    assert "long" not in said(need)


def test_a_log_of_squats_alone_says_nothing_of_how_often_the_lift_is_done() -> None:
    weeks = [dt.date(2026, 3, 30) + dt.timedelta(weeks=at) for at in range(12)]
    squats = [row(day.isoformat(), "back squat", 120, sets=4) for day in weeks]

    def few(*rows: dict[str, object]) -> set[str]:
        built = build(records(*squats, *rows, lifter=MAN, as_of="2026-06-20"), TRADE)
        return {need.id for need in built.facts.needs or ()} & {"too_few_full_sessions", "weeks_without_full"}

    assert not few()
    assert few(row("2026-03-31", "clean and jerk", 90))
