"""One row in two sources, as in an export beside the workbook it came from: counted once, and told."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Codes
from reportgen.intake.tables import Reading
from reportgen.model.say import say

#: What makes two rows about sets one: an export may lack the other columns, and volume must not double.
_SETS: Final = ("date", "lift", "part", "parts", "load_kg", "sets", "reps", "made", "attempt")
#: What never makes a difference.
_PLACE: Final = ("file", "line", "remark", "clip", "why", "conditions")
#: So many days that come again in a row have been copied.
_COPIED: Final = 3
Marks = NDArray[np.integer[Any]]


def once(readings: Sequence[Reading]) -> list[Reading]:
    """Set aside rows that an earlier source of the same kind holds already.

    A row that stands n times in an earlier source covers n rows of this one; what a source says twice by
    itself is reported elsewhere and counts. Sets of one day and lift in two sources that are not the same are
    told: they may be the same work written down in two ways.
    """
    readings = [
        _pasted(reading) if "part" in reading.table and len(reading.table) else reading
        for reading in readings
    ]
    if len(readings) < 2:
        return list(readings)
    left: dict[int, list[tuple[str, int]]] = {}
    kept: list[Reading] = []
    days: dict[tuple[object, ...], str] = {}
    # Two sessions of a day in a file each are two, where both say which.
    sessions = all("session" in reading.sheet.columns for reading in readings if len(reading.sheet))
    for reading in readings:
        rows, marks = _marks(reading, sessions=sessions)
        again = _again(reading, rows, marks, left)
        fresh = without(reading, again)
        kept.append(fresh)
        if not sessions:
            _both(fresh, days)
        lines = reading.sheet.lines
        for row, mark in zip(*_marks(fresh, sessions=sessions), strict=True):
            left.setdefault(int(mark), []).append((reading.sheet.file, int(lines[row])))
    return kept


def _pasted(reading: Reading) -> Reading:
    """A log without the days that stand in it again further down, as where an export was pasted twice.

    One row or one session that comes again may have been done again and counts; days on end that come again
    after others have been copied.
    """
    days = reading.table.loc[reading.table["part"] == 0, "date"].to_numpy().astype(np.int64)
    starts = np.flatnonzero(np.diff(days, prepend=-1)).tolist()
    if len(starts) == len(np.unique(days)):
        return reading  # no day comes again
    rows, marks = row_marks(reading, [name for name in reading.table.columns if name not in _PLACE])
    keys = list(zip(days.tolist(), marks.tolist(), strict=True))
    held: dict[tuple[int, int], list[int]] = {}
    again: list[tuple[int, int]] = []
    copied: list[tuple[int, int]] = []
    for start, end in zip(starts, [*starts[1:], len(keys)], strict=True):
        covered: Counter[tuple[int, int]] = Counter()
        pairs: list[tuple[int, int]] = []
        for n in range(start, end):
            there, nth = held.get(keys[n], []), covered[keys[n]]
            covered[keys[n]] += 1
            if nth < len(there):
                pairs.append((n, there[nth]))
        if len(pairs) == end - start:
            copied += pairs
        else:
            again += _several(copied, keys)
            copied = []
            for n in range(start, end):
                held.setdefault(keys[n], []).append(n)
    again += _several(copied, keys)
    found, lines, file = rows[[n for n, _ in again]], reading.sheet.lines, reading.sheet.file
    said = [say("intake.twice_kept", other=file, line=int(lines[rows[first]])) for _, first in again]
    reading.sheet.blame_rows(None, found, [Fault(expect("one_source"), said=one) for one in said])
    return without(reading, found)


def _several(copied: list[tuple[int, int]], keys: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Days in a row that stand above already, where they are several: else they count."""
    return copied if len({keys[n][0] for n, _ in copied}) >= _COPIED else []


def row_marks(reading: Reading, columns: Sequence[str]) -> tuple[Codes, Marks]:
    """The rows of the sheet that are used, and for each a mark that the same row has anywhere."""
    table = reading.table
    if not len(table):
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.uint64)
    marks = pd.util.hash_pandas_object(table[list(columns)], index=False).to_numpy()
    if "part" not in table:
        return reading.rows, marks
    first = np.flatnonzero(table["part"].to_numpy() == 0)  # a row of the file, with its parts
    return reading.rows[first], np.add.reduceat(marks, first)


def _marks(reading: Reading, *, sessions: bool) -> tuple[Codes, Marks]:
    columns = [name for name in reading.table.columns if name not in _PLACE]
    if "part" in reading.table:
        columns = [*_SETS, "session"] if sessions else list(_SETS)
    rounded = reading.table.round({"load_kg": 1, "mass_kg": 1})
    return row_marks(replace(reading, table=rounded), columns)


def _again(reading: Reading, rows: Codes, marks: Marks, left: dict[int, list[tuple[str, int]]]) -> Codes:
    """Set aside the rows that earlier sources have; each of theirs covers one of each later source."""
    again: list[int] = []
    covered: Counter[int] = Counter()
    faults: list[Fault] = []
    for row, mark in zip(rows.tolist(), marks.tolist(), strict=True):
        if covered[mark] < len(left.get(mark, ())):
            other, line = left[mark][covered[mark]]
            covered[mark] += 1
            again.append(row)
            said = say("intake.twice_kept", other=other, line=line)
            faults.append(Fault(expect("one_source"), said=said))
    found = np.array(again, dtype=np.int64)
    reading.sheet.blame_rows(None, found, faults)
    return found


def without(reading: Reading, gone: Codes) -> Reading:
    """A reading without some rows of its sheet, which were set aside."""
    if not len(gone):
        return reading
    keep = ~np.isin(reading.rows, gone)
    return replace(reading, table=reading.table[keep].reset_index(drop=True), rows=reading.rows[keep])


def _both(reading: Reading, days: dict[tuple[object, ...], str]) -> None:
    """Tell of days and lifts that an earlier source holds as well."""
    if "part" not in reading.table:
        return
    file = reading.sheet.file
    mine = reading.table.drop_duplicates(["date", "lift"])
    keys = dict(
        zip(zip(mine["date"].tolist(), mine["lift"].tolist(), strict=True), mine["line"], strict=True)
    )
    shared = [key for key in keys if key in days]
    if shared:
        said, line = say("intake.both", count=len(shared), other=days[shared[0]]), int(keys[shared[0]])
        reading.sheet.report(said, line=line, level="odd", want=expect("one_source"))
    days |= {key: file for key in keys if key not in days}
