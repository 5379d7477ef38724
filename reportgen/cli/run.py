"""What every command asks first: whose folder it is, what squad.toml says, what was read of one lifter."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from reportgen import intake
from reportgen.analysis import trust
from reportgen.analysis.dossier import build
from reportgen.cli import terminal
from reportgen.intake import Intake
from reportgen.intake.read import near_name, workbook_beside
from reportgen.model.dossier import Dossier
from reportgen.model.doubts import Unsure
from reportgen.model.letters import shown
from reportgen.model.lifter import Squad, Unit
from reportgen.model.problems import Problem
from reportgen.model.records import Records
from reportgen.trade import load
from reportgen.words import said, text


def lifters(folder: Path) -> tuple[Path, ...]:
    """The lifters' folders in a folder, which may be one itself; a usage error where there is none."""
    if not folder.is_dir():
        key = "cli.folder.file" if folder.exists() else "cli.folder.none"
        raise terminal.usage(text(key, folder=str(folder)))
    found = intake.find_lifters(folder)
    if not found:
        near, book = near_name(folder, "training.csv"), workbook_beside(folder)
        kind = "near" if near else "book" if book else "empty"
        meant = near or str(folder / (book or ""))
        raise terminal.usage(text(f"cli.folder.no_log.{kind}", folder=str(folder), found=meant))
    return found


def one_lifter(folder: Path) -> Path:
    """The folder of a lifter; a usage error where it is a squad's."""
    if is_squad(folder):
        raise terminal.usage(text("cli.folder.squad", folder=str(folder)))
    return folder


def others(folder: Path) -> list[tuple[str, str]]:
    """Each folder of a squad that is no lifter, with the reason."""
    return [
        (shown(name), text("cli.folder.no_lifter", why=shown(said(why))))
        for name, why in intake.others(folder)
    ]


def is_squad(folder: Path) -> bool:
    """Whether the folder is a squad: it is not itself a lifter."""
    return lifters(folder) != (folder,)


def squad(folder: Path) -> tuple[Squad, tuple[Problem, ...]]:
    """What squad.toml beside the lifters says; defaults for a single lifter."""
    return intake.read_squad(folder) if is_squad(folder) else (Squad(), ())


def told(folder: Path, *, err: bool = True) -> Squad:
    """What squad.toml says; its problems and its remark are told."""
    settings, odd = squad(folder)
    for line in (*map(terminal.told, odd), *([settings.remark] if settings.remark else [])):
        terminal.say(shown(line), err=err)
    return settings


def read(folder: Path, as_of: dt.date | None, unit: Unit = "kg") -> Intake:
    """Read one lifter's folder; `unit` is the squad's, for a lifter.toml that names none."""
    return intake.read_folder(folder, as_of=as_of, default_unit=unit)


def records(folder: Path, as_of: dt.date | None) -> Records | None:
    """What was read of the folder of one lifter, its problems told; None where there can be no dossier."""
    chosen = one_lifter(folder)
    found = read(chosen, as_of)
    terminal.tell(chosen.resolve().name, found.problems)
    return found.records


def dossier(records: Records) -> Dossier:
    """Every figure of one lifter, for a command that writes no page: nothing that draws is imported."""
    return build(records, load())


def together(codes: Sequence[int]) -> int:
    """The exit code of several lifters: 2 only where none could be read."""
    if all(code == 0 for code in codes):
        return 0
    return 2 if all(code == 2 for code in codes) else 1


def left(codes: Sequence[int], *, strict: bool) -> int:
    """How `write` and `facts` leave: 0 where all were worked on; `strict` makes 1 of a row set aside."""
    return together(codes if strict else [0 if code == 1 else code for code in codes])


def verdict(found: Intake) -> str:
    """One line that sums up what was read."""
    if found.records is None:
        rest = len(found.fatal) - 1
        why = said(found.fatal[0].message)
        return text("cli.read.failed_more" if rest else "cli.read.failed", why=why, rest=rest)
    odd = terminal.odd(found.ledger)
    return text(
        "cli.read.used_odd" if odd else "cli.read.used",
        used=sum(entry.rows_used for entry in found.ledger),
        aside=sum(entry.rows_set_aside for entry in found.ledger),
        odd=odd,
        day=found.records.as_of.isoformat(),
    )


def unsure(found: Intake) -> tuple[Unsure, ...]:
    """What is not sure enough for a proposal, without a figure computed for it."""
    return () if found.records is None else trust.unsure(found.records, load())


def unsure_lines(folder: str, found: Intake) -> list[str]:
    """The same as lines, with the places that lifter.toml confirms in vain."""
    if found.records is None:
        return []
    idle = trust.idle(found.records, load())
    return [*terminal.unsure_lines(folder, unsure(found)), *terminal.idle_lines(folder, idle)]
