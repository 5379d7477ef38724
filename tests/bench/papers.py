"""The other files of a simulated lifter: body mass, screening, video, pain, time away."""

import datetime as dt
import math
import random
from typing import Any

import numpy as np
import pandas as pd

from reportgen.model.tables import AWAY, BODYMASS, PAIN, SCREENING, TECHNIQUE, empty, typed
from tests.bench.kinds import Kind


def _stamp(day: dt.date) -> np.datetime64:
    return np.datetime64(day, "s")


def _table(columns: dict[str, str], file: str, rows: list[dict[str, object]]) -> pd.DataFrame:
    if not rows:
        return empty(columns)
    full = [
        {"file": file, "line": place + 2, "remark": "", "clip": "", "side": ""} | row
        for place, row in enumerate(rows)
    ]
    return typed({name: [row[name] for row in full] for name in columns}, columns)


def papers(
    kind: Kind, chance: random.Random, last: dt.date, away: list[tuple[int, int]], first: dt.date
) -> dict[str, Any]:
    """Tables of `Records` by name; some lifters with nothing to show have a screening and video too."""
    seen = set(kind.papers)
    if not seen and chance.random() < 0.3:
        seen = {"well"}
    return {
        "bodymass": _bodymass(chance, last),
        "screening": _screening("stiff" in seen, chance, last)
        if seen & {"stiff", "well"}
        else empty(SCREENING),
        "technique": _technique("pull" in seen, chance, last)
        if seen & {"pull", "well"}
        else empty(TECHNIQUE),
        "pain": _pain(away, first, chance) if "injury" in seen else empty(PAIN),
        "away": _away(
            away, first, "injury" if "injury" in seen else chance.choice(("travel", "work", "illness"))
        ),
    }


def _bodymass(chance: random.Random, last: dt.date) -> pd.DataFrame:
    kg, rows = chance.uniform(52, 100), list[dict[str, object]]()
    for back in range(40, -1, -1):
        kg += chance.gauss(0.01, 0.25)
        rows.append({"date": _stamp(last - dt.timedelta(days=7 * back)), "mass_kg": round(kg, 1)})
    return _table(BODYMASS, "bodymass.csv", rows)


def _screening(stiff: bool, chance: random.Random, last: dt.date) -> pd.DataFrame:
    rows: list[dict[str, object]] = []
    for back in (120, 60, 10):
        base = {"date": _stamp(last - dt.timedelta(days=back)), "load_kg": math.nan, "conditions": "barefoot"}
        ankle = (5.5, 6.5) if stiff else (10.5, 14)
        for side in ("left", "right"):
            reading = round(chance.uniform(*ankle) + chance.gauss(0, 0.6), 1)
            rows.append(base | {"item": "knee to wall", "side": side, "reading": reading, "grade": ""})
        grade = "no" if stiff else "held" if chance.random() < 0.93 else "partly"
        rows.append(
            base | {"item": "snatch bottom position", "side": "both", "reading": math.nan, "grade": grade}
        )
        rows.append(
            base | {"item": "dowel overhead squat", "side": "both", "reading": math.nan, "grade": "held"}
        )
    return _table(SCREENING, "screening.csv", rows)


def _technique(off: bool, chance: random.Random, last: dt.date) -> pd.DataFrame:
    rows: list[dict[str, object]] = []
    points = (
        "start back",
        "first pull bar path",
        "second pull extension",
        "pull under timing",
        "receiving depth",
    )
    for back in range(150, 0, -25):
        for point in points:
            bad = 0.8 if off and point == "second pull extension" else 0.07
            grade = "off" if chance.random() < bad else chance.choice(("good", "good", "drifting"))
            day = _stamp(last - dt.timedelta(days=back))
            rows.append(
                {"date": day, "lift": "snatch", "load_kg": math.nan, "checkpoint": point, "grade": grade}
            )
    return _table(TECHNIQUE, "technique.csv", rows)


def _pain(away: list[tuple[int, int]], first: dt.date, chance: random.Random) -> pd.DataFrame:
    start, end = (first + dt.timedelta(weeks=week) for week in away[0])
    row: dict[str, object] = {
        "date": _stamp(start),
        "place": chance.choice(("knee", "shoulder", "lower back")),
        "lift": "",
        "score": 5.0,
        "kind": "injury",
        "settled": _stamp(end - dt.timedelta(days=2)),
    }
    return _table(PAIN, "pain.csv", [row])


def _away(away: list[tuple[int, int]], first: dt.date, reason: str) -> pd.DataFrame:
    rows: list[dict[str, object]] = [
        {
            "from": _stamp(first + dt.timedelta(weeks=start)),
            "to": _stamp(first + dt.timedelta(weeks=end) - dt.timedelta(days=1)),
            "reason": reason,
        }
        for start, end in away
    ]
    return _table(AWAY, "away.csv", rows)
