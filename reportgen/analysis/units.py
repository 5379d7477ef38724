"""Logs, or runs of their days, that fit pounds better than kilograms, or kilograms better than pounds."""

from collections.abc import Mapping

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from reportgen.analysis import goals, support
from reportgen.analysis.baseline import nan_median
from reportgen.analysis.support import Floats, Ints, Log, Rows
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade import formulas
from reportgen.trade.schema import Trade

_NEAR = 3  # days of a lift on each side of a change
_SAME = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Days on which the loads seem to stand in another unit."""

    #: first, last: Days since 1970, both of the run.
    first: int
    last: int
    heavy: bool  # the loads are the heavier ones: pounds that were taken for kilograms


def runs(log: Log, trade: Trade) -> tuple[Run, ...]:
    """Spans of days on which the loads of several lifts stand about 2.2 times over those around."""
    lifts = [days for rows in log.lifts.values() if len((days := support.days(rows)).day) > _NEAR]
    if not lifts:
        return ()
    every = np.unique(np.concatenate([days.day for days in lifts]))
    table = np.full((len(lifts), len(every)), np.nan)
    for n, days in enumerate(lifts):
        here = days.bears > 0
        rise, day = _rises(np.log(days.bears[here])), days.day[here]
        place = np.searchsorted(day, every)
        known = place < len(day)
        table[n, known] = rise[place[known]]
    counted = (~np.isnan(table)).sum(axis=0)
    least = 2 if len(log.lifts) > 1 else 1
    low, high = np.log(trade.value("unit_step_low")), np.log(trade.value("unit_step_high"))
    each = np.log(trade.value("unit_step_each"))
    middle = np.nan_to_num(nan_median(table[None])[0])
    way = np.sign(middle)
    with_it = np.where(np.isnan(table), True, table * way >= each).all(axis=0)
    moved = (counted >= least) & (np.abs(middle) >= low) & (np.abs(middle) <= high) & with_it
    change = np.where(moved, way, 0).astype(np.int64)
    return tuple(_spans(every, change, table, int(trade.value("unit_change_days"))))


def _rises(logs: Floats) -> Floats:
    """At each day the middle of the days from it on against those before it; NaN with fewer than two."""
    if len(logs) < 4:
        return np.full(len(logs), np.nan)
    padded = np.concatenate([np.full(_NEAR, np.nan), logs, np.full(_NEAR, np.nan)])
    windows = sliding_window_view(padded, _NEAR).T
    counted = (~np.isnan(windows)).sum(axis=0)
    middle = np.where(counted >= 2, nan_median(windows[None])[0], np.nan)
    found: Floats = middle[_NEAR : _NEAR + len(logs)] - middle[: len(logs)]
    return found


def _spans(every: Ints, change: Ints, table: Floats, near: int) -> list[Run]:
    """Each rise up to the next fall; a fall without a rise before it from the beginning."""
    marks: list[tuple[int, int]] = []
    place = 0
    while place < len(every):
        if change[place] == 0:
            place += 1
            continue
        # One change is seen from several days: the one at which most lifts move most is it.
        end = place
        while end < len(every) and every[end] - every[place] <= near and change[end] in (0, change[place]):
            end += 1
        size = np.nansum(np.abs(table[:, place:end]), axis=0) * (change[place:end] != 0)
        marks.append((place + int(np.argmax(size)), int(change[place])))
        place = end
    spans: list[Run] = []
    for n, (at, way) in enumerate(marks):
        if way > 0:
            stop = next((place for place, other in marks[n + 1 :] if other < 0), len(every))
            spans.append(Run(first=int(every[at]), last=int(every[stop - 1]), heavy=True))
        elif n == 0 or marks[n - 1][1] < 0:
            spans.append(Run(first=int(every[0]), last=int(every[at - 1]), heavy=True))
    return spans


def in_pounds(kg: Floats, trade: Trade) -> bool:
    """Whether loads were entered in pounds: whole ones, which are no round kilograms."""
    pounds = kg / trade.value("pound")
    return bool(len(kg)) and bool(np.mean(np.abs(pounds - np.round(pounds)) < _SAME) > np.mean(
        np.abs(kg * 4 - np.round(kg * 4)) < _SAME
    ))  # fmt: skip


def light(log: Log, run: Run, trade: Trade) -> bool:
    """Whether it is the rest that is too light: pounds entered in the run, kilograms around it."""
    kg = np.concatenate(
        [rows.kg[(rows.day >= run.first) & (rows.day <= run.last)] for rows in log.lifts.values()]
    )
    return in_pounds(kg, trade)


def whole(records: Records, lifts: Mapping[str, Rows], trade: Trade) -> float | None:
    """The heaviest load that says that the whole log is in pounds [kg as it stands]; None where none does.

    It is over any human limit for the body mass, far over the goal, an earlier best or the attempts; or it is
    strong, and every load stands on the grid of pound plates or no attempts and no earlier best bear it out.
    """
    rows = {lift: one for lift, one in lifts.items() if lift in goals.PAIR}
    tops = {lift: float(one.load[one.at >= 0].max(initial=0.0)) for lift, one in rows.items()}
    every = np.concatenate([np.zeros(0), *(one.kg[one.at >= 0] for one in lifts.values())])
    if not tops or in_pounds(every, trade):
        return None
    limits = limits_of(records, trade)
    strong = max(tops, key=lambda lift: tops[lift] / limits[lift])
    if tops[strong] > limits[strong]:
        return tops[strong]
    far = _far(records, tops, rows, trade)
    if far is not None:
        return far
    told = any((one.tested | (one.at < 0)).any() for one in rows.values())
    bare = "unit_bare_strong_weighed" if _mass(records, trade) else "unit_bare_strong"
    if not told and tops[strong] > trade.value(bare) * limits[strong]:
        return tops[strong]
    step, bar = trade.value("unit_grid_step"), trade.value("unit_grid_bar")
    on = np.abs(every / step - np.round(every / step)) < _SAME
    grid = (
        len(every) >= trade.value("unit_grid_rows")
        and every.min() >= bar
        and np.mean(on) >= trade.value("unit_grid_share")
    )
    return tops[strong] if grid and tops[strong] > trade.value("unit_grid_strong") * limits[strong] else None


def _far(records: Records, tops: Mapping[str, float], rows: Mapping[str, Rows], trade: Trade) -> float | None:
    goal = records.lifter.goals[0]
    share = trade.value("unit_goal_share")
    if goal.kg is not None:
        asked = (*goals.PAIR,) if goal.lift == "total" else (goal.lift,)
        best = sum(tops.get(lift, 0.0) for lift in asked)
        if best > share * goal.kg:
            return max(tops.get(lift, 0.0) for lift in asked)
    for lift, top in tops.items():
        # An earlier best, and attempts, are written by others than the log.
        mine = rows[lift]
        else_kg = mine.kg[(mine.at < 0) | (mine.tested & (mine.load > 0))].max(initial=0.0)
        logged_kg = mine.load[~mine.tested & (mine.at >= 0)].max(initial=0.0)
        if else_kg and logged_kg > trade.value("unit_best_share") * else_kg:
            return top
    return None


def human(who: str, trade: Trade) -> dict[str, float]:
    """What nobody has lifted, a lift, whatever the body mass [kg]."""
    return {lift: trade.value(f"human_{lift.replace(' ', '_')}_{who}_kg") for lift in goals.PAIR}


def limits_of(records: Records, trade: Trade) -> Mapping[str, float]:
    """What nobody has lifted, a lift; with a body mass what nobody of that mass has [kg]."""
    who = records.lifter.standards
    most = human(who, trade)
    mass = _mass(records, trade)
    row = formulas.sinclair_row(records.as_of.year, who, trade)
    if row is None or not mass:
        return most
    total = trade.value(f"human_total_{who}_kg") / formulas.sinclair_coefficient(mass, row)
    both = sum(most.values())
    return {lift: min(kg, total * kg / both) for lift, kg in most.items()}


def _mass(records: Records, trade: Trade) -> float:
    """The middle body mass [kg]; 0 without one, and for one that nobody has."""
    masses = records.bodymass["mass_kg"]
    mass = float(masses.median()) if len(masses) else 0.0
    return mass if trade.value("mass_low_kg") <= mass <= trade.value("mass_high_kg") else 0.0


def goal_in_pounds(records: Records, lifts: Mapping[str, Rows], trade: Trade) -> tuple[float, float] | None:
    """A goal far over the best, and near it as pounds: as it stands, and as pounds [kg]; else None."""
    goal = records.lifter.goals[0]
    if goal.kg is None:
        return None
    asked = goals.lifts_of(goal)
    if not set(asked) <= {*lifts}:
        return None
    best = sum(float(lifts[lift].worth.max(initial=0.0)) for lift in asked)
    pounds = goal.kg * trade.value("pound")
    near = trade.value("goal_pounds_low") * best <= pounds <= trade.value("goal_pounds_high") * best
    return (goal.kg, pounds) if best and near else None
