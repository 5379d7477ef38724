"""A copy to share: made without what is left out, and searched for the name before it is written."""

from __future__ import annotations

import base64
import binascii
import datetime as dt
import gzip
import html
import re
import unicodedata
import zlib
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from reportgen.cli.run import Order
    from reportgen.model.dossier import Dossier
    from reportgen.model.records import Records
    from reportgen.view.page import Page

#: Shorter words of a name stand everywhere: they are only looked for beside the others.
LEAST_LETTERS: Final = 3
_PACKED: Final = re.compile(r"[A-Za-z0-9+/]{40,}={0,2}")
_PART: Final = re.compile(r'<section[^>]* id="([^"]*)"')
_OURS: Final = frozenset({".py", ".toml", ".md", ".js"})


class NamedError(Exception):
    """A word of the lifter's name stands in a page that is to name nobody; says which one and where."""


def shared(
    records: Records, keep: frozenset[str], *, season: tuple[dt.date, dt.date] | None = None
) -> Dossier:
    """The dossier of a copy to share: what is left out was gone before anything was computed."""
    from reportgen.analysis import share
    from reportgen.cli.run import dossier

    made = dossier(share.strip(records, keep), season=season)
    return replace(made, facts=share.safe(made.facts, dossier(records, season=season).facts))


def left_out(keep: tuple[str, ...]) -> str:
    """What a copy to share lacks, and what may still name somebody, in sentences."""
    from reportgen.analysis import share

    gone = share.left_out(frozenset(keep))
    said = f"A copy to share, without {', '.join(gone[:-1])} and {gone[-1]}."
    if "notes" in keep and "name" not in keep:
        said += " The notes stand as they were written and may name somebody."
    return said


def told(text: str, order: Order, records: Records, page: Page) -> tuple[str, ...]:
    """What the terminal is told of a copy that is to name nobody; nothing of any other page.

    Raises:
        NamedError: A word of the lifter's name stands in it.
    """
    if order.share is None or "name" in order.share:
        return ()
    kept = searched(text, records.lifter.name, page)
    return (f"the notes that are kept name the lifter ('{', '.join(kept)}')",) if kept else ()


def searched(text: str, name: str, page: Page) -> tuple[str, ...]:
    """Search a page that is to name nobody, and all that is packed in it, before it is written.

    The last net: whatever was stripped, a theme or a part added later could bring the name back. Looked for
    are the words of the name and the whole name, in any letter case. Two things are let through, or sharing
    would be impossible for some:

    - What this program's own text says. Of a lifter called Snatch, May or Lloyd (who is cited) such a word is
      on everybody's page, so it names nobody; the other words of the name are still looked for.
    - As many as stand in the notes, where these were asked for as they were written; they are told.

    Args:
        text: The page.
        name: The lifter's, as lifter.toml has it.
        page: What the page says, with the notes that it holds.

    Returns:
        Words of the name that the kept notes hold.

    Raises:
        NamedError: A word stands elsewhere.
    """
    parts = tuple(_readable(text))
    notes = "\n".join(
        f"{block.title}\n{html.unescape(block.html)}"
        for section in page.sections
        for block in section.blocks
        if block.kind == "prose"
    )
    kept = []
    for word, pattern in _patterns(name):
        allowed = len(pattern.findall(_plain(notes)))
        places = [place for place, words in parts for place in _places(pattern, words, place)]
        if len(places) > allowed and not pattern.search(_own_text()):
            raise NamedError(
                f"not written: '{word}' of the lifter's name stands in it, {places[0]}; it is to name nobody"
            )
        if allowed:
            kept.append(word)
    return tuple(kept)


def _patterns(name: str) -> Iterator[tuple[str, re.Pattern[str]]]:
    """What to look for: every word of the name that is long enough, and all of them in a row."""
    words = re.findall(r"[^\W\d_]+", _plain(name))
    for word in dict.fromkeys(one for one in words if len(one) >= LEAST_LETTERS):
        yield word, re.compile(rf"(?<![^\W_]){word}(?![^\W_])")
    if len(words) > 1:
        row = r"[\W_]+".join(words)
        yield " ".join(words), re.compile(rf"(?<![^\W_]){row}(?![^\W_])")


def _plain(text: str) -> str:
    return unicodedata.normalize("NFKC", text).casefold()


def _readable(text: str) -> Iterator[tuple[str, str]]:
    """Every text of a page with where it stands: the page's own first, then what is packed in it."""
    from reportgen.pages import assets

    packed = {}
    for block in _PACKED.findall(text):
        if block == assets.packed_runtime():
            packed[block] = ""
            continue
        try:
            packed[block] = gzip.decompress(base64.b64decode(block, validate=True)).decode("utf-8", "replace")
        except (binascii.Error, gzip.BadGzipFile, zlib.error, EOFError, ValueError):
            continue
    yield "", _plain(html.unescape(_PACKED.sub(lambda found: "" if found[0] in packed else found[0], text)))
    for one in packed.values():
        facts = one.startswith('{"facts_version"')
        yield "in the facts that it carries" if facts else "in the data of a figure", _plain(one)


def _places(pattern: re.Pattern[str], words: str, place: str) -> Iterator[str]:
    """Roughly where each hit stands."""
    for found in pattern.finditer(words):
        before = _PART.findall(words, 0, found.start())
        yield place or (f"in its part '{before[-1]}' or below" if before else "above its first part")


@cache
def _own_text() -> str:
    """All that this program says, to tell a name from a word of everybody's page; read when needed."""
    import reportgen
    from reportgen import pages

    ours = Path(reportgen.__file__).parent.rglob("*")
    texts = [path.read_text("utf-8", "replace") for path in sorted(ours) if path.suffix in _OURS]
    themes = [content.decode("utf-8", "replace") for _, content in pages.theme_files()]
    return _plain("\n".join((*texts, *themes)))
