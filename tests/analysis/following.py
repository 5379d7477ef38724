"""Lifters who do what their proposal says: its lines become rows of the log, and nobody keeps a plan.csv."""

import datetime as dt
import random
from dataclasses import dataclass, replace
from typing import Any

import pandas as pd

from reportgen.model.dossier import Dossier
from reportgen.model.proposal import BlockAttempt, BlockFact, BlockSet
from reportgen.model.records import Records
from tests.analysis.logs import attempt, row, table

LINES = 100_000  # of the file, far after those of the log before


@dataclass(frozen=True, kw_only=True)
class Manner:
    """How closely the block is followed."""

    lost: float = 0.0  # chance that a session falls out; at most one of a block
    off: float = 0.0  # loads lie so far off, evenly
    left: float = 0.0  # chance that a line of several sets lacks one


PRINTED = Manner()
LOOSE = Manner(lost=1.0, off=0.025, left=0.15)


def follow(made: Dossier, manner: Manner = PRINTED, seed: int = 0) -> Records | None:
    """The records after the block; None where it has no week of work or no test day.

    The review day is the day after the test day, so that its week is over but for that.
    """
    block, chance = made.facts.block, random.Random(f"{made.records.folder} {seed}")
    assert block is not None
    if block.test_day is None or not any(week.kind == "work" for week in block.weeks):
        return None
    sessions = [one for week in block.weeks for one in week.sessions if one.date < block.test_day]
    skipped = chance.randrange(len(sessions)) if chance.random() < manner.lost else -1
    rows: list[dict[str, Any]] = []
    for number, session in enumerate(sessions):
        if number == skipped:
            continue
        for line in session.sets:
            rows += _line(session.date, line, manner, chance, LINES + len(rows))
    rows += _tested(block, chance)
    log = pd.concat([made.records.sets, table(rows)], ignore_index=True)
    return replace(made.records, sets=log, as_of=block.test_day + dt.timedelta(days=1))


def _line(
    date: dt.date, line: BlockSet, manner: Manner, chance: random.Random, number: int
) -> list[dict[str, Any]]:
    """One line as it is written down: a row a part, all made."""
    if not line.kg or line.role == "attempt":
        return []
    parts = line.lift.split(" + ")
    reps = [int(one) for one in line.reps.split("+")]
    kg = max(1, round(line.kg * (1 + chance.uniform(-manner.off, manner.off))))
    sets = max(1, line.sets - (line.sets > 1 and chance.random() < manner.left))
    return [
        row(
            date.isoformat(), lift, kg, sets=sets, reps=count, variant=line.variant, aid=line.aid,
            part=part, parts=len(parts), line=number,
        )
        for part, (lift, count) in enumerate(zip(parts, reps, strict=True))
    ]  # fmt: skip


def _tested(block: BlockFact, chance: random.Random) -> list[dict[str, Any]]:
    """The attempts as the sheet has them, each made by its chance; after a miss what it says then."""
    rows, kg = [], dict[str, float]()
    for one in block.attempts:
        load = kg.get(one.lift, one.kg)
        made = chance.random() < (one.chance or 0.5)
        more = {"kind": block.test_kind or "test", "attempt": one.attempt, "event": "Autumn Cup"}
        assert block.test_day is not None
        rows.append(attempt(block.test_day.isoformat(), one.lift, load, made, **more))
        kg[one.lift] = _next(one, load, made)
    return rows


def _next(one: BlockAttempt, kg: float, made: bool) -> float:
    after = one.after_make_kg if made else one.after_miss_kg
    return after if after is not None else kg + made
