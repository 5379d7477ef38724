"""Every test day in tables: what it gave, the taper before it and what a drawn-out one cost."""

import datetime as dt
from typing import Final

from reportgen.model.peaks import TestDayFact
from reportgen.trade.schema import Trade
from reportgen.view import outcome
from reportgen.view.page import Block, Paragraph, Points, Table
from reportgen.view.reader import Reader, load, said, tally, words
from reportgen.words import Phrase, Weight, numbers, spoken
from reportgen.words.phrases import text_of

READINGS: Final = {"none": "no taper found", "short": "short", "usual": "usual", "long": "long"}
KINDS: Final = {"contest": "contest", "test": "test day", "found": "from the log"}
#: Why a taper was drawn out, where the word of the facts can't stand by itself.
DRAWN_OUT: Final = {"day moved on": "the day moved on"}
SHAPES: Final = {"step": "at once", "ramp": "little by little"}


def blocks(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The tables of the test days and what drawn-out tapers cost."""
    return (*_gave(reader), table(tests, reader.trade), *against(tests), *costs(tests, reader.trade))


def _gave(reader: Reader) -> tuple[Block, ...]:
    """What the lifter's tapers gave in form; nothing where none can be judged."""
    effect = reader.facts.taper_effect
    if effect is None:
        return ()
    tapers = "your one taper" if effect.tapers == 1 else f"your {effect.tapers} tapers"
    words_ = (
        f"Form of the day, against what the weeks before made: after {tapers} "
        f"{_form(effect.share, effect.low, effect.high)}, with what tapers give others. A new best is told "
        "beside it, since a best is also luck."
    )
    return (Paragraph(text=(words_,)),)


def _form(share: float, low: float, high: float) -> str:
    """A form in whole per cent with its likely range: +3 %, likely -1 to +7 %."""
    middle, least, most = (numbers.number(round(one * 100) + 0.0, sign=True) for one in (share, low, high))
    return f"{numbers.whole(f'{middle} %')}, likely {numbers.whole(f'{least} to {most} %')}"


def peaks(tests: tuple[TestDayFact, ...], trade: Trade) -> list[tuple[TestDayFact, ...]]:
    """The rows of each event, by date: several lifts of one day and the days of one contest have one taper.

    Args:
        tests: By date.
        trade: Rule `event_days_apart`.
    """
    near = dt.timedelta(days=trade.value("event_days_apart"))
    events: list[list[TestDayFact]] = []
    for test in tests:
        last = events[-1][-1] if events else None
        if last is not None and (
            last.date == test.date
            or (last.event == test.event != "" and last.kind == test.kind and test.date - last.date <= near)
        ):
            events[-1].append(test)
        else:
            events.append([test])
    return [tuple(rows) for rows in events]


def costs(tests: tuple[TestDayFact, ...], trade: Trade) -> tuple[Block, ...]:
    """What each drawn-out taper cost, newest first; nothing where none was drawn out or nothing is known."""
    items: list[Phrase] = []
    for rows in reversed(peaks(tests, trade)):
        taper = rows[0].taper
        if taper is None or taper.days is None or not taper.prolonged:
            continue
        since = {t.lift: t.taper.best_since_kg for t in rows if t.taper is not None}
        found = cost(taper.weeks_below, taper.full_lost, since, trade)
        if found:
            why = DRAWN_OUT.get(taper.prolonged, taper.prolonged)
            days = numbers.count(taper.days, "day")
            items.append((f"The taper before {numbers.day(rows[0].date)} ({days}, {why}): ", *found, "."))
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
        share = numbers.share(trade.value("weeks_below_share"))
        parts = (f"{numbers.count(weeks_below, 'week')} under {share} of the usual load",)
    if full_lost is not None:
        fewer = numbers.number(full_lost)
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
        rows.append(
            (
                words(numbers.whole(numbers.day(test.date))),
                words(test.event or KINDS[test.kind]),
                words(test.lift),
                words("none made") if test.tried and not test.made else load(test.best_kg),
                load(test.previous_best_kg),
                said(_gain(test), "made" if (outcome.told_gain(test) or 0) > 0 else ""),
                words(_form_of(test)),
                words(numbers.whole(f"{test.made} of {test.tried}")),
                words(_short_taper(test, trade)),
            )
        )
    return Table(
        caption="Test days, the taper before each and what it gave, newest first",
        head=(
            "day",
            "what",
            "lift",
            "best of the day",
            "best before",
            "gain",
            "form, likely",
            "made",
            "taper",
        ),
        rows=tuple(rows),
        id="test-days",
    )


def _form_of(test: TestDayFact) -> str:
    """The form of a day; "" where the weeks before it can't tell."""
    if test.effect_share is None or test.effect_low is None or test.effect_high is None:
        return ""
    parts = (test.effect_share, test.effect_low, test.effect_high)
    middle, least, most = (numbers.number(round(one * 100) + 0.0, sign=True) for one in parts)
    return numbers.whole(f"{middle} % ({least} to {most})")


def _gain(test: TestDayFact) -> Phrase:
    """What the day added to the best before it, and whether that is more than a lifter's days differ by."""
    if test.gain_missing:
        return spoken(test.gain_missing)
    if test.gain_kg is None:
        return ()
    if test.gain_kg <= 0:
        return ("no gain",)
    gain: Phrase = (Weight(test.gain_kg, True),)
    if test.gain_share is not None:
        gain += (f", {numbers.whole(numbers.percent(test.gain_share))}",)
    if test.noise:
        gain += (", within scatter",)
    return gain


def against(tests: tuple[TestDayFact, ...]) -> tuple[Table, ...]:
    """What each day is held against: the bests before it apart, and what the lift scatters by anyway."""
    known = [
        t for t in tests
        if not (t.gain_share is t.scatter_share is t.previous_contest_kg is t.previous_training_kg is None)
    ]  # fmt: skip
    if not known:
        return ()
    rows = tuple(
        (
            words(test.date),
            words(test.lift),
            load(test.previous_contest_kg),
            load(test.previous_training_kg),
            load(outcome.told_gain(test), sign=True),
            words("" if test.gain_share is None or test.gain_missing else numbers.change(test.gain_share)),
            words(_scatter(test)),
        )
        for test in reversed(known)
    )
    return (
        Table(
            caption="What each test day is held against, newest first",
            head=(
                "day", "lift", "contest best before", "other best before", "change", "per cent",
                "usual scatter",
            ),
            rows=rows,
            folded=True,
            id="test-days-against",
            note=(
                "The change is against the heavier of the two bests. The usual scatter is what one lifter's "
                "contests differ by without any change.",
            ),
        ),
    )  # fmt: skip


def _scatter(test: TestDayFact) -> str:
    scatter = "" if test.scatter_share is None else numbers.percent(test.scatter_share)
    if test.noise is None:
        return scatter
    return f"{scatter}{', ' if scatter else ''}{'inside it' if test.noise else 'more than it'}"


def _short_taper(test: TestDayFact, trade: Trade) -> str:
    """Length, cut and top load of a taper, each read against what is usual."""
    taper = test.taper
    if taper is None:
        return text_of(test.taper_missing) or "not known"
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
        top = "; top load kept" if kept else f"; top load {numbers.change(taper.load_change)}"
    length = f"{numbers.count(taper.days, 'day')} ({READINGS[taper.reading]})"
    return f"{length}, {numbers.share(taper.volume_cut)} less{cut}{top}"


def tapers(tests: tuple[TestDayFact, ...], trade: Trade) -> Table:
    """What each taper was like: a row an event, whatever the number of its lifts and days."""
    rows = []
    for event in reversed(peaks(tests, trade)):
        day, taper = words(numbers.span(event[0].date, event[-1].date)), event[0].taper
        if taper is None:
            why = words(text_of(event[0].taper_missing) or "not known")
            rows.append((day, why, *(words(None),) * 9))
            continue
        rows.append(
            (
                day,
                words(READINGS[taper.reading]),
                words(taper.start),
                tally(taper.days),
                words(SHAPES.get(taper.shape, taper.shape)),
                words(_less(taper.volume_cut)),
                words(", ".join(_less(cut) or "–" for cut in taper.cuts_by_week)),
                words(_less(taper.volume_cut_classic)),
                words(_less(taper.volume_cut_strength)),
                words("" if taper.load_change is None else numbers.change(taper.load_change)),
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
            "how",
            "cut in load",
            "week by week",
            "classic lifts",
            "squats and pulls",
            "top load",
            "drawn out",
        ),
        rows=tuple(rows),
        folded=True,
        id="tapers-table",
    )


def _less(cut: float | None) -> str:
    """A cut in per cent; less than nothing was cut where more was lifted."""
    if cut is None:
        return ""
    return f"{numbers.share(-cut)} more" if cut < 0 else numbers.share(cut)
