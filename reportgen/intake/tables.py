"""The files about no sets: body mass, screening, technique, mobility, pain, away, decisions."""

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np
import pandas as pd

from reportgen.intake.cells import (
    Parsed,
    Vocabulary,
    dates,
    each,
    floats,
    listed,
    loads,
    terms,
    texts,
    vocabulary,
)
from reportgen.intake.kinds import Kind
from reportgen.intake.messages import Fault, clipped, expect
from reportgen.intake.sheet import Codes, Sheet
from reportgen.model import tables as model
from reportgen.model.lifter import Lifter, Manners, Unit
from reportgen.model.say import say
from reportgen.trade import load
from reportgen.trade.claims import finding_named

Values = Mapping[str, object]
#: Kinds of file whose rows set aside are handed on: a proposal fails closed on them.
KEPT: Final = ("pain", "away")
#: In `wrong`: not even the cells can be told apart.
WHOLE_ROW: Final = "*"


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How this lifter writes: what a column `load` means, how dates look, own words for lifts and headings.

    `first_week` is the Monday of week 1, `sources` says how single files are written, `bar` is the empty bar
    in `unit`: rule books give it, 20 kg for men and 15 kg for women. `name` is the lifter's.
    """

    name: str = ""
    unit: Unit = "kg"
    date_format: str | None = None
    lift_names: Mapping[str, str] = field(default_factory=dict)
    columns: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    first_week: dt.date | None = None
    sources: Mapping[str, Manners] = field(default_factory=dict)
    bar: float | None = None

    @classmethod
    def of(cls, who: Lifter) -> "Manner":
        """How a lifter writes, by lifter.toml."""
        return cls(
            name=who.name,
            unit=who.unit,
            date_format=who.date_format,
            lift_names=who.lift_names,
            columns=who.columns,
            first_week=who.first_week,
            sources=who.sources,
            bar=load().value(f"bar_{who.standards}_{who.unit}"),
        )

    def manners(self, file: str) -> Manners:
        """What [sources] says of a file; a workbook's entry holds for its sheets, too."""
        for name in (file, file.split("[", maxsplit=1)[0]):
            for key, one in self.sources.items():
                if key.replace("\\", "/").casefold() == name.casefold():
                    return one
        return Manners()

    def lifts(self) -> Vocabulary:
        """Words for lifts, the lifter's own first."""
        return vocabulary("lift", self.lift_names)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One file read: its sheet, its table of used rows, and the sheet's row of each table row."""

    sheet: Sheet
    table: pd.DataFrame
    rows: Codes
    unread: pd.DataFrame | None = None  # of pain and away: what could be read of the rows set aside


def tabulate(sheet: Sheet, values: Values, columns: Mapping[str, str], rows: Codes | None = None) -> Reading:
    """Put the used rows of a sheet into a table of the model.

    `values` hold one value a sheet row, or one for each of `rows` where a sheet row makes several.
    """
    of = np.arange(len(sheet), dtype=np.int64) if rows is None else rows
    use = np.flatnonzero(~sheet.aside[of])
    return Reading(
        sheet=sheet, table=pd.DataFrame(_cells(sheet, values, columns, of[use], use)), rows=of[use]
    )


def _cells(
    sheet: Sheet, values: Values, columns: Mapping[str, str], of: Codes, use: Codes
) -> dict[str, object]:
    """The columns of some of the values, each in its type."""
    made: dict[str, object] = {}
    for name, kind in columns.items():
        value = values.get(name)
        if name == "file":
            made[name] = pd.array([sheet.file], dtype="str").take(np.zeros(len(of), dtype=np.int64))
        elif name == "line":
            made[name] = sheet.lines[of]
        elif isinstance(value, Parsed):
            made[name] = pd.array(value.values, dtype="str").take(value.codes[use])
        else:
            made[name] = np.asarray(value)[use].astype(kind)
    return made


def _unread(sheet: Sheet, values: Values, columns: Mapping[str, str]) -> pd.DataFrame:
    """What could be read of the rows set aside; a line whose cells can't be told apart is a row of none."""
    use = np.flatnonzero(sheet.aside)
    names = {column.number: column.name for column in sheet.columns.values()}
    wrong: dict[int, dict[str, str]] = {}
    for problem in sheet.problems:
        if problem.level == "error" and problem.expected != expect("other_row"):
            name = names.get(problem.column, WHOLE_ROW)
            said = f"'{clipped(problem.found)}'" if problem.found else "is empty"
            wrong.setdefault(problem.line, {})[name] = said if name == WHOLE_ROW else f"{name} {said}"
    made = pd.DataFrame(_cells(sheet, values, columns, use, use))
    lost = [line for line in wrong if line not in set(made["line"].tolist())]
    if lost:
        made = pd.concat([made, _nothing_read(sheet.file, lost, columns)], ignore_index=True)
        wrong |= {line: {WHOLE_ROW: " ".join(wrong[line].values())} for line in lost}
    lines = made["line"].tolist()
    return made.assign(
        wrong=pd.Series([",".join(wrong.get(line, {WHOLE_ROW: ""})) for line in lines], dtype="str"),
        found=pd.Series([", ".join(wrong.get(line, {}).values()) for line in lines], dtype="str"),
    )


def _nothing_read(file: str, lines: list[int], columns: Mapping[str, str]) -> pd.DataFrame:
    """Rows of which only the place is known."""
    holes = {"str": "", "float64": np.nan, "datetime64[s]": np.datetime64("NaT", "s")}
    data: dict[str, list[object]] = {name: [holes.get(kind)] * len(lines) for name, kind in columns.items()}
    return model.typed(data | {"file": [file] * len(lines), "line": list(lines)}, dict(columns))


#: A score that says its own scale: 8/10 is 8.
_OF_TEN: Final = re.compile(r"([0-9.,]+)\s*(?:/|of|out of|von)\s*10")


def _conditions(word: str) -> str:
    parts = re.split(r"[,;/+]", word)
    return ", ".join(sorted({" ".join(part.casefold().split()) for part in parts} - {""}))


def _word(sheet: Sheet, name: str, kind: str, *, needed: bool = False) -> Parsed[str]:
    words = vocabulary(kind)
    return terms(sheet, name, words, expect("word", words=listed(words)), needed=needed)


def _finding(sheet: Sheet) -> Parsed[str]:
    """Findings by id; a name that is not known stays as it is, since it may be of another version."""
    written = texts(sheet, "finding", needed=True)
    return Parsed([finding_named(word) or word for word in written.values], written.codes)


def _scored(sheet: Sheet, values: Values) -> None:
    """Set aside points that are no whole ones, and rows with neither reading nor grade."""
    item, reading = values["item"], values["reading"]
    if isinstance(item, Parsed) and isinstance(reading, np.ndarray):
        points = {name for name, position in load().positions.items() if position.unit == "points"}
        scored = np.array([name in points for name in item.values], dtype=np.bool_)[item.codes]
        wrong = np.flatnonzero(scored & ~np.isnan(reading) & ~np.isin(reading, np.arange(10)))
        sheet.blame_rows(sheet.column("reading"), wrong, Fault(expect("points")))
    given = sheet.column("reading").filled | sheet.column("grade").filled
    name = "reading" if "reading" in sheet.columns else "grade"
    fault = Fault(expect("either"), said=say("intake.no_reading"))
    sheet.blame_rows(sheet.column(name), np.flatnonzero(~given), fault)


def _in_order(early: str, late: str) -> Callable[[Sheet, Values], None]:
    """Set aside rows whose second date lies before the first one."""

    def check(sheet: Sheet, values: Values) -> None:
        first, second = np.asarray(values[early]), np.asarray(values[late])
        wrong, heading = np.flatnonzero(second < first), sheet.column(early).heading
        said = [say("intake.before", other=heading, day=str(first[row])[:10]) for row in wrong]
        sheet.blame_rows(sheet.column(late), wrong, [Fault(expect("later"), said=one) for one in said])

    return check


#: How a column is read, where its type does not say so; by its name, or the file's and its name.
_COLUMNS: Final[Mapping[str, Callable[[Sheet, Manner], object]]] = {
    "lift": lambda sheet, manner: terms(sheet, "lift", manner.lifts(), expect("lift")),
    "load_kg": lambda sheet, manner: loads(sheet, manner.unit, needed=False),
    "mass_kg": lambda sheet, manner: loads(sheet, manner.unit),
    "settled": lambda sheet, manner: dates(sheet, "settled", manner.date_format, needed=False),
    "check": lambda sheet, manner: dates(sheet, "check", manner.date_format, needed=False),
    "item": lambda sheet, _: terms(sheet, "item", vocabulary("position"), expect("position"), needed=True),
    "checkpoint": lambda sheet, _: terms(
        sheet, "checkpoint", vocabulary("checkpoint"), expect("checkpoint"), needed=True
    ),
    "side": lambda sheet, _: _word(sheet, "side", "side"),
    "screening.grade": lambda sheet, _: _word(sheet, "grade", "grade"),
    "technique.grade": lambda sheet, _: _word(sheet, "grade", "mark", needed=True),
    "area": lambda sheet, _: _word(sheet, "area", "area", needed=True),
    "kind": lambda sheet, _: _word(sheet, "kind", "pain"),
    "reason": lambda sheet, _: _word(sheet, "reason", "away", needed=True),
    "verdict": lambda sheet, _: _word(sheet, "verdict", "verdict", needed=True),
    "place": lambda sheet, _: texts(sheet, "place", needed=True),
    "finding": lambda sheet, _: _finding(sheet),
    "conditions": lambda sheet, _: each(sheet, sheet.column("conditions"), _conditions, empty="", hole=""),
    "reading": lambda sheet, _: floats(sheet, "reading", expect("reading"), -1000, 1000, signed=True),
    "minutes": lambda sheet, _: floats(sheet, "minutes", expect("minutes"), 0, 600, needed=True),
    "score": lambda sheet, _: floats(
        sheet, "score", expect("score"), 0, load().value("pain_score_max"), needed=True, of=_OF_TEN
    ),
}
#: What has to hold between the columns of a row.
_CHECKS: Final[Mapping[str, Callable[[Sheet, Values], None]]] = {
    "screening": _scored,
    "pain": _in_order("date", "settled"),
    "away": _in_order("from", "to"),
}
_TABLES: Final = {
    "bodymass": model.BODYMASS,
    "screening": model.SCREENING,
    "technique": model.TECHNIQUE,
    "mobility": model.MOBILITY,
    "pain": model.PAIN,
    "away": model.AWAY,
    "decisions": model.DECISIONS,
}


def understand(sheet: Sheet, kind: Kind, manner: Manner) -> Reading:
    """Understand the rows of a file that is not about sets."""
    columns = _TABLES[kind.name]
    values: dict[str, object] = {}
    for name, typed in columns.items():
        reader = _COLUMNS.get(f"{kind.name}.{name}") or _COLUMNS.get(name)
        if reader is not None:
            values[name] = reader(sheet, manner)
        elif typed == "datetime64[s]":
            values[name] = dates(sheet, name, manner.date_format)
        elif name not in ("file", "line"):
            values[name] = texts(sheet, name)
    if kind.name in _CHECKS:
        _CHECKS[kind.name](sheet, values)
    made = tabulate(sheet, values, columns)
    return replace(made, unread=_unread(sheet, values, columns)) if kind.name in KEPT else made


def nothing(sheet: Sheet, kind: Kind) -> Reading:
    """The reading of a file that was not understood as a whole: no rows."""
    columns = _TABLES.get(kind.name, model.SETS)
    return Reading(sheet=sheet, table=model.empty(dict(columns)), rows=np.zeros(0, dtype=np.int64))
