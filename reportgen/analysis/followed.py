"""Whether a plan was followed: the coach's plan.csv, or the block that an earlier dossier proposed."""

import datetime as dt
from typing import Any, Literal

import pandas as pd

from reportgen.analysis import planned
from reportgen.model.changes import Followed
from reportgen.model.export import as_json
from reportgen.trade.schema import Trade

Json = dict[str, Any]


def plan(now: Json, since: dt.date, trade: Trade) -> Followed | None:
    """What became of plan.csv in the whole weeks since a day; None where it holds none of them."""
    weeks = (now.get("planned_done") or {}).get("weeks") or []
    return _summed("plan", [week for week in weeks if monday(week) > since], trade)


def proposal(
    block: Json | None, sets: pd.DataFrame, since: dt.date, as_of: dt.date, trade: Trade
) -> Followed | None:
    """What became of an earlier dossier's block up to the review day.

    Args:
        block: As the earlier facts hold it.
        sets: Prepared sets up to as_of.
        since: The earlier review day: what was done up to it is no answer to the proposal.
        as_of: What is proposed for later days is not missed yet.
        trade: Rules.

    Returns:
        None where nothing was proposed; without a session where none of it was due yet.
    """
    rows = _rows(block, since)
    if not rows:
        return None
    table = pd.DataFrame(rows).astype({"date": "datetime64[s]", "load_kg": "float64"})
    done = planned.compare(
        table, sets.loc[sets["date"] > pd.Timestamp(since)], pd.Timestamp(as_of).as_unit("s"), trade
    )
    return _summed("proposal", as_json(done)["weeks"] if done is not None else [], trade) or Followed(
        what="proposal", sessions_planned=0, sessions_done=0, sets_planned=0, sets_done=0, load_off=None
    )


def _rows(block: Json | None, since: dt.date) -> list[Json]:
    """The block as rows of a plan, a row a part; a line without a load is no row of a plan.csv either."""
    lines = [
        (session["date"], line)
        for week in (block or {}).get("weeks") or ()
        for session in week["sessions"]
        for line in session["sets"]
        if line["kg"] and dt.date.fromisoformat(session["date"]) > since
    ]
    return [
        {
            "date": date,
            "session": "",
            "lift": lift,
            "variant": line.get("variant", ""),
            "sets": line["sets"],
            "load_kg": line["kg"],
            "file": "block",
            "line": number,
        }
        for number, (date, line) in enumerate(lines)
        for lift in line["lift"].split(" + ")
    ]


def _summed(what: Literal["plan", "proposal"], weeks: list[Json], trade: Trade) -> Followed | None:
    if not weeks:
        return None
    met = [(week["sets_done"], week["load_off"]) for week in weeks if week.get("load_off") is not None]
    done = sum(sets for sets, _ in met)
    off = sum(sets * off for sets, off in met) / done if done else None
    return Followed(
        what=what,
        sessions_planned=sum(week["sessions_planned"] for week in weeks),
        sessions_done=sum(week["sessions_done"] for week in weeks),
        sets_planned=sum(week["sets_planned"] for week in weeks),
        sets_done=sum(week["sets_done"] for week in weeks),
        load_off=off,
        load_near=None if off is None else abs(off) <= trade.value("followed_near"),
    )


def monday(week: Json) -> dt.date:
    """The first day of a week of the facts."""
    return dt.date.fromisocalendar(int(week["week"][:4]), int(week["week"][6:]), 1)
