"""A squad's folder: which of its folders are lifters, and what squad.toml says."""

from pathlib import Path

from msgspec.structs import asdict

from reportgen.intake.entries import SquadEntry
from reportgen.intake.kinds import TRAINING
from reportgen.intake.read import content, near_name, refused
from reportgen.intake.sources import has_tables, listed, sources
from reportgen.model.lifter import Squad
from reportgen.model.problems import Problem
from reportgen.model.say import Say, say

FILE = "squad.toml"
#: Files that a log may be kept in.
_TABLES = (".csv", ".xlsx", ".xlsm", ".xls", ".ods", ".txt", ".tsv")


def find_lifters(path: Path) -> tuple[Path, ...]:
    """The folder itself if it holds a training log (or looks like a lifter's and no lifter lies in it).

    Else its subfolders that hold any table, by name: one without a training log is a lifter that cannot be
    read, and `read_folder` says so. A link out of the folder is left out; `read_squad` reports it.
    """
    if not path.is_dir():
        return ()
    if sources(path).tables[TRAINING.name]:
        return (path,)
    inner = tuple(one for one in _folders(path) if _is_inside(one, path) and has_tables(one))
    # A lifter's workbook may have any name; one that lies in a squad's folder makes no lifter of it.
    lifter, tables = (path / "lifter.toml").exists(), has_tables(path)
    if (lifter and tables) or (not inner and (lifter or tables)):
        return (path,)
    return inner


def others(path: Path) -> tuple[tuple[str, Say], ...]:
    """The folders of a squad that are no lifter, each with the reason: nobody is left out in silence.

    Hidden folders and `notes` hold no lifter and are left out, and links out of the squad, which
    `read_squad` reports.
    """
    lifters = find_lifters(path)
    if not path.is_dir() or lifters == (path,):
        return ()
    return tuple(
        (one.name, _why_none(one))
        for one in _folders(path)
        if one not in lifters and one.name.casefold() != "notes" and _is_inside(one, path)
    )


def _why_none(folder: Path) -> Say:
    """Why a folder is no lifter's."""
    inside = [one for one in folder.iterdir() if not one.name.startswith(".")]
    if not inside:
        return say("intake.none.empty")
    if any(one.name.casefold() == "lifter.toml" for one in inside):
        near = near_name(folder, TRAINING.file)
        if near:
            return say("intake.none.no_training_near", file=TRAINING.file, near=near)
        return say("intake.none.no_training", file=TRAINING.file)
    tables = sorted(one.name for one in inside if one.suffix.casefold() in _TABLES)
    if tables:
        return say("intake.none.no_lifter", table=tables[0], file=TRAINING.file)
    deeper = sorted(one.name for one in inside if one.is_dir() and find_lifters(one))
    if deeper:
        return say("intake.none.deeper", folder=f"{folder.name}/{deeper[0]}")
    return say("intake.none.nothing")


def read_squad(path: Path) -> tuple[Squad, tuple[Problem, ...]]:
    """What squad.toml says, with defaults where a key or the file is missing or wrong, and the problems."""
    problems = [refused(one.name, "outside") for one in _folders(path) if not _is_inside(one, path)]
    if not (path / FILE).exists() and not (path / FILE).is_symlink():
        return Squad(), tuple(problems)
    raw = content(path, FILE)
    if isinstance(raw, Problem):
        return Squad(), (raw, *problems)
    from reportgen.intake.toml import toml

    file = toml(FILE, raw)
    if file.data is None:
        return Squad(), (*file.problems, *problems)
    file.unknown(file.data, SquadEntry.__struct_fields__, (), FILE)
    given, _ = file.fitting(SquadEntry, file.data, (), "squad")
    return Squad(**asdict(SquadEntry(**given))), (*sorted(file.problems), *problems)


def _folders(path: Path) -> tuple[Path, ...]:
    return tuple(one for one in listed(path) if one.is_dir())


def _is_inside(one: Path, path: Path) -> bool:
    return one.resolve().is_relative_to(path.resolve())
