"""Remarks that tell of a miss: the row has it, or is set aside where they leave open which or how many."""

import re

import numpy as np

from reportgen.intake import marks
from reportgen.intake.kinds import ATTEMPTS
from reportgen.intake.layouts.told import Rows, flags
from reportgen.intake.marks import Says
from reportgen.intake.messages import Fault, clipped, expect
from reportgen.intake.several import open_reps, quiet
from reportgen.intake.sheet import Codes, Column, Sheet
from reportgen.intake.tails import other_lift
from reportgen.model.say import say
from reportgen.trade import fold, load
from reportgen.trade.tongue import Tongue

_TWICE = re.compile(
    r"(?<!\w)(?:twice|two|three|several|many|both|[2-9]x?|zweimal|zwei|deux|dos|due|dwa|duas|два|дважды|misses)(?!\w)"
)
#: Columns of words that may tell of a miss; what layouts know of a day or of a lift stands in the last two.
_TEXTS = ("remark", "variant", "session", "event", "aid", "?day", "?near")
#: Words of a line beside a lift that says no more than what became of a set.
_FEW = 5
#: The language of a log, and words that are innocent in its remarks.
_Spoken = tuple[Tongue, re.Pattern[str] | None]


def texts(made: Sheet, rows: Rows, tongue: Tongue) -> None:
    """Words for a miss in texts, and in columns that nobody knows."""
    others = [name for name in made.columns if name.startswith("?") and name[1:].isdecimal()]
    words = [word for name in _TEXTS if name in made.columns for word in made.columns[name].words]
    plain = marks.innocent(words, tongue.name)
    _other_lifts(made, rows)
    for name in [*_TEXTS, *others]:
        column = made.columns.get(name)
        if column is None:
            continue
        unknown = name in others and tongue.headings.get(fold(column.heading)) != "unused"
        in_words = unknown and any(marks.says(word) is Says.MISS and len(word) > 2 for word in column.words)
        if unknown and not in_words and marks.flags(column.words, tongue):
            for row in column.rows(code for code, good in flags(column, tongue).items() if good is False):
                if not rows.told(row):
                    rows.aside(row, column, expect("what_it_is", heading=clipped(column.heading or "?")))
        elif not (marks.quiet(column.words) and (name == "aid" or quiet(column.words))):
            ticks = name == "aid" or (name in others and not unknown)
            for word, every in zip(column.words, _rows_of_each(column), strict=True):
                if word and not (ticks and marks.lone(word)):
                    hit = [row for row in every.tolist() if row not in rows.filled]
                    _text(made, rows, column, word, hit, (tongue, plain))


def _other_lifts(made: Sheet, rows: Rows) -> None:
    """Set aside rows of a snatch, a clean or a jerk whose remark says that it was a pull or a power one."""
    column = made.column("remark")
    said = {code: of for code, word in enumerate(column.words) if word and (of := other_lift(word))}
    for row in column.rows(said):
        of, names = said[int(column.codes[row])], " ".join(rows.lifts(row))
        whole = any(part in names for part in ("snatch", "clean", "jerk")) and "pull" not in names
        if whole and not any(one in names for one in of) and row not in rows.filled and not rows.told(row):
            rows.aside(row, column)


def _rows_of_each(column: Column) -> list[Codes]:
    """The rows of each word, found in one go: a long log has a remark of its own in every row."""
    order = np.argsort(column.codes, kind="stable")
    ends = np.searchsorted(column.codes[order], np.arange(1, len(column.words)))
    return np.split(order, ends)


def _text(made: Sheet, rows: Rows, column: Column, word: str, hit: list[int], spoken: _Spoken) -> None:
    """One text, in every row that has it and doesn't say in `made` how many."""
    tongue, plain = spoken
    told = marks.says(word, plain) if hit else Says.NOTHING
    if told is Says.NOTHING:
        _fewer(rows, column, hit, word)
        _some_of(rows, column, hit, word)
    elif column.name in ("?day", "?near"):
        of = made.column("date").codes[hit] if column.name == "?day" else made.lines[hit]
        for one in np.unique(of):
            _of_day(rows, column, [row for row, mine in zip(hit, of, strict=True) if mine == one], tongue)
    else:
        for row in hit:
            if told is Says.UNCLEAR and not rows.told(row):
                rows.aside(row, column)
            else:
                rows.tell(row, column, marks.missed_reps(word, reps) if (reps := rows.reps(row)) else None)


def _fewer(rows: Rows, column: Column, hit: list[int], word: str) -> None:
    """Words such as `2 made` beside three repetitions."""
    of, count = marks.tally(word), marks.made_count(word)
    for row in hit if of is not None and of[0] < of[1] else ():
        if of is not None and not rows.told(row) and of[1] in rows.counts(row):
            rows.aside(row, column)
    for row in hit if count is not None else ():
        tried = rows.reps(row)
        if count is not None and not rows.told(row) and (not tried or count < tried):
            alone = marks.only_made(word) is not None
            rows.tell(row, column, tried - count if alone and tried else None)


def _some_of(rows: Rows, column: Column, hit: list[int], word: str) -> None:
    """Words such as `second behind` beside several repetitions: how many were made is open.

    Beside a lift of a diary only a few words are looked at: a longer line tells of more than its sets.
    """
    known = column.name in ("remark", "?near") or (column.name[1:].isdecimal() and " " in word.strip())
    if rows.kind is ATTEMPTS or not known or (column.name == "?near" and len(word.split()) > _FEW):
        return
    for row in hit:
        numbers = [rows.word(name, row) for name in ("reps", "sets")]
        most = max((int(one) for name in numbers for one in name.split("+") if one.isdecimal()), default=1)
        if not rows.told(row) and open_reps(word, most):
            rows.aside(row, column)


def _lifts_in(text: str, tongue: Tongue) -> set[str]:
    """The lifts that a text names, by words of the catalogue and of the log's language."""
    words, known = re.findall(r"[^\s,;:.!?()]+", fold(text)), load().words["lift"]
    runs = (" ".join(words[i : i + n]) for n in (3, 2, 1) for i in range(len(words) - n + 1))
    found = {known.get(run) or tongue.lifts.get(run, "") for run in runs if len(run) > 2}
    return found - {""}


def _of_day(rows: Rows, column: Column, hit: list[int], tongue: Tongue) -> None:
    """A remark of a day or beside a lift: one of its sets has the miss, or none of them is used."""
    text = column.word(hit[0])
    named = _lifts_in(text, tongue)
    hit = [row for row in hit if rows.lifts(row) & named] or hit
    if sum(rows.told(row) for row in hit) >= (2 if _TWICE.search(fold(text)) else 1):
        return
    fresh = rows.entries[[row for row in hit if not rows.sheet.aside[row]]]
    rows.sheet.unclear_misses += len(np.unique(fresh))
    fault = Fault(expect("which_missed"), said=say("intake.missed"))
    rows.sheet.blame_rows(column, np.array(hit[:1]), fault)
    rows.sheet.aside[hit] = True
