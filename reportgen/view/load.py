"""Load by week and how it is spread over the zones of relative load."""

import datetime as dt
from itertools import pairwise
from typing import Final

import numpy as np
import pandas as pd

from reportgen.model.facts import WeekFact
from reportgen.view import pieces
from reportgen.view.exposure import WEEK
from reportgen.view.options import CalendarRows
from reportgen.view.page import Block, Figure, Paragraph, Table
from reportgen.view.reader import Reader, as_day, load, tidy, words
from reportgen.words import Phrase, numbers, phrase, text

PIECES: Final = ("classic", "strength", "other")
#: Weeks that are told against so many before them.
RECENT, BEFORE = 4, 8
#: Trained weeks that are drawn a bar each; of a longer log the newest so many, and a bar a quarter before.
MOST_BARS, RECENT_BARS = 260, 104


def blocks(reader: Reader) -> tuple[Block, ...]:
    """How heavy the repetitions were; nothing without a week."""
    known = reader.facts.exposure
    if not known.weeks:
        return ()
    left_out = known.share_left_out
    note = () if left_out is None else (pieces.paragraph("load.left_out", left_out_share=left_out),)
    return (spread(reader), *note)


def tapers(reader: Reader) -> pd.DataFrame:
    """The tapers that were found, a band each: start, end, reading."""
    found = {
        (t.taper.start, t.date): text("load.weeks.taper", n=t.taper.days, date=t.date)
        for t in reader.facts.test_days or ()
        if t.taper is not None and t.taper.start is not None and t.taper.days is not None
    }
    return tidy("start end reading", [(*ends, reading) for ends, reading in found.items()])


def chases(reader: Reader) -> pd.DataFrame:
    """Heavy days close together, a strip each: start, end, reading."""
    day = dt.timedelta(days=1)
    return tidy(
        "start end reading",
        [(c.start, c.end + day, text("load.weeks.chase", n=c.heavy_days)) for c in reader.facts.chases or ()],
    )


def _coarser(weeks: pd.DataFrame) -> pd.DataFrame:
    """The weeks of a log of many years with those long ago taken together, a quarter's mean week each.

    Args:
        weeks: A row a trained week, by its Monday: sums [kg].

    Returns:
        The same with `end`, the day behind the last of the row's weeks.
    """
    recent = weeks.assign(end=pd.DatetimeIndex(weeks.index) + WEEK)
    if len(weeks) <= MOST_BARS:
        return recent
    old = weeks.iloc[:-RECENT_BARS].asfreq("7D", fill_value=0.0)
    starts = pd.Series(old.index, old.index)
    quarter = starts.dt.to_period("Q")
    means = old.groupby(quarter.to_numpy()).mean()
    means.index = pd.DatetimeIndex(starts.groupby(quarter.to_numpy()).min())
    means["end"] = (starts.groupby(quarter.to_numpy()).max() + WEEK).to_numpy()
    return pd.concat([means, recent.iloc[-RECENT_BARS:]])


def _by_week(days: pd.DataFrame) -> pd.DataFrame:
    """What was lifted a week, by the Monday [kg]."""
    monday = days["date"] - pd.to_timedelta(days["date"].dt.day_of_week, unit="D")
    return days.groupby(monday)[["tonnage_classic_kg", "tonnage_strength_kg", "tonnage_kg"]].sum()


def stacked(reader: Reader) -> pd.DataFrame:
    """One row a week and part, with the edges of its piece of the bar [tonnes or thousand lb]."""
    parts = _coarser(_by_week(reader.dossier.tables.days))
    if parts.empty:
        return tidy("start end kind low high reading", [])
    classic, strength = parts["tonnage_classic_kg"], parts["tonnage_strength_kg"]
    edges = [classic * 0, classic, classic + strength, parts["tonnage_kg"].clip(lower=classic + strength)]
    pieces_of = [reader.numbers((high - low) / 1000).round(1) for low, high in pairwise(edges)]
    whole = reader.numbers(parts["tonnage_kg"] / 1000).round(1)
    # One reading a week, the same on its three pieces: short, and it weighs little in the page.
    said = {"start": parts.index, "total": whole, "classic": pieces_of[0], "strength": pieces_of[1]}
    weeks = [(end - start) // WEEK for start, end in zip(parts.index, parts["end"], strict=True)]
    readings = reader.readings(
        pd.DataFrame(said).assign(weeks=weeks, unit=text(f"load.unit.{reader.unit}")),
        lambda row: f"load.weeks.bar{'' if row['weeks'] == 1 else '_mean'}",
    )
    frames = [
        pd.DataFrame(
            {
                "start": parts.index,
                "end": pd.DatetimeIndex(parts["end"]),
                "kind": kind,
                "low": reader.numbers(low / 1000).round(2).to_numpy(),
                "high": reader.numbers(high / 1000).round(2).to_numpy(),
                "reading": readings,
            }
        )
        for kind, (low, high) in zip(PIECES, pairwise(edges), strict=True)
    ]
    bars = pd.concat(frames, ignore_index=True).sort_values("start", kind="stable")
    return bars.loc[bars["high"] > bars["low"]].reset_index(drop=True)


def compared(weeks: tuple[WeekFact, ...]) -> list[Phrase]:
    """The heaviest week, and the last weeks against those before them."""
    trained = [w for w in weeks if w.sessions]
    if not trained:
        return [phrase("load.weeks.no_session")]
    heaviest = max(trained, key=lambda w: w.tonnage_kg)
    said = [phrase("load.weeks.heaviest", start=heaviest.start, load_kg=round(heaviest.tonnage_kg))]
    recent = [w.tonnage_kg for w in weeks[-RECENT:]]
    before = [w.tonnage_kg for w in weeks[-RECENT - BEFORE : -RECENT]]
    if before and np.mean(before) > 0:
        now_kg, then_kg = (float(round(np.mean(kg))) for kg in (recent, before))
        said.append(
            phrase("load.weeks.compared", recent=RECENT, before=BEFORE, now_kg=now_kg, then_kg=then_kg)
        )
    return said


def months(reader: Reader) -> tuple[Table, ...]:
    """The load month by month; nothing without any."""
    days = reader.dossier.tables.days
    return (_months(days, len(_by_week(days))),) if len(days) else ()


def _months(days: pd.DataFrame, weeks: int) -> Table:
    months = days.groupby(days["date"].dt.to_period("M").dt.start_time)
    sums = months[["repetitions", "tonnage_classic_kg", "tonnage_strength_kg", "tonnage_kg"]].sum()
    rows = (
        (
            numbers.month(as_day(month)),
            many,
            int(reps),
            *(load(round(kg)) for kg in (classic, strength, every)),
        )
        for month, reps, classic, strength, every, many in sums.assign(days=months.size()).itertuples()
    )
    table = pieces.table("load.months", rows, address="load-months", folded=True, n=weeks)
    return pieces.newest(table, last=True)


def zone(low: float | None, high: float | None) -> str:
    """A zone of relative load in words."""
    if low is not None and high is not None:
        return text("load.zone.low_high", both=(low, high))
    if low is not None:
        return text("load.zone.low", low_share=low)
    return text("load.zone.unknown") if high is None else text("load.zone.high", high_share=high)


def _counted(reader: Reader) -> pd.DataFrame:
    """Counted repetitions of the goal lift and its derivatives by month and zone, lightest first."""
    sets = reader.dossier.tables.sets
    zones = reader.trade.zones
    rows = sets.loc[
        sets["lift"].isin(reader.derived | set(reader.lifts))
        & (sets["share"] >= reader.trade.value("counted_share"))
        & (sets["tried"] > 0)
    ]
    edges = [-np.inf, *(one.high for one in zones[:-1] if one.high is not None), np.inf]
    rank = pd.cut(rows["share"], edges, right=False, labels=False)
    start = rows["date"].dt.to_period("M").dt.start_time.astype("datetime64[s]")
    counts = rows.groupby([start.rename("start"), rank.rename("rank")])["tried"].sum()
    return counts.rename("count").reset_index()


def spread(reader: Reader) -> Figure | Paragraph:
    """Counted repetitions in each zone, month by month."""
    counts = _counted(reader)
    if counts.empty:
        return pieces.paragraph("load.none.spread")
    labels = tuple(zone(one.low, one.high) for one in reader.trade.zones)
    counts["zone"] = [labels[int(rank)] for rank in counts["rank"]]
    by_month = counts.groupby("start")["count"]
    counts["high"] = by_month.cumsum()
    counts["low"] = counts["high"] - counts["count"]
    counts["end"] = counts["start"] + pd.offsets.MonthBegin(1)
    counts["reading"] = reader.readings(counts.assign(total=by_month.transform("sum")), "load.spread.bar")
    heavy = int(counts.loc[counts["rank"] == len(labels) - 1, "count"].sum())
    total = int(counts["count"].sum())
    table = counts.pivot_table(index="start", columns="rank", values="count", fill_value=0).reindex(
        columns=range(len(labels)), fill_value=0
    )
    return pieces.figure(
        "load.spread",
        "load-spread",
        "load_spread",
        {"bars": counts[["start", "end", "zone", "low", "high", "reading"]]},
        pieces.newest(
            Table(
                caption=text("load.spread.caption"),
                head=(text("load.spread.month"), *labels),
                rows=tuple(
                    (
                        words(numbers.month(as_day(month))),
                        *(pieces.cell(int(many)) for many in row),
                    )
                    for month, *row in table.itertuples()
                ),
                folded=True,
                id="load-spread-table",
            ),
            last=True,
        ),
        options=CalendarRows(
            rows=labels, first=as_day(counts["start"].min()), last=as_day(counts["end"].max())
        ),
        over_time=True,
        heavy=heavy,
        total=total,
        share=heavy / total,
        zone=labels[-1],
    )
