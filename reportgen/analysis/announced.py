"""A day of contest that only a note or remark names: no proposal knows of it."""

import datetime as dt
import re
from collections.abc import Iterator
from functools import cache
from typing import Final

import pandas as pd

from reportgen.analysis import told
from reportgen.analysis.doubts import of_row
from reportgen.analysis.when import stamp
from reportgen.model.doubts import Unsure
from reportgen.model.records import Records
from reportgen.model.say import say
from reportgen.trade.alarms import alarms
from reportgen.trade.schema import Trade
from reportgen.trade.tongue import tongues
from reportgen.trade.words import fold

#: A word for a contest stands so many characters before or behind the day.
_NEAR: Final = 60
_WORD: Final = re.compile(r"[^\W_]+")
#: A contest of two days is one; one in so many weeks may lie somewhere in the week.
_BESIDE: Final = dt.timedelta(days=2)
_ABOUT: Final = dt.timedelta(days=7)


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """The nearest day ahead, inside the weeks of a block, that a text calls a contest and no table names.

    Args:
        records: Notes and remarks, and the days that are known.
        trade: Rules `told_days`, `block_weeks_high`.
    """
    first, as_of = records.as_of - dt.timedelta(days=int(trade.value("told_days"))), records.as_of
    last = as_of + dt.timedelta(weeks=int(trade.value("block_weeks_high")))
    known = _known(records)
    found: dict[dt.date, Unsure] = {}
    for one in told.texts(records, first):
        for day, key, near in (
            *((day, "doubts.parts.day", _BESIDE) for day in days(one.text, one.date)),
            *((day, "doubts.parts.about", _ABOUT) for day in weeks_ahead(one.text, one.date)),
        ):
            if as_of < day <= last and not any(abs(day - other) <= near for other in known):
                found[day] = of_row(one.row, "remark_contest", say(key, day=day), stops=())
    if found:
        yield found[min(found)]


def _known(records: Records) -> tuple[dt.date, ...]:
    given = (records.lifter.test_day, *(goal.by for goal in records.lifter.goals))
    return (*filter(None, given), *of_attempts(records))


def of_attempts(records: Records) -> tuple[dt.date, ...]:
    """Days ahead with rows of attempts.csv, or with attempts in a plan."""
    sets, plan = records.sets, records.plan
    tries = sets.loc[sets["attempt"] > 0, "date"]
    planned = plan.loc[plan["remark"].str.contains(r"\battempt \d", regex=True), "date"]
    as_of = stamp(records.as_of)
    return tuple(one.date() for one in pd.concat([tries, planned]).unique() if one > as_of)


def days(text: str, written: dt.date) -> tuple[dt.date, ...]:
    """The days that a text calls contests; one without a year is the next after it was written."""
    found = (_day(hit, written) for hit in _of_contest(_dates(), text))
    return tuple(dict.fromkeys(day for day in found if day is not None))


def weeks_ahead(text: str, written: dt.date) -> tuple[dt.date, ...]:
    """About when the contests are that a text puts so many weeks ahead: `meet in five weeks`."""
    asked, numbers = _weeks()
    counts = (hit["n"] or hit["m"] for hit in _of_contest(asked, text))
    return tuple(dict.fromkeys(written + dt.timedelta(weeks=numbers.get(n) or int(n)) for n in counts))


def _of_contest(asked: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """Where a text has what is asked for near a word for a contest."""
    plain, contest = fold(text), alarms()["contest"]
    for hit in asked.finditer(plain):
        around = plain[max(0, hit.start() - _NEAR) : hit.end() + _NEAR]
        if contest.search(f" {' '.join(_WORD.findall(around))} "):
            yield hit


@cache
def _weeks() -> tuple[re.Pattern[str], dict[str, int]]:
    """`in 5 weeks`, `five weeks out`, of every language, and what its numbers in words come to."""
    small = [one.small for one in tongues().values()]
    numbers = {word: n for one in tongues().values() for word, n in one.numbers.items()}
    weeks, ahead, until = (
        "|".join(sorted({re.escape(word) for one in small for word in one[key]}, reverse=True))
        for key in ("weeks", "ahead", "until")
    )
    many = rf"\d{{1,2}}|{'|'.join(sorted(numbers, reverse=True))}"
    return re.compile(
        rf"\b(?:{ahead})\s+(?P<n>{many})\s+(?:{weeks})\b|\b(?P<m>{many})\s+(?:{weeks})\s+(?:{until})\b"
    ), numbers


@cache
def _months() -> dict[str, int]:
    return {word: month for one in tongues().values() for word, month in one.months.items()}


@cache
def _dates() -> re.Pattern[str]:
    """2026-12-19, 19.12.2026, 19 december 2026, december 19th, of every language."""
    words = "|".join(sorted((re.escape(word) for word in _months() if not word.isdecimal()), reverse=True))
    month, year = rf"(?P<m{{0}}>{words})\b\.?", r"(?:,?\s+(?:de |of )?(?P<y{0}>20\d\d))?"
    forms = (
        r"\b(?P<y0>20\d\d)[- ](?P<n0>\d\d)[- ](?P<d0>\d\d)\b",
        r"\b(?P<d1>\d\d?)\.\s?(?P<n1>\d\d?)\.\s?(?P<y1>20\d\d)?(?!\d)",
        r"\b(?P<d2>\d\d?)(?:st|nd|rd|th|\.)?\s+(?:of |de |d')?" + month.format(2) + year.format(2),
        r"\b" + month.format(3) + r"\s+(?P<d3>\d\d?)(?:st|nd|rd|th)?\b(?!\s*(?:kg|lb|x|%))" + year.format(3),
    )
    return re.compile("|".join(forms))


def _day(hit: re.Match[str], written: dt.date) -> dt.date | None:
    parts = {name[0]: value for name, value in hit.groupdict().items() if value is not None}
    month = int(parts["n"]) if "n" in parts else _months()[parts["m"]]
    try:
        if "y" in parts:
            return dt.date(int(parts["y"]), month, int(parts["d"]))
        this = dt.date(written.year, month, int(parts["d"]))
        return this if this >= written else this.replace(year=written.year + 1)
    except ValueError:
        return None
