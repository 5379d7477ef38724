"""Each indicator against its band, whether its figure was a limit, and the goal lift that it supports."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pandas as pd

from reportgen.analysis import bests, frames, goals
from reportgen.analysis.when import stamp
from reportgen.model.facts import CurrentFact, GoalFact, IndicatorFact, Limit, Reading
from reportgen.model.lifter import CoachBand
from reportgen.model.records import Records
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Band, Trade

#: What tells whether a load was a limit.
_LIMITED: Final = ("counts", "load_kg", "missed", "effort", "reps", "session_id")


@dataclass(frozen=True, slots=True, kw_only=True)
class Now:
    """The current weeks of the log: what every indicator is read from."""

    rows: pd.DataFrame  # `bests.scoring` rows of the current weeks
    sets: pd.DataFrame  # lift and `_LIMITED` of the prepared sets of the current weeks
    singles: dict[str, CurrentFact]


def coached(bands: Sequence[Band], own: tuple[CoachBand, ...], trade: Trade) -> tuple[Band, ...]:
    """The bands in force: a coach's own one takes the place of the table's."""
    mine = {band.indicator: band for band in own}
    return tuple(
        replace(
            band,
            low=(low := mine[band.id].low),
            high=mine[band.id].high,
            short_at=None if low is None else low * (1 - trade.value("short_tolerance")),
            short_at_inclusive=False,
            source="coach",
            status="coach",
            borrowed=False,
            alternative_reps=None,
            note="",
        )
        if band.id in mine and band.base == "goal"
        else band
        for band in bands
    )


def of_goal(
    records: Records,
    scored: pd.DataFrame,
    sets: pd.DataFrame,
    current: tuple[CurrentFact, ...],
    goal: GoalFact,
    trade: Trade,
) -> tuple[IndicatorFact, ...] | None:
    """The indicators of one goal, in the order of the table, what only stands beside last.

    Returns:
        `current_kg` None and reading untested where a lift has no current single; None where the goal
        weight is not known.
    """
    targets = goals.targets(goal)
    if not targets:
        return None
    first = bests.since(stamp(records.as_of), records.lifter.weeks_current)
    bands = [band for lift in targets for band in trade.indicator_bands(lift, records.lifter.standards)]
    now = Now(
        rows=scored.loc[scored["date"] >= first],
        sets=sets.loc[sets["date"] >= first, ["lift", *_LIMITED]],
        singles={fact.lift: fact for fact in current},
    )
    bands = sorted(coached(bands, records.lifter.bands, trade), key=lambda band: band.context)
    return tuple(_one(band, targets, now, trade) for band in bands)


def _one(band: Band, targets: dict[str, float], now: Now, trade: Trade) -> IndicatorFact:
    single, present = now.singles.get(band.lift), now.singles.get(band.goal_lift)
    present_kg = present.kg if present else None
    base_kg = targets.get(band.goal_lift) if band.base == "goal" else present_kg
    kg = single.kg if single else None
    # A clean or a jerk is done in every clean and jerk: alone under that it was no limit.
    whole = trade.lifts[band.lift].role == "part" and kg is not None and (present_kg or 0.0) > kg
    if whole:
        single, kg = present, present_kg
    fact: dict[str, Any] = {
        "id": band.id,
        "lift": band.lift,
        "goal_lift": band.goal_lift,
        "current_kg": kg,
        "low_kg": _times(band.low, base_kg),
        "high_kg": _times(band.high, base_kg),
        "low": band.low,
        "high": band.high,
        "base": band.base,
        "reading": "untested",
        "source": band.source,
        "status": band.status,
        "context": band.context,
        "note": say("analysis.indicator.own") if band.status == "coach" else band.note,
    }
    if kg is None or single is None or single.date is None:
        return IndicatorFact(**fact)
    rows = now.rows.loc[now.rows["lift"] == (band.goal_lift if whole else band.lift)]
    limit = "open" if whole else limit_of(now.sets.loc[now.sets["lift"] == band.lift], rows, trade)
    fact |= {
        "supports_low_kg": kg / band.high if band.high is not None else None,
        "supports_high_kg": kg / band.low if band.low is not None else None,
        "limit": limit,
        "current_date": single.date,
        "present_share": kg / present_kg if present_kg else None,
        "days_apart": abs((single.date - present.date).days) if present and present.date else None,
        "file": rows["file"].iloc[0],
        "line": int(rows["line"].iloc[0]),
    }
    if base_kg is not None:
        reading = _reading(band, base_kg, kg, rows, limit, trade)
        low_kg = fact["low_kg"]
        # A load that was never a limit is no shortfall: it carries at least so much.
        if low_kg is not None and limit != "open":
            fact["shortfall_kg"] = 0.0 if reading in ("within", "beyond") else max(0.0, low_kg - kg)
        fact["reading"] = reading
    return IndicatorFact(**fact)


def _times(share: float | None, base_kg: float | None) -> float | None:
    return None if share is None or base_kg is None else share * base_kg


def limit_of(sets: pd.DataFrame, rows: pd.DataFrame, trade: Trade) -> Limit:
    """Whether the heaviest load of one lift was a limit.

    Args:
        sets: `_LIMITED` of the sets of the lift in the current weeks.
        rows: `bests.scoring` rows of the lift in the current weeks, heaviest first, not empty.
        trade: Rules.

    Returns:
        shown: missed above it, effort 9 or more at it, or made on a contest or test day; near: the
        heaviest of six or more sessions at three repetitions or fewer; open: not taken to a limit.
    """
    edge = trade.value("edge_kg")
    top = float(rows["load_kg"].iloc[0])
    counts, kg, missed, effort, reps, session = frames.arrays(sets, *_LIMITED)
    missed_above = (counts & (missed > 0) & (kg > top + edge)).any()
    hard = (counts & (np.abs(kg - top) <= edge) & (effort >= trade.value("limit_effort"))).any()
    tested = rows["kind"].to_numpy()[np.abs(rows["load_kg"].to_numpy() - top) <= edge] != "training"
    if missed_above or hard or tested.any():
        return "shown"
    few = len(np.unique(session[counts & (reps <= trade.value("near_most_reps"))]))
    return "near" if few >= trade.value("near_sessions") else "open"


def _reading(
    band: Band, base_kg: float, kg: float, rows: pd.DataFrame, limit: Limit, trade: Trade
) -> Reading:
    """Where a figure lies: edges belong to the band and are compared to a hundredth of a kilogram."""
    edge = trade.value("edge_kg")
    if band.alternative_reps is not None and band.alternative_share is not None:
        several = rows.loc[rows["made"] >= band.alternative_reps, "load_kg"]
        if len(several) and several.max() >= band.alternative_share * base_kg - edge:
            kg = max(kg, (band.low or 0.0) * base_kg)
    if band.high is not None and kg > band.high * base_kg + edge:
        return "beyond"
    if band.low is None or kg >= band.low * base_kg - edge:
        return "within"
    if limit == "open":
        return "untested"
    if band.short_at is None:
        return "lean"
    short_kg = band.short_at * base_kg
    short = kg <= short_kg + edge if band.short_at_inclusive else kg < short_kg - edge
    return "short" if short else "lean"
