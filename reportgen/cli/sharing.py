"""A copy to share: made without what is left out, and searched for the name before it is written."""

import base64
import contextlib
import datetime as dt
import gzip
import html
import re
import unicodedata
import zlib
from collections.abc import Callable, Collection, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Final

from reportgen import pages
from reportgen.analysis import share
from reportgen.analysis.renaming import renamed
from reportgen.cli import private
from reportgen.cli.order import Order
from reportgen.face import dossier
from reportgen.model.dossier import Dossier
from reportgen.model.records import Records
from reportgen.pages import assets
from reportgen.pages.places import data
from reportgen.view.page import Page
from reportgen.words import text

#: A single letter of a name stands everywhere: it is only looked for beside the others.
LEAST_LETTERS: Final = 2
_PACKED: Final = re.compile(r"[A-Za-z0-9+/]{40,}={0,2}")
_PART: Final = re.compile(r'<section[^>]* id="([^"]*)"')


class NamedError(Exception):
    """A word of the lifter's name stands in a page that is to name nobody; says which one and where."""


def shared(
    records: Records, keep: frozenset[str], *, season: tuple[dt.date, dt.date] | None = None
) -> Dossier:
    """The dossier of a copy to share: what is left out was gone before anything was computed."""
    made = dossier(share.strip(records, keep), season=season)
    return replace(made, facts=share.safe(made.facts, dossier(records, season=season).facts))


def left_out(keep: Collection[str], *, rests: bool = False) -> str:
    """What a copy to share lacks, and what may still name somebody, in sentences.

    Args:
        keep: Parts that stay.
        rests: A goal is set by body mass, which stays with it.
    """
    kept = {*keep, "bodymass"} if rests else keep
    said = [text("pages.foot.shared", parts=private.listed(kept))]
    if rests and "bodymass" not in keep:
        said.append(text("cli.share.goal_rests"))
    if "notes" in keep and "name" not in keep:
        said.append(text("cli.share.notes"))
    return " ".join(said)


def told(
    html: str, order: Order, records: Records, page: Page, again: Callable[[Records], str]
) -> tuple[str, ...]:
    """What the terminal is told of a copy that is to name nobody; nothing of any other page.

    Raises:
        NamedError: A word of the lifter's name stands in it.
    """
    if order.share is None or "name" in order.share:
        return ()
    name = records.lifter.name
    own = named_in_theme(order.theme, name)
    if own:
        raise NamedError(_refusal(*own))
    kept = searched(html, name, page, lambda: again(renamed(records)))
    return (text("cli.share.notes_name", words=", ".join(kept)),) if kept else ()


def searched(page_text: str, name: str, page: Page, everybodys: Callable[[], str]) -> tuple[str, ...]:
    """Search a page that is to name nobody, and all that is packed in it, before it is written.

    The last net: whatever was stripped, a part added later could bring the name back. Looked for are the
    words of the name and the whole name, in any letter case. Of a lifter called Max, May or Rose such a word
    is on everybody's page, where it names nobody: it is let through as often as it stands on the page that
    the same log gives of somebody else, and no more often. Let through, too, are as many as stand in the
    notes, where these were asked for as they were written; they are told.

    Args:
        page_text: The page.
        name: The lifter's, as lifter.toml has it.
        page: What the page says, with the notes that it holds.
        everybodys: Makes the page that the same log gives of somebody else; asked only where a word is found.

    Returns:
        Words of the name that the kept notes hold.

    Raises:
        NamedError: A word stands elsewhere.
    """
    parts = tuple(_readable(page_text))
    notes = _plain(
        "\n".join(
            f"{block.title}\n{html.unescape(block.html)}"
            for section in page.sections
            for block in section.blocks
            if block.kind == "prose"
        )
    )
    usual: tuple[tuple[str, str], ...] | None = None
    kept = []
    for word, pattern in _patterns(name):
        allowed = len(pattern.findall(notes))
        found = [len(pattern.findall(words)) for _, words in parts]
        if sum(found) > allowed:
            usual = tuple(_readable(everybodys())) if usual is None else usual
            there = [len(pattern.findall(words)) for _, words in usual]
            if sum(found) > allowed + sum(there):
                raise NamedError(_refusal(word, _place(pattern, parts, found, there)))
        if allowed:
            kept.append(word)
    return tuple(kept)


def _refusal(word: str, place: str) -> str:
    return text("cli.share.named", word=word, place=place)


def _place(
    pattern: re.Pattern[str], parts: tuple[tuple[str, str], ...], found: list[int], there: list[int]
) -> str:
    """Roughly where the word stands that is on nobody else's page: the first part that has it more often."""
    more = [n for n, many in enumerate(found) if many > (there[n] if n < len(there) else 0)]
    place, words = parts[more[0] if more else 0]
    if place:
        return place
    # Which of several in one text is the one too many can't be told: the last is below all of ours.
    hit = [one.start() for one in pattern.finditer(words)][-1]
    before = _PART.findall(words, 0, hit)
    return text("cli.share.place.part", part=before[-1]) if before else text("cli.share.place.top")


def named_in_theme(theme: str, name: str) -> tuple[str, str] | None:
    """A word of the name in a theme of somebody's own, which is not on the pages of everybody else.

    Returns:
        The word and the file; None where there is none. A word of the same letters that a file of the same
        kind of the built-in themes holds is code, such as the `max` of a style sheet.
    """
    built_in = [path for path in data("themes").rglob("*") if path.is_file()]
    ours: dict[str, set[str]] = {}
    for path in built_in:
        ours.setdefault(path.suffix, set()).update(_words(path.read_bytes()))
    known = {path.read_bytes() for path in built_in}
    for place, content in pages.theme_files(theme):
        if content in known:
            continue
        file = place.partition("/")[2]
        strange = _plain("\n".join(_words(content) - ours.get(Path(file).suffix, set())))
        for word, pattern in _patterns(name):
            if " " not in word and pattern.search(strange):
                return word, text("cli.share.place.theme", file=file)
    return None


def _words(content: bytes) -> set[str]:
    """The words of a text as they are written: a name has a capital where a style sheet has none."""
    return set(re.findall(r"[^\W\d_]+", content.decode("utf-8", "replace")))


def _patterns(name: str) -> Iterator[tuple[str, re.Pattern[str]]]:
    """What to look for: every word of the name that is long enough, and all of them in a row."""
    words = re.findall(r"[^\W\d_]+", _plain(name))
    for word in dict.fromkeys(one for one in words if len(one) >= LEAST_LETTERS):
        yield word, re.compile(rf"(?<![^\W_]){word}(?![^\W_])")
    if len(words) > 1:
        row = r"[\W_]+".join(words)
        yield " ".join(words), re.compile(rf"(?<![^\W_]){row}(?![^\W_])")


def _plain(words: str) -> str:
    return unicodedata.normalize("NFKC", words).casefold()


def _readable(html_text: str) -> Iterator[tuple[str, str]]:
    """Every text of a page with where it stands: the page's own first, then what is packed in it."""
    packed = {}
    for block in _PACKED.findall(html_text):
        if block == assets.packed_runtime():
            packed[block] = ""
            continue
        for unpack in (assets.unpack, _gunzipped):
            with contextlib.suppress(zlib.error, OSError, EOFError, ValueError):
                packed[block] = unpack(block)
    yield (
        "",
        _plain(html.unescape(_PACKED.sub(lambda found: "" if found[0] in packed else found[0], html_text))),
    )
    for one in packed.values():
        facts = one.startswith('{"facts_version"')
        yield text(f"cli.share.place.{'facts' if facts else 'figure'}"), _plain(one)


def _gunzipped(block: str) -> str:
    return gzip.decompress(base64.b64decode(block, validate=True)).decode("utf-8", "replace")
