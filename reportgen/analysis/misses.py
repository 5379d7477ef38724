"""Made of tried by zone, with intervals; kinds of miss; the sure weight."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pandas as pd

from reportgen.analysis.frames import each
from reportgen.model.ability import AbilityFact
from reportgen.model.facts import MakeRateFact, PartRate, SureWeightFact
from reportgen.trade import formulas
from reportgen.trade.schema import Trade, Zone

ROLES = ("goal", "part", "derivative", "overhead", "squat", "press")


def by_weight(sets: pd.DataFrame, misses: pd.DataFrame, trade: Trade) -> tuple[MakeRateFact, ...]:
    """`make_rates` of the goal lifts in steps of `miss_step`: at which weights the misses lie."""
    step, first = trade.value("miss_step"), trade.zones[-2].low or 0.0
    edges = [round(first + n * step, 4) for n in range(round((1 - first) / step) + 1)]
    ends = zip([None, *edges], [*edges, None], strict=True)
    steps = tuple(replace(trade.zones[0], low=low, high=high) for low, high in ends)
    return make_rates(sets.loc[sets["role"] == "goal"], misses, trade, steps)


def make_rates(
    sets: pd.DataFrame, misses: pd.DataFrame, trade: Trade, zones: Sequence[Zone] = ()
) -> tuple[MakeRateFact, ...]:
    """Make rates of every lift but pulls, by zone of the reference known on that day.

    Args:
        sets: Prepared sets; rows without a reference are left out.
        misses: `frames.expand_misses`.
        trade: Zones and the interval.
        zones: Others than the trade's.

    Returns:
        One fact a lift and zone with a try, by lift and zone; a clean and jerk has its parts apart.
    """
    zones = zones or trade.zones
    asked = sets["share"].notna() & (sets["tried"] > 0) & sets["role"].isin(ROLES)
    known = sets.loc[asked, ["lift", "share", "tried", "made_reps"]]
    code, lifts = pd.factorize(known["lift"], sort=True)
    place = code * len(zones) + formulas.zone_indices(known["share"], zones)
    tried, made = (np.bincount(place, weights=known[name]) for name in ("tried", "made_reps"))
    kinds = misses.loc[misses["share"].notna()]
    missed: dict[tuple[str, int], Counter[str]] = defaultdict(Counter)
    for row, zone in zip(each(kinds), formulas.zone_indices(kinds["share"], zones).tolist(), strict=True):
        missed[row.lift, zone][row.kind] += row.count
    return tuple(
        MakeRateFact(
            lift=(lift := str(lifts[at // len(zones)])),
            zone_low=zones[at % len(zones)].low,
            zone_high=zones[at % len(zones)].high,
            **rates(int(made[at]), int(tried[at]), trade),
            misses=(named := dict(sorted(missed[lift, at % len(zones)].items()))),
            parts=_parts(int(tried[at]), named, trade) if lift == "clean and jerk" else (),
        )
        for at in np.flatnonzero(tried).tolist()
    )


def rates(made: int, tried: int, trade: Trade) -> dict[str, Any]:
    """Made of tried and the rate with its interval, as facts have them; no rate where nothing was tried."""
    low, high = formulas.wilson(made, tried, trade.value("rate_confidence")) if tried else (None, None)
    rate = made / tried if tried else None
    return {"tried": tried, "made": made, "rate": rate, "rate_low": low, "rate_high": high}


def _parts(tried: int, kinds: dict[str, int], trade: Trade) -> tuple[PartRate, ...]:
    """The clean and the jerk apart: a jerk is tried only where the clean was made.

    Misses that name neither are in no part; the jerks are counted over the tries whose clean is known
    to have been made.
    """
    cleans_missed = kinds.get("clean", 0)
    jerks_missed = kinds.get("jerk", 0) + kinds.get("press-out", 0) + kinds.get("elbow", 0)
    unclear = sum(kinds.values()) - cleans_missed - jerks_missed
    jerks = tried - cleans_missed - unclear
    return (
        PartRate(part="clean", **rates(jerks, tried - unclear, trade)),
        PartRate(part="jerk", **rates(jerks - jerks_missed, jerks, trade)),
    )


def sure_weight(
    sets: pd.DataFrame, able: AbilityFact | None, *, as_of: pd.Timestamp, trade: Trade
) -> SureWeightFact | None:
    """The weight made nine times in ten, with the tries at it and its change over 12 weeks.

    Returns:
        `made` and `tried` are of the tries from 5 % below it up to it: a miss with a heavier bar says nothing
        about this one. None without an ability.
    """
    if able is None:
        return None
    after = as_of - pd.Timedelta(days=7 * int(trade.value("sure_weeks")))
    edge = trade.value("edge_kg")
    rows = sets.loc[
        (sets["lift"] == able.lift)
        & (sets["variant"] == "")
        & sets["load_kg"].between(able.sure_kg * (1 - trade.value("sure_margin")) - edge, able.sure_kg + edge)
        & (sets["date"] > after)
        & (sets["date"] <= as_of)
    ]
    # It moves as the ability does.
    change = None if able.change_kg is None else able.change_kg * able.sure_kg / able.kg
    return SureWeightFact(
        lift=able.lift,
        kg=able.sure_kg,
        made=int(rows["made_reps"].sum()),
        tried=int(rows["tried"].sum()),
        change_kg=change,
    )
