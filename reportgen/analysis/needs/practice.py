"""Signs of the training log: how often, how heavy, gaps, heavy days close together, tapers; and youth.

What away.csv explains stands beside a finding and never makes or silences one.
"""

import datetime as dt
from collections.abc import Iterator

import pandas as pd

from reportgen.analysis import trust
from reportgen.analysis.exposure import heavy_singles, is_full
from reportgen.analysis.needs import wording
from reportgen.analysis.needs.signs import Given, Sign, evidence
from reportgen.analysis.needs.wording import Value
from reportgen.model.facts import WeekFact
from reportgen.model.findings import Evidence, Worded

KIND = "exposure"
Values = dict[str, Value | Worded]


def read(given: Given) -> Iterator[Sign]:
    """Signs of how the lift was trained."""
    sets = given.tables.sets
    if sets.empty or given.facts.exposure is None:
        return
    full = sets.loc[is_full(sets, given.lifts)]
    trained = _trained(given)
    yield from _gap(given)
    yield from _often(given, trained, full)
    yield from _without(given, trained)
    yield from _singles(given, full)
    yield from _chase(given)
    yield from _taper(given)
    if not trust.old_enough(given.records, given.trade):
        who = given.records.lifter
        born: Values = {"born": str(who.born) if who.born is not None else who.born_found}
        shown = evidence(given, "youth", born, file="lifter.toml", rule="youth_age")
        yield Sign(key="youth", kind="", name=("youth",), evidence=(shown,))


def named(given: Given) -> str:
    """The goal lift as a sentence names it."""
    return " or ".join(given.lifts)


def _trained(given: Given) -> list[WeekFact]:
    """The whole weeks of the last twelve that hold any training."""
    assert given.facts.exposure is not None
    first = given.as_of - dt.timedelta(weeks=given.value("full_weeks"))
    week = dt.timedelta(days=6)
    return [
        one for one in given.facts.exposure.weeks
        if one.sessions > 0 and one.start > first and one.start + week <= _whole_until(given)
    ]  # fmt: skip


def _whole_until(given: Given) -> dt.date:
    """The last day that counts as the end of a whole week: a log that ends on a Saturday ends a week."""
    return given.as_of + dt.timedelta(days=1) if given.as_of.weekday() == 5 else given.as_of


def _often(given: Given, trained: list[WeekFact], full: pd.DataFrame) -> Iterator[Sign]:
    if len(trained) < given.value("full_weeks_least"):
        return
    count = sum(week.full for week in trained)
    mean = count / len(trained)
    if mean >= given.value("full_under_wanted") - 1e-9:
        return
    since = trained[0].start
    mine = full.loc[full["date"] >= pd.Timestamp(since)].drop_duplicates("session_id")
    values: Values = {
        "lift": named(given),
        "sessions": f"{count or 'no'} {'session' if count == 1 else 'sessions'}",
        "weeks": len(trained),
        "full": count,
        "since": since,
    }
    # A log without any such session in these weeks points at the rows that were there instead.
    rows = mine if len(mine) else given.tables.sets.loc[given.tables.sets["date"] >= pd.Timestamp(since)]
    rows = rows.drop_duplicates("session_id")
    shown = evidence(
        given, "few_full", values, file=_fullest(rows), rule="full_per_week_least", kind=KIND,
        lines=rows.loc[rows["file"] == _fullest(rows), "line"], dates=[one.date() for one in rows["date"]],
    )  # fmt: skip
    key = "few_full" if mean < given.value("full_per_week_least") - 1e-9 else "under_wanted"
    yield Sign(key=key, kind=KIND, name=(named(given),), evidence=(shown,), values=values)


def _fullest(rows: pd.DataFrame) -> str:
    """The file of the log that holds most of these rows: a log in many files is told by one of them."""
    files = rows.loc[rows["kind"] == "training", "file"]
    return str(files.value_counts().sort_index(kind="stable").idxmax()) if len(files) else "training.csv"


def _without(given: Given, trained: list[WeekFact]) -> Iterator[Sign]:
    """The longest run of trained weeks without the full lift; empty weeks neither break nor lengthen it."""
    runs: list[list[WeekFact]] = [[]]
    for week in trained:
        if week.full:
            runs.append([])
        else:
            runs[-1].append(week)
    run = max(runs, key=len)
    if len(run) < given.value("without_full_run"):
        return
    values: Values = {"weeks": len(run), "start": run[0].start, "lift": named(given)}
    sets = given.tables.sets
    last = run[-1].start + dt.timedelta(days=6)
    rows = sets.loc[sets["date"].between(pd.Timestamp(run[0].start), pd.Timestamp(last))]
    rows = rows.drop_duplicates("session_id")
    shown = evidence(
        given, "without", values, file=_fullest(rows), rule="without_full_run", kind=KIND,
        lines=rows.loc[rows["file"] == _fullest(rows), "line"], dates=[one.date() for one in rows["date"]],
    )  # fmt: skip
    yield Sign(key="without", kind=KIND, name=(named(given),), evidence=(shown,), values=values)


def _singles(given: Given, full: pd.DataFrame) -> Iterator[Sign]:
    """No single at 90 % and over for weeks in which the lift was done."""
    assert given.facts.exposure is not None
    weeks = given.facts.exposure.weeks_since_heavy_single
    if weeks is None or weeks < given.value("no_single_weeks"):
        return
    sets = given.tables.sets
    heavy = heavy_singles(sets, given.lifts, given.trade)
    last = heavy.loc[heavy["date"] == heavy["date"].max()] if len(heavy) else full.iloc[:0]
    after = full.loc[full["date"] > last["date"].max()] if len(last) else full
    if after.empty:
        return
    said: Worded = ("none in the log",)
    if len(last):
        said = (float(last["load_kg"].max()), f" on {wording.day(last['date'].max().date())}")
    values: Values = {"weeks": weeks, "last": said}
    rows = pd.concat([last, after.sort_values("load_kg").iloc[-1:]])
    shown = [
        evidence(
            given, "no_singles", values, file=str(file), rule="no_single_weeks", kind=KIND,
            lines=part["line"], dates=[one.date() for one in part["date"]],
        )
        for file, part in rows.groupby("file", sort=True)
    ]  # fmt: skip
    yield Sign(key="no_singles", kind=KIND, name=(named(given),), evidence=tuple(shown), values=values)


def _gap(given: Given) -> Iterator[Sign]:
    """A gap of three weeks or more without any training that ended a short time ago."""
    sets = given.tables.sets
    days = sets["date"].drop_duplicates().sort_values(ignore_index=True)
    apart = days.diff().dt.days
    recent = days > pd.Timestamp(given.as_of) - pd.Timedelta(days=given.value("return_recent_days"))
    found = apart.loc[recent & (apart > given.value("return_gap_days"))]
    if found.empty:
        return
    place = int(found.index[-1])
    last, back = days[place - 1], days[place]
    values: Values = {"gap_days": int(apart[place]) - 1, "last": last.date(), "back": back.date()}
    rows = sets.loc[sets["date"].isin([last, back])].drop_duplicates("date")
    shown = [
        evidence(
            given, "gap", values, file=str(file), rule="return_gap_days", kind=KIND,
            lines=part["line"], dates=[one.date() for one in part["date"]],
        )
        for file, part in rows.groupby("file", sort=True)
    ]  # fmt: skip
    yield Sign(
        key="gap", kind=KIND, name=("time away",), evidence=(*shown, *_away(given, last, back)), values=values
    )


def _away(given: Given, last: pd.Timestamp, back: pd.Timestamp) -> Iterator[Evidence]:
    away = given.records.away
    for cells in away.loc[(away["to"] >= last) & (away["from"] <= back)].to_dict("records"):
        values: Values = {"reason": cells["reason"], "start": cells["from"].date(), "end": cells["to"].date()}
        yield evidence(
            given, "away", values, file=str(cells["file"]), rule="away_weeks", kind="",
            lines=(int(cells["line"]),), dates=(cells["from"].date(), cells["to"].date()),
        )  # fmt: skip


def _chase(given: Given) -> Iterator[Sign]:
    first = given.as_of - dt.timedelta(days=given.value("chase_recent_days"))
    found = [fact for fact in given.facts.chases or () if fact.end >= first]
    if not found:
        return
    fact, words = found[-1], given.claims.drawn
    values: Values = {
        "heavy_days": fact.heavy_days,
        "missed_days": fact.missed_days,
        "start": fact.start,
        "end": fact.end,
        "gained": (fact.gain_kg, words["gained"]) if fact.gain_kg > 0 else words["flat"],
    }
    sets = given.tables.sets
    rows = sets.loc[
        sets["lift"].isin(given.lifts) & (sets["share"] >= given.value("chase_share")) & (sets["tried"] > 0)
        & sets["date"].between(pd.Timestamp(fact.start), pd.Timestamp(fact.end))
    ]  # fmt: skip
    shown = [
        evidence(
            given, "chase", values, file=str(file), rule="chase_heavy_days", kind=KIND,
            lines=part["line"], dates=[one.date() for one in part["date"]],
        )
        for file, part in rows.groupby("file", sort=True)
    ]  # fmt: skip
    yield Sign(key="chase", kind=KIND, name=(named(given),), evidence=tuple(shown), values=values)


def _taper(given: Given) -> Iterator[Sign]:
    """The last test day after a long taper that gave nothing new."""
    first = given.as_of - dt.timedelta(days=given.value("taper_recent_days"))
    days = [fact for fact in given.facts.test_days or () if fact.date >= first and fact.lift in given.lifts]
    for fact in reversed(days):
        taper = fact.taper
        gave = fact.gain_kg is not None and fact.gain_kg > 0 and not fact.noise
        if taper is None or taper.days is None or gave or fact.gain_missing or not taper.prolonged:
            continue
        values: Values = {
            "test_day": fact.date,
            "event": fact.event or "Test day",
            "drawn": given.claims.drawn[taper.prolonged],
            "taper_days": taper.days,
            "cut": wording.percent(taper.volume_cut or 0.0),
            "best": (fact.best_kg,) if fact.best_kg is not None else "none",
            "before": (fact.previous_best_kg,) if fact.previous_best_kg is not None else "none",
        }
        sets = given.tables.sets
        rows = sets.loc[(sets["date"] == pd.Timestamp(fact.date)) & (sets["lift"] == fact.lift)]
        shown = [
            evidence(
                given, "long_taper", values, file=str(file), rule="taper_long_days", kind=KIND,
                lines=part["line"], dates=(fact.date, *((taper.start,) if taper.start else ())),
            )
            for file, part in rows.groupby("file", sort=True)
        ]  # fmt: skip
        yield Sign(key="long_taper", kind=KIND, name=(fact.lift,), evidence=tuple(shown), values=values)
        return
