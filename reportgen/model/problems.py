"""What went wrong with a file, as a value with a place."""

from dataclasses import dataclass
from typing import Literal

Level = Literal["error", "odd"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Problem:
    """One thing in one file that was not understood (`error`) or is odd but possible (`odd`).

    Attributes:
        file: Path relative to the lifter's folder, with forward slashes.
        line: Line as an editor counts it, from 1; the first line of the row.
        column: Field number from 1; 0 where the problem is the whole line or file.
        heading: The heading of that field as the file has it, "" where there is none.
        level: `error` sets the row (or the file) aside; `odd` uses it and says so.
        found: What stood there.
        expected: What would have been understood.
        message: One sentence for a person, with the word it may have meant where one is close.
    """

    file: str
    line: int
    column: int = 0
    heading: str = ""
    level: Level = "error"
    found: str = ""
    expected: str = ""
    message: str = ""

    def __str__(self) -> str:
        """`file:line:column: message`, so an editor can jump to it."""
        place = f"{self.file}:{self.line}" + (f":{self.column}" if self.column else "")
        return f"{place}: {self.message}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FileLedger:
    """What became of the rows of one file; `rows_read == rows_used + rows_set_aside` always.

    For lifter.toml and notes/*.md a row is the file itself (one read, one used or set aside). `kind` is the
    table that the file is, or may be meant to be: training, pain ...; "" for a file that is none. `layout` says how a
    table was read, and `unclear_misses` how many of the rows set aside are so because something tells of a miss.
    """

    file: str
    rows_read: int
    rows_used: int
    rows_set_aside: int
    problems: tuple[Problem, ...] = ()
    kind: str = ""
    layout: str = ""
    unclear_misses: int = 0
