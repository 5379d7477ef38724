"""Slips put into honest seasons, and what each would do to the loads of a proposal."""

import random
from collections.abc import Callable, Mapping
from copy import copy
from typing import Any

import numpy as np

from reportgen.analysis import slips, support
from reportgen.model.doubts import EVERYTHING
from reportgen.trade import load
from tests.analysis.honest import POUND, Season

Row = dict[str, Any]
#: A load as it was meant -> as it was typed, or None where the slip has no form for it.
Typed = Callable[[float, random.Random], float | None]

RISE = 1.05  #: a base that rises by more than this would load a body wrongly
DIGITS = "0123456789"


def swapped(value: float, chance: random.Random) -> float | None:
    text = str(round(value))
    rising = [n for n in range(len(text) - 1) if text[n + 1] > text[n]]
    found = [text[:n] + text[n + 1] + text[n] + text[n + 2 :] for n in rising]
    return float(chance.choice(found)) if found else None


def digit(value: float, chance: random.Random) -> float | None:
    text = str(round(value))
    at = chance.randrange(len(text))
    higher = DIGITS[int(text[at]) + 1 :]
    return float(text[:at] + chance.choice(higher) + text[at + 1 :]) if higher else None


def doubled(value: float, chance: random.Random) -> float | None:
    text = str(round(value))
    at = chance.randrange(len(text))
    return float(text[:at] + text[at] + text[at:])


LOADS: Mapping[str, Typed] = {
    "x 10": lambda value, _: value * 10,
    "x 2.2": lambda value, _: float(round(value / POUND)),
    "a 1 in front": lambda value, _: value + 100 if value < 100 else None,
    "doubled digit": doubled,
    "swapped digits": swapped,
    "one digit": digit,
    "+ 30 %": lambda value, _: float(round(value * 1.3)),
    "+ 20 %": lambda value, _: float(round(value * 1.2)),
    "+ 12 %": lambda value, _: float(round(value * 1.12)),
}


def age(row: Row, season: Season) -> int:
    """Days before the review day."""
    return int((np.datetime64(season.as_of, "D") - row["date"].astype("datetime64[D]")).astype(int))


def worth(row: Row) -> float:
    """What a base is taken from: the load, of a squat the estimated single; 0 where a row counts for none."""
    lift = load().lifts[row["lift"]]
    straps = bool(row["aid"]) and lift.start == "floor"
    if row["lift"] not in support.checked(load()) or not row["made"] or row["variant"] or straps:
        return 0.0
    kg, reps = float(row["load_kg"]), int(row["made"])
    estimated = lift.role == "squat" and 2 <= reps <= 10 and not row["aid"]
    return kg * (1 + reps / 30) if estimated else kg


def bests(rows: list[Row], season: Season) -> dict[str, float]:
    """The best of the year, lift by lift."""
    found: dict[str, float] = {}
    for row in rows:
        kg = worth(row)
        if kg and age(row, season) < 365:
            found[row["lift"]] = max(found.get(row["lift"], 0.0), kg)
    return found


def bases(rows: list[Row], season: Season) -> dict[str, float]:
    """What a proposal would take loads from, lift by lift: the current best, else the best of the year."""
    now = bests([row for row in rows if age(row, season) <= 84], season)
    return bests([row for row in rows if row["lift"] not in now], season) | now


def with_rows(season: Season, rows: list[Row]) -> Season:
    found = copy(season)
    found.rows = rows
    return found


def proposed(season: Season) -> dict[str, float | None]:
    """What is left of the bases: None where nothing is proposed, and nothing over what other days bear."""
    records = season.read()
    stopped = {lift for one in slips.read(records, load()) for lift in one.stops}
    most = slips.held(records, load())
    return {
        lift: None if {lift, EVERYTHING} & stopped else min(kg, most.get(lift, kg))
        for lift, kg in bases(season.rows, season).items()
    }


def candidates(season: Season) -> list[int]:
    """Rows of the last weeks heavy enough that a slip would matter; pulls carry no load of a proposal."""
    base = bases(season.rows, season)
    return [
        n
        for n, row in enumerate(season.rows)
        if row["made"]
        and not row["variant"]
        and row["parts"] == 1
        and load().lifts[row["lift"]].role != "pull"
        and age(row, season) <= 84
        and row["load_kg"] > 0.6 * base.get(row["lift"], 1e9)
    ]


def typed(season: Season, name: str, days: int, chance: random.Random) -> tuple[str, Season] | None:
    """The season with one load typed wrong, on one day or the same load on two; and the lift."""
    unit = POUND if season.lifter is not None and season.lifter.unit == "lb" else 1.0
    found = candidates(season)
    if not found:
        return None
    at = chance.choice(found)
    lift, day = season.rows[at]["lift"], season.rows[at]["date"]
    value = LOADS[name](round(season.rows[at]["load_kg"] / unit, 3), chance)
    if value is None or value * unit > 600:
        return None
    again = [n for n in found if season.rows[n]["lift"] == lift and season.rows[n]["date"] != day]
    if days == 2 and not again:
        return None
    places = [at, *(chance.sample(again, 1) if days == 2 else [])]
    rows = [row | {"load_kg": value * unit} if n in places else row for n, row in enumerate(season.rows)]
    return lift, with_rows(season, rows)


def repeated(season: Season, reps: int, chance: random.Random) -> tuple[str, Season] | None:
    """The best squat with ten (twenty) times the repetitions."""
    squats = [
        n for n in candidates(season) if "squat" in season.rows[n]["lift"] and season.rows[n]["made"] == reps
    ]
    if not squats:
        return None
    at = max(squats, key=lambda n: (season.rows[n]["load_kg"], chance.random()))
    many = {"reps": reps * 10, "made": reps * 10}
    rows = [row | many if n == at else row for n, row in enumerate(season.rows)]
    return season.rows[at]["lift"], with_rows(season, rows)


def in_pounds(season: Season, days: int) -> Season:
    """The last days of the season in pounds under kilograms."""
    rows = [
        row | {"load_kg": float(min(600, round(row["load_kg"] / POUND)))} if age(row, season) < days else row
        for row in season.rows
    ]
    return with_rows(season, rows)
