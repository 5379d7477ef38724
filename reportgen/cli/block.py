"""`reportgen block`: the proposal as a plan.csv for a coach to edit."""

import csv
import datetime as dt
import io
from collections.abc import Iterator
from pathlib import Path

import click

from reportgen import pages
from reportgen.analysis.block import plates
from reportgen.analysis.block.plates import Plates
from reportgen.cli import clock, terminal
from reportgen.cli import run as asked
from reportgen.cli.options import Failure
from reportgen.cli.run import dossier
from reportgen.model.letters import as_cell
from reportgen.model.proposal import BlockFact, BlockSession
from reportgen.trade import load
from reportgen.view import plan
from reportgen.words import listed, said, text


def run(folder: Path, out: Path | None, force: bool, as_of: dt.date | None) -> int:
    """Write the next block of one lifter as a plan.csv; a file that is there only where `force` says so."""
    asked.one_lifter(folder)
    path = out or folder / "plan.csv"
    if path.exists() and not force:
        raise Failure(text("cli.block.taken", path=str(path)))
    records = asked.records(folder, as_of)
    if records is None:
        return 2
    facts = dossier(records).facts
    block, over = facts.block, clock.past(facts, as_of)
    if block is None or not block.weeks:
        raise Failure(said(block.reason) if block is not None and block.reason else text("cli.block.nothing"))
    if over and not force:
        raise Failure(text("cli.block.past", over=over))
    own = plates.of(records.lifter, load())
    _write(block, path, own, kept=path.resolve().parent == folder.resolve())
    for line in _told(block, own):
        click.echo(line)
    click.echo("\n" + text("cli.block.written", path=str(path)))
    return 0


def _write(block: BlockFact, path: Path, own: Plates, *, kept: bool) -> None:
    """The file, whole or not at all; `kept`: an earlier plan of the lifter's own folder stays before it."""
    file = io.StringIO(newline="")
    head, *rows = ([as_cell(cell) for cell in row] for row in plan.rows(block, own))
    csv.writer(file, lineterminator="\n").writerows(
        [head, *(_earlier(path, head, rows[0][0]) if kept else ()), *rows]
    )
    with terminal.writing():
        pages.write(path, file.getvalue())


def _earlier(path: Path, head: list[str], first: str) -> list[list[str]]:
    """The rows of an earlier plan of ours that lie before the new one: planned and done go on comparing."""
    try:
        with path.open(encoding="utf-8", newline="") as file:
            there, *rows = csv.reader(file)
    except (OSError, ValueError, csv.Error):
        return []
    return [row for row in rows if len(row) == len(head) and row[0] < first] if there == head else []


def _told(block: BlockFact, own: Plates) -> Iterator[str]:
    """The weeks as aligned lines, then what to know."""
    if block.reason:
        yield said(block.reason, own.unit)
    for week in block.weeks:
        key = f"cli.block.week{'' if week.load_share is None else '_share'}"
        kind = text(f"block.week.{week.kind}")
        last = week.start + dt.timedelta(days=6)
        yield "\n" + text(key, kind=kind, start=str(week.start), last=str(last), share=week.load_share or 0)
        for session in week.sessions:
            yield from _session(session, own)
    yield ""
    yield from (f"! {said(words, own.unit)}" for words in block.cautions)
    known = (*block.load_reasons, *block.raised, *block.notes, *block.left_out)
    yield from (said(one, own.unit) for one in known)


def _session(session: BlockSession, own: Plates) -> Iterator[str]:
    day = listed("numbers.weekdays")[session.date.weekday()]
    for one in session.sets:
        weight = text("cli.block.at", done=f"{one.sets} x {one.reps}", weight=own.said(one.kg))
        what = f"{one.lift}, {one.variant}" if one.variant else one.lift
        yield f"  {day:4}{what:44} {weight:20} {said(one.serves, own.unit)}"
        day = ""
