"""Said and done: what the coach kept, changed or dropped, and what became of the thing that it was about."""

import datetime as dt
from collections.abc import Hashable
from typing import Any, Literal

import pandas as pd

from reportgen.analysis import bests, outcome
from reportgen.analysis.needs.signs import Given
from reportgen.model.findings import Need, SaidDone
from reportgen.model.say import say


def said_and_done(given: Given, needs: tuple[Need, ...]) -> tuple[SaidDone, ...] | None:
    """Each decision up to as_of beside what became of its finding since.

    Args:
        given: The lifter today.
        needs: The needs of today.

    Returns:
        By date and line; None without a decisions file.
    """
    table = given.records.decisions
    table = table.loc[table["date"] <= pd.Timestamp(given.as_of)]
    if table.empty:
        return None
    table = table.sort_values(["date", "file", "line"], kind="stable")
    best = given.scored.loc[given.scored["lift"] == given.lifts[0]]
    ranks = {need.id: need.rank for need in needs}
    return tuple(_one(given, cells, best, ranks) for cells in table.to_dict("records"))


def _one(given: Given, cells: dict[Hashable, Any], best: pd.DataFrame, ranks: dict[str, int]) -> SaidDone:
    when: dt.date = cells["date"].date()
    check: dt.date | None = None if pd.isna(cells["check"]) else cells["check"].date()
    finding, verdict = str(cells["finding"]), str(cells["verdict"])
    became = outcome.read(given, finding, when)
    rank = ranks.get(finding)
    due = check is None or check <= given.as_of
    told = became.outcome if due or became.outcome in ("better", "unknown") else "too early"
    followed = verdict != "dropped"
    known = {"better": True, "same": False, "worse": False}
    said = [became.said] if became.said is not None else []
    later = [say("needs.decided.later", check=check)] if check is not None and not due else []
    return SaidDone(
        date=when,
        finding=finding,
        verdict=verdict,
        why=str(cells["why"]),
        check=check,
        state=_state(became.outcome, rank),
        rank=rank,
        due=due,
        gain_kg=bests.gained(best, pd.Timestamp(when)),
        outcome=told,
        proved=known.get(told) if followed else None,
        text=say(
            "needs.decided.said",
            verdict=verdict,
            date=when,
            outcome=say(f"needs.outcome.{told.replace(' ', '_')}"),
            more=(*said, *later) or "",
        ),
        file=str(cells["file"]),
        line=int(cells["line"]),
    )


def _state(became: str, rank: int | None) -> Literal["first", "listed", "gone", "unknown"]:
    if became == "unknown":
        return "unknown"
    return "first" if rank == 1 else "listed" if rank else "gone"
