"""How often the goal lift was trained, how heavy and how much, by ISO week; empty weeks count."""

from typing import Any

import numpy as np
import pandas as pd

from reportgen.analysis.frames import each
from reportgen.analysis.when import day
from reportgen.model import tables
from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.trade.schema import Trade

WEEK = pd.Timedelta(days=7)


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
    weeks = pd.DataFrame(index=starts)
    weeks["week"] = starts.strftime("%G-W%V")
    tried = sets["tried"]
    derived = [name for name, lift in trade.lifts.items() if set(lift.derives_from) & set(lifts)]
    weeks = weeks.join(_sessions(sets, lifts, derived))
    weeks["heavy_singles"] = _heavy(sets, lifts, trade, starts)
    weeks["repetitions"] = tried.groupby(sets["week"]).sum()
    weeks["tonnage_kg"] = (tried * sets["load_kg"]).groupby(sets["week"]).sum()
    weeks = weeks.join(_counted(sets, lifts, derived, trade))
    whole = ["sessions", "full", "derivative", "repetitions"]
    weeks[whole] = weeks[whole].fillna(0).astype("int64")
    weeks["tonnage_kg"] = weeks["tonnage_kg"].fillna(0.0)
    # A week without any repetition has none that count; one with repetitions but no reference is unknown.
    for name in ("counted_repetitions", "counted_pull_repetitions"):
        weeks[name] = weeks[name].where(weeks["repetitions"] > 0, 0.0)
    weeks["away"] = _away(starts, away)
    return weeks.reset_index()


def is_full(sets: pd.DataFrame, lifts: tuple[str, ...]) -> pd.Series:
    """Rows with a tried goal lift from the floor.

    A complex of a clean from the floor and a jerk is a clean and jerk.
    """
    full = sets["lift"].isin(lifts) & (sets["tried"] > 0)
    if "clean and jerk" in lifts and (sets["parts"] > 1).any():
        parts = sets.loc[(sets["parts"] > 1) & (sets["tried"] > 0)]
        key = ["file", "line"]
        both = parts.loc[parts["lift"] == "clean", key].merge(parts.loc[parts["lift"] == "jerk", key], on=key)
        lines = pd.MultiIndex.from_frame(both.drop_duplicates())
        full |= (sets["parts"] > 1) & pd.MultiIndex.from_frame(sets[key]).isin(lines)
    return full


def _sessions(sets: pd.DataFrame, lifts: tuple[str, ...], derived: list[str]) -> pd.DataFrame:
    """Sessions a week; with the full lift; with a derivative or complex of it but without the full lift."""
    table = pd.DataFrame(
        {
            "week": sets["week"],
            "session_id": sets["session_id"],
            "full": is_full(sets, lifts),
            "derivative": sets["lift"].isin(derived) & (sets["tried"] > 0),
        }
    )
    sessions = table.groupby(["week", "session_id"])[["full", "derivative"]].any()
    sessions["derivative"] &= ~sessions["full"]
    sessions["sessions"] = True
    return sessions.groupby(level="week")[["sessions", "full", "derivative"]].sum()


def heavy_singles(sets: pd.DataFrame, lifts: tuple[str, ...], trade: Trade) -> pd.DataFrame:
    """Tried sets of one of the goal lift at 90 % or more of the reference; times `sets`, attempts included.

    Returns:
        The prepared rows, with `tried` and `made_reps` as the number of such singles.
    """
    heavy = sets["lift"].isin(lifts) & sets["single"] & (sets["share"] >= trade.value("heavy_share"))
    return sets.loc[heavy & (sets["tried"] > 0)]


def _heavy(sets: pd.DataFrame, lifts: tuple[str, ...], trade: Trade, starts: pd.DatetimeIndex) -> np.ndarray:
    mine = sets.loc[sets["lift"].isin(lifts), ["week", "reference_kg"]]
    known = mine.loc[mine["reference_kg"].notna()]
    count = heavy_singles(sets, lifts, trade).groupby("week")["tried"].sum()
    weekly = count.reindex(starts).fillna(0.0).to_numpy(dtype=float)
    if known.empty:
        return np.full(len(starts), np.nan)
    blind = mine["week"].isin(mine.loc[mine["reference_kg"].isna(), "week"]) & ~mine["week"].isin(
        known["week"]
    )
    unknown = (starts < known["week"].min()) | starts.isin(mine.loc[blind, "week"])
    return np.where(unknown, np.nan, weekly)


def _counted(sets: pd.DataFrame, lifts: tuple[str, ...], derived: list[str], trade: Trade) -> pd.DataFrame:
    """Repetitions from 60 % of the reference up, pulls apart, and their mean relative load."""
    # Only what is counted: a choice of rows copies all of their columns, and of a long log that is a lot.
    counted = sets.loc[
        sets["share"] >= trade.value("counted_share"), ["week", "lift", "role", "tried", "share"]
    ]
    known = sets.loc[sets["share"].notna(), ["week"]].groupby("week").size()
    pulls = counted["role"] == "pull"
    table = pd.DataFrame(index=known.index)
    table["counted_repetitions"] = counted.loc[~pulls].groupby("week")["tried"].sum()
    table["counted_pull_repetitions"] = counted.loc[pulls].groupby("week")["tried"].sum()
    table = table.fillna(0.0)
    mine = counted.loc[counted["lift"].isin([*lifts, *derived]) & (counted["tried"] > 0)]
    weighted = (mine["share"] * mine["tried"]).groupby(mine["week"]).sum()
    # Rounded far below any real difference: the order of the rows must not show in the last digit.
    table["relative_load"] = (weighted / mine.groupby("week")["tried"].sum()).round(9)
    return table


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
