"""How often the lift was trained: weeks, sessions day by day, load and its spread."""

import datetime as dt
from collections.abc import Iterator
from typing import Final

import numpy as np
import pandas as pd

from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.view import pieces
from reportgen.view.options import Calendar
from reportgen.view.page import Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, as_day, load, of, portion, tally, tidy
from reportgen.words import listed, say, text, together

CALENDAR_WEEKS: Final = 26
WEEK: Final = dt.timedelta(days=7)
#: Weeks of the table; the facts hold them all.
MOST_WEEKS: Final = 40
#: Weeks that a question names.
MOST_NAMED: Final = 6


def section(reader: Reader) -> Section | None:
    """The section; None where exposure was not computed."""
    exposure = reader.facts.exposure
    if exposure is None:
        return None
    blocks = (weeks(reader, exposure), calendar(reader), *_questions(exposure))
    return pieces.section("exposure.section", "exposure", blocks, lifts=reader.lifts)


def _week_reading(week: WeekFact) -> str:
    key = ("trained" if week.sessions else "empty") + ("_away" if week.away else "")
    return text(f"exposure.week.{key}", **of(week))


def weeks(reader: Reader, exposure: ExposureFact) -> Figure | Paragraph:
    """Sessions with the full lift and with a derivative only, week by week."""
    facts = exposure.weeks
    if not facts:
        return pieces.paragraph("exposure.none.weeks")
    bars = [
        (week.start, week.start + WEEK, kind, low, low + many, _week_reading(week))
        for week in facts
        for kind, low, many in (("full", 0, week.full), ("derivative", week.full, week.derivative))
        if many
    ]
    grounds = gaps(facts)
    if not bars and grounds.empty:
        return pieces.paragraph("exposure.none.sessions", lifts=reader.lifts, weeks=len(facts))
    return pieces.figure(
        "exposure.weeks",
        "exposure-weeks",
        "exposure_weeks",
        {"bars": tidy("start end kind low high reading", bars), "grounds": grounds},
        _weeks_table(facts),
        options=Calendar(first=facts[0].start, last=facts[-1].start + WEEK),
        over_time=True,
        sentence=together(_said(reader, exposure)),
    )


def gaps(facts: tuple[WeekFact, ...]) -> pd.DataFrame:
    """Runs of weeks without any session: where each begins and ends, away or unexplained."""
    runs: list[list[WeekFact]] = []
    for week in facts:
        if week.sessions:
            continue
        last = runs[-1][-1] if runs else None
        if last is not None and last.start + WEEK == week.start and bool(last.away) == bool(week.away):
            runs[-1].append(week)
        else:
            runs.append([week])
    rows = []
    for run in runs:
        reading = _week_reading(run[0])
        if len(run) > 1:
            reading = text("exposure.week.more", reading=reading, more=len(run) - 1)
        rows.append((run[0].start, run[-1].start + WEEK, "away" if run[0].away else "empty", reading))
    return tidy("start end ground reading", rows)


def _said(reader: Reader, exposure: ExposureFact) -> Iterator[str]:
    """The sentences under the weeks."""
    full, derivative = exposure.mean_full_per_week, exposure.mean_derivative_per_week
    if full is not None:
        key = ("full" if full else "none") + ("_derivative" if derivative else "")
        yield text(f"exposure.mean.{key}", full=round(full, 1) or full, derivative=derivative or 0)
    without, away = exposure.weeks_without_full, exposure.weeks_without_full_away
    if without is not None:
        key = (
            "none" if not without else "some" if not away else "all_away" if away == without else "some_away"
        )
        yield text(f"exposure.without.{key}", without=without, weeks=len(exposure.weeks), away=away or 0)
    if exposure.longest_gap_days:
        yield text("exposure.without.longest", lifts=reader.lifts, gap_days=exposure.longest_gap_days)
    if heavy := last_single(exposure):
        yield heavy


def last_single(exposure: ExposureFact) -> str:
    """When the last heavy single was, or that there is none; "" where no best is known to judge by."""
    since = exposure.weeks_since_heavy_single
    if since is None:
        return ""
    # Where there never was one, the weeks count from the first day that could have held one.
    if not any(week.heavy_singles for week in exposure.weeks):
        blind = any(week.full and week.heavy_singles is None for week in exposure.weeks)
        return text("exposure.single.never_known" if blind else "exposure.single.never")
    return text("exposure.single.ago" if since else "exposure.single.this_week", weeks=since)


def _weeks_table(facts: tuple[WeekFact, ...]) -> Table:
    rows = (
        (
            week.start,
            week.sessions,
            tally(week.full, "" if week.full else "gap"),
            week.derivative,
            tally(week.heavy_singles),
            load(round(week.tonnage_kg)),
            portion(week.relative_load),
            week.away,
        )
        for week in facts[: -MOST_WEEKS - 1 : -1]
    )
    notes = ("note", "older") if len(facts) > MOST_WEEKS else ("note",)
    note = together(text(f"exposure.table.{name}") for name in notes)
    return pieces.table("exposure.table", rows, address="weeks", folded=True, note=note)


def _questions(exposure: ExposureFact) -> tuple[Paragraph, ...]:
    if not exposure.weeks_empty_unexplained:
        return ()
    which = tuple(week.start for week in exposure.weeks if not (week.sessions or week.away))
    key = f"exposure.unexplained.{'latest' if len(which) > MOST_NAMED else 'all'}"
    many = exposure.weeks_empty_unexplained
    return (pieces.paragraph(key, n=many, dates=which[-MOST_NAMED:], shown=MOST_NAMED),)


def calendar(reader: Reader) -> Figure | Paragraph:
    """The last half year day by day, one mark a kind of session."""
    as_of = reader.facts.as_of
    monday = as_of - dt.timedelta(days=as_of.weekday())
    first = monday - WEEK * (CALENDAR_WEEKS - 1)
    days = _day_kinds(reader, first)
    if days.empty:
        return pieces.paragraph("exposure.none.days", weeks=CALENDAR_WEEKS)
    counts = days["mark"].value_counts()
    told = tuple(
        say(f"exposure.days.{kind}", n=int(counts[kind]), lifts=reader.lifts)
        for kind in ("full", "derivative", "other", "test")
        if kind in counts
    )
    rows = (
        (as_day(each["week"].iloc[0]), "; ".join(each["short"]))
        for _, each in reversed(list(days.groupby("week", sort=True)))
    )
    return pieces.figure(
        "exposure.calendar",
        "calendar",
        "calendar",
        {"days": days.drop(columns="short"), "away": _away(reader, first)},
        pieces.table("exposure.calendar.table", rows, address="calendar-table", folded=True),
        options=Calendar(first=first - dt.timedelta(days=5), last=monday + WEEK),
        over_time=True,
        weeks=CALENDAR_WEEKS,
        days=told,
    )


def _day_kinds(reader: Reader, first: dt.date) -> pd.DataFrame:
    sets = reader.dossier.tables.sets
    rows = sets.loc[(sets["date"] >= pd.Timestamp(first)) & (sets["tried"] > 0)]
    per_day = pd.DataFrame(
        {
            "date": rows["date"],
            "full": rows["lift"].isin(reader.lifts),
            "derivative": rows["lift"].isin(reader.derived),
            "test": rows["kind"] != "training",
            "tried": rows["tried"],
        }
    )
    by_day = per_day.groupby("date")
    days = by_day[["full", "derivative", "test"]].any().assign(tried=by_day["tried"].sum())
    tests = {pd.Timestamp(d.date) for d in reader.facts.test_days or ()}
    test = days["test"] | days.index.isin(tests)
    days["mark"] = np.select(
        [test, days["full"], days["derivative"]], ["test", "full", "derivative"], "other"
    )
    days = days.reset_index()
    days["weekday"] = days["date"].dt.day_of_week
    days["week"] = days["date"] - pd.to_timedelta(days["weekday"], unit="D")
    what = {mark: text(f"exposure.what.{mark}", lifts=reader.lifts) for mark in days["mark"].unique()}
    told = days.assign(
        what=days["mark"].map(what), day=days["weekday"].map(dict(enumerate(listed("numbers.weekdays"))))
    )
    days["reading"] = reader.readings(told, "exposure.calendar.full")
    days["short"] = reader.readings(told, "exposure.calendar.short")
    return days[["date", "week", "weekday", "mark", "reading", "short"]]


def _away(reader: Reader, first: dt.date) -> pd.DataFrame:
    """One row a day away inside the calendar."""
    away = reader.dossier.records.away
    rows: list[tuple[object, ...]] = []
    for start, end, why in zip(away["from"], away["to"], away["reason"], strict=True):
        for moment in pd.date_range(max(as_day(start), first), min(as_day(end), reader.facts.as_of)):
            day = moment.date()
            monday = day - dt.timedelta(days=day.weekday())
            rows.append((day, monday, day.weekday(), text("exposure.calendar.away", date=day, why=why)))
    return tidy("date week weekday reading", rows)
