"""Cells of numbers that tell of a miss: `66 miss` or `(66)` as a load, 0 repetitions, `miss` as an effort."""

import re
from typing import Final

from reportgen.intake import marks
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.told import Rows
from reportgen.intake.marks import Says
from reportgen.intake.messages import expect
from reportgen.intake.sheet import Sheet
from reportgen.intake.tails import open_tail
from reportgen.intake.tokens import SIGNS, plain

#: A load with a mark or words behind it, in brackets or not.
_LOAD: Final = re.compile(
    r"(?P<open>\(?)\s*(?P<number>\d+(?:[.,]\d+)?)\s*(?:kgs?|lbs?)?\s*\)?\s*(?P<tail>[^\d]*)"
)
#: What stands in a cell once its row is set aside for it, so that it is told once.
_HOLE: Final = {**dict.fromkeys(LOADS, "20"), "sets": "1", "reps": "1", "effort": ""}


def beside_numbers(made: Sheet, rows: Rows, log: Log) -> None:
    """Read a miss that stands at a load, and set aside rows whose numbers tell of one in another way."""
    for name in LOADS:
        if name in made.columns:
            _loads(made, rows, name, log)
    for name in ("reps", "sets", "effort"):
        if name in made.columns:
            column = made.columns[name]
            told = {code for code, word in enumerate(column.words) if _tells(word, zero=name != "effort")}
            _aside(made, rows, name, told)
    column, known = made.column("lift"), log.manner.lifts()
    lifts = {
        code for code, word in enumerate(column.words) if _tells(word, zero=False) and not known.find(word)
    }
    made.unclear_misses += int(
        (~made.aside[column.rows(lifts)]).sum()
    )  # a lift that nobody knows is set aside


def _loads(made: Sheet, rows: Rows, name: str, log: Log) -> None:
    column = made.columns[name]
    missed: set[int] = set()
    unclear: set[int] = set()
    numbers: dict[int, str] = {}
    for code, word in enumerate(column.words):
        match = _LOAD.fullmatch(plain(word))
        if match is None or not (match["open"] or match["tail"].strip(" .!")):
            continue
        tail = match["tail"].strip(" .!()")
        sign = tail or "()"
        if sign in log.use.signs | log.use.plain:
            numbers[code] = match["number"]
            missed |= {code} if sign in log.use.signs else set()
        elif sign not in SIGNS and (marks.says(tail) is Says.MISS):
            numbers[code] = match["number"]
            missed.add(code)
        elif sign in SIGNS or marks.says(tail) is not Says.NOTHING or open_tail(tail, whole=True):
            unclear.add(code)
    made.reword(name, numbers)
    rows.single(made.columns[name].rows(missed), made.columns[name])
    _aside(made, rows, name, unclear)


def _tells(word: str, *, zero: bool) -> bool:
    """Whether a word that should be a number may tell of a miss."""
    bare = word.strip("()[] ")
    if not bare or "0" in bare.split("+"):
        return bool(bare) and zero
    tried = marks.tally(word)
    counted = tried is not None and tried[0] < tried[1]
    marked = bare.endswith("*") or marks.lone(bare) or marks.strange(word)
    return marked or counted or marks.says(word) is not Says.NOTHING


def _aside(made: Sheet, rows: Rows, name: str, codes: set[int]) -> None:
    column = made.columns[name]
    hit = [row for row in column.rows(codes) if not made.aside[row]]
    for row in hit:
        rows.aside(row, column, expect("how_many_made") if name == "sets" else None)
    made.put(name, dict.fromkeys(hit, _HOLE[name]))
