"""Numbers to words: the one place where a figure is rounded and becomes text."""

import datetime as dt
import math
import re
from collections.abc import Iterable
from typing import Final, Literal

from reportgen.words.messages import listed, template

Unit = Literal["kg", "lb"]

#: International pound, exactly (1959; NIST SP 811, appendix B.8).
KG_PER_LB: Final = 0.45359237

MINUS: Final = "\N{MINUS SIGN}"
#: From here on digits stand in groups of three.
_GROUPED: Final = 10_000
#: From here on a weight is a sum of loads, and tenths of it say nothing.
_SUM: Final = 1000
_FILE: Final = re.compile(r"[^\s,]*\w\.(?:csv|toml|md|txt|xlsx?|ods|tsv)\b")


def number(value: float, decimals: int = 1, *, sign: bool = False) -> str:
    """Write a number with at most so many decimals, without trailing zeros.

    What is not zero never prints as zero: 0.04 stays "0.04" however few decimals are asked for.

    Args:
        value: A finite number.
        decimals: Decimals at most.
        sign: Put a plus before what is above zero.
    """
    size = abs(value)
    written = f"{size:.{decimals}f}"
    if size > 0 and float(written) == 0:
        written = f"{size:.{-math.floor(math.log10(size))}f}"
    if "." in written:
        written = written.rstrip("0").rstrip(".")
    if size >= _GROUPED:
        whole, point, part = written.partition(".")
        written = f"{int(whole):,}".replace(",", "\N{NARROW NO-BREAK SPACE}") + point + part
    if value < 0:
        return MINUS + written
    return "+" + written if sign and value > 0 else written


def exact(value: float) -> str:
    """A number as a table of rules holds it."""
    return f"{value:.10g}"


def in_unit(load_kg: float, unit: Unit) -> float:
    """A weight in kilograms as a number in the reader's unit."""
    return load_kg if unit == "kg" else load_kg / KG_PER_LB


def kg(load_kg: float, *, sign: bool = False) -> str:
    """12.34 becomes "12.3 kg"; a load above zero never prints as "0 kg"."""
    return _weight(load_kg, "kg", sign)


def lb(load_kg: float, *, sign: bool = False) -> str:
    """A weight in kilograms, written in pounds: 102.05828325 becomes "225 lb"."""
    return _weight(in_unit(load_kg, "lb"), "lb", sign)


def weight(load_kg: float, unit: Unit, *, sign: bool = False) -> str:
    """A weight in kilograms, written in the reader's unit."""
    return kg(load_kg, sign=sign) if unit == "kg" else lb(load_kg, sign=sign)


def _weight(value: float, unit: Unit, sign: bool) -> str:
    return f"{number(value, 0 if abs(value) >= _SUM else 1, sign=sign)} {unit}"


def share(part: float) -> str:
    """0.374 becomes "37 %"; only a whole is 100 %, and only nothing is 0 %."""
    percent = round(part * 100)
    if part > 0 and percent == 0:
        return template("numbers.under").format("1 %")
    if part < 1 and percent >= 100:
        return template("numbers.over").format("99 %")
    if part > 1 and percent <= 100:
        return template("numbers.over").format("100 %")
    return f"{percent} %"


def shares(low: float, high: float) -> str:
    """A range of shares: "65 to 81 %"."""
    return template("numbers.span").format(share(low).removesuffix(" %"), share(high))


def points(part: float) -> str:
    """A relative change in whole per cent with its sign, without theirs: 0.031 becomes "+3"."""
    return number(round(part * 100) + 0.0, 0, sign=True)


def measured(value: float, unit: str, *, sign: bool = False) -> str:
    """A reading in its unit: "8 cm", "165°", "6 points"."""
    how = unit if unit == "degrees" else "unit" if unit else "bare"
    return template(f"numbers.measured.{how}").format(number(value, sign=sign), unit)


def in_ten(chance: float) -> str:
    """A chance as a lifter says it: 0.9 becomes "nine times in ten"."""
    small, many = listed("numbers.small"), round(10 * chance)
    return template("numbers.in_ten").format(small[many] if many < len(small) else many)


def some(many: int) -> str:
    """ "none", "12"."""
    return number(many) if many else template("numbers.none")


def whole(phrase: str) -> str:
    """The phrase in one piece: a number on one line and its sign on the next are read wrongly."""
    return phrase.replace(" ", "\N{NO-BREAK SPACE}")


def part(whole: float) -> str:
    """A part of a load in whole per cent, as a load is rounded: 0.996 becomes "100 %"."""
    return f"{round(whole * 100)} %"


def percent(part: float) -> str:
    """A small share with a decimal: 0.0357 becomes "3.6 %"."""
    return f"{number(part * 100)} %"


def change(part: float) -> str:
    """A relative change with its sign: 0.0312 becomes "+3.1 %"."""
    return f"{number(part * 100, sign=True)} %"


def _month(date: dt.date) -> str:
    return listed("numbers.months")[date.month - 1]


def day(date: dt.date) -> str:
    """A day in the order of speech: 14 Nov 2026."""
    return f"{date.day} {month(date)}"


def weekday(date: dt.date) -> str:
    """ "Sat 14 Nov 2026"."""
    return f"{listed('numbers.weekdays')[date.weekday()]} {day(date)}"


def near(date: dt.date) -> str:
    """ "Sat 14 Nov": a day so near that nobody asks which year."""
    return f"{listed('numbers.weekdays')[date.weekday()]} {date.day} {_month(date)}"


def month(date: dt.date) -> str:
    """ "Nov 2026"."""
    return f"{_month(date)} {date.year}"


def week(start: dt.date) -> str:
    """ "week of 9 Nov 2026"."""
    return template("numbers.week_of").format(day(start))


def span(first: dt.date, last: dt.date) -> str:
    """ "3 to 14 Nov 2026", "3 Mar to 14 Nov 2026" or "3 Mar 2025 to 14 Nov 2026"."""
    if first == last:
        return day(first)
    begin = day(first)
    if first.year == last.year:
        begin = str(first.day) if first.month == last.month else f"{first.day} {_month(first)}"
    return template("numbers.span").format(begin, day(last))


def count(many: int, one: str, several: str = "") -> str:
    """ "1 session", "4 sessions", "no sessions"; `several` where the plural is not one + s."""
    plural = several or one + "s"
    if many == 0:
        return template("numbers.none_of").format(plural)
    return f"{number(many)} {one if many == 1 else plural}"


def times(many: int) -> str:
    """ "never", "once", "twice", "12 times"."""
    few = listed("numbers.times")
    return few[many] if 0 <= many < len(few) else template("numbers.many_times").format(many)


#: A length of time: up to so many days it is told in units of so many.
_LENGTHS: Final = ((21, "day", 1.0), (120, "week", 7.0), (730, "month", 30.44))


def days(many: int) -> str:
    """A length of time as a lifter says it: "9 days", "6 weeks", "5 months"."""
    if many == 0:
        return template("numbers.same_day")
    for most, unit, long in _LENGTHS:
        if many < most:
            return count(round(many / long), *listed(f"numbers.lengths.{unit}"))
    return f"{number(many / 365.25)} {listed('numbers.lengths.year')[1]}"


def joint(last: str) -> str:
    """What stands before the last of a list: " and "."""
    return f" {template(f'numbers.{last}')} "


def listing(words: Iterable[str], last: str = "and") -> str:
    """ "a, b and c"."""
    items = tuple(words)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])}{joint(last)}{items[-1]}"


def sentence(words: str) -> str:
    """The same words with a capital first letter, but where they begin with the name of a file."""
    return words if _FILE.match(words) else words[:1].upper() + words[1:]


def lines(numbers: Iterable[int]) -> str:
    """Line numbers as spans: "line 4", "lines 4 to 6 and 9"; at most eight spans are named."""
    ordered = sorted(set(numbers))
    if not ordered:
        return ""
    spans: list[list[int]] = []
    for line in ordered:
        if spans and line == spans[-1][1] + 1:
            spans[-1][1] = line
        else:
            spans.append([line, line])
    named = [str(a) if a == b else template("numbers.span").format(a, b) for a, b in spans[:8]]
    if len(spans) > 8:
        named.append(template("numbers.more"))
    return f"{listed('numbers.lines')[len(ordered) > 1]} {listing(named)}"
