"""Days as logs write them -> dates: figures in any order, month names, timestamps, day numbers, weeks.

Whether 3/4 is 3 April or 4 March is read from the column as a whole, and never from the one cell: one order
has to make every date a day, or to put the days in order. Where both do, the rows are set aside with both.
"""

import datetime as dt
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import field
from typing import Literal

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.intake.cells import date as by_form
from reportgen.intake.cells import iso_too
from reportgen.intake.tokens import Unclear
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade import fold
from reportgen.trade.tongue import ENGLISH, Tongue, speaking

Order = Literal["dmy", "mdy"]
_ZERO = dt.date(1899, 12, 30)  # spreadsheet programs count days from here
_TIME = re.compile(
    r"(?:[Tt]|[\s,]+(?:um |at |à |a las )?)\d{1,2}(?:[:h]\d{2}(?::\d{2})?(?:[.,]\d+)?)?\s*"
    r"(?:am|pm|a\.m\.|p\.m\.|uhr|z|h)?\s*(?:gmt|utc|cet|cest|mez|mesz|bst|est|edt|cst|cdt|mst|mdt|pst|pdt|msk)?"
    r"\s*(?:[+-]\d{1,2}(?::?\d{2})?)?$",
    re.IGNORECASE,
)
#: A date in figures with its year, with a time behind it or not.
_FULL = re.compile(r"\s*\d{1,2}([-/.])\d{1,2}\1\d{2,4}(?:[T ,].*)?")
_SERIAL = re.compile(r"([1-9]\d{4})(?:[.,]\d+)?")
_YEAR_FIRST = re.compile(r"(\d{4})\s?[-/.]\s?(\d{1,2})\s?[-/.]\s?(\d{1,2})\.?")
_FIGURES = re.compile(r"(\d{1,2})\s?([-/.])\s?(\d{1,2})(?:\s?\2\s?(\d{4}|\d{2}))?\.?")
_NUMBER = re.compile(r"(\d{1,4})(?:st|nd|rd|th|er|º|ª|°|-?го)?")
_FILLERS = frozenset(("de", "del", "di", "of", "the", "den", "le", "el", "г", "r", "do", "am", "il"))
_WEEK = re.compile(r"(?:№\s*)?(\d{1,3})")
_CLOSE_YEAR = 70
_FIRST: Mapping[Order, str] = {"dmy": "days_first", "mdy": "months_first"}
_YEAR = say("intake.short.year")
#: The day of each word, or why there is none.
Settled = Mapping[str, dt.date | Unclear]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reads:
    """What one word may mean: a day for sure, a day by either order of figures, or day and month alone."""

    sure: dt.date | None = None
    dmy: dt.date | None = None
    mdy: dt.date | None = None
    parts: tuple[int, int] | None = None
    figures: bool = False
    bare: bool = False  # the year is that of a title


@dataclass(frozen=True, slots=True, kw_only=True)
class Hints:
    """What is known beside the word: the form of lifter.toml, language, year and month of sheet or title.

    `order` is what the other tables of the kind show.
    """

    form: str | None = None
    tongue: Tongue = field(default_factory=lambda: speaking(ENGLISH))
    year: int | None = None
    month: int | None = None
    turned: bool | None = None
    order: Order | None = None


def settle(words: Sequence[str], hints: Hints) -> tuple[Settled, Say | None]:
    """The day of each word of a date column, in the order of the rows, or why there is none.

    A word that can be no day is left out. Beside them what `check` tells about the order of the figures.
    """
    reads = {word: one for word in dict.fromkeys(words) if (one := read(word, hints)) is not None}
    order, said = _order(words, reads, hints)
    found: dict[str, dt.date | Unclear] = {}
    turned, told = _turned(words, reads, hints)
    year, last_month = hints.year, 0
    for word in words:
        one = reads.get(word)
        if one is None or (word in found and not one.bare and one.parts is None):
            continue
        got = _picked(word, one, order, year)
        if isinstance(got, tuple) and year is not None:  # the year goes on where the months begin anew
            day, month = got
            year, last_month = year + (last_month - month > 6), month
            again, got = found.get(word), _day(year, month, day)
            if again is not None and again != got:
                got = Unclear(word, _YEAR)
        if one.sure is not None:
            found[word] = _as_typed(word, one.sure, turned)
        elif got is not None and not isinstance(got, tuple):
            found[word] = got
    return found, said or told


def _picked(
    word: str, one: Reads, order: Order | None, year: int | None
) -> dt.date | Unclear | tuple[int, int] | None:
    """The day that a word means by the order of its figures, or day and month where it has no year."""
    if one.parts is not None:
        return one.parts if year is not None else Unclear(word, _YEAR)
    picked = one.dmy or one.mdy
    if one.dmy is not None and one.mdy is not None and one.dmy != one.mdy:
        picked = one.dmy if order == "dmy" else one.mdy
        if not order:
            return Unclear(word, say("intake.short.date_format"), (one.dmy, one.mdy))
    return (picked.day, picked.month) if one.bare and picked is not None else picked


def _as_typed(word: str, day: dt.date, turned: bool | None) -> dt.date | Unclear:
    """A day that a spreadsheet may have turned when it was typed."""
    other = _day(day.year, day.day, day.month)
    if turned is False or other is None or other == day:
        return day
    return other if turned else Unclear(word, say("intake.short.turned"), (day, other))


def _order(words: Sequence[str], reads: Mapping[str, Reads], hints: Hints) -> tuple[Order | None, Say | None]:
    """Whether the day or the month stands first; None where the column does not show it."""
    some = [one for one in reads.values() if one.figures and (one.dmy or one.mdy)]
    if not any(one.dmy and one.mdy and one.dmy != one.mdy for one in some):
        return "dmy", None
    if hints.form is not None and "%d" in hints.form and "%m" in hints.form:  # of dates without a year
        return ("dmy" if hints.form.index("%d") < hints.form.index("%m") else "mdy"), None
    day_first = sum(one.mdy is None for one in some)
    month_first = sum(one.dmy is None for one in some)
    if day_first and month_first:
        return None, None
    order: Order | None = "dmy" if day_first or (hints.tongue.day_first and not month_first) else None
    order = "mdy" if month_first else order
    if order is None and hints.order is not None:
        return hints.order, say(f"intake.read.{_FIRST[hints.order]}_too")
    if order is None:
        dmy, mdy = (
            _in_order([getattr(reads[word], way) for word in words if word in reads]) for way in _FIRST
        )
        order = None if dmy == mdy else "dmy" if dmy else "mdy"
    return order, say(f"intake.read.{_FIRST[order]}") if order else None


def shown_order(cells: Iterable[str], hints: Hints) -> Order | None:
    """The order that some cells show for themselves, 13/5/2026; None where none does, or they disagree."""
    found: set[Order] = set()
    for cell in cells:
        if _FULL.fullmatch(cell.strip()) and (one := read(cell, hints)) is not None and one.sure is None:
            found |= {"dmy"} if one.mdy is None else {"mdy"} if one.dmy is None else set()
    return found.pop() if len(found) == 1 else None


def _in_order(days: Sequence[dt.date | None]) -> bool:
    some = [day for day in days if day is not None]
    return len(some) > 2 and (some == sorted(some) or some == sorted(some, reverse=True))


def _turned(words: Sequence[str], reads: Mapping[str, Reads], hints: Hints) -> tuple[bool | None, Say | None]:
    """Whether a spreadsheet took days for months: those that it left as text have days over 12 only."""
    if hints.turned is not None:
        return hints.turned, None
    text = [one for one in reads.values() if one.figures and one.sure is None]
    sure = [one.sure for one in reads.values() if one.sure is not None]
    if (
        not text
        or not sure
        or any(day.day > 12 for day in sure)
        or any(one.mdy or not one.dmy for one in text)
    ):
        return False, None
    some = [reads[word] for word in words if word in reads]
    as_is = [one.sure or one.dmy for one in some]
    other = [_day(one.sure.year, one.sure.day, one.sure.month) if one.sure else one.dmy for one in some]
    if _in_order(as_is) != _in_order(other):
        turned = _in_order(other)
        return turned, say("intake.read.turned_back") if turned else None
    return None, None


def read(word: str, hints: Hints) -> Reads | None:
    """What one word may mean as a day; None where it is none."""
    word = word.strip().strip("*_# ").strip()
    if hints.form is not None and (day := by_form(word, hints.form)) is not None:
        return Reads(sure=day)
    found = _figures(word, hints) or _named(word, hints)
    if found is not None:
        return found
    weekday, rest = _weekday(word, hints.tongue)
    found = _figures(rest, hints) or _named(rest, hints)
    if found is None:
        cut = _TIME.sub("", rest)
        weekday_2, cut = _weekday(cut, hints.tongue)
        weekday = weekday if weekday is not None else weekday_2
        found = (_figures(cut, hints) or _named(cut, hints)) if cut != rest else None
    if found is None:
        return None
    if weekday is None or not found.dmy or not found.mdy:
        return found
    fits = [day for day in {found.dmy, found.mdy} if day.weekday() == weekday]
    return Reads(sure=fits[0]) if len(fits) == 1 else found


def _weekday(word: str, tongue: Tongue) -> tuple[int | None, str]:
    """A weekday before or behind the date, and the rest."""
    parts = re.split(r"[\s,.()]+", word.strip(" ,.()"), maxsplit=1)
    if len(parts) == 2 and parts[1] and fold(parts[0]) in tongue.days and any(map(str.isdigit, parts[1])):
        return tongue.days[fold(parts[0])], parts[1].strip(" ()")
    last = re.split(r"[\s,()]+", word.strip(" ,.()"))
    if len(last) > 1 and fold(last[-1]) in tongue.days and not last[-1].isdecimal():
        at = word.rindex(last[-1])
        return tongue.days[fold(last[-1])], word[:at].strip(" ,()")
    return None, word


def _figures(word: str, hints: Hints) -> Reads | None:
    if match := _SERIAL.fullmatch(word):
        day = _ZERO + dt.timedelta(days=int(match[1]))
        return Reads(sure=day) if FIRST_YEAR <= day.year <= LAST_YEAR else None
    if (match := _YEAR_FIRST.fullmatch(word)) and iso_too(hints.form):
        day_ = _day(int(match[1]), int(match[2]), int(match[3]))
        return Reads(sure=day_) if day_ else None
    if match := _FIGURES.fullmatch(word):
        a, b = int(match[1]), int(match[3])
        year = full_year(int(match[4])) if match[4] else hints.year
        if year is None or not match[4]:
            return _without_year(a, b, hints)
        dmy, mdy = _day(year, b, a), _day(year, a, b)
        return Reads(dmy=dmy, mdy=mdy, figures=True) if dmy or mdy else None
    if hints.month is not None and (match := re.fullmatch(r"(\d{1,2})\.?", word)):
        return Reads(parts=(int(match[1]), hints.month)) if 1 <= int(match[1]) <= 31 else None
    return None


def _without_year(a: int, b: int, hints: Hints) -> Reads | None:
    """Day and month in figures; with a year known both orders are weighed like any other date."""
    if hints.year is None:
        fits = [(day, month) for day, month in ((a, b), (b, a)) if 1 <= day <= 31 and 1 <= month <= 12]
        return Reads(parts=fits[0]) if fits else None
    dmy, mdy = _day(hints.year, b, a), _day(hints.year, a, b)
    return Reads(dmy=dmy, mdy=mdy, figures=True, bare=True) if dmy or mdy else None


def _named(word: str, hints: Hints) -> Reads | None:
    """A date with the month in words."""
    parts = [part for part in re.split(r"[\s./,\-]+", word) if part]
    month, numbers = None, []
    for part in parts:
        form = fold(part)
        number = _NUMBER.fullmatch(part.casefold())
        if number:
            numbers.append(int(number[1]))
        elif month is None and form in hints.tongue.months:
            month = hints.tongue.months[form]
        elif form not in _FILLERS:
            return None
    if month is None or not 1 <= len(numbers) <= 2:
        return None
    if len(numbers) == 1:
        return Reads(parts=(numbers[0], month)) if 1 <= numbers[0] <= 31 else None
    if numbers[0] > 31:
        numbers.reverse()
    day = _day(full_year(numbers[1]), month, numbers[0])
    return Reads(sure=day) if day else None


def full_year(year: int) -> int:
    """A year that may be written in two figures."""
    return year if year > 99 else 2000 + year if year < _CLOSE_YEAR else 1900 + year


def _day(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day) if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None


def title(words: Sequence[str], tongue: Tongue) -> tuple[int | None, int | None]:
    """Year and month that a file's name, a sheet's name or a title row tells."""
    year = month = None
    for word in words:
        for part in re.split(r"[^\w]+|_", word):
            if re.fullmatch(r"(?:19|20)\d\d", part):
                year = year or int(part)
            elif fold(part) in tongue.months and not part.isdecimal():
                month = month or tongue.months[fold(part)]
        if month is None and (match := re.search(r"(?:19|20)\d\d[-_. ](0[1-9]|1[0-2])(?!\d)", word)):
            month = int(match[1])
    return year, month


def _number(word: str, names: Collection[str]) -> str:
    """What stands behind one of these names, or the whole word; folded."""
    form = fold(word).rstrip(".:")
    name = next((one for one in sorted(names, key=len, reverse=True) if form.startswith(one)), "")
    return form.removeprefix(name).strip(" .:#") if name else form


def week(word: str, tongue: Tongue) -> int | None:
    """The number of a week: `Week 3`, `W3`, `KW 3`, or `3` alone."""
    match = _WEEK.fullmatch(_number(word, tongue.small["week"]))
    return int(match[1]) if match and int(match[1]) > 0 else None


def named_week(word: str, tongue: Tongue) -> int | None:
    """The number of a week that is called one: not a bare number."""
    return None if fold(word)[:1].isdigit() else week(word, tongue)


def weekday(word: str, tongue: Tongue, days: Sequence[str] = ()) -> int | None:
    """0 for Monday to 6; `Day 2` by the weekdays that [sources] gives."""
    form = fold(word).rstrip(".:")
    if form in tongue.days:
        return tongue.days[form]
    form = _number(word, tongue.small["day"])
    if form.isdecimal() and 0 < int(form) <= len(days):
        return tongue.days.get(fold(days[int(form) - 1]))
    return None


def of_week(first: dt.date, number: int, weekday_: int) -> dt.date | None:
    """The day of a weekday in the week so many weeks after the one that holds `first`."""
    try:
        return first - dt.timedelta(days=first.weekday()) + dt.timedelta(days=7 * (number - 1) + weekday_)
    except OverflowError:
        return None
