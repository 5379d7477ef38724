"""notes/*.md: a few header lines, an empty line, Markdown."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field
from io import StringIO

import numpy as np
import pandas as pd

from reportgen.intake.cells import day, listed, vocabulary
from reportgen.intake.messages import Fault, Said, Want, close, cut, quoted, sentence
from reportgen.intake.prose import Prose, prose
from reportgen.intake.read import decoded
from reportgen.intake.tables import Manner
from reportgen.model.problems import FileLedger, Level, Problem
from reportgen.model.records import Note
from reportgen.model.tables import SCREENING
from reportgen.trade import fold

_KEYS = ("date", "kind", "title")


@dataclass(slots=True)
class _Paper:
    """One note being understood: the header's values with their lines, and what follows it."""

    file: str
    header: dict[str, tuple[str, int]] = field(default_factory=dict)
    body: str = ""
    body_line: int = 1
    problems: list[Problem] = field(default_factory=list)

    def say(
        self,
        said: Said,
        line: int,
        want: str,
        *,
        found: str = "",
        level: Level = "error",
        heading: str = "",
        near: str | None = None,
    ) -> None:
        message = sentence(said, near=near, found=quoted(found), want=want, heading=heading)
        problem = Problem(
            file=self.file,
            line=line,
            column=1 if heading else 0,
            heading=heading,
            level=level,
            found=cut(found),
            expected=str(want),
            message=message,
        )
        self.problems.append(problem)


def note(file: str, raw: bytes, manner: Manner) -> tuple[Note | None, FileLedger]:
    """Understand one note.

    Args:
        file: Its path relative to the lifter's folder.
        raw: The file.
        manner: How this lifter writes dates.

    Returns:
        The note, None where a header is missing or wrong, and the file's ledger (a row is the file).
    """
    paper = _paper(file, raw)
    for key in _KEYS:
        value, line = paper.header.get(key, ("", 1))
        if not value:
            paper.say(Said.NO_HEADER, line, Want.HEADER.format(key=key.capitalize()))
    when, kind = _day(paper, manner), _kind(paper)
    made = None
    if when and kind and not any(problem.level == "error" for problem in paper.problems):
        found = prose(paper.body, paper.body_line) if kind == "screening" else Prose(taken=(), unread=())
        for item, line in found.unread:
            paper.say(Said.UNREAD, line, Want.PLAIN_READING, found=item, level="odd")
        made = Note(
            file=file,
            date=when,
            kind=kind,
            title=paper.header["title"][0],
            text=paper.body,
            taken=found.taken,
            unread=tuple(item for item, _ in found.unread),
        )
    entry = FileLedger(
        file=file,
        rows_read=1,
        rows_used=int(made is not None),
        rows_set_aside=int(made is None),
        problems=tuple(sorted(paper.problems)),
    )
    return made, entry


def _paper(file: str, raw: bytes) -> _Paper:
    """Tell the header from the text; blank lines before the header do no harm."""
    paper = _Paper(file)
    text = decoded(raw)
    if text.mixed_line is not None:
        paper.say(Said.MIXED, text.mixed_line, Want.UTF8, level="odd")
    lines = list(StringIO(text.text.replace("\0", "\ufffd"), newline=None))
    for number, line in enumerate(lines, 1):
        if not line.strip():
            if paper.header:
                paper.body, paper.body_line = "".join(lines[number:]), number + 1
                break
            continue
        key, colon, value = line.partition(":")
        if not colon:
            paper.say(Said.NO_BLANK, number, Want.EMPTY_LINE, found=line.strip())
            break
        if fold(key) in _KEYS:
            paper.header.setdefault(fold(key), (value.strip(), number))
        else:
            near, want = close(fold(key), _KEYS), ", ".join(_KEYS)
            paper.say(Said.UNKNOWN_HEADER, number, want, found=key.strip(), level="odd", near=near)
    return paper


def _day(paper: _Paper, manner: Manner) -> dt.date | None:
    value, line = paper.header.get("date", ("", 1))
    got = day(value, manner.date_format) if value else None
    if isinstance(got, Fault):
        paper.say(Said.CELL, line, got.want, found=value, heading="Date")
        return None
    return got


def _kind(paper: _Paper) -> str | None:
    value, line = paper.header.get("kind", ("", 1))
    kinds = vocabulary("note_kind")
    got = kinds.find(value) if value else None
    if value and got is None:
        want = Want.WORD.format(words=listed(kinds))
        paper.say(Said.CELL, line, want, found=value, heading="Kind", near=kinds.near(value))
    return got


def from_prose(notes: Sequence[Note], screening: pd.DataFrame) -> pd.DataFrame:
    """The screening table with the readings that notes give; what the table has already stays as it is there.

    Args:
        notes: The lifter's notes.
        screening: Rows of screening.csv or whatever holds them; one of the same day, item, side and load goes
            before the note's.
    """
    keys = zip(*(screening[name].tolist() for name in ("date", "item", "side", "load_kg")), strict=True)
    there = {(str(day)[:10], item, side, _load(kg)) for day, item, side, kg in keys}
    rows: list[dict[str, object]] = []
    for one in notes:
        for reading in one.taken:
            key = (one.date.isoformat(), reading.item, reading.side, _load(reading.load_kg))
            if key in there:
                continue
            there.add(key)
            rows.append(
                {
                    "date": np.datetime64(one.date, "s"),
                    "item": reading.item,
                    "side": reading.side,
                    "load_kg": np.nan if reading.load_kg is None else reading.load_kg,
                    "reading": np.nan if reading.reading is None else reading.reading,
                    "grade": reading.grade,
                    "conditions": reading.conditions,
                    "remark": "",
                    "file": one.file,
                    "line": reading.line,
                }
            )
    if not rows:
        return screening
    made = pd.DataFrame(rows).astype(SCREENING)
    return pd.concat([screening, made], ignore_index=True) if len(screening) else made


def _load(kg: float | None) -> float:
    return 0.0 if kg is None or np.isnan(kg) else round(kg, 1)
