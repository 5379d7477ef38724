"""The other files of a simulated lifter: body mass, screening, video, pain, time away."""

import datetime as dt
import math
import random
from typing import Any

import numpy as np
import pandas as pd

from reportgen.model.tables import AWAY, BODYMASS, MOBILITY, PAIN, SCREENING, TECHNIQUE, empty, typed
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


#: Healthy people: mean, spread between people, spread of one reading with a phone or a tape.
HEALTHY = {
    "knee to wall": (11.0, 2.8, 0.36),
    "shoulder flexion": (172.0, 8.0, 2.0),
    "hip flexion": (120.0, 9.0, 2.0),
    "thoracic rotation": (48.0, 8.0, 2.2),
    "wrist extension": (70.0, 8.0, 2.0),
}
GRADED = ("snatch bottom position", "dowel overhead squat")
GRADED_ALL = (*GRADED, "snatch start position", "dowel snatch", "pause in the bottom")
PULLED = (
    "start back", "first pull bar path", "second pull extension", "pull under timing", "receiving depth",
)  # fmt: skip
POINTS_ALL = (
    *PULLED, "start hips", "start shoulders", "first pull back angle", "transition knees",
    "second pull bar distance", "pull under feet", "receiving lockout", "receiving bar over foot",
    "recovery balance",
)  # fmt: skip


def papers(
    kind: Kind, chance: random.Random, last: dt.date, away: list[tuple[int, int]], first: dt.date
) -> dict[str, Any]:
    """Tables of `Records` by name; some lifters with nothing to show have a screening and video too."""
    seen = set(kind.papers)
    if not seen and chance.random() < 0.3:
        seen = {"well"}
    screened, filmed = seen & {"stiff", "well", "all", "lapsed", "loose"}, seen & {"pull", "well", "all"}
    stopped = chance.randint(8, 16) if "lapsed" in seen else 0
    return {
        "bodymass": _bodymass(chance, last),
        "screening": _screening(seen, chance, last, stopped) if screened else empty(SCREENING),
        "technique": _technique(seen, chance, last) if filmed else empty(TECHNIQUE),
        "mobility": _mobility(stopped, chance, last),
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


def _screening(seen: set[str], chance: random.Random, last: dt.date, stopped: int) -> pd.DataFrame:
    """Three days of readings. Who is well has the range of healthy people."""
    rows: list[dict[str, object]] = []
    items = HEALTHY if seen & {"all", "lapsed"} else {"knee to wall": HEALTHY["knee to wall"]}
    own = {name: chance.gauss(mean, between) for name, (mean, between, _) in items.items()}
    if "stiff" in seen:
        own["knee to wall"] = chance.uniform(4.5, 7.0)
    lost = chance.uniform(2.0, 3.5) if stopped else 0.0
    graded = GRADED_ALL if "all" in seen else GRADED
    for back in (120, 60, 10):
        base = {"date": _stamp(last - dt.timedelta(days=back)), "load_kg": math.nan, "conditions": "barefoot"}
        gone = lost * min(1.0, max(0.0, stopped * 7 - back) / 50)
        for item, mine in own.items():
            for side in ("left", "right"):
                now = mine - (gone if item == "knee to wall" else 0)
                reading = round(now + chance.gauss(0, HEALTHY[item][2]), 1)
                rows.append(base | {"item": item, "side": side, "reading": reading, "grade": ""})
        for item in graded:
            bad = item == "snatch bottom position" and ("stiff" in seen or gone > 1.5)
            bad |= item in ("dowel overhead squat", "pause in the bottom") and "loose" in seen
            well = ("held",) * 26 + ("partly", "no")
            grade = ("no" if chance.random() < 0.85 else "partly") if bad else chance.choice(well)
            rows.append(base | {"item": item, "side": "both", "reading": math.nan, "grade": grade})
    return _table(SCREENING, "screening.csv", rows)


def _technique(seen: set[str], chance: random.Random, last: dt.date) -> pd.DataFrame:
    rows: list[dict[str, object]] = []
    for back in range(150, 0, -25):
        for point in POINTS_ALL if "all" in seen else PULLED:
            bad = 0.8 if "pull" in seen and point == "second pull extension" else 0.07
            grade = "off" if chance.random() < bad else chance.choice(("good", "good", "drifting"))
            day = _stamp(last - dt.timedelta(days=back))
            rows.append(
                {"date": day, "lift": "snatch", "load_kg": math.nan, "checkpoint": point, "grade": grade}
            )
    return _table(TECHNIQUE, "technique.csv", rows)


def _mobility(stopped: int, chance: random.Random, last: dt.date) -> pd.DataFrame:
    """Three short sessions a week until the work stopped; some only stop to write it down."""
    if not stopped and chance.random() < 0.7:
        return empty(MOBILITY)
    if not stopped and chance.random() < 0.3:
        stopped = chance.randint(4, 12)
    days = [back for back in range(280, 7 * stopped, -1) if back % 7 in (1, 3, 5)]
    rows: list[dict[str, object]] = [
        {"date": _stamp(last - dt.timedelta(days=back)), "area": "ankles", "minutes": 10.0} for back in days
    ]
    return _table(MOBILITY, "mobility.csv", rows)


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
