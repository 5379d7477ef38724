"""One lifter's records become one frozen dossier: every question asked once, nothing computed again."""

import datetime as dt
from dataclasses import replace

import pandas as pd

from reportgen.analysis import (
    bests,
    block,
    exposure,
    frames,
    goals,
    goalweight,
    indicators,
    judgement,
    misses,
    outlook,
    peaks,
    planned,
    trust,
)
from reportgen.model.dossier import Dossier, Tables
from reportgen.model.facts import CurrentFact, Facts, GoalFact, IndicatorFact, Span, Who
from reportgen.model.records import Records
from reportgen.trade.schema import Trade


def build(records: Records, trade: Trade, *, span: tuple[dt.date, dt.date] | None = None) -> Dossier:
    """Ask every question of one lifter's records.

    Args:
        records: What intake read, with its review day.
        trade: The trade tables.
        span: First and last day of the season asked for; None = each calendar year.

    Returns:
        Facts and the tables behind the figures. Needs a training log with at least one row up to as_of
        for most facts; without one they are empty or None.
    """
    lifter = records.lifter
    as_of = pd.Timestamp(records.as_of).as_unit("s")
    lifts = goals.lifts_of(lifter.goals[0])
    sets = frames.prepare(records.sets, as_of=as_of, bests=lifter.bests, trade=trade)
    scored = bests.scoring(sets, lifter.bests, as_of)
    missed = frames.expand_misses(sets)
    days = frames.by_day(sets, lifts)
    weeks = exposure.by_week(sets, records.away, lifts=lifts, as_of=as_of, trade=trade)
    facts = _counted(records, sets, missed, scored, weeks, trade)
    peaked = peaks.read(records, sets, days, scored, facts.goals[0], trade, span=span)
    expected = outlook.read(records, sets, peaked.test_days, facts.goals[0], trade)
    tables = Tables(
        sets=sets,
        days=days,
        weeks=weeks,
        misses=missed,
        bodymass=_until(records.bodymass, as_of),
        running_best=bests.running(scored, lifts),
        aligned=peaked.aligned,
    )
    facts = replace(
        facts,
        test_days=peaked.test_days,
        ability=expected.ability,
        rep_maxes=expected.transfer(facts.rep_maxes or (), trade),
        arrival=expected.arrival,
        taper_effect=expected.effect,
        sure_weight=misses.sure_weight(sets, expected.of(lifts[0]), as_of=as_of, trade=trade),
        chases=peaked.chases,
        trend=expected.trend,
        season=peaked.season,
    )
    facts = judgement.add(facts, records, tables, scored, trade)
    facts = replace(
        facts,
        block=block.propose(records, sets, days, facts, expected, trade),
        planned_done=planned.compare(records.plan, sets, as_of),
    )
    return Dossier(records=records, facts=_cited(facts, trade), tables=tables)


def _counted(
    records: Records,
    sets: pd.DataFrame,
    missed: pd.DataFrame,
    scored: pd.DataFrame,
    weeks: pd.DataFrame,
    trade: Trade,
) -> Facts:
    """The facts that the log alone gives: what was done, counted and set against the goal."""
    lifter = records.lifter
    as_of = pd.Timestamp(records.as_of).as_unit("s")
    first = bests.since(as_of, lifter.weeks_current)
    current = bests.current(scored, sets, first=first, trade=trade)
    stand = goals.stand(lifter.goals, current, goals.body_mass(records.bodymass, as_of), trade)
    lifts = goals.lifts_of(stand[0])
    return Facts(
        lifter=Who(name=lifter.name, standards=lifter.standards, folder=records.folder),
        as_of=records.as_of,
        span=_span(sets),
        goals=stand,
        ledger=records.ledger,
        bests=bests.all_time(scored, int(trade.value("bests_most_reps"))),
        current=current,
        indicators=_indicators(records, scored, sets, current, stand[0], first, trade),
        exposure=exposure.exposure(weeks, sets, lifts=lifts, as_of=as_of, trade=trade),
        rep_maxes=bests.rep_maxes(scored, lifts, first=first, trade=trade),
        make_rates=misses.make_rates(sets, missed, trade),
        goal_weight=goalweight.been(sets, missed, goals.targets(stand[0]), trade),
        bests_apart=bests.apart(scored),
        unsure=trust.unsure(records, trade),
    )


def _until(bodymass: pd.DataFrame, as_of: pd.Timestamp) -> pd.DataFrame:
    known = bodymass.loc[bodymass["date"] <= as_of]
    return known.sort_values("date", kind="stable", ignore_index=True)


def _span(sets: pd.DataFrame) -> Span:
    if sets.empty:
        return Span(first=None, last=None)
    days: list[dt.date] = [bests.day(sets["date"].min()), bests.day(sets["date"].max())]
    return Span(first=days[0], last=days[1])


def _indicators(
    records: Records,
    scored: pd.DataFrame,
    sets: pd.DataFrame,
    current: tuple[CurrentFact, ...],
    goal: GoalFact,
    first: pd.Timestamp,
    trade: Trade,
) -> tuple[IndicatorFact, ...] | None:
    """The indicators of the first goal; None where the goal weight is not known."""
    targets = goals.targets(goal)
    if not targets:
        return None
    bands = [band for lift in targets for band in trade.indicator_bands(lift, records.lifter.standards)]
    now = indicators.Now(
        rows=scored.loc[scored["date"] >= first],
        sets=sets.loc[sets["date"] >= first],
        singles={fact.lift: fact for fact in current},
    )
    return indicators.read(indicators.coached(tuple(bands), records.lifter.bands, trade), targets, now, trade)


def _cited(facts: Facts, trade: Trade) -> Facts:
    """The facts with the citation of every source behind a figure."""
    cited = {key: source.citation for key, source in sorted(trade.sources.items())}
    return replace(facts, sources=cited)
