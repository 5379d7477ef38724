"""What to expect: the ability of the lifts from the floor, what tapers give, and when the goal is made."""

from collections.abc import Mapping
from dataclasses import replace

import pandas as pd

from reportgen.analysis import ability, arrival, form, trend
from reportgen.analysis.ability import Ability
from reportgen.analysis.baseline import WEEK
from reportgen.analysis.goals import PAIR, lifts_of
from reportgen.model.ability import AbilityFact, ArrivalFact
from reportgen.model.facts import GoalFact, RepMaxFact
from reportgen.model.peaks import TaperEffect, TestDayFact, TrendFact
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """The facts of these names, and what they are made of."""

    ability: tuple[AbilityFact, ...]
    lifts: Mapping[str, Ability]  # the ability of each lift whose log carries one
    taper: TaperEffect  # what this lifter's tapers give; what they give others without one
    arrival: ArrivalFact | None
    trend: TrendFact | None
    tapers: int = 0  # so many that it rests on

    def of(self, lift: str) -> AbilityFact | None:
        """The ability of one lift; None where its log carries none."""
        return next((one for one in self.ability if one.lift == lift), None)

    @property
    def effect(self) -> TaperEffect | None:
        """What the lifter's own tapers give; None without one whose day's form is known."""
        return replace(self.taper, tapers=self.tapers) if self.tapers else None

    def transfer(self, found: tuple[RepMaxFact, ...], trade: Trade) -> tuple[RepMaxFact, ...]:
        """Doubles and triples with the chance of the single that they go with; no gap where it is there."""
        told = []
        for one in found:
            able = self.lifts.get(one.lift)
            if able is not None:
                chance = able.chance(one.implied_single_kg)
                there = chance >= trade.value("transfer_chance")
                one = replace(one, chance=chance, transfer_gap_kg=0.0 if there else one.transfer_gap_kg)
            told.append(one)
        return tuple(told)


def read(
    records: Records,
    sets: pd.DataFrame,
    tests: tuple[TestDayFact, ...] | None,
    goal: GoalFact,
    trade: Trade,
) -> Outlook:
    """The ability of snatch and clean & jerk, where the log carries it, and when the goal is made."""
    tapered = [test for test in tests or () if test.taper is not None and test.taper.start is not None]
    days = frozenset(test.date for test in tapered)
    found = {
        lift: one
        for lift in PAIR
        if (one := ability.read(sets, lift, as_of=records.as_of, trade=trade, tapered=days)) is not None
    }
    judged = [(test, effect) for test in tapered if (effect := form.told(test)) is not None]
    taper = form.pooled((effect for _, effect in judged), trade)
    arrived = _arrival(found, goal, taper, records, trade)
    return Outlook(
        ability=tuple(ability.fact(one) for one in found.values()),
        lifts=found,
        taper=taper,
        arrival=arrived,
        trend=trend.read(
            found.get(goal.lift), arrived, records.bodymass, goal, as_of=records.as_of, trade=trade
        ),
        # Both lifts of a contest, and all of its days, have one taper.
        tapers=len({test.taper.start for test, _ in judged if test.taper is not None}),
    )


def _arrival(
    found: Mapping[str, Ability], goal: GoalFact, taper: TaperEffect, records: Records, trade: Trade
) -> ArrivalFact | None:
    """When the goal is made; None where one of its lifts has no ability, or its weight is not known."""
    lifts = lifts_of(goal)
    if goal.goal_kg is None or goal.current_kg is None or not all(lift in found for lift in lifts):
        return None
    mine = tuple(found[lift] for lift in lifts)
    drift = (0.0, 0.0)
    side = trend.body(records.bodymass, records.as_of, trade) if goal.times_body_mass is not None else None
    if side is not None and goal.body_mass_kg:
        week = WEEK / goal.body_mass_kg
        # A goal that comes down with the body is not counted on: nobody is to be made lighter by a chance.
        drift = (max(0.0, side.middle * week), (side.high - side.low) / 3.92 * week)
    return arrival.read(
        mine,
        goal.goal_kg,
        goal.by,
        present_kg=goal.current_kg,
        fresh=taper.share,
        drift=drift,
        trade=trade,
    )
