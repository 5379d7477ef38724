"""A table's rows -> its columns under our names: headings, short and long rows, white space."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

import numpy as np
import pandas as pd

from reportgen.intake.bounds import MOST_ABOVE, MOST_COLUMNS
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import LOADS, Kind
from reportgen.intake.messages import Fault, Said, Want, close
from reportgen.intake.read import Rows
from reportgen.intake.sheet import Column, Mask, Sheet, blank, unreadable
from reportgen.model.problems import is_sheet, letters
from reportgen.trade import fold

_UNREADABLE = Fault(Want.READABLE, said=Said.UNREADABLE)


def headed(grid: Grid) -> Rows:
    """A grid whose first row has the headings."""
    first = min([*grid.lines[:1].tolist(), *(one.line for one in grid.broken[:1])])
    read = bool(grid.cells) and int(grid.lines[0]) == first  # else the headings' own line is the broken one
    return Rows(
        headings=[cell.strip() for cell in grid.cells[0]] if read else [],
        heading_line=first,
        delimiter=grid.delimiter,
        cells=grid.cells[1:] if read else grid.cells,
        lines=grid.lines[1:] if read else grid.lines,
        broken=grid.broken,
    )


def names(kind: Kind, own: Mapping[str, str]) -> dict[str, str]:
    """Folded headings -> our names, the lifter's own first."""
    return {fold(name): name for name in kind.columns} | {fold(key): name for key, name in own.items()}


def sheet(rows: Rows | None, file: str, kind: Kind, own: Mapping[str, str]) -> Sheet:
    """Read one table up to its columns.

    Args:
        rows: Its headings and rows; None where it holds nothing.
        file: Where it stands; of a workbook with the sheet.
        kind: What columns it may and has to have.
        own: The lifter's own headings -> our names.

    Returns:
        The sheet; it is `whole` where headings are missing or there are too many.
    """
    if rows is None:
        made = blank(file)
        made.say(Said.NO_HEADINGS, line=1, want=_wanted(kind), stop=True)
        return made
    known = names(kind, own)
    last = max((i for i, heading in enumerate(rows.headings, 1) if heading), default=0)
    if 0 < last <= MOST_COLUMNS:
        made = _columns(rows, file, kind, known, last)
    else:
        made = blank(file)
        made.extra = sum(any(map(str.strip, row)) for row in rows.cells)
        if last:
            holes = {"count": last}
            made.say(Said.COLUMNS, line=rows.heading_line, want=Want.COLUMNS, holes=holes, stop=True)
        else:
            made.say(Said.NO_HEADINGS, line=rows.heading_line, want=_wanted(kind), stop=True)
    below = _below(rows, kind, known) if made.whole else None
    if below is not None:  # nothing else that could be said helps
        holes = {"line": below}
        made = blank(file)
        made.extra = sum(any(map(str.strip, row)) for row in rows.cells)
        want = Want.HEADINGS_FIRST
        made.say(Said.HEADINGS_BELOW, line=rows.heading_line, want=want, holes=holes, stop=True)
    # A broken line is a row, unless it is the one that should hold the headings.
    made.extra += sum(one.line != rows.heading_line for one in rows.broken)
    for one in rows.broken:
        place = _place("", one.column)
        made.say(one.said, line=one.line, column=place, found=one.found, want=one.want)
    return made


def _wanted(kind: Kind) -> str:
    return Want.HEADINGS.format(words=", ".join(_group(group) for group in kind.needed))


def _group(group: Sequence[str]) -> str:
    return Want.LOAD_COLUMN if tuple(group) == LOADS else " or ".join(group)


def _place(heading: str, number: int) -> Column:
    """A column that is only a place."""
    return Column(name="", number=number, heading=heading, codes=np.zeros(0, dtype=np.int64), words=("",))


def _columns(rows: Rows, file: str, kind: Kind, names: Mapping[str, str], last: int) -> Sheet:
    """Cut the rows into columns, drop the empty ones, and settle which column is which."""
    headings = rows.headings[:last]
    columns = [
        _column(heading, number, cells)
        for number, (heading, cells) in enumerate(zip(headings, _across(rows.cells, last), strict=True), 1)
    ]
    long = [
        (i, j, cell.strip())
        for i, row in enumerate(rows.cells)
        if len(row) > last
        for j, cell in enumerate(row[last:], last + 1)
        if cell.strip()
    ]
    keep = np.zeros(len(rows.cells), dtype=np.bool_)
    for column in columns:
        keep |= column.filled
    keep[[i for i, _, _ in long]] = True
    again = keep & _again(columns, rows.cells, long)
    keep &= ~again
    long = [one for one in long if not again[one[0]]]
    kept = [_only(column, keep) for column in columns]
    place = np.cumsum(keep) - 1
    made = Sheet(
        file=file,
        lines=rows.lines[keep],
        columns={},
        decimal_comma=rows.delimiter != ",",
        aside=np.zeros(int(keep.sum()), dtype=np.bool_),
    )
    # Copies pasted under one another: each such line is a row that is set aside, with one message.
    made.extra = int(again.sum())
    for line in rows.lines[again].tolist():
        made.say(Said.HEADINGS_AGAIN, line=line, want=Want.OTHER_ROW)
    for i, row_cells in groupby(long, key=lambda one: one[0]):
        _, j, cell = next(row_cells)
        made.say(Said.BEYOND, line=int(rows.lines[i]), column=_place("", j), found=cell, want=Want.NOTHING)
        made.aside[place[i]] = True
    _name(made, kept, kind, names, rows.heading_line)
    for column in made.columns.values():
        wrong = {code: _UNREADABLE for code, word in enumerate(column.words) if unreadable(word)}
        made.blame(column, wrong)
    return made


def _again(columns: Sequence[Column], cells: list[list[str]], long: Sequence[tuple[int, int, str]]) -> Mask:
    """Which rows only say the headings again."""
    same = np.ones(len(cells), dtype=np.bool_)
    for column in columns:
        heading = fold(column.heading)
        match = np.array([bool(heading) and fold(word) == heading for word in column.words], dtype=np.bool_)
        same &= match[column.codes] | ((not heading) & ~column.filled)
    same[[i for i, _, _ in long]] = False
    return same


def _below(rows: Rows, kind: Kind, names: Mapping[str, str]) -> int | None:
    """The line of one of the first rows that holds every heading that is needed, or None."""
    for row, line in zip(rows.cells[:MOST_ABOVE], rows.lines.tolist(), strict=False):
        there = {names.get(fold(cell)) for cell in row if cell.strip()}
        if all(any(name in there for name in group) for group in kind.needed):
            return int(line)
    return None


def _across(cells: list[list[str]], width: int) -> Iterable[Sequence[str]]:
    """The columns of some rows; short rows are padded."""
    even = [row if len(row) == width else (row + [""] * (width - len(row)))[:width] for row in cells]
    return zip(*even, strict=True) if even else [()] * width


def _column(heading: str, number: int, cells: Sequence[str]) -> Column:
    """Code one column: each different word once, white space at its ends away."""
    raw = np.empty(len(cells), dtype=object)
    raw[:] = cells
    codes, words = pd.factorize(raw)
    bare = np.array([_bare_word(word) for word in words] or [""], dtype=object)
    again, bare_words = pd.factorize(bare)
    return Column(
        name="", number=number, heading=heading, codes=again[codes].astype(np.int64), words=tuple(bare_words)
    )


def _bare_word(word: str) -> str:
    """A cell without white space at its ends, line breaks inside it as one character each."""
    word = word.strip()
    return word.replace("\r\n", "\n").replace("\r", "\n") if "\r" in word else word


def _only(column: Column, keep: Mask) -> Column:
    if keep.all():
        return column
    codes, used = pd.factorize(column.codes[keep])
    return Column(
        name=column.name,
        number=column.number,
        heading=column.heading,
        codes=codes.astype(np.int64),
        words=tuple(column.words[code] for code in used) or ("",),
    )


def _name(made: Sheet, columns: Sequence[Column], kind: Kind, names: Mapping[str, str], line: int) -> None:
    """Give every column our name, and say which headings are not known, double or missing."""
    unknown: list[Column] = []
    for column in columns:
        name = names.get(fold(column.heading)) if column.heading else None
        if name is None:
            unknown.append(column)
            continue
        named = replace(column, name=name)
        if name in made.columns:
            first = made.columns[name]
            holes = {"name": name, "other": letters(first.number) if is_sheet(made.file) else first.number}
            said, found, once = Said.SAME_HEADING, named.heading, Want.ONCE_HEADING
            made.say(said, line=line, column=named, level="odd", found=found, want=once, holes=holes)
            named = _merged(made, first, named)
        made.columns[name] = named
    for group in kind.needed:
        if not any(name in made.columns for name in group):
            near = next((c for c in unknown if c.heading and close(fold(c.heading), group)), None)
            if near is None:
                made.say(Said.NO_COLUMN, line=line, want=_group(group), stop=True)
            else:
                unknown.remove(near)
                said, found = Said.NO_COLUMN_NEAR, near.heading
                made.say(said, line=line, column=near, found=found, want=_group(group), stop=True)
    free = [name for name in kind.columns if name not in made.columns]
    want = ", ".join(free)
    for column in unknown:
        if column.heading:
            near_word, found = close(fold(column.heading), free), column.heading
            said = Said.UNKNOWN_HEADING
            made.say(said, line=line, column=column, level="odd", found=found, want=want, near=near_word)
        elif column.filled.any():
            made.say(Said.NO_HEADING, line=line, column=column, level="odd", want=want)


def _merged(made: Sheet, first: Column, second: Column) -> Column:
    """One column of two with the same meaning; rows where both hold something different are set aside."""
    words = {word: code for code, word in enumerate(dict.fromkeys((*first.words, *second.words)))}
    left = np.array([words[word] for word in first.words], dtype=np.int64)[first.codes]
    right = np.array([words[word] for word in second.words], dtype=np.int64)[second.codes]
    clash = np.flatnonzero(first.filled & second.filled & (left != right))
    made.blame_rows(second, clash, [Fault("the same in both", said=Said.TWICE)] * len(clash))
    return Column(
        name=first.name,
        number=first.number,
        heading=first.heading,
        codes=np.where(first.filled, left, right),
        words=tuple(words),
    )
