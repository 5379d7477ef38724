"""`reportgen start`: lay out a lifter's folder, blank or from the files of a log, or the demo squad."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from reportgen.cli import terminal
from reportgen.model.letters import shown

if TYPE_CHECKING:
    import pandas as pd

    from reportgen.cli.blanks import Given
    from reportgen.intake.begin import Seen

#: So many days of a log are printed as they were understood.
_DAYS = 3


@click.command()
@click.argument("folders", type=click.Path(path_type=Path), nargs=-1, required=True, metavar="FOLDER...")
@click.option(
    "--from",
    "files",
    type=click.Path(path_type=Path),
    multiple=True,
    metavar="FILE...",
    help="Files of a log to begin from: workbooks, CSV or text. They are copied, never changed.",
)
@click.option("--name", default="", help="The lifter's name, as pages have it.")
@click.option("--standards", type=click.Choice(["women", "men"]), help="Which tables apply.")
@click.option(
    "--goal", default="", metavar='"LIFT KG"', help='The goal, such as "snatch 64" or "snatch 141 lb".'
)
@click.option("--demo", is_flag=True, help="Lay out the demo squad of three invented lifters instead.")
def command(
    folders: tuple[Path, ...],
    files: tuple[Path, ...],
    name: str,
    standards: str | None,
    goal: str,
    demo: bool,
) -> None:
    """Lay out FOLDER for one lifter, or several: a commented lifter.toml, and files with only their headings.

    With --from the files of a log are copied into FOLDER, and what they were taken for is shown. What is
    already there is never touched.
    """
    from reportgen.cli import blanks

    given = blanks.Given(name=name, standards=standards or "", goal=goal)
    if name and len(folders) > 1 and not files:
        raise terminal.usage("--name is one lifter's; given are several folders")
    if files:
        _begin(folders, files, given)
        return
    for folder in folders:
        written, kept = blanks.lay_demo(folder) if demo else blanks.lay_lifter(folder, given)
        _told(written, kept)
        if demo:
            click.echo(f"\nNext: reportgen write {quoted(folder)}")
        else:
            click.echo(
                f"\nNext: fill in {quoted(folder / 'lifter.toml')} and {quoted(folder / 'training.csv')}, "
                f"delete the files you don't need, then: reportgen check {quoted(folder)}"
            )


def quoted(path: Path) -> str:
    """A path as a shell on any system takes it: in double quotes where it holds a blank."""
    return f'"{shown(path)}"' if any(c.isspace() for c in str(path)) else shown(path)


def _told(written: list[Path], kept: list[Path]) -> None:
    for path in written:
        click.echo(f"{shown(path)}: written")
    for path in kept:
        click.echo(f"{shown(path)}: was there, kept as it is")


def _begin(folders: tuple[Path, ...], files: tuple[Path, ...], given: Given) -> None:
    """Copy the files where they belong, look at them, and write what they look like into lifter.toml."""
    from reportgen import intake
    from reportgen.cli import blanks

    # After --from come the files, and a shell's star gives several: only the first of them is the option's.
    more = [path for path in folders if path.is_file()]
    left = [path for path in folders if not path.is_file()]
    if len(left) != 1:
        several = " and ".join(quoted(path) for path in left) or "none"
        raise terminal.usage(f"--from needs one folder to lay out, given: {several}")
    folder = left[0]
    copies: dict[str, bytes] = {}
    for file in (*files, *more):
        if file.is_dir():
            raise terminal.usage(
                f"{quoted(file)} is a folder; name its files, one --from each or with a star"
            )
        if not file.is_file():
            raise terminal.usage(f"there is no file {quoted(file)}")
        place = intake.place_of(file)
        if place is None:
            raise terminal.usage(
                f"{quoted(file)} can't be read; expected .csv, .xlsx, .xlsm, .xls, .ods, .txt or .md"
            )
        if place in copies:
            raise terminal.usage(f"two files are called {quoted(Path(file.name))}; rename one of them")
        copies[place] = file.read_bytes()
    for place, content in copies.items():
        there = folder / place
        if there.exists() and (not there.is_file() or there.read_bytes() != content):
            raise terminal.Failure(f"{shown(there)}: is there already and differs; nothing was written")
    written, kept = blanks.lay(folder, copies)
    seen = intake.look(folder)
    more_written, more_kept = blanks.lay(folder, {"lifter.toml": blanks.lifter_file(seen, given).encode()})
    _told(written + more_written, kept + more_kept)
    for line in _understood(folder, seen):
        click.echo(line)
    fill = f"fill in {given.lacking} in {quoted(folder / 'lifter.toml')}, then: " if given.lacking else ""
    click.echo(f"\nNext: {fill}reportgen check {quoted(folder)}")


def _understood(folder: Path, seen: Seen) -> list[str]:
    """What the files were taken for, the first days, and what could not be used."""
    lines = ["", "How the files were understood:"]
    for file, layout, told in seen.looks:
        lines.append(f"  {shown(file)}: {shown(terminal.spoken(layout))}")
        lines += [f"    {shown(terminal.spoken(one))}" for one in told]
    if len(seen.sets):
        lines += ["", "The first days as understood:", *_days(seen.sets)]
    if seen.problems:
        lines.append("")
        lines += terminal.problem_lines(folder.resolve().name, seen.problems, terminal.MOST_PROBLEMS)
    return lines


def _days(sets: pd.DataFrame) -> list[str]:
    lines = []
    for day in sorted(sets["date"].unique())[:_DAYS]:
        lines.append(f"  {day:%Y-%m-%d}")
        rows = sets.loc[sets["date"] == day]
        whole = (rows["part"] == 0).cumsum()
        for _, parts in rows.groupby(whole, sort=False):
            first = parts.iloc[0]
            lift = " + ".join(parts["lift"])
            reps = "+".join(str(one) for one in parts["reps"])
            made = (
                ""
                if (parts["made"] == parts["reps"]).all()
                else f", {'+'.join(map(str, parts['made']))} made"
            )
            lines.append(f"    {lift}: {first['load_kg']:g} kg, {first['sets']} × {reps}{made}")
    return lines
