"""What the terminal shows: problems by file and line, a ledger table, a progress bar."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from reportgen.model.letters import shown

if TYPE_CHECKING:
    from reportgen.model.doubts import Unsure
    from reportgen.model.problems import FileLedger, Problem
    from reportgen.model.records import Note


class Failure(click.ClickException):
    """One clear line and exit code 2."""

    exit_code = 2


#: So many problems of one file are printed before the rest is counted; `check --all` prints every one.
MOST_PROBLEMS = 20
#: So many places and words of one cause.
MOST_ALIKE = 3
#: What is told of while one page is written.
STAGES = ("reading", "computing", "drawing")
_watching: list[Callable[[str], None]] = []


def say(text: str = "", *, err: bool = True) -> None:
    """Print a line; click leaves colours out where the stream is no terminal."""
    click.echo(text, err=err)


def problem_lines(folder: str, problems: Iterable[Problem], most: int | None) -> list[str]:
    """One line a cause as `folder/file:line:column: level: message`, at most `most` a file.

    Rows with the same fault are one line, with their number, what stood there and the first places.

    Args:
        folder: The lifter's, in front of every place.
        problems: In the order of the ledger.
        most: Causes of one file that are printed; None = every problem by itself.
    """
    causes: dict[object, list[Problem]] = {}
    for problem in problems:
        causes.setdefault(_cause(problem) if most is not None else problem, []).append(problem)
    lines: list[str] = []
    printed: dict[str, int] = {}
    left: dict[str, int] = {}
    for alike in causes.values():
        file = alike[0].file
        printed[file] = printed.get(file, 0) + 1
        if most is not None and printed[file] > most:
            left[file] = left.get(file, 0) + len(alike)
        else:
            lines.append(_line(folder, alike))
    for file, count in left.items():
        lines.append(
            f"{shown(f'{folder}/{file}')}: and {count} more (`reportgen check --all` prints every one)"
        )
    return lines


def _quoted(problem: Problem) -> str:
    """What stood there, as the message has it; "" where it does not say it or a word is suggested for it."""
    found = f"'{problem.found}'"
    return (
        found if problem.found and found in problem.message and "did you mean" not in problem.message else ""
    )


def _cause(problem: Problem) -> object:
    """What problems that can be told in one line share: everything but the line and what stood there."""
    quoted = _quoted(problem)
    message = problem.message.replace(quoted, "''") if quoted else problem.message
    return problem.file, problem.column, problem.heading, problem.level, message


def _line(folder: str, alike: list[Problem]) -> str:
    """One cause: its first place, how many rows have it, what stood there, more places, the guide's words."""
    from reportgen.intake.messages import guide

    first = alike[0]
    place = f"{shown(folder)}/{shown(first.place)}"
    error = first.level == "error"
    word = click.style("set aside", fg="red") if error else click.style("odd", fg="yellow")
    message, quoted = first.message, _quoted(first)
    different = list(dict.fromkeys(_quoted(one) for one in alike))
    if quoted and len(different) > 1:
        few = ", ".join(different[:MOST_ALIKE])
        rest = len(different) - MOST_ALIKE
        message = message.replace(quoted, f"{few} and {rest} others" if rest > 0 else few)
    many = f"{len(alike):,} rows: " if len(alike) > 1 else ""
    also = ""
    if len(alike) > 1:
        also = f" (lines {', '.join(str(one.line) for one in alike[:MOST_ALIKE])}"
        also += ", …)" if len(alike) > MOST_ALIKE else ")"
    section = guide(first)
    see = f" [guide: {section}]" if section else ""
    return f"{click.style(place, bold=True)}: {word}: {many}{shown(message)}{also}{see}"


def total(ledgers: Iterable[Iterable[FileLedger]]) -> str:
    """What became of every row of every file, in one line."""
    entries = [entry for ledger in ledgers for entry in ledger]
    files = len(entries)
    read = sum(entry.rows_read for entry in entries)
    used = sum(entry.rows_used for entry in entries)
    odd = sum(problem.level == "odd" for entry in entries for problem in entry.problems)
    return (
        f"{files:,} file{'' if files == 1 else 's'}, {read:,} row{'' if read == 1 else 's'}: {used:,} used, "
        f"{read - used:,} set aside, {odd:,} odd."
    )


def unsure_lines(folder: str, found: Iterable[Unsure]) -> list[str]:
    """What is not sure enough for a proposal: first of all lines."""
    from reportgen.model import doubts
    from reportgen.words import plain, spoken

    head = f"{click.style(shown(folder), bold=True)}: {click.style('not sure', fg='red')}: "
    return [head + shown(plain(spoken(doubts.said(one)))) for one in found]


def idle_lines(folder: str, places: Iterable[str]) -> list[str]:
    """Places that lifter.toml confirms where nothing waits."""
    head = f"{click.style(f'{shown(folder)}/lifter.toml', bold=True)}: {click.style('odd', fg='yellow')}: "
    return [
        f"{head}confirmed names '{shown(place)}', where nothing waits to be let through" for place in places
    ]


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
    """A bar on standard error, on a terminal only: a step a lifter, for one alone a step a stage."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    length = total if total > 1 else len(STAGES) + 1
    with click.progressbar(
        length=length,
        label="writing",
        file=sys.stderr,
        show_pos=total > 1,
        item_show_func=lambda name: name or "",
    ) as bar:
        if total > 1:
            yield lambda name: bar.update(1, name)
            return
        _watching.append(lambda name: bar.update(1, name))
        try:
            yield lambda name: bar.update(1, name)
        finally:
            _watching.clear()


def stage(name: str) -> None:
    """Tell whoever waits for one lifter's page that a stage of it begins."""
    for told in _watching:
        told(name)


def usage(message: str) -> click.UsageError:
    """Wrong arguments: click prints the message and leaves with 2."""
    return click.UsageError(message)
