"""Lays out small folders for the tests of this part."""

from pathlib import Path
from typing import Any

from reportgen.analysis.dossier import build
from reportgen.intake import Intake, read_folder
from reportgen.model.facts import Facts
from reportgen.model.problems import FileLedger
from reportgen.trade import load
from reportgen.words import said

TOML = 'name = "Runa Velde"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
HEAD = "date,lift,kg,reps\n"


def lay(folder: Path, training: str, toml: str = TOML, **files: str) -> Path:
    """One lifter's folder; further files by their name without .csv."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lifter.toml").write_text(toml, encoding="utf-8")
    (folder / "training.csv").write_text(training, encoding="utf-8")
    for name, text in files.items():
        (folder / f"{name}.csv").write_text(text, encoding="utf-8")
    return folder


def read(folder: Path, training: str, toml: str = TOML, **files: str) -> Intake:
    """What intake makes of such a folder."""
    return read_folder(lay(folder, training, toml, **files))


def ledger(intake: Intake, file: str = "training.csv") -> FileLedger:
    """One file's entry, whose rows add up."""
    entry = next(one for one in intake.ledger if one.file == file)
    assert entry.rows_read == entry.rows_used + entry.rows_set_aside
    return entry


def facts(intake: Intake) -> Facts:
    """The facts of a folder that could be read."""
    assert intake.records is not None, intake.fatal
    return build(intake.records, load()).facts


def messages(intake: Intake, file: str = "training.csv") -> list[str]:
    """Line and message of every problem of one file."""
    return [f"{one.line}: {said(one.message)}" for one in ledger(intake, file).problems]


def weeks(found: Facts) -> dict[str, Any]:
    """The weeks of exposure by their ISO name."""
    assert found.exposure is not None
    return {week.week: week for week in found.exposure.weeks}
