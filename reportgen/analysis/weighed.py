"""Body masses that may be a slip, against the lifter's other ones."""

import numpy as np
import pandas as pd

from reportgen.analysis import goals, meant
from reportgen.analysis.when import to_days, upto
from reportgen.model.doubts import Unsure
from reportgen.model.records import Records
from reportgen.trade.schema import Trade


def read(records: Records, trade: Trade) -> tuple[Unsure, ...]:
    """Weigh-ins out of line; the goal's lifts stop where the goal hangs on the one in question."""
    rows = upto(records.bodymass, records.as_of).sort_values("date", kind="stable")
    if rows.empty:
        return ()
    kg = rows["mass_kg"].to_numpy(dtype=float)
    days = to_days(rows["date"])
    usual = (
        pd.Series(kg, index=pd.DatetimeIndex(rows["date"]))
        .rolling(int(trade.value("mass_near")), center=True, min_periods=1)
        .median()
        .to_numpy()
    )
    low, high, step = trade.value("mass_low_kg"), trade.value("mass_high_kg"), trade.value("mass_step")
    human = kg[(kg >= low) & (kg <= high)]
    middle = float(np.median(human)) if len(human) else 0.0
    near = np.where((usual >= low) & (usual <= high), usual, middle)
    off = (kg < low) | (kg > high)
    if len(kg) > 2:
        off |= np.abs(kg / np.where(near > 0, near, kg) - 1) > step
    elif (
        len(kg) == 2
        and abs(kg[1] / kg[0] - 1) > step
        and days[1] - days[0] <= trade.value("slip_horizon_days")
    ):
        off |= np.array([False, True])
    newest = days == days[-1]
    hangs = records.lifter.goals[0].times_body_mass is not None
    found = []
    for place in np.flatnonzero(off):
        one = rows.iloc[int(place)]
        if f"{one['file']}:{one['line']}" in records.lifter.confirmed:
            continue
        unit, meant_kg = records.lifter.unit, float(near[place])
        likely = meant.likely(kg[place], meant_kg * (1 - step), meant_kg * (1 + step), unit, trade)
        stops = goals.lifts_of(records.lifter.goals[0]) if hangs and newest[place] else ()
        found.append(
            Unsure(
                file=str(one["file"]),
                line=int(one["line"]),
                reason=meant.reason("body_mass" if stops else "body_mass_told", likely),
                stops=stops,
                found=meant.said(kg[place], unit, trade),
                likely=likely,
            )
        )
    return tuple(found)
