"""The one frozen value that pages, charts and the facts file are made from."""

import pandas as pd

from reportgen.model.facts import Facts
from reportgen.model.records import Records
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What figures draw from; computed once by `analysis`, never changed. Columns: `model.tables`.

    Attributes:
        sets: One row a part of a set up to as_of, with reference, share, tried, missed.
        days: One row a training day.
        weeks: One row an ISO week from the first to as_of.
        misses: One row a kind of miss of a set.
        bodymass: date, mass_kg up to as_of.
        running_best: The goal lift's best at each day that raised it.
        aligned: The days around each test day.
    """

    sets: pd.DataFrame
    days: pd.DataFrame
    weeks: pd.DataFrame
    misses: pd.DataFrame
    bodymass: pd.DataFrame
    running_best: pd.DataFrame
    aligned: pd.DataFrame


@dataclass(frozen=True, slots=True, kw_only=True)
class Dossier:
    """One lifter's dossier: the records it came from, the facts, the tables behind the figures."""

    records: Records
    facts: Facts
    tables: Tables
