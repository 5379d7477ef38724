"""lifter.toml: who the dossier is about, the goals, and how this lifter writes.

An entry that is wrong is set aside and reported, the rest is used; the file as a whole cannot be used
without `standards` and a first goal, or with a `unit` or `date_format` that is wrong: nothing may be guessed
about those.
"""

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any, get_args

from msgspec.structs import asdict

from reportgen.intake.cells import likely
from reportgen.intake.entries import BandEntry, BestEntry, GoalEntry, Head, SourceEntry
from reportgen.intake.kinds import HEADED, KINDS
from reportgen.intake.messages import CELL, clipped, close, expect
from reportgen.intake.toml import Toml, toml
from reportgen.model.lifter import LIFTER_TOML, CoachBand, Goal, GoalLift, Lifter, Manners, PriorBest, Unit
from reportgen.model.say import say
from reportgen.trade import fold, load

_TABLES = ("goal", "best", "lift_names", "columns", "bands", "sources")
_STOPS = ("standards", "unit", "date_format")


def lifter(raw: bytes, folder: str, default_unit: Unit = "kg") -> tuple[Lifter | None, Toml]:
    """Understand lifter.toml; `folder` names a lifter without a name.

    Returns:
        The lifter: a stand-in for reading the other files where the file has `stops`, None if there is not
        even that. The file, with its problems.
    """
    file = toml(LIFTER_TOML, raw)
    if file.data is None:
        return None, file
    data = file.data
    file.unknown(data, (*Head.__struct_fields__, *_TABLES), (), LIFTER_TOML)
    top = {key: data[key] for key in data if key not in _TABLES}
    given, bad = file.fitting(Head, top, (), "head", _STOPS)
    head = Head(**given)
    if head.standards is None and "standards" not in bad:
        file.report(say("intake.no_key"), ("standards",), want=expect("head.standards"), stop=True)
    form = head.date_format
    if form is not None and not _whole_form(form):
        file.report(CELL, ("date_format",), found=form, want=expect("head.date_format"), stop=True)
        form = None
    if head.name is None and "name" not in bad:
        file.report(say("intake.name_from_folder"), ("name",), level="odd", want=expect("head.name"))
    made = Lifter(
        name=" ".join((head.name or folder).split()),
        standards=head.standards or "men",  # a stand-in: without standards the file stops
        goals=_goals(file, data.get("goal")),
        born=head.born,
        unit=head.unit or default_unit,
        weeks_current=head.weeks_current,
        supervised=head.supervised,
        accepted=_accepted(file, head.accepted),
        bests=_bests(file, data.get("best")),
        lift_names=_lift_names(file, data.get("lift_names")),
        columns=_own_columns(file, data.get("columns")),
        date_format=form,
        bands=_bands(file, data.get("bands")),
        first_week=head.first_week,
        test_day=head.test_day,
        sources=_sources(file, data.get("sources")),
        confirmed=tuple(dict.fromkeys(head.confirmed)),
    )
    if made.born is None and (found := _birth(data)) is not None:
        path, value = found
        written = clipped(f'"{value}"' if isinstance(value, str) else str(value))
        line = file.place(path)[0]
        made = replace(made, born_found=f"{path[-1]} = {written}", born_line=line)
    return made, file


def _birth(data: Mapping[str, Any]) -> tuple[tuple[str | int, ...], object] | None:
    """Where a year of birth seems to be meant, by whatever key, at the top or in a table; and what it is."""
    known = {*Head.__struct_fields__, *_TABLES} - {"born"}
    tables: list[tuple[tuple[str | int, ...], object]] = [((), data)]
    for key, value in data.items():
        if key in ("goal", "best") and isinstance(value, list):
            tables += [((key, number), one) for number, one in enumerate(value)]
        elif key not in known:
            tables.append(((key,), value))
    for path, table in tables:
        for key, value in table.items() if isinstance(table, dict) else ():
            if key not in known and (fold(key) in load().words["birth"] or likely("birth", key)):
                return (*path, key), value
    return None


def _whole_form(form: str) -> bool:
    """Whether a date written in this form can be read back: it has day, month and year."""
    if "%Y" not in form and "%y" not in form:
        return False
    days = (datetime(2026, 3, 14), datetime(1999, 12, 5))
    try:
        return all(datetime.strptime(day.strftime(form), form) == day for day in days)
    except (ValueError, re.error):  # re.error: a part that stands twice
        return False


def _tables(file: Toml, name: str, data: object, *, stop: bool = False) -> list[Mapping[str, Any]]:
    """The tables of an array of tables."""
    if data is None:
        return []
    if not isinstance(data, list) or not all(isinstance(one, dict) for one in data):
        file.report(CELL, (name,), found=data, want=expect("tables"), stop=stop)
        return []
    return data


def _table(file: Toml, path: tuple[str, ...], data: object) -> Mapping[str, Any]:
    """A table, or an empty one where something else stands."""
    if data is None or isinstance(data, dict):
        return data or {}
    file.report(CELL, path, found=data, want=expect("table"))
    return {}


def _one_weight(
    file: Toml,
    entry: GoalEntry | BestEntry,
    path: tuple[str, int],
    names: tuple[str, ...],
    *,
    stop: bool = False,
) -> bool:
    """Whether exactly one of the weights is given."""
    given = [name for name in names if getattr(entry, name) is not None]
    if len(given) == 1:
        return True
    where = f"[[{path[0]}]] {path[1] + 1}"
    found = " and ".join(given) or "none"
    said, want = say("intake.one_of", where=where), expect("names", names=names)
    file.report(said, path, found=found, want=want, stop=stop)
    return False


def _goals(file: Toml, data: object) -> tuple[Goal, ...]:
    """The goals that can be used; the file stops without the first one, which the dossier is about."""
    if data is None or data == []:
        file.report(say("intake.no_key"), ("goal",), want=expect("goals"), stop=True)
    keys = GoalEntry.__struct_fields__
    goals: list[Goal] = []
    for number, table in enumerate(_tables(file, "goal", data, stop=True)):
        path, first = ("goal", number), number == 0
        file.unknown(table, keys, path, "[[goal]]")
        given, bad = file.fitting(GoalEntry, table, path, "goal", keys if first else ())
        if bad:
            continue
        entry = GoalEntry(**given)
        words = {**load().words["lift"], "total": "total"}
        lift = next((one for one in get_args(GoalLift) if one == words.get(fold(entry.lift))), None)
        if lift is None:
            near, want = close(fold(entry.lift), get_args(GoalLift)), expect("goal.lift")
            file.report(CELL, (*path, "lift"), found=entry.lift, want=want, near=near, stop=first)
        elif _one_weight(file, entry, path, ("kg", "lb", "times_body_mass"), stop=first):
            goals.append(Goal(lift=lift, kg=_kg(entry), times_body_mass=entry.times_body_mass, by=entry.by))
    return tuple(goals)


def _kg(entry: GoalEntry | BestEntry) -> float | None:
    return entry.lb * load().value("pound") if entry.lb is not None else entry.kg


def _bests(file: Toml, data: object) -> tuple[PriorBest, ...]:
    bests: list[PriorBest] = []
    for number, table in enumerate(_tables(file, "best", data)):
        path = ("best", number)
        file.unknown(table, BestEntry.__struct_fields__, path, "[[best]]")
        given, bad = file.fitting(BestEntry, table, path, "best")
        if bad:
            continue
        entry = BestEntry(**given)
        lift = _known(file, (*path, "lift"), entry.lift, "best.lift")
        if lift and _one_weight(file, entry, path, ("kg", "lb")) and (kg := _kg(entry)) is not None:
            bests.append(PriorBest(lift=lift, kg=kg, date=entry.date, where=entry.where))
    return tuple(bests)


def _known(
    file: Toml, path: tuple[str | int, ...], word: object, want: str, kind: str = "lift", also: str = ""
) -> str | None:
    """Our word for one of the file's; where there is none that is told, with the one that may be meant."""
    form = fold(word) if isinstance(word, str) else ""
    name = also if form and form == also else load().words[kind].get(form)
    if name is None:
        near = likely(kind, word) if isinstance(word, str) else None
        file.report(CELL, path, found=word, want=expect(want), near=near)
    return name


def _accepted(file: Toml, words: list[str]) -> tuple[str, ...]:
    names = [_known(file, ("accepted",), word, "checkpoint", "checkpoint") for word in words]
    return tuple(dict.fromkeys(name for name in names if name))


def _lift_names(file: Toml, data: object) -> dict[str, str]:
    found = {
        own: _known(file, ("lift_names", own), name, "catalogue_other", also="other")
        for own, name in _table(file, ("lift_names",), data).items()
    }
    return {own: name for own, name in found.items() if name}


def _own_columns(file: Toml, data: object) -> dict[str, dict[str, str]]:
    kinds = {kind.name: kind for kind in KINDS}
    tables = _table(file, ("columns",), data)
    file.unknown(tables, kinds, ("columns",), "[columns]")
    found: dict[str, dict[str, str]] = {}
    for name, kind in kinds.items():
        for own, ours in _table(file, ("columns", name), tables.get(name)).items():
            column = fold(ours) if isinstance(ours, str) else ""
            if column in kind.columns or column in HEADED:
                found.setdefault(name, {})[own] = column
            else:
                file.report(
                    CELL,
                    ("columns", name, own),
                    found=ours,
                    want=expect("column_name"),
                    near=close(column, kind.columns),
                )
    return found


def _sources(file: Toml, data: object) -> dict[str, Manners]:
    """How single files are written."""
    found: dict[str, Manners] = {}
    for name, value in _table(file, ("sources",), data).items():
        path = ("sources", name)
        table = _table(file, path, value)
        file.unknown(table, SourceEntry.__struct_fields__, path, f"[sources.{name}]")
        entry = SourceEntry(**file.fitting(SourceEntry, table, path, "sources")[0])
        found[name] = Manners(**{**asdict(entry), "order": tuple(entry.order.split())})
    return found


def _bands(file: Toml, data: object) -> tuple[CoachBand, ...]:
    every = load().bands
    known = {fold(band.lift): band.id for band in every} | {fold(band.id): band.id for band in every}
    bands: list[CoachBand] = []
    for key, value in _table(file, ("bands",), data).items():
        path = ("bands", key)
        table = _table(file, path, value)
        if not table:
            continue
        indicator = known.get(fold(key))
        if indicator is None:
            file.report(CELL, path, found=key, want=expect("indicator"), near=close(fold(key), known))
            continue
        file.unknown(table, BandEntry.__struct_fields__, path, f"[bands.{key}]")
        given, bad = file.fitting(BandEntry, table, path, "bands")
        if bad:
            continue
        entry = BandEntry(**given)
        if entry.low is None and entry.high is None:
            file.report(say("intake.no_key"), path, want=expect("edge"))
        elif entry.low is not None and entry.high is not None and entry.low > entry.high:
            said = say("intake.band_order", high=str(entry.high))
            file.report(said, (*path, "low"), found=entry.low, want=expect("bands.low"))
        else:
            bands.append(CoachBand(indicator=indicator, low=entry.low, high=entry.high))
    return tuple(bands)
