"""A squad's folder: which of its folders are lifters, and what squad.toml says."""

from pathlib import Path

from reportgen.intake.messages import Said, Want
from reportgen.intake.read import content, refused
from reportgen.intake.sources import has_tables, has_training
from reportgen.model.lifter import Squad
from reportgen.model.problems import Problem

FILE = "squad.toml"
_WANTS = {"coach": Want.ADDRESS, "theme": Want.ADDRESS, "unit": Want.UNIT}


def find_lifters(path: Path) -> tuple[Path, ...]:
    """The lifters' folders of a folder.

    Args:
        path: A lifter's folder or a squad's.

    Returns:
        The folder itself if it holds a training log (or looks like a lifter's and no lifter lies in it);
        else its subfolders that hold any table, by name. One of those without a training log is a lifter
        that cannot be read, and `read_folder` says so. A link that leads out of the folder is left out;
        `read_squad` reports it.
    """
    if not path.is_dir():
        return ()
    if has_training(path):
        return (path,)
    inner = tuple(one for one in _folders(path) if _is_inside(one, path) and has_tables(one))
    # A lifter's workbook may have any name; one that lies in a squad's folder makes no lifter of it.
    lifter, tables = (path / "lifter.toml").exists(), has_tables(path)
    if (lifter and tables) or (not inner and (lifter or tables)):
        return (path,)
    return inner


def read_squad(path: Path) -> tuple[Squad, tuple[Problem, ...]]:
    """What squad.toml says; the file is optional.

    Args:
        path: The squad's folder.

    Returns:
        The squad, with defaults where a key is missing or wrong, and the problems: wrong and unknown keys,
        and folders that are links out of the squad's.
    """
    problems = [
        refused(one.name, Said.OUTSIDE)
        for one in (_folders(path) if path.is_dir() else ())
        if not _is_inside(one, path)
    ]
    if not (path / FILE).exists() and not (path / FILE).is_symlink():
        return Squad(), tuple(problems)
    raw = content(path, FILE)
    if isinstance(raw, Problem):
        return Squad(), (raw, *problems)
    from reportgen.intake.entries import SquadEntry
    from reportgen.intake.toml import toml

    file = toml(FILE, raw)
    if file.data is None:
        return Squad(), (*file.problems, *problems)
    file.unknown(file.data, tuple(_WANTS), (), FILE)
    entry, bad = file.shaped(SquadEntry, file.data, (), _WANTS)
    if entry is None:
        entry = SquadEntry.model_validate({key: value for key, value in file.data.items() if key not in bad})
    squad = Squad(coach=entry.coach, theme=entry.theme, unit=entry.unit)
    return squad, (*sorted(file.problems), *problems)


def _folders(path: Path) -> tuple[Path, ...]:
    inner = (one for one in path.iterdir() if one.is_dir() and not one.name.startswith("."))
    return tuple(sorted(inner, key=lambda one: (one.name.casefold(), one.name)))


def _is_inside(one: Path, path: Path) -> bool:
    return one.resolve().is_relative_to(path.resolve())
