"""What only words tell: an injury in a remark or a note, which no column of pain.csv or away.csv says.

Few words are looked for, and none where one before it says no. What is heard wrongly is let through by
`confirmed`; what is written down in pain.csv or away.csv on that day or later is not told again.
"""

import datetime as dt
from collections.abc import Iterator
from typing import Any

import pandas as pd

from reportgen.analysis import pain, told
from reportgen.analysis.doubts import UNFIT, of_row
from reportgen.analysis.hearing import Heard, hear
from reportgen.analysis.readings import cells
from reportgen.analysis.when import known, stamp
from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.model.records import Records
from reportgen.trade.alarms import alarms, sentences
from reportgen.trade.places import loading, places_in
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Every doubt that only words raise."""
    yield from _pain(records, trade)
    yield from _away(records, trade)
    yield from _free(records, trade)


def _pain(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Open rows of pain that tell of what their kind does not, and settled ones that say they are not."""
    recent = stamp(records.as_of - dt.timedelta(days=int(trade.value("told_days"))))
    for row in cells(known(records, records.pain, "date")):
        still = pd.isna(row["settled"]) or row["settled"] > stamp(records.as_of)
        found = hear(f"{row['place']}. {row['remark']}", records.as_of.year, trade, row["place"])
        if still and found and found.grave and row["kind"] not in pain.STOP:
            yield of_row(row, "pain_words", found.word)
        elif (
            not still
            and row["settled"] >= recent
            and (back := _back(str(row["remark"])))
            and _newest(records, row)
        ):
            lifts = loading(row["place"], row["lift"], trade)
            stops = (EVERYTHING,) if row["kind"] in pain.STOP or len(lifts) == len(trade.lifts) else lifts
            yield of_row(row, "pain_back", back, stops=stops)


def _back(remark: str) -> str:
    """The words of a settled row that say it is not over: it is mostly gone, or comes back under load."""
    hits = (alarms()["back"].search(sentence) for sentence in sentences(remark))
    return next((hit[0].strip(" ,") for hit in hits if hit is not None), "")


def _newest(records: Records, row: dict[str, Any]) -> bool:
    """Whether no later row of pain.csv tells of the same place."""
    same = records.pain["place"].map(fold) == fold(row["place"])
    return not bool((same & (records.pain["date"] > row["date"])).any())


def _away(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Days away that are not over and tell of an injury under another reason."""
    read = known(records, records.away, "from")
    unread = known(records, records.away_unread, "from")
    for row in (*cells(read), *cells(unread)):
        over = pd.notna(row["to"]) and row["to"] < stamp(records.as_of)
        found = hear(row["remark"], records.as_of.year, trade)
        if found and found.grave and not over and row["reason"] != "injury":
            yield of_row(row, "away_words", found.word)


def _free(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Remarks of the log and notes of the last weeks, where no later row says what came of it."""
    unfit = records.away.loc[records.away["reason"].isin(UNFIT)]
    days = [records.pain["date"], records.pain["settled"], records.pain_unread["date"], unfit["to"]]
    answered = max((day.max().date() for day in days if day.notna().any()), default=dt.date.min)
    first = records.as_of - dt.timedelta(days=int(trade.value("remark_days")))
    sore: dict[tuple[str, tuple[str, ...]], Unsure] = {}
    for text in told.texts(records, first):
        found = hear(text.happened, records.as_of.year, trade, text.about)
        if found is None:
            continue
        row = text.row
        if found.grave:
            if text.date > answered:
                yield of_row(row, "remark_words", found.word)
        elif not _answered(records, row["date"], found.places):
            lifts = _loaded(found, row["lift"], trade)
            one = of_row(row, "remark_pain", found.word, stops=lifts)
            # The same place on many days is one question, and its newest row asks it.
            sore[row["file"], lifts] = one
    yield from sore.values()


def _answered(records: Records, day: pd.Timestamp, places: tuple[str, ...]) -> bool:
    """Whether pain.csv says what came of a sore place: by a row of the day or later, or one that is open."""
    for row in cells(records.pain):
        same = not places or {*places} & {*places_in(row["place"])} or not places_in(row["place"])
        if same and (pd.isna(row["settled"]) or max(row["date"], row["settled"]) >= day):
            return True
    return bool((records.pain_unread["date"] >= day).any())


def _loaded(found: Heard, lift: str, trade: Trade) -> tuple[str, ...]:
    """The lifts that load some places; where none is named the one beside which it stands.

    As in pain.csv a place that is none of ours is loaded by every lift, and so is one that nobody names
    where no lift says in what it hurts.
    """
    if not found.places:
        return (lift,) if lift and not found.elsewhere else (EVERYTHING,)
    lifts = loading(" ".join(found.places), lift, trade)
    return (EVERYTHING,) if len(lifts) == len(trade.lifts) else lifts
