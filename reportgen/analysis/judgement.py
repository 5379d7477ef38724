"""Everything that is judged rather than counted: screening, technique, pain, needs, what was decided."""

from dataclasses import replace

import pandas as pd

from reportgen.analysis import (
    decisions,
    episodes,
    forerun,
    indicators,
    needs,
    pain,
    screening,
    strength,
    technique,
    trust,
)
from reportgen.analysis.goals import lifts_of, targets
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts
from reportgen.model.records import Records
from reportgen.trade.schema import Band, Trade


def add(facts: Facts, records: Records, tables: Tables, scored: pd.DataFrame, trade: Trade) -> Facts:
    """The facts with screening, technique, expressed strength, not_tested, needs, pain and said_and_done."""
    goal = facts.goals[0]
    lift = lifts_of(goal)[0]
    present_kg = next((fact.kg for fact in facts.current if fact.lift == lift), None)
    sore = pain.read(records, trade)
    stop = trust.stops(facts.unsure, sore)
    seen = replace(
        facts,
        # Nobody knows when a lift that hurts, or whose log is in doubt, will be where.
        arrival=None if stop.everything or stop.lifts & {*lifts_of(goal)} else facts.arrival,
        screening=screening.read(records, trade, best_kg=present_kg, goal_kg=targets(goal).get(lift)),
        technique=technique.read(records, trade),
        pain=sore,
        pain_episodes=episodes.read(records, tables.sets, trade),
        before_bests=forerun.bests(facts, tables, trade),
        before_misses=forerun.misses(facts, tables, trade),
        expressed_strength=strength.expressed(tables.sets, lift, squat_band(records, lift, trade), trade),
    )
    asked = needs.given(records, seen, tables, scored, trade)
    found, not_tested = needs.read(asked)
    return replace(
        seen,
        goals=needs.further(asked, found),
        needs=found,
        not_tested=not_tested,
        said_and_done=decisions.said_and_done(asked, found),
    )


def squat_band(records: Records, lift: str, trade: Trade) -> Band | None:
    """The back squat's band in force for a goal lift: the coach's own where there is one."""
    bands = trade.indicator_bands(lift, records.lifter.standards)
    own = indicators.coached(bands, records.lifter.bands, trade)
    return next((one for one in own if one.id == "back_squat" and one.base == "goal"), None)
