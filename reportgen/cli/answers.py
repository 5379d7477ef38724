"""`reportgen answers`: what was answered to a page, added to the lifter's folder."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from reportgen.cli import options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reportgen.intake import Intake
    from reportgen.model.problems import Problem


@click.command()
@options.folder
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False, allow_dash=True))
@click.pass_context
def command(ctx: click.Context, folder: Path, file: Path) -> None:
    """Add the answers in FILE to one lifter's folder; a dash reads them from standard input.

    Rows that a review gave go behind those of decisions.csv, in its own form; the text that a progress
    dossier gave becomes a note. Each is checked like any file of the folder, and added once: what is there
    already is left out. Nothing is written where anything is wrong.
    """
    from reportgen.cli import run, terminal
    from reportgen.cli.start import quoted
    from reportgen.intake import answers
    from reportgen.words import text

    chosen = run.lifters(folder)
    if run.is_squad(folder):
        raise terminal.usage(text("answers.told.squad", folder=f"'{folder}'"))
    raw = _content(file)
    intake = run.read(chosen[0], None)
    if intake.records is None:
        for line in terminal.problem_lines(folder.resolve().name, intake.problems, terminal.MOST_PROBLEMS):
            terminal.say(line)
        ctx.exit(2)
    add = _note if answers.is_note(raw) else _rows
    click.echo(add(folder, file if str(file) != "-" else Path("answers"), raw, intake))
    click.echo("\n" + text("answers.told.next", folder=quoted(folder)))


def _content(file: Path) -> bytes:
    """The bytes of what was given; no more of them than a file may have."""
    from reportgen.cli import terminal
    from reportgen.intake.bounds import LARGEST_BYTES
    from reportgen.model.letters import shown
    from reportgen.words import text

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
    from reportgen.intake import answers
    from reportgen.intake.tables import Manner
    from reportgen.words import text

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
        _fail(path, str(problem))
    _write(folder, path, whole)
    kept = text("answers.told.and_there", there=len(given) - len(new)) if len(given) > len(new) else ""
    return text("answers.told.rows", file=str(path), new=len(new), kept=kept)


def _path(folder: Path, intake: Intake) -> Path:
    """decisions.csv as it is written there, in whatever letter case."""
    from reportgen.intake.kinds import DECISIONS

    files = [one.file for one in intake.ledger if one.file.casefold() == DECISIONS.file]
    return folder / (files[0] if files else DECISIONS.file)


def _note(folder: Path, file: Path, raw: bytes, _: Intake) -> str:
    """Write a note, unless one of the same words is there."""
    from reportgen.intake import answers
    from reportgen.words import text

    one, entry = answers.note_of(file.name, raw)
    if one is None:
        _refuse(file, entry.problems)
    if one.kind != "remark" or not one.text.strip():
        _fail(file, text("answers.told.kind" if one.kind != "remark" else "answers.told.empty"))
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
    from reportgen import pages
    from reportgen.cli import terminal
    from reportgen.words import text

    if not path.parent.resolve().is_relative_to(folder.resolve()) or path.is_symlink():
        _fail(path, text("answers.told.outside"))
    try:
        pages.write(path, whole)
    except pages.WriteProblem as problem:
        raise terminal.Failure(str(problem)) from problem


def _refuse(file: Path, wrong: Iterable[Problem]) -> NoReturn:
    from reportgen.cli import terminal
    from reportgen.words import text

    problems = tuple(wrong)
    for line in terminal.problem_lines(str(file.parent), problems, None):
        terminal.say(line)
    raise terminal.Failure(text("answers.told.wrong", n=len(problems)))


def _fail(path: Path, reason: str) -> NoReturn:
    from reportgen.cli import terminal
    from reportgen.words import text

    raise terminal.Failure(text("answers.told.refused", file=str(path), reason=reason))
