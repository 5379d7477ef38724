"""A copy to share: what names a lifter or tells of their health is taken out before anything is computed.

Leaving it out of the records, not of the page, is what makes sure that no figure, sentence or facts file can
hold what was derived from it.
"""

import re
from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pandas as pd

from reportgen.model.facts import Facts
from reportgen.model.lifter import LIFTER_TOML
from reportgen.model.private import PARTS
from reportgen.model.problems import FileLedger, whole_file
from reportgen.model.proposal import MARK
from reportgen.model.records import Note, Records
from reportgen.model.say import NOTHING, say
from reportgen.model.tables import TABLES as COLUMNS
from reportgen.model.tables import empty
from reportgen.trade.places import places
from reportgen.trade.words import fold

NOBODY: Final = "A lifter"
FOLDER: Final = "lifter"
#: Words of `variant` and `aid` that tell nothing about a person; any other becomes "own words".
PLAIN: Final = frozenset({"", "pause", "no feet", "deficit", "tempo", "straps", "belt"})
#: Reasons of away.csv that tell of health.
HEALTH: Final = ("illness", "injury", "making weight")
OWN: Final = "own words"
#: Of a problem whose cell is not shared.
BLANK: Final = say("intake.left_out")
SIDES: Final = frozenset({"left", "right", "both", "upper", "lower", "inner", "outer", "front"})
#: The tables that a shared copy may tell of, each with the parts that have to stay for it. A file that is
#: none is left out: nobody read it, and its name may be the lifter's.
TABLES: Final[Mapping[str, frozenset[str]]] = {
    "training": frozenset(),
    "attempts": frozenset(),
    "bodymass": frozenset({"bodymass"}),
    "technique": frozenset(),
    "away": frozenset(),
    "plan": frozenset(),
    "screening": frozenset({"screening"}),
    "mobility": frozenset({"screening"}),
    "pain": frozenset({"pain"}),
    # A decision names a finding, and a finding may name a joint.
    "decisions": frozenset({"pain", "screening"}),
}

#: What has to stay for rows that could not be read: nobody knows what stands in them.
_UNREAD: Final = frozenset({"pain", "name"})


def rests_on_body_mass(records: Records) -> bool:
    """Whether a goal is set by body mass: it then stays, since the goal's weight tells it anyway."""
    return any(goal.times_body_mass is not None for goal in records.lifter.goals)


def strip(records: Records, keep: frozenset[str]) -> Records:
    """The records without what is not shared.

    Args:
        records: One lifter's records.
        keep: Those of `private.PARTS` that stay; body mass does where a goal rests on it.

    Returns:
        Records whose free text is gone with the name; tables that are not shared are empty.
    """
    lifter = records.lifter
    if rests_on_body_mass(records):
        keep |= {"bodymass"}
    named = "name" in keep
    away, unfit = records.away, records.away["reason"].isin(HEALTH)
    gone: dict[str, Any] = {
        name: empty(columns) for name, columns in COLUMNS.items() if not TABLES.get(name, _UNREAD) <= keep
    }
    changed = replace(
        records,
        folder=records.folder if named else FOLDER,
        lifter=replace(
            lifter,
            name=lifter.name if named else NOBODY,
            born=lifter.born if "born" in keep else None,
            born_kept_back="born" not in keep,
            born_found=lifter.born_found if {"born", "name"} <= keep else "",
            lift_names=lifter.lift_names if named else {},
            columns=lifter.columns if named else {},
        ),
        away=away if "pain" in keep else away.assign(reason=away["reason"].where(~unfit, "away")),
        notes=_notes(records.notes, keep) if "notes" in keep else (),
        ledger=_ledger(records, keep),
        sources=(),
        **gone,
    )
    if named:
        return changed
    notes = _numbered(records.ledger)
    return _renamed(_without_words(changed, notes), {**notes, **_plain_names(records)})


def _notes(notes: tuple[Note, ...], keep: frozenset[str]) -> tuple[Note, ...]:
    """The notes as they stand; what was taken from them is a reading of the screening."""
    return notes if "screening" in keep else tuple(replace(note, taken=(), unread=()) for note in notes)


def _ledger(records: Records, keep: frozenset[str]) -> tuple[FileLedger, ...]:
    """The counts of the files that are shared; where nobody is named they go by their tables and numbers."""
    ledger, read = records.ledger, {source.file for source in records.sources}
    renamed = {} if "name" in keep else {**_numbered(ledger), **_plain_names(records)}
    return tuple(
        replace(_counted(entry, keep), file=renamed.get(entry.file, entry.file))
        for entry in ledger
        if _shown(entry, keep, read)
    )


def _shown(entry: FileLedger, keep: frozenset[str], read: Collection[str]) -> bool:
    if _is_note(entry.file):
        return "notes" in keep
    if entry.file == LIFTER_TOML or entry.kind == "":
        return entry.file == LIFTER_TOML
    plain = entry.file == f"{entry.kind}.csv"
    return TABLES[entry.kind] <= keep and (plain or whole_file(entry.file) in read)


def _plain_names(records: Records) -> dict[str, str]:
    """Files and sheets by the names of their tables, numbered where one has several: theirs may say more."""
    tables = {
        "training": records.sets.loc[records.sets["kind"] == "training"],
        "attempts": records.sets.loc[records.sets["kind"] != "training"],
        **{name: getattr(records, name) for name in TABLES if name not in ("training", "attempts")},
    }
    found: dict[str, str] = {}
    for kind, table in tables.items():
        entries = [entry.file for entry in records.ledger if entry.kind == kind]
        sheets: dict[str, list[str]] = {}
        for file in dict.fromkeys((*entries, *table["file"].unique().tolist())):
            if not _is_note(file):
                sheets.setdefault(whole_file(file), []).append(file)
        for number, (file, some) in enumerate(sheets.items(), 1):
            name = f"{kind}.csv" if len(sheets) == 1 else f"{kind} {number}"
            inner = [one for one in some if one != file]
            found |= {file: name, **{one: f"{name}[{n}]" for n, one in enumerate(inner, 1)}}
            if len(inner) == 1:
                found[inner[0]] = name
    return found


def _renamed(records: Records, names: Mapping[str, str]) -> Records:
    """The tables with other names for their files."""
    tables = {}
    for name in ("sets", *(table for table in TABLES if table not in ("training", "attempts"))):
        table = getattr(records, name)
        files = table["file"].map(lambda file: names.get(file, file)).astype("str")
        tables[name] = table.assign(file=files) if len(table) else table
    return replace(records, **tables)


def _is_note(file: str) -> bool:
    return file.startswith("notes/")


def _numbered(ledger: tuple[FileLedger, ...]) -> dict[str, str]:
    """A number for the name of each note, those that could not be used too."""
    notes = [entry.file for entry in ledger if _is_note(entry.file)]
    return {file: f"notes/{number}.md" for number, file in enumerate(notes, 1)}


def _counted(entry: FileLedger, keep: frozenset[str]) -> FileLedger:
    """The counts of a file, without what stood in its cells.

    A cell of any file may hold what is left out: a year of birth, a word on a knee in the wrong column. With
    the name the places of the problems stay, without it the problems go.
    """
    if keep >= frozenset(PARTS):
        return entry
    if "name" not in keep:
        return replace(entry, problems=(), layout=NOTHING)
    blank = (replace(one, heading="", found="", message=BLANK) for one in entry.problems)
    return replace(entry, problems=tuple(blank), layout=NOTHING)


def _without_words(records: Records, renamed: Mapping[str, str]) -> Records:
    """The records without any cell that holds a person's own words; notes under their new names."""
    pain = records.pain
    notes = enumerate(records.notes, 1)
    return replace(
        records,
        sets=_plain_sets(records.sets),
        plan=_plain_plan(records.plan),
        screening=_blank(records.screening, "remark", "conditions"),
        technique=_blank(records.technique, "remark", "clip"),
        pain=_blank(pain.assign(place=pain["place"].map(_place).astype("str")), "remark"),
        away=_blank(records.away, "remark"),
        decisions=_blank(records.decisions, "why"),
        notes=tuple(replace(note, file=renamed.get(note.file, f"notes/{n}.md")) for n, note in notes),
    )


def _place(words: str) -> str:
    """A place that hurts in words of the catalogue; what else is said of it becomes "own words"."""
    known = SIDES.union(*(one.words for one in places().values()))
    said = [word for word in re.split(r"[^\w]+", fold(words)) if word]
    kept = [word for word in said if word in known]
    if len(kept) == len(said):
        return words
    return f"{' '.join(kept)} ({OWN})" if kept else OWN


def _plain_sets(sets: pd.DataFrame) -> pd.DataFrame:
    labels = sets.groupby("date")["session"].rank(method="dense").astype("int64").astype("str")
    own = {name: sets[name].where(sets[name].isin(PLAIN), OWN) for name in ("variant", "aid")}
    return _blank(sets.assign(session=labels, **own), "remark", "event")


def _plain_plan(plan: pd.DataFrame) -> pd.DataFrame:
    """The plan without words; that it is a proposal of ours stays known."""
    ours = plan["remark"].str.startswith(MARK)
    return _plain_sets(plan).assign(remark=np.where(ours, MARK, "")).astype({"remark": "str"})


def _blank(table: pd.DataFrame, *columns: str) -> pd.DataFrame:
    return table.assign(**{name: pd.Series("", index=table.index, dtype="str") for name in columns})


def safe(shared: Facts, whole: Facts) -> Facts:
    """The shared facts, without what leaving something out would make wrong.

    A block that knows nothing of a sore knee or of a lifter's age is no proposal to hand on, nor is a chance
    that knows nothing of it; and what was only left out is not "not tested".
    """
    truly = {one.id for one in whole.not_tested}
    return replace(
        shared,
        not_tested=tuple(one for one in shared.not_tested if one.id in truly),
        block=shared.block if shared.block == whole.block else None,
        arrival=shared.arrival if whole.arrival is not None else None,
    )
