"""Signs of movement: how lifts are missed, which checkpoints of the video are off."""

import math
from collections.abc import Iterator

import pandas as pd

from reportgen.analysis.needs.signs import Given, Row, Sign, Values, by_file, evidence
from reportgen.analysis.technique import GOOD, OFF
from reportgen.model.findings import CheckpointFact

#: Words of the misses table that name no kind.
UNNAMED = ("not stated", "declined", "")


def read(given: Given) -> Iterator[Sign]:
    """Signs of misses and of technique."""
    yield from _misses(given)
    yield from _technique(given)


def heavy_misses(given: Given) -> pd.DataFrame:
    """Misses of the goal lift from 85 % of the reference up, over the last half year."""
    table = given.tables.misses
    first = pd.Timestamp(given.as_of) - pd.Timedelta(weeks=given.value("miss_weeks"))
    return table.loc[
        table["lift"].isin(given.lifts)
        & (table["share"] >= given.value("miss_share"))
        & (table["date"] > first)
    ]


def _misses(given: Given) -> Iterator[Sign]:
    """Every kind of the misses that name one, with its rows."""
    heavy = heavy_misses(given)
    named = heavy.loc[~heavy["kind"].isin(UNNAMED)]
    for lift, rows in named.groupby("lift", sort=True):
        stated = int(rows["count"].sum())
        for kind, mine in rows.groupby("kind", sort=True):
            count = int(mine["count"].sum())
            values: Values = {"count": count, "stated": stated, "lift": str(lift), "kind": str(kind)}
            yield Sign(
                key=f"miss:{kind}", source="misses", group=str(lift), name=str(kind), values=values,
                evidence=by_file("miss", values, mine, rule="miss_share", kind="miss"),
                counts=_counts(mine),
            )  # fmt: skip


def _counts(rows: pd.DataFrame) -> dict[Row, int]:
    summed = rows.groupby(["file", "line"])["count"].sum()
    return dict(zip(((str(file), int(line)) for file, line in summed.index), summed.tolist(), strict=True))


def graded(given: Given, off: float, seen: float, usual: float) -> float:
    """The log odds that a graded thing is a lasting fault and no chance.

    Args:
        given: Rules.
        off: Days on which it was off.
        seen: Days on which it was off or good.
        usual: How often it is off by whom nothing is wrong.

    Returns:
        Gradings of one eye on one lifter are no new evidence each: they weigh like a few, and one day alone
        says little.
    """
    part = given.value("grade_few") / (seen + given.value("grade_few"))
    fault = given.value("grade_fault")
    most = given.value("grade_once") if off <= 1 else math.inf
    return min(
        most, part * (off * math.log(fault / usual) + (seen - off) * math.log((1 - fault) / (1 - usual)))
    )


def _technique(given: Given) -> Iterator[Sign]:
    facts = given.facts.technique
    families = {given.trade.lifts[lift].family for lift in given.lifts}
    done = set()
    for fact in facts.checkpoints if facts else ():
        family = given.trade.lifts[fact.lift].family if fact.lift in given.trade.lifts else ""
        recent = given.is_recent(fact.grades[-1].date)
        if fact.accepted or family not in families or fact.checkpoint in done or not recent:
            continue
        done.add(fact.checkpoint)
        yield _checkpoint(given, fact)


def _checkpoint(given: Given, fact: CheckpointFact) -> Sign:
    """Off where it is no chance any more; departs for a way that may be the lifter's own."""
    recent = [one for one in fact.grades if given.is_recent(one.date)]
    off = {one.date for one in recent if one.grade == OFF}
    good = {one.date for one in recent if one.grade == GOOD} - off
    size = graded(given, len(off), len(off) + len(good), given.value("grade_usual_off"))
    if fact.load_onset_kg is not None:
        size = max(size, given.value("grade_onset"))
    departs = fact.departure and fact.load_onset_kg is None
    if departs:
        size = min(size, given.value("grade_departure"))
    if not off & set(sorted(off | good)[-2:]):
        size = min(size, 0.0)
    what = ("departs" if departs else "off") if size > 0 else "good" if fact.latest == GOOD else "mixed"
    rows = [one for one in recent if one.grade == (OFF if size > 0 else GOOD)]
    values: Values = {
        "checkpoint": fact.checkpoint,
        "phase": fact.phase,
        "count": len(rows),
        "of": len(off) + len(good),
        "date": rows[-1].date if rows else fact.grades[-1].date,
        "onset_kg": fact.load_onset_kg or 0.0,
    }
    template = f"{what}_onset" if what == "off" and fact.load_onset_kg is not None else what
    shown = evidence(
        template if what != "mixed" else "good", values, file=fact.file, rule=fact.checkpoint,
        lines=[one.line for one in rows], dates=[one.date for one in rows], kind="checkpoint",
    )  # fmt: skip
    return Sign(
        key=f"{what}:{fact.checkpoint}", source="video", size=size, name=fact.checkpoint,
        evidence=(shown,) if what != "mixed" else (), values=values,
    )  # fmt: skip
