"""Test days and the tapers before them."""

from typing import Final

import pandas as pd

from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.view import history, outcome, pieces
from reportgen.view.page import Block, Figure, Section
from reportgen.view.reader import Reader, of
from reportgen.words import Say, say, text

#: So many test days are drawn.
MOST_SHOWN: Final = 4


def section(reader: Reader) -> Section | None:
    """The section; None where test days were not computed."""
    tests = reader.facts.test_days
    if tests is None:
        return None
    none = (pieces.paragraph("tapers.section.none"),)
    return pieces.section("tapers.section", "tapers", blocks(reader, tests) or none)


def blocks(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The picture and the tables of some test days."""
    if not tests:
        return ()
    return (*filter(None, (aligned(reader, tests),)), *history.blocks(reader, tests))


def _taper(taper: TaperFact | None) -> Say:
    if taper is None or taper.days is None:
        return say(f"tapers.taper.{'unknown' if taper is None else 'none'}")
    length = say(f"history.readings.{taper.reading}")
    how = "plain" if taper.volume_cut is None else "cut"
    return say(f"tapers.taper.{how}", **of(taper, length=length))


def aligned(reader: Reader, tests: tuple[TestDayFact, ...]) -> Figure | None:
    """The daily load against what was to be expected, aligned on each test day, newest first."""
    table = reader.dossier.tables.aligned
    days = outcome.days(tests, reader.lifts)
    loads: list[pd.DataFrame] = []
    rows: list[tuple[object, ...]] = []
    # First those with a taper, then given ones, then found ones; drawn newest first.
    worth = sorted(days, key=lambda day: (day.tapered, day.tests[0].kind != "found", day.date))
    for day in sorted(worth[-MOST_SHOWN:], key=lambda day: day.date, reverse=True):
        window, taper = table.loc[table["test"] == pd.Timestamp(day.date)], day.taper
        if window.empty or not window["load_kg"].any():
            continue
        onset = -taper.days - 0.5 if taper is not None and taper.days is not None else None
        said = (
            text("tapers.aligned.label", date=day.date, told=one)
            for one in (outcome.told(day), _taper(taper))
        )
        loads.append(_window(window, len(rows)))
        rows.append((len(rows), onset, *said))
    if not rows:
        return None
    told = [*_sentences(days, reader.lifts)]
    if len(rows) < len(days):
        how = "drawn_tapered" if len(days) > MOST_SHOWN else "drawn"
        told.append(say(f"tapers.aligned.{how}", drawn=len(rows), every=len(days)))
    return pieces.figure(
        "tapers.aligned",
        "tapers-aligned",
        "tapers_aligned",
        {
            "loads": pd.concat(loads, ignore_index=True),
            "tapers": pd.DataFrame(rows, columns=["place", "onset", "label", "reading"]),
        },
        history.tapers(tests, reader.trade),
        unit=reader.unit,
        sentences=tuple(told),
    )


def _window(window: pd.DataFrame, place: int) -> pd.DataFrame:
    """Heights of one row's bars and lines as shares of the row's highest, and a reading a day."""
    highest = max(float(window["load_kg"].max()), float(window["expected_kg"].max()), 1.0)
    some = window.loc[(window["load_kg"] > 0) | (window["expected_kg"] > 0)]
    done, expected = some["load_kg"], some["expected_kg"]
    return pd.DataFrame(
        {
            "place": place,
            "day": some["day"],
            "load": (done / highest).round(3),
            "expected": (expected.where(expected > 0) / highest).round(3),
            "reading": list(map(_reading, some["day"], done, expected.fillna(0.0))),
        }
    )


def _reading(day: int, load_kg: float, expected_kg: float) -> str:
    """A day's load against the expected one, in words that need no unit."""
    how = "free" if expected_kg <= 0 else "nothing" if load_kg <= 0 else "load"
    what = say(f"tapers.day.{how}", share=load_kg / max(expected_kg, 1e-9))
    when = say(f"tapers.day.{'test' if not day else 'before' if day < 0 else 'after'}", days=abs(int(day)))
    return text("tapers.day.reading", when=when, what=what)


def _sentences(days: tuple[outcome.Day, ...], lifts: tuple[str, ...]) -> tuple[Say, ...]:
    """How many days, new bests and tapers, and the day that gave most, of the goal's lifts."""
    one, unknown = len(days) == 1, sum(day.taper is None for day in days)
    gained, without = [day for day in days if day.gained], [day for day in days if not day.of_goal]
    best = say("tapers.best.plain")
    if without or len(lifts) > 1:
        best = say("tapers.best.of", lifts=tuple(say("tapers.best.lift", lift=lift) for lift in lifts))
    number = "one" if one else "several"
    if without:
        number = f"{number}_of" if len(without) == len(days) else "some_of"
    others = tuple(sorted({test.lift for day in without for test in day.tests}))
    many = say(f"tapers.days.{number}", days=len(days), without=len(without), others=others)
    how = "some" if 0 < unknown < len(days) else "one" if one else "several"
    counts = {"gained": len(gained), "found": sum(day.tapered for day in days), "unknown": unknown}
    brought = say(f"tapers.brought.{how}{'_unknown' if unknown else ''}", days=many, best=best, **counts)
    if not gained:
        return (brought,)
    # Of equal gains the earlier one.
    most = max((test for day in gained for test in day.gained), key=lambda test: test.gain_kg or 0.0)
    named = "lift" if len(lifts) > 1 or most.lift not in lifts else "plain"
    gain = say(f"tapers.most.{named}", **of(most))
    tapered = most.taper is not None and most.taper.days is not None
    came = "after" if tapered else "alone" if one else "without"
    return (brought, say(f"tapers.most.{came}", gain=gain, date=most.date, taper=_taper(most.taper)))
