"""Said and done: what the coach kept, changed or dropped, and what came of it."""

import datetime as dt
from collections.abc import Hashable
from typing import Any

import pandas as pd

from reportgen.analysis.needs import wording
from reportgen.analysis.needs.wording import Value
from reportgen.model.findings import Need, SaidDone, Worded
from reportgen.model.records import Records
from reportgen.trade.claims import claims
from reportgen.trade.schema import Trade


def said_and_done(
    records: Records,
    scored: pd.DataFrame,
    lifts: tuple[str, ...],
    needs: tuple[Need, ...] | None,
    trade: Trade,
) -> tuple[SaidDone, ...] | None:
    """Each decision up to as_of beside what is found now and what the lift did since.

    Args:
        records: Decisions and the review day.
        scored: `bests.scoring` rows.
        lifts: The goal's lifts; the first one's best is followed.
        needs: The needs of today; None = not computed.
        trade: Rules.

    Returns:
        By date and line; None without a decisions file.
    """
    table = records.decisions
    table = table.loc[table["date"] <= pd.Timestamp(records.as_of)]
    if table.empty:
        return None
    table = table.sort_values(["date", "file", "line"], kind="stable")
    best = scored.loc[scored["lift"] == lifts[0]]
    ranks = {need.id: need.rank for need in needs or ()}
    return tuple(
        _one(cells, best, ranks, needs is not None, lifts[0], records.as_of, trade)
        for cells in table.to_dict("records")
    )


def _one(
    cells: dict[Hashable, Any],
    best: pd.DataFrame,
    ranks: dict[str, int],
    computed: bool,
    lift: str,
    as_of: dt.date,
    trade: Trade,
) -> SaidDone:
    when: dt.date = cells["date"].date()
    check: dt.date | None = None if pd.isna(cells["check"]) else cells["check"].date()
    finding, verdict = str(cells["finding"]), str(cells["verdict"])
    rank = ranks.get(finding)
    state = "first" if rank == 1 else "listed" if rank else "gone"
    if not computed or finding not in claims().findings:
        state = "unknown"
    due = check is None or check <= as_of
    gain = gained(best, when)
    least = trade.value("need_tie_kg")
    proved: bool | None = None
    if verdict != "dropped" and due and gain is not None and state != "unknown":
        proved = state == "gone" and gain >= least
    parts = _words(verdict, when, rank, state, gain, lift, None if due else check)
    return SaidDone(
        date=when,
        finding=finding,
        verdict=verdict,
        why=str(cells["why"]),
        check=check,
        state=state,  # type: ignore[arg-type]
        rank=rank,
        due=due,
        gain_kg=gain,
        proved=proved,
        text=wording.text(parts),
        parts=parts,
        file=str(cells["file"]),
        line=int(cells["line"]),
    )


def gained(best: pd.DataFrame, when: dt.date) -> float | None:
    """What a lift's best rose after a day [kg]; 0 where it did not, None where one side is not known."""
    after = best["date"] > pd.Timestamp(when)
    if not after.any() or after.all():
        return None
    return max(0.0, float(best.loc[after, "load_kg"].max() - best.loc[~after, "load_kg"].max()))


def _words(
    verdict: str,
    when: dt.date,
    rank: int | None,
    state: str,
    gain: float | None,
    lift: str,
    later: dt.date | None,
) -> Worded:
    words = claims().decisions
    template = words[state]
    if gain is not None:
        template += words["gain"] if gain > 0 else words["flat"]
    if later is not None:
        template += words["later"]
    values: dict[str, Value | Worded] = {"verdict": verdict, "date": when, "rank": rank or 0, "lift": lift}
    return wording.fill(template, values | {"gain_kg": gain or 0.0, "check": later or when})
