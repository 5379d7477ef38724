"""The files about no sets: body mass, screening, technique, mobility, pain, away, decisions."""

import datetime as dt
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from typing import Any, Final

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
from reportgen.model.values import dataclass
from reportgen.trade import load
from reportgen.trade.claims import finding_named

Values = Mapping[str, object]
#: Kinds of file whose rows set aside are handed on: a proposal fails closed on them.
KEPT: Final = ("pain", "away")
#: What stands in a column, by its type, where nothing was read.
_HOLES: Final = {"str": "", "float64": np.nan, "datetime64[s]": np.datetime64("NaT", "s")}
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

    @property
    def bar_kg(self) -> float:
        """The empty bar [kg]; 0 where it is not known."""
        return (self.bar or 0.0) * (load().value("pound") if self.unit == "lb" else 1.0)

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


def tabulate(
    sheet: Sheet, values: dict[str, object], columns: Mapping[str, str], rows: Codes | None = None
) -> Reading:
    """Put the used rows of a sheet into a table of the model.

    `values` hold one value a sheet row, or one for each of `rows` where a sheet row makes several. They are
    used up, so that a long log is not held twice.
    """
    of = np.arange(len(sheet), dtype=np.int64) if rows is None else rows
    use = np.flatnonzero(~sheet.aside[of])
    of = of[use]
    made = {}
    for name, kind in columns.items():
        made[name] = _cell(sheet, values.pop(name, None), (name, kind), of, use)
    return Reading(sheet=sheet, table=pd.DataFrame(made, copy=False), rows=of)


def _cell(sheet: Sheet, value: object, column: tuple[str, str], of: Codes, use: Codes) -> Any:
    """A column (name, type) of some of the values."""
    name, kind = column
    if name == "file":
        return pd.array([sheet.file], dtype="str").take(np.zeros(len(of), dtype=np.int64))
    if name == "line":
        return sheet.lines[of].astype(kind, copy=False)
    if isinstance(value, Parsed):
        return pd.array(value.values, dtype="str").take(value.codes[use])
    return np.asarray(value)[use].astype(kind, copy=False)


def _aside(sheet: Sheet, values: Values, columns: Mapping[str, str], blamed: Iterable[int]) -> pd.DataFrame:
    """What could be read of the rows set aside, then the place of each of these lines that made no row."""
    use = np.flatnonzero(sheet.aside)
    made = {name: _cell(sheet, values.get(name), (name, kind), use, use) for name, kind in columns.items()}
    rows, known = pd.DataFrame(made), set(sheet.lines[use].tolist())
    lost = [line for line in blamed if line not in known]
    if not lost:
        return rows
    data: dict[str, list[object]] = {name: [_HOLES.get(kind)] * len(lost) for name, kind in columns.items()}
    places = model.typed(data | {"file": [sheet.file] * len(lost), "line": [*lost]}, dict(columns))
    return pd.concat([rows, places.astype(rows.dtypes)], ignore_index=True)


def _unread(sheet: Sheet, values: Values, columns: Mapping[str, str]) -> pd.DataFrame:
    """The rows set aside, which of their cells are wrong and what stands there."""
    names = {column.number: column.name for column in sheet.columns.values()}
    wrong: dict[int, dict[str, str]] = {}
    for problem in sheet.problems:
        if problem.level == "error" and problem.expected != expect("other_row"):
            name = names.get(problem.column, WHOLE_ROW)
            said = f"'{clipped(problem.found)}'" if problem.found else "is empty"
            wrong.setdefault(problem.line, {})[name] = said if name == WHOLE_ROW else f"{name} {said}"
    rows = _aside(sheet, values, columns, wrong)
    read = int(sheet.aside.sum())
    wrong |= {line: {WHOLE_ROW: " ".join(wrong[line].values())} for line in rows["line"].tolist()[read:]}
    cells = [wrong.get(line, {WHOLE_ROW: ""}) for line in rows["line"]]
    told = {"wrong": [",".join(one) for one in cells], "found": [", ".join(one.values()) for one in cells]}
    return rows.assign(**{name: pd.Series(words, dtype="str") for name, words in told.items()})


def remarked(sheet: Sheet, day: object, remark: object) -> pd.DataFrame:
    """What was said in the rows that were set aside, with the cell for which they were: a remark with
    a comma in it has a cell too many.
    """
    told = {one.line: one.found for one in sheet.problems if one.level == "error" and one.found}
    rows = _aside(sheet, {"date": day, "remark": remark}, model.SETS_UNREAD, sorted(told))
    rows["remark"] += pd.Series([f". {told.get(line, '')}" for line in rows["line"]], dtype="str")
    return rows


#: A score that says its own scale: 8/10 is 8.
_OF_TEN: Final = re.compile(r"([0-9.,]+)\s*(?:/|of|out of|von)\s*10")


def _conditions(word: str) -> str:
    parts = re.split(r"[,;/+]", word)
    return ", ".join(sorted({" ".join(part.casefold().split()) for part in parts} - {""}))


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


#: Columns of words of one kind, by name or by the file's and the column's.
_WORDS: Final = {
    **{"item": "position", "kind": "pain", "reason": "away"},
    **{"screening.grade": "grade", "technique.grade": "mark"},
    **{name: name for name in ("checkpoint", "side", "area", "verdict")},
}
#: How any other column is read, where its type does not say so.
_COLUMNS: Final[Mapping[str, Callable[[Sheet, Manner], object]]] = {
    "lift": lambda sheet, manner: terms(sheet, "lift", manner.lifts(), expect("lift")),
    "load_kg": lambda sheet, manner: loads(sheet, manner.unit, needed=False),
    "mass_kg": lambda sheet, manner: loads(sheet, manner.unit),
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


def understand(sheet: Sheet, kind: Kind, manner: Manner) -> Reading:
    """Understand the rows of a file that is not about sets."""
    columns = model.TABLES[kind.name]
    values: dict[str, object] = {}
    for name, typed in columns.items():
        needed = (name,) in kind.needed
        reader = _COLUMNS.get(name)
        of = _WORDS.get(f"{kind.name}.{name}") or _WORDS.get(name)
        if reader is not None:
            values[name] = reader(sheet, manner)
        elif of is not None:
            words = vocabulary(of)
            want = expect(of) if of in ("position", "checkpoint") else expect("word", words=listed(words))
            values[name] = terms(sheet, name, words, want, needed=needed)
        elif typed == "datetime64[s]":
            values[name] = dates(sheet, name, manner.date_format, needed=needed)
        elif name not in ("file", "line"):
            values[name] = texts(sheet, name, needed=needed)
    if kind.name in _CHECKS:
        _CHECKS[kind.name](sheet, values)
    made = tabulate(sheet, dict(values), columns)
    if kind.name in KEPT:
        return replace(made, unread=_unread(sheet, values, columns))
    said = "remark" in columns and sheet.aside.any()
    return replace(made, unread=remarked(sheet, values["date"], values["remark"])) if said else made


def nothing(sheet: Sheet, kind: Kind) -> Reading:
    """The reading of a file that was not understood as a whole: no rows."""
    columns = model.TABLES.get(kind.name, model.SETS)
    return Reading(sheet=sheet, table=model.empty(dict(columns)), rows=np.zeros(0, dtype=np.int64))
