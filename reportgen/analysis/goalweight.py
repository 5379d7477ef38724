"""Where the goal weight has already been: pulled, stood up, overhead, from the hang, from the floor."""

from typing import Literal, get_args

import pandas as pd

from reportgen.analysis.bests import day
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
    found: list[GoalWeightFact] = []
    for goal_lift, goal_kg in targets.items():
        edge_kg = goal_kg - trade.value("edge_kg")
        for part in get_args(Part):
            lifts = trade.goal_weight[goal_lift][part]
            logged = [lift for lift in lifts if (sets["lift"] == lift).any()]
            found += [_one(part, lift, sets, misses, edge_kg) for lift in logged or lifts[:1]]
    return tuple(found)


def _one(part: Part, lift: str, sets: pd.DataFrame, misses: pd.DataFrame, edge_kg: float) -> GoalWeightFact:
    mine = sets.loc[sets["lift"] == lift]
    heavy = mine.loc[(mine["load_kg"] >= edge_kg) & (mine["tried"] > 0)]
    made = mine.loc[mine["made_reps"] > 0, "load_kg"]
    kinds = misses.loc[(misses["lift"] == lift) & (misses["load_kg"] >= edge_kg)]
    return GoalWeightFact(
        part=part,
        lift=lift,
        times=int(heavy["tried"].sum()),
        made=int(heavy["made_reps"].sum()),
        misses={str(kind): int(n) for kind, n in kinds.groupby("kind")["count"].sum().items()},
        heaviest_kg=float(made.max()) if len(made) else None,
        last=day(heavy["date"].max()) if len(heavy) else None,
    )
