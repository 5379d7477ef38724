"""A dossier carries its own sources and facts, and gives them back byte for byte.

Each file lies in the page as a link that saves it (gzip, base64), with its path, its length and the SHA-256
of its bytes beside it, so that it can be taken out with JavaScript off and without this program. A sum over
the list of them all tells when one is missing or has another name: see `listing`.
"""

import base64
import binascii
import hashlib
import json
import stat
import zlib
from collections.abc import Iterable
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath
from typing import Any, Final

from reportgen.model.facts import Facts
from reportgen.model.letters import shown
from reportgen.model.records import Source
from reportgen.model.values import dataclass
from reportgen.pages import listing, names
from reportgen.pages.dossier import Extra
from reportgen.words import compact_json, text
from reportgen.words.messages import template

FACTS_FILE: Final = "facts.json"
MEDIA_TYPE: Final = "application/gzip"
#: No file of a lifter's folder is as large; a page that unpacks to more was not written by us.
MOST_BYTES: Final = 64 * 1024 * 1024
#: Twice what all the sources of a folder weigh, packed or not.
MOST_PAGE_BYTES: Final = 2 * MOST_BYTES
MOST_FILES: Final = 10_000
#: What a page of ours shows in its markup, where no word of a lifter's can stand.
_OURS: Final = ('<meta name="made-from"', '<meta name="carried"', '<div class="sheet"')
_INDEX: Final = '<div class="sheet squad"'
_LINK: Final = f"data:{MEDIA_TYPE};base64,"


class ArchiveProblem(Exception):  # noqa: N818 - it is a problem to report, named like the others
    """What a dossier carries can't be given back; says which file and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovered:
    """What a dossier carried."""

    files: tuple[Source, ...]  # source files by path
    facts: dict[str, Any] | None  # its facts as JSON data; None without any
    #: That this is all it was written with is known from the sum over the list; a page of an earlier version
    #: has none.
    whole: bool = False


def carried(sources: Iterable[Source], facts: Facts | None) -> tuple[Extra, ...]:
    """The files as a page carries them.

    Args:
        sources: Source files of the lifter's folder.
        facts: The facts, carried as facts.json; None leaves them out.

    Returns:
        One extra a file, facts first. The same files give the same bytes.
    """
    found = []
    if facts is not None:
        found.append(("facts", FACTS_FILE, compact_json(facts).encode("utf-8")))
    found += [("source", source.file, source.content) for source in sources]
    sums = [hashlib.sha256(content).hexdigest() for _, _, content in found]
    listed = listing.mark((role, file, one) for (role, file, _), one in zip(found, sums, strict=True))
    return tuple(
        Extra(
            name=PurePosixPath(file).name + ".gz",
            label=file,
            media_type=MEDIA_TYPE,
            base64=base64.b64encode(listing.pack(content, listed)).decode("ascii"),
            sha256=one,
            file=file,
            size=len(content),
            role=role,
        )
        for (role, file, content), one in zip(found, sums, strict=True)
    )


class _Links(HTMLParser):
    """Collects the links that carry a file, and every mark of their list."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[dict[str, str]] = []
        self.marks: set[listing.Mark] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep a link with a file's path and sum; a link that lost its sum still knows of the list."""
        values = {name: value or "" for name, value in attrs}
        link = values.get("href", "")
        mark = None
        if tag == "a" and link.startswith(_LINK):
            mark = listing.inside(link[len(_LINK) : len(_LINK) + 400])
            if "data-sha256" in values:
                self.found.append(values)
        elif tag == "meta" and values.get("name") == "carried":
            mark = listing.written(values.get("content", ""))
        if mark is not None:
            self.marks.add(mark)


def recover(page: str) -> Recovered:
    """Take the files out of a dossier's text and check every sum.

    Returns:
        Files in the order of the page; both empty and None where the page carries nothing.

    Raises:
        ArchiveProblem: A file is damaged, missing or renamed, its sum differs, it is larger than any source
            may be, its path leads out of the folder, or this system can't make a file of its name. Nothing is
            given back then.
    """
    links = _Links()
    try:
        links.feed(page)
    except AssertionError as error:  # so Python's parser says that markup is no markup, as in <![[s>
        raise ArchiveProblem(text("pages.archive.markup")) from error
    if len(links.found) > MOST_FILES:
        raise ArchiveProblem(text("pages.archive.many", found=len(links.found), most=MOST_FILES))
    files: list[Source] = []
    facts: dict[str, Any] | None = None
    _complete(links)
    left = MOST_BYTES
    for values in links.found:
        file = values.get("data-file", "")
        content = _unpack(file, values["href"][len(_LINK) :], values["data-sha256"], left)
        left -= len(content)
        if values.get("data-role") == "facts":
            facts = _facts(content)
        else:
            _inside(file, [source.file for source in files])
            files.append(Source(file=file, content=content))
    return Recovered(files=tuple(files), facts=facts, whole=bool(links.marks))


def _complete(links: _Links) -> None:
    """Refuse a page that does not carry exactly the files that it was written with."""
    if not links.marks:
        return
    listed = [(v.get("data-role", ""), v.get("data-file", ""), v["data-sha256"]) for v in links.found]
    count = max(mark.count for mark in links.marks)
    if len(links.found) != count:
        raise ArchiveProblem(text("pages.archive.lost", found=len(links.found), written=count))
    if links.marks != {listing.mark(listed)}:
        raise ArchiveProblem(text("pages.archive.renamed"))


def without(page: str, found: Recovered) -> str:
    """Why a page gives no source files back, as the end of a sentence that begins with its name.

    Only what is known is said: a page that shows no sign of ours may have been one.

    Args:
        page: The text of the page, out of its seal.
        found: What `recover` found in it, without files.
    """
    if found.facts is None and not found.whole:
        ours = any(sign in page for sign in _OURS)
        why = "index" if is_index(page) else "gone" if ours else "not_ours"
    elif template("pages.foot.shared").partition("{")[0] in page[page.rfind("<footer") :]:
        why = "shared"
    else:
        why = "bare" if found.whole or page.rstrip().endswith("</html>") else "cut"
    return text(f"pages.archive.without.{why}")


def is_index(page: str) -> bool:
    """Whether a page is a squad's index."""
    return _INDEX in page


def page_text(path: Path) -> str:
    """The text of a page that somebody sent.

    Raises:
        ArchiveProblem: It can't be read, is no plain file, larger than any page of ours, or no text.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise ArchiveProblem(text("pages.archive.no_file"))
        with path.open("rb") as file:
            raw = file.read(MOST_PAGE_BYTES + 1)
    except OSError as error:
        raise ArchiveProblem(text("pages.archive.unreadable", why=error.strerror or "")) from error
    if len(raw) > MOST_PAGE_BYTES:
        raise ArchiveProblem(text("pages.archive.large", most=str(MOST_PAGE_BYTES)))
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        raise ArchiveProblem(text("pages.archive.no_text")) from error


def _unpack(file: str, link: str, digest: str, most: int) -> bytes:
    try:
        packed = base64.b64decode(link, validate=True)
        engine = zlib.decompressobj(wbits=31)
        # One byte over the limit is asked for, so that a file which unpacks without end is never unpacked.
        content = engine.decompress(packed, most + 1)
    except (binascii.Error, ValueError, zlib.error) as error:
        raise _fault(file, "damaged", why=str(error)) from error
    if len(content) > most:
        raise _fault(file, "unpacks", most=str(MOST_BYTES))
    if not engine.eof:
        raise _fault(file, "ends")
    if hashlib.sha256(content).hexdigest() != digest.lower():
        raise _fault(file, "sum")
    return content


def _facts(content: bytes) -> dict[str, Any]:
    try:
        found = json.loads(content, parse_constant=_no_number)
    except RecursionError as error:
        raise _fault(FACTS_FILE, "deep") from error
    except ValueError as error:
        raise _fault(FACTS_FILE, "damaged", why=str(error)) from error
    if not isinstance(found, dict):
        raise _fault(FACTS_FILE, "no_object")
    return found


def _no_number(word: str) -> None:
    raise ValueError(f"{word} is no number")


def _inside(file: str, taken: list[str]) -> None:
    """Refuse a path that is not a plain one below the folder, or that this system can't make."""
    fault = names.fault(file)
    if fault is not None:
        raise ArchiveProblem(f"{shown(file) or text('pages.archive.a_file')}: {fault}")
    if file in taken:
        raise _fault(file, "twice")
    folders = {str(parent) for parent in PurePosixPath(file).parents}
    if any(one in folders or one.startswith(f"{file}/") for one in taken):
        raise _fault(file, "both")


def _fault(file: str, kind: str, /, **values: str) -> ArchiveProblem:
    return ArchiveProblem(text(f"pages.archive.fault.{kind}", file=file, **values))
