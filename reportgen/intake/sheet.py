"""One table file as columns of words, and the problems found in it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from reportgen.intake.bounds import MOST_ODD
from reportgen.intake.messages import CELL, Fault, expect, problem
from reportgen.model.problems import FileLedger, Level, Problem
from reportgen.model.say import NOTHING, Say, say
from reportgen.model.values import dataclass

Codes = NDArray[np.int64]
Mask = NDArray[np.bool_]


def no_rows() -> Codes:
    """The rows of nothing."""
    return np.zeros(0, dtype=np.int64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: the word of a row is `words[codes[row]]`. `number` 0 = the file has no such column.

    `raw` holds what stood in the file where `words` holds it in our form; `places` the column's number and
    heading of each row where a row's cells come from different columns of the file.
    """

    name: str = ""
    number: int = 0
    heading: str = ""
    codes: Codes = field(default_factory=no_rows)
    words: tuple[str, ...] = ("",)
    raw: tuple[str, ...] = ()
    places: tuple[Codes, tuple[str, ...]] | None = None

    @classmethod
    def of(cls, words: Sequence[str], **rest: Any) -> "Column":
        """A column of a word a row."""
        code = {word: i for i, word in enumerate(dict.fromkeys(words))}
        codes = np.array([code[word] for word in words], dtype=np.int64)
        return cls(codes=codes, words=tuple(code) or ("",), **rest)

    @property
    def filled(self) -> Mask:
        """Which rows have something in this column."""
        return self.where([word != "" for word in self.words])

    def where(self, some: Iterable[bool]) -> Mask:
        """Which rows have a word of which this is true; a truth for each of `words`."""
        return np.array(list(some), dtype=np.bool_)[self.codes]

    def rows(self, codes: Iterable[int]) -> list[int]:
        """The rows that have these words."""
        some = list(codes)
        return np.flatnonzero(np.isin(self.codes, some)).tolist() if some else []

    def word(self, row: int) -> str:
        """The word of a row."""
        return self.words[int(self.codes[row])]

    def found(self, row: int) -> str:
        """What stood in the file."""
        return (self.raw or self.words)[int(self.codes[row])]

    def at(self, row: int) -> "Column":
        """The column with the place of one row."""
        if self.places is None:
            return self
        numbers, headings = self.places
        return replace(self, number=int(numbers[row]), heading=headings[row], places=None)


def unreadable(word: str) -> bool:
    """Whether a cell holds a character that stands for none: NUL, or a byte that no letter has."""
    return "\ufffd" in word or "\0" in word


@dataclass(slots=True, kw_only=True)
class Sheet:
    """The rows of one file while they are being understood. Only intake sees it, so it may change."""

    file: str
    lines: Codes  # line of each row
    columns: dict[str, Column]  # columns that the file has, by our name
    decimal_comma: bool
    aside: Mask  # rows that cannot be used
    extra: int = 0  # rows set aside before they had columns (broken quotes)
    #: The entry that each row belongs to, where an entry of the file gives several rows; it counts as one
    #: row, and is set aside as a whole.
    entries: Codes | None = None
    unclear_misses: int = 0  # rows set aside since something tells of a miss and it is not clear which
    coloured: frozenset[tuple[int, int]] = frozenset()  # line and column of its coloured cells with sets
    commented: frozenset[tuple[int, int]] = frozenset()  # of the cells of its rows that have a comment
    layout: Say = NOTHING  # what the file looks like; `told` what `check` says about how it was read
    told: list[Say] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    stops: list[Problem] = field(default_factory=list)  # why the file as a whole cannot be used

    @classmethod
    def of(cls, file: str, lines: Codes, *, decimal_comma: bool = False) -> "Sheet":
        """A sheet of so many rows without any column yet."""
        aside = np.zeros(len(lines), dtype=np.bool_)
        return cls(file=file, lines=lines, columns={}, decimal_comma=decimal_comma, aside=aside)

    def __len__(self) -> int:
        """Number of rows."""
        return len(self.lines)

    def column(self, name: str) -> Column:
        """The column, or one of empty cells where the file has none."""
        if name in self.columns:
            return self.columns[name]
        return Column(name=name, codes=np.zeros(len(self), dtype=np.int64))

    def word(self, name: str, row: int) -> str:
        """The word of a row in a column, "" where the file has no such column."""
        return self.columns[name].word(row) if name in self.columns else ""

    @property
    def whole(self) -> bool:
        """Whether the file is set aside as a whole."""
        return bool(self.stops)

    def report(
        self,
        said: Say,
        *,
        line: int,
        column: Column | None = None,
        level: Level = "error",
        found: str = "",
        want: Say = NOTHING,
        near: str | None = None,
        stop: bool = False,
    ) -> None:
        """Add one problem, as `messages.problem` makes it; with `stop` the whole file cannot be used."""
        at, name = ((column.number, column.heading), column.name) if column else ((0, ""), "")
        made = problem(
            said, file=self.file, line=line, level=level, found=found, want=want, near=near, at=at, name=name
        )
        self.problems.append(made)
        if stop:
            self.stops.append(made)

    def blame(self, column: Column, faults: Mapping[int, Fault]) -> None:
        """Set aside the rows whose word of this column, by its code, is at fault."""
        hit = np.array(column.rows(faults), dtype=np.int64)
        self.blame_rows(column, hit, [faults[code] for code in column.codes[hit].tolist()])

    def blame_rows(self, column: Column | None, rows: Codes, faults: Fault | Sequence[Fault]) -> None:
        """Set aside these rows, each for its own fault in this column (or one for all), or as a whole."""
        self._tell(rows, column, faults, "error")
        self.aside[rows] = True

    def odd(self, rows: Codes, column: Column | None, faults: Fault | Sequence[Fault]) -> None:
        """Report used rows that are odd, each by its fault or all by one; many are told as a number."""
        self._tell(rows[:MOST_ODD], column, faults, "odd")
        if len(rows) > MOST_ODD:
            line, said = int(self.lines[rows[MOST_ODD]]), say("intake.more", count=len(rows) - MOST_ODD)
            self.report(said, line=line, column=column, level="odd", want=expect("same_again"))

    def _tell(
        self, rows: Codes, column: Column | None, faults: Fault | Sequence[Fault], level: Level
    ) -> None:
        for place, row in enumerate(rows.tolist()):
            fault = faults if isinstance(faults, Fault) else faults[place]
            found = column.found(row) if column else ""
            self.report(
                say("intake.empty") if column and fault.said is CELL and not found else fault.said,
                line=int(self.lines[row]),
                column=column.at(row) if column else None,
                level=level,
                found=found,
                want=fault.want,
                near=fault.near,
            )

    def only(self, keep: Mask) -> None:
        """Keep some of the rows: the others are none (totals, headings)."""
        self.columns = {
            name: replace(column, codes=column.codes[keep]) for name, column in self.columns.items()
        }
        self.lines, self.aside = self.lines[keep], self.aside[keep]

    def repeat(self, rows: Codes) -> None:
        """Make these the rows, each of the entry that it stood for."""
        for name, column in self.columns.items():
            places = column.places
            if places is not None:
                places = places[0][rows], tuple(places[1][row] for row in rows.tolist())
            self.columns[name] = replace(column, codes=column.codes[rows], places=places)
        self.lines, self.aside, self.entries = self.lines[rows], self.aside[rows], rows

    def put(self, name: str, words: Mapping[int, str]) -> None:
        """Write other words into some rows of a column."""
        if not words:
            return
        column = self.column(name)
        new = [word for word in dict.fromkeys(words.values()) if word not in column.words]
        every = (*column.words, *new)
        known = {word: code for code, word in enumerate(every)}
        codes = column.codes.copy()
        codes[list(words)] = [known[word] for word in words.values()]
        raw = (*column.raw, *new) if column.raw else ()
        self.columns[name] = replace(column, codes=codes, words=every, raw=raw)

    def reword(self, name: str, words: Mapping[int, str]) -> None:
        """Put words of a column, by their codes, into our form; what stood in the file is kept."""
        column = self.columns[name]
        new = tuple(words.get(code, word) for code, word in enumerate(column.words))
        if new != column.words:
            self.columns[name] = replace(column, words=new, raw=column.raw or column.words)

    def together(self) -> None:
        """Set aside the whole of an entry where one of its rows is."""
        if self.entries is not None and len(self):
            self.aside = np.isin(self.entries, self.entries[self.aside])

    @property
    def how(self) -> Say:
        """How the file was read."""
        of = say("intake.read.of", file=self.file, layout=self.layout)
        return say("intake.read.all", parts=(of, *self.told))

    def ledger(self) -> FileLedger:
        """What became of the rows: read = used + set aside, always."""
        if self.entries is None:
            here, left = len(self), len(self) - int(self.aside.sum())
        else:
            here, left = len(np.unique(self.entries)), len(np.unique(self.entries[~self.aside]))
        read = here + self.extra
        used = 0 if self.whole else left
        return FileLedger(
            file=self.file,
            rows_read=read,
            rows_used=used,
            rows_set_aside=read - used,
            problems=tuple(sorted(self.problems)),
            layout=self.how if self.layout is not NOTHING else NOTHING,
            unclear_misses=self.unclear_misses,
        )


def blank(file: str, *stops: Problem) -> Sheet:
    """A sheet without rows: the file was not understood at all."""
    made = Sheet.of(file, no_rows())
    made.problems, made.stops = list(stops), list(stops)
    return made
