"""The one frozen value that pages, charts and the facts file are made from."""

import pandas as pd

from reportgen.model.facts import Facts, MakeRateFact
from reportgen.model.records import Records
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What figures draw from; computed once by `analysis`, never changed. Columns: `model.tables`."""

    sets: pd.DataFrame  # one row a part of a set up to as_of, with reference, share, tried, missed
    days: pd.DataFrame  # one row a training day
    weeks: pd.DataFrame  # one row an ISO week from the first to as_of
    misses: pd.DataFrame  # one row a kind of miss of a set
    rates: tuple[MakeRateFact, ...]  # made of tried of the goal lifts, in smaller steps than the facts' zones
    bodymass: pd.DataFrame  # up to as_of
    running_best: pd.DataFrame  # the goal lift's best at each day that raised it
    aligned: pd.DataFrame  # the days around each test day


@dataclass(frozen=True, slots=True, kw_only=True)
class Dossier:
    """One lifter's dossier: the records it came from, the facts, the tables behind the figures."""

    records: Records
    facts: Facts
    tables: Tables
