"""Signs of movement: which kind of miss stands out, which checkpoints are off."""

from collections.abc import Iterator

import pandas as pd

from reportgen.analysis.needs.signs import Given, Sign, evidence
from reportgen.analysis.needs.wording import Value
from reportgen.analysis.technique import GOOD, OFF
from reportgen.model.findings import CheckpointFact, Worded

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
    """The kind that makes up most of the misses that name one; a sign from three misses on.

    For a clean and jerk, `press-out` and `elbow` belong to the jerk and to the clean as they are logged.
    """
    heavy = heavy_misses(given)
    named = heavy.loc[~heavy["kind"].isin(UNNAMED)]
    for lift, rows in named.groupby("lift", sort=True):
        stated = int(rows["count"].sum())
        for kind, mine in rows.groupby("kind", sort=True):
            count = int(mine["count"].sum())
            if count < given.value("miss_count") or count < given.value("miss_kind_share") * stated - 1e-9:
                continue
            values: dict[str, Value | Worded] = {
                "count": count,
                "stated": stated,
                "lift": str(lift),
                "kind": str(kind),
            }
            shown = tuple(
                evidence(
                    given,
                    "miss",
                    {
                        **values,
                        "count": int(part["count"].sum()),
                        "stated": int(rows.loc[rows["file"] == file, "count"].sum()),
                    },
                    file=str(file),
                    rule="miss_kind_share",
                    lines=part["line"],
                    dates=[stamp.date() for stamp in part["date"]],
                    kind="miss",
                )
                for file, part in mine.groupby("file", sort=True)
            )
            yield Sign(key=f"miss:{kind}", kind="miss", name=(str(kind),), evidence=shown, values=values)


def _technique(given: Given) -> Iterator[Sign]:
    facts = given.facts.technique
    families = {given.trade.lifts[lift].family for lift in given.lifts}
    done = set()
    for fact in facts.checkpoints if facts else ():
        family = given.trade.lifts[fact.lift].family if fact.lift in given.trade.lifts else ""
        key = _key(fact)
        recent = given.is_recent(fact.grades[-1].date)
        if fact.accepted or not key or family not in families or key in done or not recent:
            continue
        done.add(key)
        yield _checkpoint(given, fact, key)


def _key(fact: CheckpointFact) -> str:
    """off, departs (off, from the model, with no load it begins at) or good; nothing for drifting."""
    if fact.latest == OFF:
        departs = fact.departure and fact.load_onset_kg is None
        return f"{'departs' if departs else 'off'}:{fact.checkpoint}"
    return f"good:{fact.checkpoint}" if fact.latest == GOOD else ""


def _checkpoint(given: Given, fact: CheckpointFact, key: str) -> Sign:
    what = key.partition(":")[0]
    grade = GOOD if what == "good" else OFF
    rows = [one for one in fact.grades if one.grade == grade]
    onset: Worded = ()
    if fact.load_onset_kg is not None and grade == OFF:
        onset = (" from ", fact.load_onset_kg, " up")
    values: dict[str, Value | Worded] = {
        "checkpoint": fact.checkpoint,
        "phase": fact.phase,
        "times": ("", "once", "twice")[len(rows)] if len(rows) < 3 else f"{len(rows)} times",
        "date": rows[-1].date,
        "onset": onset,
    }
    shown = evidence(
        given,
        what,
        values,
        file=fact.file,
        rule=fact.checkpoint,
        lines=[one.line for one in rows],
        dates=[one.date for one in rows],
        kind="checkpoint",
    )
    return Sign(
        key=key,
        kind="checkpoint",
        name=(fact.checkpoint, *onset[:-1]) if onset else (fact.checkpoint,),
        evidence=(shown,),
        values=values,
    )
