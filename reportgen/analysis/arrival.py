"""Where the ability goes: when a goal weight is made, and the chance that it is by a day."""

import datetime as dt
from dataclasses import replace

import numpy as np

from reportgen.analysis import tries as evidence
from reportgen.analysis.ability import DRAWS, Ability
from reportgen.analysis.baseline import WEEK, Array
from reportgen.model.ability import ArrivalFact
from reportgen.model.proposal import BlockFact
from reportgen.trade.schema import Trade


def ahead(found: Ability, weeks: int, trade: Trade) -> Array:
    """Paths of the ability so many weeks on (DRAWS, weeks), log kilograms: each draw's pace drifts back."""
    chance = np.random.default_rng(19)
    usual, back = trade.value("ability_pace"), trade.value("ability_pace_back")
    level, now, owed = found.draws[:, -1], found.pace, found.owed
    paths = np.empty((DRAWS, weeks))
    for week in range(weeks):
        now = now + back * (usual - now) + trade.value("ability_pace_change") * chance.standard_normal(DRAWS)
        regained = owed * trade.value("ability_regain")
        owed -= regained
        level = level + now + regained + trade.value("ability_wander") * chance.standard_normal(DRAWS)
        paths[:, week] = level
    return paths


def read(
    found: tuple[Ability, ...],
    goal_kg: float,
    by: dt.date | None,
    *,
    present_kg: float,
    fresh: float,
    trade: Trade,
    drift: tuple[float, float] = (0.0, 0.0),
) -> ArrivalFact | None:
    """When the goal weight is made, and the chance that it is by its day.

    A goal within reach is tried on a heavy day every other week, twice; on its own day three times, fresh.
    It is made with the first of these tries that goes. Each lift of a total is tried once, at the part of it
    that the abilities give, and both have to go.

    Args:
        found: The ability of each lift of the goal.
        goal_kg: Goal weight, or total.
        by: The goal's day; None without one.
        present_kg: What the lifter has made, for the kilograms a month that the goal asks.
        fresh: What a taper gives this lifter (a share).
        drift: How the goal itself moves a week, a log share, and its standard error: one in times body mass.
        trade: Rules `arrival_*`, `ability_*`.

    Returns:
        None for a goal that has been reached, without an ability, or with its day behind.
    """
    if not found or goal_kg <= present_kg + trade.value("edge_kg"):
        return None
    as_of = found[0].as_of
    weeks = round(trade.value("trend_reach_years") * 12 * trade.value("month_days") / WEEK)
    paths = np.log(sum(np.exp(ahead(one, weeks, trade)) for one in found))
    rooms = paths - np.log(goal_kg) - _drifted(drift, weeks, trade)
    missed = _missed(rooms, found, trade)
    chance = asked = None
    if by is not None and by > as_of:
        days = (by - as_of).days
        last = min(round(days / WEEK), weeks) - 1
        room = rooms[:, max(last, 0)] + np.log1p(fresh)
        before = missed[:, last - 1] if last > 0 else np.zeros(DRAWS)
        on_day = np.log1p(-_goes(room, found, int(trade.value("arrival_day_tries")), trade))
        chance = _doubted(float(1 - np.exp(before + on_day).mean()), days, trade)
        asked = (goal_kg - present_kg) / (days / trade.value("month_days"))
        missed[:, max(last, 0) :] += (before - missed[:, max(last, 0)] + on_day)[:, None]
    early, middle, late = _range(missed, as_of, trade)
    return ArrivalFact(
        goal_kg=goal_kg, by=by, asked_kg_per_month=asked, chance=chance, early=early, late=late,
        middle=middle, rare=None if chance is None else chance < trade.value("arrival_rare"),
    )  # fmt: skip


def with_attempts(
    arrived: ArrivalFact | None, block: BlockFact, lifts: tuple[str, ...], trade: Trade
) -> ArrivalFact | None:
    """No chance beside attempts that end under the goal: on its own day the goal is not tried then."""
    if arrived is None or arrived.by is None or block.test_day != arrived.by:
        return arrived
    last = {one.lift: one.kg for one in block.attempts}
    if not all(lift in last for lift in lifts):
        return arrived
    end_kg = sum(last[lift] for lift in lifts)
    if end_kg >= arrived.goal_kg - trade.value("edge_kg"):
        return arrived
    return replace(arrived, chance=None, rare=None, attempts_kg=end_kg)


def _doubted(chance: float, days: int, trade: Trade) -> float:
    """A chance with its log odds drawn in: what a lifter will train and try by then is not known."""
    far = min(days / trade.value("arrival_odds_days"), 1.0)
    odds: float = (chance / max(1 - chance, 1e-9)) ** (1 - far * (1 - trade.value("arrival_odds_kept")))
    return odds / (1 + odds)


def _goes(room: Array, found: tuple[Ability, ...], times: int, trade: Trade) -> Array:
    """The chance that one of so many tries goes, by the room under the goal of each draw; of several lifts
    that one try of each does.
    """
    chance = np.ones_like(room)
    for one in found:
        for sort in np.unique(one.sort):
            rooms, curve = evidence.ordinary(int(sort), trade, times if len(found) == 1 else 1)
            mine = one.sort == sort
            chance[mine] *= np.interp(room[mine], rooms, curve)
    return np.minimum(chance, 1 - 1e-12)


def _missed(room: Array, found: tuple[Ability, ...], trade: Trade) -> Array:
    """The log chance that no try up to each week has gone (DRAWS, weeks)."""
    goes = _goes(room, found, int(trade.value("arrival_tries")), trade)
    every = int(trade.value("arrival_every"))
    week, draw = np.arange(room.shape[1])[None, :], np.arange(DRAWS)[:, None]
    tried = ((week + draw) % every == 0) & (room > -trade.value("arrival_within"))
    missed: Array = np.cumsum(np.where(tried, np.log1p(-goes), 0.0), axis=1)
    return missed


def _drifted(drift: tuple[float, float], weeks: int, trade: Trade) -> Array:
    """How far a goal that moves has moved by each week (DRAWS, weeks): body mass does not go on for ever."""
    back = trade.value("ability_pace_back")
    far = (1 - (1 - back) ** np.arange(1, weeks + 1)) / back
    pace = drift[0] + drift[1] * np.random.default_rng(20).standard_normal(DRAWS)
    moved: Array = pace[:, None] * far[None, :]
    return moved


def _range(
    missed: Array, as_of: dt.date, trade: Trade
) -> tuple[dt.date | None, dt.date | None, dt.date | None]:
    """Early, middle, late: quantiles of the day of the first try that goes; None = not within two years."""
    made = 1 - np.exp(missed).mean(axis=0)
    outside = (1 - trade.value("arrival_range")) / 2

    def day(share: float, within: int) -> dt.date | None:
        weeks = np.flatnonzero(made >= share)
        return as_of + dt.timedelta(days=WEEK * int(weeks[0]) + within) if len(weeks) else None

    # From the first day of the week that one end falls into to the last day of the week of the other.
    return day(outside, 1), day(0.5, WEEK), day(1 - outside, WEEK)
