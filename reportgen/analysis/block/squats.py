"""What the lifter squats now: a block that is to raise the squat asks for no less."""

from collections.abc import Mapping
from dataclasses import dataclass

import pandas as pd

from reportgen.analysis.block import rhythm
from reportgen.analysis.block.stand import Stand
from reportgen.model.facts import Facts
from reportgen.trade.schema import Trade

LIFTS = ("back squat", "front squat")


@dataclass(frozen=True, slots=True, kw_only=True)
class Squatted:
    """The sets of work of one squat over the last weeks.

    Attributes:
        kg: Their mean load.
        sets: Their number in a week, whole.
    """

    kg: float
    sets: int


def read(sets: pd.DataFrame, facts: Facts, stand: Stand, trade: Trade) -> Mapping[str, Squatted]:
    """Read the sets of work of each squat over the last four trained weeks, those of a taper left out.

    Args:
        sets: Prepared sets.
        facts: Test days and the review day.
        stand: Bases: what is lighter than an easy squat is a warm-up.
        trade: Rules.
    """
    weeks = rhythm.carried_weeks(sets, facts, trade)
    rows = sets.loc[sets["week"].isin(weeks) & (sets["reps"] > 1) & (sets["tried"] > 0)]
    found: dict[str, Squatted] = {}
    for lift in LIFTS:
        base = stand.bases.get(lift)
        if base is None:
            continue
        work = rows.loc[(rows["lift"] == lift) & (rows["load_kg"] >= trade.value("squat_easy_low") * base.kg)]
        count = float(work["sets"].sum())
        if count:
            found[lift] = Squatted(
                kg=float((work["load_kg"] * work["sets"]).sum()) / count,
                sets=rhythm.half_up(count / len(weeks)),
            )
    return found
