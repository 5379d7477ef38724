"""Made of tried by zone, with intervals; kinds of miss; the sure weight."""

import pandas as pd

from reportgen.analysis.frames import each
from reportgen.model.ability import AbilityFact
from reportgen.model.facts import MakeRateFact, PartRate, SureWeightFact
from reportgen.trade import formulas
from reportgen.trade.schema import Trade

ROLES = ("goal", "part", "derivative", "overhead", "squat", "press")


def make_rates(sets: pd.DataFrame, misses: pd.DataFrame, trade: Trade) -> tuple[MakeRateFact, ...]:
    """Make rates of every lift but pulls, by zone of the reference known on that day.

    Args:
        sets: Prepared sets; rows without a reference are left out.
        misses: `frames.expand_misses`.
        trade: Zones and the interval.

    Returns:
        One fact a lift and zone with a try, by lift and zone; a clean and jerk has its parts apart.
    """
    known = sets.loc[sets["share"].notna() & (sets["tried"] > 0) & sets["role"].isin(ROLES)]
    zone = formulas.zone_indices(known["share"], trade.zones)
    counts = known.assign(zone=zone).groupby(["lift", "zone"])[["tried", "made_reps"]].sum()
    kinds = misses.loc[misses["share"].notna()]
    kind_zone = formulas.zone_indices(kinds["share"], trade.zones)
    by_kind = kinds.assign(zone=kind_zone).groupby(["lift", "zone", "kind"])["count"].sum()
    missed: dict[tuple[str, int], dict[str, int]] = {}
    for row in each(by_kind.reset_index()):
        missed.setdefault((row.lift, row.zone), {})[row.kind] = int(row.count)
    return tuple(
        _rate(
            row.lift,
            row.zone,
            int(row.tried),
            int(row.made_reps),
            missed.get((row.lift, row.zone), {}),
            trade,
        )
        for row in each(counts.reset_index())
    )


def _rate(lift: str, zone: int, tried: int, made: int, kinds: dict[str, int], trade: Trade) -> MakeRateFact:
    low, high = formulas.wilson(made, tried)
    return MakeRateFact(
        lift=lift,
        zone_low=trade.zones[zone].low,
        zone_high=trade.zones[zone].high,
        tried=tried,
        made=made,
        rate=made / tried,
        rate_low=low,
        rate_high=high,
        misses=kinds,
        parts=_parts(tried, kinds) if lift == "clean and jerk" else (),
    )


def _parts(tried: int, kinds: dict[str, int]) -> tuple[PartRate, ...]:
    """The clean and the jerk apart: a jerk is tried only where the clean was made.

    Misses that name neither are in no part; the jerks are counted over the tries whose clean is known
    to have been made.
    """
    cleans_missed = kinds.get("clean", 0)
    jerks_missed = kinds.get("jerk", 0) + kinds.get("press-out", 0) + kinds.get("elbow", 0)
    unclear = sum(kinds.values()) - cleans_missed - jerks_missed
    jerks = tried - cleans_missed - unclear
    return (
        _part("clean", tried - unclear, tried - unclear - cleans_missed),
        _part("jerk", jerks, jerks - jerks_missed),
    )


def _part(name: str, tried: int, made: int) -> PartRate:
    if tried <= 0:
        return PartRate(part=name, tried=0, made=0, rate=None, rate_low=None, rate_high=None)
    low, high = formulas.wilson(made, tried)
    return PartRate(part=name, tried=tried, made=made, rate=made / tried, rate_low=low, rate_high=high)


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
