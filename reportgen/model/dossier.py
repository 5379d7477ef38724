"""The one frozen value that pages, charts and the facts file are made from."""

import pandas as pd

from reportgen.model.facts import Facts, MakeRateFact
from reportgen.model.records import Records
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What figures draw from; computed once by `analysis`, never changed. Columns: `analysis.frames`.

    Attributes:
        sets: One row a part of a set up to as_of, with reference, share, tried, missed.
        days: One row a training day.
        weeks: One row an ISO week from the first to as_of.
        misses: One row a kind of miss of a set.
        rates: Made of tried of the goal lifts, in smaller steps than the facts' zones.
        bodymass: date, mass_kg up to as_of.
        running_best: date, lift, kg, kind: the goal lift's best at each day that raised it.
        aligned: test, day (-35 to 14), load_kg, expected_kg, taper, away: each test day's days.
    """

    sets: pd.DataFrame
    days: pd.DataFrame
    weeks: pd.DataFrame
    misses: pd.DataFrame
    rates: tuple[MakeRateFact, ...]
    bodymass: pd.DataFrame
    running_best: pd.DataFrame
    aligned: pd.DataFrame


@dataclass(frozen=True, slots=True, kw_only=True)
class Dossier:
    """One lifter's dossier: the records it came from, the facts, the tables behind the figures."""

    records: Records
    facts: Facts
    tables: Tables
