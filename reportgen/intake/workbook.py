"""A workbook's bytes -> its sheets as grids of words."""

import datetime as dt
import io
from collections.abc import Sequence
from dataclasses import replace
from itertools import islice
from typing import Final

import numpy as np

from reportgen.intake.bounds import MOST_CELLS, MOST_LINES
from reportgen.intake.grid import Grid
from reportgen.intake.read import COMPOUND, ZIP
from reportgen.intake.room import DamagedError, Found, OfSheet, TooLargeError, seen, seen_old
from reportgen.model.letters import shown
from reportgen.model.values import dataclass

_LOCKED: Final = "EncryptedPackage".encode("utf-16-le")


@dataclass(frozen=True, slots=True, kw_only=True)
class Workbook:
    """The sheets that hold something, in order, by name; `hidden` are the names of those left out."""

    sheets: tuple[tuple[str, Grid], ...]
    hidden: tuple[str, ...] = ()


def workbook(raw: bytes, file: str) -> Workbook | str:
    """Every sheet of a workbook, or why they can't be read."""
    if raw.startswith(COMPOUND) and _LOCKED in raw:
        return "locked"
    try:
        found = seen(raw) if raw.startswith(ZIP) else seen_old(raw)
        return _read(raw, file, found)
    except TooLargeError:
        return "sheets_large"
    except DamagedError:
        return "damaged"


def _read(raw: bytes, file: str, found: Found) -> Workbook | str:
    from python_calamine import (
        CalamineError,
        CalamineWorkbook,
        PasswordError,
        SheetTypeEnum,
        SheetVisibleEnum,
    )

    sheets: list[tuple[str, Grid]] = []
    hidden: list[str] = []
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(raw))
        for number, about in enumerate(book.sheets_metadata):
            if about.typ != SheetTypeEnum.WorkSheet:
                continue
            name = shown(about.name)
            if about.visible != SheetVisibleEnum.Visible:
                hidden.append(name)
                continue
            sheet = book.get_sheet_by_index(number)
            rows = sheet.to_python(skip_empty_area=False, nrows=MOST_LINES)
            merged = sheet.merged_cell_ranges or []
            grid = _grid(f"{file}[{name}]", rows, found.lost.get(number, {}), merged)
            if grid is not None:
                coloured, commented = (
                    of.get(number, frozenset()) for of in (found.coloured, found.commented)
                )
                sheets.append((name, replace(grid, coloured=coloured, commented=commented)))
    except PasswordError:
        return "locked"
    except (CalamineError, ValueError, OverflowError, OSError) as error:
        raise DamagedError from error
    except BaseException as error:
        # What the library is not ready for ends as a panic, which is no Exception; anything else is not ours.
        if type(error).__name__ != "PanicException":
            raise
        raise DamagedError from error
    return Workbook(sheets=tuple(sheets), hidden=tuple(hidden))


def _grid(
    file: str,
    rows: Sequence[Sequence[object]],
    lost: OfSheet,
    merged: Sequence[tuple[tuple[int, int], tuple[int, int]]],
) -> Grid | None:
    """One sheet from its first row that holds something; None where none does."""
    cells = [[cell if cell.__class__ is str else word(cell) for cell in row] for row in rows]
    for (row, column), what in lost.items():
        if row < len(cells) and column < len(cells[row]) and not cells[row][column]:
            cells[row][column] = what
    filled = [number for number, row in enumerate(cells) if any(cell and not cell.isspace() for cell in row)]
    if not filled:
        return None
    first, last = filled[0], filled[-1]
    return Grid(
        file=file,
        cells=cells[first : last + 1],
        lines=np.arange(first + 1, last + 2, dtype=np.int64),
        decimal_comma=True,
        delimiter="",
        merged=_covered(merged, cells, first, last),
    )


def _covered(
    merged: Sequence[tuple[tuple[int, int], tuple[int, int]]], cells: list[list[str]], first: int, last: int
) -> frozenset[tuple[int, int]]:
    """Cells that a merged range covers and leaves empty, rows counted from the first that holds something."""
    covered = (
        (row - first, column)
        for (top, left), (bottom, right) in merged
        for row in range(max(top, first), min(bottom, last) + 1)
        for column in range(left, min(right, len(cells[row]) - 1) + 1)
        if not cells[row][column]
    )
    return frozenset(islice(covered, MOST_CELLS))


def word(cell: object) -> str:
    """A cell's value as somebody would have typed it: plain numbers without noise, ISO days, yes and no."""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        plain = f"{cell:.9f}".rstrip("0").rstrip(".")
        return plain if plain != "-0" else "0"
    if isinstance(cell, dt.datetime):  # a moment is a fraction of a day there, and may be a hair off
        return (cell + dt.timedelta(milliseconds=500)).replace(microsecond=0).isoformat()
    if isinstance(cell, dt.timedelta):
        seconds = round(cell.total_seconds())
        return f"{seconds // 3600}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"
    return str(cell)  # whole numbers; days and times of day are ISO so
