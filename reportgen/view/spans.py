"""Which season a page is about, and the tables of that span."""

import datetime as dt
from dataclasses import replace
from typing import Final

import pandas as pd

from reportgen.model.season import SeasonFact, TriedFact
from reportgen.view.reader import Reader
from reportgen.words import numbers

DAY: Final = dt.timedelta(days=1)


def newest(reader: Reader) -> SeasonFact | None:
    """The season that the page is about: the last one of the facts."""
    return reader.facts.season[-1] if reader.facts.season else None


def named(season: SeasonFact) -> str:
    """A calendar year by its number, any other span by its days."""
    return season.label if season.label.isdigit() else numbers.span(season.start, season.end)


def within(reader: Reader, season: SeasonFact) -> Reader:
    """The same reader with the tables cut to the season, so that every figure shows that span only."""
    tables, start, end = reader.dossier.tables, pd.Timestamp(season.start), pd.Timestamp(season.end)
    mass = tables.bodymass
    mass = mass.loc[mass["date"].between(start, end)].reset_index(drop=True) if len(mass) else mass
    best = tables.running_best
    before = best.loc[best["date"] < start].groupby("lift", sort=True).tail(1).assign(date=start)
    best = pd.concat([before, best.loc[best["date"].between(start, end)]], ignore_index=True)
    best = best.astype(tables.running_best.dtypes.to_dict())
    dossier = replace(reader.dossier, tables=replace(tables, bodymass=mass, running_best=best))
    return replace(reader, dossier=dossier)


def tested(season: SeasonFact) -> int | None:
    """How many days of a season were test days; None where they were not computed."""
    return None if season.test_days is None else len({test.date for test in season.test_days})


def singles(reader: Reader, season: SeasonFact) -> tuple[TriedFact | None, bool]:
    """Heavy singles of a season, None where none could be told, and whether some weeks are blind.

    A single can't be told where the best of the weeks in which the lift was trained was not known.
    """
    weeks = [
        week
        for week in reader.facts.exposure.weeks
        if week.full and season.start - 6 * DAY <= week.start <= season.end
    ]
    blind = [week for week in weeks if week.heavy_singles is None]
    heavy = season.heavy_singles
    if heavy is not None and not heavy.tried and blind and len(blind) == len(weeks):
        return None, True
    return heavy, bool(blind)


def tops(reader: Reader, season: SeasonFact) -> list[tuple[str, float, float | None]]:
    """Each goal lift made in the season, its best of the season and the best before it, None without [kg].

    The reader's tables are those of the whole log, not those of `within`.
    """
    best, found, start = reader.dossier.tables.running_best, [], pd.Timestamp(season.start)
    for lift in reader.lifts:
        mine = best.loc[best["lift"] == lift]
        inside = [month.kg for month in season.bests if month.lift == lift]
        if inside:
            # A best that is told in lifter.toml is older than the log and may still be of this season.
            told = mine.loc[mine["date"].between(start, pd.Timestamp(season.end)), "kg"]
            earlier = mine.loc[mine["date"] < start, "kg"]
            found.append(
                (lift, float(max((*inside, *told))), None if earlier.empty else float(earlier.max()))
            )
    return found
