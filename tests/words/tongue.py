"""A tongue that nobody speaks: messages in brackets and half as long again, and what stands beside them."""

import csv
import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Final

from reportgen import face
from reportgen.model.lifter import Squad
from reportgen.trade import load
from reportgen.trade.claims import claims
from reportgen.view import Edition
from reportgen.words import another_tongue, listed
from tests import kept

SQUAD: Final = Path(__file__).parents[2] / "content_demo" / "squad"
LIFTER: Final = SQUAD / "nelke-ostrandt"
EDITIONS: Final[tuple[Edition, ...]] = ("review", "progress", "season")
#: Elements whose text is one piece of reading: a sentence goes on through the weights inside of it.
BLOCKS: Final = frozenset(
    {"p", "li", "td", "th", "dt", "dd", "h1", "h2", "h3", "h4", "summary", "button", "figcaption", "caption"}
    | {"label", "option", "text", "title"}
)
#: What nobody reads, and what is not ours: licences of others, sums of files, notes as they were written.
UNREAD: Final = frozenset({"script", "style", "pre", "head"})
NOT_OURS: Final = frozenset({"prose", "digest", "place"})
SPOKEN: Final = ("aria-label", "title", "alt", "placeholder", "data-head")
EMPTY: Final = frozenset(["br", "hr", "img", "input", "link", "meta"])
WORD: Final = re.compile(r"[^\W\d_]{2,}")
#: Units, the file that every page carries beside the lifter's, and the months on an axis (dates are data).
OURS: Final = ("kg", "lb", "cm", "SHA", "facts.json", *listed("numbers.months"))


def strange(words: str) -> str:
    """The same in a tongue whose words are half as long again."""
    return f"⟦{words}{' otilami'[: max(3, len(words) // 2)] * max(1, len(words) // 16)}⟧" if words else words


@cache
def data(folder: Path, *more: str) -> re.Pattern[str]:
    """What is data on a lifter's page: names of the catalogue, cells and names of the files, units."""
    found = {name for one in load().words.values() for name in one.values()} | {*OURS, *more, folder.name}
    found |= {*_tables()}
    for path in sorted(folder.rglob("*")):
        found |= {path.name, path.relative_to(folder).as_posix()}
        if path.suffix == ".csv":
            with path.open(encoding="utf-8", newline="") as file:
                found |= {cell.strip() for row in csv.reader(file) for cell in row}
        elif path.is_file():
            quoted = re.findall(r'"([^"]+)"|^Title: (.+)$', path.read_text(encoding="utf-8"), re.MULTILINE)
            found |= {one for pair in quoted for one in pair}
    longest = sorted((re.escape(one) for one in found if WORD.search(one)), key=len, reverse=True)
    return re.compile(rf"(?<![^\W\d_])(?:{'|'.join(longest)})(?![^\W\d_])", re.IGNORECASE)


def _tables() -> Iterator[str]:
    """What the trade's tables say of their own numbers: where they are from, and how far they hold."""
    trade = load()
    rows = (trade.sources, trade.rules, trade.published, trade.checkpoints, trade.positions)
    yield from (one.called for one in claims().findings.values())  # names that decisions.csv may hold
    for one in (*trade.bands, *(row for table in rows for row in table.values())):
        for value in (getattr(one, field.name) for field in fields(one)):
            if isinstance(value, str):
                yield from (value, value.replace("_", " "), *value.split("; "))


def loose(text: str, known: re.Pattern[str]) -> list[str]:
    """Words that stand outside of every bracket and are no data."""
    depth, out = 0, []
    for letter in text:
        depth += (letter == "⟦") - (letter == "⟧")
        out.append(letter if depth == 0 and letter != "⟧" else " ")
    return WORD.findall(known.sub(" ", "".join(out)))


class Parts(HTMLParser):
    """The readable pieces of a page, by the part in which they stand."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[tuple[str, str]] = []
        self.open: list[tuple[str, bool]] = []  # tag, and whether nothing in it is read
        self.part = "head"
        self.piece: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if tag == "section":
            self.part = values.get("id", "section")
        elif tag == "footer":
            self.part = "footer"
        elif tag == "table" and values.get("id") == "lifters":
            self.part = "lifters"
        if tag in BLOCKS:
            self._end()
        unread = tag in UNREAD or bool(NOT_OURS & set(values.get("class", "").split()))
        if tag not in EMPTY:
            self.open.append((tag, unread or (bool(self.open) and self.open[-1][1])))
        if not unread:
            self.pieces += [(self._place(), values[name]) for name in SPOKEN if values.get(name)]

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A shape of a picture holds no words."""

    def handle_endtag(self, tag: str) -> None:
        if tag in BLOCKS:
            self._end()
        while self.open and self.open.pop()[0] != tag:
            pass
        if tag == "section":
            self.part = "after"

    def handle_data(self, data: str) -> None:
        if not (self.open and self.open[-1][1]):
            self.piece.append(data)

    def _place(self) -> str:
        return f"{self.part}, figures" if any(tag == "svg" for tag, _ in self.open) else self.part

    def _end(self) -> None:
        words = "".join(self.piece).strip()
        if words:
            self.pieces.append((self._place(), words))
        self.piece = []

    @classmethod
    def of(cls, html: str) -> list[tuple[str, str]]:
        """Part and words of every piece."""
        found = cls()
        found.feed(html)
        found._end()
        return found.pieces


def spoken_pages(out: Path) -> dict[str, str]:
    """The three editions of a demo lifter and the index of the squad, in that tongue."""
    return kept.once("pages in a tongue that nobody speaks", lambda: _spoken(out))


def _spoken(out: Path) -> dict[str, str]:
    found: dict[str, str] = {}
    with another_tongue(strange):
        dossier = face.changed(face.read(LIFTER), dt.date(2026, 6, 1))
        lines = []
        for edition in EDITIONS:
            made = face.render(dossier, "nelke", edition=edition, screening=True)
            found[edition] = made.html
            lines.append(made.line)
        squad = (Squad(), "nelke-ostrandt")
        index = face.index(squad, lines[:1], [("x", "y")], out, "plain", "review")
        found["index"] = index.read_text(encoding="utf-8")
    return found
