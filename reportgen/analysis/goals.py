"""Where each goal stands: its weight, the present lift, the gap; a total split between its two lifts."""

import pandas as pd

from reportgen.model.facts import CurrentFact, GoalFact, Split
from reportgen.model.lifter import Goal
from reportgen.trade.schema import Trade

PAIR = ("snatch", "clean and jerk")


def lifts_of(goal: Goal | GoalFact) -> tuple[str, ...]:
    """The lifts from the floor that a goal is made of: two for a total."""
    return PAIR if goal.lift == "total" else (goal.lift,)


def body_mass(bodymass: pd.DataFrame, as_of: pd.Timestamp) -> float | None:
    """The latest body mass up to as_of [kg]; the mean of a day weighed more than once."""
    known = bodymass.loc[bodymass["date"] <= as_of]
    if known.empty:
        return None
    return float(known.loc[known["date"] == known["date"].max(), "mass_kg"].mean())


def stand(
    goals: tuple[Goal, ...], current: tuple[CurrentFact, ...], mass_kg: float | None, trade: Trade
) -> tuple[GoalFact, ...]:
    """Each goal against the present lift.

    Returns:
        One fact a goal, in order. `gap_kg` is 0 for a goal that has been reached.
    """
    singles = {fact.lift: fact for fact in current}
    return tuple(_one(goal, singles, mass_kg, trade) for goal in goals)


def _one(goal: Goal, singles: dict[str, CurrentFact], mass_kg: float | None, trade: Trade) -> GoalFact:
    goal_kg = goal.kg
    if goal.times_body_mass is not None:
        goal_kg = goal.times_body_mass * mass_kg if mass_kg is not None else None
    now = [singles[lift] for lift in lifts_of(goal) if lift in singles]
    loads = [fact.kg for fact in now if fact.kg is not None]
    dates = [fact.date for fact in now if fact.kg is not None and fact.date is not None]
    whole = len(loads) == len(lifts_of(goal))
    current_kg = sum(loads) if whole else None
    return GoalFact(
        lift=goal.lift,
        goal_kg=goal_kg,
        body_mass_kg=mass_kg,
        by=goal.by,
        current_kg=current_kg,
        # A total stands since the day its second half was made.
        current_date=max(dates) if whole else None,
        gap_kg=None if goal_kg is None or current_kg is None else max(0.0, goal_kg - current_kg),
        times_body_mass=goal.times_body_mass,
        split=_split(goal_kg, singles, trade) if goal.lift == "total" and goal_kg is not None else None,
    )


def _split(total_kg: float, singles: dict[str, CurrentFact], trade: Trade) -> Split:
    """A total by the lifter's own ratio of the two lifts, or by the published one where there is none."""
    rule = trade.rules["snatch_of_clean_and_jerk"]
    snatch, jerk = (singles.get(lift) for lift in PAIR)
    own = None
    if snatch and jerk and snatch.kg and jerk.kg:
        own = snatch.kg / jerk.kg
    ratio = own if own is not None else rule.value
    return Split(
        snatch_kg=total_kg * ratio / (1 + ratio),
        clean_and_jerk_kg=total_kg / (1 + ratio),
        ratio=own,
        reference_ratio=rule.value,
        source=rule.source,
    )


def targets(goal: GoalFact) -> dict[str, float]:
    """The goal weight of each lift of a goal [kg]; empty where the goal is unknown."""
    if goal.goal_kg is None:
        return {}
    if goal.split is not None:
        return {"snatch": goal.split.snatch_kg, "clean and jerk": goal.split.clean_and_jerk_kg}
    return {goal.lift: goal.goal_kg}
