"""Training on one axis of time: sessions, load with its tapers, what was tried near the limit."""

from collections.abc import Iterator

import pandas as pd

from reportgen.model.facts import ExposureFact
from reportgen.view import exposure, load, pieces
from reportgen.view.exposure import WEEK
from reportgen.view.options import CalendarWeights
from reportgen.view.page import Figure, Paragraph, Section
from reportgen.view.reader import Reader, as_day, tidy
from reportgen.view.strip import LONG_MARKS, RECENT
from reportgen.words import numbers, phrase, text, together


def section(reader: Reader) -> Section:
    """How often and how heavy, week by week."""
    known = reader.facts.exposure
    none = known.weeks and exposure.bars(known.weeks).empty and not load.stacked(reader).empty
    untested = (_untested(reader, known),) if none else ()
    blocks = (*untested, strips(reader, known), *exposure.questions(known), *load.months(reader))
    return pieces.section("exposure.section", "exposure", blocks, lifts=reader.lifts)


def strips(reader: Reader, known: ExposureFact) -> Figure | Paragraph:
    """Sessions, load and what was tried near the limit, week by week."""
    weeks = known.weeks
    if not weeks:
        return pieces.paragraph("exposure.none.weeks")
    sessions, gaps = exposure.bars(weeks), exposure.gaps(weeks)
    loads = load.stacked(reader)
    if sessions.empty and gaps.empty and loads.empty:
        return _untested(reader, known)
    chases = load.chases(reader)
    compared = load.compared(weeks) + ([phrase("load.weeks.chases")] if len(chases) else [])
    return pieces.figure(
        "exposure.weeks",
        "exposure-weeks",
        "training",
        {
            "sessions": sessions,
            "loads": loads,
            "gaps": gaps,
            "tries": _tries(reader),
            "tapers": load.tapers(reader),
            "chases": chases,
        },
        exposure.weeks_table(weeks),
        options=CalendarWeights(unit=reader.unit, first=weeks[0].start, last=weeks[-1].start + WEEK),
        over_time=True,
        sentence=together((*exposure.said(reader, known), *compared)),
        unit=reader.unit,
    )


def _untested(reader: Reader, known: ExposureFact) -> Paragraph:
    return pieces.paragraph("exposure.none.sessions", lifts=reader.lifts, weeks=len(known.weeks))


def _tries(reader: Reader) -> pd.DataFrame:
    """A mark a day and outcome of what was tried near the limit, and one a test day: date, mark, reading.

    Of many years the tries long ago have a mark a quarter and outcome.
    """
    sets = reader.dossier.tables.sets
    near = sets.loc[
        sets["lift"].isin(reader.lifts)
        & (sets["share"] >= reader.trade.value("heavy_share"))
        & (sets["tried"] > 0)
    ]
    rows = sorted(
        {(d.date, "test", text("load.weeks.test", date=d.date)) for d in reader.facts.test_days or ()}
    )
    return tidy("date mark reading", [*_by_day(reader, near), *rows])


def _by_day(reader: Reader, near: pd.DataFrame) -> Iterator[tuple[object, ...]]:
    if near["date"].nunique() > LONG_MARKS:
        old = near["date"] < pd.Timestamp(reader.facts.as_of) - RECENT
        yield from _by_quarter(reader, near.loc[old])
        near = near.loc[~old]
    loads: dict[tuple[pd.Timestamp, bool], set[float]] = {}
    for day, made, kg in zip(near["date"], near["made_reps"] > 0, near["load_kg"], strict=True):
        loads.setdefault((day, made), set()).add(kg)
    for (day, made), tried in sorted(loads.items(), key=lambda one: one[0]):
        kgs = numbers.listing(map(reader.say, sorted(tried)))
        mark = "made" if made else "missed"
        told = text("load.weeks.tried", date=as_day(day), mark=text(f"charts.mark.{mark}"), loads=kgs)
        yield day, mark, told


def _by_quarter(reader: Reader, near: pd.DataFrame) -> Iterator[tuple[object, ...]]:
    quarter = near["date"].dt.to_period("Q").dt.start_time
    for _, rows in near.groupby([quarter, near["made_reps"] > 0]):
        start, mark = quarter[rows.index[0]], "made" if rows["made_reps"].iloc[0] else "missed"
        said, most = text(f"charts.mark.{mark}"), reader.say(float(rows["load_kg"].max()))
        days = rows["date"].nunique()
        yield (
            start,
            mark,
            text("load.weeks.tried_quarter", date=as_day(start), mark=said, days=days, load=most),
        )
