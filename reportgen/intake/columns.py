"""A table's rows -> its columns under our names: headings, short and long rows, white space."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.intake.bounds import MOST_COLUMNS
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import LOADS, Kind
from reportgen.intake.messages import Fault, clipped, close, expect
from reportgen.intake.sheet import Column, Mask, Sheet, blank, unreadable
from reportgen.model.problems import column_of
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade import fold

#: Columns that stand twice where a log has two blocks side by side.
_BLOCK = ("kg", "lb", "load", "sets", "reps")
#: What stands behind the comma of a load, on a bar with the plates there are.
_FRACTIONS = ("5", "50", "25", "75", "0", "00")
#: A number, with signs or a unit at it, and not the first word of a sentence.
_FIGURE = re.compile(r"[-(]?\d+(?:[.,]\d+)?\s*(?:$|[x×*@/+,;%)-]|(?:kg|lb|k|s)\b|\d)", re.IGNORECASE)
_UNREADABLE = Fault(expect("readable"), said=say("intake.unreadable"))


@dataclass(frozen=True, slots=True)
class Rows:
    """The rows below some headings, blank lines included."""

    headings: list[str]
    heading_line: int
    grid: Grid  # of the rows alone


def headed(grid: Grid, at: int = 0) -> Rows:
    """A grid as the headings in its row `at` and the rows under them."""
    first = int(grid.lines[at]) if grid.cells else 1
    if not at:
        first = min([*grid.lines[:1].tolist(), *(one.line for one in grid.broken[:1])])
    if not grid.cells or int(grid.lines[at]) != first:  # the headings' own line is the broken one
        return Rows([], first, grid)
    below = replace(grid, cells=grid.cells[at + 1 :], lines=grid.lines[at + 1 :])
    return Rows([cell.strip() for cell in grid.cells[at]], first, below)


def names(kind: Kind, own: Mapping[str, str]) -> dict[str, str]:
    """Folded headings -> our names, the lifter's own first."""
    return {fold(name): name for name in kind.columns} | {fold(key): name for key, name in own.items()}


def table(rows: Rows, kind: Kind, names: Mapping[str, str]) -> Sheet:
    """Cut rows into columns under our names.

    `names`, heading folded -> our name, may hold more than the kind's own where a layout knows more.
    """
    last = max((i for i, heading in enumerate(rows.headings, 1) if heading), default=0)
    if 0 < last <= MOST_COLUMNS:
        made = _columns(rows, kind, names, last)
    else:
        made = blank(rows.grid.file)
        made.extra = sum(any(map(str.strip, row)) for row in rows.grid.cells)
        said = say("intake.columns", count=last) if last else say("intake.no_headings")
        want = expect("columns") if last else wanted(kind)
        made.report(said, line=rows.heading_line, want=want, stop=True)
    made.extra += sum(one.line != rows.heading_line for one in rows.grid.broken)
    for one in rows.grid.broken:  # each is a row, but for the one of the headings
        place = Column(number=one.column)
        made.report(one.said, line=one.line, column=place, found=one.found, want=one.want)
    return made


def nothing_in(file: str, kind: Kind) -> Sheet:
    """The sheet of a table that holds nothing."""
    made = blank(file)
    made.report(say("intake.no_headings"), line=1, want=wanted(kind), stop=True)
    return made


def wanted(kind: Kind) -> Say:
    """The headings that a kind of file needs, for a message."""
    return expect("headings", words=tuple(map(_group, kind.needed)))


def _group(group: Sequence[str]) -> Say:
    return expect("load_column") if tuple(group) == LOADS else expect("one", names=tuple(group))


def _columns(rows: Rows, kind: Kind, names: Mapping[str, str], last: int) -> Sheet:
    """Cut the rows into columns, drop the empty ones, and settle which column is which."""
    headings = rows.headings[:last]
    columns = [
        _column(heading, number, cells)
        for number, (heading, cells) in enumerate(
            zip(headings, _across(rows.grid.cells, last), strict=True), 1
        )
    ]
    long = [
        (i, j, cell.strip())
        for i, row in enumerate(rows.grid.cells)
        if len(row) > last
        for j, cell in enumerate(row[last:], last + 1)
        if cell.strip()
    ]
    keep = np.zeros(len(rows.grid.cells), dtype=np.bool_)
    for column in columns:
        keep |= column.filled
    keep[[i for i, _, _ in long]] = True
    again = keep & _again(columns, rows.grid.cells, long)
    keep &= ~again
    long = [one for one in long if not again[one[0]]]
    kept = [_only(column, keep) for column in columns]
    place = np.cumsum(keep) - 1
    made = Sheet.of(rows.grid.file, rows.grid.lines[keep], decimal_comma=rows.grid.decimal_comma)
    # Copies pasted under one another: each such line is a row that is set aside, with one message.
    made.extra = int(again.sum())
    for line in rows.grid.lines[again].tolist():
        made.report(say("intake.headings_again"), line=line, want=expect("other_row"))
    if len(kind.needed) > 1 and all(
        names.get(fold(one.heading), "unused") in ("unused", "ignore") for one in kept
    ):
        made.report(
            say("intake.none_known", table=kind.name),
            line=rows.heading_line,
            found=", ".join(one.heading for one in kept if one.heading),
            want=wanted(kind),
            stop=True,
        )
        return made
    _beyond(made, long, rows, place)
    _name(made, kept, kind, names, rows.heading_line)
    _parted(made, rows, last, place)
    for column in [one for name, one in made.columns.items() if not name.startswith("?")]:
        wrong = {code: _UNREADABLE for code, word in enumerate(column.words) if unreadable(word)}
        made.blame(column, wrong)
    return made


def _beyond(made: Sheet, long: Sequence[tuple[int, int, str]], rows: Rows, place: NDArray[np.int64]) -> None:
    """Say which rows hold something beyond the last heading, and set them aside."""
    for i, row_cells in groupby(long, key=lambda one: one[0]):
        _, j, cell = next(row_cells)
        made.report(
            say("intake.beyond"),
            line=int(rows.grid.lines[i]),
            column=Column(number=j),
            found=cell,
            want=expect("nothing"),
        )
        made.aside[place[i]] = True


def _parted(made: Sheet, rows: Rows, last: int, place: NDArray[np.int64]) -> None:
    """Set aside the rows whose load a decimal comma parts in two: `62,5,3` is not 62 kg five times.

    Such a row has a cell more than the others. Where its last cells are empty none stands past the headings,
    and what is read of it looks like any other row.
    """
    if rows.grid.delimiter != "," or not rows.grid.cells:
        return
    lengths = [len(row) for row in rows.grid.cells]
    usual = max(last, max(set(lengths), key=lambda one: (lengths.count(one), -one)))
    loads = [made.columns[name] for name in LOADS if name in made.columns]
    for i, row in enumerate(rows.grid.cells):
        for column in loads if len(row) > usual else ():
            whole, behind = (cell.strip() for cell in row[column.number - 1 : column.number + 1])
            if whole.isdecimal() and behind in _FRACTIONS and not made.aside[place[i]]:
                found, line = f"{whole},{behind}", int(rows.grid.lines[i])
                made.report(say("intake.split"), line=line, column=column, found=found, want=expect("point"))
                made.aside[place[i]] = True


def _again(columns: Sequence[Column], cells: list[list[str]], long: Sequence[tuple[int, int, str]]) -> Mask:
    """Which rows only say the headings again."""
    same = np.ones(len(cells), dtype=np.bool_)
    for column in columns:
        heading = fold(column.heading)
        match = column.where(bool(heading) and fold(word) == heading for word in column.words)
        same &= match | ((not heading) & ~column.filled)
    same[[i for i, _, _ in long]] = False
    return same


def _across(cells: list[list[str]], width: int) -> Iterable[Sequence[str]]:
    """The columns of some rows; short rows are padded."""
    even = [row if len(row) == width else (row + [""] * (width - len(row)))[:width] for row in cells]
    return ([row[at] for row in even] for at in range(width))


def _column(heading: str, number: int, cells: Sequence[str]) -> Column:
    """Code one column: each different word once, white space at its ends away."""
    raw = np.empty(len(cells), dtype=object)
    raw[:] = cells
    codes, words = pd.factorize(raw)
    # Each word a new one: those of the rows lie between the rows, and would hold on to the room of these.
    bare = np.array([(_bare_word(word) + " ")[:-1] for word in words] or [""], dtype=object)
    again, bare_words = pd.factorize(bare)
    return Column(
        number=number, heading=heading, codes=again[codes].astype(np.int64), words=tuple(bare_words)
    )


def _bare_word(word: str) -> str:
    """A cell without white space at its ends, line breaks inside it as one character each."""
    word = word.strip()
    return word.replace("\r\n", "\n").replace("\r", "\n") if "\r" in word else word


def _only(column: Column, keep: Mask) -> Column:
    if keep.all():
        return column
    codes, used = pd.factorize(column.codes[keep])
    words = tuple(column.words[code] for code in used) or ("",)
    return replace(column, codes=codes.astype(np.int64), words=words)


def _name(made: Sheet, columns: Sequence[Column], kind: Kind, names: Mapping[str, str], line: int) -> None:
    """Give every column our name, and say which headings are not known, double or missing."""
    unknown: list[Column] = []
    of = [names.get(fold(column.heading)) if column.heading else None for column in columns]
    twice = sum(of.count(name) > 1 for name in _BLOCK) > 1
    for column, name in zip(columns, of, strict=True):
        if name is None:
            unknown.append(column)
        elif name in ("unused", "ignore"):
            made.columns[f"?{column.number}"] = column
        else:
            named = replace(column, name=name)
            first = made.columns.get(name)
            if first is not None and name in ("remark", "entry", "who"):
                named = _joined(first, named)
            elif first is not None:
                said = say("intake.same_heading", name=name, other=column_of(made.file, first.number))
                once, found = expect("once_heading"), named.heading
                made.report(said, line=line, column=named, level="odd", found=found, want=once)
                named = _merged(made, first, named, strict=twice and name in _BLOCK)
            made.columns[name] = named
    _lacking(made, unknown, kind, line)
    _unknown(made, unknown, kind, line)


def _lacking(made: Sheet, unknown: list[Column], kind: Kind, line: int) -> None:
    """Say which columns are needed and not there, with the unknown heading that may be one of them."""
    for group in kind.needed:
        if not any(name in made.columns for name in group):
            near = next((c for c in unknown if c.heading and close(fold(c.heading), group)), None)
            said, found = say("intake.no_column_near" if near else "intake.no_column"), ""
            if near is not None:
                unknown.remove(near)
                found = near.heading
            made.report(said, line=line, column=near, found=found, want=_group(group), stop=True)


def _unknown(made: Sheet, unknown: Sequence[Column], kind: Kind, line: int) -> None:
    free = [name for name in kind.columns if name not in made.columns]
    want = expect("names", names=tuple(free))
    for column in unknown:
        made.columns[f"?{column.number}"] = column
        if column.heading:
            strange(made, column, kind, line, want, close(fold(column.heading), free))
        elif column.filled.any():
            said = say("intake.no_heading", column=column_of(made.file, column.number))
            made.report(said, line=line, column=column, level="odd", want=want)


def holds_figures(column: Column) -> bool:
    """Whether most words of a column are numbers or begin with one, as loads, sets and repetitions do."""
    some = [word for word in column.words if word]
    return bool(some) and 2 * sum(_FIGURE.match(word) is not None for word in some) > len(some)


def strange(made: Sheet, column: Column, kind: Kind, line: int, want: Say, near: str | None = None) -> None:
    """Say that a heading is not known, and by which line it would be."""
    found = column.heading
    if near is None and holds_figures(column):  # as a remark its loads would be lost
        said = say("intake.unknown_figures", table=kind.name)
        made.report(said, line=line, column=column, level="odd", found=found, want=want)
        return
    mended = f'"{clipped(found)}" = "{near or "remark"}"'
    said = say("intake.unknown_heading", line=mended, table=kind.name)
    made.report(said, line=line, column=column, level="odd", found=found, want=want, near=near)


def _joined(first: Column, second: Column) -> Column:
    """Two columns of remarks as one."""
    both = first.codes * len(second.words) + second.codes
    codes, used = pd.factorize(both)
    pairs = [divmod(int(code), len(second.words)) for code in used]
    words = ["; ".join(filter(None, (first.words[a], second.words[b]))) for a, b in pairs]
    again, bare = pd.factorize(np.array(words or [""], dtype=object))
    return replace(first, codes=again[codes].astype(np.int64), words=tuple(bare))


def _merged(made: Sheet, first: Column, second: Column, *, strict: bool) -> Column:
    """One column of two with the same meaning; rows where both hold something different are set aside.

    Where a whole block of columns stands twice (`strict`: planned and done, or two lifters) a row with one of
    them empty is set aside as well.
    """
    words = {word: code for code, word in enumerate(dict.fromkeys((*first.words, *second.words)))}
    left = np.array([words[word] for word in first.words], dtype=np.int64)[first.codes]
    right = np.array([words[word] for word in second.words], dtype=np.int64)[second.codes]
    clash = np.flatnonzero((first.filled & second.filled | strict) & (left != right))
    made.blame_rows(second, clash, Fault(expect("same_in_both"), said=say("intake.twice")))
    return replace(first, codes=np.where(first.filled, left, right), words=tuple(words))
