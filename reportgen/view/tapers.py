"""Test days and the tapers before them."""

from typing import Final

import pandas as pd

from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.view import text
from reportgen.view.page import Block, Figure, Paragraph, Phrase, Section, Table, Weight
from reportgen.view.reader import Reader, as_day, load, plain, portion, said, tally, words

#: Days before a test day that the picture shows: the search window and a week.
SHOWN_DAYS: Final = 35
NEWEST: Final = 8
READINGS: Final = {"none": "no taper found", "short": "short", "usual": "usual", "long": "long"}
KINDS: Final = {"contest": "contest", "test": "test day", "found": "found from the log"}


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
        blocks = (*_figure(reader, tests), history(tests))
    return Section(id="tapers", title="Test days and tapers", lead=lead, blocks=blocks)


def _figure(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    figure = aligned(reader, tests)
    return (figure,) if figure is not None else ()


def _label(test: TestDayFact) -> str:
    return text.day(test.date)


def _gain(reader: Reader, test: TestDayFact) -> str:
    if test.gain_kg is None or test.gain_kg <= 0:
        return "no gain" if test.gain_kg is not None else f"{test.made} of {test.tried}"
    return reader.say(test.gain_kg, sign=True)


def _taper_words(taper: TaperFact | None) -> str:
    if taper is None:
        return "too little training before it to tell"
    if taper.reading == "none" or taper.days is None:
        return "no taper found"
    cut = f", load {text.share(taper.volume_cut)} below the usual" if taper.volume_cut is not None else ""
    return f"{READINGS[taper.reading]} taper of {text.count(taper.days, 'day')}{cut}"


def aligned(reader: Reader, tests: tuple[TestDayFact, ...]) -> Figure | None:
    """The daily load before each test day, aligned on the day, with the taper that was found."""
    shown = tests[-NEWEST:]
    days = reader.dossier.tables.days
    frames, rows = [], []
    for test in shown:
        before = (pd.Timestamp(test.date) - days["date"]).dt.days
        window = days.loc[(before >= 0) & (before <= SHOWN_DAYS)]
        frames.append(
            pd.DataFrame(
                {
                    "test": _label(test),
                    "day": -before.loc[window.index],
                    "load": reader.numbers(window["tonnage_kg"]),
                    "reading": [
                        f"{text.weekday(as_day(d))}: {reader.say(kg)}, "
                        f"{text.count(int(b), 'day')} before the test day"
                        for d, kg, b in zip(
                            window["date"], window["tonnage_kg"], before.loc[window.index], strict=True
                        )
                    ],
                }
            )
        )
        taper = test.taper
        onset = -taper.days if taper is not None and taper.days is not None else None
        label = f"{_label(test)}: {_gain(reader, test)}"
        rows.append((_label(test), onset, label, f"{_label(test)}: {_taper_words(taper)}"))
    loads = pd.concat(frames, ignore_index=True) if frames else pd.DataFrame()
    if loads.empty:
        return None
    sentence = _sentence(tests)
    return Figure(
        id="tapers-aligned",
        title="The weeks before each test day",
        sentence=sentence,
        summary="A row a test day, newest at the bottom; a dot a training day, its area the load of the "
        f"day, the taper as a band. {plain(sentence, reader.unit)}",
        chart="tapers_aligned",
        data={"loads": loads, "tapers": pd.DataFrame(rows, columns=["test", "onset", "label", "reading"])},
        options={"tests": tuple(_label(t) for t in shown), "days": SHOWN_DAYS, "unit": reader.unit},
        table=_taper_table(tests),
    )


def _sentence(tests: tuple[TestDayFact, ...]) -> Phrase:
    found = [t for t in tests if t.taper is not None and t.taper.days is not None]
    gained = [t for t in tests if t.gain_kg is not None and t.gain_kg > 0]
    parts: list[str | Weight] = [
        f"{text.sentence(text.count(len(tests), 'test day'))}: {len(gained)} brought a new best, "
        f"{len(found)} had a taper before it."
    ]
    if gained:
        best = max(gained, key=lambda t: t.gain_kg or 0.0)
        parts += [" The most, ", Weight(best.gain_kg or 0.0, True), f", came on {text.day(best.date)} after "]
        words_ = _taper_words(best.taper)
        parts.append(f"{'a ' if words_[0] in 'sul' and 'taper of' in words_ else ''}{words_}.")
    return tuple(parts)


def _taper_table(tests: tuple[TestDayFact, ...]) -> Table:
    rows = []
    for test in reversed(tests):
        taper = test.taper
        if taper is None:
            rows.append((words(test.date), words("not known"), *(words(None),) * 6))
            continue
        rows.append(
            (
                words(test.date),
                words(READINGS[taper.reading]),
                words(taper.start),
                tally(taper.days),
                portion(taper.volume_cut),
                portion(taper.volume_cut_classic),
                portion(taper.volume_cut_strength),
                words(taper.prolonged),
            )
        )
    return Table(
        caption="The taper before each test day, newest first",
        head=(
            "test day",
            "taper",
            "first day of less",
            "days",
            "cut in load",
            "classic lifts",
            "squats and pulls",
            "drawn out",
        ),
        rows=tuple(rows),
        folded=True,
        id="tapers-table",
    )


def history(tests: tuple[TestDayFact, ...]) -> Table:
    """Every test day and what it gave."""
    rows = []
    for test in reversed(tests):
        gain: Phrase = ()
        if test.gain_kg is not None:
            gain = (Weight(test.gain_kg, True),) if test.gain_kg > 0 else ("no gain",)
            if test.noise and test.gain_kg > 0:
                gain += (", inside the usual scatter",)
        rows.append(
            (
                words(test.date),
                words(test.event or KINDS[test.kind]),
                words(test.lift),
                load(test.best_kg),
                load(test.previous_best_kg),
                said(gain, "made" if (test.gain_kg or 0) > 0 else ""),
                words(f"{test.made} of {test.tried}"),
            )
        )
    return Table(
        caption="Test days and what each gave, newest first",
        head=("day", "what", "lift", "best of the day", "best before", "gain", "made of tried"),
        rows=tuple(rows),
        id="test-days",
    )
