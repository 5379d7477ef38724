"""How often the lift was trained: weeks, sessions day by day, load and its spread."""

import datetime as dt
from collections.abc import Sequence
from typing import Final

import numpy as np
import pandas as pd

from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, as_day, load, plain, portion, tally, words
from reportgen.words import Phrase, numbers

CALENDAR_WEEKS: Final = 26
WEEK: Final = dt.timedelta(days=7)

#: Weeks of the table; the facts hold them all.
MOST_WEEKS: Final = 40


def section(reader: Reader) -> Section | None:
    """The section; None where exposure was not computed."""
    exposure = reader.facts.exposure
    if exposure is None:
        return None
    blocks: tuple[Block, ...] = (weeks(reader, exposure), calendar(reader), *_questions(exposure))
    return Section(
        id="exposure",
        title=f"How often the {reader.either} was trained",
        lead=(
            f"A full session holds at least one tried {reader.either} from the floor; a derivative session "
            "holds only lifts that derive from it. Once a week is the least, twice is wanted (common "
            "practice).",
        ),
        blocks=blocks,
    )


def _empty(week: WeekFact) -> bool:
    return week.sessions == 0 and not week.away


def _week_reading(week: WeekFact) -> str:
    if week.sessions == 0:
        return f"{numbers.week(week.start)}: no session" + (
            f", away ({week.away})" if week.away else ", unexplained"
        )
    return (
        f"{numbers.week(week.start)}: {numbers.count(week.sessions, 'session')}, {week.full} full, "
        f"{week.derivative} with a derivative only" + (f"; away ({week.away})" if week.away else "")
    )


def weeks(reader: Reader, exposure: ExposureFact) -> Figure | Paragraph:
    """Sessions with the full lift and with a derivative only, week by week."""
    facts = exposure.weeks
    if not facts:
        return Paragraph(text=("Not tested: the log holds no week.",))
    bars = []
    for week in facts:
        edges = (0, week.full, week.full + week.derivative)
        for kind, low, high in (("full", *edges[:2]), ("derivative", *edges[1:])):
            if high > low:
                bars.append((week.start, week.start + WEEK, kind, low, high, _week_reading(week)))
    grounds = gaps(facts)
    if not (bars or grounds):
        every = numbers.count(len(facts), "week")
        return Paragraph(
            text=(f"Not tested: no {reader.either} and nothing that derives from it in {every} of the log.",)
        )
    sentence = _weeks_sentence(reader, exposure)
    return Figure(
        id="exposure-weeks",
        title="Sessions a week",
        sentence=sentence,
        summary="A bar a week: sessions with the full lift, and on top those with a derivative only. Weeks "
        f"without any session have a grey ground. {plain(sentence, reader.unit)}",
        chart="exposure_weeks",
        data={
            "bars": _frame(bars, ("start", "end", "kind", "low", "high", "reading")),
            "grounds": _frame(grounds, ("start", "end", "ground", "reading")),
        },
        options={
            "top": max(3, max((w.full + w.derivative for w in facts), default=0)),
            "first": facts[0].start.isoformat(),
            "last": (facts[-1].start + WEEK).isoformat(),
        },
        table=_weeks_table(facts),
        over_time=True,
    )


def gaps(facts: tuple[WeekFact, ...]) -> list[tuple[object, ...]]:
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
    return [
        (
            run[0].start,
            run[-1].start + WEEK,
            "away" if run[0].away else "empty",
            _week_reading(run[0]) + (f", and {len(run) - 1} more like it" if len(run) > 1 else ""),
        )
        for run in runs
    ]


def _frame(rows: Sequence[tuple[object, ...]], columns: tuple[str, ...]) -> pd.DataFrame:
    frame = pd.DataFrame(rows, columns=list(columns))
    for column in ("start", "end", "date"):
        if column in frame:
            frame[column] = pd.to_datetime(frame[column]).astype("datetime64[s]")
    return frame


def _weeks_sentence(reader: Reader, exposure: ExposureFact) -> Phrase:
    parts = []
    if exposure.mean_full_per_week is not None:
        derivative = exposure.mean_derivative_per_week
        beside = f" and {numbers.number(derivative)} with a derivative only" if derivative else ""
        full = numbers.number(exposure.mean_full_per_week)
        sessions = "session" if full == "1" else "sessions"
        if not exposure.mean_full_per_week:
            only = f"; {numbers.number(derivative)} a week with a derivative only" if derivative else ""
            parts.append(f"No full session is in the log{only}.")
        else:
            parts.append(f"{full} full {sessions} a week on average{beside}.")
    if exposure.weeks_without_full is not None:
        away = exposure.weeks_without_full_away
        without = exposure.weeks_without_full
        part = "all" if away == without else f"{away}"
        explained = f", {part} of them explained by time away" if away else ""
        every = numbers.count(len(exposure.weeks), "week")
        if without:
            parts.append(f"{without} of {every} went by without the full lift{explained}.")
        else:
            parts.append("No week went by without the full lift.")
    if exposure.longest_gap_days:
        parts.append(
            f"The longest time without a {reader.either} was {numbers.days(exposure.longest_gap_days)}."
        )
    heavy = last_single(exposure)
    if heavy:
        parts.append(heavy)
    return (" ".join(parts),)


def last_single(exposure: ExposureFact) -> str:
    """When the last heavy single was, or that there is none; "" where no best is known to judge by."""
    since = exposure.weeks_since_heavy_single
    if since is None:
        return ""
    # Where there never was one, the weeks count from the first day that could have held one.
    if not any(week.heavy_singles for week in exposure.weeks):
        blind = any(week.full and week.heavy_singles is None for week in exposure.weeks)
        known = ", as far as the best was known" if blind else ""
        return f"No single was tried at 90 % or more of the best{known}."
    last = f"{numbers.count(since, 'week')} ago" if since else "this week"
    return f"The last single tried at 90 % or more of the best was {last}."


def _weeks_table(facts: tuple[WeekFact, ...]) -> Table:
    return Table(
        caption="Week by week, newest first",
        head=(
            "week",
            "sessions",
            "full",
            "derivative only",
            "heavy singles",
            "tonnage",
            "relative load",
            "away",
        ),
        rows=tuple(
            (
                words(numbers.day(w.start)),
                tally(w.sessions),
                tally(w.full, "" if w.full else "gap"),
                tally(w.derivative),
                tally(w.heavy_singles),
                load(round(w.tonnage_kg)),
                portion(w.relative_load),
                words(w.away),
            )
            for w in facts[: -MOST_WEEKS - 1 : -1]
        ),
        folded=True,
        id="weeks",
        note=(
            "Heavy singles are tried singles at 90 % or more of the best of the year before; relative load "
            "is the mean share of it over the repetitions from 60 % up."
            + (" Older weeks: `reportgen facts`." if len(facts) > MOST_WEEKS else ""),
        ),
    )


def _questions(exposure: ExposureFact) -> tuple[Block, ...]:
    if not exposure.weeks_empty_unexplained:
        return ()
    many = exposure.weeks_empty_unexplained
    which = [numbers.day(w.start) for w in exposure.weeks if _empty(w)]
    listed = numbers.listing(which[-6:]) + (" (the latest six)" if len(which) > 6 else "")
    asked = "what happened there?" if many > 1 else "what happened then?"
    return (
        Paragraph(
            text=(
                f"{numbers.sentence(numbers.count(many, 'week'))} without any session and without a reason in "
                f"away.csv, beginning {listed}: {asked}",
            )
        ),
    )


def calendar(reader: Reader) -> Figure | Paragraph:
    """The last half year day by day, one mark a kind of session."""
    as_of = reader.facts.as_of
    monday = as_of - dt.timedelta(days=as_of.weekday())
    first = monday - WEEK * (CALENDAR_WEEKS - 1)
    days = _day_kinds(reader, first)
    if days.empty:
        return Paragraph(text=(f"No session in the {CALENDAR_WEEKS} weeks before the review day.",))
    counts = days["kind"].value_counts()
    parts = [
        numbers.count(int(counts.get(kind, 0)), one, many)
        for kind, one, many in (
            (
                "full",
                f"day with the {reader.either} from the floor",
                f"days with the {reader.either} from the floor",
            ),
            ("derivative", "day with a derivative only", "days with a derivative only"),
            ("other", "day with other lifting only", "days with other lifting only"),
            ("test", "test day", "test days"),
        )
        if counts.get(kind, 0)
    ]
    sentence: Phrase = (f"In the last {CALENDAR_WEEKS} weeks: {numbers.listing(parts)}.",)
    away = _away(reader, first)
    return Figure(
        id="calendar",
        title="The last half year, day by day",
        sentence=sentence,
        summary=f"A row a weekday, a column a week. {plain(sentence, reader.unit)}",
        chart="calendar",
        data={"days": days, "away": away},
        options={"before": (first - dt.timedelta(days=5)).isoformat(), "last": (monday + WEEK).isoformat()},
        table=Table(
            caption="Training days of the last half year by week, newest first, with their repetitions",
            head=("week of", "days"),
            rows=tuple(
                (words(as_day(rows["week"].iloc[0])), words("; ".join(map(_short_day, rows["reading"]))))
                for _, rows in reversed(list(days.groupby("week", sort=True)))
            ),
            folded=True,
            id="calendar-table",
        ),
        over_time=True,
    )


def _short_day(reading: str) -> str:
    """A day of a week's row: "Wed a derivative only, 50" from "Wed 13 May 2026: ..., 50 repetitions"."""
    when, what = reading.split(": ", 1)
    return f"{when.split()[0]} {what.rsplit(' ', 1)[0]}"


def _day_kinds(reader: Reader, first: dt.date) -> pd.DataFrame:
    sets = reader.dossier.tables.sets
    rows = sets.loc[(sets["date"] >= pd.Timestamp(first)) & (sets["tried"] > 0)]
    derived = [n for n, lift in reader.trade.lifts.items() if set(lift.derives_from) & set(reader.lifts)]
    per_day = pd.DataFrame(
        {
            "date": rows["date"],
            "full": rows["lift"].isin(reader.lifts),
            "derivative": rows["lift"].isin(derived),
            "test": rows["kind"] != "training",
            "tried": rows["tried"],
        }
    )
    by_day = per_day.groupby("date")
    days = by_day[["full", "derivative", "test"]].any().assign(tried=by_day["tried"].sum())
    tests = {pd.Timestamp(d.date) for d in reader.facts.test_days or ()}
    test = days["test"] | days.index.isin(tests)
    days["kind"] = np.select(
        [test, days["full"], days["derivative"]], ["test", "full", "derivative"], "other"
    )
    days = days.reset_index()
    days["week"] = days["date"] - pd.to_timedelta(days["date"].dt.day_of_week, unit="D")
    days["weekday"] = days["date"].dt.day_of_week
    said = {
        "test": "test day",
        "full": f"{reader.either} from the floor",
        "derivative": "a derivative only",
        "other": "other lifting",
    }
    days["reading"] = [
        f"{numbers.weekday(as_day(d))}: {said[k]}, {numbers.count(int(n), 'repetition')}"
        for d, k, n in zip(days["date"], days["kind"], days["tried"], strict=True)
    ]
    return days[["date", "week", "weekday", "kind", "reading"]]


def _away(reader: Reader, first: dt.date) -> pd.DataFrame:
    """One row a day away inside the calendar."""
    away = reader.dossier.records.away
    rows: list[tuple[object, ...]] = []
    for start, end, reason in zip(away["from"], away["to"], away["reason"], strict=True):
        day = max(as_day(start), first)
        while day <= min(as_day(end), reader.facts.as_of):
            monday = day - dt.timedelta(days=day.weekday())
            rows.append((day, monday, day.weekday(), f"{numbers.weekday(day)}: away ({reason})"))
            day += dt.timedelta(days=1)
    frame = _frame(rows, ("date", "week", "weekday", "reading"))
    frame["week"] = pd.to_datetime(frame["week"]).astype("datetime64[s]")
    return frame
