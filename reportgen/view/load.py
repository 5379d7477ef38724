"""Load by week and how it is spread over the zones of relative load."""

import datetime as dt
from itertools import pairwise
from typing import Final

import numpy as np
import pandas as pd

from reportgen.model.facts import WeekFact
from reportgen.view import exposure
from reportgen.view.page import Block, Figure, Paragraph, Table
from reportgen.view.reader import Reader, as_day, load, plain, tally, words
from reportgen.words import Phrase, Weight, numbers

WEEK = dt.timedelta(days=7)
PIECES: Final = {"classic": "classic lifts", "strength": "squats and pulls", "other": "everything else"}


def blocks(reader: Reader) -> tuple[Block, ...]:
    """The figures about load; none where weeks were not computed."""
    known = reader.facts.exposure
    if known is None or not known.weeks:
        return ()
    left_out = known.share_left_out
    note: tuple[Block, ...] = ()
    if left_out is not None:
        note = (
            Paragraph(
                text=(
                    "Counted repetitions begin at 60 % of the best of the year before: "
                    f"{numbers.share(left_out)} of the "
                    "repetitions are lighter or have no known best, and are left out. Pulls count apart.",
                )
            ),
        )
    return (weekly(reader, known.weeks), spread(reader), *note)


def weekly(reader: Reader, weeks: tuple[WeekFact, ...]) -> Figure | Paragraph:
    """Load lifted week by week: classic lifts, squats and pulls, everything else."""
    days = reader.dossier.tables.days
    if days.empty:
        return Paragraph(text=("Not tested: no load is in the log.",))
    monday = days["date"] - pd.to_timedelta(days["date"].dt.day_of_week, unit="D")
    parts = days.groupby(monday)[["tonnage_classic_kg", "tonnage_strength_kg", "tonnage_kg"]].sum()
    bars = _stacked(reader, parts)
    empty = pd.DataFrame(exposure.gaps(weeks), columns=["start", "end", "ground", "reading"])
    gaps = empty.astype({"start": "datetime64[s]", "end": "datetime64[s]"})
    days_ = sorted({d.date for d in reader.facts.test_days or ()})
    tests = pd.DataFrame(
        {
            "date": pd.to_datetime(days_).astype("datetime64[s]"),
            "reading": [f"{numbers.day(day)}: test day" for day in days_],
        }
    )
    bands, strips = tapers(reader), chases(reader)
    sentence = (*_weekly_sentence(weeks), *_shaded(bands, strips))
    return Figure(
        id="load-weeks",
        title="Load by week",
        sentence=sentence,
        summary="A bar a week in three parts: classic lifts and their derivatives, squats and pulls, "
        f"everything else. Weeks without a session have a grey ground. {plain(sentence, reader.unit)}",
        chart="load_weeks",
        data={"bars": bars, "gaps": gaps, "tests": tests, "tapers": bands, "chases": strips},
        options={
            "unit": reader.unit,
            "first": weeks[0].start.isoformat(),
            "last": (weeks[-1].start + WEEK).isoformat(),
        },
        table=_months(reader, parts),
        over_time=True,
    )


def tapers(reader: Reader) -> pd.DataFrame:
    """The tapers that were found, a band each: start, end, reading."""
    found = {
        (t.taper.start, t.date): f"{numbers.count(t.taper.days, 'day')} of less before {numbers.day(t.date)}"
        for t in reader.facts.test_days or ()
        if t.taper is not None and t.taper.start is not None and t.taper.days is not None
    }
    return _spans([(start, end, reading) for (start, end), reading in found.items()])


def chases(reader: Reader) -> pd.DataFrame:
    """Heavy days close together, a strip each: start, end, reading."""
    return _spans(
        [
            (
                c.start,
                c.end + dt.timedelta(days=1),
                f"{numbers.count(c.heavy_days, 'heavy day')} close together",
            )
            for c in reader.facts.chases or ()
        ]
    )


def _spans(rows: list[tuple[dt.date, dt.date, str]]) -> pd.DataFrame:
    table = pd.DataFrame(rows, columns=["start", "end", "reading"])
    days = {name: pd.to_datetime(table[name]).astype("datetime64[s]") for name in ("start", "end")}
    return table.assign(**days).astype({"reading": "str"})


def _shaded(bands: pd.DataFrame, strips: pd.DataFrame) -> Phrase:
    """What the bands and the strip mean, where there are any."""
    parts = []
    if len(bands):
        parts.append("the bands are tapers")
    if len(strips):
        parts.append("the strip on top marks heavy days close together")
    return (f" {numbers.sentence(' and '.join(parts))}.",) if parts else ()


def _stacked(reader: Reader, parts: pd.DataFrame) -> pd.DataFrame:
    """One row a week and part, with the edges of its piece of the bar."""
    classic = parts["tonnage_classic_kg"]
    strength = parts["tonnage_strength_kg"]
    edges = [classic * 0, classic, classic + strength, parts["tonnage_kg"].clip(lower=classic + strength)]
    unit = "tonnes" if reader.unit == "kg" else "thousand lb"
    pieces = [reader.numbers((high - low) / 1000).round(1) for low, high in pairwise(edges)]
    whole = reader.numbers(parts["tonnage_kg"] / 1000).round(1)
    # One reading a week, the same on its three pieces: short, and it weighs little in the page.
    readings = [
        f"{numbers.day(as_day(d))}: {total:g} {unit}, {PIECES['classic']} {a:g}, {PIECES['strength']} {b:g}"
        for d, total, a, b in zip(parts.index, whole, *pieces[:2], strict=True)
    ]
    frames = [
        pd.DataFrame(
            {
                "start": parts.index,
                "end": pd.DatetimeIndex(parts.index) + pd.Timedelta(days=7),
                "kind": kind,
                "low": reader.numbers(low / 1000).round(2).to_numpy(),
                "high": reader.numbers(high / 1000).round(2).to_numpy(),
                "reading": readings,
            }
        )
        for kind, (low, high) in zip(("classic", "strength", "other"), pairwise(edges), strict=True)
    ]
    bars = pd.concat(frames, ignore_index=True).sort_values("start", kind="stable")
    return bars.loc[bars["high"] > bars["low"]].reset_index(drop=True)


def _weekly_sentence(weeks: tuple[WeekFact, ...]) -> Phrase:
    trained = [w for w in weeks if w.sessions]
    if not trained:
        return ("No week holds a session.",)
    heaviest = max(trained, key=lambda w: w.tonnage_kg)
    recent = [w.tonnage_kg for w in weeks[-4:]]
    before = [w.tonnage_kg for w in weeks[-12:-4]]
    parts: list[str | Weight] = [
        "The heaviest week was the ",
        numbers.week(heaviest.start),
        " with ",
        Weight(round(heaviest.tonnage_kg)),
        ".",
    ]
    if before and np.mean(before) > 0:
        off = float(np.mean(recent) / np.mean(before) - 1)
        way = "above" if off > 0 else "below"
        parts.append(f" The last four weeks lie {numbers.share(abs(off))} {way} the eight before them.")
    return tuple(parts)


def _months(reader: Reader, parts: pd.DataFrame) -> Table:
    by_month = reader.dossier.tables.days
    month = by_month["date"].dt.to_period("M").dt.start_time
    months = by_month.groupby(month)
    summed = ["repetitions", "tonnage_classic_kg", "tonnage_strength_kg", "tonnage_kg"]
    sums = months[summed].sum().assign(days=months.size())
    return Table(
        caption=f"Load by month ({numbers.count(len(parts), 'week')} with training)",
        head=("month", "training days", "repetitions", "classic lifts", "squats and pulls", "all"),
        rows=tuple(
            (
                words(numbers.month(as_day(pd.Timestamp(str(m))))),
                tally(int(d)),
                tally(int(r)),
                load(round(c)),
                load(round(s)),
                load(round(t)),
            )
            for m, r, c, s, t, d in sums.itertuples()
        ),
        folded=True,
        id="load-months",
    )


def zone_labels(reader: Reader) -> tuple[str, ...]:
    """The zones of relative load in words, lightest first."""
    labels = []
    for zone in reader.trade.zones:
        if zone.low is None:
            labels.append(f"under {numbers.share(zone.high or 0)}")
        elif zone.high is None:
            labels.append(f"{numbers.share(zone.low)} and over")
        else:
            labels.append(f"{numbers.share(zone.low)[:-2]} to {numbers.share(zone.high)}")
    return tuple(labels)


def _counted(reader: Reader) -> pd.DataFrame:
    """Counted repetitions of the goal lift and its derivatives by zone and by month or week."""
    sets = reader.dossier.tables.sets
    derived = {n for n, lift in reader.trade.lifts.items() if set(lift.derives_from) & set(reader.lifts)}
    floor = reader.trade.value("counted_share") if "counted_share" in reader.trade.rules else 0.6
    rows = sets.loc[
        sets["lift"].isin(derived | set(reader.lifts)) & (sets["share"] >= floor) & (sets["tried"] > 0)
    ]
    edges = [-np.inf, *(z.high for z in reader.trade.zones[:-1] if z.high is not None), np.inf]
    labels = zone_labels(reader)
    zone = pd.cut(rows["share"], edges, right=False, labels=list(labels)).astype("str")
    start = rows["date"].dt.to_period("M").dt.start_time.astype("datetime64[s]")
    counts = rows.groupby([start.rename("start"), zone.rename("zone")])["tried"].sum()
    return counts.rename("count").reset_index()


def spread(reader: Reader) -> Figure | Paragraph:
    """Counted repetitions in each zone, month by month."""
    counts = _counted(reader)
    if counts.empty:
        return Paragraph(
            text=("How the load is spread is not tested: no best is known that shares could be taken from.",)
        )
    labels = zone_labels(reader)
    counts["rank"] = counts["zone"].map({label: n for n, label in enumerate(labels)})
    counts = counts.sort_values(["start", "rank"], ignore_index=True)
    counts["high"] = counts.groupby("start")["count"].cumsum()
    counts["low"] = counts["high"] - counts["count"]
    counts["end"] = counts["start"] + pd.offsets.MonthBegin(1)
    totals = counts.groupby("start")["count"].transform("sum")
    counts["reading"] = [
        f"{numbers.month(as_day(d))}, {zone}: {n} of {numbers.count(int(total), 'counted repetition')}"
        for d, zone, n, total in zip(counts["start"], counts["zone"], counts["count"], totals, strict=True)
    ]
    heavy = int(counts.loc[counts["zone"] == labels[-1], "count"].sum())
    total = int(counts["count"].sum())
    sentence: Phrase = (
        f"{heavy} of {numbers.count(total, 'counted repetition')}, {numbers.share(heavy / total)}, were at "
        f"{labels[-1]} of that lift's best of the year before.",
    )
    many = {
        (month, zone): int(n) for month, zone, n in counts[["start", "zone", "count"]].itertuples(index=False)
    }
    return Figure(
        id="load-spread",
        title="How heavy the repetitions were",
        sentence=(numbers.sentence(str(sentence[0])),),
        summary=f"A bar a month, cut by zone of relative load, lightest at the bottom. {sentence[0]}",
        chart="load_spread",
        data={"bars": counts[["start", "end", "zone", "low", "high", "reading"]]},
        options={
            "zones": labels,
            "first": as_day(counts["start"].min()).isoformat(),
            "last": as_day(counts["end"].max()).isoformat(),
        },
        table=Table(
            caption="Counted repetitions of the goal lift and its derivatives by month and share of the best",
            head=("month", *labels),
            rows=tuple(
                (
                    words(numbers.month(as_day(month))),
                    *(tally(many.get((month, label), 0)) for label in labels),
                )
                for month in counts["start"].drop_duplicates()
            ),
            folded=True,
            id="load-spread-table",
        ),
        over_time=True,
    )
