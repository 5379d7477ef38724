"""What loads are taken from: the base of each lift, and the load that no line goes above."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

import pandas as pd

from reportgen.analysis.block import plates, record
from reportgen.analysis.block.plates import Plates
from reportgen.analysis.block.record import Record
from reportgen.analysis.trust import Trust
from reportgen.model.facts import CurrentFact, Facts
from reportgen.model.findings import TechniqueFact
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """What the loads of one lift are shares of.

    Attributes:
        kg: The current best; of a squat the estimated single where it is more; the best of the year where
            nothing is current.
        cold: Not done for weeks: begun again lower.
        borrowed: No figure of its own: begun from the goal lift.
    """

    kg: float
    cold: bool = False
    borrowed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """Bases and ceilings.

    Attributes:
        plates: What can be put on the lifter's bar.
        bases: Of every lift that the log of the last year knows.
        ceilings_kg: Lift -> heaviest load under the one from which a checkpoint is off.
        current: Current singles by lift.
        record: What was ever lifted.
    """

    plates: Plates
    bases: Mapping[str, Base]
    ceilings_kg: Mapping[str, float]
    current: Mapping[str, CurrentFact]
    record: Record

    def done(self, lift: str) -> bool:
        """Whether the last year's log holds the lift, or a whole of which it is a part."""
        start = choices().starts.get(lift)
        return lift in self.bases or (start is not None and start.share == 1 and start.of in self.bases)

    def base(self, lift: str) -> Base | None:
        """The lift's own base, or the one it is begun from; None where neither is known."""
        if lift in self.bases:
            return self.bases[lift]
        start = choices().starts.get(lift)
        if start is None or start.of not in self.bases:
            return None
        of = self.bases[start.of]
        kg = of.kg * start.share
        return Base(kg=kg, cold=of.cold, borrowed=True)


def read(
    records: Records,
    sets: pd.DataFrame,
    facts: Facts,
    lifts: tuple[str, ...],
    held: Trust,
    trade: Trade,
) -> Stand:
    """Read what loads are taken from.

    Args:
        records: Whose bar, and bests from before the log.
        sets: Prepared sets.
        facts: Current singles and technique.
        lifts: The goal's lifts.
        held: Lifts whose figures are not sure, from which nothing is taken; and the most that a load may be
            taken from where one day stands far over the others.
        trade: Rules.
    """
    tried = sets.loc[sets["tried"] > 0, ["lift", "date"]].groupby("lift")["date"].max()
    last = {str(lift): stamp.date() for lift, stamp in tried.items()}
    current = {fact.lift: fact for fact in facts.current if fact.lift not in held.doubted}
    bases = {
        lift: _at_most(base, held.most_kg.get(lift))
        for lift, fact in current.items()
        if (base := _base(fact, last.get(lift), facts.as_of, trade)) is not None
    }
    year = pd.Timestamp(facts.as_of) - pd.Timedelta(days=int(trade.value("reference_days")))
    trained = sets.loc[(sets["date"] > year) & (sets["attempt"] == 0), "load_kg"]
    own = plates.of(records.lifter, trade, trained.tolist())
    return Stand(
        plates=own,
        bases={lift: _at_least_the_whole(lift, base, bases, trade) for lift, base in bases.items()},
        ceilings_kg=ceilings(facts.technique, lifts, own, trade),
        current=current,
        record=record.read(sets, records.lifter.bests, trade),
    )


def _base(fact: CurrentFact, last: dt.date | None, as_of: dt.date, trade: Trade) -> Base | None:
    year = dt.timedelta(days=int(trade.value("reference_days")))
    if fact.kg is not None:
        kg = fact.kg
        if trade.lifts[fact.lift].role == "squat" and fact.estimated_kg is not None:
            kg = max(kg, fact.estimated_kg)
    elif fact.stale_kg is not None and fact.stale_date is not None and as_of - fact.stale_date < year:
        kg = fact.stale_kg
    else:
        return None
    gap = dt.timedelta(days=int(trade.value("reference_gap_days")))
    return Base(kg=kg, cold=fact.kg is None or last is None or as_of - last >= gap)


def _at_most(base: Base, most_kg: float | None) -> Base:
    """One day alone, slip or good day, raises no load far over what the others bear out."""
    return base if most_kg is None else replace(base, kg=min(base.kg, most_kg))


def _at_least_the_whole(lift: str, base: Base, bases: Mapping[str, Base], trade: Trade) -> Base:
    """A clean or a jerk is done in every clean and jerk: its base is no less than that of the whole."""
    of = trade.lifts[lift]
    whole = bases.get(of.family) if of.role == "part" else None
    if whole is None or whole.kg <= base.kg:
        return base
    return whole


def ceilings(
    technique: TechniqueFact | None, lifts: tuple[str, ...], own: Plates, trade: Trade
) -> dict[str, float]:
    """Lift -> heaviest load of the lifter's plates below the load from which a checkpoint is off.

    A checkpoint speaks for every classic lift of its family; one without a lift for the goal lift's. What
    the coach accepts, and what is good again, sets no ceiling.
    """
    found: dict[str, float] = {}
    for point in technique.checkpoints if technique is not None else ():
        if point.load_onset_kg is None or point.accepted or point.latest == "good":
            continue
        kg = own.below(point.load_onset_kg)
        family = trade.lifts[point.lift if point.lift in trade.lifts else lifts[0]].family
        for name, lift in trade.lifts.items():
            if lift.classic and lift.family == family:
                found[name] = min(found.get(name, kg), kg)
    return found
