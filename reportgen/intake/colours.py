"""Cells of an .xlsx that are coloured, struck through or commented: it is not read, but asked about.

The library that reads workbooks has neither styles nor comments. What unpacks a workbook to see its size
looks at them on the way: which styles have a colour of their own, and which cells have such a style.
"""

import re
from posixpath import normpath
from typing import Final

from reportgen.intake.bounds import MOST_CELLS, MOST_STYLES_BYTES

#: Cells by row and column from 0.
Places = frozenset[tuple[int, int]]

_RGB: Final = re.compile(rb"""\brgb\s*=\s*["'](?:[0-9A-Fa-f]{2})?([0-9A-Fa-f]{6})["']""")
_INDEXED: Final = re.compile(rb"""\bindexed\s*=\s*["'](\d{1,3})["']""")
_THEME: Final = re.compile(rb"""\btheme\s*=\s*["'](\d{1,3})["']""")
_XF: Final = re.compile(rb"<(?:\w+:)?xf\b([^>]*)>")
_ID: Final = rb"""\b%sId\s*=\s*["'](\d{1,6})["']"""
_STYLED: Final = re.compile(
    rb"""<c\b(?=[^>]{0,200}?\ss=["'](\d{1,6})["'])[^>]{0,200}?\sr=["']([A-Z]{1,3})(\d{1,7})["'][^>/]{0,200}>"""
)
_COMMENT: Final = re.compile(
    rb"""<(?:\w+:)?(?:comment|threadedComment)\b[^>]*?\sref=["']([A-Z]{1,3})(\d{1,7})["']"""
)
_COMMENTS: Final = re.compile(rb"""\bTarget\s*=\s*["']([^"']*(?:comment)[^"']*\.xml)["']""", re.IGNORECASE)
#: Black and white by their numbers in the old palette, and those that a program takes for itself.
_PLAIN_INDEXED: Final = frozenset((0, 1, 8, 9, 64, 65))
#: Text and background of a theme.
_PLAIN_THEME: Final = frozenset((0, 1, 2, 3))


def marking(styles: bytes) -> frozenset[int]:
    """The numbers of the cell styles that have a colour, or are struck through."""
    if not styles or len(styles) > MOST_STYLES_BYTES:
        return frozenset()
    fills = [
        b'"solid"' in one and _coloured(_inner(one, b"fgColor")) for one in _list(styles, b"fills", b"fill")
    ]
    fonts = [_coloured(_inner(one, b"color")) or _struck(one) for one in _list(styles, b"fonts", b"font")]
    found = _inner_text(styles, b"cellXfs")
    return frozenset(
        number
        for number, xf in enumerate(_XF.findall(found))
        if _of(xf, b"fill", fills) or _of(xf, b"font", fonts)
    )


def marked(sheet: bytes, styles: frozenset[int]) -> Places:
    """The cells of a sheet that have one of some styles; none where it has none, or too many."""
    if not styles or sheet.count(b"<c ") > MOST_CELLS // 8:
        return frozenset()
    return frozenset(
        (int(row) - 1, _number(letters) - 1)
        for style, letters, row in _STYLED.findall(sheet)
        if int(style) in styles
    )


def commented(part: bytes) -> Places:
    """The cells that a part of comments is about."""
    found = set(_COMMENT.findall(part)) if len(part) <= MOST_STYLES_BYTES else set()
    return frozenset((int(row) - 1, _number(letters) - 1) for letters, row in found)


def comments_of(links: bytes) -> tuple[str, ...]:
    """The parts of comments that the links of a sheet name, from the root of the workbook."""
    found = (one.decode("utf-8", "replace").casefold() for one in _COMMENTS.findall(links))
    return tuple(
        one.lstrip("/") if one.startswith("/") else normpath(f"xl/worksheets/{one}") for one in found
    )


def _number(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number


def _inner_text(text: bytes, name: bytes) -> bytes:
    """What stands in the first part of this name."""
    begin = re.search(rb"<(?:\w+:)?%s[\s>]" % name, text)
    end = re.compile(rb"</(?:\w+:)?%s>" % name).search(text, begin.end()) if begin else None
    return text[begin.end() : end.start()] if begin and end else b""


def _list(styles: bytes, of: bytes, one: bytes) -> list[bytes]:
    """The parts of one sort, in their order, each with what follows up to the next."""
    return re.split(rb"<(?:\w+:)?%s(?=[\s/>])" % one, _inner_text(styles, of))[1:]


def _inner(text: bytes, name: bytes) -> bytes:
    """The tag of this name in a part."""
    match = re.search(rb"<(?:\w+:)?%s\b[^>]*>" % name, text)
    return match.group() if match else b""


def _struck(font: bytes) -> bool:
    tag = _inner(font, b"strike")
    return bool(tag) and b'"0"' not in tag and b'"false"' not in tag


def _coloured(tag: bytes) -> bool:
    """Whether a colour is none of black, white and the greys between them."""
    if rgb := _RGB.search(tag):
        red, green, blue = (int(rgb[1][i : i + 2], 16) for i in (0, 2, 4))
        return not red == green == blue
    if indexed := _INDEXED.search(tag):
        return int(indexed[1]) not in _PLAIN_INDEXED
    theme = _THEME.search(tag)
    return theme is not None and int(theme[1]) not in _PLAIN_THEME


def _of(xf: bytes, name: bytes, some: list[bool]) -> bool:
    match = re.search(_ID % name, xf)
    number = int(match[1]) if match else 0
    return number < len(some) and some[number]
