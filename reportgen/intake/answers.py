"""Answers to a page: rows for decisions.csv or a note, checked like a folder's files, put into its form."""

import csv
import datetime as dt
import io
from collections.abc import Sequence

import numpy as np
import pandas as pd

from reportgen.intake.bounds import LARGEST_BYTES, MOST_NOTE_BYTES
from reportgen.intake.columns import nothing_in
from reportgen.intake.gather import text_grid, understood
from reportgen.intake.kinds import DECISIONS
from reportgen.intake.layouts import known_headings, tidy
from reportgen.intake.messages import Fault, expect
from reportgen.intake.notes import note
from reportgen.intake.read import decoded, refused, split
from reportgen.intake.tables import Manner, Reading
from reportgen.model.letters import STEERING, as_cell
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Note
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade.claims import claims, finding_near

_PLAIN = Manner()


class AnswersError(Exception):
    """The rows can't be put into the file that is there; holds the sentence that says why."""


@dataclass(frozen=True, slots=True, order=True)
class Row:
    """One decision, its reason as it may stand in a cell."""

    date: dt.date
    finding: str
    verdict: str
    why: str
    check: dt.date | None


def is_note(raw: bytes) -> bool:
    """Whether answers begin as a note does, and not as a table."""
    first = decoded(raw[:1000]).text.lstrip("\ufeff \t\r\n")
    return first.casefold().startswith("date:")


def given(file: str, raw: bytes) -> tuple[tuple[Row, ...], tuple[Problem, ...]]:
    """The rows of a page's decisions.csv, or what is wrong with them: one bad row spoils them all.

    Args:
        file: Its name, for the problems.
        raw: Its bytes; dates are ISO.
    """
    if len(raw) > LARGEST_BYTES:
        return (), (refused(file, "large"),)
    read = _read(file, raw, _PLAIN)
    if read is None:
        return (), tuple(nothing_in(file, DECISIONS).stops)
    sheet = read.sheet
    strange = [
        row
        for row, finding in zip(read.rows.tolist(), read.table["finding"], strict=True)
        if finding not in claims().findings
    ]
    column = sheet.column("finding")
    faults = [Fault(expect("finding"), finding_near(column.found(row))) for row in strange]
    sheet.blame_rows(column, np.array(strange, dtype=np.int64), faults)
    wrong = tuple(one for one in sheet.ledger().problems if one.level == "error")
    if not wrong and read.table.empty:
        wrong = (refused(file, "no_rows"),)
    return (() if wrong else tuple(dict.fromkeys(rows(read.table)))), wrong


def rows(table: pd.DataFrame) -> list[Row]:
    """The rows of a table of decisions."""
    return [
        Row(
            date=one["date"].date(),
            finding=str(one["finding"]),
            verdict=str(one["verdict"]),
            why=as_cell(str(one["why"])),
            check=None if pd.isna(one["check"]) else one["check"].date(),
        )
        for one in table.to_dict("records")
    ]


def added(raw: bytes | None, new: Sequence[Row], manner: Manner) -> bytes:
    """The bytes of decisions.csv with more rows at its end, in its own form.

    Raises:
        AnswersError: The file can't be read, has no column for what is to be said, or no letter for it.
    """
    there = raw if raw is not None and raw.strip() else f"{','.join(DECISIONS.columns)}\n".encode()
    text = decoded(there)
    old = _read(DECISIONS.file, there, manner)
    cells = split(
        DECISIONS.file, text.text, known_headings(DECISIONS, manner.columns.get(DECISIONS.name, {}))
    )
    if old is None or old.sheet.whole or cells is None:
        raise AnswersError(say("answers.told.broken"))
    places = {name: column.number for name, column in old.sheet.columns.items()}
    newline = "\r\n" if "\r\n" in text.text else "\n"
    out = io.StringIO(newline="")
    if not text.text.endswith(("\n", "\r")):
        out.write(newline)
    writer = csv.writer(out, delimiter=cells.delimiter, lineterminator=newline)
    for row in new:
        words = _words(row, manner)
        lost = [name for name, word in words.items() if word and not places.get(name)]
        if lost:
            raise AnswersError(say("answers.told.no_column", column=lost[0]))
        line = [""] * max(places.values())
        for name, word in words.items():
            if places.get(name):
                line[places[name] - 1] = word
        writer.writerow(line)
    try:
        whole = there + out.getvalue().encode(text.encoding)
    except UnicodeEncodeError as error:
        letter = error.object[error.start]
        said = say("answers.told.no_letter", encoding=text.encoding, letter=letter)
        raise AnswersError(said) from error
    again = _read(DECISIONS.file, whole, manner)
    if again is None or rows(again.table) != [*rows(old.table), *new]:
        raise AnswersError(say("answers.told.unlike"))
    return whole


def note_of(file: str, raw: bytes) -> tuple[Note | None, FileLedger]:
    """Answers to questions, read as the note that they are to become."""
    if len(raw) > MOST_NOTE_BYTES:
        return None, FileLedger.of_whole(file, (refused(file, "long_note"),))
    return note(file, raw, _PLAIN)


def note_text(one: Note) -> str:
    """The note as a file: its header lines, and no letter that steers anything."""
    lines = (STEERING.sub(" ", line).rstrip() for line in one.text.replace("\t", " ").splitlines())
    title = " ".join(STEERING.sub(" ", one.title).split())
    return f"Date: {one.date}\nKind: {one.kind}\nTitle: {title}\n\n" + "\n".join(lines).strip() + "\n"


def _read(file: str, raw: bytes, manner: Manner) -> Reading | None:
    """A table of decisions; None where it holds nothing."""
    known = known_headings(DECISIONS, manner.columns.get(DECISIONS.name, {}))
    grid = text_grid(file, decoded(raw).text, known, plain=False)
    if grid is None:
        return None
    (sheet,) = tidy((grid,), DECISIONS, manner)
    return understood(sheet, DECISIONS, manner)


def _words(row: Row, manner: Manner) -> dict[str, str]:
    day = manner.date_format or "%Y-%m-%d"
    return {
        "date": row.date.strftime(day),
        "finding": row.finding,
        "verdict": row.verdict,
        "why": row.why,
        "check": row.check.strftime(day) if row.check else "",
    }
