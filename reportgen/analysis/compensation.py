"""What happens to an angle as the bar gets heavier: a line through one day's readings, and its reach.

Three loads at least, spanning enough of the best; a phone's angle is worth about 5 degrees, so the interval
is never narrower than that makes it; carried on to the goal only where the heaviest reading is near it.
"""

import math
from collections.abc import Sequence

import numpy as np

from reportgen.analysis.readings import Row
from reportgen.model.findings import CompensationFact
from reportgen.model.say import Maybe, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


def read(
    rows: Sequence[Row], trade: Trade, *, best_kg: float | None, goal_kg: float | None
) -> tuple[CompensationFact, ...]:
    """One fact an item and side: the latest day that holds enough loads, else the latest day and why not.

    Args:
        rows: Loaded readings of compensation items, by day.
        trade: Rules.
        best_kg: Best of the goal lift [kg]; None = the span cannot be judged.
        goal_kg: Goal weight [kg], or None.

    Returns:
        Facts by item and side; `per_kg` [degrees per kg], `at_goal` with its 95 % interval [degrees].
    """
    keys = sorted({(row.item, row.side) for row in rows})
    return tuple(
        _one([row for row in rows if (row.item, row.side) == key], trade, best_kg, goal_kg) for key in keys
    )


def _one(rows: list[Row], trade: Trade, best_kg: float | None, goal_kg: float | None) -> CompensationFact:
    days: dict[tuple[object, str], list[Row]] = {}
    for row in rows:
        if row.load_kg is not None and row.reading is not None:
            days.setdefault((row.date, row.conditions), []).append(row)
    whole = [day for day in days.values() if not _lacks(day, trade, best_kg)]
    day = whole[-1] if whole else next(reversed(days.values()), [])
    loads = tuple(row.load_kg for row in day if row.load_kg is not None)
    angles = tuple(row.reading for row in day if row.reading is not None)
    reason: Maybe = _lacks(day, trade, best_kg)
    fitted = None if reason else _line(np.array(loads), np.array(angles), trade)
    at_goal = low = high = None
    if fitted is not None and goal_kg is None:
        reason = say("analysis.compensation.no_goal")
    elif fitted is not None and goal_kg is not None:
        if goal_kg > trade.value("compensation_reach") * max(loads):
            reason = say("analysis.compensation.far")
        else:
            at_goal, spread = fitted.at(goal_kg)
            low, high = at_goal - spread, at_goal + spread
    return CompensationFact(
        item=rows[0].item,
        side=rows[0].side,
        per_kg=fitted.slope if fitted else None,
        at_goal=at_goal,
        low=low,
        high=high,
        date=day[0].date if day else None,
        loads_kg=loads,
        readings=angles,
        reason=reason,
        grows=fitted.slope - fitted.slope_spread > 0 if fitted else None,
        lines=tuple(row.line for row in day),
        file=rows[0].file,
    )


def _lacks(day: Sequence[Row], trade: Trade, best_kg: float | None) -> Maybe:
    """Why one day's readings are not enough for a line; empty where they are."""
    loads = {row.load_kg for row in day if row.load_kg is not None}
    if len(loads) < trade.value("compensation_loads"):
        return say("analysis.compensation.few_loads")
    if best_kg is None:
        return say("analysis.compensation.no_best")
    if max(loads) - min(loads) < trade.value("compensation_span") * best_kg - trade.value("edge_kg"):
        return say("analysis.compensation.close")
    return ""


@dataclass(frozen=True, slots=True)
class _Line:
    """A least-squares line through `n` points and how well it is known."""

    slope: float
    x: float
    y: float
    half: float  # half the 95 % interval of one reading
    sxx: float
    n: int

    @property
    def slope_spread(self) -> float:
        """Half the 95 % interval of the slope."""
        return self.half / math.sqrt(self.sxx)

    def at(self, load_kg: float) -> tuple[float, float]:
        """The angle on the line at a load, and half its 95 % interval."""
        away = load_kg - self.x
        return self.y + self.slope * away, self.half * math.sqrt(1 / self.n + away**2 / self.sxx)


def _line(loads: np.ndarray, angles: np.ndarray, trade: Trade) -> _Line:
    """Least squares; the scatter is never taken as smaller than what the reading itself is worth."""
    z = trade.value("normal_95")
    mean_x, mean_y = float(loads.mean()), float(angles.mean())
    sxx = float(((loads - mean_x) ** 2).sum())
    slope = float(((loads - mean_x) * (angles - mean_y)).sum()) / sxx
    rest = angles - mean_y - slope * (loads - mean_x)
    scatter = math.sqrt(float((rest**2).sum()) / max(1, len(loads) - 2))
    sd = max(scatter, trade.value("angle_error_degrees") / z)
    return _Line(slope, mean_x, mean_y, z * sd, sxx, len(loads))
