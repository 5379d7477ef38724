"""`reportgen answers`: what was answered in a page, added to the lifter's folder."""

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import NoReturn

import click

from reportgen import pages
from reportgen.cli import run as asked
from reportgen.cli import terminal
from reportgen.cli.start import quoted
from reportgen.intake import Intake, answers
from reportgen.intake.bounds import LARGEST_BYTES
from reportgen.intake.kinds import DECISIONS
from reportgen.intake.tables import Manner
from reportgen.model.letters import shown
from reportgen.model.problems import Problem
from reportgen.words import said, text


def run(folder: Path, file: Path) -> int:
    """Add the answers in a file, each checked and once; nothing is written where anything is wrong."""
    lifter = asked.one_lifter(folder)
    raw = _content(file)
    intake = asked.read(lifter, None)
    if intake.records is None:
        terminal.tell(lifter.resolve().name, intake.problems)
        return 2
    add = _note if answers.is_note(raw) else _rows
    click.echo(add(lifter, file if str(file) != "-" else Path("answers"), raw, intake))
    click.echo("\n" + text("answers.told.next", folder=quoted(folder)))
    return 0


def _content(file: Path) -> bytes:
    """The bytes of what was given; no more of them than a file may have."""
    try:
        if str(file) == "-":
            return sys.stdin.buffer.read(LARGEST_BYTES + 1)
        with file.open("rb") as opened:
            return opened.read(LARGEST_BYTES + 1)
    except OSError as error:
        reason = error.strerror or str(error)
        raise terminal.Failure(text("answers.told.unread", file=shown(file), reason=reason)) from error


def _rows(folder: Path, file: Path, raw: bytes, intake: Intake) -> str:
    """Add rows to decisions.csv and say how many."""
    given, wrong = answers.given(file.name, raw)
    if wrong:
        _refuse(file, wrong)
    assert intake.records is not None
    there = set(answers.rows(intake.records.decisions))
    new = [row for row in given if row not in there]
    path = _path(folder, intake)
    if not new:
        return text("answers.told.nothing", file=str(path))
    try:
        old = path.read_bytes() if path.exists() else None
        whole = answers.added(old, new, Manner.of(intake.records.lifter))
    except answers.AnswersError as problem:
        reason = said(problem.args[0])
        raise terminal.Failure(text("answers.told.refused", file=str(path), reason=reason)) from problem
    _write(folder, path, whole)
    before = len(given) - len(new)
    return text(f"answers.told.{'more' if before else 'rows'}", file=str(path), new=len(new), there=before)


def _path(folder: Path, intake: Intake) -> Path:
    """decisions.csv as it is written there, in whatever letter case."""
    files = [one.file for one in intake.ledger if one.file.casefold() == DECISIONS.file]
    return folder / (files[0] if files else DECISIONS.file)


def _note(folder: Path, file: Path, raw: bytes, _: Intake) -> str:
    """Write a note, unless one of the same words is there."""
    one, entry = answers.note_of(file.name, raw)
    if one is None:
        _refuse(file, entry.problems)
    if one.kind != "remark" or not one.text.strip():
        wrong = "kind" if one.kind != "remark" else "empty"
        raise terminal.Failure(text(f"answers.told.{wrong}", file=shown(file)))
    whole = answers.note_text(one).encode()
    number = 1
    while True:  # a second letter of the same day is another note; the same one is none
        more = f"-{number}" if number > 1 else ""
        path = folder / "notes" / f"{one.date}-answers{more}.md"
        if not path.exists():
            break
        if path.is_file() and path.read_bytes() == whole:
            return text("answers.told.nothing", file=str(path))
        number += 1
    _write(folder, path, whole)
    return text("answers.told.note", file=str(path))


def _write(folder: Path, path: Path, whole: bytes) -> None:
    """The file, whole or not at all, and inside of the folder."""
    if not path.parent.resolve().is_relative_to(folder.resolve()) or path.is_symlink():
        raise terminal.Failure(text("answers.told.outside", file=str(path)))
    with terminal.writing():
        pages.write(path, whole)


def _refuse(file: Path, wrong: Iterable[Problem]) -> NoReturn:
    problems = tuple(wrong)
    terminal.tell(str(file.parent), problems, None)
    raise terminal.Failure(text("answers.told.wrong", n=len(problems)))
