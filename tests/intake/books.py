"""Workbooks made in the tests."""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl

Rows = Iterable[Iterable[Any]]


def book(path: Path, sheets: Mapping[str, Rows], *, hidden: Sequence[str] = ()) -> Path:
    """Write a workbook with these sheets."""
    made = openpyxl.Workbook()
    made.remove(made["Sheet"])
    for name, rows in sheets.items():
        sheet = made.create_sheet(name)
        for number, row in enumerate(rows, 1):
            for column, cell in enumerate(row, 1):
                sheet.cell(row=number, column=column, value=cell)
        if name in hidden:
            sheet.sheet_state = "hidden"
    path.parent.mkdir(parents=True, exist_ok=True)
    made.save(path)
    return path
