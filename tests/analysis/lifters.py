"""Generated lifters for properties of the proposal: a number gives a log, a goal and a story."""

import datetime as dt
import random
from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np
import pandas as pd

from reportgen.analysis.dossier import build
from reportgen.model.dossier import Dossier
from reportgen.model.facts import Facts
from reportgen.model.lifter import Goal, GoalLift, Lifter
from reportgen.model.proposal import BlockFact
from reportgen.model.tables import AWAY, PAIN, typed
from reportgen.trade import load
from tests import kept
from tests.analysis.logs import records, row

FIRST = dt.date(2026, 1, 5)
SHARES = (0.6, 0.7, 0.78, 0.85)


@dataclass(frozen=True)
class Story:
    """One generated lifter: what was drawn, the dossier, the proposal."""

    seed: int
    dossier: Dossier = field(repr=False)
    age: int
    supervised: bool
    pain: tuple[str, str]  # place and kind; "" without
    idle_days: int  # days without training up to the review day

    @property
    def facts(self) -> Facts:
        return self.dossier.facts

    @property
    def block(self) -> BlockFact:
        assert self.facts.block is not None
        return self.facts.block


def _table(kinds: dict[str, str], **cells: object) -> pd.DataFrame:
    data: dict[str, list[object]] = {name: [cells.get(name, "")] for name in kinds}
    return typed(data, kinds)


@cache
def story(seed: int) -> Story:
    """The lifter of a number; the same number gives the same lifter."""
    return kept.once(f"story {seed}", lambda: _story(seed))


def _story(seed: int) -> Story:
    chance = random.Random(seed)
    goals: tuple[GoalLift, ...] = ("snatch", "snatch", "clean and jerk", "total")
    goal_lift = chance.choice(goals)
    snatch = chance.randint(45, 120)
    bests = {
        "snatch": snatch,
        "clean and jerk": round(snatch * chance.uniform(1.18, 1.3)),
        "power snatch": round(snatch * chance.uniform(0.75, 0.95)),
        "back squat": round(snatch * chance.uniform(1.35, 1.9)),
        "front squat": round(snatch * chance.uniform(1.2, 1.5)),
        "snatch pull": round(snatch * chance.uniform(1.0, 1.2)),
        "snatch balance": round(snatch * chance.uniform(0.9, 1.2)),
    }
    weekdays = sorted(chance.sample(range(7), chance.randint(2, 6)))
    weeks, idle = chance.randint(3, 40), chance.choice((0, 0, 0, 10, 20, 40))
    rows = []
    for week in range(weeks):
        for place, weekday in enumerate(weekdays):
            day = (FIRST + dt.timedelta(days=7 * week + weekday)).isoformat()
            lifts = [
                "snatch" if place % 2 == 0 else "power snatch",
                chance.choice(("back squat", "front squat")),
            ]
            lifts += ["clean and jerk"] if place == 0 else ["snatch pull"] if place == 1 else []
            lifts += ["snatch balance"] if chance.random() < 0.1 else []
            for lift in lifts:
                for share in SHARES:
                    rows.append(row(day, lift, round(bests[lift] * share), sets=2, reps=2))
                if chance.random() < 0.3:
                    made = int(chance.random() < 0.7)
                    rows.append(row(day, lift, bests[lift] - chance.randint(0, 4), made=made, reps=1))
    last = FIRST + dt.timedelta(days=7 * weeks + idle)
    age = chance.choice((15, 17, 24, 30, 38, 47, 60))
    supervised = chance.random() < 0.5
    kilograms = {"snatch": snatch, "clean and jerk": bests["clean and jerk"]}
    kilograms["total"] = sum(kilograms.values())
    by = last + dt.timedelta(days=chance.randint(3, 120)) if chance.random() < 0.5 else None
    lifter = Lifter(
        name="Generated",
        unit="lb" if seed % 4 == 3 else "kg",
        standards=chance.choice(("women", "men")),
        born=last.year - age,
        supervised=supervised,
        goals=(Goal(lift=goal_lift, kg=round(kilograms[goal_lift] * chance.uniform(1.02, 1.12)), by=by),),
    )
    pain = chance.choice((("", ""),) * 6 + (("knee", "ache"), ("shoulder", "sharp"), ("wrist", "numb")))
    sore = _table(
        PAIN,
        date=np.datetime64(last, "s"),
        place=pain[0],
        lift="",
        score=4.0,
        kind=pain[1],
        settled=np.datetime64("NaT", "s"),
        file="pain.csv",
        line=2,
    )
    read = records(*rows, lifter=lifter, as_of=last.isoformat())
    if pain[0]:
        read = replace(read, pain=sore)
    if idle > 14:
        gone = _table(
            AWAY,
            **{"from": np.datetime64(last - dt.timedelta(days=idle - 1), "s")},
            to=np.datetime64(last, "s"),
            reason="travel",
            file="away.csv",
            line=2,
        )
        read = replace(read, away=gone)
    return Story(seed, build(read, load()), age, supervised, pain, idle)
