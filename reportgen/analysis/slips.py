"""Loads that may be slips of the pen: what rests on them is not sure."""

import pandas as pd

from reportgen.analysis import bests, frames
from reportgen.model.doubts import Unsure
from reportgen.model.records import Records
from reportgen.trade.schema import Trade


def read(records: Records, trade: Trade) -> tuple[Unsure, ...]:
    """Every load that no other day of its lift comes near.

    Args:
        records: Sets, bests from before the log, the review day.
        trade: Rules.
    """
    as_of = pd.Timestamp(records.as_of).as_unit("s")
    sets = frames.prepare(records.sets, as_of=as_of, bests=records.lifter.bests, trade=trade)
    alone = bests.alone(bests.scoring(sets, records.lifter.bests, as_of), trade)
    return tuple(
        Unsure(
            file=one.file,
            line=one.line,
            reason="slip",
            stops=(one.lift,),
            lift=one.lift,
            found=f"{round(one.kg, 1):g} kg",
        )
        for one in alone
    )
