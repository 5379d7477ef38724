"""notes/*.md: a few header lines, an empty line, Markdown."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from io import StringIO
from typing import Any

import numpy as np
import pandas as pd

from reportgen.intake.cells import day, listed, vocabulary
from reportgen.intake.messages import CELL, Fault, close, expect, problem
from reportgen.intake.prose import prose
from reportgen.intake.read import decoded
from reportgen.intake.tables import Manner
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Note
from reportgen.model.say import Say, say
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

    def report(self, said: Say, line: int, want: Say, **rest: Any) -> None:
        self.problems.append(problem(said, file=self.file, line=line, want=want, **rest))


def note(file: str, raw: bytes, manner: Manner) -> tuple[Note | None, FileLedger]:
    """One note, None where a header is missing or wrong, and its ledger: a row is the file."""
    paper = _paper(file, raw)
    for key in _KEYS:
        value, line = paper.header.get(key, ("", 1))
        if not value:
            paper.report(say("intake.no_header"), line, expect("header", key=key.capitalize()))
    when, kind = _day(paper, manner), _kind(paper)
    made = None
    if when and kind and not any(problem.level == "error" for problem in paper.problems):
        taken, unread = prose(paper.body, paper.body_line) if kind == "screening" else ((), {})
        for item, line in unread.items():
            paper.report(say("intake.unread"), line, expect("plain_reading"), found=item, level="odd")
        made = Note(
            file=file,
            date=when,
            kind=kind,
            title=paper.header["title"][0],
            text=paper.body,
            taken=taken,
            unread=tuple(unread),
        )
    return made, FileLedger.of_whole(file, paper.problems, used=made is not None)


def aside(file: str, raw: bytes, manner: Manner) -> dict[str, object]:
    """A note that was set aside as a row of `SETS_UNREAD`: what it tells of a body is heard all the same."""
    when = _day(_paper(file, raw), manner)
    return {"date": when or pd.NaT, "remark": decoded(raw).text, "file": file, "line": 0}


def _paper(file: str, raw: bytes) -> _Paper:
    """Tell the header from the text; blank lines before the header do no harm."""
    paper = _Paper(file)
    text = decoded(raw)
    if text.mixed_line is not None:
        paper.report(say("intake.mixed"), text.mixed_line, expect("utf8"), level="odd")
    lines = list(StringIO(text.text.replace("\0", "\ufffd"), newline=None))
    for number, line in enumerate(lines, 1):
        if not line.strip():
            if paper.header:
                paper.body, paper.body_line = "".join(lines[number:]), number + 1
                break
            continue
        key, colon, value = line.partition(":")
        if not colon:
            paper.report(say("intake.no_blank"), number, expect("empty_line"), found=line.strip())
            break
        if fold(key) in _KEYS:
            paper.header.setdefault(fold(key), (value.strip(), number))
        else:
            near, want = close(fold(key), _KEYS), expect("names", names=_KEYS)
            paper.report(
                say("intake.unknown_header"), number, want, found=key.strip(), level="odd", near=near
            )
    return paper


def _day(paper: _Paper, manner: Manner) -> dt.date | None:
    value, line = paper.header.get("date", ("", 1))
    got = day(value, manner.date_format) if value else None
    if isinstance(got, Fault):
        paper.report(CELL, line, got.want, found=value, at=(1, "Date"))
        return None
    return got


def _kind(paper: _Paper) -> str | None:
    value, line = paper.header.get("kind", ("", 1))
    kinds = vocabulary("note_kind")
    got = kinds.find(value) if value else None
    if value and got is None:
        want = expect("word", words=listed(kinds))
        paper.report(CELL, line, want, found=value, at=(1, "Kind"), near=kinds.near(value))
    return got


def from_prose(notes: Sequence[Note], screening: pd.DataFrame) -> pd.DataFrame:
    """The screening table with the readings that notes give.

    A row of the table of the same day, item, side and load goes before the note's.
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
            day, blank = np.datetime64(one.date, "s"), {"remark": "", "file": one.file}
            rows.append({**asdict(reading), "date": day, **blank})
    if not rows:
        return screening
    made = pd.DataFrame(rows)[list(SCREENING)].astype(SCREENING)
    return pd.concat([screening, made], ignore_index=True) if len(screening) else made


def _load(kg: float | None) -> float:
    return 0.0 if kg is None or np.isnan(kg) else round(kg, 1)
