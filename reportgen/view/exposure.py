"""How often the lift was trained, week by week."""

import datetime as dt
from collections.abc import Iterator
from typing import Final

import pandas as pd

from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.view import pieces
from reportgen.view.page import Paragraph, Table
from reportgen.view.reader import Reader, load, of, portion, tally, tidy
from reportgen.words import text, together

WEEK: Final = dt.timedelta(days=7)
#: Weeks of the table; the facts hold them all.
MOST_WEEKS: Final = 40
#: Weeks that a question names.
MOST_NAMED: Final = 6


def _week_reading(week: WeekFact) -> str:
    key = ("trained" if week.sessions else "empty") + ("_away" if week.away else "")
    return text(f"exposure.week.{key}", **of(week))


def bars(facts: tuple[WeekFact, ...]) -> pd.DataFrame:
    """Sessions with the full lift, and on top those with a derivative only, week by week."""
    rows = [
        (week.start, week.start + WEEK, kind, low, low + many, _week_reading(week))
        for week in facts
        for kind, low, many in (("full", 0, week.full), ("derivative", week.full, week.derivative))
        if many
    ]
    return tidy("start end kind low high reading", rows)


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


def said(reader: Reader, exposure: ExposureFact) -> Iterator[str]:
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


def weeks_table(facts: tuple[WeekFact, ...]) -> Table:
    """The weeks as a table, newest first."""
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


def questions(exposure: ExposureFact) -> tuple[Paragraph, ...]:
    """Empty weeks that nothing explains."""
    if not exposure.weeks_empty_unexplained:
        return ()
    which = tuple(week.start for week in exposure.weeks if not (week.sessions or week.away))
    key = f"exposure.unexplained.{'latest' if len(which) > MOST_NAMED else 'all'}"
    many = exposure.weeks_empty_unexplained
    return (pieces.paragraph(key, n=many, dates=which[-MOST_NAMED:], shown=MOST_NAMED),)
