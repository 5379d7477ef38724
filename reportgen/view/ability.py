"""What the lifter makes on an ordinary day, beside the best: band, sentence, summary and cells of a table."""

import datetime as dt

import pandas as pd

from reportgen.model.ability import AbilityFact, AbilityWeek
from reportgen.view.page import Cell
from reportgen.view.reader import Reader, load, said
from reportgen.words import Phrase, Weight, numbers

#: Weeks from one point of the band to the next, back from the newest: nobody sees more in it.
_STEP = 3
HEAD = ("every other time", "likely range")


def facts(reader: Reader) -> tuple[AbilityFact, ...]:
    """The ability of the goal's lifts, where the log carries it."""
    return tuple(one for one in reader.facts.ability or () if one.lift in reader.lifts)


def band(reader: Reader, first: dt.date) -> pd.DataFrame:
    """The path by the week from a day on: date, lift, weight, low, high, reading; no row without one."""
    rows = [
        (
            week.date,
            one.lift,
            *map(reader.number, (week.kg, week.low, week.high)),
            _reading(reader, one, week),
        )
        for one in facts(reader)
        for week in one.weeks[::-_STEP][::-1]
        if week.date >= first
    ]
    table = pd.DataFrame(rows, columns=["date", "lift", "weight", "low", "high", "reading"])
    return table.assign(date=pd.to_datetime(table["date"]).astype("datetime64[s]"))


def _reading(reader: Reader, one: AbilityFact, week: AbilityWeek) -> str:
    return (
        f"{numbers.day(week.date)}, an ordinary day: {one.lift} {reader.say(week.kg)} every other time, likely "
        f"{reader.say(week.low)} to {reader.say(week.high)}"
    )


def sentence(reader: Reader) -> Phrase:
    """What goes up nine times in ten and every other time; nothing where the log can't say."""
    parts: Phrase = ()
    for one in facts(reader):
        of = f" {one.lift}" if len(reader.lifts) > 1 else ""
        parts += (
            f" On an ordinary day you make{of} ", Weight(one.sure_kg), " nine times in ten, ",
            Weight(one.kg), " every other time.",
        )  # fmt: skip
    return parts


def summary(reader: Reader) -> str:
    """What the band shows, for whoever hears the page."""
    return "".join(
        f" A line in a band is the {one.lift} that goes up every other time on an ordinary day, by the week: "
        f"{reader.say(one.kg)} now, likely {reader.say(one.low)} to {reader.say(one.high)}."
        for one in facts(reader)
    )


def cells(reader: Reader, lift: str, day: dt.date) -> tuple[Cell, Cell]:
    """What went up every other time in the week of a day, and its likely range; dashes beyond the path."""
    weeks = next((one.weeks for one in facts(reader) if one.lift == lift), ())
    week = next((one for one in weeks if day <= one.date < day + dt.timedelta(days=7)), None)
    if week is None:
        return load(None), said(())
    return load(week.kg), said((Weight(week.low), " to ", Weight(week.high)))
