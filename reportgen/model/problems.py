"""What went wrong with a file, as a value with a place."""

import re
from collections.abc import Collection, Iterable
from typing import Final, Literal

from reportgen.model.say import NOTHING, Say
from reportgen.model.values import dataclass

Level = Literal["error", "odd"]
_SHEET: Final = re.compile(r"(\.(?:xlsx|xlsm|xls|ods|csv))\[.*\]", re.IGNORECASE | re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing in one file that was not understood (`error`) or is odd but possible (`odd`)."""

    file: str  # path relative to the lifter's folder, with forward slashes
    line: int  # line as an editor counts it, from 1; the first line of the row
    column: int = 0  # field number from 1; 0 where the problem is the whole line or file
    heading: str = ""  # the heading of that field as the file has it, "" where there is none
    level: Level = "error"  # `error` sets the row (or the file) aside; `odd` uses it and says so
    found: str = ""  # what stood there
    expected: Say = NOTHING  # what would have been understood
    message: Say = NOTHING  # one sentence for a person, with the word it may have meant where one is close

    @property
    def place(self) -> str:
        """`file:line:column`, so an editor can jump to it; of a workbook its row and the column's letters."""
        column = f":{column_of(self.file, self.column)}" if self.column else ""
        return f"{self.file}:{self.line}{column}"

    def __lt__(self, other: "Problem") -> bool:
        """In the order of the file."""
        return self._order < other._order

    @property
    def _order(self) -> tuple[object, ...]:
        said = repr(self.expected), repr(self.message)
        return self.file, self.line, self.column, self.heading, self.level, self.found, *said


def whole_file(file: str) -> str:
    """The path without the sheet; a sheet's own name may hold brackets, a workbook's hardly does."""
    return _SHEET.sub(r"\1", file)


def column_of(file: str, column: int) -> str:
    """A column as whoever opens the file sees it: by letters in a workbook, else by its number."""
    return letters(column) if whole_file(file) != file else str(column)


def letters(column: int) -> str:
    """A column as a spreadsheet program names it: 1 is A, 28 is AB."""
    name = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        name = chr(65 + rest) + name
    return name


@dataclass(frozen=True, slots=True, kw_only=True)
class FileLedger:
    """What became of the rows of one file; `rows_read == rows_used + rows_set_aside` always.

    For lifter.toml and notes/*.md a row is the file itself (one read, one used or set aside). `kind` is the
    table that the file is, or may be meant to be: training, pain ...; "" for a file that is none. `layout`
    says how a table was read, `unclear_misses` how many rows are set aside since something tells of a miss.
    """

    file: str
    rows_read: int
    rows_used: int
    rows_set_aside: int
    problems: tuple[Problem, ...] = ()
    kind: str = ""
    layout: Say = NOTHING
    unclear_misses: int = 0

    @classmethod
    def of_whole(cls, file: str, problems: Iterable[Problem], *, used: bool = False) -> "FileLedger":
        """The entry of a file that is one row."""
        some, aside = tuple(sorted(problems)), int(not used)
        return cls(file=file, rows_read=1, rows_used=int(used), rows_set_aside=aside, problems=some)


def table_of(file: str, known: Collection[str]) -> str:
    """Which of some tables a file is by its name, or by its sheet's or folder's; "" where none of them."""
    bare = whole_file(file)
    for name in (file.removeprefix(bare).strip("[]"), bare.partition("/")[0]):
        stem = name.casefold().partition(".")[0].replace(" ", "").replace("_", "")
        if stem in known:
            return stem
    return ""
