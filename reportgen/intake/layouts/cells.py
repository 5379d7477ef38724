"""Entries that a layout found in a grid -> a sheet with a row an entry, each cell with its own place."""

from collections.abc import Sequence

import numpy as np

from reportgen.intake.grid import Grid
from reportgen.intake.sheet import Column, Sheet
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What was done of one lift, as it stands in a file: `text` is shorthand, columns are numbered from 1.

    `of_day` is what a remark says of the day, `near` what one says beside the lift.
    """

    line: int
    day: str
    lift: str
    text: str
    column: int = 1
    heading: str = ""
    day_column: int = 1
    lift_column: int = 0
    session: str = ""
    of_day: str = ""
    near: str = ""


def at(row: Sequence[str], i: int | None) -> str:
    """A cell of a row, "" where it has none."""
    return row[i].strip() if i is not None and i < len(row) else ""


def sheet_of(grid: Grid, cells: Sequence[Cell]) -> Sheet:
    """A sheet with columns date, lift and entry, and what was said beside."""
    lines = np.array([one.line for one in cells], dtype=np.int64)
    made = Sheet.of(grid.file, lines, decimal_comma=grid.decimal_comma)
    for name, shown, words, numbers, headed in (
        ("date", "date", [one.day for one in cells], [one.day_column for one in cells], False),
        ("lift", "lift", [c.lift for c in cells], [c.lift_column or c.column for c in cells], True),
        ("entry", "entry", [one.text for one in cells], [one.column for one in cells], True),
        ("session", "session", [one.session for one in cells], [0] * len(cells), False),
        ("?day", "remark", [one.of_day for one in cells], [0] * len(cells), False),
        ("?near", "remark", [one.near for one in cells], [0] * len(cells), False),
    ):
        if name in ("date", "lift", "entry") or any(words):
            headings = tuple((headed and one.heading) or shown for one in cells)
            places = np.array(numbers, dtype=np.int64), headings
            number = numbers[0] if numbers else 0
            made.columns[name] = Column.of(words, name=name, number=number, heading=shown, places=places)
    return made
