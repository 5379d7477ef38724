"""Open a user's file, and turn its bytes into text and its text into rows: nothing else opens user files."""

import csv
import re
import stat
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from pathlib import Path

import numpy as np

from reportgen.intake.bounds import LARGEST_BYTES, MOST_ABOVE, MOST_BROKEN, MOST_LINES, MOST_RECORD_LINES
from reportgen.intake.grid import Broken, Grid
from reportgen.intake.kinds import KINDS
from reportgen.intake.messages import close, expect, problem
from reportgen.model.letters import shown
from reportgen.model.problems import Level, Problem
from reportgen.model.say import Value, say
from reportgen.model.values import dataclass

WORKBOOKS = (".xlsx", ".xlsm", ".xls", ".ods")
#: Names that a slip in another one is never taken for.
_NAMED = frozenset({"lifter.toml", *(kind.file for kind in KINDS)})
#: How a zipped workbook begins, and one of before 2007 or one that is locked with a password.
ZIP = b"PK\x03\x04"
COMPOUND = b"\xd0\xcf\x11\xe0"
_DELIMITERS = ",;\t"
#: What a line without any cell is made of.
_BLANK = ' \t\r\n,;"\u00a0'
#: Letters of Polish that are signs in the western form, inside a word: ł, ą, ż, ś, ź.
_POLISH = re.compile(rb"[A-Za-z\xe0-\xff][\xb3\xb9\xbf\x9c\x9f][a-z]")
#: A line with its end, as an editor counts lines.
_LINE = re.compile(r"[^\r\n]*(?:\r\n?|\n)|[^\r\n]+")
_SEP = re.compile(r'"?sep=([,;|\t])"?[ ,;|\t]*', re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A file's text; `mixed_line` is the first line that broke the encoding of the rest, if one did.

    `encoding` is the one in which more can be written behind it.
    """

    text: str
    mixed_line: int | None = None
    encoding: str = "utf-8"


def content(root: Path, file: str, *, table: bool = False) -> bytes | Problem:
    """The bytes of one file of a folder, or why they were not read; a `table` may be a workbook."""
    try:
        got = _opened(root / file, root, table=table)
    except FileNotFoundError:
        got = "no_file"
    except (OSError, RuntimeError, ValueError):  # RuntimeError: a link that points at itself
        got = "shut"
    if isinstance(got, bytes):
        return got
    return refused(file, got)


def inside(folder: Path) -> list[Path] | None:
    """What lies in a folder, by name; None where it is closed."""
    try:
        return sorted(folder.iterdir(), key=lambda one: one.name)
    except OSError:
        return None


def near_name(root: Path, file: str) -> str | None:
    """The file of a folder that may be meant for one that is not there: another ending behind it, a slip."""
    there = [one for one in inside(root) or () if not one.name.startswith(".")]
    hidden = [one.name for one in there if one.name.casefold().startswith(f"{file}.")]
    near = hidden[0] if hidden else close(file, [one.name for one in there if one.is_file()])
    return shown(near) if near and near.casefold() not in _NAMED - {file} and near != file else None


def workbook_beside(root: Path) -> str | None:
    """A workbook in a folder whose log holds nothing: the log may be in it."""
    found = [one.name for one in inside(root) or () if one.suffix.casefold() in WORKBOOKS]
    return shown(found[0]) if found else None


def refused(file: str, why: str, *, level: Level = "error", found: str = "", **values: Value) -> Problem:
    """The problem of a file that is not read at all, or of one that is and is odd as a whole.

    `why` is its sentence under [file] of the messages, with what is expected under [file.want].
    """
    want = say(f"intake.file.want.{why}")
    return problem(say(f"intake.file.{why}", **values), file=file, level=level, found=found, want=want)


def _opened(path: Path, root: Path, *, table: bool) -> bytes | str:
    """The bytes, or why there are none."""
    if not path.resolve().is_relative_to(root.resolve()):
        return "outside"
    if not stat.S_ISREG(path.stat().st_mode):
        return "not_a_file"
    with path.open("rb") as stream:
        raw = stream.read(LARGEST_BYTES + 1)
    if len(raw) > LARGEST_BYTES:
        return "large"
    if is_workbook(raw):
        return raw if table else "workbook"
    return "lines" if max(raw.count(b"\n"), raw.count(b"\r")) > MOST_LINES else raw


def is_workbook(raw: bytes) -> bool:
    """Whether these bytes begin as a workbook does, whatever the file's name ends in."""
    return raw.startswith((ZIP, COMPOUND))


def decoded(raw: bytes) -> Text:
    """The text of a file in UTF-8, UTF-16 or an older Windows form (1252, 1250, 1251).

    A byte-order mark may stand before it.

    A byte that no letter stands for becomes U+FFFD, and the row that holds it is set aside later.
    """
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        ends = "le" if raw.startswith(b"\xff\xfe") else "be"
        return Text(text=raw.decode("utf-16", errors="replace"), encoding=f"utf-16-{ends}")
    half = len(raw) // 2
    for encoding, zeros in (("utf-16-le", raw[1::2].count(0)), ("utf-16-be", raw[0::2].count(0))):
        # Text in Latin letters has a zero in every second byte; a stray NUL elsewhere does not make UTF-16.
        if half and zeros > 0.4 * half and raw.count(0) < 1.2 * half and len(raw) % 2 == 0:
            return Text(text=raw.decode(encoding, errors="replace"), encoding=encoding)
    try:
        return Text(text=raw.decode("utf-8-sig"))
    except UnicodeDecodeError:
        pass
    # A lone byte over 127 does not decode: a letter that does tells of UTF-8.
    if not raw.startswith(b"\xef\xbb\xbf") and raw.decode("utf-8", errors="ignore").isascii():
        older = _older(raw)
        return Text(text=raw.decode(older, errors="replace"), encoding=older)
    lines: list[str] = []
    mixed: int | None = None
    count = 1
    for line in raw.removeprefix(b"\xef\xbb\xbf").splitlines(keepends=True):
        try:
            lines.append(line.decode("utf-8"))
        except UnicodeDecodeError:
            lines.append(line.decode("cp1252", errors="replace"))
            mixed = mixed or count
        # bytes.splitlines knows \n, \r and \r\n only, as an editor does.
        count += 1
    return Text(text="".join(lines), mixed_line=mixed)


def _older(raw: bytes) -> str:
    """Which older Windows form a text is in: Cyrillic words are of high bytes only, Polish has its own."""
    words = re.findall(rb"[A-Za-z\x80-\xff]{3,}", raw)
    if sum(all(byte > 0xBF for byte in word) for word in words) > 0.3 * len(words):
        return "cp1251"
    return "cp1250" if _POLISH.search(raw) else "cp1252"


def split(file: str, text: str, known: Iterable[str]) -> Grid | None:
    """Tell a table's cells apart, None where no line holds anything.

    `known`, headings that the file may have, folded, tell which delimiter it uses.
    """
    text = text.removeprefix("\ufeff")
    first = _filled(text, 0)
    if first is None:
        return None
    told = _SEP.fullmatch(next(islice(_lines(text), first, None)).rstrip("\r\n"))
    if told:  # a line for one spreadsheet program: it says the delimiter and is no row
        first = _filled(text, first + 1)
        if first is None:
            return None
    some = list(islice(_lines(text), first, first + MOST_ABOVE))
    delimiter = told[1] if told else _delimiter(some, frozenset(known))
    cells: list[list[str]] = []
    starts: list[int] = []
    broken: list[Broken] = []
    if '"' in text:
        _quoted_rows(_Feed(list(_lines(text)), first), delimiter, cells, starts, broken)
        where = np.array(starts, dtype=np.int64)
    else:
        _plain_rows(_Read(islice(_lines(text), first, None)), first, delimiter, cells, broken)
        where = np.arange(first + 1, first + 1 + len(cells), dtype=np.int64)
    return Grid(
        file=file,
        cells=cells,
        lines=where,
        decimal_comma=delimiter != ",",
        delimiter=delimiter,
        broken=tuple(broken),
    )


def _lines(text: str) -> Iterator[str]:
    """The lines of a text with their ends, one by one: a long log is not held twice."""
    return (line[0] for line in _LINE.finditer(text))


def _filled(text: str, first: int) -> int | None:
    """The first line from `first` on that holds anything."""
    lines = enumerate(islice(_lines(text), first, None), first)
    return next((place for place, line in lines if line.strip(_BLANK)), None)


def _one_copy() -> Callable[[list[str]], list[str]]:
    """Rows whose cells are kept once, however often a log says the same."""
    seen: dict[str, str] = {}
    # A list that grew by its cells has room for more of them; its copy has none to spare.
    return lambda row: list(map(seen.setdefault, row, row))[:]


class _Read:
    """Lines one by one; the last one is known."""

    def __init__(self, lines: Iterator[str]) -> None:
        self._lines, self.last = lines, ""

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        self.last = next(self._lines)
        return self.last


def _delimiter(lines: Sequence[str], known: frozenset[str]) -> str:
    """The delimiter that yields most known headings in one of the first lines, then most cells."""
    from reportgen.trade import fold

    def score(mark: str) -> tuple[int, int]:
        rows = [next(csv.reader([line], delimiter=mark, skipinitialspace=True), []) for line in lines]
        return max(sum(fold(cell) in known for cell in cells) for cells in rows), max(map(len, rows[:2]))

    try:
        return max(_DELIMITERS, key=score)
    except csv.Error:
        return ","


class _Feed:
    """Lines one by one, with a place to go back to and a line after which a row has to have ended."""

    def __init__(self, lines: list[str], at: int) -> None:
        self.lines, self.at, self.end = lines, at, at + MOST_RECORD_LINES

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        if self.at >= len(self.lines) or self.at >= self.end:
            raise StopIteration
        self.at += 1
        return self.lines[self.at - 1]


def _quoted_rows(
    feed: _Feed, delimiter: str, cells: list[list[str]], starts: list[int], broken: list[Broken]
) -> None:
    """Read rows whose cells may hold line breaks; a row that cannot be read costs its first line only."""
    reader = csv.reader(feed, delimiter=delimiter, strict=True, skipinitialspace=True)
    one_copy = _one_copy()
    span = MOST_RECORD_LINES
    while feed.at < len(feed.lines):
        start = feed.at
        feed.end = start + span
        try:
            row = next(reader)
        except (csv.Error, StopIteration) as error:
            broken.append(_broken(feed.lines[start], start + 1, delimiter, str(error)))
            feed.at = start + 1
            span = 1 if len(broken) > MOST_BROKEN else span
            reader = csv.reader(feed, delimiter=delimiter, strict=True, skipinitialspace=True)
        else:
            cells.append(one_copy(row))
            starts.append(start + 1)


def _plain_rows(
    lines: _Read, first: int, delimiter: str, cells: list[list[str]], broken: list[Broken]
) -> None:
    """Read rows of a file without quotes: one line each."""
    reader = csv.reader(lines, delimiter=delimiter, skipinitialspace=True)
    one_copy = _one_copy()
    while True:
        try:
            cells.extend(map(one_copy, reader))
        except csv.Error as error:
            broken.append(_broken(lines.last, first + len(cells) + 1, delimiter, str(error)))
            cells.append([])  # keeps a row a line
        else:
            return


def _broken(line: str, number: int, delimiter: str, reason: str) -> Broken:
    if "field larger" in reason:
        return Broken(
            line=number, column=0, said=say("intake.too_long"), want=expect("short_cell"), found=line.strip()
        )
    cells = line.split(delimiter)
    column = next((i for i, cell in enumerate(cells, 1) if cell.lstrip().startswith('"')), 0)
    return Broken(
        line=number, column=column, said=say("intake.quote"), want=expect("closed"), found=line.strip()
    )
