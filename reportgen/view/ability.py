"""What the lifter makes on an ordinary day, beside the best: band, sentence, summary and cells of a table."""

import datetime as dt
from functools import partial
from typing import Final

import pandas as pd

from reportgen.model.ability import AbilityFact
from reportgen.view.page import Cell
from reportgen.view.reader import Reader, between, load, of, said, tidy
from reportgen.words import Phrase, phrase, together

#: Weeks from one point of the band to the next, back from the newest: nobody sees more in it.
_STEP: Final = 3


def facts(reader: Reader) -> tuple[AbilityFact, ...]:
    """The ability of the goal's lifts, where the log carries it."""
    return tuple(one for one in reader.facts.ability if one.lift in reader.lifts)


def band(reader: Reader, first: dt.date) -> pd.DataFrame:
    """The path by the week from a day on: date, lift, weight, low, high, reading; no row without one."""
    rows = (
        (
            week.date,
            one.lift,
            *map(reader.number, (week.kg, week.low, week.high)),
            reader.text("stands.ordinary.reading", lift=one.lift, **of(week)),
        )
        for one in facts(reader)
        for week in one.weeks[::-_STEP][::-1]
        if week.date >= first
    )
    return tidy("date lift weight low high reading", rows)


def sentence(reader: Reader) -> Phrase:
    """What goes up nine times in ten, and every other time; that only as a range where it was never made."""
    return together(map(partial(_ordinary, reader), facts(reader)))


def _ordinary(reader: Reader, one: AbilityFact) -> Phrase:
    present = reader.current(one.lift)
    best_kg = present.kg if present is not None and present.kg is not None else one.kg
    how = f"{'_open' if one.kg > best_kg else ''}{'_of' if len(reader.lifts) > 1 else ''}"
    sure = {"sure_kg": min(one.sure_kg, best_kg), "best_kg": best_kg}
    return phrase(f"stands.ordinary.sentence{how}", **of(one) | sure)


def told(reader: Reader, key: str) -> Phrase:
    """One message of `stands.ordinary` a lift; nothing where the log can't say."""
    return together(phrase(key, **of(one)) for one in facts(reader))


def cells(reader: Reader, lift: str, day: dt.date) -> tuple[Cell, Cell]:
    """What went up every other time in the week of a day, and its likely range; dashes beyond the path."""
    weeks = next((one.weeks for one in facts(reader) if one.lift == lift), ())
    week = next((one for one in weeks if day <= one.date < day + dt.timedelta(days=7)), None)
    return (load(None), said(())) if week is None else (load(week.kg), said(between(week.low, week.high)))
