"""The files about no sets: body mass, screening, technique, mobility, pain, away, decisions."""

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.intake import kinds
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

    Args:
        sheet: The file; rows set aside are left out.
        values: Column -> words or an array, one value a sheet row, or one for each of `rows`.
        columns: The model's columns.
        rows: The sheet row of each value, where a sheet row makes several table rows.

    Returns:
        The table, with the sheet row of each of its rows.
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
    holes = {"str": "", "float64": np.nan, "datetime64[s]": np.datetime64("NaT")}
    data: dict[str, list[object]] = {name: [holes.get(kind)] * len(lines) for name, kind in columns.items()}
    return model.typed(data | {"file": [file] * len(lines), "line": list(lines)}, dict(columns))


def _bodymass(sheet: Sheet, manner: Manner) -> Values:
    return {"date": dates(sheet, "date", manner.date_format), "mass_kg": loads(sheet, manner.unit)}


def _screening(sheet: Sheet, manner: Manner) -> Values:
    day = dates(sheet, "date", manner.date_format)
    item = terms(sheet, "item", vocabulary("position"), expect("position"), needed=True)
    side = _word(sheet, "side", "side")
    load_kg = loads(sheet, manner.unit, needed=False)
    reading = floats(sheet, "reading", expect("reading"), -1000, 1000, signed=True)
    points = {name for name, position in load().positions.items() if position.unit == "points"}
    scored = np.array([name in points for name in item.values], dtype=np.bool_)[item.codes]
    wrong = np.flatnonzero(scored & ~np.isnan(reading) & ~np.isin(reading, np.arange(10)))
    sheet.blame_rows(sheet.column("reading"), wrong, Fault(expect("points")))
    grade = _word(sheet, "grade", "grade")
    given = sheet.column("reading").filled | sheet.column("grade").filled
    name = "reading" if "reading" in sheet.columns else "grade"
    none = np.flatnonzero(~given)
    sheet.blame_rows(sheet.column(name), none, Fault(expect("either"), said=say("intake.no_reading")))
    conditions = each(sheet, sheet.column("conditions"), _conditions, empty="", hole="")
    return {
        "date": day,
        "item": item,
        "side": side,
        "load_kg": load_kg,
        "reading": reading,
        "grade": grade,
        "conditions": conditions,
        "remark": texts(sheet, "remark"),
    }


def _conditions(word: str) -> str:
    for mark in ";/+":
        word = word.replace(mark, ",")
    return ", ".join(sorted({" ".join(part.casefold().split()) for part in word.split(",")} - {""}))


def _technique(sheet: Sheet, manner: Manner) -> Values:
    return {
        "date": dates(sheet, "date", manner.date_format),
        "lift": terms(sheet, "lift", manner.lifts(), expect("lift")),
        "load_kg": loads(sheet, manner.unit, needed=False),
        "checkpoint": terms(sheet, "checkpoint", vocabulary("checkpoint"), expect("checkpoint"), needed=True),
        "grade": _word(sheet, "grade", "mark", needed=True),
        "clip": texts(sheet, "clip"),
        "remark": texts(sheet, "remark"),
    }


def _mobility(sheet: Sheet, manner: Manner) -> Values:
    return {
        "date": dates(sheet, "date", manner.date_format),
        "area": _word(sheet, "area", "area", needed=True),
        "minutes": floats(sheet, "minutes", expect("minutes"), 0, 600, needed=True),
    }


#: A score that says its own scale: 8/10 is 8.
_OF_TEN: Final = re.compile(r"([0-9.,]+)\s*(?:/|of|out of|von)\s*10")


def _pain(sheet: Sheet, manner: Manner) -> Values:
    day = dates(sheet, "date", manner.date_format)
    place = texts(sheet, "place", needed=True)
    lift = terms(sheet, "lift", manner.lifts(), expect("lift"))
    score = floats(
        sheet, "score", expect("score"), 0, load().value("pain_score_max"), needed=True, of=_OF_TEN
    )
    kind = _word(sheet, "kind", "pain")
    settled = dates(sheet, "settled", manner.date_format, needed=False)
    _in_order(sheet, "date", day, "settled", settled)
    return {
        "date": day,
        "place": place,
        "lift": lift,
        "score": score,
        "kind": kind,
        "settled": settled,
        "remark": texts(sheet, "remark"),
    }


def _away(sheet: Sheet, manner: Manner) -> Values:
    first = dates(sheet, "from", manner.date_format)
    last = dates(sheet, "to", manner.date_format)
    _in_order(sheet, "from", first, "to", last)
    return {
        "from": first,
        "to": last,
        "reason": _word(sheet, "reason", "away", needed=True),
        "remark": texts(sheet, "remark"),
    }


def _decisions(sheet: Sheet, manner: Manner) -> Values:
    return {
        "date": dates(sheet, "date", manner.date_format),
        "finding": _finding(sheet),
        "verdict": _word(sheet, "verdict", "verdict", needed=True),
        "why": texts(sheet, "why"),
        "check": dates(sheet, "check", manner.date_format, needed=False),
    }


def _finding(sheet: Sheet) -> Parsed[str]:
    """Findings by id; a name that is not known stays as it is, since it may be of another version."""
    written = texts(sheet, "finding", needed=True)
    return Parsed([finding_named(word) or word for word in written.values], written.codes)


def _word(sheet: Sheet, name: str, kind: str, *, needed: bool = False) -> Parsed[str]:
    words = vocabulary(kind)
    return terms(sheet, name, words, expect("word", words=listed(words)), needed=needed)


def _in_order(
    sheet: Sheet, early: str, first: NDArray[np.datetime64], late: str, second: NDArray[np.datetime64]
) -> None:
    """Set aside rows whose second date lies before the first one."""
    wrong = np.flatnonzero(second < first)
    heading = sheet.column(early).heading
    sheet.blame_rows(
        sheet.column(late),
        wrong,
        [
            Fault(expect("later"), said=say("intake.before", other=heading, day=str(first[row])[:10]))
            for row in wrong
        ],
    )


_READERS: Mapping[str, tuple[Callable[[Sheet, Manner], Values], Mapping[str, str]]] = {
    kinds.BODYMASS.file: (_bodymass, model.BODYMASS),
    kinds.SCREENING.file: (_screening, model.SCREENING),
    kinds.TECHNIQUE.file: (_technique, model.TECHNIQUE),
    kinds.MOBILITY.file: (_mobility, model.MOBILITY),
    kinds.PAIN.file: (_pain, model.PAIN),
    kinds.AWAY.file: (_away, model.AWAY),
    kinds.DECISIONS.file: (_decisions, model.DECISIONS),
}


def understand(sheet: Sheet, kind: Kind, manner: Manner) -> Reading:
    """Understand the rows of a file that is not about sets."""
    reader, columns = _READERS[kind.file]
    values = reader(sheet, manner)
    made = tabulate(sheet, values, columns)
    return replace(made, unread=_unread(sheet, values, columns)) if kind.name in KEPT else made


def nothing(sheet: Sheet, kind: Kind) -> Reading:
    """The reading of a file that was not understood as a whole: no rows."""
    columns = _READERS[kind.file][1] if kind.file in _READERS else model.SETS
    return Reading(sheet=sheet, table=model.empty(dict(columns)), rows=np.zeros(0, dtype=np.int64))
