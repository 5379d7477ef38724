"""Test days and the tapers before them."""

import datetime as dt
from typing import Final

import pandas as pd

from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.view import history, outcome, published
from reportgen.view.page import Block, Figure, Paragraph, Section
from reportgen.view.reader import Reader, plain
from reportgen.words import Phrase, Weight, numbers

#: So many test days are drawn.
MOST_SHOWN: Final = 4


def section(reader: Reader) -> Section | None:
    """The section; None where test days were not computed."""
    tests = reader.facts.test_days
    if tests is None:
        return None
    lead: Phrase = (
        "A taper is found from the load itself, not from labels: the daily load before a test day is held "
        "against what the weekdays of weeks 5 to 10 before it would make one expect.",
    )
    if not tests:
        blocks: tuple[Block, ...] = (Paragraph(text=("No test day is in the log, given or found.",)),)
    else:
        blocks = (*_figure(reader, tests), *history.blocks(reader, tests), *published.beside(reader, tests))
    return Section(id="tapers", title="Test days and tapers", lead=lead, blocks=blocks)


def _figure(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    figure = aligned(reader, tests)
    return (figure,) if figure is not None else ()


def _taper_words(taper: TaperFact | None) -> str:
    if taper is None:
        return "too little log before it to tell"
    if taper.reading == "none" or taper.days is None:
        return "no taper found"
    cut = f", load {numbers.share(taper.volume_cut)} below the usual" if taper.volume_cut is not None else ""
    return f"{history.READINGS[taper.reading]} taper of {numbers.count(taper.days, 'day')}{cut}"


def aligned(reader: Reader, tests: tuple[TestDayFact, ...]) -> Figure | None:
    """The daily load against what was to be expected, aligned on each test day, newest first."""
    table = reader.dossier.tables.aligned
    days = outcome.days(tests, reader.lifts)
    loads: list[pd.DataFrame] = []
    rows: list[tuple[int, float | None, str, str]] = []
    for day in _worth_showing(days):
        window = table.loc[table["test"] == pd.Timestamp(day.date)]
        if window.empty or not window["load_kg"].any():
            continue
        place, taper = len(rows), day.taper
        loads.append(_window(window, place))
        onset = -taper.days - 0.5 if taper is not None and taper.days is not None else None
        label = f"{numbers.day(day.date)}: {outcome.words(day)}"
        rows.append((place, onset, label, f"{numbers.day(day.date)}: {_taper_words(taper)}"))
    if not rows:
        return None
    sentence = _sentence(days, reader.lifts)
    drawn: Phrase = ()
    if len(rows) < len(days):
        first = ", those with a taper first" if len(days) > MOST_SHOWN else ""
        drawn = (f" {len(rows)} of the {len(days)} are drawn{first}.",)
    return Figure(
        id="tapers-aligned",
        title="The weeks before and after each test day",
        sentence=(*sentence, *drawn),
        summary="A row a test day, newest first; a bar a day, its height the load of the day, a short line "
        "the load that the weekday makes one expect, the taper as a band. "
        f"{plain((*sentence, *drawn), reader.unit)}",
        chart="tapers_aligned",
        data={
            "loads": pd.concat(loads, ignore_index=True),
            "tapers": pd.DataFrame(rows, columns=["place", "onset", "label", "reading"]),
        },
        table=history.tapers(tests, reader.trade),
    )


def _worth_showing(days: tuple[outcome.Day, ...]) -> list[outcome.Day]:
    """Up to so many days, newest first: first those with a taper, then given ones, then found ones."""

    def worth(day: outcome.Day) -> tuple[bool, bool, dt.date]:
        return (day.tapered, day.tests[0].kind != "found", day.date)

    chosen = sorted(days, key=worth)[-MOST_SHOWN:]
    return sorted(chosen, key=lambda day: day.date, reverse=True)


def _window(window: pd.DataFrame, place: int) -> pd.DataFrame:
    """Heights of one row's bars and lines as shares of the row's highest, and a reading a day."""
    highest = max(float(window["load_kg"].max()), float(window["expected_kg"].max()), 1.0)
    some = window.loc[(window["load_kg"] > 0) | (window["expected_kg"] > 0)]
    return pd.DataFrame(
        {
            "place": place,
            "day": some["day"],
            "load": (some["load_kg"] / highest).round(3),
            "expected": (some["expected_kg"].where(some["expected_kg"] > 0) / highest).round(3),
            "reading": [
                f"{_when(int(day))}: {_against(load_kg, expected_kg)}"
                for day, load_kg, expected_kg in zip(
                    some["day"], some["load_kg"], some["expected_kg"].fillna(0.0), strict=True
                )
            ],
        }
    )


def _against(load_kg: float, expected_kg: float) -> str:
    """A day's load against the expected one, in words that need no unit."""
    if expected_kg <= 0:
        return "trained, on a day that is usually free"
    if load_kg <= 0:
        return "nothing, where some load was to be expected"
    return f"{numbers.share(load_kg / expected_kg)} of what was to be expected"


def _when(day: int) -> str:
    if day == 0:
        return "the test day"
    return f"{numbers.count(abs(day), 'day')} {'before' if day < 0 else 'after'} it"


def _sentence(days: tuple[outcome.Day, ...], lifts: tuple[str, ...]) -> Phrase:
    """How many days, new bests and tapers, and the day that gave most, of the goal's lifts.

    Args:
        days: By date.
        lifts: The goal's lifts.
    """
    found = sum(day.tapered for day in days)
    unknown = sum(day.taper is None for day in days)
    gained = [day for day in days if day.gained]
    of, without = outcome.spoken(days, lifts)
    if len(days) == 1:
        new, taper = "a" if gained else "no", "a" if found else "no"
        looked = f"{taper} taper was found before it"
        if unknown:
            looked = "there is too little log before it to look for a taper"
        parts: list[str | Weight] = [f"One test day{without}: it brought {new} new best{of}, and {looked}."]
    else:
        tapered = _tapered(found, unknown, len(days))
        parts = [
            f"{numbers.sentence(numbers.count(len(days), 'test day'))}{without}: "
            f"{len(gained) or 'none'} brought a new best{of}{tapered}."
        ]
    if gained:
        # Of equal gains the earlier one.
        most = max((test for day in gained for test in day.gained), key=lambda test: test.gain_kg or 0.0)
        parts += [" The most, ", Weight(most.gain_kg or 0.0, True)]
        if len(lifts) > 1 or most.lift not in lifts:
            parts.append(f" in the {most.lift}")
        parts.append(f", came on {numbers.day(most.date)}")
        words_ = _taper_words(most.taper)
        if "taper of" in words_:
            parts.append(f" after a {words_}.")
        else:
            parts.append("." if len(days) == 1 else f", {words_}.")
    return tuple(parts)


def _tapered(found: int, unknown: int, every: int) -> str:
    """Before how many of several days a taper was found, and before how many none could be looked for."""
    if not unknown:
        return f", {found or 'none'} had a taper before it"
    if unknown == every:
        return "; before each of them there is too little log to look for a taper"
    which = "one" if unknown == 1 else f"{unknown}"
    return (
        f"; a taper was found before {found or 'none'}, and before {which} there is too little log to look "
        "for one"
    )
