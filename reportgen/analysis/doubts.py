"""What of pain.csv, away.csv and lifter.toml can't be read, and what it has to be taken for."""

import datetime as dt
from collections.abc import Iterator
from typing import Any, Final

import pandas as pd

from reportgen.analysis import pain, told
from reportgen.analysis.readings import cells
from reportgen.analysis.when import known, stamp
from reportgen.model.doubts import EVERYTHING, HEAVY, Unsure
from reportgen.model.lifter import LIFTER_TOML
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.trade.places import loading
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold

#: Reasons of away.csv after which a body may not be ready.
UNFIT: Final = ("injury", "illness")
_WHOLE_ROW: Final = "*"
_EVERYTHING: Final = (EVERYTHING,)


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Every doubt about the lifter's body, whether it is let through or not."""
    yield from _pain(records, trade)
    yield from _away(records, trade)
    yield from _files(records)
    yield from unread(records, trade)
    yield from born(records, trade)


def of_row(
    row: dict[str, Any],
    reason: str,
    found: str | Say,
    *,
    stops: tuple[str, ...] = _EVERYTHING,
    lift: str = "",
) -> Unsure:
    """A doubt about one row of a table."""
    return Unsure(file=row["file"], line=int(row["line"]), reason=reason, stops=stops, lift=lift, found=found)


def _pain(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Rows of pain that can't be read count as open, unless they had settled by the review day."""
    for row in cells(known(records, records.pain_unread, "date")):
        wrong = set(row["wrong"].split(","))
        if "settled" not in wrong and _by(row["settled"], records.as_of):
            continue
        stops = _EVERYTHING if _grave(row, wrong, trade) else _loading(row, trade)
        yield of_row(row, "pain_row", row["found"], stops=stops, lift=row["lift"])


def _grave(row: dict[str, Any], wrong: set[str], trade: Trade) -> bool:
    """Whether it may be anything anywhere: place or kind is not known, or its words tell of an injury."""
    if wrong & {_WHOLE_ROW, "place", "kind"} or not row["place"] or row["kind"] in pain.STOP:
        return True
    words = fold(f"{row['place']} {row['remark']} {row['found']}")
    meant = {form for form, kind in trade.words["pain"].items() if kind in pain.STOP}
    return any(f" {form} " in f" {''.join(c if c.isalnum() else ' ' for c in words)} " for form in meant)


def _loading(row: dict[str, Any], trade: Trade) -> tuple[str, ...]:
    lifts = loading(row["place"], row["lift"], trade)
    return _EVERYTHING if len(lifts) == len(trade.lifts) else lifts


def _away(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Injury and illness that can't be read or have no end count as still there; an injury until its end.

    A reason that nobody knows may be an operation or a birth, which no end is a clearance of: it counts for a
    year, as what words tell of them does.
    """
    recent = records.as_of - dt.timedelta(days=int(trade.value("told_days")))
    for row in cells(known(records, records.away_unread, "from")):
        wrong = set(row["wrong"].split(","))
        over = "to" not in wrong and _by(row["to"], records.as_of - dt.timedelta(days=1))
        unknown = bool({"reason", _WHOLE_ROW} & wrong)
        if over and unknown:
            over = _by(row["to"], recent)
        harmless = "reason" not in wrong and _WHOLE_ROW not in wrong and row["reason"] not in UNFIT
        if over or harmless:
            continue
        if row["reason"] in UNFIT and wrong == {"to"}:
            yield of_row(row, "away_open", row["reason"])
        else:
            yield of_row(row, "away_row", row["found"])
    for row in cells(known(records, records.away, "from")):
        if row["reason"] == "injury" and not _by(row["to"], records.as_of - dt.timedelta(days=1)):
            span = f"{row['from'].date().isoformat()} to {row['to'].date().isoformat()}"
            yield of_row(row, "injury_away", span)


def ill_until(records: Records) -> dt.date | None:
    """The last day of an illness that lasts beyond the review day."""
    ends = [
        row["to"].date()
        for row in cells(known(records, records.away, "from"))
        if row["reason"] == "illness" and not _by(row["to"], records.as_of)
    ]
    return max(ends, default=None)


def _by(stamp: Any, day: dt.date) -> bool:
    return bool(pd.notna(stamp)) and stamp.date() <= day


def _files(records: Records) -> Iterator[Unsure]:
    """Files of pain and of days away that nobody could read, under their own name or another."""
    rows = {*records.pain_unread["file"], *records.away_unread["file"]}
    empty = {one.file for one in records.sources if not one.content.strip(b"\xef\xbb\xbf \t\r\n")}
    for entry in records.ledger:
        if entry.kind not in ("pain", "away") or entry.rows_used or entry.file in rows | empty:
            continue
        if any(problem.level == "error" for problem in entry.problems):
            reason = f"{entry.kind}_file"
        elif entry.file != f"{entry.kind}.csv" and entry.problems:
            reason = f"{entry.kind}_stranger"
        else:
            continue
        yield Unsure(file=entry.file, line=0, reason=reason, stops=_EVERYTHING)


def unread(records: Records, trade: Trade) -> Iterator[Unsure]:
    """A log of which so much could not be read that nothing counted in it holds."""
    if records.sets_unread.empty:
        return
    first, last = (
        stamp(records.as_of - dt.timedelta(days=int(trade.value("unread_days")))),
        stamp(records.as_of),
    )
    others = told.others(records, "one_lifter", "other_row", "done")
    lost = records.sets_unread.loc[records.sets_unread["date"].between(first, last), ["file", "line"]]
    beside = {entry.file for entry in records.ledger if entry.kind not in ("training", "attempts")}
    lost = lost.loc[~lost["file"].isin(beside)]
    lost = lost.loc[[place not in others for place in zip(lost["file"], lost["line"], strict=True)]]
    done = records.sets.loc[records.sets["date"].between(first, last) & (records.sets["kind"] == "training")]
    rows = len(lost) + len(done.drop_duplicates(["file", "line", "lift"]))
    if len(lost) and len(lost) > trade.value("unread_share") * rows:
        found = say("doubts.parts.unread", n=len(lost), rows=rows)
        file = str(lost["file"].mode().iloc[0])
        yield Unsure(file=file, line=0, reason="unread", stops=_EVERYTHING, found=found)


def born(records: Records, trade: Trade) -> Iterator[Unsure]:
    """A year of birth that can't be read or believed counts as under 18; so does an age told beside none."""
    lifter = records.lifter
    if lifter.born is None and not lifter.born_found and not lifter.born_kept_back:
        ages = told.ages(records, trade)
        if young := next((one for one in ages if one[1] < trade.value("youth_age")), None):
            yield of_row(young[0].row, "born_told", young[2], stops=(HEAVY,))
    if lifter.born is None and lifter.born_found:
        yield Unsure(
            file=LIFTER_TOML, line=lifter.born_line, reason="born", stops=(HEAVY,), found=lifter.born_found
        )
    if lifter.born is not None:
        age = records.as_of.year - lifter.born
        if not trade.value("born_age_low") <= age <= trade.value("born_age_high"):
            yield Unsure(
                file=LIFTER_TOML, line=0, reason="born_belief", stops=(HEAVY,), found=str(lifter.born)
            )


def is_youth(records: Records, trade: Trade) -> bool:
    """Whether the lifter is or may be under 18.

    Only the year is known, so the careful answer is given; a year that can't be read or believed counts as
    under 18.
    """
    year = records.lifter.born
    if any(born(records, trade)):
        return True
    return year is not None and records.as_of.year - year <= trade.value("youth_age")
