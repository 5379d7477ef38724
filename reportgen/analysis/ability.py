"""What a lifter makes one time in two on an ordinary day, by the week, and how sure that is.

A path over weeks is read from every try made and missed: the ability moves by a pace of the lifter's own,
wanders beside it, falls while nothing is trained and comes back. Pace and scatter are not known either, so
each of a few is carried along and counts by how well it foretold what came: a filter on a grid, exact but for
the grid's step. It stands beside the best: the best is what happened.
"""

import datetime as dt
import math
from functools import cached_property

import numpy as np
import pandas as pd

from reportgen.analysis import tries as evidence
from reportgen.analysis.baseline import WEEK, Array, Days
from reportgen.analysis.tries import Tries
from reportgen.analysis.when import date_of, number_of, to_days
from reportgen.model.ability import AbilityFact, AbilityWeek
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

DRAWS = 400
#: Log chance beyond which the tries of a week no longer tell weights apart.
_RULED_OUT = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ability:
    """The path of one lift's ability up to a day."""

    lift: str  # catalogue name
    as_of: dt.date  # the day that it stands on
    grid: Array  # log kilograms (G,)
    path: Array  # chance of each grid value at the end of each week, the last one is of `as_of` (W, G)
    now: Array  # the same of the last week by pace and scatter (pace, sort, G); sums to one
    draws: Array  # paths drawn from it, log kilograms (DRAWS, weeks of the trend + 1), the last column is now
    #: pace, sort: Pace of each draw (log a week) and which sort of lifter it is of.
    pace: Array
    sort: Days
    owed: float  # log share that weeks away took and training is yet to give back
    tried: int
    made: int
    trained: bool  # training holds tries enough near the limit, not only contests and tests
    trade: Trade

    def chance(self, load_kg: float, *, fresh: float = 0.0) -> float:
        """The chance of a single on an ordinary day, or on a day so much better (a share)."""
        return float(self.chances(np.array([load_kg]), fresh=fresh)[0])

    def chances(self, loads_kg: Array, *, fresh: float = 0.0) -> Array:
        """The chance of each load."""
        room = self.grid[:, None] + np.log1p(fresh) - np.log(loads_kg)[None, :]
        total: Array = np.zeros(len(loads_kg))
        for sort, weight in enumerate(self.now.sum(axis=0)):
            rooms, curve = evidence.ordinary(sort, self.trade)
            total += weight @ np.interp(room, rooms, curve)
        return total

    def heaviest(self, chance: float) -> float:
        """The heaviest single of an ordinary day with that chance [kg]."""
        loads, chances = self._curve
        return math.exp(np.interp(-chance, -chances, loads))

    @cached_property
    def _curve(self) -> tuple[Array, Array]:
        loads = np.linspace(self.grid[0] - 0.15, self.grid[-1], 160)
        return loads, self.chances(np.exp(loads))

    def sure(self) -> float:
        """The weight made nine times in ten [kg], and all but surely no less than four in five."""
        least = self.trade.value("ability_sure_least")
        often = self.heaviest(self.trade.value("ability_sure"))
        weight = self.now.sum(axis=0)
        rooms = []
        for sort in range(len(weight)):
            room, curve = evidence.ordinary(sort, self.trade)
            rooms.append(self.grid - float(np.interp(least, curve, room)))
        places, mass = np.concatenate(rooms), weight.ravel()
        order = np.argsort(places, kind="stable")
        held = np.cumsum(mass[order])
        safe = float(np.interp(1 - self.trade.value("ability_sure_certain"), held / held[-1], places[order]))
        return min(often, math.exp(safe))

    def change(self, weeks: int) -> tuple[float, float, float] | tuple[None, None, None]:
        """What the ability changed by in so many weeks [kg], with its 95 % range; None beyond the tries."""
        if weeks >= self.draws.shape[1]:
            return None, None, None
        moved = np.exp(self.draws[:, -1]) - np.exp(self.draws[:, -1 - weeks])
        middle, spread = float(moved.mean()), 1.96 * float(moved.std())
        return middle, middle - spread, middle + spread


def read(
    sets: pd.DataFrame, lift: str, *, as_of: dt.date, trade: Trade, tapered: frozenset[dt.date] = frozenset()
) -> Ability | None:
    """The ability of a lift on a day.

    Args:
        sets: Prepared sets (`frames.prepare`); rows after `as_of` are not seen.
        lift: A catalogue name.
        as_of: The day.
        trade: Rules `ability_*`.
        tapered: Days before which a taper was done: form is expected to be up.

    Returns:
        None where the log can't carry it: few tries near the limit, or a range that says nothing.
    """
    day = number_of(as_of)
    mine = evidence.read(sets, lift, trade).upto(day, day - WEEK * int(trade.value("ability_weeks")) + 1)
    trained = np.unique((day - to_days(sets["date"])) // WEEK)
    return of(mine, lift, day=day, trained=trained[trained >= 0], trade=trade, tapered=tapered)


def of(
    mine: Tries,
    lift: str,
    *,
    day: int,
    trained: Days,
    trade: Trade,
    tapered: frozenset[dt.date] = frozenset(),
) -> Ability | None:
    """The ability from tries that were read; `trained` are the weeks back from the day that hold any set."""
    top = evidence.top_of(mine, trade)
    near = _near(mine, top, trade)
    if near is None:
        return None
    grid = _grid(top, trade)
    likely, prior = _evidence(near, grid, day, trade, tapered)
    moves = _moves(grid, len(likely), trained, _paces(trade), trade)
    before, now = _forward(likely, moves, prior, trade)
    draws, pace, sort = _drawn(before, now, moves, grid, trade)
    found = Ability(
        lift=lift,
        as_of=date_of(day),
        grid=grid,
        path=_path(before, now, likely, moves),
        now=now,
        draws=draws,
        pace=pace,
        sort=sort,
        owed=moves.owed,
        tried=int(mine.count.sum()),
        made=int((mine.count * (mine.made == mine.reps)).sum()),
        trained=_near(mine.where(~mine.given), top, trade) is not None,
        trade=trade,
    )
    low, high = quantiles(grid, found.path[-1], (0.025, 0.975))
    return found if high - low <= trade.value("ability_widest") else None


def before(mine: Tries, *, day: int, ahead: int, trained: Days, trade: Trade) -> tuple[Array, Array] | None:
    """What was known at the end of a day of the ability so many days ahead, at the usual pace.

    Returns:
        The grid and the chances (sort, G); None where the tries can't carry it.
    """
    mine = mine.upto(day, day - WEEK * int(trade.value("form_weeks")) + 1)
    top = evidence.top_of(mine, trade)
    near = _near(mine, top, trade)
    if near is None:
        return None
    grid = _grid(top, trade)
    likely, prior = _evidence(near, grid, day, trade, frozenset())
    moves = _moves(grid, len(likely), trained, np.zeros(1), trade)
    _, now = _forward(likely, moves, prior, trade)
    state = now[0]
    for _ in range(round(ahead / WEEK)):
        state = (
            state
            @ _matrix(grid, np.array([trade.value("ability_pace")]), trade.value("ability_wander"), trade)[0]
        )
    return grid, state


def _paces(trade: Trade) -> Array:
    """Paces that are carried along, in scatters from the usual one."""
    return np.array([trade.value(f"ability_pace_{place}") for place in range(1, 6)])


def _near(mine: Tries, top: float, trade: Trade) -> Tries | None:
    """The tries that say something; None with too few of them near the limit, or without a sign of it."""
    if not len(mine) or np.isnan(top):
        return None
    worth = mine.log_kg + trade.value("ability_rep_cost") * (mine.reps - 1)
    near = worth >= top + np.log(trade.value("ability_near"))
    enough = float(mine.count[near].sum()) >= trade.value("ability_near_tries")
    days = len(np.unique(mine.day[near])) >= trade.value("ability_near_days")
    # Makes alone say from where up the limit lies, and never where.
    shown = (mine.made < mine.reps) | (mine.effort >= trade.value("limit_effort")) | mine.given
    if not (enough and days and bool((shown & near).any())):
        return None
    return mine.where(worth >= top + np.log(trade.value("ability_lightest")))


def _grid(top: float, trade: Trade) -> Array:
    """Whole steps, so that a grid of the same lift lies on the same places whatever its middle."""
    step, reach = trade.value("ability_step"), trade.value("ability_reach")
    middle, far = round(top / step), round(reach / step)
    return np.arange(middle - far, middle + far + 1, dtype=np.float64) * step


def _chosen(mine: Tries, grid: Array, first: int, last: int, trade: Trade) -> Array:
    """What the weights chosen on the days [first, last] say, since who chooses knows something (G,)."""
    top = evidence.top_of(mine.upto(last, first), trade)
    if np.isnan(top):
        return np.full(len(grid), 1 / len(grid))
    off = (grid - top - trade.value("ability_above_top")) / trade.value("ability_above_scatter")
    chosen: Array = 1 / (1 + off**2 / 5) ** 3
    return chosen / float(chosen.sum())


def _evidence(
    mine: Tries, grid: Array, day: int, trade: Trade, tapered: frozenset[dt.date]
) -> tuple[Array, Array]:
    """How likely each week's tries are by the ability (week, sort, grid), log; and where it began (G,).

    The weights that were chosen count once for the first weeks and once for the last, and weakly.
    """
    weeks = int((day - mine.day.min()) // WEEK) + 1
    step, odd = trade.value("ability_step"), trade.value("ability_odd_day")
    times = trade.value("ability_odd_day_times")
    days, likely = evidence.by_day(mine, grid, trade)
    scatters = trade.value("ability_day_scatter") * evidence.sorts("scatter", trade)
    forms = np.stack([evidence.spread(len(grid), one, step, odd, times) for one in scatters.tolist()])
    likely = evidence.blurred(likely.transpose(1, 0, 2), forms).transpose(1, 0, 2)
    # A day after a taper is better than an ordinary one: what it shows is not the ability's doing.
    up = round(trade.value("taper_gain") / step)
    fresh = np.array([date_of(int(one)) in tapered for one in days], dtype=bool)
    likely[fresh, :, :-up] = likely[fresh][:, :, up:]
    total = np.zeros((weeks, len(evidence.SORTS), len(grid)))
    week = weeks - 1 - (day - days) // WEEK
    begins = np.flatnonzero(np.diff(week, prepend=-1))
    total[week[begins]] = np.add.reduceat(likely, begins, axis=0)
    total = evidence.blurred(total, evidence.spread(len(grid), trade.value("ability_week_scatter"), step))
    span = WEEK * int(trade.value("ability_change_weeks"))
    first = int(mine.day.min())
    total[-1] += np.log(_chosen(mine, grid, max(day - span + 1, first), day, trade))
    # No week rules anything out for good: a hundred wrong rows leave numbers, not zeros.
    total = np.maximum(total, total.max(axis=2, keepdims=True) - _RULED_OUT)
    return total, _chosen(mine, grid, first, first + span - 1, trade)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Moves:
    """How the ability moves into each week: the matrices (kinds, paces, G, G), and which one a week takes."""

    matrix: Array
    into: Array  # the same by where a move ends
    kind: Days
    paces: Array  # in scatters from the usual one
    owed: float  # of what was lost, not yet back


def _moves(grid: Array, weeks: int, trained: Days, paces: Array, trade: Trade) -> _Moves:
    """A usual week; a week away; the weeks after one, in which it comes back."""
    step, wander = trade.value("ability_step"), trade.value("ability_wander")
    held = np.isin(np.arange(weeks - 1, -1, -1), trained)
    lost, shift, spread = 0.0, [], []
    for week in range(weeks):
        if not held[week] and week:
            loss = min(trade.value("ability_loss"), trade.value("ability_loss_most") - lost)
            lost += loss
            shift.append(-loss)
            spread.append(float(np.hypot(wander, trade.value("ability_loss_scatter"))))
        else:
            back = lost * trade.value("ability_regain")
            lost = lost - back if lost > step / 2 else 0.0
            shift.append(back)
            spread.append(float(np.hypot(wander, trade.value("ability_regain_scatter") * back)))
    kinds: dict[tuple[float, float], int] = {}
    kind = [
        kinds.setdefault((round(a, 4), round(b, 4)), len(kinds)) for a, b in zip(shift, spread, strict=True)
    ]
    usual = trade.value("ability_pace") + paces * trade.value("ability_pace_scatter")
    matrix = np.stack([_matrix(grid, usual + a, b, trade) for a, b in kinds])
    # Turned round once, in one piece, for the way back.
    into = np.ascontiguousarray(matrix.transpose(0, 1, 3, 2))
    return _Moves(matrix=matrix, into=into, kind=np.array(kind), paces=paces, owed=lost)


def _matrix(grid: Array, shift: Array, spread: float, trade: Trade) -> Array:
    """Chances of a move from each grid value to each, by pace (pace, G, G); rarely several times as far."""
    far = np.arange(-len(grid) + 1, len(grid)) * trade.value("ability_step")
    off = far[None, :] - shift[:, None]
    odd, wide = trade.value("ability_odd_week"), trade.value("ability_odd_week_times") * spread
    dense = (1 - odd) * np.exp(-0.5 * (off / spread) ** 2) / spread
    dense += odd * np.exp(-0.5 * (off / wide) ** 2) / wide
    places = np.arange(len(grid))
    found: Array = dense[:, places[None, :] - places[:, None] + len(grid) - 1]
    found /= found.sum(axis=2, keepdims=True)
    return found


def _forward(likely: Array, moves: _Moves, prior: Array, trade: Trade) -> tuple[Array, Array]:
    """The filter after each week (W, pace, sort, G), each pace and sort alone, and the last week weighted."""
    weeks, sorts, size = likely.shape
    peak = likely.max(axis=2, keepdims=True)
    flat = np.exp(likely - peak)
    forward = np.empty((weeks, len(moves.paces), sorts, size))
    weight = np.log(evidence.sorts("share", trade))[None, :] - 0.5 * moves.paces[:, None] ** 2
    state: Array = np.broadcast_to(prior, forward.shape[1:])
    for week in range(weeks):
        if week:
            state = state @ moves.matrix[moves.kind[week]]
        state = state * flat[week][None]
        total = state.sum(axis=2, keepdims=True)
        weight = weight + np.log(total[..., 0]) + peak[week, :, 0][None]
        state = state / total
        forward[week] = state
    chance = np.exp(weight - weight.max())
    return forward, (chance / chance.sum())[..., None] * forward[-1]


def _path(before: Array, now: Array, likely: Array, moves: _Moves) -> Array:
    """The chance of each grid value by the week, with what came later (W, G)."""
    flat = np.exp(likely - likely.max(axis=2, keepdims=True))
    chance = now.sum(axis=2, keepdims=True)
    path = np.empty((len(likely), likely.shape[2]))
    back = np.ones(before.shape[1:])
    for week in range(len(likely) - 1, -1, -1):
        both = before[week] * back
        path[week] = (chance / both.sum(axis=2, keepdims=True) * both).sum(axis=(0, 1))
        if week:
            back = (back * flat[week][None]) @ moves.into[moves.kind[week]]
            back /= back.max(axis=2, keepdims=True)
    return path


def _drawn(before: Array, now: Array, moves: _Moves, grid: Array, trade: Trade) -> tuple[Array, Array, Days]:
    """Paths drawn back from now over the weeks of the trend; the same draws for the same tries."""
    weeks = min(len(before) - 1, int(trade.value("ability_trend_weeks")))
    chance = np.random.default_rng(17).random((weeks + 2, DRAWS))
    size = len(grid)
    # Evenly spaced over pace and scatter and the last value, so that few draws tell much.
    even = (np.arange(DRAWS) + chance[0]) / DRAWS
    place = np.searchsorted(np.cumsum(now.ravel()), even * now.sum() * (1 - 1e-12))
    order = np.random.default_rng(18).permutation(DRAWS)
    pace, sort, value = np.unravel_index(np.minimum(place, now.size - 1)[order], now.shape)
    columns = [grid[value]]
    for back in range(weeks):
        week = len(before) - 1 - back
        mass = np.cumsum(before[week - 1][pace, sort] * moves.into[moves.kind[week]][pace, value], axis=1)
        value = np.minimum((mass < (chance[back + 1] * mass[:, -1])[:, None]).sum(axis=1), size - 1)
        columns.append(grid[value])
    inside = (chance[-1] - 0.5) * trade.value("ability_step")
    drawn = np.stack(columns[::-1], axis=1) + inside[:, None]
    return (
        drawn,
        trade.value("ability_pace") + _paces(trade)[pace] * trade.value("ability_pace_scatter"),
        sort,
    )


def quantiles(grid: Array, chance: Array, shares: tuple[float, ...]) -> tuple[float, ...]:
    """Quantiles of a distribution on the grid, even within a step."""
    step = float(grid[1] - grid[0])
    edges = np.concatenate([[0.0], np.cumsum(chance)])
    ends = np.append(grid - step / 2, grid[-1] + step / 2)
    return tuple(np.interp(np.array(shares) * edges[-1], edges, ends).tolist())


def fact(found: Ability) -> AbilityFact:
    """The ability as a fact, in kilograms."""
    trade = found.trade
    change, change_low, change_high = found.change(int(trade.value("ability_change_weeks")))
    start = number_of(found.as_of) - WEEK * (len(found.path) - 1)
    weeks = []
    for place, chance in enumerate(found.path):
        low, kg, high = (math.exp(one) for one in quantiles(found.grid, chance, (0.025, 0.5, 0.975)))
        weeks.append(AbilityWeek(date=date_of(start + WEEK * place), kg=kg, low=low, high=high))
    return AbilityFact(
        lift=found.lift,
        kg=weeks[-1].kg,
        low=weeks[-1].low,
        high=weeks[-1].high,
        sure_kg=found.sure(),
        change_kg=change,
        change_low=change_low,
        change_high=change_high,
        tried=found.tried,
        made=found.made,
        weeks=tuple(weeks),
    )
