"""Technique: checkpoints in the order of the textbook model, over time, and the load they go off from."""

import datetime as dt

import pandas as pd

from reportgen.analysis.readings import known
from reportgen.analysis.when import upto
from reportgen.model.findings import CheckpointFact, Grade, TechniqueFact
from reportgen.model.records import Records
from reportgen.trade.schema import Checkpoint, Trade

OFF, GOOD = "off", "good"


def read(records: Records, trade: Trade) -> TechniqueFact | None:
    """Read the graded checkpoints of the goal lift's family.

    Args:
        records: Technique rows up to as_of; rows without a lift belong to the goal lift.
        trade: Checkpoints and lifts.

    Returns:
        One fact a checkpoint and lift, in the model's order; None without a row.
    """
    table = upto(records.technique, records.as_of)
    if table.empty:
        return None
    goal = records.lifter.goals[0].lift
    named = "snatch" if goal == "total" else goal
    table = table.assign(lift=table["lift"].replace("", named))
    table = table.sort_values(["date", "file", "line"], kind="stable")
    found = [
        _one(trade.checkpoints[str(checkpoint)], str(lift), rows, records)
        for (checkpoint, lift), rows in table.groupby(["checkpoint", "lift"], sort=True)
    ]
    order = {name: point.order for name, point in trade.checkpoints.items()}
    found.sort(key=lambda fact: (order[fact.checkpoint], fact.lift != named, fact.lift))
    return TechniqueFact(checkpoints=tuple(found))


def _one(point: Checkpoint, lift: str, rows: pd.DataFrame, records: Records) -> CheckpointFact:
    grades = tuple(
        Grade(
            date=cells["date"].date(),
            grade=cells["grade"],
            load_kg=known(cells["load_kg"]),
            line=int(cells["line"]),
        )
        for cells in rows.to_dict("records")
    )
    return CheckpointFact(
        checkpoint=point.name,
        phase=point.phase,
        lift=lift,
        grades=grades,
        latest=latest(grades),
        persistence_days=persistence(grades, records.as_of),
        load_onset_kg=onset(grades),
        departure=point.departure,
        accepted=point.name in records.lifter.accepted,
        file=str(rows["file"].iloc[-1]),
    )


def latest(grades: tuple[Grade, ...]) -> str:
    """The grade of the last day it was graded; the worst of a day with several loads."""
    rank = {OFF: 0, "drifting": 1, GOOD: 2}
    last = grades[-1].date
    return min((grade.grade for grade in grades if grade.date == last), key=lambda grade: rank.get(grade, 1))


def persistence(grades: tuple[Grade, ...], as_of: dt.date) -> int | None:
    """Days from the first day of the present run of `off` to its last grading; None where it is not off now.

    A day on which it was off at any load belongs to the run.
    """
    days = sorted({grade.date for grade in grades if grade.date <= as_of})
    off = {grade.date for grade in grades if grade.grade == OFF}
    if not days or days[-1] not in off:
        return None
    first = days[-1]
    for day in reversed(days):
        if day not in off:
            break
        first = day
    return (days[-1] - first).days


def onset(grades: tuple[Grade, ...]) -> float | None:
    """The lightest load from which a checkpoint is off while it is good at lighter ones [kg].

    Returns:
        None where no load is off, none lighter is good, or good and off loads overlap, so that the load does
        not tell them apart.
    """
    off = [grade.load_kg for grade in grades if grade.grade == OFF and grade.load_kg is not None]
    good = [grade.load_kg for grade in grades if grade.grade == GOOD and grade.load_kg is not None]
    if not off or not good or max(good) >= min(off):
        return None
    return min(off)
