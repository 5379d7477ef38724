"""What holds the goal back: signs of every source, findings that rest on them, needs ranked and worded."""

from dataclasses import dataclass

import pandas as pd

from reportgen.analysis.goals import lifts_of, targets
from reportgen.analysis.needs import figures, movement, positions, practice, ranking, untested
from reportgen.analysis.needs.findings import collect
from reportgen.analysis.needs.signs import Given, Signs
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts
from reportgen.model.findings import Need, NotTested
from reportgen.model.records import Records
from reportgen.trade.claims import claims
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsRead:
    """What holds the goal back, and what nobody measured."""

    needs: tuple[Need, ...]
    not_tested: tuple[NotTested, ...]


def read(records: Records, facts: Facts, tables: Tables, scored: pd.DataFrame, trade: Trade) -> NeedsRead:
    """Rank what holds the first goal back.

    Args:
        records: For lifter.toml, mobility, away and decisions.
        facts: With everything else of it: goals, current, indicators, exposure, rep_maxes, sure_weight,
            test_days, chases, screening, technique and pain (None of the later ones = nothing of it is said).
        tables: Prepared sets and misses.
        scored: `bests.scoring` rows.
        trade: Lifts, bands, rules.

    Returns:
        Ranked needs, none where the goal is reached or the data holds none; and what was not tested.
    """
    goal = facts.goals[0]
    given = Given(
        records=records,
        facts=facts,
        tables=tables,
        trade=trade,
        claims=claims(),
        lifts=lifts_of(goal),
        targets=targets(goal),
        scored=scored,
    )
    signs: Signs = {}
    for part in (positions, movement, figures, practice):
        for sign in part.read(given):
            held = signs.get(sign.key)
            # One sign a key: for a total the lift with more at stake speaks.
            if held is None or (sign.kilos or 0.0) > (held.kilos or 0.0):
                signs[sign.key] = sign
    findings, questions = collect(given, signs)
    reached = goal.gap_kg is not None and goal.gap_kg <= trade.value("edge_kg")
    return NeedsRead(
        needs=() if reached else ranking.needs(given, findings, signs, goal.gap_kg),
        not_tested=untested.read(given, questions),
    )
