"""Entries that a layout found in a grid -> a sheet with a row an entry, each cell with its own place."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from reportgen.intake.sheet import Column, Sheet


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


def sheet_of(file: str, cells: Sequence[Cell], *, decimal_comma: bool) -> Sheet:
    """A sheet with columns date, lift and entry, and what was said beside."""
    made = Sheet(
        file=file,
        lines=np.array([one.line for one in cells], dtype=np.int64),
        columns={},
        decimal_comma=decimal_comma,
        aside=np.zeros(len(cells), dtype=np.bool_),
    )
    made.columns["date"] = _column("date", [one.day for one in cells], [one.day_column for one in cells])
    made.columns["lift"] = _column(
        "lift",
        [one.lift for one in cells],
        [one.lift_column or one.column for one in cells],
        [one.heading for one in cells],
    )
    made.columns["entry"] = _column(
        "entry", [one.text for one in cells], [one.column for one in cells], [one.heading for one in cells]
    )
    for name, words in (
        ("session", [one.session for one in cells]),
        ("?day", [one.of_day for one in cells]),
        ("?near", [one.near for one in cells]),
    ):
        if any(words):
            made.columns[name] = _column(name, words, [0] * len(cells))
    return made


def _column(
    name: str, words: Sequence[str], numbers: Sequence[int], headings: Sequence[str] | None = None
) -> Column:
    known = list(dict.fromkeys(words))
    code = {word: i for i, word in enumerate(known)}
    return Column(
        name=name,
        number=numbers[0] if numbers else 0,
        heading="remark" if name.startswith("?") else name,
        codes=np.array([code[word] for word in words], dtype=np.int64),
        words=tuple(known) or ("",),
        places=(
            np.array(numbers, dtype=np.int64),
            tuple(heading or name for heading in headings)
            if headings
            else ("remark" if name.startswith("?") else name,) * len(words),
        ),
    )
