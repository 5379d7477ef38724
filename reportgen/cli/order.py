"""What is asked for of one lifter, and what became of it: plain values that cross to another process."""

from __future__ import annotations

import datetime as dt
import hashlib
from dataclasses import field
from pathlib import Path

from reportgen.face import named
from reportgen.model.lifter import Squad
from reportgen.model.values import dataclass
from reportgen.view import Edition
from reportgen.view.page import SquadLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What to write, for one lifter."""

    folder: Path
    slug: str
    out: Path
    as_of: dt.date | None
    theme: str
    #: What squad.toml says; without the coach where the page names nobody.
    squad: Squad = field(default_factory=Squad)
    always: bool = False  # write even where nothing changed
    bare: bool = False  # leave the source files out
    share: tuple[str, ...] | None = None  # parts to keep in a copy to share; None = a whole dossier
    #: What to compare with: a day, or an earlier dossier's file; None = nothing.
    since: dt.date | Path | None = None
    alone: bool = True  # of one lifter, not of a squad: what can't be compared is refused
    #: For whom: the coach (review), from the lifter (progress), the archive (season).
    edition: Edition = "review"
    screening: bool = False  # positions are in the progress edition, too
    #: start, end: First and last day of the season asked for; None = the log's first day, the review day.
    #: Both None = the newest calendar year.
    start: dt.date | None = None
    end: dt.date | None = None
    passphrase: str | None = field(default=None, repr=False)  # seals the page; None leaves it open
    store: Path | None = None  # where drawings are kept for the next time; None keeps none

    @property
    def name(self) -> str:
        """The lifter's folder."""
        return self.folder.resolve().name

    @property
    def named(self) -> bool:
        """Whether page and address may name the lifter."""
        return self.share is None or "name" in self.share

    @property
    def options(self) -> tuple[str, ...]:
        """Everything that the page depends on besides files and theme."""
        earlier = _sum(self.since) if isinstance(self.since, Path) else self.since
        return (
            f"as of {self.as_of}",
            f"unit {self.squad.unit}",
            f"coach {self.squad.coach}",
            f"bare {self.bare}",
            f"share {self.share}",
            f"since {earlier}",
            f"edition {self.edition} {self.screening} {self.start} {self.end}",
        )

    @property
    def page(self) -> Path:
        """Where the page goes."""
        return self.out / named(self.slug, self.edition)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one lifter; all but `line` and `shared` is for the terminal, which may name anybody."""

    folder: str
    path: Path | None
    code: int
    lines: tuple[str, ...]
    verdict: str
    line: SquadLine | None
    shared: str = ""  # address of a copy to share: what the index may call a lifter without a page


def failed(order: Order, verdict: str, *, lines: tuple[str, ...] = (), code: int = 2) -> Outcome:
    """The outcome of a lifter whose page was not written."""
    return Outcome(
        folder=order.name,
        path=None,
        code=code,
        lines=lines,
        verdict=verdict,
        line=None,
        shared="" if order.share is None else order.slug,
    )


def _sum(file: Path) -> str:
    """The SHA-256 of a file of any size; what the disk says where there is none, told when it is opened."""
    try:
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()
    except OSError as error:
        return repr(error)
