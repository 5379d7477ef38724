"""Small logs for tests of `analysis`: the text of a log in sight, no file and no reader in between."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pandas as pd

from reportgen.model.dossier import Dossier
from reportgen.model.facts import Facts
from reportgen.model.lifter import Goal, Lifter
from reportgen.model.records import Records
from reportgen.model.tables import AWAY, BODYMASS, SETS, typed
from reportgen.trade import load
from tests import kept

WOMAN = Lifter(name="Runa Velde", standards="women", goals=(Goal(lift="snatch", kg=64.0),))
MAN = Lifter(name="Ib Strand", standards="men", goals=(Goal(lift="snatch", kg=100.0),))

DEFAULTS: dict[str, object] = {
    "session": "", "part": 0, "parts": 1, "sets": 1, "reps": 1, "declined": 0, "miss": "", "variant": "",
    "aid": "", "effort": np.nan, "kind": "training", "event": "", "attempt": 0, "remark": "",
    "file": "training.csv",
}  # fmt: skip


def row(date: str, lift: str, load_kg: float, **more: object) -> dict[str, object]:
    """One set row; `made` is `reps` unless given."""
    full = DEFAULTS | {"date": np.datetime64(date, "s"), "lift": lift, "load_kg": float(load_kg)} | more
    full.setdefault("made", full["reps"])
    return full


def attempt(date: str, lift: str, load_kg: float, made: bool, **more: object) -> dict[str, object]:
    """One attempt."""
    base: dict[str, object] = {"made": int(made), "kind": "contest", "attempt": 1, "file": "attempts.csv"}
    return row(date, lift, load_kg, **(base | more))


def table(rows: list[dict[str, object]]) -> pd.DataFrame:
    """The rows as intake hands them on, with lines in order."""
    numbered = [{"line": index + 2} | each for index, each in enumerate(rows)]
    return typed({name: [each[name] for each in numbered] for name in SETS}, SETS)


def records(*rows: dict[str, object], lifter: Lifter = WOMAN, as_of: str = "", **more: object) -> Records:
    """Records of these rows; as_of is the last day unless given."""
    sets = table(list(rows))
    day = dt.date.fromisoformat(as_of) if as_of else sets["date"].max().date()
    return replace(Records(folder="runa", lifter=lifter, as_of=day, sets=sets), **more)  # type: ignore[arg-type]


def dossier(*rows: dict[str, object], lifter: Lifter = WOMAN, as_of: str = "", **more: object) -> Dossier:
    """The dossier of these rows; nothing may change its tables, another test of the same rows reads them."""
    return kept.build(records(*rows, lifter=lifter, as_of=as_of, **more), load())


def facts(*rows: dict[str, object], lifter: Lifter = WOMAN, as_of: str = "", **more: object) -> Facts:
    """The facts of these rows."""
    return dossier(*rows, lifter=lifter, as_of=as_of, **more).facts


def weeks_of(lift: str, load_kg: float, first: str, weeks: int, **more: object) -> list[dict[str, object]]:
    """The same set once a week."""
    start = dt.date.fromisoformat(first)
    return [row((start + dt.timedelta(7 * n)).isoformat(), lift, load_kg, **more) for n in range(weeks)]


def bodymass(*weighed: tuple[str, float]) -> pd.DataFrame:
    """Body mass readings."""
    data: dict[str, list[object]] = {
        "date": [np.datetime64(day, "s") for day, _ in weighed],
        "mass_kg": [kg for _, kg in weighed],
        "remark": [""] * len(weighed),
        "file": ["bodymass.csv"] * len(weighed),
        "line": [n + 2 for n in range(len(weighed))],
    }
    return typed(data, BODYMASS)


def away(*spans: tuple[str, str, str]) -> pd.DataFrame:
    """Spans away: first day, last day, reason."""
    data: dict[str, list[object]] = {
        "from": [np.datetime64(a, "s") for a, _, _ in spans],
        "to": [np.datetime64(b, "s") for _, b, _ in spans],
        "reason": [why for _, _, why in spans],
        "remark": [""] * len(spans),
        "file": ["away.csv"] * len(spans),
        "line": [n + 2 for n in range(len(spans))],
    }
    return typed(data, AWAY)
