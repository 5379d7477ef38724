"""`reportgen start`: lay out a lifter's folder, blank or from the files of a log, or the demo squad."""

from pathlib import Path

import click

from reportgen import intake
from reportgen.cli import blanks, terminal
from reportgen.intake.begin import Seen
from reportgen.model.letters import shown
from reportgen.words import numbers, said, text

#: So many days of a log are printed as they were understood.
_DAYS = 3


def run(
    folders: tuple[Path, ...],
    files: tuple[Path, ...],
    name: str,
    standards: str | None,
    goal: str,
    demo: bool,
) -> int:
    """Lay out folders and say what to do next; what is already there is never touched."""
    given = blanks.Given(name=name, standards=standards or "", goal=goal)
    if name and len(folders) > 1 and not files:
        raise terminal.usage(text("cli.start.several_names"))
    if files:
        _begin(folders, files, given)
        return 0
    for folder in folders:
        _told(*(blanks.lay_demo(folder) if demo else blanks.lay_lifter(folder, given)))
        key, toml, log = "demo" if demo else "blank", folder / "lifter.toml", folder / "training.csv"
        said = {"folder": quoted(folder), "toml": quoted(toml), "log": quoted(log)}
        click.echo("\n" + text(f"cli.start.next.{key}", **said))
    return 0


def quoted(path: Path) -> str:
    """A path as a shell on any system takes it: in double quotes where it holds a blank."""
    return f'"{shown(path)}"' if any(c.isspace() for c in str(path)) else shown(path)


def _told(written: list[Path], kept: list[Path]) -> None:
    for path in written:
        click.echo(text("cli.start.written", path=shown(path)))
    for path in kept:
        click.echo(text("cli.start.kept", path=shown(path)))


def _begin(folders: tuple[Path, ...], files: tuple[Path, ...], given: blanks.Given) -> None:
    """Copy the files where they belong, look at them, and write what they look like into lifter.toml."""
    # After --from come the files, and a shell's star gives several: only the first of them is the option's.
    more = [path for path in folders if path.is_file()]
    left = [path for path in folders if not path.is_file()]
    if len(left) != 1:
        key = "cli.start.folders" if left else "cli.start.no_folder"
        raise terminal.usage(text(key, folders=tuple(quoted(path) for path in left)))
    folder = left[0]
    copies: dict[str, bytes] = {}
    for file in (*files, *more):
        place = intake.place_of(file) if file.is_file() else None
        if place is None or place in copies:
            why = (
                "folder" if file.is_dir() else "none" if not file.is_file() else "twice" if place else "kind"
            )
            said = quoted(Path(file.name) if place else file)
            raise terminal.usage(text(f"cli.start.file.{why}", file=said))
        copies[place] = file.read_bytes()
    for place, content in copies.items():
        there = folder / place
        if there.exists() and (not there.is_file() or there.read_bytes() != content):
            raise terminal.Failure(text("cli.start.differs", path=shown(there)))
    written, kept = blanks.lay(folder, copies)
    seen = intake.look(folder)
    more_written, more_kept = blanks.lay(folder, {"lifter.toml": blanks.lifter_file(seen, given).encode()})
    _told(written + more_written, kept + more_kept)
    for line in _understood(folder, seen):
        click.echo(line)
    key, toml = "fill" if given.lacking else "check", quoted(folder / "lifter.toml")
    told = text(f"cli.start.next.{key}", toml=toml, folder=quoted(folder), lacking=given.lacking)
    click.echo("\n" + told)


def _understood(folder: Path, seen: Seen) -> list[str]:
    """What the files were taken for, the first days, and what could not be used."""
    lines = ["", text("cli.start.understood")] if seen.looks else []
    for file, layout, told in seen.looks:
        lines.append(f"  {shown(file)}: {shown(said(layout))}")
        lines += [f"    {shown(said(one))}" for one in told]
    if len(seen.sets):
        lines += ["", text("cli.start.first_days"), *_days(seen)]
    else:
        lines += ["", text("cli.start.nothing")]
    if seen.problems:
        lines.append("")
        lines += terminal.problem_lines(folder.resolve().name, seen.problems, terminal.MOST_PROBLEMS)
    return lines


def _days(seen: Seen) -> list[str]:
    """The first days, their loads in the unit of the log."""
    lines, sets = [], seen.sets
    unit_kg = numbers.KG_PER_LB if seen.unit == "lb" else 1
    for day in sorted(sets["date"].unique())[:_DAYS]:
        lines.append(f"  {day:%Y-%m-%d}")
        rows = sets.loc[sets["date"] == day]
        whole = (rows["part"] == 0).cumsum()
        for _, parts in rows.groupby(whole, sort=False):
            first = parts.iloc[0]
            lift = " + ".join(parts["lift"])
            reps = "+".join(str(one) for one in parts["reps"])
            made = "+".join(map(str, parts["made"]))
            key = "cli.start.set" if (parts["made"] == parts["reps"]).all() else "cli.start.set_missed"
            load, many = f"{round(first['load_kg'] / unit_kg, 2):g} {seen.unit}", str(first["sets"])
            lines.append("    " + text(key, lift=lift, load=load, sets=many, reps=reps, made=made))
    return lines
