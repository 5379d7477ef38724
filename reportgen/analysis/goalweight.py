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
        missed = misses.loc[misses["load_kg"] >= edge_kg]
        for part in get_args(Part):
            lifts = trade.goal_weight[goal_lift][part]
            logged = [lift for lift in lifts if lift in known]
            for lift in logged or lifts[:1]:
                mine = heavy.loc[heavy["lift"] == lift]
                kinds = missed.loc[missed["lift"] == lift].groupby("kind")["count"].sum()
                found.append(
                    GoalWeightFact(
                        part=part,
                        lift=lift,
                        times=int(mine["tried"].sum()),
                        made=int(mine["made_reps"].sum()),
                        misses={str(kind): int(n) for kind, n in kinds.items()},
                        heaviest_kg=heaviest.get(lift),
                        last=day(mine["date"].max()) if len(mine) else None,
                        goal_lift=goal_lift,
                        goal_kg=goal_kg,
                    )
                )
    return tuple(found)
