"""One lifter's records become one frozen dossier: every question asked once, nothing computed again."""

import datetime as dt
from dataclasses import replace

import pandas as pd

from reportgen.analysis import (
    arrival,
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
from reportgen.analysis.outlook import Outlook
from reportgen.analysis.peaks import Peaks
from reportgen.analysis.when import day, stamp, upto
from reportgen.model.dossier import Dossier, Tables
from reportgen.model.facts import CurrentFact, Facts, GoalFact, Span, Who
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
    lifter, as_of = records.lifter, stamp(records.as_of)
    sets = frames.prepare(records.sets, as_of=as_of, bests=lifter.bests, trade=trade)
    lifts = goals.lifts_of(lifter.goals[0])
    weeks = exposure.by_week(sets, records.away, lifts=lifts, as_of=as_of, trade=trade)
    scored = bests.scoring(sets, lifter.bests, as_of)
    current = bests.current(scored, sets, first=bests.since(as_of, lifter.weeks_current), trade=trade)
    stand = goals.stand(lifter.goals, current, goals.body_mass(records.bodymass, as_of), trade)
    days = frames.by_day(sets, lifts)
    peaked = peaks.read(records, sets, days, scored, stand, trade, span=span)
    expected = outlook.read(records, sets, peaked.test_days, stand[0], trade)
    every_miss = frames.expand_misses(sets)
    tables = Tables(
        sets=sets,
        days=days,
        weeks=weeks,
        misses=every_miss,
        rates=misses.by_weight(sets, every_miss, trade),
        bodymass=upto(records.bodymass, records.as_of).sort_values("date", kind="stable", ignore_index=True),
        running_best=bests.running(scored, lifts),
        aligned=peaked.aligned,
    )
    facts = _facts(records, tables, scored, stand, current, peaked, expected, trade)
    facts = judgement.add(facts, records, tables, scored, trade)
    block_fact = block.propose(records, sets, days, facts, expected, trade)
    arrived = arrival.with_attempts(facts.arrival, block_fact, lifts, trade)
    facts = replace(facts, block=block_fact, arrival=arrived)
    return Dossier(records=records, facts=facts, tables=tables)


def _facts(
    records: Records,
    tables: Tables,
    scored: pd.DataFrame,
    stand: tuple[GoalFact, ...],
    current: tuple[CurrentFact, ...],
    peaked: Peaks,
    expected: Outlook,
    trade: Trade,
) -> Facts:
    """What was done, counted, and set against the goal; what it says of the lifter, `judgement` adds."""
    lifter, sets, as_of = records.lifter, tables.sets, stamp(records.as_of)
    first, lifts = bests.since(as_of, lifter.weeks_current), goals.lifts_of(stand[0])
    return Facts(
        lifter=Who(name=lifter.name, standards=lifter.standards, folder=records.folder),
        as_of=records.as_of,
        span=_span(sets),
        goals=stand,
        ledger=records.ledger,
        bests=bests.all_time(scored, int(trade.value("bests_most_reps"))),
        current=current,
        indicators=indicators.of_goal(records, scored, sets, current, stand[0], trade),
        exposure=exposure.exposure(tables.weeks, sets, lifts=lifts, as_of=as_of, trade=trade),
        rep_maxes=expected.transfer(bests.rep_maxes(scored, lifts, first=first, trade=trade), trade),
        make_rates=misses.make_rates(sets, tables.misses, trade),
        test_days=peaked.test_days,
        chases=peaked.chases,
        goal_weight=goalweight.been(sets, tables.misses, goals.targets(stand[0]), trade),
        sure_weight=misses.sure_weight(sets, expected.of(lifts[0]), as_of=as_of, trade=trade),
        trend=expected.trend,
        planned_done=planned.compare(records.plan, sets, as_of, trade),
        season=peaked.season,
        sources={key: source.citation for key, source in sorted(trade.sources.items())},
        bests_apart=bests.apart(scored),
        unsure=trust.unsure(records, trade),
        ability=expected.ability,
        arrival=expected.arrival,
        taper_effect=expected.effect,
    )


def _span(sets: pd.DataFrame) -> Span:
    if sets.empty:
        return Span(first=None, last=None)
    return Span(first=day(sets["date"].min()), last=day(sets["date"].max()))
