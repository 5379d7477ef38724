"""What the days of a lift bear: the load of each day, what a set of several implies, and what other days say.

Arrays of one lift have one place a row, in the order of days; those of days one place a day.
"""

from collections import Counter
from dataclasses import fields, replace
from operator import itemgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from reportgen.analysis.when import number_of, to_days
from reportgen.model.lifter import LIFTER_TOML, PriorBest
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade import formulas
from reportgen.trade.schema import Trade

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_ROLES = ("goal", "derivative", "part", "overhead", "pull", "squat")
_SLOW = ("squat", "pull", "press")


@dataclass(frozen=True, slots=True, kw_only=True)
class Days:
    """What the days of one lift hold: of each the highest."""

    day: Ints  # days since 1970
    #: What a best may be taken from: the load of a made row that counts and is not confirmed, else 0.
    load: Floats
    implied: Floats  # the single that the set implies at the least, for the same rows
    bears: Floats  # the single that the row speaks for at the most; 0 where nothing was made
    #: What a base is taken from in the rows that count, confirmed ones too: the load, and of a squat the
    #: estimated single.
    worth: Floats
    open: Floats  # the same for rows that are not confirmed, else 0
    missed: Floats  # the load of a row with nothing made


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows(Days):
    """The same of its rows, by day."""

    lift: str
    kg: Floats  # load
    reps: Ints  # repetitions made, or tried where none was made
    at: Ints  # place of the row in the log; -1 - n for the n-th best from before it
    tested: Mask  # an attempt of a contest or test day

    def without(self, gone: Mask) -> "Rows":
        """The rows that are left."""
        cells: dict[str, Any] = {
            one.name: getattr(self, one.name)[~gone] for one in fields(self) if one.name != "lift"
        }
        return replace(self, **cells)

    def sure(self, these: Mask) -> "Rows":
        """The same with rows that are confirmed."""
        asked = ("load", "implied", "open")
        cells: dict[str, Any] = {name: np.where(these, 0.0, getattr(self, name)) for name in asked}
        return replace(self, **cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """What was read for the search: the rows a lift, and where each stands."""

    lifts: dict[str, Rows]
    files: NDArray[np.object_]
    lines: NDArray[np.integer[Any]]
    seen: Mask  # rows of them up to a review day that was asked for
    as_of: int

    @property
    def file(self) -> str:
        """The file in which most rows stand."""
        counted = Counter[str](self.files[self.seen])
        return max(counted.items(), key=itemgetter(1), default=(LIFTER_TOML, 0))[0]

    def place(self, at: int) -> tuple[str, int]:
        """File and line of a row."""
        return (LIFTER_TOML, 0) if at < 0 else (self.files[at], int(self.lines[at]))


def checked(trade: Trade) -> tuple[str, ...]:
    """The lifts from which a load of a proposal may be taken."""
    return tuple(name for name, lift in trade.lifts.items() if lift.role in _ROLES or name == "push press")


def read(records: Records, trade: Trade) -> Log:
    """Lay out the rows of every lift that a proposal may take a load from."""
    sets = records.sets
    seen = np.ones(len(sets), dtype=bool)
    if records.asked:
        seen = (sets["date"] <= np.datetime64(records.as_of)).to_numpy(dtype=bool)
    confirmed = set(records.lifter.confirmed)
    files, lines = sets["file"].to_numpy(), sets["line"].to_numpy()
    sure = np.zeros(len(sets), dtype=bool)
    if confirmed:
        places = zip(files.tolist(), lines.tolist(), strict=True)
        sure = np.array([f"{file}:{line}" in confirmed for file, line in places], dtype=bool)
    columns = {
        "day": to_days(sets["date"]),
        "kg": sets["load_kg"].to_numpy(dtype=np.float64),
        "made": sets["made"].to_numpy(),
        "tried": (sets["reps"] - sets["declined"]).to_numpy(),
        "effort": sets["effort"].to_numpy(dtype=np.float64),
        "plain": (sets["variant"] == "").to_numpy(dtype=bool),
        "straps": sets["aid"].str.contains("strap", regex=False).to_numpy(dtype=bool),
        "sure": sure,
        "tested": (sets["kind"] != "training").to_numpy(dtype=bool),
    }
    as_of = number_of(records.as_of)
    priors = [best for best in records.lifter.bests if best.date <= records.as_of]
    where = sets.reset_index(drop=True).groupby("lift", sort=True).indices
    where = {lift: at for lift, at in where.items() if seen[at].any()}
    found: dict[str, Rows] = {}
    for lift in sorted({*checked(trade)} & ({*where} | {best.lift for best in priors})):
        at = np.asarray(where.get(lift, []), dtype=np.int64)
        at = at[seen[at] & (columns["tried"][at] > 0)]
        mine = _logged({name: values[at] for name, values in columns.items()}, at, lift, as_of, trade)
        before = _before([best for best in priors if best.lift == lift], sure=LIFTER_TOML in confirmed)
        order = np.argsort(np.concatenate([mine["day"], before["day"]]), kind="stable")
        if len(order):  # a column after the other: of a long log all of them are much
            every = {name: np.concatenate([mine.pop(name), before[name]])[order] for name in before}
            found[lift] = Rows(lift=lift, **every)
    return Log(lifts=found, files=files, lines=lines, seen=seen, as_of=as_of)


def _logged(
    cells: dict[str, NDArray[Any]], at: Ints, lift: str, as_of: int, trade: Trade
) -> dict[str, NDArray[Any]]:
    """What the logged rows of one lift say, as `Rows` has it."""
    kg, reps, did = cells["kg"], cells["made"], cells["made"] > 0
    floor, slow = trade.lifts[lift].start == "floor", trade.lifts[lift].role in _SLOW
    counts = did & cells["plain"] & ~(cells["straps"] & floor) & (cells["day"] <= as_of)
    asked = counts & ~cells["sure"]
    # What was left after a set counts as done: eight of ten is two repetitions more.
    reserve = np.nan_to_num(np.clip(trade.value("effort_max") - cells["effort"], 0, None), nan=0.0)
    implied = kg * _implies(reps, slow, trade)
    squat = trade.lifts[lift].role == "squat"
    worth = np.where(squat & (reps <= trade.value("estimate_most_reps")), implied, kg)
    return {
        "day": cells["day"],
        "kg": kg,
        "reps": np.where(did, reps, cells["tried"]),
        "load": np.where(asked, kg, 0.0),
        "implied": np.where(asked, implied, 0.0),
        "bears": np.where(did, kg * _bears(reps + reserve, slow, trade), 0.0),
        "worth": np.where(counts, worth, 0.0),
        "open": np.where(asked, worth, 0.0),
        "missed": np.where(did, 0.0, kg),
        "at": at,
        "tested": cells["tested"],
    }


def _before(bests: list[PriorBest], *, sure: bool) -> dict[str, NDArray[Any]]:
    """Bests from before the log: singles, each a row."""
    kg = np.array([best.kg for best in bests], dtype=np.float64)
    asked = kg * (0 if sure else 1)
    return {
        "day": np.array([number_of(best.date) for best in bests], dtype=np.int64),
        "kg": kg,
        "reps": np.ones(len(bests), dtype=np.int64),
        "load": asked,
        "implied": asked,
        "bears": kg,
        "worth": kg,
        "open": asked,
        "missed": np.zeros(len(bests)),
        "at": -1 - np.arange(len(bests), dtype=np.int64),
        "tested": np.zeros(len(bests), dtype=bool),
    }


def _bears(reps: Floats, slow: bool, trade: Trade) -> Floats:
    """The most that a set of so many repetitions speaks for, as a multiple of its load."""
    more = np.maximum(reps - 1, 0)
    most = 1 / trade.value("bears_least_share")
    if slow:
        found: Floats = np.minimum(1 + more / trade.value("bears_slow_reps"), most)
        return found
    fade = trade.value("bears_classic_fade")
    return np.asarray(1 / np.maximum(1 - fade * more, 1 / most))


def _implies(reps: Ints, slow: bool, trade: Trade) -> Floats:
    """The least that a set of so many repetitions implies, as a multiple; Epley for slow lifts."""
    most = np.minimum(reps, trade.value("implies_most_reps"))
    if slow:
        return np.asarray(np.where(reps > 1, formulas.epley(np.ones(len(most)), most, trade), 1.0))
    return np.asarray(1 / (1 - trade.value("implies_classic_fade") * np.maximum(most - 1, 0)))


def days(rows: Rows) -> Days:
    """The highest value of each day."""
    # Rows come by day.
    first = np.flatnonzero(np.diff(rows.day, prepend=rows.day[:1] - 1))
    names = [one.name for one in fields(Days)]
    if not len(first):
        return Days(**{name: getattr(rows, name) for name in names})
    return Days(**{name: np.maximum.reduceat(getattr(rows, name), first) for name in names})


def borne(found: Days, cluster: Ints, trade: Trade, *, strict: bool = False) -> tuple[float, int]:
    """What the other days of a lift bear, and how many they are.

    Args:
        found: Days.
        cluster: Places of the days that are in question.
        trade: Rules.
        strict: What a base would be taken from on the other days, in place of what they may bear.

    Returns:
        The highest single that another day within a year speaks for [kg], 0 without one; and their number.
    """
    span = trade.value("slip_horizon_days")
    others = (np.abs(found.day[:, None] - found.day[cluster]) <= span).any(axis=1)
    others[cluster] = False
    if strict:
        worth = found.worth[others]
        return float(worth.max(initial=0.0)), int((worth > 0).sum())
    bears = found.bears[others]
    bearing = int((bears > 0).sum())
    if not bearing:
        return 0.0, 0
    made = float(bears.max())
    missed = float(found.missed[others].max())
    return max(made, min(missed, made * trade.value("slip_missed_share"))), bearing
