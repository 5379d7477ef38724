"""What a table or text looks like, and its rows in the form that our own tables have.

`tidy` decides the layout of each grid (rows, by lift, weeks, form, diary), puts its words into our form and
brings every miss into `made`. What comes back is a sheet that `sets` and the other readers take as our own.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from reportgen.intake import columns, days
from reportgen.intake.columns import headed, nothing_in
from reportgen.intake.days import Hints
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import ATTEMPTS, TRAINING, Kind
from reportgen.intake.layouts import misses
from reportgen.intake.layouts.actual import actual_reps, planned_reps
from reportgen.intake.layouts.bylift import bylift
from reportgen.intake.layouts.diary import diary
from reportgen.intake.layouts.find import BY_LIFT, DIARY, ROWS, TWO_ROWS, WEEKS, Found, find
from reportgen.intake.layouts.heads import SETS, parted, reps_apart, sets_in_cells
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.rows import one_lifter, polish, relaxed
from reportgen.intake.layouts.stamped import of_several, unstamped
from reportgen.intake.layouts.tabs import days_of_tabs, years_of_tabs
from reportgen.intake.layouts.ticks import not_ticked, ticked_off, unticked
from reportgen.intake.layouts.unfold import short_words, unfold, unfolds
from reportgen.intake.layouts.weeks import weeks
from reportgen.intake.messages import expect
from reportgen.intake.named import lifts_of
from reportgen.intake.sheet import Column, Sheet, blank
from reportgen.intake.tables import Manner
from reportgen.intake.tokens import Use
from reportgen.model.say import say
from reportgen.trade import fold
from reportgen.trade.tongue import language, speaking

__all__ = ["known_headings", "tidy"]

#: So many rows are looked at for the language of a log.
_SOME_ROWS = 300
#: So many rows are looked at for the lifts that a log names.
_MOST_ROWS = 5000


def known_headings(kind: Kind, own: Mapping[str, str]) -> dict[str, str]:
    """Every heading that a file may have, folded; they tell which delimiter it uses."""
    every = speaking("English").headings
    return {**every, **columns.names(kind, own)}


def tidy(grids: Sequence[Grid], kind: Kind, manner: Manner) -> tuple[Sheet, ...]:
    """Understand what some grids look like; what one shows of language and lifts holds for the others.

    One sheet a grid, in their order: columns under our names, words in our form, each with its place. What is
    not clear is set aside in it; `layout` and `told` say how it was read. The grids' cells are used up.
    """
    spoken = language(word for grid in grids for word in _words(grid))
    tongue = speaking(spoken)
    vocabulary = manner.lifts()
    told = [unstamped(grid, lambda word: bool(vocabulary.find(word)) or fold(word) in tongue.lifts)
            if kind in SETS else (grid, ()) for grid in grids]  # fmt: skip
    grids = [grid for grid, _ in told]
    several = {grid.file: names for grid, names in told if len(names) > 1}
    words = [word for grid in grids for word in _lift_words(grid)] if kind in SETS else []
    lifts = lifts_of(words, vocabulary, tongue)
    logs: list[Log] = []
    shown = Hints(form=manner.date_format, tongue=tongue)
    first = dict.fromkeys(cell for grid in grids for row in grid.cells[:_MOST_ROWS] for cell in row[:2])
    order = days.shown_order(first, shown)
    years = years_of_tabs([grid.file for grid in grids], tongue)
    for grid in grids:
        how = manner.manners(grid.file)
        top = [cell for row in grid.cells[:3] for cell in row if cell.strip()][:1]
        year, month = days.title([grid.file, *top], tongue)
        hints = replace(
            shown,
            year=how.year or year or years.get(grid.file),
            month=month if "[" in grid.file or "/" in grid.file else None,
            turned=how.turned,
            order=order,
        )
        use = Use(
            order=how.order,
            signs=frozenset(how.miss),
            plain=frozenset(how.made),
            comma=how.comma,
            bar=how.bar or manner.bar,
            tongue=tongue,
        )
        logs.append(
            Log(
                grid=grid, kind=kind, manner=manner, how=how, tongue=tongue, lifts=lifts, hints=hints, use=use
            )
        )
    open_ = unticked(logs)
    logs = [replace(log, unticked=log.grid.file in open_) for log in logs]
    mixed = days_of_tabs(logs)
    made = [
        of_several(log.grid, several[log.grid.file])
        if log.grid.file in several
        else _mixed(log)
        if log.grid.file in mixed
        else _sheet(log)
        for log in logs
    ]
    if made and lifts.read_as:
        some = tuple(say("intake.read.taken", word=word, name=lift) for word, lift in lifts.read_as.items())
        made[0].told.append(say("intake.read.taken_all", taken=some))
    return tuple(made)


def _words(grid: Grid) -> Iterable[str]:
    """Words of the first rows: headings, lifts, months."""
    for row in grid.cells[:_SOME_ROWS]:
        for cell in row:
            if 1 < len(cell) < 200:
                head = next((i for i, letter in enumerate(cell) if letter.isdigit()), len(cell))
                yield cell[:head].strip(" :-–=,")
                yield from (part for part in cell.split() if len(part) > 2 and part.isalpha())


def _lift_words(grid: Grid) -> Iterable[str]:
    """Cells that may name a lift, each once; of a text the words before the first number."""
    seen: dict[str, None] = {}
    for row in grid.cells[:_MOST_ROWS]:
        for cell in row[:12]:
            if 1 < len(cell) < 60:
                seen[cell] = None
    for cell in seen:
        if not cell[:1].isdigit():
            head = next((i for i, letter in enumerate(cell) if letter.isdigit()), len(cell))
            yield cell[:head].strip(" :-–=,")


def _sheet(log: Log) -> Sheet:
    """The sheet of one grid."""
    if not log.grid.cells and not log.grid.broken:
        return nothing_in(log.grid.file, log.kind)
    found = find(log)
    made = _LAYOUTS[found.layout](log, found)
    log.grid.cells.clear()  # the sheet holds each word once; a long log would stand here a second time
    made.coloured = _coloured(made, log.grid) if log.kind is TRAINING else frozenset()
    lines = {*made.lines.tolist()} if log.grid.commented and log.kind in SETS else set()
    made.commented = frozenset(
        (row + 1, column + 1) for row, column in log.grid.commented if row + 1 in lines
    )
    short = log.kind in SETS and log.kind is not ATTEMPTS and unfolds(made)
    polish(made, log, short=short)
    if short and not made.whole:
        unfold(made, log)
        if found.layout == ROWS:
            made.layout = say("intake.read.form", **dict(made.layout.values))
    misses.settle(made, log)
    _remarks(made)
    return made


def _coloured(made: Sheet, grid: Grid) -> frozenset[tuple[int, int]]:
    """The coloured cells of loads, sets and repetitions; none where most of a column are, by its look."""
    found: set[tuple[int, int]] = set()
    for name in ("kg", "lb", "load", "sets", "reps", "made", "entry") if grid.coloured else ():
        column = made.columns.get(name)
        if column is None:
            continue
        numbers = column.places[0].tolist() if column.places else [column.number] * len(made)
        rows = np.flatnonzero(column.filled).tolist()
        cells = {(int(made.lines[row]), int(numbers[row])) for row in rows}
        some = {(line, number) for line, number in cells if (line - 1, number - 1) in grid.coloured}
        found |= some if 2 * len(some) < len(cells) else set()
    return frozenset(found)


def _mixed(log: Log) -> Sheet:
    """The sheet of a tab whose week is not known."""
    made = blank(log.grid.file)
    made.extra = sum(any(map(str.strip, row)) for row in log.grid.cells) - 1
    made.report(say("intake.tabs"), line=int(log.grid.lines[0]), want=expect("own_weeks"), stop=True)
    return made


def _rows(log: Log, found: Found) -> Sheet:
    """Rows: a table under headings."""
    names = found.names
    rows = headed(log.grid, found.at)
    if found.at and log.kind in SETS:
        told = parted(rows.headings, log.grid.cells[found.at - 1], log.tongue)
        new = (set(told) - set(rows.headings)) if told != rows.headings else set()
        rows, names = replace(rows, headings=told), names | {fold(one): "unused" for one in new}
    if found.at and log.grid.broken:
        below = tuple(one for one in log.grid.broken if one.line > rows.heading_line)
        rows = replace(rows, grid=replace(rows.grid, broken=below))
    sets_in_cells(rows.headings, rows.grid.cells, names, log)
    there = set(names.values())
    kind = relaxed(log.kind, there, negative=log.kind is ATTEMPTS and _negative(log.grid))
    if log.kind in SETS and log.kind is not ATTEMPTS and "reps" not in there and found.names:
        kind = relaxed(kind, {"scheme"}) if _short_loads(rows.grid.cells, rows.headings, names) else kind
    names = names | ticked_off(rows, names, log)
    planned = planned_reps(rows.headings, names, log.tongue) if log.kind is TRAINING else None
    if planned is not None:
        names = names | {fold(planned.heading): "unused"}
    made = columns.table(rows, kind, names)
    if log.kind is TRAINING and (apart := reps_apart(rows.headings, rows.grid.cells, names, log.tongue)):
        column = Column(number=rows.headings.index(apart) + 1)
        said, want = say("intake.reps_apart"), expect("reps_of_row")
        made.report(said, line=rows.heading_line, column=column, found=apart, want=want, stop=True)
    if planned is not None and not made.whole:
        actual_reps(made, planned, log)
    not_ticked(made, log)
    if log.kind not in SETS:
        if found.at:
            made.layout = say("intake.read.below", line=rows.heading_line)
        return made
    if made.whole:
        return made
    one_lifter(made, log.manner.name)
    own = {fold(name): name for name in log.kind.columns}
    for heading in rows.headings:
        name = names.get(fold(heading), "")
        if name not in ("", own.get(fold(heading)), fold(heading), "unused", "who"):
            made.told.append(say("intake.read.taken", word=heading, name=name))
    made.layout = say("intake.read.rows", n=len(made))
    if found.at:
        made.told.append(say("intake.read.headings", line=rows.heading_line))
    return made


def _two_rows(log: Log, found: Found) -> Sheet:
    """Headings on two rows that can't be joined into one."""
    made = blank(log.grid.file)
    made.extra = sum(any(map(str.strip, row)) for row in log.grid.cells[found.at + 1 :])
    line = int(log.grid.lines[found.at])
    made.report(say("intake.two_rows"), line=line, want=expect("one_row"), stop=True)
    return made


def _negative(grid: Grid) -> bool:
    return any(cell[:1] in "-−" and cell[1:2].isdigit() for row in grid.cells for cell in row if cell)


def _short_loads(cells: Sequence[Sequence[str]], headings: Sequence[str], names: Mapping[str, str]) -> bool:
    """Whether the column of loads holds shorthand, so that no column of repetitions is needed."""
    at = next((i for i, one in enumerate(headings) if names.get(fold(one)) in ("kg", "lb", "load")), None)
    words = [row[at] for row in cells[:_SOME_ROWS] if at is not None and at < len(row) and row[at].strip()]
    return short_words(words)


_LAYOUTS: Mapping[str, Callable[[Log, Found], Sheet]] = {
    ROWS: _rows,
    BY_LIFT: lambda log, found: bylift(log, found.at),
    WEEKS: lambda log, found: weeks(log, found.at),
    DIARY: lambda log, _: diary(log),
    TWO_ROWS: _two_rows,
}


def _remarks(made: Sheet) -> None:
    """What was said of a day or beside a lift stays with the first of its sets as a remark."""
    for name in ("?day", "?near"):
        column = made.columns.get(name)
        if column is None or not len(made):
            continue
        _, first = np.unique(column.codes * (1 + int(made.lines.max())) + made.lines, return_index=True)
        there = made.column("remark")
        words = {
            row: "; ".join(filter(None, (there.words[there.codes[row]], column.words[column.codes[row]])))
            for row in first.tolist()
            if column.words[column.codes[row]]
        }
        made.put("remark", words)
