"""Every table of a lifter's folder, from whatever files hold it: one reading a table, text or sheet."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from functools import reduce
from pathlib import Path, PurePosixPath
from typing import Final, cast

import numpy as np

from reportgen.intake import kinds
from reportgen.intake.attempts import attempts
from reportgen.intake.bounds import LARGEST_BYTES
from reportgen.intake.columns import nothing_in
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import KINDS, Kind
from reportgen.intake.layouts import known_headings, tidy
from reportgen.intake.messages import expect, problem, quoted
from reportgen.intake.read import content, decoded, is_workbook, refused, split
from reportgen.intake.sets import sets
from reportgen.intake.sheet import Sheet, blank
from reportgen.intake.sources import TEXTS, named, sources
from reportgen.intake.strangers import stranger
from reportgen.intake.tables import Manner, Reading, nothing, understand
from reportgen.intake.workbook import Workbook, workbook
from reportgen.model.letters import shown
from reportgen.model.lifter import Lifter
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Source
from reportgen.model.say import NOTHING, Say, say
from reportgen.model.values import dataclass
from reportgen.trade import fold

#: More sheets read alike than these are told by the first.
_ALIKE: Final = 3
#: So begins a web page that a program wrote under a workbook's name.
_PAGE: Final = ("<!doctype html", "<html", "<table", "<?xml", "<meta", "<style")


@dataclass(slots=True)
class Folder:
    """A folder being read: what was taken from it, and why there can be no dossier."""

    root: Path
    sources: list[Source] = field(default_factory=list)
    entries: list[FileLedger] = field(default_factory=list)
    strangers: list[FileLedger] = field(default_factory=list)
    notes: tuple[str, ...] = ()  # texts that lie outside notes/
    fatal: list[Problem] = field(default_factory=list)
    weight: int = 0

    def bytes_of(self, file: str, *, table: bool = False) -> bytes | Problem | None:
        """The bytes of a file, kept as a source; None where there is no such file."""
        path = self.root / file
        if not path.exists() and not path.is_symlink():
            return None
        if file != shown(file):
            return refused(shown(file), "shut")
        raw = content(self.root, file, table=table)
        if isinstance(raw, bytes):
            if self.weight + len(raw) > LARGEST_BYTES:  # a dossier carries them all, and no more than that
                return refused(file, "large")
            self.weight += len(raw)
            self.sources.append(Source(file=file, content=raw))
        return raw

    def drop(self, file: str) -> None:
        """Nobody read this file after all."""
        self.sources = [source for source in self.sources if source.file != file]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One table as it was found: its grid, or why there is none (`refusal`; neither where it is empty)."""

    kind: Kind
    file: str
    grid: Grid | None = None
    refusal: Problem | None = None
    mixed_line: int | None = None
    odd: tuple[Problem, ...] = ()


@dataclass(slots=True)
class Part:
    """What became of one piece; `file` is the file without the sheet."""

    kind: Kind
    file: str
    reading: Reading


def gather(folder: Folder, who: Lifter, manner: Manner) -> list[Part]:
    """Read every table that is there, in the order of `KINDS`; files that nobody reads get an entry each."""
    found = sources(folder.root)
    pieces: list[Piece] = []
    for kind in KINDS:
        for file in found.tables[kind.name]:
            pieces += _pieces(folder, file, kind, who)
    for file in found.books:
        pieces += _book(folder, file, frozenset(one.kind.name for one in pieces))
    parts = [
        part for kind in KINDS for part in _parts([one for one in pieces if one.kind is kind], kind, manner)
    ]
    for other, file in found.twins:
        part = next((one for one in parts if one.file == file), None)
        if part is not None:
            part.reading.sheet.problems.append(refused(file, "twins", level="odd", other=shown(other)))
    folder.notes = found.notes
    there = frozenset(part.kind.name for part in parts)
    for file in found.others:
        folder.strangers.append(stranger(folder.root, file, there=there))
    return _filled(parts)


def _pieces(folder: Folder, file: str, kind: Kind, who: Lifter) -> list[Piece]:
    """The tables of one file that is named like a table or lies in a folder that is."""
    raw = folder.bytes_of(file, table=True)
    if raw is None:
        return []
    if isinstance(raw, Problem):
        return [Piece(kind=kind, file=shown(file), refusal=raw)]
    if is_workbook(raw):
        book = workbook(raw, file)
        if isinstance(book, str):
            return [Piece(kind=kind, file=file, refusal=refused(file, book))]
        made = [Piece(kind=named(name) or kind, file=file, grid=grid) for name, grid in book.sheets]
        made = made or [Piece(kind=kind, file=file)]
        return [replace(made[0], odd=_hidden(file, book)), *made[1:]]
    text = decoded(raw)
    page = text.text[:200].lstrip().casefold().startswith(_PAGE)
    if page or text.text.startswith("{\\rtf"):
        said = "web_page" if page else "formatted"
        return [Piece(kind=kind, file=file, refusal=refused(file, said))]
    known = known_headings(kind, who.columns.get(kind.name, {}))
    plain = PurePosixPath(file).suffix.casefold() in TEXTS
    grid = text_grid(file, text.text, known, plain=plain)
    return [Piece(kind=kind, file=file, grid=grid, mixed_line=text.mixed_line)]


def text_grid(file: str, text: str, known: Mapping[str, str], *, plain: bool) -> Grid | None:
    """A text as a grid, None where it holds nothing.

    One that is called a text (`plain`) has one cell a line, unless its first line says headings.
    """
    grid = split(file, text, known)
    if grid is None:
        return None
    headings = {known.get(fold(cell)) for cell in (grid.cells[0] if grid.cells else ())} - {None}
    if not plain or len(headings) > 1:
        return grid
    lines = [line.rstrip("\r\n") for line in text.removeprefix("\ufeff").splitlines()]
    first = next(number for number, line in enumerate(lines) if line.strip())
    cells, places = [[line] for line in lines[first:]], np.arange(first + 1, len(lines) + 1, dtype=np.int64)
    return Grid(file=file, cells=cells, lines=places, decimal_comma=True, delimiter="\n")


def _hidden(file: str, book: Workbook) -> tuple[Problem, ...]:
    return tuple(refused(f"{file}[{name}]", "hidden", level="odd", sheet=name) for name in book.hidden)


def _book(folder: Folder, file: str, there: frozenset[str]) -> list[Piece]:
    """The sheets of a workbook of any name that are named like tables; without one it is a stranger."""
    raw = folder.bytes_of(file, table=True)
    book = workbook(raw, file) if isinstance(raw, bytes) and is_workbook(raw) else "damaged"
    pieces = []
    if isinstance(book, Workbook):
        kinds_ = [(named(name), grid) for name, grid in book.sheets]
        pieces = [Piece(kind=kind, file=file, grid=grid) for kind, grid in kinds_ if kind is not None]
    if not pieces or isinstance(book, str):
        folder.drop(file)
        folder.strangers.append(stranger(folder.root, file, there=there, book=isinstance(raw, bytes)))
        return []
    odd = list(_hidden(file, book))
    passed = [quoted(name) for name, _ in book.sheets if named(name) is None]
    if passed:
        want = expect("table_sheets", words=tuple(kind.name for kind in KINDS))
        odd.append(problem(say("intake.passed", sheets=tuple(passed)), file=file, level="odd", want=want))
    return [replace(pieces[0], odd=tuple(odd)), *pieces[1:]]


def _parts(pieces: Sequence[Piece], kind: Kind, manner: Manner) -> Iterator[Part]:
    """The pieces of one kind, understood together, since sheets are like one another."""
    grids = {id(one): one.grid for one in pieces if one.grid is not None and one.refusal is None}
    sheets = dict(zip(grids, tidy(tuple(grids.values()), kind, manner), strict=True))
    for piece in pieces:
        if piece.refusal is not None:
            made = blank(piece.refusal.file, piece.refusal)
        else:
            made = sheets[id(piece)] if id(piece) in sheets else nothing_in(piece.file, kind)
        made.problems += piece.odd
        if piece.mixed_line is not None:
            made.report(say("intake.mixed"), line=piece.mixed_line, level="odd", want=expect("utf8"))
        reading = nothing(made, kind) if made.whole else understood(made, kind, manner)
        yield Part(kind=kind, file=piece.file, reading=reading)


def understood(one: Sheet, kind: Kind, manner: Manner) -> Reading:
    """The rows of one sheet as the model has them."""
    if kind in (kinds.TRAINING, kinds.PLAN):
        return sets(one, manner)
    return attempts(one, manner) if kind is kinds.ATTEMPTS else understand(one, kind, manner)


def _filled(parts: list[Part]) -> list[Part]:
    """An empty table beside a filled one of its kind is told and stands in nobody's way."""
    for part in parts:
        made, kind = part.reading.sheet, part.kind
        full = next((one for one in parts if one.kind is kind and len(one.reading.sheet)), None)
        nothing_ = nothing_in(made.file, kind).stops[0].message
        empty = not made.whole or any(one.message == nothing_ for one in made.stops)
        if full is not None and empty and not len(made) and not made.extra:
            left = blank(made.file)
            said = refused(made.file, "empty_beside", level="odd", other=full.reading.sheet.file)
            left.problems = [*(one for one in made.problems if one.level == "odd"), said]
            part.reading = nothing(left, kind)
    return parts


def _how(layouts: Iterable[Say]) -> Say:
    """How the sheets of a file were read, a line each; of many alike the first tells."""
    alike: dict[object, list[Say]] = {}
    for one in layouts:
        if one == NOTHING:
            continue
        of, *told = cast(tuple[Say, ...], one.value("parts"))
        alike.setdefault((cast(Say, of.value("layout")).key, *told), []).append(one)
    lines: list[Say] = []
    for some in alike.values():
        many = len(some) > _ALIKE
        lines += [say("intake.read.alike", one=some[0], others=len(some) - 1)] if many else some
    return (
        reduce(lambda one, other: say("intake.read.then", one=one, other=other), lines) if lines else NOTHING
    )


def ledger(parts: Sequence[Part]) -> Iterator[FileLedger]:
    """An entry a file; a workbook of several kinds has one for each, named by the sheet."""
    for kind, file in dict.fromkeys((part.kind, part.file) for part in parts):
        mine = [part for part in parts if part.kind is kind and part.file == file]
        several = any(part.file == file and part.kind is not kind for part in parts)
        sheets = [part.reading.sheet.ledger() for part in mine]
        yield FileLedger(
            file=sheets[0].file if several and len(sheets) == 1 else file,
            rows_read=sum(one.rows_read for one in sheets),
            rows_used=sum(one.rows_used for one in sheets),
            rows_set_aside=sum(one.rows_set_aside for one in sheets),
            problems=tuple(sorted(problem for one in sheets for problem in one.problems)),
            kind=kind.name,
            layout=_how(one.layout for one in sheets),
            unclear_misses=sum(one.unclear_misses for one in sheets),
        )
