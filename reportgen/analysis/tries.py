"""Every try of a lift as evidence: how likely what happened was, for each form that the bar may have met.

The grid is of log kilograms. A set is judged by the day's form u: the log weight that goes up one time in two
on that day. One day's sets share a form, one week's days another part of it, and both are integrated out, so
that ten tries of one good day are no ten days.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import pandas as pd

from reportgen.analysis.baseline import Array, Days, Mask
from reportgen.analysis.frames import arrays
from reportgen.analysis.when import to_days
from reportgen.trade.schema import Trade

#: Steps from the middle of a table of chances to its ends: loads so far off are all alike.
_FAR = 160


#: Sorts of lifters that are carried along; what a log's own tries say decides among them.
SORTS: Final = range(1, 6)


def sorts(name: str, trade: Trade) -> Array:
    """A figure of each sort: `scatter` of tries and days and `cost` of a further repetition as multiples of
    the usual, `share` of lifters.
    """
    return np.array([trade.value(f"ability_sort_{sort}_{name}") for sort in SORTS])


@dataclass(frozen=True, slots=True, kw_only=True)
class Tries:
    """The sets of one lift that say something, alike ones of a day as one; by day, load, repetitions."""

    day: Days  # since 1970
    log_kg: Array
    reps: Array
    made: Array  # repetitions of a set
    count: Array  # sets alike
    effort: Array  # NaN = not given
    given: Mask  # on a platform or a test day

    def upto(self, day: int, first: int) -> "Tries":
        """The tries of the days [first, day]."""
        return self.where(slice(*np.searchsorted(self.day, (first, day + 1)).tolist()))

    def where(self, chosen: Mask | Days | slice) -> "Tries":
        """Some of the tries."""
        return Tries(**{name: getattr(self, name)[chosen] for name in self.__slots__})

    def __len__(self) -> int:
        return len(self.day)


def read(sets: pd.DataFrame, lift: str, trade: Trade) -> Tries:
    """The tries of a lift, from prepared sets: plain ones that count, of few repetitions, made or missed.

    Returns:
        By day; in whatever order the rows came.
    """
    name, counts, parts, every, kg, made, effort = arrays(
        sets, "lift", "counts", "parts", "tried", "load_kg", "made", "effort"
    )
    tried = sets["reps"].to_numpy() - sets["declined"].to_numpy()
    mine = (name == lift) & counts & (parts == 1) & (every > 0) & (tried <= trade.value("ability_reps_most"))
    cells = np.column_stack(
        [
            to_days(sets["date"])[mine],
            np.log(kg[mine]),
            tried[mine],
            np.minimum(made, tried)[mine],
            np.nan_to_num(effort[mine], nan=-1.0),
            sets["kind"].to_numpy()[mine] != "training",
        ]
    )
    alike, place = np.unique(cells, axis=0, return_inverse=True)
    alike_sets = sets["sets"].to_numpy(dtype=np.float64)[mine]
    count = np.bincount(place.ravel(), weights=alike_sets, minlength=len(alike)).astype(np.float64)
    return Tries(
        day=alike[:, 0].astype(np.int64),
        log_kg=alike[:, 1],
        reps=alike[:, 2],
        made=alike[:, 3],
        count=count,
        effort=np.where(alike[:, 4] < 0, np.nan, alike[:, 4]),
        given=alike[:, 5] > 0,
    )


def top_of(tries: Tries, trade: Trade) -> float:
    """The usual top of a heavier day, as the log of a single: four days in five lie under it.

    One slip is one day and moves it little. NaN where nothing was ever made.
    """
    cost = trade.value("ability_rep_cost")
    made = tries.made > 0
    if not made.any():
        return float("nan")
    worth = tries.log_kg[made] + cost * (tries.made[made] - 1)
    best = np.sort(np.maximum.reduceat(worth, np.flatnonzero(np.diff(tries.day[made], prepend=-1))))
    return float(np.interp(0.8 * (len(best) - 1), np.arange(len(best)), best))


def _curve(room: Array, scatter: Array | float, slip: float, lost: float) -> Array:
    """The chance of a try with so much room (log share) over the load: a logistic curve of that scatter."""
    chance: Array = slip + (1 - slip - lost) / (1 + np.exp(np.clip(-1.7 * room / scatter, -60, 60)))
    return chance


def ordinary(sort: int, trade: Trade, times: int = 1) -> tuple[Array, Array]:
    """Rooms between ability and load, ascending, and the chance that one of so many tries of a day goes."""
    # A slip of the pen is no lift: it may stand in the log, and makes nothing go up.
    names = ("day_scatter", "week_scatter", "odd_day", "odd_day_times", "try_scatter", "given_away")
    return _ordinary(
        float(sorts("scatter", trade)[sort]), times, *(trade.value(f"ability_{name}") for name in names)
    )


@lru_cache(maxsize=64)
def _ordinary(
    scale: float, times: int, day: float, week: float, odd: float, far: float, single: float, lost: float
) -> tuple[Array, Array]:
    step = 0.0025
    forms = np.convolve(kernel(day * scale, step, odd, far), kernel(week, step))
    off = (np.arange(len(forms)) - len(forms) // 2) * step
    room = np.arange(-240, 241, dtype=np.float64) * step
    missed = 1 - _curve(room[:, None] + off[None, :], single * scale, 0.0, lost)
    return room, (1 - missed**times) @ forms


def by_day(tries: Tries, grid: Array, trade: Trade) -> tuple[Days, Array]:
    """How likely each day's tries are, by the form of the day.

    Returns:
        The days, ascending, and the log likelihood (day, sort of lifter, grid).
    """
    days, place = np.unique(tries.day, return_inverse=True)
    total = np.zeros((len(days), len(SORTS) * len(grid)))
    # Sets alike of one day are few pieces of evidence, however many; a set of several is less than a single.
    several = np.where(tries.reps > 1, trade.value("ability_several_weight"), 1.0)
    weight = several * np.minimum(tries.count, trade.value("ability_alike_most"))
    # What failed is the repetition after those that were made.
    kinds = ((True, tries.made, tries.made > 0), (False, tries.made + 1, tries.made < tries.reps))
    for went, reps, rows in kinds:
        for count in np.unique(reps[rows]):
            mine = np.flatnonzero(rows & (reps == count))
            table = _table(went, int(count), trade)
            total += _shifted(table, tries.log_kg[mine], weight[mine], place[mine], len(days), grid)
    likely = total.reshape(len(days), len(SORTS), len(grid))
    told = np.flatnonzero((tries.effort >= trade.value("ability_effort_low")) & (tries.made == tries.reps))
    np.add.at(likely, place[told], _felt(tries.where(told), grid, trade)[:, None, :])
    return days, likely


def _shifted(table: Array, log_kg: Array, weight: Array, day: Days, days: int, grid: Array) -> Array:
    """The table's values at grid less load, even between its steps, summed by day (days, sorts x grid)."""
    step = (grid[-1] - grid[0]) / (len(grid) - 1)
    away = (grid[0] - log_kg) / step + table.shape[1] // 2
    # Beyond either end nothing changes any more.
    away = np.clip(away, 0, table.shape[1] - len(grid) - 1.001)
    first = np.floor(away).astype(np.int64)
    part, least = away - first, int(first.min())
    parts = np.zeros((days, int(first.max()) + 2 - least))
    np.add.at(parts, (day, first - least), weight * (1 - part))
    np.add.at(parts, (day, first + 1 - least), weight * part)
    windows = np.lib.stride_tricks.sliding_window_view(table, len(grid), axis=1)
    mine = windows[:, least : least + parts.shape[1]].transpose(1, 0, 2).reshape(parts.shape[1], -1)
    found: Array = parts @ mine
    return found


def _table(went: bool, reps: int, trade: Trade) -> Array:
    """The log chance that so many repetitions went, or the last of them failed, by room (sort, room)."""
    names = ("step", "try_scatter", "rep_scatter", "rep_cost", "slip", "given_away")
    scatter, cost = (tuple(sorts(name, trade).tolist()) for name in ("scatter", "cost"))
    return _tabled(went, reps, scatter, cost, *(trade.value(f"ability_{name}") for name in names))


@lru_cache(maxsize=32)
def _tabled(
    went: bool, reps: int, scatter: tuple[float, ...], costs: tuple[float, ...],
    step: float, single: float, spread: float, cost: float, slip: float, lost: float,
) -> Array:  # fmt: skip
    room = np.arange(-_FAR, _FAR + 1, dtype=np.float64)[None, :] * step
    # Each further repetition costs something.
    own = np.sqrt((single * np.array(scatter)) ** 2 + (spread * (reps - 1)) ** 2)[:, None]
    chance = _curve(room - (cost * np.array(costs) * (reps - 1))[:, None], own, slip, lost)
    found: Array = np.log(chance if went else 1 - chance)
    return found


def _felt(tries: Tries, grid: Array, trade: Trade) -> Array:
    """What a logged effort adds to sets that were made near the limit: so much was left (try, grid)."""
    left = trade.value("ability_effort_step") * (10 - tries.effort)
    left = left + trade.value("ability_rep_cost") * (tries.reps - 1) + tries.log_kg
    off = (grid[None, :] - left[:, None]) / trade.value("ability_effort_scatter")
    # Student's t: an effort that fits nothing else is an odd one.
    felt: Array = -2.5 * trade.value("ability_effort_weight") * np.log1p(off**2 / 4)
    return felt


def kernel(scatter: float, step: float, odd: float = 0.0, times: float = 1.0) -> Array:
    """Weights of a form so far off (multiples of the step), with rare days so many times as far."""
    reach = int(np.ceil(4.5 * scatter / step))
    off = np.arange(-reach, reach + 1, dtype=np.float64) * step
    near, far = np.exp(-0.5 * (off / scatter) ** 2), np.exp(-0.5 * (off / (times * scatter)) ** 2)
    both: Array = (1 - odd) * near / near.sum() + odd * far / far.sum()
    return both


@lru_cache(maxsize=64)
def spread(size: int, scatter: float, step: float, odd: float = 0.0, times: float = 1.0) -> Array:
    """The same weights as what each place of a grid takes from each other (size, size).

    Beyond either end of the grid it stays as it is there.
    """
    weights = kernel(scatter, step, odd, times)
    half = len(weights) // 2
    into = np.arange(size)[:, None]
    found = np.zeros((size, size))
    np.add.at(found, (np.clip(into + np.arange(-half, half + 1), 0, size - 1), into), weights)
    return found


def blurred(log_likelihood: Array, spreads: Array) -> Array:
    """A likelihood over forms as one over what lies under them: the form is integrated out (last axis).

    Args:
        log_likelihood: (..., rows, grid).
        spreads: (..., grid, grid), see `spread`.
    """
    peak = log_likelihood.max(axis=-1, keepdims=True)
    found: Array = np.log(np.maximum(np.exp(log_likelihood - peak) @ spreads, 1e-300)) + peak
    return found
