"""What only words tell: an injury in a remark or a note, which no column of pain.csv or away.csv says.

Few words are looked for, and none where one before it says no. What is heard wrongly is let through by
`confirmed`; what is written down in pain.csv or away.csv on that day or later is not told again.
"""

import datetime as dt
import re
from collections.abc import Iterator
from typing import Final

import pandas as pd

from reportgen.analysis import pain
from reportgen.analysis.doubts import UNFIT, of_row
from reportgen.analysis.readings import cells
from reportgen.analysis.when import known, stamp
from reportgen.model.doubts import Unsure
from reportgen.model.records import Records
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold

#: Words before another one within which a no is looked for.
_BEFORE: Final = 3
_WORD: Final = re.compile(r"[^\W_]+(?:'[^\W_]+)?")
_CLAUSE: Final = re.compile(r"[.,;:!?\n()]+|\b(?:but|aber|mais|pero)\b")


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Every doubt that only words raise.

    Args:
        records: Pain, days away, the log's remarks and the notes.
        trade: Words and rules.
    """
    yield from _pain(records, trade)
    yield from _away(records, trade)
    yield from _free(records, trade)


def heard(text: str, kind: str, year: int, trade: Trade) -> str:
    """The first word of a kind, `grave` or `sore`, that a text tells of now; "" without one.

    Args:
        text: A remark, a place or a note.
        kind: Of trade/words.toml, `[told]`.
        year: The year of the review day: a clause that names an earlier one tells of the past.
        trade: The words.
    """
    told = trade.words["told"]
    forms = [form for form, meant in told.items() if meant == kind and form != kind]
    no = {form for form, meant in told.items() if meant == "no"}
    for clause in _CLAUSE.split(fold(text)):
        words = _WORD.findall(clause)
        if any(re.fullmatch(r"(?:19|20)\d\d", word) and int(word) < year for word in words):
            continue
        joined = f" {' '.join(words)} "
        for form in forms:
            at = joined.find(f" {form} ")
            if at < 0:
                continue
            before = joined[:at].split()[-_BEFORE:]
            after = joined[at + len(form) + 2 :].split()[:1]
            if not no & {*before, *after}:
                return form
    return ""


def _pain(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Open rows of pain whose words tell of what their kind does not."""
    for row in cells(known(records, records.pain, "date")):
        still = pd.isna(row["settled"]) or row["settled"] > stamp(records.as_of)
        found = heard(f"{row['place']}. {row['remark']}", "grave", records.as_of.year, trade)
        if still and found and row["kind"] not in pain.STOP:
            yield of_row(row, "pain_words", found)


def _away(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Days away that are not over and tell of an injury under another reason."""
    read = known(records, records.away, "from")
    unread = known(records, records.away_unread, "from")
    for row in (*cells(read), *cells(unread)):
        over = pd.notna(row["to"]) and row["to"] < stamp(records.as_of)
        found = heard(row["remark"], "grave", records.as_of.year, trade)
        if found and not over and row["reason"] != "injury":
            yield of_row(row, "away_words", found)


def _free(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Remarks of the log and notes of the last weeks, where no later row says what came of it."""
    unfit = records.away.loc[records.away["reason"].isin(UNFIT)]
    days = [records.pain["date"], records.pain["settled"], records.pain_unread["date"], unfit["to"]]
    told = max((day.max().date() for day in days if day.notna().any()), default=dt.date.min)
    first = records.as_of - dt.timedelta(days=int(trade.value("remark_days")))
    year = records.as_of.year
    remarked = known(records, records.sets, "date")
    recent = remarked.loc[(remarked["remark"] != "") & (remarked["date"] >= stamp(first))]
    texts = [(row, str(row["remark"])) for row in cells(recent.drop_duplicates(["file", "line"]))]
    texts += [
        ({"file": one.file, "line": 0, "date": stamp(one.date)}, f"{one.title}. {one.text}")
        for one in records.notes
        if one.date >= first and one.kind != "plan" and not (records.asked and one.date > records.as_of)
    ]
    for row, text in texts:
        if row["date"].date() <= told:
            continue
        if found := heard(text, "grave", year, trade):
            yield of_row(row, "remark_words", found)
        elif found := heard(text, "sore", year, trade):
            yield of_row(row, "remark_pain", found, stops=())
