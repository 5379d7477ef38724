"""What came before new bests and before runs of misses, where it came before most of them. Never why."""

from collections.abc import Iterator, Sequence
from typing import Literal

import pandas as pd

from reportgen.analysis.exposure import is_full
from reportgen.analysis.spans import Spans, spans, tonnage
from reportgen.analysis.when import day
from reportgen.model.dossier import Tables
from reportgen.model.findings import CameBefore
from reportgen.model.say import Say, say
from reportgen.trade.schema import Trade

Lifts = tuple[str, ...]
_Days = tuple[pd.Timestamp, ...]
_Sign = tuple[str, str]  # what, and of which lift


def bests(tables: Tables, lifts: Lifts, as_of: pd.Timestamp, trade: Trade) -> tuple[CameBefore, ...]:
    """Every new best of the goal's lifts of the last year; the first single of a lift is none."""
    table = tables.running_best
    raised = table.loc[table.duplicated("lift") & (table["date"] > _since(as_of, trade)), "date"]
    return _told("bests", [(date,) for date in sorted(set(raised))], tables, lifts, trade)


def misses(tables: Tables, lifts: Lifts, as_of: pd.Timestamp, trade: Trade) -> tuple[CameBefore, ...]:
    """Every run of heavy misses of a goal lift, on one day or on two neighbouring ones, of the last year."""
    table = tables.misses
    heavy = table.loc[
        table["lift"].isin(lifts)
        & (table["share"] >= trade.value("miss_share"))
        & (table["date"] > _since(as_of, trade))
    ]
    found = {
        run
        for _, mine in heavy.groupby("lift")
        for run in _runs(mine.groupby("date")["count"].sum(), trade.value("miss_run"))
    }
    return _told("misses", sorted(found), tables, lifts, trade)


def _since(as_of: pd.Timestamp, trade: Trade) -> pd.Timestamp:
    return as_of - pd.Timedelta(days=int(trade.value("before_since_days")))


def _runs(lost: pd.Series, least: float) -> Iterator[_Days]:
    """Days with so many misses, alone or with the day after; no day belongs to two runs."""
    used: pd.Timestamp | None = None
    lost = lost.sort_index()
    for date, count in zip(pd.DatetimeIndex(lost.index), lost.tolist(), strict=True):
        after = date + pd.Timedelta(days=1)
        if date == used:
            continue
        if count >= least:
            yield (date,)
        elif count + lost.get(after, 0) >= least:
            used = after
            yield (date, after)


def _told(
    what: Literal["bests", "misses"],
    events: Sequence[_Days],
    tables: Tables,
    lifts: tuple[str, ...],
    trade: Trade,
) -> tuple[CameBefore, ...]:
    """The events, each with what came before it and before most of the others.

    Events whose days before overlap are no two witnesses: only the first of them is counted.
    """
    if not events:
        return ()
    span, daily = trade.value("before_days"), tonnage(tables.sets)
    first, load = daily["date"].min(), daily.groupby("date")["kg"].sum()
    rows = tables.sets.loc[is_full(tables.sets, lifts), ["date", "session_id"]]
    full = rows.groupby("date")["session_id"].nunique()
    seen: dict[_Days, frozenset[_Sign]] = {}
    last = None
    for event in events:
        held = spans(event[0], span, first, trade)
        if held is not None and (last is None or (event[0] - last).days >= span):
            seen[event], last = _signs(held, daily, (load, full), trade), event[0]
    told = _alike(what, seen, trade)
    return tuple(
        CameBefore(
            dates=tuple(day(date) for date in event),
            told=told[1] if told is not None and told[0] in seen.get(event, ()) else None,
        )
        for event in events
    )


def _signs(
    held: Spans, daily: pd.DataFrame, sums: tuple[pd.Series, pd.Series], trade: Trade
) -> frozenset[_Sign]:
    more, found = trade.value("pain_more_share"), set[_Sign]()
    for what, share in zip(("load", "full"), map(held.share, sums), strict=True):
        if share is not None and abs(share - 1) >= more:
            found.add((f"{what}_{'more' if share > 1 else 'less'}", ""))
    then, now = held.sides(daily, "lift")
    if now:
        found |= {("new", lift) for lift in now - then} | {("left", lift) for lift in then - now}
    return frozenset(found)


def _alike(what: str, seen: dict[_Days, frozenset[_Sign]], trade: Trade) -> tuple[_Sign, Say] | None:
    """The sign that came before most of them, where these are three or more and most of all."""
    counts = pd.Series([sign for signs in seen.values() for sign in signs], dtype=object).value_counts()
    if counts.empty:
        return None
    sign = min(counts.index, key=lambda one: (-counts[one], one))
    times = int(counts[sign])
    if times < trade.value("before_alike") or times < trade.value("before_alike_share") * len(seen):
        return None
    held = say(f"needs.before.held.{sign[0]}", lift=sign[1])
    return sign, say(f"needs.before.{what}", times=times, of=len(seen), held=held)
