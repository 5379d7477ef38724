"""What changed since a day, or since an earlier dossier: two facts files compared, nothing measured anew.

Both sides are facts as JSON data, so that an earlier dossier of any version can stand on one of them: what
an older version did not hold is simply not known there.
"""

import datetime as dt
from typing import Any

from reportgen.model.changes import (
    Changes,
    CheckpointChange,
    LoadChange,
    NeedChanges,
    PositionChange,
)
from reportgen.trade.schema import Trade

Json = dict[str, Any]


def between(before: Json, now: Json, *, source: str, trade: Trade) -> Changes:
    """Compare two facts files of one lifter.

    Args:
        before: The earlier facts, as JSON data.
        now: The facts of today, as JSON data.
        source: Where `before` is from, for the page.
        trade: The noise of a lift and of a position.

    Returns:
        Only what is known on at least one side; an unknown side is None.
    """
    since = dt.date.fromisoformat(before["as_of"])
    planned = [week for week in (now.get("planned_done") or {}).get("weeks", []) if _after(week, since)]
    return Changes(
        since=since,
        source=source,
        gap_before_kg=_first_gap(before),
        gap_now_kg=_first_gap(now),
        full_before_per_week=_full(before, _weeks_between(since, now)),
        full_now_per_week=_full(now, _weeks_between(since, now)),
        bests=_bests(before, now, trade),
        indicators=_indicators(before, now, trade),
        needs=_needs(before, now),
        screening=_screening(before, now),
        technique=_technique(before, now),
        sessions_planned=sum(week["sessions_planned"] for week in planned) if planned else None,
        sessions_done=sum(week["sessions_done"] for week in planned) if planned else None,
    )


def _after(week: Json, since: dt.date) -> bool:
    return dt.date.fromisocalendar(int(week["week"][:4]), int(week["week"][6:]), 1) > since


def _weeks_between(since: dt.date, now: Json) -> int:
    return max(1, (dt.date.fromisoformat(now["as_of"]) - since).days // 7)


def _first_gap(facts: Json) -> float | None:
    goals = facts.get("goals") or [{}]
    gap: float | None = goals[0].get("gap_kg")
    return gap


def _full(facts: Json, weeks: int) -> float | None:
    """Sessions with the full lift a week over the last `weeks` weeks of a facts file."""
    rows = ((facts.get("exposure") or {}).get("weeks") or [])[-weeks:]
    return sum(row["full"] for row in rows) / len(rows) if rows else None


def _moved(before: float | None, now: float | None, lift: str, trade: Trade) -> Json:
    """Change of a load, and whether it lies beyond the usual scatter."""
    if before is None or now is None or before <= 0:
        return {"change_kg": None, "change_share": None, "clear": None}
    share = (now - before) / before
    name = "variation_clean_and_jerk" if lift.startswith("clean") else "variation_snatch"
    noise = trade.published[name].mid or 0.0
    return {"change_kg": now - before, "change_share": share, "clear": abs(share) > noise}


def _bests(before: Json, now: Json, trade: Trade) -> tuple[LoadChange, ...]:
    """The current single of every lift that has one on either side and moved."""
    then = {row["lift"]: row["kg"] for row in before.get("current") or []}
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
        if then.get(lift) != today.get(lift)
    )


def _indicators(before: Json, now: Json, trade: Trade) -> tuple[LoadChange, ...]:
    then = {row["id"]: row for row in before.get("indicators") or []}
    today = {row["id"]: row for row in now.get("indicators") or []}
    found = []
    for name, new in today.items():
        old = then.get(name, {})
        if new.get("context") or (old.get("current_kg") is None and new["current_kg"] is None):
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
    """Needs that went, stayed and came; None where one side never ranked any."""
    if before.get("needs") is None or now.get("needs") is None:
        return None
    then = [need["id"] for need in before["needs"]]
    today = [need["id"] for need in now["needs"]]
    return NeedChanges(
        gone=tuple(name for name in then if name not in today),
        stayed=tuple(name for name in today if name in then),
        came=tuple(name for name in today if name not in then),
    )


def _screening(before: Json, now: Json) -> tuple[PositionChange, ...]:
    """Positions read on either side; only like conditions are compared."""
    then = {(row["item"], row["side"]): row for row in (before.get("screening") or {}).get("items", [])}
    found = []
    for row in (now.get("screening") or {}).get("items", []):
        old = then.get((row["item"], row["side"]), {})
        if old.get("latest_date") == row["latest_date"]:
            continue
        alike = bool(old) and old.get("conditions") == row["conditions"]
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
