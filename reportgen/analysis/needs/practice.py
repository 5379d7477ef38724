"""Signs of the training log: how often, how heavy, gaps, limits, jumps of the load, tapers; and youth.

What away.csv explains stands beside a finding and never makes or silences one.
"""

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pandas as pd

from reportgen.analysis import bests, chases, trust
from reportgen.analysis.exposure import heavy_singles, is_full
from reportgen.analysis.goals import lifts_of
from reportgen.analysis.needs.signs import Given, Sign, Values, by_file, evidence
from reportgen.analysis.when import to_days
from reportgen.model.facts import WeekFact
from reportgen.model.findings import Evidence
from reportgen.model.peaks import TestDayFact
from reportgen.model.say import Value, say

KIND = "exposure"
SOURCE = "log"


def read(given: Given) -> Iterator[Sign]:
    """Signs of how the lift was trained."""
    sets = given.tables.sets
    if sets.empty:
        return
    full = is_full(sets, given.lifts)
    trained = _trained(given)
    yield from _gap(given)
    # A log of squats and presses alone is a part of a log: the lifts may stand in another book.
    families = {one.family for one in given.trade.lifts.values() if one.role == "goal"}
    if any(given.trade.lifts[lift].family in families for lift in {*sets["lift"].tolist()}):
        yield from _often(given, trained, full)
        yield from _without(given, trained)
    # What rests on shares of the best says nothing where the best may be a slip of the pen.
    if not given.doubted:
        yield from _singles(given, full)
        yield from _limits(given)
    yield from _jump(given)
    yield from _taper(given)
    if not trust.old_enough(given.records, given.trade):
        yield Sign(key="youth", source="")


def _sign(
    key: str,
    values: Values,
    rows: pd.DataFrame,
    rule: str,
    *,
    size: float = 1.0,
    name: str = "",
    template: str = "",
    dates: tuple[dt.date, ...] = (),
) -> Sign:
    """A sign that rests on some rows of the log."""
    shown = by_file(template or key, values, rows, rule=rule, kind=KIND, dates=dates)
    return Sign(key=key, source=SOURCE, size=size, name=name, values=values, evidence=shown)


def named(given: Given) -> str:
    """The goal lift as a sentence names it."""
    return " or ".join(given.lifts)


def _trained(given: Given) -> list[WeekFact]:
    """The whole weeks of the last twelve that hold any training."""
    first = given.as_of - dt.timedelta(weeks=given.value("full_weeks"))
    week = dt.timedelta(days=6)
    return [
        one for one in given.facts.exposure.weeks
        if one.sessions > 0 and one.start > first and one.start + week <= _whole_until(given)
    ]  # fmt: skip


def _whole_until(given: Given) -> dt.date:
    """The last day that counts as the end of a whole week: a log that ends on a Saturday ends a week."""
    return given.as_of + dt.timedelta(days=1) if given.as_of.weekday() == 5 else given.as_of


def _often(given: Given, trained: list[WeekFact], full: np.ndarray) -> Iterator[Sign]:
    if len(trained) < given.value("full_weeks_least"):
        return
    count = sum(week.full for week in trained)
    mean = count / len(trained)
    if mean >= given.value("full_under_wanted") - 1e-9:
        return
    since = pd.Timestamp(trained[0].start)
    values: Values = {
        "lift": named(given),
        "sessions": count,
        "weeks": len(trained),
        "since": trained[0].start,
    }
    # A log without any such session in these weeks points at the rows that were there instead.
    sets = given.tables.sets
    late = (sets["date"] >= since).to_numpy()
    rows = sets.loc[late & full if (late & full).any() else late]
    least = given.value("full_per_week_least")
    few = mean < least - 1e-9
    size = given.value("few_full_least") + given.value("few_full_more") * (1 - mean / least) if few else 1.0
    rows, key = _a_session(rows), "few_full" if few else "under_wanted"
    yield _sign(key, values, rows, "full_per_week_least", size=size, name=named(given), template="few_full")


def _a_session(rows: pd.DataFrame) -> pd.DataFrame:
    """A row a session, the same whatever order they stand in: no squat where something else was done."""
    ordered = rows.sort_values(["lift", "load_kg", "reps", "made", "tried"], ascending=False, kind="stable")
    return ordered.drop_duplicates("session_id").sort_values("date", kind="stable")


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
    rows = _a_session(rows)
    yield _sign("without", values, rows, "without_full_run", name=named(given))


def _singles(given: Given, full: np.ndarray) -> Iterator[Sign]:
    """No single at 90 % and over for weeks in which the lift was done."""
    weeks = given.facts.exposure.weeks_since_heavy_single
    if weeks is None or weeks < given.value("no_single_weeks"):
        return
    sets = given.tables.sets
    heavy = heavy_singles(sets, given.lifts, given.trade)
    last = heavy.loc[heavy["date"] == heavy["date"].max()]
    after = sets.loc[full & (sets["date"] > last["date"].max()).to_numpy() if len(last) else full]
    if after.empty:
        return
    said: Value = say("needs.drawn.none")
    if len(last):
        top = float(last["load_kg"].max())
        said = say("needs.drawn.single", load_kg=top, date=last["date"].max().date())
    values: Values = {"weeks": weeks, "last": said}
    rows = pd.concat([last, after.sort_values("load_kg").iloc[-1:]])
    size = min(given.value("no_single_most"), weeks / given.value("no_single_full"))
    yield _sign("no_singles", values, rows, "no_single_weeks", size=size, name=named(given))


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
    shown = _sign("gap", values, rows, "return_gap_days")
    yield replace(shown, evidence=(*shown.evidence, *_away(given, last, back)))


def _away(given: Given, last: pd.Timestamp, back: pd.Timestamp) -> Iterator[Evidence]:
    away = given.records.away
    for cells in away.loc[(away["to"] >= last) & (away["from"] <= back)].to_dict("records"):
        values: Values = {"reason": cells["reason"], "start": cells["from"].date(), "end": cells["to"].date()}
        yield evidence(
            "away", values, file=str(cells["file"]), rule="away_weeks",
            lines=(int(cells["line"]),), dates=(cells["from"].date(), cells["to"].date()),
        )  # fmt: skip


def _limits(given: Given) -> Iterator[Sign]:
    """Days on which a limit of a goal's lift was looked for, against how many are usual in these weeks."""
    days, near = limit_days(given, pd.Timestamp(given.as_of) - pd.Timedelta(weeks=given.value("limit_weeks")))
    many, usual = given.value("limit_days_chased"), given.value("limit_days_usual")
    size = min(given.value("limit_most"), len(days) * math.log(many / usual) - (many - usual))
    if size <= 0:
        return
    tops = (given.scored.loc[given.scored["lift"] == lift] for lift in near["lift"].unique())
    gain = max(bests.gained(one, days.min() - pd.Timedelta(days=1)) or 0.0 for one in tops)
    values: Values = {
        "lift": named(given),
        "days": len(days),
        "weeks": int((days.max() - days.min()).days // 7) + 1,
        "start": days.min().date(),
        "end": days.max().date(),
        "gain_kg": gain,
        "gained": say("needs.drawn.gained", gain_kg=gain) if gain > 0 else say("needs.drawn.flat"),
    }
    rows = near.loc[near["date"].isin(days)]
    yield _sign("chase", values, rows, "limit_near_share", size=size, name=named(given))


def limit_days(given: Given, first: pd.Timestamp) -> tuple[pd.DatetimeIndex, pd.DataFrame]:
    """Days after one on which a limit of a goal's lift was looked for, and the singles near the best.

    Such a day holds two misses or more near the best, or one at 97 % and over; or singles at 97 % and over
    stand on it and on others close by, and gained nothing. Contests are left out.
    """
    sets = given.tables.sets
    lifts = tuple(dict.fromkeys(lift for goal in given.facts.goals for lift in lifts_of(goal)))
    near = sets.loc[
        sets["lift"].isin(lifts) & sets["single"] & (sets["tried"] > 0) & (sets["kind"] != "contest")
        & (sets["date"] > first) & (sets["share"] >= given.value("limit_near_share"))
    ]  # fmt: skip
    if near.empty:
        return pd.DatetimeIndex([]), near
    top = near["missed"].where(near["share"] >= given.value("chase_share"), 0)
    days = [near["lift"], near["date"]]
    lost, above = (one.groupby(days).sum() for one in (near["missed"], top))
    missed = lost.index[(lost >= given.value("limit_misses")) | (above >= 1)].get_level_values("date")
    close = chases.close(sets, given.scored, lifts, given.trade)
    found = near["date"].isin(missed) | np.isin(to_days(near["date"]), close)
    return pd.DatetimeIndex(near.loc[found, "date"].drop_duplicates().sort_values()), near


def _jump(given: Given) -> Iterator[Sign]:
    """The work of the last weeks far over the usual of the weeks before."""
    weeks = [
        one for one in given.facts.exposure.weeks if one.start + dt.timedelta(days=6) <= _whole_until(given)
    ]
    now, least = int(given.value("jump_weeks")), int(given.value("jump_usual_weeks"))
    before = sorted(one.tonnage_kg for one in weeks[-now - least : -now] if one.sessions)
    if len(before) < least // 2 or len(weeks) < now:
        return
    # Light weeks and tapers are no usual weeks, so the usual one lies over the middle.
    usual = before[int(given.value("jump_usual_share") * len(before))]
    mean = sum(one.tonnage_kg for one in weeks[-now:]) / now
    if usual <= 0 or mean < given.value("jump_share") * usual:
        return
    size = min(
        given.value("limit_most"), (mean / usual - given.value("jump_share")) / given.value("jump_step")
    )
    rows = given.tables.sets
    rows = rows.loc[rows["date"] >= pd.Timestamp(weeks[-now].start)].drop_duplicates("session_id")
    values: Values = {
        "share": mean / usual - 1,
        "weeks": now,
        "start": weeks[-now].start,
        "mean_kg": mean,
        "usual_kg": usual,
    }
    yield _sign("load_jumped", values, rows, "jump_share", size=size)


def _taper(given: Given) -> Iterator[Sign]:
    """Long tapers of the last half year and what their test days gave, against those of the others."""
    first = given.as_of - dt.timedelta(days=given.value("taper_recent_days"))
    days = [fact for fact in given.facts.test_days or () if fact.date >= first and fact.lift in given.lifts]
    poor = [
        fact for fact in days
        if fact.taper is not None and fact.taper.prolonged and not fact.gain_missing and not _gave(fact)
    ]  # fmt: skip
    if not poor:
        return
    fact = poor[-1]
    assert fact.taper is not None
    values: Values = {
        "test_day": fact.date,
        "event": fact.event or say("needs.drawn.test_day"),
        "drawn": say("needs.drawn.moved" if fact.taper.prolonged == "day moved on" else "needs.drawn.long"),
        "taper_days": fact.taper.days or 0,
        "cut_share": fact.taper.volume_cut or 0.0,
        "best": _kilograms(fact.best_kg),
        "before": _kilograms(fact.previous_best_kg),
        "count": len(poor),
    }
    sets = given.tables.sets
    rows = sets.loc[sets["date"].isin([pd.Timestamp(one.date) for one in poor]) & (sets["lift"] == fact.lift)]
    once, again = given.value("taper_once"), given.value("taper_again")
    more = (fact.taper.start,) if fact.taper.start else ()
    size = min(given.value("limit_most"), once + again * (len(poor) - 1))
    yield _sign("long_taper", values, rows, "taper_long_days", size=size, name=fact.lift, dates=more)


def _gave(fact: TestDayFact) -> bool:
    """Whether a test day was better than the weeks before it: by its form, else by a clear new best."""
    if fact.effect_share is not None:
        return fact.effect_share > 0
    return fact.gain_kg is not None and fact.gain_kg > 0 and not fact.noise


def _kilograms(kg: float | None) -> Value:
    return say("needs.drawn.none_made") if kg is None else say("needs.drawn.weight", load_kg=kg)
