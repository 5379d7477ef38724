"""Where the goal weight has already been: pulled, stood up, overhead, from the hang, from the floor."""

from typing import Literal, get_args

import pandas as pd

from reportgen.analysis.when import day
from reportgen.model.facts import GoalWeightFact
from reportgen.trade.schema import Trade

Part = Literal["pulled", "squatted", "overhead", "hang", "floor"]


def been(
    sets: pd.DataFrame, misses: pd.DataFrame, targets: dict[str, float], trade: Trade
) -> tuple[GoalWeightFact, ...]:
    """How often the goal weight or more was handled, by part and lift.

    Args:
        sets: Prepared sets up to as_of; straps and variants count, the weight was in the hands.
        misses: `frames.expand_misses`.
        targets: Goal weight by goal lift [kg].
        trade: Which lifts belong to which part.

    Returns:
        A fact for every logged lift of a part; for a part without one, its first lift with 0 times.
    """
    known = set(sets["lift"])
    heaviest = sets.loc[sets["made_reps"] > 0, ["lift", "load_kg"]].groupby("lift")["load_kg"].max().to_dict()
    found: list[GoalWeightFact] = []
    for goal_lift, goal_kg in targets.items():
        edge_kg = goal_kg - trade.value("edge_kg")
        heavy = sets.loc[(sets["load_kg"] >= edge_kg) & (sets["tried"] > 0)]
        by_lift = heavy.groupby("lift")
        times, made = (by_lift[name].sum().to_dict() for name in ("tried", "made_reps"))
        last = by_lift["date"].max().to_dict()
        failed = misses.loc[misses["load_kg"] >= edge_kg].groupby(["lift", "kind"])["count"].sum()
        kinds: dict[str, dict[str, int]] = {}
        for (name, kind), count in zip(failed.index.tolist(), failed.tolist(), strict=True):
            kinds.setdefault(name, {})[str(kind)] = int(count)
        for part in get_args(Part):
            lifts = trade.goal_weight[goal_lift][part]
            logged = [lift for lift in lifts if lift in known]
            for lift in logged or lifts[:1]:
                found.append(
                    GoalWeightFact(
                        part=part,
                        lift=lift,
                        times=int(times.get(lift, 0)),
                        made=int(made.get(lift, 0)),
                        misses=kinds.get(lift, {}),
                        heaviest_kg=heaviest.get(lift),
                        last=day(last[lift]) if lift in last else None,
                        goal_lift=goal_lift,
                        goal_kg=goal_kg,
                    )
                )
    return tuple(found)
