"""Every test day in tables: what it gave, the taper before it and what a drawn-out one cost."""

import datetime as dt
from typing import Final

from reportgen.model.peaks import TestDayFact
from reportgen.trade.schema import Trade
from reportgen.view import text
from reportgen.view.page import Block, Phrase, Points, Table, Weight
from reportgen.view.reader import Reader, load, portion, said, tally, words

READINGS: Final = {"none": "no taper found", "short": "short", "usual": "usual", "long": "long"}
KINDS: Final = {"contest": "contest", "test": "test day", "found": "found from the log"}
#: Why a taper was drawn out, where the word of the facts can't stand by itself.
DRAWN_OUT: Final = {"day moved on": "the day moved on"}
DAY: Final = dt.timedelta(days=1)


def blocks(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The table of the test days and what drawn-out tapers cost."""
    return (table(tests, reader.trade), *costs(tests, reader.trade))


def peaks(tests: tuple[TestDayFact, ...]) -> list[tuple[TestDayFact, ...]]:
    """The rows of each event, by date: several lifts of one day and the days of one contest have one taper.

    Args:
        tests: By date.
    """
    events: list[list[TestDayFact]] = []
    for test in tests:
        last = events[-1][-1] if events else None
        if last is not None and (
            last.date == test.date
            or (last.event == test.event != "" and last.kind == test.kind and test.date - last.date <= DAY)
        ):
            events[-1].append(test)
        else:
            events.append([test])
    return [tuple(rows) for rows in events]


def costs(tests: tuple[TestDayFact, ...], trade: Trade) -> tuple[Block, ...]:
    """What each drawn-out taper cost, newest first; nothing where none was drawn out or nothing is known."""
    items: list[Phrase] = []
    for rows in reversed(peaks(tests)):
        taper = rows[0].taper
        if taper is None or taper.days is None or not taper.prolonged:
            continue
        since = {t.lift: t.taper.best_since_kg for t in rows if t.taper is not None}
        found = cost(taper.weeks_below, taper.full_lost, since, trade)
        if found:
            why = DRAWN_OUT.get(taper.prolonged, taper.prolonged)
            days = text.count(taper.days, "day")
            items.append((f"The taper before {text.day(rows[0].date)} ({days}, {why}): ", *found, "."))
    return (Points(items=tuple(items)),) if items else ()


def cost(
    weeks_below: int | None, full_lost: float | None, since: dict[str, float | None], trade: Trade
) -> Phrase:
    """What a drawn-out taper or heavy days close together cost; what is not known is not said.

    Args:
        weeks_below: Weeks under the rule's share of the usual load.
        full_lost: Sessions with the full lift below the usual number.
        since: The heaviest made after it, by lift [kg].
        trade: Rule `weeks_below_share`.
    """
    parts: Phrase = ()
    if weeks_below is not None:
        share = text.share(trade.value("weeks_below_share"))
        parts = (f"{text.count(weeks_below, 'week')} under {share} of the usual load",)
    if full_lost is not None:
        fewer = text.number(full_lost)
        lost = "no full session" if fewer == "0" else f"{fewer} full session{'' if fewer == '1' else 's'}"
        parts += (f"{', ' if parts else ''}{lost} fewer than usual",)
    for lift, kg in since.items():
        if kg is not None:
            best = f"best {lift} since " if len(since) > 1 else "best since "
            parts += (f"{', ' if parts else ''}{best}", Weight(kg))
    return parts


def table(tests: tuple[TestDayFact, ...], trade: Trade) -> Table:
    """Every test day, the taper before it and what it gave.

    Args:
        tests: By date.
        trade: Rules `taper_cut_low`, `taper_cut_high`, `taper_load_kept`.
    """
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
                words(_short_taper(test, trade)),
            )
        )
    return Table(
        caption="Test days, the taper before each and what it gave, newest first",
        head=("day", "what", "lift", "best of the day", "best before", "gain", "made", "taper"),
        rows=tuple(rows),
        id="test-days",
    )


def _short_taper(test: TestDayFact, trade: Trade) -> str:
    """Length, cut and top load of a taper, each read against what is usual."""
    taper = test.taper
    if taper is None:
        return test.taper_missing or "not known"
    if taper.days is None or taper.volume_cut is None:
        return "none found"
    cut = ""
    if taper.volume_cut < trade.value("taper_cut_low"):
        cut = ", a small cut"
    elif taper.volume_cut > trade.value("taper_cut_high"):
        cut = ", a deep cut"
    top = ""
    if taper.load_change is not None:
        kept = abs(taper.load_change) <= trade.value("taper_load_kept")
        top = "; top load kept" if kept else f"; top load {text.change(taper.load_change)}"
    length = f"{text.count(taper.days, 'day')} ({READINGS[taper.reading]})"
    return f"{length}, {text.share(taper.volume_cut)} less{cut}{top}"


def tapers(tests: tuple[TestDayFact, ...]) -> Table:
    """What each taper was like."""
    rows = []
    for test in reversed(tests):
        taper = test.taper
        if taper is None:
            why = words(test.taper_missing or "not known")
            rows.append((words(test.date), why, *(words(None),) * 7))
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
                words("" if taper.load_change is None else text.change(taper.load_change)),
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
            "top load",
            "drawn out",
        ),
        rows=tuple(rows),
        folded=True,
        id="tapers-table",
    )
