"""One lifter's folder -> records, with every problem of every file."""

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal

import pandas as pd

from reportgen.intake import kinds
from reportgen.intake.bounds import MOST_NOTE_BYTES
from reportgen.intake.gather import Folder, Part, gather, ledger
from reportgen.intake.lifter import lifter
from reportgen.intake.meets import one_event, one_weigh_in
from reportgen.intake.notes import aside, from_prose, note
from reportgen.intake.odd import (
    ReviewDay,
    mark_comments,
    mark_days,
    mark_findings,
    mark_first,
    mark_light,
    mark_no_misses,
    mark_same,
    review_day,
)
from reportgen.intake.read import inside, near_name, refused, workbook_beside
from reportgen.intake.sources import TEXTS
from reportgen.intake.tables import KEPT, Manner, Reading
from reportgen.intake.twice import once
from reportgen.model.letters import shown
from reportgen.model.lifter import LIFTER_TOML, Lifter, Unit
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.records import Note, Records
from reportgen.model.tables import SCREENING, SETS_UNREAD, empty, typed
from reportgen.model.values import dataclass

#: Files whose rows set the review day, and files whose days are looked at.
_SET_THE_DAY = ("training", "attempts", "bodymass", "screening", "technique", "mobility")
_HAVE_DAYS = (*_SET_THE_DAY, "pain", "decisions")
#: From so many rows on a table is joined column by column: that takes longer, and half the room.
_LONG_ROWS = 100_000
_TABLES = ("bodymass", "screening", "technique", "mobility", "pain", "away", "decisions", "plan")


@dataclass(frozen=True, slots=True, kw_only=True)
class Intake:
    """What was read of one lifter's folder."""

    records: Records | None  # the lifter; None if and only if `fatal` holds something
    ledger: tuple[FileLedger, ...]  # one entry a file that is there
    fatal: tuple[Problem, ...]  # why there can be no dossier

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


def read_folder(path: Path, *, as_of: dt.date | None = None, default_unit: Unit = "kg") -> Intake:
    """The records of one lifter's folder, the ledger, and why there are no records where there are none.

    The newest day of a used row is the review day where `as_of` is None. Nothing in a file raises; an OSError
    means a broken disk.
    """
    folder = Folder(path)
    who = _lifter(folder, default_unit)
    if who is None:
        # Without it neither own headings nor own words are known: reading on would blame the wrong things.
        return Intake(records=None, ledger=tuple(folder.entries), fatal=tuple(folder.fatal))
    manner = Manner.of(who)
    parts = gather(folder, who, manner)
    readings = _readings(parts)
    review = review_day(one for name in _SET_THE_DAY for one in readings.get(name, ()))
    day = as_of or review.day
    mark_light(readings.get("training", ()), manner.bar_kg)
    _mark(readings, day, review if as_of is None else ReviewDay(day=None))
    notes, note_entries, lost = _notes(folder, manner)
    every = (*folder.entries, *ledger(parts), *note_entries, *folder.strangers)
    _training(folder, readings)
    if folder.fatal or day is None:
        return Intake(records=None, ledger=every, fatal=tuple(folder.fatal))
    unread = {f"{name}_unread": one for name in KEPT if (one := _unread(readings, name)) is not None}
    beside = [one for name in readings if name not in KEPT if (one := _unread(readings, name)) is not None]
    if beside or lost:
        words = typed({name: [one[name] for one in lost] for name in SETS_UNREAD}, SETS_UNREAD)
        unread["sets_unread"] = pd.concat([*beside, words], ignore_index=True)
    del parts  # with the readings below they are used up: a long log is not held twice
    tables = {name: _table(readings, name) for name in _TABLES if name in readings}
    tables["screening"] = from_prose(notes, tables.get("screening", empty(SCREENING)))
    records = Records(
        folder=shown(path.resolve().name),
        lifter=who,
        as_of=day,
        sets=_table(readings, "training", "attempts"),
        notes=notes,
        ledger=every,
        sources=tuple(folder.sources),
        asked=as_of is not None,
        **tables,
        **unread,
    )
    return Intake(records=records, ledger=every, fatal=())


def _lifter(folder: Folder, default_unit: Unit) -> Lifter | None:
    """The lifter, or a stand-in to read the other files with; None where there is not even that."""
    raw = folder.bytes_of(LIFTER_TOML)
    if raw is None:
        raw = _absent(folder.root, LIFTER_TOML)
        folder.fatal.append(raw)
        return None
    if isinstance(raw, Problem):
        folder.fatal.append(raw)
        folder.entries.append(FileLedger.of_whole(LIFTER_TOML, (raw,)))
        return None
    who, file = lifter(raw, shown(folder.root.resolve().name), default_unit)
    folder.entries.append(FileLedger.of_whole(LIFTER_TOML, file.problems, used=not file.stops))
    folder.fatal += sorted(file.stops)
    return who


def _readings(parts: Sequence[Part]) -> dict[str, list[Reading]]:
    """The readings by the name of their kind, what stands twice once."""
    found: dict[str, list[Reading]] = {}
    for part in parts:
        found.setdefault(part.kind.name, []).append(part.reading)
    counted = {name: once(readings) for name, readings in found.items()}
    if "attempts" in counted:
        counted["attempts"] = [one_event(reading) for reading in counted["attempts"]]
    if "bodymass" in counted:
        counted["bodymass"] = one_weigh_in(counted["bodymass"])
    return counted


def _mark(readings: Mapping[str, list[Reading]], day: dt.date | None, review: ReviewDay) -> None:
    """Report what is odd; days are looked at where there is a review day."""
    mark_first(readings.get("training", ()))
    logs = [*readings.get("training", ()), *readings.get("attempts", ())]
    mark_no_misses(logs)
    mark_comments(logs)
    for reading in readings.get("decisions", ()):
        mark_findings(reading)
    for name, some in readings.items():
        for reading in some:
            mark_same(reading)
            if day is not None and name in _HAVE_DAYS:
                mark_days(reading, day, review)


def _table(readings: dict[str, list[Reading]], *names: str) -> pd.DataFrame:
    """All rows of some kinds in one table; the readings are used up, a column after the other."""
    tables = [reading.table for name in names for reading in readings.pop(name, ())]
    filled = [table for table in tables if len(table)] or tables[:1]
    if len(filled) == 1:
        return filled[0]
    if sum(map(len, filled)) < _LONG_ROWS:
        return pd.concat(filled, ignore_index=True)
    made = {
        name: pd.concat([table.pop(name) for table in filled], ignore_index=True)
        for name in tuple(filled[0].columns)
    }
    return pd.DataFrame(made, copy=False)


def _unread(readings: Mapping[str, list[Reading]], name: str) -> pd.DataFrame | None:
    """What could be read of the rows of one kind that were set aside; None where there is none."""
    tables = [one.unread for one in readings.get(name, ()) if one.unread is not None and len(one.unread)]
    return pd.concat(tables, ignore_index=True) if tables else None


def _training(folder: Folder, readings: Mapping[str, list[Reading]]) -> None:
    """Without a used row of training there is no dossier."""
    every = [reading.sheet for reading in readings.get("training", ())]
    if not every:
        folder.fatal.append(_absent(folder.root, kinds.TRAINING.file))
        return
    if any(not one.whole and not one.aside.all() for one in every):
        return
    stops = [problem for one in every for problem in one.stops]
    if stops:
        folder.fatal += stops
    else:
        some = next((one for one in every if len(one) or one.extra), None)
        book = workbook_beside(folder.root) if some is None else None
        if book:
            folder.fatal.append(refused(every[0].file, "in_workbook", found=book))
            return
        diary = every[0].file.casefold().endswith(TEXTS)
        said = "none_used" if some else "no_diary" if diary else "no_rows"
        folder.fatal.append(refused((some or every[0]).file, said))


def _absent(root: Path, file: str) -> Problem:
    """A file that is needed and not there, with the one that may be meant for it."""
    if inside(root) is None:
        return refused(shown(root.resolve().name), "shut")
    near = near_name(root, file)
    return refused(file, "no_file_near", found=near) if near else refused(file, "no_file")


def _notes(
    folder: Folder, manner: Manner
) -> tuple[tuple[Note, ...], tuple[FileLedger, ...], list[dict[str, object]]]:
    """Every text of notes/, by name; and as rows of `SETS_UNREAD` those that were set aside."""
    inner = folder.root / "notes"
    paths = inside(inner) if inner.is_dir() else []
    if paths is None:
        return (), (FileLedger.of_whole("notes", (refused("notes", "shut"),)),), []
    named = [
        (f"notes/{shown(path.name)}", path.name)
        for path in paths
        if path.suffix.casefold() in TEXTS and not path.name.startswith(".")
    ]
    notes: list[Note] = []
    entries: list[FileLedger] = []
    lost: list[dict[str, object]] = []
    for file, name in (*named, *((shown(name), name) for name in folder.notes)):
        raw = folder.bytes_of(file) if name == shown(name) else refused(file, "shut")
        if isinstance(raw, bytes) and len(raw) > MOST_NOTE_BYTES:
            raw = refused(file, "long_note")
        if isinstance(raw, bytes) and (file in folder.notes and not file.casefold().endswith(".md")):
            folder.drop(file)  # it may be a log as well, and is told as a file that nobody reads
            lost.append(aside(file, raw, manner))
        elif isinstance(raw, bytes):
            one, entry = note(file, raw, manner)
            entries.append(entry)
            notes += [one] if one else []
            lost += [] if one else [aside(file, raw, manner)]
        elif raw is not None:
            entries.append(FileLedger.of_whole(file, (raw,)))
    return tuple(notes), tuple(entries), lost
