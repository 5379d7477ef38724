"""The rows of screening.csv as plain values."""

import datetime as dt
from collections.abc import Iterator
from typing import Any

import pandas as pd

from reportgen.analysis.frames import plain
from reportgen.analysis.when import upto
from reportgen.model.records import Records
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of screening.csv."""

    date: dt.date
    item: str
    side: str
    load_kg: float | None
    reading: float | None
    grade: str
    conditions: str
    file: str
    line: int


def rows(records: Records) -> list[Row]:
    """The readings up to as_of, by day and line; a side that was not given is both."""
    table = upto(records.screening, records.as_of)
    found = [
        Row(
            date=cells["date"].date(),
            item=cells["item"],
            side=cells["side"] or "both",
            load_kg=known(cells["load_kg"]),
            reading=known(cells["reading"]),
            grade=cells["grade"],
            conditions=cells["conditions"],
            file=cells["file"],
            line=int(cells["line"]),
        )
        for cells in cells(table)
    ]
    return sorted(found, key=lambda row: (row.date, row.file, row.line))


def known(value: Any) -> float | None:
    """A number of a table cell, None for an empty one."""
    return None if pd.isna(value) else float(value)


def cells(table: pd.DataFrame) -> Iterator[dict[str, Any]]:
    """The rows of a small table by column."""
    for row in plain(table):
        yield dict(zip(map(str, table.columns), row, strict=True))
