"""What a zipped workbook would take up, and cells without a value, seen before it is opened.

The library that reads workbooks makes room for every cell from the first to the last: a stray cell in the
last corner would end the program. It gives a cell with an error, and one whose formula was never reckoned, as
an empty one: an empty `made` means that all were made, so these have to be told.
"""

import io
import re
import zipfile
import zlib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import field
from typing import Final, TypeVar

from reportgen.intake.bounds import MOST_CELLS, MOST_PARTS_OF_ZIP, MOST_UNPACKED_BYTES
from reportgen.intake.colours import Places, commented, comments_of, marked, marking
from reportgen.model.values import dataclass

T = TypeVar("T")

_CELL: Final = re.compile(rb"""\sr\s*=\s*["']\s*\$?([A-Za-z]{1,9})\$?(\d{1,9})""")
_ERROR: Final = re.compile(
    rb"""<c\b(?=[^>]*\bt="e")[^>]*\br="([A-Z]{1,3})(\d{1,7})"[^>]*>\s*"""
    rb"""(?:<f\b[^>]*(?:/>|>[^<]*</f>)\s*)?<v>([^<]*)"""
)
#: A formula that nobody reckoned; one whose value is an empty text says so (t="str").
_BARE: Final = re.compile(
    rb"""<c\b(?![^>]*\bt="str")[^>]*\br="([A-Z]{1,3})(\d{1,7})"[^>]*>\s*"""
    rb"""<f\b[^>]*(?:/>|>[^<]*</f>)\s*(?:<v\s*/>|<v></v>)?\s*</c>"""
)
_LINKS: Final = "xl/worksheets/_rels/"
_SHEET: Final = re.compile(rb"<(?:\w+:)?sheet\b([^>]*)>")
_RELATION: Final = re.compile(rb"<(?:\w+:)?Relationship\b([^>]*)>")
_ATTRIBUTE: Final = re.compile(rb"""([\w:]+)\s*=\s*(?:"([^"]*)"|'([^']*)')""")
_REPEATED: Final = re.compile(rb"""number-(rows|columns)-repeated\s*=\s*["']\s*\+?(\d{1,12})""")
_TABLE: Final = re.compile(rb"<table:table[\s>]")
_FILLED: Final = (b"office:", b"<text:", b":formula")
_OLD_CELL: Final = re.compile(rb"<table:(?:covered-)?table-cell\b([^>]*)>")


#: Records of an .xls: a sheet begins, its size, a cell with an error, a formula that gave one.
_OLD_SHEET: Final = re.compile(rb"\x09\x08\x10\x00\x00\x06\x10\x00")
_OLD_SIZE: Final = re.compile(rb"\x00\x02\x0e\x00.{4}(.{4}).{2}(.{2})\x00\x00", re.DOTALL)
_OLD_ERROR: Final = re.compile(
    rb"\x05\x02\x08\x00(..)(.)\x00..[\x00\x07\x0f\x17\x1d\x24\x2a]\x01"
    rb"|\x06\x00.[\x00-\x03](..)(.)\x00..\x02\x00.\x00\x00\x00\xff\xff",
    re.DOTALL,
)


#: What a damaged file may raise; RuntimeError: a part that is encrypted.
_DAMAGED: Final = (
    *(zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError),
    *(OSError, KeyError, IndexError, OverflowError),
)


class TooLargeError(Exception):
    """A workbook unpacks to more than any log holds."""


class DamagedError(Exception):
    """A workbook that can't be read as one."""


#: Cells without a value: number of the sheet -> (row, column) from 0 -> what stands there.
OfSheet = dict[tuple[int, int], str]
Lost = dict[int, OfSheet]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What is seen of a workbook before it is opened, by the number of the sheet."""

    lost: Lost
    coloured: Mapping[int, Places] = field(default_factory=dict)
    commented: Mapping[int, Places] = field(default_factory=dict)


def seen(raw: bytes) -> Found:
    """The cells without a value of a zipped workbook, .xlsx, .xlsm or .ods, and coloured ones.

    Raises:
        TooLargeError: It would take up too much.
        DamagedError: It is no workbook of these kinds, or damaged.
    """
    try:
        return _seen(zipfile.ZipFile(io.BytesIO(raw)))
    except _DAMAGED as error:
        raise DamagedError from error


def seen_old(raw: bytes) -> Found:
    """The same for .xls, by the marks of its records: the sizes that the sheets give, and errors.

    Raises:
        TooLargeError: Its sheets say that they would take up too much.
    """
    sizes = [
        (int.from_bytes(rows, "little"), int.from_bytes(columns, "little"))
        for rows, columns in _OLD_SIZE.findall(raw)
    ]
    if sum(rows * columns for rows, columns in sizes if rows <= 65_536 and columns <= 256) > MOST_CELLS:
        raise TooLargeError
    begins = [found.start() for found in _OLD_SHEET.finditer(raw)]
    lost: Lost = {}
    for found in _OLD_ERROR.finditer(raw):
        row, column = (found[1], found[2]) if found[1] else (found[3], found[4])
        sheet = bisect_right(begins, found.start()) - 1
        lost.setdefault(sheet, {})[int.from_bytes(row, "little"), column[0]] = "#"
    return Found(lost=lost)


def _seen(book: zipfile.ZipFile) -> Found:
    parts = book.infolist()
    if len(parts) > MOST_PARTS_OF_ZIP or sum(part.file_size for part in parts) > MOST_UNPACKED_BYTES:
        raise TooLargeError
    names = {part.filename.casefold().lstrip("/") for part in parts}
    if "xl/workbook.bin" in names or not {"xl/workbook.xml", "content.xml"} & names:
        raise DamagedError
    lost: dict[str, OfSheet] = {}
    coloured: dict[str, Places] = {}
    said: dict[str, Places] = {}
    links: dict[str, tuple[str, ...]] = {}
    tables: Lost = {}
    styles = marking(book.read("xl/styles.xml")) if "xl/styles.xml" in book.namelist() else frozenset[int]()
    few: dict[str, bytes] = {}
    cells = 0
    for part in parts:
        name = part.filename.casefold().lstrip("/")
        content = book.read(part)  # never more than it says, and with its sum checked
        if name in ("xl/workbook.xml", "xl/_rels/workbook.xml.rels"):
            few[name] = content
        if name.startswith(_LINKS):
            links[f"xl/worksheets/{name.removeprefix(_LINKS).removesuffix('.rels')}"] = comments_of(content)
        elif "comment" in name:
            said[name] = commented(content)
        if name == "content.xml":
            cells += _old_cells(content, tables)
        else:
            cells += _cells(content)
            lost[name] = _without_value(content)
            coloured[name] = marked(content, styles) if "sheet" in name else frozenset()
        if cells > MOST_CELLS:
            raise TooLargeError
    beside = {
        sheet: frozenset[tuple[int, int]]().union(*(said.get(one, ()) for one in some))
        for sheet, some in links.items()
    }
    return Found(
        lost={**tables, **_by_sheet(lost, few)},
        coloured=_by_sheet(coloured, few),
        commented=_by_sheet(beside, few),
    )


def _cells(content: bytes) -> int:
    """How many cells lie between A1 and the last one, whatever order they stand in."""
    found = _CELL.findall(content)
    if not found:
        return 0
    across = max(_number(letters) for letters in {letters for letters, _ in found})
    return across * max(map(int, {row for _, row in found}))


def _number(letters: bytes) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number


def _without_value(content: bytes) -> OfSheet:
    """Cells of one sheet that hold an error, or a formula without its value."""
    wrong = [(*place, error) for *place, error in _ERROR.findall(content)] if b't="e"' in content else []
    bare = [(*place, b"=?") for place in _BARE.findall(content)] if b"<f" in content else []
    return {
        (int(row) - 1, _number(letters) - 1): error.decode("utf-8", "replace").strip() or "#"
        for letters, row, error in (*wrong, *bare)
    }


def _by_sheet(cells: Mapping[str, T], few: Mapping[str, bytes]) -> dict[int, T]:
    """The cells by the sheet's number in the workbook; its parts may have any name."""
    if not any(cells.values()):
        return {}
    targets = {}
    for found in _RELATION.findall(few.get("xl/_rels/workbook.xml.rels", b"")):
        some = _attributes(found)
        target = some.get("Target", "").casefold()
        targets[some.get("Id", "")] = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    sheets = [_attributes(found) for found in _SHEET.findall(few.get("xl/workbook.xml", b""))]
    ids = [next((one for name, one in some.items() if name.endswith(":id")), "") for some in sheets]
    return {number: cells[part] for number, id_ in enumerate(ids) if (part := targets.get(id_, "")) in cells}


def _attributes(text: bytes) -> dict[str, str]:
    return {name.decode(): (a or b).decode("utf-8", "replace") for name, a, b in _ATTRIBUTE.findall(text)}


def _old_cells(content: bytes, lost: Lost) -> int:
    """The same for .ods, where a row or cell stands once and says how often it is meant."""
    cells = 0
    for number, table in enumerate(_TABLE.split(content)[1:]):
        rows, waiting, across = 0, 0, 1
        wrong = lost.setdefault(number, {}) if b'value-type="error"' in table else None
        for chunk in table.split(b"<table:table-row")[1:]:
            head, _, rest = chunk.partition(b">")
            row = b"" if head.endswith(b"/") else rest.partition(b"</table:table-row>")[0]
            times = _times(head, b"rows")
            last = max(row.rfind(mark) for mark in _FILLED)
            if last < 0:  # a blank stretch counts once something stands below it
                waiting += times
                continue
            rows += waiting
            if wrong is not None and b'value-type="error"' in row:
                wrong.update(dict.fromkeys(((rows, place) for place in _errors(row)), "#"))
            rows, waiting = rows + times, 0
            end = row.find(b"<table:", last)
            across = max(across, _across(row if end < 0 else row[:end]))
        cells += rows * across
    return cells


def _times(text: bytes, what: bytes) -> int:
    return next((int(count) for which, count in _REPEATED.findall(text) if which == what), 1)


def _across(row: bytes) -> int:
    """How many cells a row has."""
    often = sum(int(n) for what, n in _REPEATED.findall(row) if what == b"columns") if b"-rep" in row else 0
    return row.count(b"table-cell") + often


def _errors(row: bytes) -> list[int]:
    """The columns, from 0, of the cells of one row that hold an error."""
    at, found = 0, []
    for attributes in _OLD_CELL.findall(row):
        if b'value-type="error"' in attributes:
            found.append(at)
        at += _times(attributes, b"columns")
    return found
