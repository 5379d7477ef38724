"""lifter.toml: who the dossier is about, the goals, and how this lifter writes.

An entry that is wrong is set aside and reported, the rest is used; the file as a whole cannot be used
without `standards` and a first goal, or with a `unit` or `date_format` that is wrong: nothing may be guessed
about those.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, get_args

from reportgen.intake.cells import likely
from reportgen.intake.entries import BandEntry, BestEntry, GoalEntry, Head, SourceEntry
from reportgen.intake.kinds import HEADED, KINDS
from reportgen.intake.messages import Said, Want, clipped, close
from reportgen.intake.toml import Toml, toml
from reportgen.model.lifter import CoachBand, Goal, GoalLift, Lifter, Manners, PriorBest, Unit
from reportgen.model.problems import FileLedger, Problem
from reportgen.trade import fold, load

FILE = "lifter.toml"
_TABLES = ("goal", "best", "lift_names", "columns", "bands", "sources")
_HEAD_WANTS: Mapping[str, str] = {
    "name": Want.NAME,
    "standards": Want.STANDARDS,
    "born": Want.BORN,
    "unit": Want.UNIT,
    "weeks_current": Want.WEEKS,
    "supervised": Want.TRUE_FALSE,
    "accepted": Want.CHECKPOINTS,
    "confirmed": Want.PLACES,
    "date_format": Want.FORM,
    "first_week": Want.MONDAY,
    "test_day": Want.TOML_DATE,
}
_STOPS = ("standards", "unit", "date_format")
_GOAL_WANTS: Mapping[str, str] = {
    "lift": Want.GOAL_LIFT,
    "kg": Want.KILOGRAMS,
    "lb": Want.POUNDS,
    "times_body_mass": Want.TIMES,
    "by": Want.TOML_DATE,
}
_BEST_WANTS: Mapping[str, str] = {
    "lift": Want.CATALOGUE,
    "kg": Want.KILOGRAMS,
    "lb": Want.POUNDS,
    "date": Want.TOML_DATE,
    "where": Want.WHERE,
}
_SOURCE_WANTS: Mapping[str, str] = {
    "layout": Want.LAYOUTS,
    "order": Want.ORDER,
    "miss": Want.SIGNS,
    "made": Want.SIGNS,
    "comma": Want.COMMA,
    "year": Want.BORN,
    "days": Want.WEEKDAYS,
    "turned": Want.TRUE_FALSE,
    "bar": Want.BAR,
}
_BAND_WANTS: Mapping[str, str] = {"low": Want.SHARE, "high": Want.SHARE}


@dataclass(frozen=True, slots=True, kw_only=True)
class LifterFile:
    """What lifter.toml says.

    Attributes:
        lifter: The lifter; a stand-in for reading the other files where `fatal` is set, None if there is
            not even that.
        fatal: Why there can be no dossier.
        ledger: The file's entry (a row is the file).
    """

    lifter: Lifter | None
    fatal: tuple[Problem, ...]
    ledger: FileLedger


def lifter(raw: bytes, folder: str, default_unit: Unit = "kg") -> LifterFile:
    """Understand lifter.toml.

    Args:
        raw: The file.
        folder: The folder's name, for a lifter without one.
        default_unit: Unit where the file names none.

    Returns:
        The lifter and the problems.
    """
    file = toml(FILE, raw)
    if file.data is None:
        return LifterFile(lifter=None, fatal=tuple(file.problems), ledger=_ledger(file, used=False))
    data = file.data
    file.unknown(data, (*_HEAD_WANTS, *_TABLES), (), FILE)
    head, bad = _head(file, data)
    if head.standards is None and "standards" not in bad:
        file.say(Said.NO_KEY, ("standards",), want=Want.STANDARDS, stop=True)
    form = head.date_format
    if form is not None and not _whole_form(form):
        file.say(Said.CELL, ("date_format",), found=form, want=Want.FORM, stop=True)
        form = None
    if head.name is None and "name" not in bad:
        file.say(Said.NAME_FROM_FOLDER, ("name",), level="odd", want=Want.NAME)
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
    if made.born is None and (path := _birth(data)) is not None:
        found = _under(data, path)
        line, _ = file.places.of(path)
        written = clipped(f'"{found}"' if isinstance(found, str) else str(found))
        made = replace(made, born_found=f"{path[-1]} = {written}", born_line=line)
    stops = tuple(sorted(file.stops))
    return LifterFile(lifter=made, fatal=stops, ledger=_ledger(file, used=not stops))


def _birth(data: Mapping[str, Any]) -> tuple[str | int, ...] | None:
    """Where a year of birth seems to be meant, by whatever key, at the top or in a table."""
    known = {*_HEAD_WANTS, *_TABLES} - {"born"}
    tables: list[tuple[tuple[str | int, ...], object]] = [((), data)]
    for key, value in data.items():
        if key in ("goal", "best") and isinstance(value, list):
            tables += [((key, number), one) for number, one in enumerate(value)]
        elif key not in known:
            tables.append(((key,), value))
    return next(
        (
            (*path, key)
            for path, table in tables
            if isinstance(table, dict)
            for key in table
            if key not in known and (fold(key) in load().words["birth"] or likely("birth", key))
        ),
        None,
    )


def _under(data: object, path: tuple[str | int, ...]) -> object:
    for step in path:
        data = data[step]  # type: ignore[index]
    return data


def _ledger(file: Toml, *, used: bool) -> FileLedger:
    return FileLedger(
        file=file.file,
        rows_read=1,
        rows_used=int(used),
        rows_set_aside=int(not used),
        problems=tuple(sorted(file.problems)),
    )


def _head(file: Toml, data: Mapping[str, Any]) -> tuple[Head, tuple[str, ...]]:
    """The keys at the top; a wrong one is left out."""
    table = {key: value for key, value in data.items() if key in _HEAD_WANTS}
    head, bad = file.shaped(Head, table, (), _HEAD_WANTS, _STOPS)
    if head is None:
        head = Head.model_validate({key: value for key, value in table.items() if key not in bad})
    return head, bad


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
        file.say(Said.CELL, (name,), found=data, want=Want.TABLES, stop=stop)
        return []
    return data


def _table(file: Toml, path: tuple[str, ...], data: object) -> Mapping[str, Any]:
    """A table, or an empty one where something else stands."""
    if data is None or isinstance(data, dict):
        return data or {}
    file.say(Said.CELL, path, found=data, want=Want.TABLE)
    return {}


def _one_weight(
    file: Toml, entry: GoalEntry | BestEntry, path: tuple[str, int], want: str, *, stop: bool = False
) -> bool:
    """Whether exactly one of the weights is given."""
    given = [name for name in want.split(", ") if getattr(entry, name) is not None]
    if len(given) == 1:
        return True
    where = f"[[{path[0]}]] {path[1] + 1}"
    found = " and ".join(given) or "none"
    file.say(Said.ONE_OF, path, found=found, want=want, stop=stop, where=where)
    return False


def _goals(file: Toml, data: object) -> tuple[Goal, ...]:
    """The goals that can be used; the file stops without the first one, which the dossier is about."""
    if data is None or data == []:
        file.say(Said.NO_KEY, ("goal",), want=Want.GOALS, stop=True)
    goals: list[Goal] = []
    for number, table in enumerate(_tables(file, "goal", data, stop=True)):
        path, first = ("goal", number), number == 0
        file.unknown(table, _GOAL_WANTS, path, "[[goal]]")
        entry, _ = file.shaped(GoalEntry, table, path, _GOAL_WANTS, _GOAL_WANTS if first else ())
        if entry is None:
            continue
        lift = _goal_lift(entry.lift)
        if lift is None:
            near = close(fold(entry.lift), get_args(GoalLift))
            at, found = (*path, "lift"), entry.lift
            file.say(Said.CELL, at, found=found, want=Want.GOAL_LIFT, near=near, stop=first)
        elif _one_weight(file, entry, path, Want.GOAL_WEIGHT, stop=first):
            goals.append(Goal(lift=lift, kg=_kg(entry), times_body_mass=entry.times_body_mass, by=entry.by))
    return tuple(goals)


def _goal_lift(word: str) -> GoalLift | None:
    name = "total" if fold(word) == "total" else load().words["lift"].get(fold(word))
    for lift in ("snatch", "clean and jerk", "total"):
        if name == lift:
            return lift
    return None


def _kg(entry: GoalEntry | BestEntry) -> float | None:
    return entry.lb * load().value("pound") if entry.lb is not None else entry.kg


def _bests(file: Toml, data: object) -> tuple[PriorBest, ...]:
    bests: list[PriorBest] = []
    for number, table in enumerate(_tables(file, "best", data)):
        path = ("best", number)
        file.unknown(table, _BEST_WANTS, path, "[[best]]")
        entry, _ = file.shaped(BestEntry, table, path, _BEST_WANTS)
        if entry is None:
            continue
        lift = load().words["lift"].get(fold(entry.lift))
        if lift is None:
            near = likely("lift", entry.lift)
            file.say(Said.CELL, (*path, "lift"), found=entry.lift, want=Want.CATALOGUE, near=near)
        elif _one_weight(file, entry, path, Want.BEST_WEIGHT) and (kg := _kg(entry)) is not None:
            bests.append(PriorBest(lift=lift, kg=kg, date=entry.date, where=entry.where))
    return tuple(bests)


def _accepted(file: Toml, words: list[str]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for word in words:
        name = load().words["checkpoint"].get(fold(word))
        if name is None:
            file.say(
                Said.CELL, ("accepted",), found=word, want=Want.CHECKPOINT, near=likely("checkpoint", word)
            )
        else:
            found[name] = None
    return tuple(found)


def _lift_names(file: Toml, data: object) -> dict[str, str]:
    found: dict[str, str] = {}
    for own, name in _table(file, ("lift_names",), data).items():
        ours = None
        if isinstance(name, str):
            ours = "other" if fold(name) == "other" else load().words["lift"].get(fold(name))
        if ours is None:
            near = likely("lift", name) if isinstance(name, str) else None
            file.say(Said.CELL, ("lift_names", own), found=name, want=Want.CATALOGUE_OTHER, near=near)
        else:
            found[own] = ours
    return found


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
                file.say(
                    Said.CELL,
                    ("columns", name, own),
                    found=ours,
                    want=Want.COLUMN_NAME,
                    near=close(column, kind.columns),
                )
    return found


def _sources(file: Toml, data: object) -> dict[str, Manners]:
    """How single files are written."""
    found: dict[str, Manners] = {}
    for name, value in _table(file, ("sources",), data).items():
        path = ("sources", name)
        table = _table(file, path, value)
        file.unknown(table, _SOURCE_WANTS, path, f"[sources.{name}]")
        entry, bad = file.shaped(SourceEntry, table, path, _SOURCE_WANTS)
        if entry is None:
            entry = SourceEntry.model_validate({key: one for key, one in table.items() if key not in bad})
        found[name] = Manners(
            layout=entry.layout or "",
            order=tuple(entry.order.split()) if entry.order else (),
            miss=tuple(entry.miss),
            made=tuple(entry.made),
            comma=entry.comma or "",
            year=entry.year,
            days=tuple(entry.days),
            turned=entry.turned,
            bar=entry.bar,
        )
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
            file.say(Said.CELL, path, found=key, want=Want.INDICATOR, near=close(fold(key), known))
            continue
        file.unknown(table, _BAND_WANTS, path, f"[bands.{key}]")
        entry, _ = file.shaped(BandEntry, table, path, _BAND_WANTS)
        if entry is None:
            continue
        if entry.low is None and entry.high is None:
            file.say(Said.NO_KEY, path, want=Want.EDGE)
        elif entry.low is not None and entry.high is not None and entry.low > entry.high:
            file.say(Said.BAND_ORDER, (*path, "low"), found=entry.low, want=Want.SHARE, high=entry.high)
        else:
            bands.append(CoachBand(indicator=indicator, low=entry.low, high=entry.high))
    return tuple(bands)
