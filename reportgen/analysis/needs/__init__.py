"""What holds the goal back: signs of every source, weighed by what could cause them, told as needs."""

from dataclasses import replace

import pandas as pd

from reportgen.analysis import bests, exposure, indicators
from reportgen.analysis.goals import lifts_of, targets
from reportgen.analysis.needs import figures, movement, positions, practice, telling, untested, weighing
from reportgen.analysis.needs.signs import Given, Sign
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts, FirstNeed, GoalFact
from reportgen.model.findings import Need, NotTested
from reportgen.model.records import Records
from reportgen.model.say import say
from reportgen.trade.claims import called
from reportgen.trade.schema import Trade


def given(records: Records, facts: Facts, tables: Tables, scored: pd.DataFrame, trade: Trade) -> Given:
    """What is asked of the first goal.

    Args:
        records: For lifter.toml, mobility, away and decisions.
        facts: What was counted and judged, before the needs.
        tables: Prepared sets and misses.
        scored: `bests.scoring` rows.
        trade: Lifts, bands, rules.
    """
    goal = facts.goals[0]
    return Given(
        records=records,
        facts=facts,
        tables=tables,
        trade=trade,
        lifts=lifts_of(goal),
        targets=targets(goal),
        scored=scored,
    )


def read(asked: Given) -> tuple[tuple[Need, ...], tuple[NotTested, ...]]:
    """Rank what holds the first goal back.

    Returns:
        Ranked needs, none where the goal is reached or nothing stands out; and what was not tested.
    """
    signs = _signs(asked)
    found = weighing.weigh(asked, signs)
    needs = () if asked.reached else telling.needs(asked, found, signs)
    return needs, untested.read(asked, needs, found, signs)


def _signs(asked: Given) -> tuple[Sign, ...]:
    return tuple(sign for part in (positions, movement, figures, practice) for sign in part.read(asked))


def further(asked: Given, needs: tuple[Need, ...]) -> tuple[GoalFact, ...]:
    """The goals, each further one with what holds it back first.

    Args:
        asked: What was asked of the first goal.
        needs: Its needs; what rests on their rows is pointed at and not told again.
    """
    told, weighed = list[GoalFact](), {asked.facts.goals[0].lift}
    for goal in asked.facts.goals:
        if goal.lift in weighed or goal.current_kg is None or goal.goal_kg is None:
            told.append(goal)
            continue
        weighed.add(goal.lift)
        told.append(replace(goal, first_need=_first_need(_of(asked, goal), needs)))
    return tuple(told)


def _of(asked: Given, goal: GoalFact) -> Given:
    """The same asked of another goal: the figures that hang on the lift are counted for its own."""
    facts, records, trade, sets = asked.facts, asked.records, asked.trade, asked.tables.sets
    lifts, as_of = lifts_of(goal), pd.Timestamp(asked.as_of)
    since = bests.since(as_of, records.lifter.weeks_current)
    weeks = exposure.by_week(sets, records.away, lifts=lifts, as_of=as_of, trade=trade)
    mine = replace(
        facts,
        goals=(goal,),
        indicators=indicators.of_goal(records, asked.scored, sets, facts.current, goal, trade),
        exposure=exposure.exposure(weeks, sets, lifts=lifts, as_of=as_of, trade=trade),
        rep_maxes=bests.rep_maxes(asked.scored, lifts, first=since, trade=trade),
    )
    return replace(asked, facts=mine, lifts=lifts, targets=targets(goal))


def _first_need(asked: Given, needs: tuple[Need, ...]) -> FirstNeed | None:
    """The likeliest cause; where the row that names it stands under a need already, that need is named."""
    if asked.reached:
        return None
    found = weighing.weigh(asked, _signs(asked))
    one = next((one for one in found if one.chance >= asked.value("need_low")), None)
    if one is None:
        return FirstNeed(id="", confidence="", claim=say("needs.second.nothing"))
    rows = {(piece.file, line): need for need in needs for piece in need.evidence for line in piece.lines}
    shared = next((rows[row] for row in sorted(one.named.rows) if row in rows), None)
    return FirstNeed(
        id=one.finding,
        confidence=telling.label(asked, one),
        claim=telling.claim(one)
        if shared is None
        else say("needs.second.shared", rank=shared.rank, called=called(shared.id)),
    )
