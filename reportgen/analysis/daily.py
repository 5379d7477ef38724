"""One value a day, rest days included: what looking back from a day needs."""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.analysis.baseline import WEEK, Array, Mask
from reportgen.analysis.exposure import is_full
from reportgen.analysis.when import mondays, to_days
from reportgen.model.proposal import MARK
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

Days = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Daily:
    """The log from `first` on, one entry a day up to the review day."""

    first: int  # days since 1970 of entry 0, `margin` days before the log's first day
    margin: int  # entries before the log's first day
    kg: Array  # load of all barbell work [kg], 0 on a rest day
    classic_kg: Array  # the same of the classic lifts, clean and jerk apart included [kg]
    strength_kg: Array  # the same of squats and pulls [kg]
    top_share: Array  # highest share of a goal lift, NaN without one
    full: Array  # sessions with a goal lift from the floor
    away: Mask  # inside a span of away.csv
    proposed: Mask  # in a week for which plan.csv holds a proposal of ours

    @property
    def known(self) -> Mask:
        """Entries from the log's first day on."""
        found: Mask = np.arange(len(self.kg)) >= self.margin
        return found

    def before(self, days: Days, span: int) -> Days:
        """Index of the `span` entries before each of T days, (T, span), oldest first; never below 0."""
        index = np.asarray(days)[:, None] - self.first - np.arange(span, 0, -1)
        found: Days = np.clip(index, 0, len(self.kg) - 1)
        return found


def spread(
    days: pd.DataFrame,
    sets: pd.DataFrame,
    away: pd.DataFrame,
    plan: pd.DataFrame,
    lifts: tuple[str, ...],
    trade: Trade,
) -> Daily | None:
    """Lay the training days out on every day of the log.

    Returns:
        The days from the first to the last logged one, or None for an empty log.
    """
    if days.empty:
        return None
    margin = int(trade.value("taper_before_last")) + WEEK
    stamps = to_days(days["date"])
    first = int(stamps[0]) - margin
    size = int(stamps[-1]) - first + 2
    place = stamps - first

    def laid(name: str, empty: float = 0.0) -> Array:
        found = np.full(size, empty)
        found[place] = days[name].to_numpy(dtype=np.float64)
        return found

    sessions = sets.loc[is_full(sets, lifts), ["date", "session_id"]].drop_duplicates()
    full = np.bincount(to_days(sessions["date"]) - first, minlength=size).astype(np.float64)
    return Daily(
        first=first,
        margin=margin,
        kg=laid("tonnage_kg"),
        classic_kg=laid("tonnage_classic_kg"),
        strength_kg=laid("tonnage_strength_kg"),
        top_share=laid("top_share_goal", np.nan),
        full=full,
        away=_away(away, first, size),
        proposed=_proposed(plan, first, size),
    )


def _proposed(plan: pd.DataFrame, first: int, size: int) -> Mask:
    """Days of the weeks that one of our proposals laid out, as it was written or changed by the coach."""
    dates = plan.loc[plan["remark"].str.startswith(MARK), "date"]
    first_days = np.unique(to_days(mondays(dates)))
    found = np.zeros(size, dtype=bool)
    week = (first_days[:, None] + np.arange(WEEK) - first).ravel()
    found[week[(week >= 0) & (week < size)]] = True
    return found


def _away(away: pd.DataFrame, first: int, size: int) -> Mask:
    """Days inside any span, last day included."""
    edges = np.zeros(size + 1, dtype=np.int64)
    if len(away):
        np.add.at(edges, np.clip(to_days(away["from"]) - first, 0, size), 1)
        np.add.at(edges, np.clip(to_days(away["to"]) - first + 1, 0, size), -1)
    found: Mask = np.cumsum(edges)[:size] > 0
    return found


def cost(daily: Daily, start: int, end: int, trade: Trade) -> tuple[int | None, float | None]:
    """What the days from `start` to `end` (since 1970, `end` left out) cost against the weeks before.

    Usual is the median week of the days 70 to 29 before the start.

    Returns:
        Weeks under `weeks_below_share` of the usual load, and sessions with the full lift below the usual
        number (0 or more); None where fewer than four of those weeks hold training. Weeks away count as
        neither.
    """
    last, first = int(trade.value("taper_before_last")), int(trade.value("taper_before_first"))
    index = daily.before(np.array([start]), last)[0, : last - first + 1]
    kg = daily.kg[index].reshape(-1, WEEK).sum(axis=1)
    full = daily.full[index].reshape(-1, WEEK).sum(axis=1)
    trained = kg > 0
    if trained.sum() < trade.value("taper_before_weeks"):
        return None, None
    usual_kg, usual_full = float(np.median(kg[trained])), float(np.mean(full[trained]))
    inside = slice(start - daily.first, end - daily.first)
    home = ~daily.away[inside]
    days = np.arange(len(home))
    number = days // WEEK
    present = np.bincount(number, weights=home)
    loads = np.bincount(number, weights=daily.kg[inside] * home)
    below = (present > 0) & (loads < trade.value("weeks_below_share") * usual_kg * present / WEEK)
    lost = usual_full * home.sum() / WEEK - float((daily.full[inside] * home).sum())
    return int(below.sum()), max(0.0, float(lost))
