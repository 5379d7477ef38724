"""Where the goal lift goes: Theil-Sen on the months that hold a heavy single, and the range of arrival."""

import datetime as dt
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
import pandas as pd

from reportgen.analysis.baseline import Array
from reportgen.analysis.frames import to_days
from reportgen.analysis.testdays import date_of, scatter_of
from reportgen.model.facts import GoalFact
from reportgen.model.peaks import TrendFact
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


def fit(
    sets: pd.DataFrame, bodymass: pd.DataFrame, goal: GoalFact, *, as_of: dt.date, trade: Trade
) -> TrendFact | None:
    """The trend of the goal lift over the months of the last year that qualify.

    A month qualifies with a made single at 92 % or more of the best known then, and counts with its
    heaviest such single; other months measure the phase of training, not the lifter.

    Args:
        sets: Prepared sets up to the review day.
        bodymass: Readings, for a goal in times body mass.
        goal: Where the goal stands. A total's trend is not computed: its two lifts peak on other days.
        as_of: Review day.
        trade: Rules `trend_*`, `month_days`.

    Returns:
        Slopes a month of 30.4375 days. For a goal in times body mass `reach_*` rest on the distance
        between body and bar, which moves with both. None with fewer than four months (`trend_months`) or
        for a total.

    References:
        Sen 1968. Variation of one lifter: `scatter_of`.
    """
    points = _months(sets, goal.lift, as_of, trade)
    month = trade.value("month_days")
    if len(points) < trade.value("trend_months"):
        return None
    days, kg = to_days(points["date"]).astype(np.float64), points["load_kg"].to_numpy(dtype=np.float64)
    bar = theil_sen(days, kg, trade.value("trend_confidence"))
    if bar is None:
        return None
    body = gap = None
    if goal.times_body_mass is not None:
        aim = _body(points, bodymass, as_of, trade)
        held = ~np.isnan(aim)
        wanted = goal.times_body_mass * aim[held]
        body = theil_sen(days[held], wanted, trade.value("trend_confidence"))
        gap = theil_sen(days[held], kg[held] - wanted, trade.value("trend_confidence"))
    change = bar.middle * (days[-1] - days[0]) / float(np.median(kg))
    scatter = scatter_of(goal.lift, trade)
    early, middle, late, reason = _reach(gap if goal.times_body_mass is not None else bar, goal, as_of, trade)
    return TrendFact(
        lift=goal.lift,
        kg_per_month=bar.middle * month,
        low=bar.low * month,
        high=bar.high * month,
        reach_date=middle,
        reach_early=early,
        reach_late=late,
        months=len(points),
        first=date_of(int(days[0])),
        last=date_of(int(days[-1])),
        change_share=change,
        noise=bool(abs(change) < scatter),
        noise_share=scatter,
        bar_kg_per_month=None if body is None else bar.middle * month,
        body_kg_per_month=None if body is None else body.middle * month,
        reason=reason,
    )


def _months(sets: pd.DataFrame, lift: str, as_of: dt.date, trade: Trade) -> pd.DataFrame:
    """The heaviest qualifying single of each month of the span: date, load_kg, month; by date."""
    first = pd.Timestamp(as_of) - pd.Timedelta(days=trade.value("trend_days"))
    rows = sets.loc[
        (sets["lift"] == lift)
        & sets["single"]
        & sets["counts"]
        & (sets["made_reps"] > 0)
        & (sets["share"] >= trade.value("trend_share"))
        & (sets["date"] > first),
        ["date", "load_kg"],
    ]
    month = rows["date"].dt.year * 12 + rows["date"].dt.month
    heaviest = rows.assign(month=month).sort_values(["month", "load_kg", "date"], kind="stable")
    return heaviest.drop_duplicates("month", keep="last").sort_values("date", ignore_index=True)


def _body(points: pd.DataFrame, bodymass: pd.DataFrame, as_of: dt.date, trade: Trade) -> Array:
    """Median body mass within half a month of each single [kg]; NaN where nobody weighed."""
    rows = bodymass.loc[bodymass["date"] <= pd.Timestamp(as_of)]
    days, kg = to_days(rows["date"]), rows["mass_kg"].to_numpy(dtype=np.float64)
    half = trade.value("month_days") / 2
    near = [kg[np.abs(days - day) <= half] for day in to_days(points["date"])]
    return np.array([float(np.median(some)) if len(some) else np.nan for some in near])


def _reach(
    slope: Slope | None, goal: GoalFact, as_of: dt.date, trade: Trade
) -> tuple[dt.date | None, dt.date | None, dt.date | None, str]:
    """Early, middle and late arrival, and why there is none."""
    if slope is None:
        return None, None, None, "body mass was not weighed in enough of these months"
    if goal.gap_kg is None:
        return None, None, None, "the distance to the goal is not known"
    if goal.gap_kg <= 0:
        return None, None, None, "the goal has been reached"
    if slope.low <= 0:
        return None, None, None, "no date: a standstill lies inside the interval"
    furthest = trade.value("trend_reach_years") * 12 * trade.value("month_days")
    dates = [
        as_of + dt.timedelta(days=round(goal.gap_kg / pace)) if goal.gap_kg / pace <= furthest else None
        for pace in (slope.high, slope.middle, slope.low)
    ]
    return dates[0], dates[1], dates[2], "" if dates[0] else "no date within two years"
