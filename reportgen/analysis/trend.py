"""Where the goal lift goes: what its ability changed by a month, and body mass beside it; when it arrives."""

import datetime as dt
from statistics import NormalDist

import numpy as np
import pandas as pd

from reportgen.analysis.ability import Ability
from reportgen.analysis.baseline import WEEK, Array
from reportgen.analysis.testdays import scatter_of
from reportgen.analysis.when import stamp, to_days
from reportgen.model.ability import ArrivalFact
from reportgen.model.facts import GoalFact
from reportgen.model.peaks import TrendFact
from reportgen.model.say import Maybe, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """A Theil-Sen line's slope with its interval, y a unit of x."""

    middle: float
    low: float
    high: float


def theil_sen(x: Array, y: Array, confidence: float) -> Slope | None:
    """The median of the slopes of all pairs of points, with Sen's distribution-free interval.

    Args:
        x: Places, at least two different ones.
        y: Values.
        confidence: Above 0 and under 1.

    Returns:
        The slope; None without two different places. With too few points for an interval of this
        confidence its ends are the flattest and the steepest pair (four points at 95 %: they cover 92 %).

    References:
        Sen, J Am Stat Assoc 1968;63:1379-1389, eq. 2.6, with the variance corrected for ties in x and y.
    """
    one, two = np.triu_indices(len(x), k=1)
    apart = x[two] - x[one]
    slopes = np.sort((y[two] - y[one])[apart != 0] / apart[apart != 0])
    if not len(slopes):
        return None
    n = float(len(x))
    variance = (n * (n - 1) * (2 * n + 5) - _ties(x) - _ties(y)) / 18
    reach = NormalDist().inv_cdf(0.5 + confidence / 2) * float(np.sqrt(max(variance, 0.0)))
    low = max(round((len(slopes) - reach) / 2) - 1, 0)
    high = min(round((len(slopes) + reach) / 2), len(slopes) - 1)
    return Slope(middle=float(np.median(slopes)), low=float(slopes[low]), high=float(slopes[high]))


def _ties(values: Array) -> float:
    count = np.unique(values, return_counts=True)[1].astype(np.float64)
    return float((count * (count - 1) * (2 * count + 5)).sum())


def body(bodymass: pd.DataFrame, as_of: dt.date, trade: Trade) -> Slope | None:
    """What body mass changed by a day over the weeks of the trend: Theil-Sen on the readings [kg a day].

    References:
        Sen 1968.
    """
    first = stamp(as_of) - pd.Timedelta(weeks=trade.value("ability_trend_weeks"))
    rows = bodymass.loc[(bodymass["date"] <= stamp(as_of)) & (bodymass["date"] > first)]
    daily = rows.groupby("date")["mass_kg"].median()
    if len(daily) < trade.value("trend_weighings"):
        return None
    days = to_days(daily.index.to_series()).astype(np.float64)
    return theil_sen(days, daily.to_numpy(dtype=np.float64), trade.value("trend_confidence"))


def read(
    found: Ability | None,
    arrived: ArrivalFact | None,
    bodymass: pd.DataFrame,
    goal: GoalFact,
    *,
    as_of: dt.date,
    trade: Trade,
) -> TrendFact | None:
    """The trend of the goal lift: the path of its ability over half a year.

    Args:
        found: The ability of the goal lift.
        arrived: When the goal is made.
        bodymass: Readings, for a goal in times body mass.
        goal: Where the goal stands. A total's trend is not told: its two lifts go their own ways.
        as_of: Review day.
        trade: Rules `ability_*`, `trend_*`, `month_days`.

    Returns:
        Kilograms a month of 30.4375 days. None for a total, without an ability, or with tries of fewer than
        twelve weeks.
    """
    if found is None or goal.lift == "total":
        return None
    weeks = found.draws.shape[1] - 1
    middle, low, high = found.change(weeks)
    if weeks < trade.value("ability_change_weeks") or middle is None:
        return None
    month = trade.value("month_days")
    pace = middle * (month / (WEEK * weeks))
    scatter = scatter_of(goal.lift, trade)
    before = float(np.exp(found.draws[:, 0]).mean())
    change = pace * weeks * WEEK / month / before
    side = body(bodymass, as_of, trade) if goal.times_body_mass is not None else None
    asked = None if side is None else (goal.times_body_mass or 0) * side.middle * month
    first = as_of - dt.timedelta(weeks=weeks)
    return TrendFact(
        lift=goal.lift,
        kg_per_month=pace,
        low=low * (month / (WEEK * weeks)),
        high=high * (month / (WEEK * weeks)),
        reach_date=None if arrived is None else arrived.middle,
        reach_early=None if arrived is None else arrived.early,
        reach_late=None if arrived is None else arrived.late,
        months=round(weeks * WEEK / month),
        first=first,
        last=as_of,
        change_share=change,
        noise=bool(abs(change) < scatter),
        noise_share=scatter,
        bar_kg_per_month=None if asked is None else pace,
        body_kg_per_month=asked,
        reason=_reason(arrived, goal, trade),
        weeks=weeks,
    )


def _reason(arrived: ArrivalFact | None, goal: GoalFact, trade: Trade) -> Maybe:
    """Why there is no range of arrival; "" with one."""
    if goal.gap_kg is None:
        return say("analysis.arrival.no_gap")
    if goal.gap_kg <= trade.value("edge_kg"):
        return say("analysis.arrival.reached")
    return "" if arrived is not None and arrived.early is not None else say("analysis.arrival.late")
