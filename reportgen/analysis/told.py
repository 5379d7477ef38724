"""Texts of a lifter's folder in which somebody may have told of their body, and an age that they tell."""

import datetime as dt
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import pandas as pd

from reportgen.analysis.readings import cells
from reportgen.analysis.when import known, stamp
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.alarms import alarms, sentences
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A remark or a note: the row it stands in, what it is about, and whether it is a plan."""

    row: dict[str, Any]
    text: str
    about: str = ""
    plan: bool = False

    @property
    def happened(self) -> str:
        """The text; of a plan without what it says to do should it come to that."""
        if not self.plan:
            return self.text
        case = alarms()["case"]
        return ". ".join(case.split(one, maxsplit=1)[0] for one in sentences(self.text))

    @property
    def date(self) -> dt.date:
        """Its day."""
        day: dt.date = self.row["date"].date()
        return day


def others(records: Records, *wants: str) -> frozenset[tuple[str, int]]:
    """File and line of the rows that were set aside for one of these: nothing that the lifter did."""
    return frozenset(
        (one.file, one.line)
        for entry in records.ledger
        for one in entry.problems
        if one.expected.key.removeprefix("intake.want.") in wants
    )


@lru_cache(maxsize=3)  # asked for three spans, by every need that may ask for something heavy
def texts(records: Records, first: dt.date) -> tuple[Text, ...]:
    """Remarks of the log, of rows set aside, of readings and decisions, and notes, from a day on."""
    aside = records.sets_unread
    if len(aside):  # a row without a day that can be read may be of today
        aside = aside.assign(date=aside["date"].fillna(stamp(records.as_of)))
    gone = others(records, "one_lifter")
    mine = aside.loc[[place not in gone for place in zip(aside["file"], aside["line"], strict=True)]]
    said = (
        *_rows(records, records.sets, "remark", first),
        *_rows(records, records.sets, "event", first),
        *_rows(records, mine, "remark", first),
        *(
            one
            for table in (records.screening, records.technique, records.bodymass, records.mobility)
            for one in _rows(records, table, "remark", first)
        ),
        *_rows(records, records.decisions, "why", first),
    )
    notes = (
        Text(
            row={"file": one.file, "line": 0, "date": stamp(one.date), "lift": ""},
            text=f"{one.title}. {one.text}",
            about=one.title,
            plan=one.kind == "plan",
        )
        for one in records.notes
        if one.date >= first and not (records.asked and one.date > records.as_of)
    )
    return (*said, *notes)


def _rows(records: Records, table: pd.DataFrame, column: str, first: dt.date) -> Iterator[Text]:
    """The rows of a table that say something, from a day on."""
    mine = (table[column].to_numpy() != "") & (table["date"].to_numpy() >= stamp(first).to_numpy())
    if mine.any():
        for row in cells(known(records, table.loc[mine].drop_duplicates(["file", "line"]))):
            yield Text(row={"lift": "", **row}, text=str(row[column]))


def ages(records: Records, trade: Trade) -> tuple[tuple[Text, int, str], ...]:
    """Ages that remarks and notes of the last year tell of the lifter, with their words."""
    first = records.as_of - dt.timedelta(days=int(trade.value("told_days")))
    words, found = alarms(), []
    for one in texts(records, first):
        for sentence in sentences(one.text):
            for hit in words["age"].finditer(sentence):
                near = f" {' '.join(sentence[: hit.end()].split()[:-1][-6:])} "
                age = next((int(group) for group in hit.groups() if group and group.isdigit()), 0)
                if age >= trade.value("born_age_low") and not words["kin"].search(near):
                    found.append((one, age, hit[0].strip(" ,")))
            for hit in words["school"].finditer(sentence):  # of what age it says not, but under 18
                if not words["kin"].search(f" {' '.join(sentence[: hit.start()].split()[-6:])} "):
                    found.append((one, int(trade.value("born_age_low")), hit[0].strip(" ,")))
    return tuple(found)
