"""Columns of words -> columns of values: a word is understood once, however many rows have it."""

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final, Generic, TypeVar

import numpy as np
from numpy.typing import NDArray

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR, MOST_SUGGESTED
from reportgen.intake.kinds import LOADS
from reportgen.intake.messages import LONGEST_FOUND, Fault, close, expect, quoted
from reportgen.intake.sheet import Codes, Column, Sheet, unreadable
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade import fold, load, nearest

T = TypeVar("T")
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_PLAIN = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")
_SIGNED = re.compile(r"[-−]?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_WHOLE = re.compile(r"[0-9]{1,9}(?:\.0{1,9})?")
_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NEAR_ISO = re.compile(r"([0-9]{4})([-/.])([0-9]{1,2})\2([0-9]{1,2})(?:[T ][0-9:.]+)?")
_TURNED = re.compile(r"[0-9]{1,2}([-/.])[0-9]{1,2}\1[0-9]{2,4}")
#: Spreadsheet programs count days from here; five digits are days of the years 1927 to 2173.
_DAY_NUMBER = re.compile(r"[1-9][0-9]{4}")
_DAY_ZERO = dt.date(1899, 12, 30)
_WITH_UNIT = re.compile(r"[0-9.,]+\s*(?:kgs?|lbs?|kilos?|pounds?)\.?", re.IGNORECASE)
_UNIT_BEHIND = re.compile(
    r"(?P<number>[-−]?[0-9]{1,9}(?:[.,][0-9]{1,9})?)\s*(?:(?P<kg>kgs?|kilos?|кг)|(?P<lb>lbs?|pounds?|#))\.?",
    re.IGNORECASE,
)
#: Two loads in one row agree if they differ by no more than rounding to whole kilograms or pounds explains.
_AGREE_KG = 0.5


@dataclass(frozen=True, slots=True)
class Parsed(Generic[T]):
    """The values of a column: of a row it is `values[codes[row]]`."""

    values: list[T]
    codes: Codes

    def each_row(self, kind: type) -> NDArray[Any]:
        """One value a row, as an array of a type."""
        return np.array(self.values, dtype=kind)[self.codes]


def each(
    sheet: Sheet,
    column: Column,
    one: Callable[[str], T | Fault],
    *,
    empty: T | Fault,
    hole: T,
    kept: Callable[[str], bool] = lambda _: False,
) -> Parsed[T]:
    """Understand a column word by word, and set aside the rows whose word is at fault.

    Args:
        sheet: Where the faults go.
        column: The column.
        one: A word that is not empty -> its value, or what is wrong with it.
        empty: The value of an empty cell, or what is wrong with it.
        hole: What stands for a faulty word; its rows are set aside.
        kept: Faulty words whose rows are used all the same, with the hole, and told.
    """
    values: list[T] = []
    faults: dict[int, Fault] = {}
    for code, word in enumerate(column.words):
        if unreadable(word):  # set aside when its column was read
            values.append(hole)
            continue
        got = one(word) if word else empty
        if isinstance(got, Fault):
            if word.startswith("="):
                got = Fault(expect("a_value"))
            faults[code] = got
            got = hole
        values.append(got)
    spared = {code for code in faults if column.words[code] and kept(column.words[code])}
    sheet.blame(column, {code: fault for code, fault in faults.items() if code not in spared})
    rows = np.array(column.rows(spared), dtype=np.int64)
    if len(rows := rows[~sheet.aside[rows]]):
        sheet.odd(rows, column, [faults[code] for code in column.codes[rows].tolist()])
    return Parsed(values, column.codes)


def number(word: str, comma: bool, shape: re.Pattern[str] = _PLAIN) -> float | None:
    """A plain decimal without exponent, or None; a decimal comma where the file may have one."""
    text = word.replace(",", ".", 1) if comma else word
    return float(text.replace("−", "-")) if shape.fullmatch(text) else None


def whole(word: str, low: int, high: int, comma: bool) -> int | None:
    """A whole number inside its bounds, or None; 3.0 is whole."""
    got = number(word, comma, _WHOLE)
    return int(got) if got is not None and low <= got <= high else None


def floats(
    sheet: Sheet,
    name: str,
    want: Say,
    low: float,
    high: float,
    *,
    needed: bool = False,
    kept: Callable[[str], bool] = lambda _: False,
    signed: bool = False,
    of: re.Pattern[str] | None = None,
) -> Floats:
    """A column of numbers inside bounds, one a row; NaN where the cell is empty; `of` takes a scale away.

    A row whose number is none is set aside; where its word is `kept` only the number is not used.
    """

    def one(word: str) -> float | Fault:
        scaled = of.fullmatch(word) if of is not None else None
        word = scaled[1] if scaled else word
        got = number(word, sheet.decimal_comma, _SIGNED if signed else _PLAIN)
        if got is None or not low <= got <= high:
            return Fault(want)
        return got

    empty = Fault(want) if needed else np.nan
    parsed = each(sheet, sheet.column(name), one, empty=empty, hole=np.nan, kept=kept)
    return parsed.each_row(np.float64)


def integers(sheet: Sheet, name: str, want: Say, high: int, *, empty: int) -> Ints:
    """A column of whole numbers from 1 up to a bound, one a row."""

    def one(word: str) -> int | Fault:
        got = whole(word, 1, high, sheet.decimal_comma)
        return Fault(want) if got is None else got

    parsed = each(sheet, sheet.column(name), one, empty=empty, hole=empty)
    return parsed.each_row(np.int64)


def date(word: str, form: str | None) -> dt.date | None:
    """A date written as `form` says or in ISO 8601, or None where there is no such day."""
    if form is not None:
        try:
            return dt.datetime.strptime(word, form).date()
        except ValueError:
            if not iso_too(form):
                return None
    if not _ISO.fullmatch(word):
        return None
    try:
        return dt.date.fromisoformat(word)
    except ValueError:
        return None


def iso_too(form: str | None) -> bool:
    """Whether a plain ISO date beside dates of this form can mean one day only.

    2026-03-01 is 3 January to whoever writes the year, the day and then the month.
    """
    return form is None or not (form.startswith("%Y") and "%d" in form and form.find("%m") > form.find("%d"))


def day(word: str, form: str | None) -> dt.date | Fault:
    """As `date`, inside the years that a log may have; a fault says what is wrong."""
    got = date(word, form)
    if got is None:
        turned = form is None and _TURNED.fullmatch(word)
        return Fault(
            expect("date_turned") if turned else date_wanted(form), _near_day(word) if iso_too(form) else None
        )
    return got if FIRST_YEAR <= got.year <= LAST_YEAR else Fault(expect("year"))


def _near_day(word: str) -> str | None:
    """The day that a word may have meant: with a time behind it, other marks, or a spreadsheet's number."""
    if _DAY_NUMBER.fullmatch(word):
        return (_DAY_ZERO + dt.timedelta(days=int(word))).isoformat()
    parts = _NEAR_ISO.fullmatch(word)
    if parts is None:
        return None
    iso = f"{parts[1]}-{parts[3]:0>2}-{parts[4]:0>2}"
    return iso if date(iso, None) is not None else None


def date_wanted(form: str | None) -> Say:
    """How a date has to look."""
    if form is None:
        return expect("date")
    return expect("date_as" if iso_too(form) else "date_only", form=form)


def dates(sheet: Sheet, name: str, form: str | None, *, needed: bool = True) -> NDArray[np.datetime64]:
    """A column of dates, one a row; NaT where the cell may be and is empty."""

    def one(word: str) -> dt.date | Fault | None:
        return day(word, form)

    empty = Fault(date_wanted(form)) if needed else None
    parsed = each(sheet, sheet.column(name), one, empty=empty, hole=None)
    return np.array(parsed.values, dtype="datetime64[D]").astype("datetime64[s]")[parsed.codes]


def loads(sheet: Sheet, unit: str, *, needed: bool = True) -> Floats:
    """The load of each row [kg] from the columns kg, lb and load (in `unit`); NaN where there is none."""
    pound, most, least = (load().value(name) for name in ("pound", "load_max_kg", "load_min_kg"))
    found = np.full(len(sheet), np.nan)
    given = [sheet.columns[name] for name in LOADS if name in sheet.columns]
    for column in given:
        factor = pound if "lb" in (column.name, column.name == "load" and unit) else 1.0

        def one(word: str, factor: float = factor) -> float | Fault:
            got = number(word, sheet.decimal_comma)
            if got is not None and least <= got * factor <= most:
                return got * factor
            if got is not None and 0 < got * factor < least:
                return Fault(expect("no_share"))
            apart = _WITH_UNIT.fullmatch(word)
            return Fault(expect("unit_apart")) if apart else Fault(expect("load"), _near_load(word))

        kg = each(sheet, column, one, empty=np.nan, hole=np.nan).each_row(np.float64)
        clash = np.flatnonzero(np.abs(kg - found) > _AGREE_KG)
        other = [say("intake.units", load=f"{found[row]:g} kg") for row in clash]
        sheet.blame_rows(column, clash, [Fault(expect("one_weight"), said=said) for said in other])
        found = np.where(np.isnan(found), kg, found)
    if needed:
        _in_other_unit(sheet, given, unit)
    if needed and given:
        none = np.flatnonzero(~np.any([column.filled for column in given], axis=0))
        sheet.blame_rows(given[0], none, Fault(expect("a_load"), said=say("intake.no_load")))
    return found


#: A remark that names a unit for its row: `in kg this one`; not `5 kg more`, `the kg plates`.
_NUMBERED: Final = re.compile(r"\d[\d.,]*\s*(?:in\s+)?(?:kg|lb|kilo|pound|кг)\w*", re.IGNORECASE)
_NAMED: Final = {"kg": "kgs?|kilos?|kilograms?|кг", "lb": "lbs?|pounds?"}
#: The same behind `in`, where words of other languages are no others.
_IN: Final = {
    "kg": f"{_NAMED['kg']}|kilogramm|kilogrammes?|chili|quilos?|kilogramach|килограммах",
    "lb": f"{_NAMED['lb']}|pfund|livres|libras|libbre|funtach|фунтах",
}
_GEAR: Final = r"(?!\s*-?\s*(?:plates?|bumpers?|dis[ck]s?|bars?|weights?|scheiben?|disques?|discos?|p[rb]))"
_SOME: Final = r"(?<!few )(?<!some )(?<!more )(?<!many )(?<!couple )(?<!paar )(?<!per )(?<!mehr )"


def _unit_said(word: str) -> str:
    """The unit that a remark names for its row; "" where it names none, or both."""
    text = _NUMBERED.sub(" ", word.casefold())
    short = len(text.split()) <= 3
    found = [
        unit
        for unit in ("kg", "lb")
        if re.search(rf"(?<!\w)(?:in|en|em|w|в)\s+(?:{_IN[unit]})(?!\w){_GEAR}", text)
        or (short and re.search(rf"(?<!\w){_SOME}(?:{_NAMED[unit]})(?!\w){_GEAR}", text))
    ]
    return found[0] if len(found) == 1 else ""


def _in_other_unit(sheet: Sheet, given: list[Column], unit: str) -> None:
    """Set aside rows whose remark names the other unit than the one in which the load would be read."""
    remark = sheet.column("remark")
    said = {code: one for code, word in enumerate(remark.words) if word and (one := _unit_said(word))}
    for row in remark.rows(said):
        mine, says = (
            next((column for column in given if column.filled[row]), None),
            said[int(remark.codes[row])],
        )
        if mine is None or sheet.aside[row]:
            continue
        of = unit if mine.name == "load" else mine.name
        if of != says:
            one, other = (f"{mine.word(row)} {name}" for name in (of, says))
            want = expect("unit_told", one=one, other=other) if mine.name == "load" else expect("unit_column")
            why = say("intake.other_unit", one=one, other=other, remark=quoted(remark.word(row)))
            sheet.blame_rows(mine, np.array([row]), Fault(want, said=why))


def loads_with_unit(sheet: Sheet) -> None:
    """Loads that stand with their unit (`70kg`, `154 lb`): out of `load` into the unit's column."""
    for column in [sheet.columns[name] for name in LOADS if name in sheet.columns]:
        words: dict[int, str] = {}
        for code, word in enumerate(column.words):
            match = _UNIT_BEHIND.fullmatch(word)
            unit = "lb" if match and match["lb"] else "kg"
            if match and unit == column.name:
                words[code] = match["number"]
            elif match and column.name == "load":
                there = sheet.column(unit)
                if not there.number:
                    sheet.columns[unit] = replace(there, number=column.number, heading=column.heading)
                sheet.put(unit, dict.fromkeys(column.rows([code]), match["number"]))
                words[code] = ""
        sheet.reword(column.name, words)


def _near_load(word: str) -> str | None:
    """The load that a word may have meant: 100.0 for 1000 and 62.5 for 625, or for 62,5 in a comma file."""
    near = word.replace(",", ".")
    if _WHOLE.fullmatch(word) and len(word) > 3 and word[-1] in "05":
        near = f"{word[:-1]}.{word[-1]}"
    got = number(near, comma=False)
    return near if near != word and got is not None and 0 < got <= load().value("load_max_kg") else None


def likely(kind: str, word: str) -> str | None:
    """The known word that this one may have meant, or None; a long text is not looked up: that is slow."""
    return nearest(load().words[kind], word) if len(word) <= LONGEST_FOUND else None


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """One kind of word: folded form -> ours; suggestions are counted, since they are slow to find."""

    kind: str
    known: Mapping[str, str]
    own: Mapping[str, str]
    asked: list[str]

    def find(self, word: str) -> str | None:
        """Our word, or None; the lifter's own words go first."""
        key = fold(word)
        return self.own.get(key) or self.known.get(key)

    def near(self, word: str) -> str | None:
        """The word it may have meant; None after too many."""
        self.asked.append(word)
        if len(self.asked) > MOST_SUGGESTED:
            return None
        return close(fold(word), self.own) or likely(self.kind, word)


def vocabulary(kind: str, own: Mapping[str, str] | None = None) -> Vocabulary:
    """The words of one kind, with the lifter's own."""
    return Vocabulary(kind, load().words[kind], {fold(k): v for k, v in (own or {}).items()}, [])


def listed(words: Vocabulary) -> tuple[str, ...]:
    """Our words of one kind, for a message."""
    return tuple(dict.fromkeys(words.known.values()))


def terms(sheet: Sheet, name: str, words: Vocabulary, want: Say, *, needed: bool = False) -> Parsed[str]:
    """A column of words of one kind, in our spelling."""

    def one(word: str) -> str | Fault:
        return words.find(word) or Fault(want, words.near(word))

    return each(sheet, sheet.column(name), one, empty=Fault(want) if needed else "", hole="")


def texts(sheet: Sheet, name: str, *, needed: bool = False, lower: bool = False) -> Parsed[str]:
    """A column of free text; `lower` folds letter case and runs of white space."""

    def one(word: str) -> str | Fault:
        return " ".join(word.casefold().split()) if lower else word

    return each(sheet, sheet.column(name), one, empty=Fault(expect("text")) if needed else "", hole="")
