"""The way back after pain: for some weeks what loads the place stays under what was done before it."""

import datetime as dt
from collections.abc import Mapping

import pandas as pd

from reportgen.analysis.when import stamp
from reportgen.model.findings import EpisodeFact
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """One settled episode whose weeks of coming back reach into the block."""

    place: str
    #: settled, until: The day it settled, and the first day after these weeks.
    settled: dt.date
    until: dt.date
    lifts: frozenset[str]  # lifts that load the place
    #: Heaviest load of each lift in the weeks before the pain; a lift that is not in it was not done then,
    #: and is not brought in now. None where no log lies before the pain.
    kg: Mapping[str, float] | None
    #: repetitions, tonnage_kg: A week of these lifts before the pain; None as above.
    repetitions: float | None
    tonnage_kg: float | None
    trade: Trade

    def most_kg(self, lift: str, day: dt.date, base_kg: float) -> float | None:
        """The most that a lift may weigh on a day; 0 for one that was not done before; None = no bound."""
        if lift not in self.lifts or day >= self.until:
            return None
        before = base_kg if self.kg is None else min(base_kg, self.kg.get(lift, 0.0))
        return before * self.share("load", day)

    def share(self, what: str, day: dt.date) -> float:
        """The share of the load, or of the volume, of before that the week of a day may hold."""
        low, step = (self.trade.value(f"pain_back_{what}_{name}") for name in ("low", "step"))
        return low + step * max(0, (day - self.settled).days // 7)


def read(
    found: tuple[EpisodeFact, ...], sets: pd.DataFrame, begin: dt.date, trade: Trade
) -> tuple[Back, ...]:
    """The ways back that are not over when a block begins."""
    backs = []
    for one in found:
        if one.settled is None:
            continue
        until = one.settled + dt.timedelta(days=int(trade.value("pain_back_days")))
        if until > begin:
            backs.append(_back(one, one.settled, until, sets, trade))
    return tuple(backs)


def _back(one: EpisodeFact, settled: dt.date, until: dt.date, sets: pd.DataFrame, trade: Trade) -> Back:
    start = stamp(one.start)
    days = int(trade.value("pain_usual_days"))
    rows = sets.loc[(sets["date"] < start) & (sets["date"] >= start - pd.Timedelta(days=days))]
    logged = bool(len(rows))
    rows = rows.loc[rows["lift"].isin(one.lifts) & (rows["tried"] > 0)]
    made = rows.loc[rows["made"] > 0].groupby("lift")["load_kg"].max()
    weeks = max(1, rows["week"].nunique())
    return Back(
        place=one.place,
        settled=settled,
        until=until,
        lifts=frozenset(one.lifts),
        kg={str(lift): float(kg) for lift, kg in made.items()} if logged else None,
        repetitions=float(rows["tried"].sum()) / weeks if logged else None,
        tonnage_kg=float((rows["load_kg"] * rows["tried"]).sum()) / weeks if logged else None,
        trade=trade,
    )
