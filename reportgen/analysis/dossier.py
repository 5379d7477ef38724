"""One lifter's records become one frozen dossier: every question asked once, nothing computed again."""

import datetime as dt
from dataclasses import replace

import pandas as pd

from reportgen.analysis import (
    arrival,
    bests,
    block,
    decisions,
    episodes,
    exposure,
    forerun,
    frames,
    goals,
    goalweight,
    indicators,
    misses,
    needs,
    outlook,
    pain,
    peaks,
    planned,
    screening,
    strength,
    technique,
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
    asked = needs.given(records, facts, tables, scored, trade)
    found, not_tested = needs.read(asked)
    proposed = block.propose(asked, found, expected)
    facts = replace(
        facts,
        goals=needs.further(asked, found),
        needs=found,
        not_tested=not_tested,
        said_and_done=decisions.said_and_done(asked, found),
        block=proposed,
        arrival=arrival.with_attempts(facts.arrival, proposed, lifts, trade),
    )
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
    """Everything but what holds the goal back, and what rests on that."""
    lifter, sets, as_of = records.lifter, tables.sets, stamp(records.as_of)
    first, lifts = bests.since(as_of, lifter.weeks_current), goals.lifts_of(stand[0])
    lift, targets = lifts[0], goals.targets(stand[0])
    present_kg = next((fact.kg for fact in current if fact.lift == lift), None)
    sore, unsure = pain.read(records, trade), trust.unsure(records, trade)
    stop = trust.stops(unsure, sore)
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
        goal_weight=goalweight.been(sets, tables.misses, targets, trade),
        sure_weight=misses.sure_weight(sets, expected.of(lift), as_of=as_of, trade=trade),
        screening=screening.read(records, trade, best_kg=present_kg, goal_kg=targets.get(lift)),
        technique=technique.read(records, trade),
        trend=expected.trend,
        expressed_strength=strength.expressed(sets, lift, strength.squat_band(records, lift, trade), trade),
        planned_done=planned.compare(records.plan, sets, as_of, trade),
        season=peaked.season,
        sources={key: source.citation for key, source in sorted(trade.sources.items())},
        pain=sore,
        bests_apart=bests.apart(scored),
        pain_episodes=episodes.read(records, sets, trade),
        unsure=unsure,
        ability=expected.ability,
        # Nobody knows when a lift that hurts, or whose log is in doubt, will be where.
        arrival=None if stop.everything or stop.lifts & {*lifts} else expected.arrival,
        taper_effect=expected.effect,
        before_bests=forerun.bests(tables, lifts, as_of, trade),
        before_misses=forerun.misses(tables, lifts, as_of, trade),
    )


def _span(sets: pd.DataFrame) -> Span:
    if sets.empty:
        return Span(first=None, last=None)
    return Span(first=day(sets["date"].min()), last=day(sets["date"].max()))
