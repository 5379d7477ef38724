"""Strength against skill: how much of the squat reaches the bar, and a squat that rises alone."""

import datetime as dt

import numpy as np
import pandas as pd

from reportgen.analysis import indicators
from reportgen.analysis.frames import arrays
from reportgen.analysis.when import day, stamp
from reportgen.model.findings import ExpressedStrength
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.schema import Band, Trade

SQUAT = "back squat"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """A squat that rose while the lift stood still."""

    lift: str
    lift_kg: float
    since: dt.date
    weeks: int
    squat_then_kg: float
    squat_now_kg: float
    reps: int  # both squats were made for so many repetitions
    share: float
    tried_days: tuple[dt.date, ...]
    tried: bool
    squat_rows: tuple[tuple[str, int], ...]  # file, line of the two squats
    tried_rows: tuple[tuple[str, int], ...]


def squat_band(records: Records, lift: str, trade: Trade) -> Band | None:
    """The back squat's band in force for a goal lift: the coach's own where there is one."""
    bands = trade.indicator_bands(lift, records.lifter.standards)
    own = indicators.coached(bands, records.lifter.bands, trade)
    return next((one for one in own if one.id == "back_squat" and one.base == "goal"), None)


def expressed(
    sets: pd.DataFrame, lift: str, band: Band | None, trade: Trade
) -> tuple[ExpressedStrength, ...] | None:
    """How much of the squat reached the bar, by month.

    Returns:
        One value a month in which the lift was made near its reference and a squat was made in the weeks
        before; None without a band. `share` is the lift / the lift that the squat carries.
    """
    if band is None or not band.low:
        return None
    scored = sets.loc[sets["counts"] & (sets["made_reps"] > 0), ["lift", "share", "date", "load_kg"]]
    heavy = scored.loc[(scored["lift"] == lift) & (scored["share"] >= trade.value("expressed_share"))]
    if heavy.empty:
        return ()
    months = heavy["date"].to_numpy().astype("datetime64[M]")
    lifted_kg = heavy["load_kg"].groupby(months).max()
    squat_kg = _squat_until(scored.loc[scored["lift"] == SQUAT], lifted_kg.index, trade)
    return tuple(
        ExpressedStrength(
            month=str(month)[:7],
            snatch_kg=float(kg),
            supported_kg=float(squat) / band.low,
            share=float(kg * band.low / squat),
        )
        for month, kg, squat in zip(lifted_kg.index, lifted_kg, squat_kg, strict=True)
        if not np.isnan(squat)
    )


def _squat_until(squats: pd.DataFrame, months: pd.Index, trade: Trade) -> np.ndarray:
    """Best squat of the current weeks up to the end of each month [kg]; NaN where there was none."""
    ends = pd.DatetimeIndex(months) + pd.offsets.MonthEnd(0)
    daily = squats.groupby("date")["load_kg"].max()
    asked = pd.Series(np.nan, index=ends).groupby(level=0).max()
    whole = pd.concat([daily, asked.loc[~asked.index.isin(daily.index)]]).sort_index()
    days = int(trade.value("weeks_current")) * 7 + 1
    best: np.ndarray = whole.rolling(f"{days}D", min_periods=1).max().reindex(ends).to_numpy(dtype=float)
    return best


def rise(scored: pd.DataFrame, sets: pd.DataFrame, lift: str, *, as_of: dt.date, trade: Trade) -> Rise | None:
    """A squat up by 4 % or more since the lift began to stand still, 12 weeks ago or more.

    Like is compared with like: singles of the squat with singles, else sets of three with sets of three.

    Returns:
        None where the lift rose, stands still for less, or the squat did not rise.
    """
    today = stamp(as_of)
    stood = _still(scored, sets, lift, today, trade)
    if stood is None:
        return None
    best_kg, since = stood
    squats = scored.loc[(scored["lift"] == SQUAT) & (scored["line"] > 0)]
    span = pd.Timedelta(weeks=trade.value("squat_rise_weeks"))
    base = since + pd.Timedelta(days=trade.value("squat_base_days"))
    then_rows = squats.loc[(squats["date"] >= since - span) & (squats["date"] <= base)]
    pair = _like(then_rows, squats.loc[squats["date"] > today - span], trade)
    if pair is None:
        return None
    then, now, reps = pair
    share = float(now["load_kg"] / then["load_kg"]) - 1
    if share < trade.value("squat_rise") - 1e-9:
        return None
    tries = _tries(sets, lift, best_kg, since, trade)
    days = tuple(map(day, tries["date"]))
    return Rise(
        lift=lift,
        lift_kg=best_kg,
        since=since.date(),
        weeks=int((today - since).days // 7),
        squat_then_kg=float(then["load_kg"]),
        squat_now_kg=float(now["load_kg"]),
        reps=reps,
        share=share,
        tried_days=days,
        tried=len(days) >= trade.value("lift_tried_days"),
        squat_rows=tuple((str(row["file"]), int(row["line"])) for row in (then, now)),
        tried_rows=tuple(zip(tries["file"].astype(str), tries["line"].astype(int), strict=True)),
    )


def _still(
    scored: pd.DataFrame, sets: pd.DataFrame, lift: str, today: pd.Timestamp, trade: Trade
) -> tuple[float, pd.Timestamp] | None:
    """The year's best of a lift and the day since which it stands, where that is long enough ago."""
    year = today - pd.Timedelta(days=trade.value("reference_days"))
    name, date, load_kg = arrays(scored, "lift", "date", "load_kg")
    lifted = (name == lift) & (date > year.to_numpy())
    if not lifted.any() or not (sets["lift"].to_numpy() == lift).any():
        return None
    best_kg = float(load_kg[lifted].max())
    # Within the noise of one best the first day of it counts: half a kilogram more later is no rise.
    level = date[lifted & (load_kg >= best_kg * (1 - trade.value("still_share")))].min()
    since = max(pd.Timestamp(level), sets["date"].min())
    return (best_kg, since) if (today - since).days // 7 >= trade.value("squat_rise_weeks") else None


def _tries(sets: pd.DataFrame, lift: str, best_kg: float, since: pd.Timestamp, trade: Trade) -> pd.DataFrame:
    """One row a later day on which the lift was tried near its best."""
    least_kg = trade.value("lift_tried_share") * best_kg - trade.value("edge_kg")
    near = (sets["lift"] == lift) & (sets["tried"] > 0) & (sets["load_kg"] >= least_kg)
    return sets.loc[near & (sets["date"] > since)].drop_duplicates("date")


def _like(then: pd.DataFrame, now: pd.DataFrame, trade: Trade) -> tuple[pd.Series, pd.Series, int] | None:
    """The heaviest squat of both times with the same number of repetitions; singles first."""
    for low, high in ((1, 1), (2, int(trade.value("squat_like_reps")))):
        first, last = (rows.loc[rows["made"].between(low, high)] for rows in (then, now))
        if len(first) and len(last):
            top = [rows.sort_values("load_kg", kind="stable").iloc[-1] for rows in (first, last)]
            return top[0], top[1], high
    return None
