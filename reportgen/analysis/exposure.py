"""How often the goal lift was trained, how heavy and how much, by ISO week; empty weeks count."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from reportgen.analysis.frames import arrays, each
from reportgen.analysis.when import day, number_of, to_days
from reportgen.model import tables
from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.trade.schema import Trade

WEEK = pd.Timedelta(days=7)
#: Sums of some weights by week.
_Count = Callable[[Any], np.ndarray]


def monday(stamp: pd.Timestamp) -> pd.Timestamp:
    """The Monday of a day's ISO week."""
    return stamp - pd.Timedelta(days=stamp.weekday())


def by_week(
    sets: pd.DataFrame, away: pd.DataFrame, *, lifts: tuple[str, ...], as_of: pd.Timestamp, trade: Trade
) -> pd.DataFrame:
    """One row an ISO week from the first logged day to as_of; columns `model.tables.WEEKS`."""
    if sets.empty:
        return tables.empty(tables.WEEKS)
    starts = pd.date_range(monday(sets["date"].min()), monday(as_of), freq="7D", unit="s", name="start")
    tried = sets["tried"]
    derived = [name for name, lift in trade.lifts.items() if set(lift.derives_from) & set(lifts)]
    place = (to_days(sets["week"]) - number_of(starts[0].date())) // 7

    def count(weights: Any) -> np.ndarray:
        return np.bincount(place, weights=weights, minlength=len(starts))

    def total(values: pd.Series) -> np.ndarray:
        return (
            values.groupby(place[values.index]).sum().reindex(range(len(starts)), fill_value=0.0).to_numpy()
        )

    repetitions = count(tried)
    return pd.DataFrame(
        {
            "start": starts,
            "week": starts.strftime("%G-W%V"),
            **_sessions(sets, lifts, derived, place, len(starts)),
            "heavy_singles": _heavy(sets, lifts, trade, count),
            "repetitions": repetitions.astype(np.int64),
            "tonnage_kg": total(tried * sets["load_kg"]),
            **_counted(sets, lifts, derived, repetitions, trade, count, total),
            "away": pd.array(_away(starts, away), dtype="str"),
        }
    )


def is_full(sets: pd.DataFrame, lifts: tuple[str, ...]) -> np.ndarray:
    """Rows with a tried goal lift from the floor.

    A complex of a clean from the floor and a jerk is a clean and jerk.
    """
    tried = sets["tried"].to_numpy() > 0
    full: np.ndarray = sets["lift"].isin(lifts).to_numpy() & tried
    several = sets["parts"].to_numpy() > 1
    if "clean and jerk" in lifts and several.any():
        parts = sets.loc[several & tried, ["lift", "file", "line"]]
        key = ["file", "line"]
        both = parts.loc[parts["lift"] == "clean", key].merge(parts.loc[parts["lift"] == "jerk", key], on=key)
        lines = pd.MultiIndex.from_frame(both.drop_duplicates())
        full |= several & pd.MultiIndex.from_frame(sets[key]).isin(lines)
    return full


def _sessions(
    sets: pd.DataFrame, lifts: tuple[str, ...], derived: list[str], place: np.ndarray, weeks: int
) -> dict[str, np.ndarray]:
    """Sessions a week; with the full lift; with a derivative or complex of it but without the full lift."""
    of, first = np.unique(sets["session_id"].to_numpy(), return_index=True)
    session = np.searchsorted(of, sets["session_id"].to_numpy())
    full, derivative = (
        np.bincount(session, weights=rows) > 0
        for rows in (is_full(sets, lifts), sets["lift"].isin(derived) & (sets["tried"] > 0))
    )
    kinds = {"sessions": full | True, "full": full, "derivative": derivative & ~full}
    return {name: np.bincount(place[first][mine], minlength=weeks) for name, mine in kinds.items()}


def heavy_singles(sets: pd.DataFrame, lifts: tuple[str, ...], trade: Trade) -> pd.DataFrame:
    """Tried sets of one of the goal lift at 90 % or more of the reference; times `sets`, attempts included.

    Returns:
        The prepared rows, with `tried` and `made_reps` as the number of such singles.
    """
    return sets.loc[_is_heavy(sets, lifts, trade)]


def _is_heavy(sets: pd.DataFrame, lifts: tuple[str, ...], trade: Trade) -> np.ndarray:
    single, share, tried = arrays(sets, "single", "share", "tried")
    heavy: np.ndarray = single & (share >= trade.value("heavy_share")) & (tried > 0)
    return heavy & sets["lift"].isin(lifts).to_numpy()


def _heavy(sets: pd.DataFrame, lifts: tuple[str, ...], trade: Trade, count: _Count) -> np.ndarray:
    mine, known = sets["lift"].isin(lifts), sets["reference_kg"].notna()
    told = count(mine & known) > 0
    # Before the first week with a reference nothing is known, nor in one that has rows without it alone.
    unknown = (np.cumsum(told) == 0) | ((count(mine & ~known) > 0) & ~told)
    return np.where(unknown, np.nan, count(_is_heavy(sets, lifts, trade) * sets["tried"]))


def _counted(
    sets: pd.DataFrame, lifts: tuple[str, ...], derived: list[str], repetitions: np.ndarray, trade: Trade,
    count: _Count, total: _Count,
) -> dict[str, np.ndarray]:  # fmt: skip
    """Repetitions from 60 % of the reference up, pulls apart, and their mean relative load."""
    share, role, tried = arrays(sets, "share", "role", "tried")
    counted, pulls = share >= trade.value("counted_share"), role == "pull"
    # A week without any repetition has none that count; one with repetitions but no reference is unknown.
    unknown = (repetitions > 0) & (count(~np.isnan(share)) == 0)
    mine = counted & sets["lift"].isin([*lifts, *derived]).to_numpy() & (tried > 0)
    weighted, weight = total((sets["share"] * sets["tried"]).loc[mine]), count(mine * tried)
    return {
        "counted_repetitions": np.where(unknown, np.nan, count(tried * (counted & ~pulls))),
        "counted_pull_repetitions": np.where(unknown, np.nan, count(tried * (counted & pulls))),
        # Rounded far below any real difference: the order of the rows must not show in the last digit.
        "relative_load": np.round(np.where(weight > 0, weighted, np.nan) / np.maximum(weight, 1), 9),
    }


def _away(starts: pd.DatetimeIndex, away: pd.DataFrame) -> list[str]:
    """The reasons of away.csv that touch each week, joined by commas."""
    reasons: list[list[str]] = [[] for _ in starts]
    for row in each(away):
        # itertuples renames `from`, a keyword, to its position.
        touched = (starts <= row.to) & (starts + WEEK > row[0])
        for index in np.flatnonzero(touched):
            if row.reason not in reasons[index]:
                reasons[index].append(row.reason)
    return [", ".join(sorted(each)) for each in reasons]


def exposure(
    weeks: pd.DataFrame, sets: pd.DataFrame, *, lifts: tuple[str, ...], as_of: pd.Timestamp, trade: Trade
) -> ExposureFact:
    """The weeks as facts, and the means over all of them, from the first to as_of."""
    facts = tuple(_fact(row) for row in each(weeks))
    if not facts:
        return ExposureFact(weeks=())
    full_days = sets.loc[is_full(sets, lifts), "date"].drop_duplicates().sort_values()
    marks = pd.concat([sets["date"].iloc[:1], full_days, pd.Series([as_of], dtype=sets["date"].dtype)])
    without = weeks["full"] == 0
    empty = (weeks["sessions"] == 0) & (weeks["away"] == "")
    return ExposureFact(
        weeks=facts,
        mean_full_per_week=float(weeks["full"].mean()),
        mean_derivative_per_week=float(weeks["derivative"].mean()),
        weeks_without_full=int(without.sum()),
        longest_gap_days=int(marks.diff().dt.days.max()),
        weeks_without_full_away=int((without & (weeks["away"] != "")).sum()),
        weeks_empty_unexplained=int(empty.sum()),
        weeks_since_heavy_single=_since_heavy(sets, lifts, as_of, trade),
        share_left_out=_left_out(sets, trade),
    )


def _fact(row: Any) -> WeekFact:
    return WeekFact(
        week=row.week,
        start=day(row.start),
        sessions=row.sessions,
        full=row.full,
        derivative=row.derivative,
        heavy_singles=_whole(row.heavy_singles),
        repetitions=row.repetitions,
        tonnage_kg=float(row.tonnage_kg),
        counted_repetitions=_whole(row.counted_repetitions),
        relative_load=None if np.isnan(row.relative_load) else float(row.relative_load),
        counted_pull_repetitions=_whole(row.counted_pull_repetitions),
        away=row.away,
    )


def _whole(value: float) -> int | None:
    return None if np.isnan(value) else int(value)


def _since_heavy(sets: pd.DataFrame, lifts: tuple[str, ...], as_of: pd.Timestamp, trade: Trade) -> int | None:
    """Whole weeks since the last heavy single; since the reference was known where there was none."""
    mine = sets.loc[sets["lift"].isin(lifts) & sets["reference_kg"].notna(), "date"]
    if mine.empty:
        return None
    heavy = heavy_singles(sets, lifts, trade)["date"]
    last = heavy.max() if len(heavy) else mine.min()
    return int((as_of - last).days // 7)


def _left_out(sets: pd.DataFrame, trade: Trade) -> float | None:
    """Share of all tried repetitions under 60 % of their reference or without one."""
    tried = int(sets["tried"].sum())
    counted = int(sets.loc[sets["share"] >= trade.value("counted_share"), "tried"].sum())
    return (tried - counted) / tried if tried else None
