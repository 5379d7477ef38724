"""Rows: a row for sets done alike. What a table under our headings needs before it is one of ours.

Dates and lifts that stand once hold for the rows under them, rows of totals are passed over, and each word is
put into the form that our own files have; what stood there is kept for the messages.
"""

import datetime as dt
import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from reportgen.intake import days
from reportgen.intake.cells import loads_with_unit
from reportgen.intake.kinds import Kind
from reportgen.intake.layouts.log import Log, passed_over
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Column, Mask, Sheet
from reportgen.intake.tokens import Unclear
from reportgen.model.say import say
from reportgen.trade import fold, load

#: Stands between a week and a day that give no date: together they must not look like one.
_APART = " · "
_DATES = ("date", "settled", "from", "to", "check")
_SET = re.compile(
    r"(?:x\s*)?(\d{1,3})\s*(?:x|sets?|reps?|sätze|satz|wdh|s[ée]ries?|serie|r[ée]ps?|rip|powt|повт|раза?)?\.?",
    re.IGNORECASE,
)
_EFFORT = re.compile(
    r"(?:rpe|@)\s*[:=]?\s*(\d{1,2}(?:[.,]\d+)?)|(\d{1,2}(?:[.,]\d+)?)\s*(?:rpe|/\s*10)", re.IGNORECASE
)


def polish(made: Sheet, log: Log, *, short: bool = False) -> None:
    """Put the words of a sheet into our form; cells with shorthand (`short`) have units of their own."""
    if made.whole or not len(made):
        return
    in_sets = "lift" in log.kind.columns and "reps" in log.kind.columns
    if in_sets:
        _without_totals(made, log)
        for name in ("week", "weekday", "date", "lift"):
            _fill_down(made, name, log)
        _order_of_sets(made)
        if "week" in made.columns and "date" not in made.columns:
            _from_weeks(made, log)
    for name in _DATES:
        if name in made.columns and name in log.kind.columns:
            _dates(made, name, log)
    if not short:
        loads_with_unit(made)
    if "lift" in made.columns:
        _lifts(made, log)
    for name in ("sets", "reps"):
        _worded(made, name, lambda word: match[1] if (match := _SET.fullmatch(word)) else None)
    _worded(made, "effort", _effort)


def one_lifter(made: Sheet, name: str) -> None:
    """Set aside the rows of other lifters, where a table says whose row it is and has several.

    Where no row has the name of lifter.toml, nobody knows whose rows they are.
    """
    column = made.columns.pop("who", None)
    if column is None:
        return
    made.columns["?who"] = column
    forms = {code: {fold(one) for one in word.split("; ")} for code, word in enumerate(column.words) if word}
    if len({min(some) for some in forms.values()}) < 2:
        return
    mine = {fold(name), *fold(name).split()[:1]}
    others = {
        code: Fault(expect("one_lifter"), said=say("intake.others_row"))
        for code, some in forms.items()
        if not some & mine
    }
    made.blame(column, others)


def _worded(made: Sheet, name: str, one: Callable[[str], str | None]) -> None:
    """Put the words of one column into our form, each once; a word that is none stays."""
    if name in made.columns:
        words = enumerate(made.columns[name].words)
        made.reword(name, {code: new for code, word in words if word and (new := one(word))})


def _effort(word: str) -> str | None:
    match = _EFFORT.fullmatch(word)
    return (match[1] or match[2]).replace(",", ".") if match else None


def _without_totals(made: Sheet, log: Log) -> None:
    """Leave out rows of totals and averages: they are none of the log."""
    drop = np.zeros(len(made), dtype=np.bool_)
    for name in ("date", "lift", "week", "weekday"):
        if name in made.columns:
            drop |= made.columns[name].where(map(log.total, made.columns[name].words))
    if drop.any():
        made.only(~drop)
    passed_over(made, int(drop.sum()))


def _fill_down(made: Sheet, name: str, log: Log) -> None:
    """Let a word that stands once hold for the rows under it, where that is the log's evident form."""
    column = made.columns.get(name)
    if column is None or len(made) < 2:
        return
    filled = column.filled
    blank = ~filled
    if not blank.any() or not filled.any():
        return
    again = (column.codes[1:] == column.codes[:-1]) & filled[1:] & filled[:-1]
    evident = not again.any() and blank.mean() >= load().value("stands_once_share")
    hold = blank & (_merged(made, column, log) | evident)
    if name == "lift" and "date" in made.columns:
        day = made.columns["date"]
        hold &= np.concatenate(([False], day.codes[1:] == day.codes[:-1]))
    if not hold.any():
        return
    at = np.where(hold, -1, np.arange(len(made)))
    at = np.maximum.accumulate(at)
    made.columns[name] = replace(column, codes=np.where(at < 0, column.codes, column.codes[at]))
    made.told.append(say("intake.read.holds", name=name))


def _merged(made: Sheet, column: Column, log: Log) -> Mask:
    """Rows whose cell of this column a merged range covers."""
    if not log.grid.merged:
        return np.zeros(len(made), dtype=np.bool_)
    lines = {
        int(log.grid.lines[row])
        for row, at in log.grid.merged
        if at == column.number - 1 and row < len(log.grid.lines)
    }
    return np.isin(made.lines, list(lines))


def _order_of_sets(made: Sheet) -> None:
    """A column `set` that counts 1, 2, 3 through each exercise says which set it was, not how many."""
    nth = made.columns.pop("nth", None)
    if nth is None or "sets" in made.columns:
        return
    made.columns["?nth"] = nth
    numbers = [int(word) if word.isdecimal() and len(word) < 4 else 0 for word in nth.words]
    values = np.array(numbers, dtype=np.int64)[nth.codes]
    key = made.column("date").codes * (len(made.column("lift").words) + 1) + made.column("lift").codes
    same = np.concatenate(([False], key[1:] == key[:-1]))
    goes_on = same & (values == np.concatenate(([0], values[:-1])) + 1)
    counts = bool((goes_on | (values <= 1) | ~nth.filled).all())
    if (counts and (values > 1).any()) or not (values > 1).any():
        return
    made.columns["sets"] = replace(nth, name="sets")
    del made.columns["?nth"]


def _from_weeks(made: Sheet, log: Log) -> None:
    """Dates from the number of a week and a weekday."""
    week, weekday = made.columns["week"], made.column("weekday")
    numbers = [days.week(word, log.tongue) for word in week.words]
    first, named = log.manner.first_week, days.settle([*filter(None, week.words)], log.hints)[0]
    if first is None and any(number is not None for number in numbers):
        made.report(say("intake.no_first_week"), line=1, want=expect("first_week"), stop=True)
        return
    weekdays = [days.weekday(word, log.tongue, log.how.days) for word in weekday.words]
    words = []
    for row, (a, b) in enumerate(zip(week.codes.tolist(), weekday.codes.tolist(), strict=True)):
        number, on, inside = numbers[a], weekdays[b], named.get(week.words[a])
        start = first if number is not None else None if isinstance(inside, Unclear) else inside
        day = days.of_week(start, number or 1, on) if start is not None and on is not None else None
        words.append(
            day.isoformat() if day else _APART.join(filter(None, (week.word(row), weekday.word(row))))
        )
    number, heading = weekday.number or week.number, weekday.heading or week.heading
    made.columns["date"] = Column.of(words, name="date", number=number, heading=heading)
    if any(one is not None for one in numbers):
        log.first_week(made)


def _dates(made: Sheet, name: str, log: Log) -> None:
    """Put dates into ISO 8601; what may be two days is set aside with both."""
    column = made.columns[name]
    fresh = np.concatenate(([True], column.codes[1:] != column.codes[:-1]))
    order = [column.words[code] for code in column.codes[fresh]]
    settled, said = days.settle([word for word in order if word], log.hints)
    got = {code: day for code, word in enumerate(column.words) if (day := settled.get(word))}
    wrong = {code: fault(day) for code, day in got.items() if isinstance(day, Unclear)}
    form = log.manner.date_format
    made.reword(
        name, {code: _written(day, form) for code, day in got.items() if not isinstance(day, Unclear)}
    )
    made.blame(made.columns[name], wrong)
    made.put(name, dict.fromkeys(column.rows(wrong), "1970-01-01"))
    if said is not None:
        made.told.append(said)


def _written(day: dt.date, form: str | None) -> str:
    """A day so that it is read back: a form that starts with the year would read ISO in its own way."""
    return f"{day:{form}}" if form is not None and form.startswith("%Y") else day.isoformat()


def fault(unclear: Unclear) -> Fault:
    """What is not clear, as a fault of a cell."""
    if unclear.readings:
        one, other = unclear.readings
        return Fault(unclear.want, said=say("intake.two_ways", one=one, other=other))
    return Fault(unclear.want)


def _lifts(made: Sheet, log: Log) -> None:
    """Put the words of lifts into the catalogue's, and the variant that stands in a word into its column."""
    column = made.columns["lift"]
    named = {code: one for code, word in enumerate(column.words) if word and (one := log.lifts.find(word))}
    made.reword("lift", {code: one.lift for code, one in named.items()})
    for name in ("variant", "aid"):
        some = {code: word for code, one in named.items() if (word := getattr(one, name))}
        words: dict[int, str] = {}
        for row in column.rows(some):
            word, own = some[int(column.codes[row])], made.word(name, row)
            if fold(word) not in fold(own):
                words[row] = f"{own} {word}".strip()
        made.put(name, words)


def relaxed(kind: Kind, there: set[str], *, negative: bool = False) -> Kind:
    """The kind with what it needs where a layout gives it in another way."""
    free = {"date"} if "week" in there else set()
    free |= {"reps"} if there & {"entry", "scheme"} else set()
    free |= ({"kg"} if "entry" in there else set()) | ({"made"} if negative else set())
    return replace(kind, needed=tuple(group for group in kind.needed if group[0] not in free))
