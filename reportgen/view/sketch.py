"""The small picture of a finding, made of its own evidence; one form, and none where nothing can be drawn."""

import datetime as dt
from collections.abc import Iterable
from typing import Final

import pandas as pd

from reportgen.model.findings import Evidence, Need
from reportgen.view import load, screened
from reportgen.view.options import Calendar, Small
from reportgen.view.page import Picture
from reportgen.view.reader import Reader, as_day, of, tidy
from reportgen.words import numbers, say, text

WEEK: Final = dt.timedelta(days=7)
#: Weeks of a picture that shows a bar a week.
WEEKS: Final = 26
#: Kind of evidence, or table of its file -> section of the page that shows it.
PLACES: Final = {
    "miss": "misses",
    "checkpoint": "technique",
    "screening": "positions",
    "indicator": "supports",
    "exposure": "exposure",
    "mobility": "positions",
    "technique": "technique",
    "attempts": "tapers",
    "bodymass": "stands",
    "away": "exposure",
}
#: Figure of a finding -> what it shows of these: evidence of that kind is drawn first.
SHOWN: Final = {
    "positions-then-now": "screening",
    "upkeep": "mobility",
    "technique-over-time": "checkpoint",
    "miss-kinds": "miss",
    "exposure-weeks": "exposure",
    "tapers-aligned": "attempts",
    "enough-for": "indicator",
    "expressed": "indicator",
    "running-best": "bodymass",
}
#: Grades from the worst to the best.
GRADES: Final = {"screening": ("no", "partly", "held"), "checkpoint": ("off", "drifting", "good")}
#: Column of the weeks that a rule of exposure counts.
COUNTED: Final = {
    "no_single_weeks": "heavy_singles",
    "jump_share": "repetitions",
    "taper_long_days": "repetitions",
}
_POINTS: Final = "x y line mark low high label reading"


def of_need(reader: Reader, need: Need, address: str) -> Picture | None:
    """The picture of the first evidence that can be drawn; None where none can."""
    kind = SHOWN.get(need.figure)
    for one in sorted(need.evidence, key=lambda each: each.source_kind != kind):
        made = _made(reader, one, need)
        if made is not None:
            title, summary, data, options = made
            return Picture(
                id=f"{address}-small", title=title, summary=summary, chart="small", data=data, options=options
            )
    return None


Made = tuple[str, str, dict[str, pd.DataFrame], Small]


def _made(reader: Reader, one: Evidence, need: Need) -> Made | None:
    if one.source_kind == "screening":
        return _screening(reader, one, need)
    if one.source_kind == "checkpoint":
        return _graded(reader, one)
    if one.source_kind == "indicator":
        return _indicator(reader, one)
    if one.source_kind == "exposure":
        return _exposure(reader, one)
    return _rates(reader, _missed(reader, one)) if one.source_kind == "miss" else None


def _missed(reader: Reader, one: Evidence) -> str:
    """The lift that the misses are of."""
    rows = reader.dossier.tables.misses
    lifts = rows.loc[(rows["file"] == one.file) & rows["line"].isin(one.lines), "lift"].mode()
    return str(lifts.iloc[0]) if len(lifts) else reader.lifts[0]


def _points(rows: Iterable[tuple[object, ...]]) -> pd.DataFrame:
    return _timed(tidy(_POINTS, rows), "x")


def _value(day: dt.date, value: str) -> str:
    return text("sketch.value", date=day, value=value)


def _timed(table: pd.DataFrame, *columns: str) -> pd.DataFrame:
    """Days of these columns as moments; numbers stay."""
    days = [c for c in columns if len(table) and isinstance(table[c].iloc[0], dt.date)]
    return table.assign(**{c: pd.to_datetime(table[c]).astype("datetime64[s]") for c in days})


def _days(first: dt.date, last: dt.date) -> Calendar:
    room = max((last - first) * 0.04, dt.timedelta(days=2))
    return Calendar(first=first - room, last=last + room)


def _screening(reader: Reader, one: Evidence, need: Need) -> Made | None:
    """A position over time: its readings with the spread of healthy people, else its grades."""
    if one.rule not in reader.trade.positions:
        return None
    position, rows = reader.trade.positions[one.rule], screened.read(reader, one.rule)
    if not rows:
        return _graded(reader, one)
    if len(rows) < 2 and position.lower is None:
        return None
    low, high = screened.room(position, rows)
    best = (max if position.higher_is_better else min)(rows, key=lambda row: row.value)
    points = _points(
        [
            (
                row.date,
                row.value,
                row.line,
                "fell" if row.fell else "right" if row.side == "right" else "left",
                None,
                None,
                _both(rows, row, position.unit) if row.date in (best.date, rows[-1].date) else "",
                _value(row.date, screened.said(row.value, position.unit)),
            )
            for row in rows
        ]
    )
    data = {"points": points}
    if position.lower is not None and position.higher_is_better:
        data["bands"] = tidy("low high label", [(position.lower, high, text("sketch.healthy"))])
    first = rows[0].date
    stop = next((e.dates[-1] for e in need.evidence if e.rule == "lapse_days" and e.dates), None)
    if stop is not None:
        data["events"] = _timed(pd.DataFrame({"x": [stop], "label": [text("sketch.stopped")]}), "x")
        first = min(first, stop)
    values = tuple(
        say("sketch.value", date=r.date, value=screened.said(r.value, position.unit)) for r in rows
    )
    title = text("sketch.reading.title", item=one.rule, unit=text(f"sketch.unit.{position.unit or 'none'}"))
    summary = text("sketch.summary", title=title, values=values)
    return title, summary, data, Small(low=low, high=high, days=_days(first, reader.facts.as_of))


def _both(rows: tuple[screened.Read, ...], row: screened.Read, unit: str) -> str:
    """The readings of a day, said at the highest of them, at the lowest where one fell."""
    that_day = [one for one in rows if one.date == row.date]
    if row != (min if row.fell else max)(that_day, key=lambda one: one.value):
        return ""
    values = dict.fromkeys(one.value for one in sorted(that_day, key=lambda one: one.side))
    return text(
        "sketch.beside", values=" | ".join(map(numbers.number, values)), unit=text(f"sketch.unit.{unit}")
    )


def _graded(reader: Reader, one: Evidence) -> Made | None:
    """Grades of a position or a checkpoint over time."""
    screening, technique = reader.facts.screening, reader.facts.technique
    rows: list[tuple[dt.date, str]] = []
    if one.source_kind == "screening" and screening is not None:
        from_file = reader.dossier.records.screening
        mine = from_file.loc[(from_file["item"] == one.rule) & (from_file["grade"] != "")]
        rows = [(as_day(day), str(grade)) for day, grade in zip(mine["date"], mine["grade"], strict=True)]
    elif technique is not None:
        lines = {fact for fact in technique.checkpoints if fact.checkpoint == one.rule}
        rows = sorted((g.date, g.grade) for fact in lines for g in fact.grades)
    ladder = GRADES[one.source_kind]
    rows = [(day, grade) for day, grade in rows if grade in ladder and day <= reader.facts.as_of]
    if len({day for day, _ in rows}) < 2:
        return None
    words = {
        grade: text(f"charts.mark.{grade}" if one.source_kind == "checkpoint" else f"positions.grade.{grade}")
        for grade in ladder
    }
    marks = dict(zip(ladder, GRADES["checkpoint"], strict=True))
    points = _points(
        (day, ladder.index(grade), "", marks[grade], None, None, "", _value(day, words[grade]))
        for day, grade in rows
    )
    values = tuple(say("sketch.value", date=day, value=words[grade]) for day, grade in rows)
    title = text("sketch.graded.title", item=one.rule)
    rungs = tuple((float(n), words[grade]) for n, grade in enumerate(ladder))
    options = Small(low=-0.6, high=2.6, rungs=rungs, days=_days(rows[0][0], reader.facts.as_of))
    return title, text("sketch.summary", title=title, values=values), {"points": points}, options


def _indicator(reader: Reader, one: Evidence) -> Made | None:
    """A lift's heaviest of each month against what usually goes with the goal; or what of the squat shows."""
    if one.rule == "squat_rise":
        return _expressed(reader)
    fact = next((i for i in reader.facts.indicators or () if i.id == one.rule), None)
    lift, level = (fact.lift, None) if fact is not None else (reader.lifts[0], None)
    implied = next((m for m in reader.facts.rep_maxes if m.date in one.dates), None)
    if fact is None and implied is None:
        return None
    if implied is not None and fact is None:
        lift, level = implied.lift, implied.implied_single_kg
    made = _months(reader, lift)
    if len(made) < 2:
        return None
    low_kg, high_kg = (fact.low_kg, fact.high_kg) if fact is not None else (None, None)
    drawn = [kg for _, kg in made] + [kg for kg in (low_kg, high_kg, level) if kg is not None]
    room = max(0.12 * (max(drawn) - min(drawn)), 1.0)
    present = None if fact is None else fact.current_kg
    named = next((day for day, kg in reversed(made) if kg == present), made[-1][0])
    rows = [
        (d, reader.number(kg), "one", "left", None, None, reader.say(kg) if d == named else "",
         _value(d, reader.say(kg)))
        for d, kg in made
    ]  # fmt: skip
    data = {"points": _points(rows)}
    top = reader.number(max(drawn) + room)
    if low_kg is not None:
        band = (reader.number(low_kg), top if high_kg is None else reader.number(high_kg))
        goal = reader.say(reader.targets.get(fact.goal_lift, 0.0)) if fact is not None else ""
        data["bands"] = tidy("low high label", [(*band, text("sketch.goes_with", goal=goal))])
    if level is not None and implied is not None:
        told = text("sketch.implied", reps=implied.reps, load=reader.say(level))
        data["levels"] = tidy("y label", [(reader.number(level), told)])
    title = text("sketch.lift.title", lift=lift)
    values = tuple(say("sketch.value", date=d, value=reader.say(kg)) for d, kg in made)
    options = Small(
        low=reader.number(min(drawn) - room), high=top, days=_days(made[0][0], reader.facts.as_of)
    )
    return title, text("sketch.summary", title=title, values=values), data, options


def _months(reader: Reader, lift: str) -> list[tuple[dt.date, float]]:
    """The heaviest made load of each month and its day [kg]."""
    sets = reader.dossier.tables.sets
    made = sets.loc[(sets["lift"] == lift) & (sets["made_reps"] > 0)]
    tops = made.loc[made.groupby(made["date"].dt.to_period("M"))["load_kg"].idxmax()]
    return [(as_day(day), float(kg)) for day, kg in zip(tops["date"], tops["load_kg"], strict=True)]


def _expressed(reader: Reader) -> Made | None:
    facts = reader.facts.expressed_strength or ()
    if len(facts) < 2:
        return None
    months = [(dt.date.fromisoformat(f"{f.month}-01"), f.share) for f in facts]
    rows = [
        (day, round(share, 4), "one", "left", None, None, "", text("sketch.share", date=day, share=share))
        for day, share in months
    ]
    shares = [share for _, share in months]
    room = max(0.1 * (max(shares) - min(shares)), 0.01)
    title = text("sketch.expressed.title")
    values = tuple(say("sketch.share", date=day, share=share) for day, share in months)
    options = Small(
        low=min(shares) - room, high=max(shares) + room, share=True, days=_days(months[0][0], months[-1][0])
    )
    return title, text("sketch.summary", title=title, values=values), {"points": _points(rows)}, options


def _exposure(reader: Reader, one: Evidence) -> Made | None:
    """A bar a week of what the rule counts, or every try near the limit by its day."""
    if one.rule == "limit_near_share":
        return _near(reader, one)
    weeks = reader.facts.exposure.weeks[-WEEKS:]
    if not weeks:
        return None
    what = COUNTED.get(one.rule, "full")
    counts = [(week.start, getattr(week, what) or 0) for week in weeks]
    bars = [
        (start, start + WEEK, many, text("sketch.week", start=start, n=many))
        for start, many in counts
        if many
    ]
    data = {"bars": tidy("start end y reading", bars)} if bars else {}
    top = float(max(3, *(many for _, many in counts)))
    if what == "full":
        wanted = reader.trade.value("full_per_week_wanted")
        data["levels"] = tidy("y label", [(wanted, text("sketch.wanted"))])
    title = text(f"sketch.weeks.{what}", lifts=reader.lifts)
    values = tuple(say("sketch.week", start=start, n=many) for start, many in counts)
    options = Small(low=0, high=top, days=Calendar(first=counts[0][0], last=counts[-1][0] + WEEK))
    return (title, text("sketch.summary", title=title, values=values), data, options) if data else None


def _near(reader: Reader, one: Evidence) -> Made | None:
    sets = reader.dossier.tables.sets
    days = pd.to_datetime(list(one.dates))
    first, last = days.min() - 4 * WEEK, days.max() + 4 * WEEK
    rows = sets.loc[
        sets["date"].between(first, last)
        & sets["lift"].isin(reader.lifts)
        & (sets["share"] >= reader.trade.value("heavy_share"))
        & (sets["tried"] > 0)
    ]
    if rows.empty:
        return None
    told = [
        (as_day(day), reader.number(kg), "", mark, None, None, "",
         text(f"sketch.near.{mark}", date=as_day(day), load=reader.say(kg)))
        for day, kg, made in zip(rows["date"], rows["load_kg"], rows["made_reps"] > 0, strict=True)
        for mark in ("made" if made else "missed",)
    ]  # fmt: skip
    heights = [row[1] for row in told]
    title = text("sketch.near.title", lifts=reader.lifts)
    summary = text("sketch.near.summary", title=title, made=sum(r[3] == "made" for r in told), n=len(told))
    ends = (max(as_day(first), told[0][0]), min(as_day(last), reader.facts.as_of))
    options = Small(low=min(heights) - 2, high=max(heights) + 2, days=_days(*ends))
    return title, summary, {"points": _points(told)}, options


def _rates(reader: Reader, lift: str) -> Made | None:
    """Made of tried by share of the best, with the range of each."""
    facts = [
        f
        for f in reader.facts.make_rates
        if f.lift == lift and f.rate is not None and (f.zone_low, f.zone_high) != (None, None)
    ]
    if len(facts) < 2:
        return None
    zones = tuple(load.zone(f.zone_low, f.zone_high) for f in facts)
    rows = [
        (
            n,
            round(f.rate or 0.0, 4),
            "",
            "made",
            f.rate_low,
            f.rate_high,
            text("sketch.rate", share=f.rate or 0.0),
            text("sketch.zone", zone=zones[n], **of(f)),
        )
        for n, f in enumerate(facts)
    ]
    title = text("sketch.rates.title", lift=lift)
    values = tuple(say("sketch.zone", zone=zone, **of(f)) for zone, f in zip(zones, facts, strict=True))
    low = min(0.5, *(f.rate_low or 0.0 for f in facts))
    options = Small(low=low, high=1.08, share=True, places=zones)
    return title, text("sketch.summary", title=title, values=values), {"points": _points(rows)}, options
