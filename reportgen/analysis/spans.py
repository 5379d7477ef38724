"""The days before an event against the usual days before them."""

from itertools import pairwise

import pandas as pd

from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Spans:
    """The days from `since` up to an event, and the usual ones from `usual` up to these."""

    usual: pd.Timestamp
    since: pd.Timestamp
    start: pd.Timestamp

    def share(self, by_day: pd.Series) -> float | None:
        """A sum by day over the days before, as a share of what as many usual days hold."""
        edges = by_day.index.searchsorted([self.usual, self.since, self.start])
        then, now = (float(by_day.to_numpy()[one:other].sum()) for one, other in pairwise(edges))
        days, long = (self.start - self.since).days, (self.since - self.usual).days
        return now / (then * days / long) if then > 0 else None

    def sides(self, rows: pd.DataFrame, column: str) -> tuple[set[str], set[str]]:
        """What was done in the usual days, and what in the days before the event."""
        date, cell = rows["date"].to_numpy(), rows[column].to_numpy(dtype=object)
        edges = [one.to_numpy() for one in (self.usual, self.since, self.start)]
        then, now = (set(cell[(date >= one) & (date < other)]) for one, other in pairwise(edges))
        return then, now


def spans(start: pd.Timestamp, days: float, first: pd.Timestamp, trade: Trade) -> Spans | None:
    """The spans of an event; None where too little log lies before it to say what is usual.

    Args:
        start: The event's day.
        days: So many before it are looked at.
        first: First day of the log; NaT of an empty one.
        trade: Rules.
    """
    if pd.isna(first):
        return None
    since = start - pd.Timedelta(days=int(days))
    usual = max(since - pd.Timedelta(days=int(trade.value("pain_usual_days"))), first)
    if (since - usual).days < trade.value("pain_usual_least_days"):
        return None
    return Spans(usual=usual, since=since, start=start)


def tonnage(sets: pd.DataFrame) -> pd.DataFrame:
    """Kilograms by day and lift: date, lift, kg."""
    done = sets.loc[sets["tried"] > 0]
    return (
        (done["load_kg"] * done["tried"]).groupby([done["date"], done["lift"]]).sum().reset_index(name="kg")
    )
