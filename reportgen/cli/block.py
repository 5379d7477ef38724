"""`reportgen block`: the proposal as a plan.csv for a coach to edit."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click

from reportgen.cli import options

if TYPE_CHECKING:
    from reportgen.analysis.block.plates import Plates
    from reportgen.model.proposal import BlockFact


@click.command()
@options.folder
@click.option(
    "--to",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The file to write.  [default: plan.csv in the lifter's folder]",
)
@click.option(
    "--force",
    is_flag=True,
    help="Write over a file that is there; the earlier days of a plan of ours stay in it.",
)
@options.as_of
@click.pass_context
def command(ctx: click.Context, folder: Path, to: Path | None, force: bool, as_of: dt.date | None) -> None:
    """Propose the next block of one lifter and write it as a plan.csv, to be changed by a coach.

    It opens in any spreadsheet program, `reportgen check` understands it, and the next dossier compares what
    was done with it. A file that is there is only written over with --force.
    """
    from reportgen.analysis.block import plates
    from reportgen.cli import run, terminal
    from reportgen.trade import load
    from reportgen.words import as_json

    chosen = run.lifters(folder)
    if run.is_squad(folder):
        raise terminal.usage(f"'{folder}' is a squad; name one lifter's folder")
    path = to or folder / "plan.csv"
    if path.exists() and not force:
        raise terminal.Failure(f"{path}: is there already; --force writes over it, --to names another file")
    intake = run.read(chosen[0], as_of)
    for line in terminal.problem_lines(chosen[0].resolve().name, intake.problems, terminal.MOST_PROBLEMS):
        terminal.say(line)
    if intake.records is None:
        ctx.exit(2)
    block = run.dossier(intake.records).facts.block
    if block is None or not block.weeks:
        reason = as_json(block.reason) if block is not None else ""
        raise terminal.Failure(reason or "nothing is proposed")
    own = plates.of(intake.records.lifter, load())
    _write(block, path, own)
    for text in _told(block, own):
        click.echo(text)
    click.echo(f"\n{path}: written; a draft for a coach to change")


def _write(block: BlockFact, path: Path, own: Plates) -> None:
    """The file, whole or not at all."""
    import csv
    import io

    from reportgen import pages
    from reportgen.cli import terminal
    from reportgen.model.letters import as_cell
    from reportgen.view import plan

    text = io.StringIO(newline="")
    head, *rows = ([as_cell(cell) for cell in row] for row in plan.rows(block, own))
    csv.writer(text, lineterminator="\n").writerows([head, *_earlier(path, head, rows[0][0]), *rows])
    try:
        pages.write(path, text.getvalue())
    except pages.WriteProblem as problem:
        raise terminal.Failure(str(problem)) from problem


def _earlier(path: Path, head: list[str], first: str) -> list[list[str]]:
    """The rows of an earlier plan of ours that lie before the new one: planned and done go on comparing."""
    import csv

    try:
        with path.open(encoding="utf-8", newline="") as file:
            there, *rows = csv.reader(file)
    except (OSError, ValueError, csv.Error):
        return []
    return [row for row in rows if len(row) == len(head) and row[0] < first] if there == head else []


def _told(block: BlockFact, own: Plates) -> list[str]:
    """The weeks as aligned lines, then what to know."""
    from reportgen.words import as_json, plain, spoken, text

    lines = [as_json(block.reason)] if block.reason else []
    for week in block.weeks:
        share = f", {week.load_share:.0%} of the usual load" if week.load_share else ""
        lines.append(
            f"\n{week.week}, {text(f'block.week.{week.kind}')}, from {week.start.isoformat()}{share}"
        )
        for session in week.sessions:
            day = session.date.strftime("%a")
            for one in session.sets:
                load = (
                    f"{one.sets} x {one.reps} at {own.said(one.kg)}"
                    if one.kg is not None
                    else f"{one.sets} x {one.reps}"
                )
                what = f"{one.lift}, {one.variant}" if one.variant else one.lift
                lines.append(f"  {day:4}{what:44} {load:20} {plain(spoken(one.serves), own.unit)}")
                day = ""
    lines += ["", *(f"! {as_json(words)}" for words in block.cautions)]
    said = (*block.load_reasons, *block.raised, *block.notes, *block.left_out)
    return [*lines, *(plain(spoken(one), own.unit) for one in said)]
