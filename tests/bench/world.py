"""A world to measure in: simulated lifters whose truth is known. Nobody in it exists.

Nothing here knows how the analysis works. A lifter has capacities (what each lift would give) that move by
the week; the form of a day drifts from day to day and has heavy tails; hard weeks tire, light weeks freshen,
a taper gives what it gives. Weights are chosen as lifters choose them: from what they believe they can do and
how the warm-ups felt, with openers, singles, sets of several, chases. What is logged is what happened less
lost rows, wrong grades, slips of the pen and misses that nobody wrote down. Misses fail as the cause has it.

    lifter = draw(seed=1, number=0)      # one lifter: .records as intake gives them, .truth
    lifters(seed=1, count=300)           # many; the kinds take turns, so each stands equally often

`Truth` holds, for every lift from the floor, the weight made one time in two on an ordinary day at the end of
each week (two years beyond the log as well), the form of each test day and what its taper gave, what is wrong
(ids of findings; () for a lifter with nothing wrong), and the day the goal weight is made. `Truth.chance` is
the chance of a load on an ordinary day: over the form of days as they come, without a taper.

    PYTHONPATH=. python -m tests.bench.world --seed 1 --lifters 300     # error, coverage and bias by kind
"""

import argparse
import datetime as dt
import math
import random
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from reportgen.model.lifter import Goal, GoalLift, Lifter
from reportgen.model.records import Records
from reportgen.model.tables import SETS, typed
from tests.bench.kinds import CAUSES, KINDS
from tests.bench.lives import (
    AHEAD,
    FIRST,
    PAIR,
    SLACK,
    Life,
    Row,
    Test,
    accessory,
    attempt,
    heavy,
    live,
    ordinary,
    weeks,
)
from tests.bench.papers import papers


@dataclass(frozen=True, kw_only=True)
class Truth:
    """What is true of a lifter. `kg[lift][n]` is of the end of week n, week 0 begins on `FIRST`."""

    kind: str
    needs: tuple[str, ...]
    first: tuple[str, ...]  # findings of which one should come first; () = nothing stands out
    kg: dict[str, tuple[float, ...]]
    weeks: int  # of the log; later weeks lie ahead
    tests: tuple[Test, ...]
    made: dt.date | None  # the day the goal weight is made, None = not within two years
    reached: dt.date | None  # the first day on which it would go up one time in two
    day: float  # scatter of the days' form
    rep: float  # scatter of one try
    growth: float = 0.0
    squat_kg: float = 0.0  # the true back squat on the review day

    def now(self, lift: str, back: int = 0) -> float:
        """The true weight on the review day, or so many weeks before."""
        return self.kg[lift][self.weeks - 1 - back]

    def chance(self, lift: str, kg: float) -> float:
        """The true chance of a load on an ordinary day after the log."""
        far = math.log(kg / self.now(lift))
        sample = ordinary(round(self.day, 4), round(self.rep, 4))
        return (1 - SLACK) * (1 - bisect_left(sample, far) / len(sample))


@dataclass(frozen=True, kw_only=True)
class Simulated:
    """A lifter: what is written down, and the truth."""

    records: Records
    truth: Truth


# ---- What gets written down ----------------------------------------------------------------------------


def _written(life: Life) -> list[Row]:
    """The rows as they stand in the file: some lost, some graded wrong, some with a slip of the pen."""
    kind, chance = life.kind, life.chance
    kept = []
    for row in life.rows:
        missed = row["made"] != row["reps"]
        given = row["kind"] != "training"
        if not given and chance.random() < (kind.lost_misses if missed else kind.lost):
            continue
        if not given and chance.random() < kind.wrong:
            row = row | {"made": row["reps"] if missed else 0, "declined": 0, "miss": ""}
        if chance.random() < kind.slips:
            factor = chance.choice((2.2046, 0.4536, 1.1, 0.9))
            row = row | {"load_kg": float(round(float(row["load_kg"]) * factor))}  # type: ignore[arg-type]
        kept.append(row)
    return [row | {"line": number + 2} for number, row in enumerate(kept)]


def _ahead(life: Life, goal: Goal) -> tuple[dt.date | None, dt.date | None]:
    """When the goal weight is made and when it would go up one time in two, trained on as before.

    It is tried on some Saturdays, where it feels near, and on the day that it is for.
    """
    made = reached = None
    chance, aim = life.chance, math.log(goal.kg or 0)
    for week in range(life.weeks, life.weeks + AHEAD):
        now = life.log[goal.lift][week]
        date = FIRST + dt.timedelta(days=7 * week + 5)
        if reached is None and now >= aim:
            reached = date
        if made is not None:
            continue
        if goal.by is not None and 0 <= (goal.by - date).days < 7 and chance.random() < 0.85:
            form, times = life.day_spread * heavy(chance) + life.taper, 3
        elif chance.random() < 0.45:
            form, times = life.day_spread * heavy(chance) + life.taper * (chance.random() < 0.2), 2
        else:
            continue
        if now + 0.6 * form > aim - 0.035 and any(
            attempt(life, now + form, goal.kg or 0) for _ in range(times)
        ):
            made = date
    return made, reached


@lru_cache(maxsize=64)
def draw(*, seed: int, number: int, kind: str = "") -> Simulated:
    """One lifter; the same numbers give the same one. The kinds take turns unless one is asked for."""
    names = list(KINDS)
    what = CAUSES[kind or names[number % len(names)]]
    chance = random.Random(f"{seed}/{number}/{what.name}")
    choice: tuple[GoalLift, ...] = ("snatch", "snatch", "clean and jerk")
    lift: GoalLift = what.goal or choice[0 if what.snatch_only else chance.randrange(3)]
    life = Life(kind=what, chance=chance, weeks=chance.randint(*what.weeks), goal_lift=lift)
    snatch = chance.uniform(*what.snatch)
    goals = {"snatch": snatch, "clean and jerk": snatch * chance.uniform(1.2, 1.3)}
    _born(life)
    gap = chance.uniform(*what.gap)
    for one in PAIR:
        path = weeks(life, goals[one])
        # The gap is that of the last day, or of the best of the days before a break.
        stood = max(path[: life.weeks]) if what.away else path[life.weeks - 1]
        life.log[one] = [value + math.log(goals[one] * (1 - gap)) - stood for value in path]
        life.belief[one] = math.exp(life.log[one][0]) * chance.uniform(0.95, 1.02)
        life.rep_cost[one] = chance.uniform(0.025, 0.06)
    _shares(life, goals)
    live(life)
    goal_kg = float(round(sum(goals.values()) if lift == "total" else goals[lift]))
    # Who has made the goal has another one.
    made = max((kg for kg, _ in life.best.get(lift, ())), default=0.0)
    goal_kg = max(goal_kg, float(round(1.02 * made)) + 1) if made >= goal_kg else goal_kg
    return _finished(life, Goal(lift=lift, kg=goal_kg), number)


def _born(life: Life) -> None:
    """What differs between lifters of one kind."""
    what, chance = life.kind, life.chance
    life.growth = chance.gauss(what.growth, 0.0008)
    life.day_spread = what.noise * chance.uniform(0.014, 0.028)
    life.rep_spread = what.noise * chance.uniform(0.014, 0.026)
    life.taper, life.bold = chance.gauss(0.019, 0.008), chance.gauss(0.012, 0.02)
    if chance.random() < 0.35:
        life.effort = (chance.gauss(0, 0.6), chance.uniform(0.4, 0.9))
    if what.away:
        end = life.weeks - chance.randint(*what.back)
        life.away = [(end - chance.randint(*what.away), end)]
    elif chance.random() < 0.3:
        start = chance.randint(4, max(5, life.weeks - 8))
        life.away = [(start, start + chance.randint(1, 3))]


def _shares(life: Life, goals: dict[str, float]) -> None:
    """The other lifts, each at its share of the goal, as the cause has it."""
    base = goals["snatch"] if life.goal_lift != "clean and jerk" else goals["clean and jerk"]
    table = life.kind.shares("clean and jerk" if life.goal_lift == "clean and jerk" else "snatch")
    for lift, (low, high) in table.items():
        of = goals["clean and jerk"] if lift.startswith("power clean") else base
        life.log[lift] = accessory(life, of, life.chance.uniform(low, high))
        life.rep_cost[lift] = 0.025


def _finished(life: Life, goal: Goal, number: int) -> Simulated:
    rows = _written(life)
    kind, chance = life.kind, life.chance
    last = FIRST + dt.timedelta(days=7 * life.weeks - 1)
    goal = replace(goal, by=last + dt.timedelta(days=chance.choice((60, 90, 120, 180, 270))))
    made, reached = (None, None) if goal.lift == "total" else _ahead(life, goal)
    lifter = Lifter(
        name=f"Lifter {number}",
        standards="women" if chance.random() < 0.5 else "men",
        born=last.year - chance.randint(*kind.born) if kind.born else None,
        supervised=chance.random() < 0.5,
        goals=(goal,),
    )
    cells: dict[str, list[object]] = {name: [row[name] for row in rows] for name in SETS}
    cells["date"] = list(np.datetime64(FIRST, "D") + np.array(cells["date"], dtype="timedelta64[D]"))
    sets = typed(cells, SETS)
    records = Records(
        folder=f"lifter-{number}",
        lifter=lifter,
        as_of=last,
        sets=sets,
        **papers(kind, chance, last, life.away, FIRST),
    )
    truth = Truth(
        kind=kind.name,
        needs=kind.needs,
        first=kind.first,
        kg={one: tuple(math.exp(value) for value in life.log[one]) for one in PAIR},
        weeks=life.weeks,
        tests=tuple(life.tests),
        made=made,
        reached=reached,
        day=life.day_spread,
        rep=life.rep_spread,
        growth=life.growth,
        squat_kg=math.exp(life.capacity("back squat", life.weeks - 1)),
    )
    return Simulated(records=records, truth=truth)


def lifters(*, seed: int, count: int, kinds: Iterable[str] = KINDS) -> Iterator[Simulated]:
    """So many lifters, the kinds in turn."""
    names = list(kinds)
    for number in range(count):
        yield draw(seed=seed, number=number, kind=names[number % len(names)])


def main() -> None:
    from tests.bench import abilities

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--lifters", type=int, default=300)
    asked = parser.parse_args()
    abilities.table(lifters(seed=asked.seed, count=asked.lifters))


if __name__ == "__main__":
    main()
