"""What the terminal shows: problems by file and line, a ledger table, a progress bar."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from reportgen.model.letters import shown

if TYPE_CHECKING:
    from reportgen.model.problems import FileLedger, Problem
    from reportgen.model.records import Note


class Failure(click.ClickException):
    """One clear line and exit code 2."""

    exit_code = 2


#: So many problems of one file are printed before the rest is counted; `check --all` prints every one.
MOST_PROBLEMS = 20


def say(text: str = "", *, err: bool = True) -> None:
    """Print a line; click leaves colours out where the stream is no terminal."""
    click.echo(text, err=err)


def problem_lines(folder: str, problems: Iterable[Problem], most: int | None) -> list[str]:
    """Problems as `folder/file:line:column: level: message`, at most `most` a file."""
    lines: list[str] = []
    counts: dict[str, int] = {}
    for problem in problems:
        counts[problem.file] = counts.get(problem.file, 0) + 1
        if most is not None and counts[problem.file] > most:
            continue
        place = f"{shown(folder)}/{shown(problem.place)}"
        word = (
            click.style("set aside", fg="red")
            if problem.level == "error"
            else click.style("odd", fg="yellow")
        )
        lines.append(f"{click.style(place, bold=True)}: {word}: {shown(problem.message)}")
    for file, count in counts.items():
        if most is not None and count > most:
            lines.append(
                f"{shown(f'{folder}/{file}')}: and {count - most} more"
                " (`reportgen check --all` prints every one)"
            )
    return lines


def taken_lines(folder: str, notes: Iterable[Note]) -> list[str]:
    """What was read in the prose of each screening note."""
    lines = []
    for note in notes:
        for one in note.taken:
            what = one.grade if one.reading is None else f"{one.reading:g} {one.unit}"
            load = "" if one.load_kg is None else f" with {one.load_kg:g} kg"
            side = f" {one.side}" if one.side else ""
            lines.append(
                f"{shown(folder)}/{shown(note.file)}:{one.line}: taken: {one.item}{side} {what}{load}"
            )
    return lines


def ledger_table(ledger: Iterable[FileLedger]) -> list[str]:
    """The ledger as aligned text: a line a file with rows read, used and set aside."""
    rows = [("file", "read", "used", "set aside")]
    rows += [(shown(e.file), str(e.rows_read), str(e.rows_used), str(e.rows_set_aside)) for e in ledger]
    widths = [max(len(row[i]) for row in rows) for i in range(4)]
    return [
        "  " + row[0].ljust(widths[0]) + "".join("  " + row[i].rjust(widths[i]) for i in (1, 2, 3))
        for row in rows
    ]


def layouts(ledger: Iterable[FileLedger]) -> list[str]:
    """How each table was read: its layout, and what headings and marks were taken for."""
    return [f"  {shown(line)}" for entry in ledger for line in entry.layout.splitlines()]


def misses(ledger: Iterable[FileLedger]) -> str:
    """How many rows are set aside since they may hold a miss; nothing where there are none."""
    count = sum(entry.unclear_misses for entry in ledger)
    rows = "1 row that may hold a miss is" if count == 1 else f"{count} rows that may hold a miss are"
    return f": {rows} set aside" if count else ""


@contextmanager
def progress(total: int) -> Iterator[Callable[[str], None]]:
    """A bar with the time left on standard error, for several lifters on a terminal; silent elsewhere."""
    if total < 2 or not sys.stderr.isatty():
        yield lambda _: None
        return
    with click.progressbar(
        length=total, label="writing", file=sys.stderr, show_pos=True, item_show_func=lambda name: name or ""
    ) as bar:
        yield lambda name: bar.update(1, name)


def usage(message: str) -> click.UsageError:
    """Wrong arguments: click prints the message and leaves with 2."""
    return click.UsageError(message)
