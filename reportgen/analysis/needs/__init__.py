"""What holds the goal back: signs of every source, weighed by what could cause them, told as needs."""

from dataclasses import dataclass

import pandas as pd

from reportgen.analysis.goals import lifts_of, targets
from reportgen.analysis.needs import figures, movement, positions, practice, telling, untested, weighing
from reportgen.analysis.needs.signs import Given
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts
from reportgen.model.findings import Need, NotTested
from reportgen.model.records import Records
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsRead:
    """What holds the goal back, and what nobody measured."""

    needs: tuple[Need, ...]
    not_tested: tuple[NotTested, ...]


def given(records: Records, facts: Facts, tables: Tables, scored: pd.DataFrame, trade: Trade) -> Given:
    """What is asked of the first goal.

    Args:
        records: For lifter.toml, mobility, away and decisions.
        facts: With everything else of it: goals, current, indicators, exposure, rep_maxes, sure_weight,
            test_days, screening, technique and pain (None of the later ones = nothing of it is said).
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


def read(asked: Given) -> NeedsRead:
    """Rank what holds the first goal back.

    Returns:
        Ranked needs, none where the goal is reached or nothing stands out; and what was not tested.
    """
    signs = tuple(sign for part in (positions, movement, figures, practice) for sign in part.read(asked))
    found = weighing.weigh(asked, signs)
    reached = asked.gap is not None and asked.gap <= asked.value("edge_kg") and not asked.doubted
    needs = () if reached else telling.needs(asked, found, signs)
    return NeedsRead(needs=needs, not_tested=untested.read(asked, needs, found, signs))
