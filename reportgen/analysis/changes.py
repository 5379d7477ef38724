"""What changed since a day, or since an earlier dossier: two facts files compared, nothing measured anew.

Both sides are facts as JSON data, so that an earlier dossier of any version can stand on one of them: what
an older version did not hold is simply not known there.
"""

import datetime as dt
from typing import Any

import pandas as pd

from reportgen.analysis import bests, followed, needs, outcome
from reportgen.analysis.earlier import could_find, goal, read, unlogged
from reportgen.analysis.testdays import scatter_of
from reportgen.model.changes import (
    Changes,
    CheckpointChange,
    LoadChange,
    NeedChanges,
    PositionChange,
)
from reportgen.model.dossier import Dossier
from reportgen.model.say import Say, say
from reportgen.trade.claims import called
from reportgen.trade.schema import Trade

Json = dict[str, Any]


def between(
    before: Json,
    now: Json,
    *,
    source: str,
    trade: Trade,
    sets: pd.DataFrame | None = None,
    made: Dossier | None = None,
) -> Changes:
    """Compare two facts files of one lifter.

    Args:
        before: The earlier facts, as JSON data of any version.
        now: The facts of today, as JSON data.
        source: Where `before` is from, for the page.
        trade: The noise of a lift and of a position.
        sets: Prepared sets of today, to set what an earlier dossier proposed against what was done; None
            where nobody read such a proposal.
        made: The dossier of today, to judge the first need of that day by the thing itself.

    Returns:
        Only what is known on at least one side; an unknown side is None.

    Raises:
        UnreadableError: `before` holds no review day, or is of a newer version.
    """
    then = read(before)
    before, since = then.facts, then.as_of
    begins = unlogged(before, now)
    plan = followed.plan(now, since, trade)
    proposed = None
    if sets is not None:
        day = dt.date.fromisoformat(now["as_of"])
        proposed = followed.proposal(before.get("block"), sets, since, day, trade)
    missing = _missing(before, now)
    broken = {"positions" if table == "screening" else table for table in then.unread}
    return Changes(
        since=since,
        source=source,
        retest=_retest(before, made, since, trade) if made is not None and begins is None else None,
        **_gap(before, now, trade),
        **_sessions(before, now, since),
        bests=_bests(before, now, trade, known=begins is None),
        indicators=_indicators(before, now, trade, known=begins is None),
        needs=_needs(before, now) if begins is None else None,
        screening=() if "positions" in missing else _screening(before, now),
        technique=() if "technique" in missing else _technique(before, now),
        sessions_planned=plan.sessions_planned if plan is not None else None,
        sessions_done=plan.sessions_done if plan is not None else None,
        followed=tuple(one for one in (proposed, plan) if one is not None),
        missing=tuple(part for part in missing if part not in broken) if begins is None else (),
        unread=tuple(say(f"analysis.earlier.part.{table}") for table in then.unread),
        log_begins=begins,
    )


def _retest(before: Json, made: Dossier, since: dt.date, trade: Trade) -> Say | None:
    """What became of the first need of that day; None where there was none or nothing tells."""
    first = next(iter(before.get("needs") or ()), None)
    if first is None:
        return None
    scored = bests.scoring(made.tables.sets, made.records.lifter.bests, pd.Timestamp(made.facts.as_of))
    asked = needs.given(made.records, made.facts, made.tables, scored, trade)
    became = outcome.read(asked, str(first.get("id", "")), since)
    if became.said is None:
        return None
    verdict = say(f"needs.outcome.{became.outcome.replace(' ', '_')}")
    return say("needs.decided.retest", called=called(str(first["id"])), outcome=verdict, more=became.said)


def _missing(before: Json, now: Json) -> tuple[str, ...]:
    """Parts that are known now and of which nothing was then: all of it would seem to be new."""
    rows = (("positions", "screening", "items"), ("technique", "technique", "checkpoints"))
    return tuple(
        said
        for said, table, name in rows
        if (now.get(table) or {}).get(name) and not (before.get(table) or {}).get(name)
    )


def _gap(before: Json, now: Json, trade: Trade) -> Json:
    """What is missing to the goal, then and now, beside the usual scatter of its lift."""
    old, new = goal(before), goal(now)
    same_lift = old.get("lift") == new.get("lift")
    then, today = old.get("gap_kg") if same_lift else None, new.get("gap_kg")
    moved = same_lift and old.get("goal_kg") != new.get("goal_kg")
    found = {
        "gap_before_kg": then,
        "gap_now_kg": today,
        "goal_before_kg": old.get("goal_kg") if moved else None,
    }
    if then is None or today is None or not old.get("current_kg") or not new.get("current_kg"):
        return found
    scatter, lifted = (
        old["current_kg"] * scatter_of(new["lift"], trade),
        new["current_kg"] - old["current_kg"],
    )
    apart = lifted if moved else today - then
    return found | {
        "gap_scatter_kg": scatter,
        "gap_clear": abs(apart) > scatter,
        "lift_change_kg": lifted,
    }


def _sessions(before: Json, now: Json, since: dt.date) -> Json:
    """Sessions with the full lift a week, in the whole weeks after a day and in as many up to it.

    One session more or fewer is chance: means that lie no further apart than that makes do not differ.
    """
    as_of = dt.date.fromisoformat(now["as_of"])
    after = [week for week in _weeks(now) if followed.monday(week) > since and _over(week, as_of)]
    found = {"full_now_per_week": _mean(after), "full_before_per_week": None, "full_weeks_now": len(after)}
    if not after or goal(before).get("lift", goal(now).get("lift")) != goal(now).get("lift"):
        return found
    up_to = [week for week in _weeks(before) if _over(week, since)][-len(after) :]
    if not up_to:
        return found
    then, today, band = _mean(up_to), _mean(after), 1 / min(len(up_to), len(after))
    apart = abs((today or 0.0) - (then or 0.0))
    return found | {
        "full_before_per_week": then,
        "full_weeks_before": len(up_to),
        "full_band": band,
        "full_clear": apart > band + 1e-9,
    }


def _weeks(facts: Json) -> list[Json]:
    return (facts.get("exposure") or {}).get("weeks") or []


def _over(week: Json, day: dt.date) -> bool:
    """Whether a week ended by a day."""
    return followed.monday(week) + dt.timedelta(days=6) <= day


def _mean(weeks: list[Json]) -> float | None:
    return sum(week["full"] for week in weeks) / len(weeks) if weeks else None


def _moved(before: float | None, now: float | None, lift: str, trade: Trade) -> Json:
    """Change of a load, and whether it lies beyond the usual scatter."""
    if before is None or now is None or before <= 0:
        return {"change_kg": None, "change_share": None, "clear": None}
    share, scatter = (now - before) / before, scatter_of(lift, trade)
    return {
        "change_kg": now - before,
        "change_share": share,
        "clear": abs(share) > scatter,
        "scatter_kg": before * scatter,
    }


def _bests(before: Json, now: Json, trade: Trade, *, known: bool) -> tuple[LoadChange, ...]:
    """The current single of every lift that has one on either side and moved; unless that day is `known` only
    of those that have one on both.
    """
    if before.get("current") is None:
        return ()
    then = {row["lift"]: row["kg"] for row in before["current"]}
    today = {row["lift"]: row["kg"] for row in now.get("current") or []}
    return tuple(
        LoadChange(
            id="",
            lift=lift,
            before_kg=then.get(lift),
            now_kg=today.get(lift),
            **_moved(then.get(lift), today.get(lift), lift, trade),
        )
        for lift in sorted(set(then) | set(today))
        if then.get(lift) != today.get(lift) and (known or then.get(lift) is not None)
    )


def _indicators(before: Json, now: Json, trade: Trade, *, known: bool) -> tuple[LoadChange, ...]:
    if before.get("indicators") is None:
        return ()
    then = {row["id"]: row for row in before["indicators"]}
    today = {row["id"]: row for row in now.get("indicators") or ()}
    found = []
    for name, new in today.items():
        old = then.get(name, {})
        if new.get("context") or (old.get("current_kg") is None and new["current_kg"] is None):
            continue
        if not known and old.get("current_kg") is None:
            continue
        found.append(
            LoadChange(
                id=name,
                lift=new["lift"],
                before_kg=old.get("current_kg"),
                now_kg=new["current_kg"],
                before_reading=old.get("reading", ""),
                now_reading=new["reading"],
                **_moved(old.get("current_kg"), new["current_kg"], new["lift"], trade),
            )
        )
    return tuple(found)


def _needs(before: Json, now: Json) -> NeedChanges | None:
    """Needs that went, stayed, came and became questions; None where one side never ranked any."""
    if before.get("needs") is None or now.get("needs") is None:
        return None
    then = {need["id"]: need for need in before["needs"]}
    today = {need["id"]: need for need in now["needs"]}
    came = {name: could_find(before, need) for name, need in today.items() if name not in then}
    # A finding that is now only asked about is not gone.
    asks = {one.get("id") for one in now.get("not_tested") or () if one.get("kind") == "question"}
    asked = tuple(name for name in then if name not in today and name in asks)
    gone = {name: could_find(now, need) for name, need in then.items() if name not in (*today, *asked)}
    return NeedChanges(
        gone=tuple(name for name, sure in gone.items() if sure),
        stayed=tuple(name for name in today if name in then),
        came=tuple(name for name, sure in came.items() if sure),
        unsure=tuple(name for name, sure in {**came, **gone}.items() if not sure),
        asked=asked,
        first=next(iter(then), ""),
    )


def _screening(before: Json, now: Json) -> tuple[PositionChange, ...]:
    """Positions read on either side; only like conditions are compared."""
    then = {(row["item"], row["side"]): row for row in (before.get("screening") or {}).get("items", [])}
    found = []
    for row in (now.get("screening") or {}).get("items", []):
        old = then.get((row["item"], row["side"]), {})
        if old.get("latest_date") == row["latest_date"]:
            continue
        alike = bool(old) and old.get("conditions", "") == row["conditions"]
        alike = alike and not old.get("contradicted") and not row.get("contradicted")
        both = alike and old.get("latest") is not None and row["latest"] is not None
        change = row["latest"] - old["latest"] if both else None
        least = row.get("smallest_real_change")
        found.append(
            PositionChange(
                item=row["item"],
                side=row["side"],
                unit=row["unit"],
                before=old.get("latest"),
                now=row["latest"],
                before_grade=old.get("grade", ""),
                now_grade=row["grade"],
                change=change,
                clear=None if change is None or least is None else abs(change) >= least,
            )
        )
    return tuple(found)


def _technique(before: Json, now: Json) -> tuple[CheckpointChange, ...]:
    """Checkpoints whose latest grade is another one, or was not graded then."""
    rows = (before.get("technique") or {}).get("checkpoints", [])
    then = {(row["checkpoint"], row["lift"]): row["latest"] for row in rows}
    return tuple(
        CheckpointChange(
            checkpoint=row["checkpoint"],
            lift=row["lift"],
            before=then.get((row["checkpoint"], row["lift"]), ""),
            now=row["latest"],
        )
        for row in (now.get("technique") or {}).get("checkpoints", [])
        if then.get((row["checkpoint"], row["lift"]), "") != row["latest"]
    )
