"""One lifter's folder -> records, with every problem of every file."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Literal

import pandas as pd

from reportgen.intake import kinds
from reportgen.intake.attempts import attempts
from reportgen.intake.bounds import MOST_NOTE_BYTES
from reportgen.intake.columns import sheet
from reportgen.intake.kinds import KINDS, Kind
from reportgen.intake.messages import Said, close, sentence
from reportgen.intake.notes import note
from reportgen.intake.odd import mark_days, mark_findings, mark_first, mark_jumps, mark_same, review_day
from reportgen.intake.read import content, near_name, refused, workbook_beside
from reportgen.intake.sets import sets
from reportgen.intake.sheet import Sheet, blank
from reportgen.intake.tables import Manner, Reading, nothing, understand
from reportgen.model.letters import shown
from reportgen.model.lifter import Lifter, Unit
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Note, Records, Source

_LIFTER = "lifter.toml"
#: Files whose rows set the review day, and files whose days are looked at.
_SET_THE_DAY = ("training", "attempts", "bodymass", "screening", "technique", "mobility")
_HAVE_DAYS = (*_SET_THE_DAY, "pain", "decisions")
_TABLES = ("bodymass", "screening", "technique", "mobility", "pain", "away", "decisions", "plan")


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """What was read of one lifter's folder.

    Attributes:
        records: The lifter; None if and only if `fatal` holds something.
        ledger: One entry a file that is there.
        fatal: Why there can be no dossier.
    """

    records: Records | None
    ledger: tuple[FileLedger, ...]
    fatal: tuple[Problem, ...]

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem once: of files, then of files that are not there."""
        found = [problem for entry in self.ledger for problem in entry.problems]
        return tuple(dict.fromkeys((*found, *self.fatal)))


def exit_code(intake: Intake) -> Literal[0, 1, 2]:
    """0 all used; 1 something set aside; 2 no dossier."""
    if intake.fatal:
        return 2
    aside = any(entry.rows_set_aside for entry in intake.ledger)
    return 1 if aside or any(problem.level == "error" for problem in intake.problems) else 0


@dataclass(slots=True)
class _Folder:
    """A folder being read."""

    root: Path
    sources: list[Source] = field(default_factory=list)
    entries: list[FileLedger] = field(default_factory=list)
    fatal: list[Problem] = field(default_factory=list)

    def bytes_of(self, file: str) -> bytes | Problem | None:
        """The bytes of a file, kept as a source; None where there is no such file."""
        path = self.root / file
        if not path.exists() and not path.is_symlink():
            return None
        raw = content(self.root, file)
        if isinstance(raw, bytes):
            self.sources.append(Source(file=file, content=raw))
        return raw


def read_folder(path: Path, *, as_of: dt.date | None = None, default_unit: Unit = "kg") -> Intake:
    """Read one lifter's folder.

    Args:
        path: The folder.
        as_of: The review day; without it the newest day of a used row sets it.
        default_unit: The squad's unit, for a lifter.toml that names none.

    Returns:
        The records, the ledger, and why there are no records where there are none. Nothing in a file
        raises; an OSError means a broken disk.
    """
    folder = _Folder(path)
    who = _lifter(folder, default_unit)
    if who is None:
        # Without it neither own headings nor own words are known: reading on would blame the wrong things.
        return Intake(records=None, ledger=tuple(folder.entries), fatal=tuple(folder.fatal))
    manner = Manner(unit=who.unit, date_format=who.date_format, lift_names=who.lift_names)
    readings = _readings(folder, who, manner)
    review = review_day(readings[name] for name in _SET_THE_DAY if name in readings)
    day = as_of or review.day
    mark_jumps([readings[name] for name in ("training", "attempts") if name in readings], who.bests)
    if "training" in readings:
        mark_first(readings["training"])
    if "decisions" in readings:
        mark_findings(readings["decisions"])
    for name, reading in readings.items():
        mark_same(reading)
        if day is not None and name in _HAVE_DAYS:
            mark_days(reading, day, review if as_of is None else None)
    ledger = [replace(reading.sheet.ledger(), kind=name) for name, reading in readings.items()]
    notes, note_entries = _notes(folder, manner)
    every = (*folder.entries, *ledger, *note_entries, *_strangers(folder))
    _training(folder, readings)
    if folder.fatal or day is None:
        return Intake(records=None, ledger=every, fatal=tuple(folder.fatal))
    records = Records(
        folder=shown(path.resolve().name),
        lifter=who,
        as_of=day,
        sets=_sets(readings),
        notes=notes,
        ledger=every,
        sources=tuple(folder.sources),
        asked=as_of is not None,
        **{name: readings[name].table for name in _TABLES if name in readings},
    )
    return Intake(records=records, ledger=every, fatal=())


def _lifter(folder: _Folder, default_unit: Unit) -> Lifter | None:
    """The lifter, or a stand-in to read the other files with; None where there is not even that."""
    raw = folder.bytes_of(_LIFTER)
    if raw is None:
        raw = _absent(folder.root, _LIFTER)
        folder.fatal.append(raw)
        return None
    if isinstance(raw, Problem):
        folder.fatal.append(raw)
        folder.entries.append(
            FileLedger(file=_LIFTER, rows_read=1, rows_used=0, rows_set_aside=1, problems=(raw,))
        )
        return None
    from reportgen.intake.lifter import lifter  # pydantic takes a tenth of a second to import

    who = lifter(raw, shown(folder.root.resolve().name), default_unit)
    folder.entries.append(who.ledger)
    folder.fatal += who.fatal
    return who.lifter


def _readings(folder: _Folder, who: Lifter, manner: Manner) -> dict[str, Reading]:
    """Every table file that is there, by its kind's name."""
    found: dict[str, Reading] = {}
    for kind in KINDS:
        raw = folder.bytes_of(kind.file)
        if raw is None:
            continue
        if isinstance(raw, Problem):
            found[kind.name] = nothing(blank(kind.file, raw), kind)
            continue
        one = sheet(raw, kind, who.columns.get(kind.name, {}))
        found[kind.name] = nothing(one, kind) if one.whole else _understood(one, kind, manner)
    return found


def _understood(one: Sheet, kind: Kind, manner: Manner) -> Reading:
    if kind in (kinds.TRAINING, kinds.PLAN):
        return sets(one, manner)
    return attempts(one, manner) if kind is kinds.ATTEMPTS else understand(one, kind, manner)


def _sets(readings: Mapping[str, Reading]) -> pd.DataFrame:
    """Training and attempts in one table."""
    parts = [readings[name].table for name in ("training", "attempts") if name in readings]
    return pd.concat(parts, ignore_index=True) if len(parts) > 1 else parts[0]


def _training(folder: _Folder, readings: Mapping[str, Reading]) -> None:
    """Without a used row of training.csv there is no dossier."""
    file = kinds.TRAINING.file
    if "training" not in readings:
        folder.fatal.append(_absent(folder.root, file))
        return
    one = readings["training"].sheet
    if one.whole:
        folder.fatal += one.stops
    elif not len(one) and not one.extra:
        book = workbook_beside(folder.root)
        folder.fatal.append(refused(file, Said.IN_WORKBOOK, book) if book else refused(file, Said.NO_ROWS))
    elif one.aside.all():
        folder.fatal.append(refused(file, Said.NONE_USED))


def _absent(root: Path, file: str) -> Problem:
    """A file that is needed and not there, with the one that may be meant for it."""
    near = near_name(root, file)
    return refused(file, Said.NO_FILE_NEAR, near) if near else refused(file, Said.NO_FILE)


def _notes(folder: _Folder, manner: Manner) -> tuple[tuple[Note, ...], tuple[FileLedger, ...]]:
    """Every notes/*.md, by name."""
    inner = folder.root / "notes"
    if not inner.is_dir():
        return (), ()
    notes: list[Note] = []
    entries: list[FileLedger] = []
    paths = _inside(inner)
    if paths is None:
        shut = (refused("notes", Said.SHUT),)
        return (), (FileLedger(file="notes", rows_read=1, rows_used=0, rows_set_aside=1, problems=shut),)
    for path in paths:
        if path.suffix.casefold() != ".md" or path.name.startswith("."):
            continue
        file = f"notes/{shown(path.name)}"
        raw = folder.bytes_of(file) if path.name == shown(path.name) else _unnamed(file)
        if isinstance(raw, bytes) and len(raw) > MOST_NOTE_BYTES:
            raw = refused(file, Said.LONG_NOTE)
        if isinstance(raw, bytes):
            one, entry = note(file, raw, manner)
            entries.append(entry)
            notes += [one] if one else []
        elif raw is not None:
            entries.append(FileLedger(file=file, rows_read=1, rows_used=0, rows_set_aside=1, problems=(raw,)))
    return tuple(notes), tuple(entries)


def _inside(folder: Path) -> list[Path] | None:
    """What lies in a folder, by name; None where it is closed."""
    try:
        return sorted(folder.iterdir(), key=lambda one: one.name)
    except OSError:
        return None


def _strangers(folder: _Folder) -> tuple[FileLedger, ...]:
    """Table files that nobody reads: a slip in a name would lose a whole file in silence."""
    known = [kind.file for kind in KINDS]
    entries: list[FileLedger] = []
    for path in _inside(folder.root) or ():
        bare = path.name.casefold().removesuffix(".txt").removesuffix(".csv")
        if path.name.casefold().endswith((".csv", ".csv.txt")) and path.name not in known:
            near = f"{bare}.csv" if f"{bare}.csv" in known else close(path.name.casefold(), known)
            problem = Problem(
                file=shown(path.name),
                line=1,
                level="odd",
                found=shown(path.name),
                expected=", ".join(known),
                message=sentence(Said.STRANGER, near=near, file=shown(path.name)),
            )
            entries.append(
                FileLedger(
                    file=shown(path.name),
                    rows_read=0,
                    rows_used=0,
                    rows_set_aside=0,
                    problems=(problem,),
                    kind=near.removesuffix(".csv") if near else "",
                )
            )
    return tuple(entries)


def _unnamed(file: str) -> Problem:
    return refused(file, Said.SHUT)
