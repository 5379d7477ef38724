"""Where the goal weight has already been: pulled, stood up, overhead, from the hang, from the floor."""

import datetime as dt
from collections import Counter, defaultdict
from typing import Final, Literal, get_args

import pandas as pd

from reportgen.analysis.frames import plain
from reportgen.model.facts import GoalWeightFact
from reportgen.trade.schema import Trade

Part = Literal["pulled", "squatted", "overhead", "hang", "floor"]
#: What of a set says what was handled.
_HANDLED: Final = ["lift", "tried", "made_reps", "date"]


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
        heavy = sets.loc[(sets["load_kg"] >= edge_kg) & (sets["tried"] > 0), _HANDLED]
        times, made, last = Counter[str](), Counter[str](), dict[str, dt.date]()
        for lift, tried, went, date in plain(heavy):
            times[lift] += tried
            made[lift] += went
            last[lift] = date.date()  # by date
        kinds: dict[str, Counter[str]] = defaultdict(Counter)
        failed = misses.loc[misses["load_kg"] >= edge_kg, ["lift", "kind", "count"]]
        for lift, kind, count in plain(failed):
            kinds[lift][kind] += count
        for part in get_args(Part):
            lifts = trade.goal_weight[goal_lift][part]
            logged = [lift for lift in lifts if lift in known]
            for lift in logged or lifts[:1]:
                found.append(
                    GoalWeightFact(
                        part=part,
                        lift=lift,
                        times=times[lift],
                        made=made[lift],
                        misses=dict(sorted(kinds[lift].items())),
                        heaviest_kg=heaviest.get(lift),
                        last=last.get(lift),
                        goal_lift=goal_lift,
                        goal_kg=goal_kg,
                    )
                )
    return tuple(found)
