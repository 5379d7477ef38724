"""What each year, or the span asked for, held: the archive's figures."""

import datetime as dt
from typing import Final, Literal

import numpy as np
import pandas as pd

from reportgen.analysis.exposure import heavy_singles, monday
from reportgen.analysis.frames import plain
from reportgen.analysis.goals import PAIR
from reportgen.analysis.misses import rates
from reportgen.analysis.when import date_of, stamp, to_days, upto
from reportgen.model.peaks import TestDayFact
from reportgen.model.records import Records
from reportgen.model.say import say
from reportgen.model.season import (
    AttendanceFact,
    ContestFact,
    LiftResult,
    MassFact,
    MonthBest,
    SeasonFact,
    TriedFact,
)
from reportgen.model.values import dataclass
from reportgen.trade.formulas import (
    attempt_faults,
    best_attempt,
    contest_total,
    cycle_without_sinclair,
    sinclair_coefficient,
    sinclair_row,
)
from reportgen.trade.schema import Trade

Tries = list[tuple[float, bool]]
UNEXPLAINED = "not explained"
#: What is asked of a set: a long log has three times as many columns.
_ASKED: Final = [
    *("kind", "event", "date", "lift", "attempt", "line", "tried", "made_reps", "load_kg"),
    *("share", "single", "counts", "reference_kg"),
]
#: What is asked of an attempt.
_ATTEMPT: Final = ["kind", "event", "date", "lift", "attempt", "line", "tried", "made_reps", "load_kg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What the seasons are summed up from: prepared sets up to the review day, and the goal's lifts."""

    sets: pd.DataFrame
    #: For body mass, days away, standards and the review day; later readings are left out here.
    records: Records
    tests: tuple[TestDayFact, ...] | None  # test days with their tapers; None = not computable
    lifts: tuple[str, ...]


def sum_up(given: Given, trade: Trade, span: tuple[dt.date, dt.date] | None) -> tuple[SeasonFact, ...] | None:
    """Each calendar year of the log, or the one span asked for.

    Returns:
        By time; None for an empty log.

    References:
        IWF, Technical and Competition Rules; The Sinclair Coefficients. Wilson 1927.
    """
    if given.sets.empty:
        return None
    end = given.records.as_of
    if span is not None:
        spans = [(f"{span[0]} to {span[1]}", span[0], min(span[1], end))]
    else:
        years = range(given.sets["date"].min().year, end.year + 1)
        spans = [(str(year), dt.date(year, 1, 1), min(dt.date(year, 12, 31), end)) for year in years]
    rows = _rows(given, spans[0][1], spans[-1][2], trade, yearly=span is None)
    return tuple(_season(given, rows, *one, trade) for one in spans)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rows:
    """What every season is counted from, made once for all of them: the columns that are looked at.

    Attributes:
        mine: Sets of the goal's lifts.
        heavy: Their heavy singles.
        attempts: `_events`.
        best: The heaviest made load of each month and lift.
        sessions: Sessions by the week's Monday, of the whole log.
    """

    mine: pd.DataFrame
    heavy: pd.DataFrame
    attempts: pd.DataFrame
    best: tuple[MonthBest, ...]
    sessions: "pd.Series[int]"


def _rows(given: Given, start: dt.date, end: dt.date, trade: Trade, *, yearly: bool) -> _Rows:
    sets = _inside(given.sets[_ASKED], start, end)
    mine = sets.loc[sets["lift"].isin(given.lifts)]
    heavy = heavy_singles(mine, given.lifts, trade)
    return _Rows(
        mine=mine[["date", "reference_kg"]],
        heavy=heavy[["date", "made_reps", "tried"]],
        attempts=_events(sets.loc[sets["kind"] != "training", _ATTEMPT], trade, yearly=yearly),
        best=_bests(mine),
        sessions=given.sets.groupby("week")["session_id"].nunique(),
    )


def _season(given: Given, rows: _Rows, label: str, start: dt.date, end: dt.date, trade: Trade) -> SeasonFact:
    tests = given.tests
    attempts, heavy = (_inside(table, start, end) for table in (rows.attempts, rows.heavy))
    openers = attempts.loc[(attempts["attempt"] == 1) & (attempts["tried"] > 0)]
    first, last = str(start)[:7], str(end)[:7]
    known = _inside(rows.mine, start, end)["reference_kg"].notna().any()
    return SeasonFact(
        label=label,
        start=start,
        end=end,
        test_days=None if tests is None else tuple(test for test in tests if start <= test.date <= end),
        bests=tuple(one for one in rows.best if first <= one.month <= last),
        body_mass=_mass(_inside(given.records.bodymass, start, end)),
        attendance=_attendance(given, rows.sessions, start, end),
        heavy_singles=_tried(heavy, trade) if known else None,
        openers=_tried(openers, trade),
        contests=tuple(_contest(one, given, trade) for _, one in attempts.groupby("meet", sort=True)),
    )


def _events(attempts: pd.DataFrame, trade: Trade, *, yearly: bool) -> pd.DataFrame:
    """Attempts numbered as they were taken, each with the number of its contest or test (`meet`, by date).

    Days of one name and kind that lie next to one another are one event: a lift on each day; with `yearly` a
    new year begins another. Where the file gives no numbers, the order of its rows is that of the attempts.
    """
    if attempts.empty:
        return attempts.assign(meet=0)
    rows = attempts.sort_values(["kind", "event", "date", "lift", "attempt", "line"], kind="stable")
    lift = [rows[name] for name in ("kind", "event", "date", "lift")]
    place = rows.groupby(lift, sort=False).cumcount() + 1
    rows = rows.assign(attempt=rows["attempt"].where(rows["attempt"] > 0, place))
    day = to_days(rows["date"])
    same = (rows[["kind", "event"]] == rows[["kind", "event"]].shift()).all(axis=1).to_numpy()
    named = (rows["event"] != "").to_numpy()
    apart = np.diff(day, prepend=day[:1]) > np.where(named, trade.value("event_days_apart"), 0)
    if yearly:
        year = rows["date"].dt.year.to_numpy()
        apart |= np.diff(year, prepend=year[:1]) != 0
    first = np.where(~same | apart, day, -1)
    start = pd.Series(first).where(first >= 0).ffill().to_numpy()
    order = pd.DataFrame({"start": start, "kind": rows["kind"].array, "event": rows["event"].array})
    return rows.assign(meet=order.groupby(["start", "kind", "event"], sort=True).ngroup().array)


def _inside(table: pd.DataFrame, start: dt.date, end: dt.date) -> pd.DataFrame:
    day = table["date"].to_numpy()
    return table.loc[(day >= stamp(start).to_numpy()) & (day <= stamp(end).to_numpy())]


def _bests(sets: pd.DataFrame) -> tuple[MonthBest, ...]:
    """The heaviest made load of each month and lift; the first day of equal ones."""
    rows = sets.loc[sets["counts"] & (sets["made_reps"] > 0), ["date", "lift", "load_kg", "kind"]]
    best: dict[tuple[str, str], MonthBest] = {}
    for date, lift, kg, kind in plain(rows):
        month = str(date)[:7]
        if (month, lift) not in best or kg > best[month, lift].kg:
            best[month, lift] = MonthBest(month=month, lift=lift, kg=kg, date=date.date(), where=kind)
    return tuple(one for _, one in sorted(best.items()))


def _mass(rows: pd.DataFrame) -> MassFact | None:
    if rows.empty:
        return None
    ordered = rows.sort_values("date", kind="stable")
    months = ordered.groupby(ordered["date"].dt.strftime("%Y-%m"), sort=True)["mass_kg"].median()
    kg = ordered["mass_kg"]
    return MassFact(
        months=tuple((str(month), float(value)) for month, value in months.items()),
        first_kg=float(kg.iloc[0]),
        last_kg=float(kg.iloc[-1]),
        low_kg=float(kg.min()),
        high_kg=float(kg.max()),
    )


def _attendance(
    given: Given, sessions: "pd.Series[int]", start: dt.date, end: dt.date
) -> AttendanceFact | None:
    """ISO weeks of the span that lie in the log. A week on its edge counts where its Thursday does."""
    first = max(monday(stamp(start)), monday(given.sets["date"].min()))
    weeks = pd.date_range(first, monday(stamp(end)), freq="7D", unit="s")
    thursday = weeks + pd.Timedelta(days=3)
    newest = monday(stamp(given.records.as_of))
    # The week that is going on has no Thursday yet perhaps; it belongs to the year of its days.
    own = ((thursday >= stamp(start)) & (thursday <= stamp(end))) | (
        (weeks == newest) & (thursday > stamp(end)) & (thursday.year == end.year)
    )
    weeks = weeks[own]
    if not len(weeks):
        return None
    sessions = sessions.reindex(weeks, fill_value=0)
    lost: dict[str, int] = {}
    for reason in _reasons(given.records.away, weeks[sessions.to_numpy() == 0]):
        lost[reason] = lost.get(reason, 0) + 1
    return AttendanceFact(
        weeks=len(weeks),
        weeks_trained=int((sessions > 0).sum()),
        sessions=int(sessions.sum()),
        sessions_per_week=float(sessions.mean()),
        weeks_lost=dict(sorted(lost.items())),
    )


def _reasons(away: pd.DataFrame, weeks: pd.DatetimeIndex) -> list[str]:
    """The reason that covers most days of each week; of equal ones the first by name."""
    names = sorted(set(away["reason"]))
    if not names:
        return [UNEXPLAINED] * len(weeks)
    first = to_days(weeks.to_series())[:, None]
    begin, until = to_days(away["from"])[None, :], to_days(away["to"])[None, :]
    days = (np.minimum(until, first + 6) - np.maximum(begin, first) + 1).clip(min=0)
    reason = away["reason"].to_numpy()
    covered = np.stack([days[:, reason == name].sum(axis=1) for name in names], axis=1)
    # One text a week, however many years of the log are empty.
    return [
        (names[most] or UNEXPLAINED) if found else UNEXPLAINED
        for most, found in zip(
            covered.argmax(axis=1).tolist(), (covered.max(axis=1) > 0).tolist(), strict=True
        )
    ]


def _tried(rows: pd.DataFrame, trade: Trade) -> TriedFact:
    return TriedFact(**rates(int(rows["made_reps"].sum()), int(rows["tried"].sum()), trade))


def _contest(rows: pd.DataFrame, given: Given, trade: Trade) -> ContestFact:
    """One contest or test day: best of each lift, total, Sinclair total."""
    kind: Literal["contest", "test"] = rows["kind"].iloc[0]
    day = date_of(int(to_days(rows["date"]).min()))
    ordered = rows.sort_values(["date", "attempt", "line"], kind="stable")
    lifts = [lift for lift in PAIR if (rows["lift"] == lift).any()]
    lifts += sorted(set(rows["lift"]) - set(PAIR))
    tries = {lift: _tries(ordered.loc[ordered["lift"] == lift]) for lift in lifts}
    taken = {lift: int((rows.loc[rows["lift"] == lift, "tried"] > 0).sum()) for lift in lifts}
    all_called = {lift: int((rows["lift"] == lift).sum()) for lift in lifts}
    most = int(trade.value("attempts_a_lift"))
    total = contest_total(*(tries.get(lift, []) for lift in PAIR))
    mass_kg, mass_date = _weighed(given.records.bodymass, day, given.records.as_of, trade)
    row = sinclair_row(day.year, given.records.lifter.standards, trade)
    return ContestFact(
        date=day,
        kind=kind,
        event=str(rows["event"].iloc[0]),
        lifts=tuple(
            LiftResult(
                lift=lift,
                attempts=taken[lift],
                best_kg=best_attempt(tries[lift]),
                # Declined ones are used up, too.
                bombed=all_called[lift] >= most and not any(made for _, made in tries[lift]),
            )
            for lift in lifts
        ),
        total_kg=total,
        body_mass_kg=mass_kg,
        body_mass_date=mass_date,
        sinclair_kg=total * sinclair_coefficient(mass_kg, row) if total and mass_kg and row else None,
        sinclair_missing=(
            "total" if not total else "coefficients" if row is None else "" if mass_kg else "body mass"
        ),
        sinclair_cycle="" if not total else row.cycle if row else cycle_without_sinclair(day.year, trade),
        sinclair_borrowed=bool(row and total and row.last_year < day.year),
        faults=tuple(
            say("analysis.fault.of_lift", lift=lift, fault=fault)
            for lift in lifts
            if kind == "contest"
            for fault in attempt_faults(tries[lift], trade, day)
        ),
    )


def _tries(rows: pd.DataFrame) -> Tries:
    taken = rows.loc[rows["tried"] > 0]
    return [
        (float(kg), bool(made > 0)) for kg, made in zip(taken["load_kg"], taken["made_reps"], strict=True)
    ]


def _weighed(
    bodymass: pd.DataFrame, day: dt.date, as_of: dt.date, trade: Trade
) -> tuple[float | None, dt.date | None]:
    """The body mass weighed nearest to a day, the one before where two are as near."""
    rows = upto(bodymass, as_of)
    if rows.empty:
        return None, None
    off = (rows["date"] - stamp(day)).dt.days.to_numpy()
    place = int(np.lexsort((off, np.abs(off)))[0])
    if abs(int(off[place])) > trade.value("weigh_in_days"):
        return None, None
    return float(rows["mass_kg"].iloc[place]), day + dt.timedelta(days=int(off[place]))
