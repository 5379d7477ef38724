"""What the terminal shows: problems by file and line, a ledger table, a progress bar."""

import datetime as dt
import json
import re
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

import click

from reportgen import pages
from reportgen.cli import streams
from reportgen.cli.options import Failure
from reportgen.model import doubts
from reportgen.model.doubts import Unsure
from reportgen.model.letters import shown
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Note
from reportgen.model.say import Say
from reportgen.model.say import say as make_say
from reportgen.words import listed, plain, said, text, together

__all__ = ["Failure"]

#: So many problems of one file are printed before the rest is counted; `check --all` prints every one.
MOST_PROBLEMS = 20
#: So many places and words of one cause.
MOST_ALIKE = 3
#: Messages that many rows share though each has figures of its own.
_ALIKE = ("intake.same", "intake.two_ways", "intake.no_lift", "intake.no_lift_named", "intake.alone")
#: What is told of while one page is written: messages `cli.stage.NAME`.
STAGES = ("reading", "computing", "drawing")
_watching: list[Callable[[str], None]] = []


def say(text: str = "", *, err: bool = True) -> None:
    """Print a line; click leaves colours out where the stream is no terminal."""
    click.echo(text, err=err)


def say_json(text: str, *, nl: bool = True) -> None:
    """Print JSON, its letters written out where standard output is no Unicode."""
    if not streams.has_every_letter():
        text = re.sub("[^\x00-\x7f]", lambda letter: json.dumps(letter[0])[1:-1], text)
    click.echo(text, nl=nl)


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
    lines += [
        text("cli.problem.left", place=shown(f"{folder}/{file}"), many=many) for file, many in left.items()
    ]
    return lines


def tell(folder: str, problems: Iterable[Problem], most: int | None = MOST_PROBLEMS) -> None:
    """Print `problem_lines` on standard error."""
    for line in problem_lines(folder, problems, most):
        say(line)


def _quoted(problem: Problem) -> str:
    """What stood there, as the message has it; "" where it does not say it or a word is suggested for it."""
    found = f"'{problem.found}'"
    near = problem.message.key == "intake.near"
    return found if problem.found and not near and found in said(problem.message) else ""


def told(problem: Problem) -> str:
    """The place and the message."""
    return f"{problem.place}: {said(problem.message)}"


def guide(problem: Problem) -> str:
    """The section of the guide that tells how such a thing is written."""
    if problem.file in ("lifter.toml", "squad.toml"):
        return text("intake.guide.lifter")
    whole = f"{said(problem.message)} {said(problem.expected)}"
    ways = zip(listed("intake.guide.words"), listed("intake.guide.sections"), strict=True)
    other = "sets" if problem.file in ("training.csv", "plan.csv") else "others"
    return next((section for words, section in ways if words in whole), text(f"intake.guide.{other}"))


def _core(problem: Problem) -> Say:
    """The message without the word that may have been meant."""
    near = problem.message.key == "intake.near"
    inner = problem.message.value("message") if near else problem.message
    return inner if isinstance(inner, Say) else problem.message


def _of_a_mark(problem: Problem) -> bool:
    """Whether two readings are those of a set, not of a day: each is told by itself."""
    core = _core(problem)
    return core.key == "intake.two_ways" and not isinstance(core.value("one"), dt.date)


def _together(alike: list[Problem], few: str) -> str:
    """One message for problems that differ in more than what stood there; "" where they don't."""
    core = _core(alike[0])
    if len(alike) == 1 or core.key not in _ALIKE or _of_a_mark(alike[0]) or len({*map(_core, alike)}) == 1:
        return ""
    name = core.key.removeprefix("intake.")
    if name in ("no_lift", "no_lift_named"):
        cores = [_core(one) for one in alike]
        paste = "".join(f"\n    {one.value('line')}" for one in cores)
        rows = sum(n for one in cores if isinstance(n := one.value("n"), int))
        return text(f"cli.problem.alike.{name}", words=len(alike), rows=rows, paste=paste)
    return said(make_say(f"cli.problem.alike.{name}", **{**dict(core.values), "few": few}))


def _cause(problem: Problem) -> object:
    """What problems that can be told in one line share: everything but the line and what stood there."""
    if _core(problem).key in _ALIKE and not _of_a_mark(problem):
        return problem.file, problem.column, problem.level, _core(problem).key
    quoted = _quoted(problem)
    message = said(problem.message)
    message = message.replace(quoted, "''") if quoted else message
    return problem.file, problem.column, problem.heading, problem.level, message


def _line(folder: str, alike: list[Problem]) -> str:
    """One cause: its first place, how many rows have it, what stood there, more places, the guide's words."""
    first = alike[0]
    message, quoted = said(first.message), _quoted(first)
    different = list(dict.fromkeys(_quoted(one) for one in alike))
    if quoted and len(different) > 1:
        few, rest = ", ".join(different[:MOST_ALIKE]), len(different) - MOST_ALIKE
        message = message.replace(quoted, text("cli.problem.others", few=few, rest=rest) if rest > 0 else few)
    few = ", ".join(different[:MOST_ALIKE]) + (" …" if len(different) > MOST_ALIKE else "")
    together = _together(alike, few)
    # Lines to paste stand each on its own: what is in them was made safe word by word.
    message = "\n".join(map(shown, together.split("\n"))) if together else shown(message)
    if len(alike) > 1 and "\n" not in message:
        lines = ", ".join([*(str(one.line) for one in alike[:MOST_ALIKE]), *"…"[: len(alike) > MOST_ALIKE]])
        message = text("cli.problem.rows", many=len(alike), message=message, lines=lines)
    section = guide(first)
    if section:
        first_line, *paste = message.split("\n")
        message = "\n".join([text("cli.problem.guide", message=first_line, section=section), *paste])
    return _marked(f"{shown(folder)}/{shown(first.place)}", first.level, message)


#: How a word in front of a line is coloured.
_COLOURS = {"error": "red", "odd": "yellow", "unsure": "red"}


def _marked(place: str, level: str, message: str) -> str:
    """Place, level and message of a line, the first two marked on a terminal."""
    return text(
        "cli.problem.line",
        place=click.style(place, bold=True),
        level=click.style(text(f"cli.level.{level}"), fg=_COLOURS[level]),
        message=message,
    )


def total(ledgers: Iterable[Iterable[FileLedger]]) -> str:
    """What became of every row of every file, in one line."""
    entries = [entry for ledger in ledgers for entry in ledger]
    return text(
        "cli.ledger.total",
        files=len(entries),
        rows=sum(entry.rows_read for entry in entries),
        used=sum(entry.rows_used for entry in entries),
        aside=sum(entry.rows_set_aside for entry in entries),
        odd=odd(entries),
    )


def odd(ledger: Iterable[FileLedger]) -> int:
    """How much is odd but used."""
    return sum(problem.level == "odd" for entry in ledger for problem in entry.problems)


def unsure_lines(folder: str, found: Iterable[Unsure]) -> list[str]:
    """What is not sure enough for a proposal: first of all lines."""
    told = ((doubts.said(one), doubts.let(one)) for one in found)
    return [_marked(shown(folder), "unsure", shown(plain(together(filter(None, both))))) for both in told]


def idle_lines(folder: str, places: Iterable[str]) -> list[str]:
    """Places that lifter.toml confirms where nothing waits."""
    where = f"{shown(folder)}/lifter.toml"
    return [_marked(where, "odd", text("cli.problem.idle", place=shown(place))) for place in places]


def taken_lines(folder: str, notes: Iterable[Note]) -> list[str]:
    """What was read in the prose of each screening note."""
    lines = []
    for note in notes:
        for one in note.taken:
            what = one.grade if one.reading is None else f"{one.reading:g} {one.unit}"
            found = " ".join(filter(None, (one.item, one.side, what)))
            key = "cli.problem.taken" if one.load_kg is None else "cli.problem.taken_loaded"
            place = f"{shown(folder)}/{shown(note.file)}:{one.line}"
            lines.append(text(key, place=place, found=found, load=f"{one.load_kg or 0:g}"))
    return lines


def ledger_table(ledger: Iterable[FileLedger]) -> list[str]:
    """The ledger as aligned text: a line a file with rows read, used and set aside."""
    rows = [listed("cli.ledger.head")]
    rows += [(shown(e.file), str(e.rows_read), str(e.rows_used), str(e.rows_set_aside)) for e in ledger]
    widths = [max(len(row[i]) for row in rows) for i in range(4)]
    return [
        "  " + row[0].ljust(widths[0]) + "".join("  " + row[i].rjust(widths[i]) for i in (1, 2, 3))
        for row in rows
    ]


def layouts(ledger: Iterable[FileLedger]) -> list[str]:
    """How each table was read: its layout, and what headings and marks were taken for."""
    return [f"  {shown(line)}" for entry in ledger for line in said(entry.layout).splitlines()]


def head(folder: str, ledger: Iterable[FileLedger]) -> str:
    """Whose lines follow, with how many rows are set aside since they may hold a miss."""
    name, count = click.style(shown(folder), bold=True), sum(entry.unclear_misses for entry in ledger)
    return text("cli.ledger.misses", folder=name, rows=count) if count else name


@contextmanager
def writing() -> Iterator[None]:
    """Turn a theme or a disk that fails into one clear line and exit code 2."""
    try:
        yield
    except (pages.WriteProblem, pages.ThemeProblem) as problem:
        raise Failure(str(problem)) from problem


@contextmanager
def progress(total: int, doing: str = "writing") -> Iterator[Callable[[str], None]]:
    """A bar on standard error, on a terminal only: a step a lifter, for one alone a step a stage.

    Args:
        total: Lifters; 0 shows none.
        doing: The stage that the bar names, as in `STAGES`.
    """
    if not sys.stderr.isatty() or not total:
        yield lambda _: None
        return
    length = total if total > 1 else len(STAGES) + 1
    with click.progressbar(
        length=length,
        label=text(f"cli.stage.{doing}"),
        file=sys.stderr,
        show_pos=total > 1,
        item_show_func=lambda name: name or "",
    ) as bar:
        if total > 1:
            yield lambda name: bar.update(1, name)
            return
        _watching.append(lambda name: bar.update(1, text(f"cli.stage.{name}")))
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
