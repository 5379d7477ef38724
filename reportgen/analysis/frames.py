"""The prepared tables that every question starts from: references, shares, sessions, days, weeks, misses.

Their columns stand in `model.tables`: `PREPARED`, `DAYS`, `WEEKS`, `MISSES`.
"""

from collections import Counter, namedtuple
from collections.abc import Iterator
from functools import cache
from typing import Any

import numpy as np
import pandas as pd

from reportgen.analysis.when import mondays, number_of, to_days
from reportgen.model.lifter import PriorBest
from reportgen.model.tables import MISSES
from reportgen.trade.schema import Trade

DAY = np.timedelta64(1, "D")
_WHOLE_ROWS = 300_000


def each(frame: pd.DataFrame) -> Iterator[Any]:
    """The rows of a small table as named tuples, for results of a handful of rows."""
    yield from map(_row(tuple(frame.columns))._make, plain(frame))


def arrays(frame: pd.DataFrame, *names: str) -> Iterator[Any]:
    """Columns as arrays: of a small table a question to one takes a twentieth of one to a frame."""
    return (frame[name].to_numpy() for name in names)


def plain(frame: pd.DataFrame) -> Iterator[tuple[Any, ...]]:
    """The rows of a small table; a list a column takes half of what pandas' own way does."""
    yield from zip(*(frame[name].tolist() for name in frame.columns), strict=True) if len(frame) else ()


@cache
def _row(columns: tuple[str, ...]) -> Any:
    """Named tuples of a table's columns; pandas would compile them anew for every few rows."""
    return namedtuple("_row", columns, rename=True)


def prepare(
    sets: pd.DataFrame, *, as_of: pd.Timestamp, bests: tuple[PriorBest, ...], trade: Trade
) -> pd.DataFrame:
    """The set rows up to `as_of` with everything that a later question asks of a row.

    Returns:
        One row a row of `sets` up to as_of, by date, session, file and line; columns `model.tables.PREPARED`.
    """
    frame = _in_order(sets, (sets["date"] <= as_of).to_numpy())
    lifts = frame["lift"]
    frame["family"] = lifts.map({name: lift.family for name, lift in trade.lifts.items()}).fillna("other")
    frame["role"] = lifts.map({name: lift.role for name, lift in trade.lifts.items()}).fillna("other")
    floor = lifts.isin([name for name, lift in trade.lifts.items() if lift.start == "floor"])
    straps = frame["aid"].str.contains("strap", regex=False)
    frame["counts"] = (frame["variant"] == "") & ~(straps & floor) & (lifts != "other")
    times = frame["sets"].astype("int64")
    frame["tried"] = times * (frame["reps"] - frame["declined"])
    frame["made_reps"] = times * frame["made"]
    frame["missed"] = frame["tried"] - frame["made_reps"]
    frame["reference_kg"] = _references(frame, bests, as_of, trade)
    # Rounded far below any real difference, so that a log in pounds falls into the same zones.
    frame["share"] = (frame["load_kg"] / frame["reference_kg"]).round(9)
    frame["week"] = mondays(frame["date"])
    frame["session_id"] = _sessions(frame)
    frame["single"] = (frame["reps"] == 1) & (frame["parts"] == 1)
    # Columns added one by one lie apart; copied together, each of the many choices of rows is twice as fast.
    # A log of a life is chosen from as it lies: there the copy is what takes most room.
    return frame if len(frame) > _WHOLE_ROWS else frame.copy()


def _in_order(sets: pd.DataFrame, seen: np.ndarray) -> pd.DataFrame:
    """The rows seen by date, session, file, line; of a long log only the columns that change are copied."""
    by = ["date", "session", "file", "line", "part"]
    if len(sets) <= _WHOLE_ROWS:
        return (sets if seen.all() else sets.loc[seen]).sort_values(by, kind="stable", ignore_index=True)
    places = np.flatnonzero(seen)
    order = places[np.lexsort([pd.factorize(sets[name], sort=True)[0][places] for name in reversed(by)])]
    return pd.DataFrame({name: _moved(sets[name], order) for name in sets}, copy=False)


def _moved(column: pd.Series, order: np.ndarray) -> pd.Series:
    """A column in another order; itself where that is the same, as of one value all the way down."""
    moved = column.array.take(order)
    same = len(moved) == len(column) and bool((moved == column.array).all())
    return column if same else pd.Series(moved, copy=False)


def _sessions(frame: pd.DataFrame) -> pd.Series:
    """Dense session numbers; an attempt joins the first session of its day."""
    trained = frame["kind"] == "training"
    # In order of day and session, so the first row of a day is of its first session.
    first = frame.loc[trained, ["date", "session"]].drop_duplicates("date").set_index("date")["session"]
    firsts = frame["date"].map(first).astype("str").where(frame["date"].isin(first.index), "")
    joined = frame["session"].where(trained, firsts)
    return frame.groupby([frame["date"], joined], sort=True).ngroup().astype("int32")


def _references(
    frame: pd.DataFrame, bests: tuple[PriorBest, ...], as_of: pd.Timestamp, trade: Trade
) -> np.ndarray:
    """Best of the days [d - 365, d - 1] of the row's lift, where it is known; NaN elsewhere."""
    reference_days = int(trade.value("reference_days"))
    known_days = int(trade.value("reference_known_days"))
    days = to_days(frame["date"])
    loads = frame["load_kg"].to_numpy(dtype=float)
    scoring = (frame["counts"] & (frame["made_reps"] > 0)).to_numpy(dtype=bool)
    given = (frame["kind"] != "training").to_numpy(dtype=bool)
    result = np.full(len(frame), np.nan)
    last = number_of(as_of.date())
    for lift, rows in frame.groupby("lift", sort=False).indices.items():
        prior = [b for b in bests if b.lift == lift and number_of(b.date) <= last]
        prior_days = np.array([number_of(b.date) for b in prior], dtype=np.int64)
        prior_kg = np.array([b.kg for b in prior], dtype=float)
        scored = rows[scoring[rows]]
        anchors = np.unique(np.concatenate([days[rows[given[rows]]], prior_days]))
        asked, back = np.unique(days[rows], return_inverse=True)
        best_days = np.concatenate([days[scored], prior_days])
        best_kg = np.concatenate([loads[scored], prior_kg])
        window_kg = best_within(best_days, best_kg, asked, reference_days)
        known = _since(anchors, asked) <= reference_days
        logged = np.unique(days[rows])
        known |= asked - _first_within(logged, asked, reference_days) >= known_days
        result[rows] = np.where(known, window_kg, np.nan)[back]
    return result


def best_within(days: np.ndarray, kg: np.ndarray, asked: np.ndarray, span: int) -> np.ndarray:
    """Heaviest kg of the days [asked - span, asked - 1] for each asked day; NaN where there is none."""
    order = np.argsort(days, kind="stable")
    days, first = np.unique(days[order], return_index=True)
    kg = np.maximum.reduceat(kg[order], first) if len(first) else kg
    low, high = np.searchsorted(days, asked - span), np.searchsorted(days, asked)
    return np.array([kg[a:b].max() if b > a else np.nan for a, b in zip(low, high, strict=True)])


def _since(anchors: np.ndarray, asked: np.ndarray) -> np.ndarray:
    """Days from the last anchor before each asked day; a huge number where there is none."""
    before = np.searchsorted(anchors, asked, side="left") - 1
    if not len(anchors):
        return np.full(len(asked), 10**9)
    return np.where(before >= 0, asked - anchors[np.maximum(before, 0)], 10**9)


def _first_within(logged: np.ndarray, asked: np.ndarray, span: int) -> np.ndarray:
    """First logged day inside [asked - span, asked] for each asked day."""
    first: np.ndarray = logged[np.searchsorted(logged, asked - span, side="left")]
    return first


def expand_misses(sets: pd.DataFrame) -> pd.DataFrame:
    """One row a kind of miss of a set; columns `model.tables.MISSES`, counts add up to `sets["missed"]`."""
    columns = ["date", "lift", "load_kg", "share", "miss", "missed", "file", "line"]
    missed = sets.loc[sets["missed"].to_numpy() > 0, columns]
    nth, found = Counter[tuple[Any, ...]](), list[tuple[int, str, int]]()
    for place, row in enumerate(each(missed)):
        kinds = (row.miss or "not stated").split("+")
        for kind in kinds:
            key = (row.file, row.line, row.lift, row.load_kg)
            # The kinds stand for equal parts of the row's misses; what does not divide goes to the first.
            count = row.missed // len(kinds) + (nth[key] < row.missed % len(kinds))
            nth[key] += 1
            if count:
                found.append((place, kind, count))
    at, kind, count = zip(*found, strict=True) if found else ((), (), ())
    rows = missed.iloc[list(at)].reset_index(drop=True)
    rows["miss"], rows["missed"] = pd.array(kind, dtype="str"), np.array(count, dtype=np.int64)
    return rows.set_axis(list(MISSES), axis="columns")


def by_day(sets: pd.DataFrame, goal_lifts: tuple[str, ...]) -> pd.DataFrame:
    """One row a training day; columns `model.tables.DAYS`."""
    load = sets["load_kg"] * sets["tried"]
    classic = sets["role"].isin(["goal", "derivative", "part"])
    strength = sets["role"].isin(["squat", "pull"])
    goal = sets["lift"].isin(goal_lifts) & (sets["tried"] > 0)
    table = pd.DataFrame(
        {
            "date": sets["date"],
            "session_id": sets["session_id"],
            "repetitions": sets["tried"],
            "tonnage_kg": load,
            "tonnage_classic_kg": load.where(classic, 0.0),
            "tonnage_strength_kg": load.where(strength, 0.0),
            "top_share_goal": sets["share"].where(goal),
        }
    )
    grouped = table.groupby("date", sort=True)
    sums = ["repetitions", "tonnage_kg", "tonnage_classic_kg", "tonnage_strength_kg"]
    days = grouped[sums].sum()
    days.insert(0, "sessions", grouped["session_id"].nunique())
    days["top_share_goal"] = grouped["top_share_goal"].max()
    return days.reset_index()
