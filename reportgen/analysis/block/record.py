"""What was ever lifted: no proposed set goes above it, nor above what it implies for so many repetitions."""

from collections.abc import Mapping

import pandas as pd

from reportgen.analysis import frames
from reportgen.model.lifter import PriorBest
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

_PULL = "pull"


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """Lift -> repetitions of one set -> heaviest load made with at least so many, over all time."""

    made: Mapping[str, Mapping[int, float]]

    def most_kg(self, lift: str, reps: int, of: str, base_kg: float, trade: Trade) -> float:
        """The most that the record supports for one set of a lift.

        Args:
            lift: The lift.
            reps: Repetitions a set.
            of: The lift that its load is taken from, "" = its own.
            base_kg: What it is begun from where it was never done.
            trade: Rules and the load chart.

        Returns:
            The heaviest load made with so many repetitions, or what heavier sets of fewer imply for them; for
            a lift never done what it is begun from, and no more than the best of the lift that it comes from.
        """
        mine = self.made.get(lift, {})
        if not mine:
            from_kg = min(base_kg, self.made.get(of, {}).get(1, base_kg))
            return from_kg * implied(lift, 1, reps, trade)
        return max(kg * implied(lift, done, reps, trade) for done, kg in mine.items())


def implied(lift: str, done: int, reps: int, trade: Trade) -> float:
    """What a load made for `done` repetitions says of `reps`, as a share of it; never more than the load.

    Classic and overhead lifts by the lower ends of double and triple, further ones by the chart from there.
    """
    if reps <= done:
        return 1.0
    return _share(lift, reps, trade) / _share(lift, done, trade)


def _share(lift: str, reps: int, trade: Trade) -> float:
    """The careful share of the single for so many repetitions."""
    chart = min((s for n in range(1, reps + 1) if (s := trade.reps_table.get(n))), default=1.0)
    of = trade.lifts[lift]
    if not (of.classic or of.role == "overhead") or reps == 1:
        return chart
    return min(chart, trade.value("double_share_low" if reps == 2 else "triple_share_low"))


def read(sets: pd.DataFrame, bests: tuple[PriorBest, ...], trade: Trade) -> Record:
    """Read what was ever made.

    Args:
        sets: Prepared sets up to the review day; variants are left out, straps count for pulls only.
        bests: Bests from before the log.
        trade: Lifts: a clean or a jerk is done in every clean and jerk.
    """
    plain = sets.loc[
        (sets["variant"] == "") & (sets["made"] > 0) & (sets["counts"] | (sets["role"] == _PULL)),
        ["lift", "made", "load_kg"],
    ]
    top = plain.groupby(["lift", "made"], as_index=False)[["load_kg"]].max()
    found: dict[str, dict[int, float]] = {}
    for row in frames.each(top):
        found.setdefault(str(row.lift), {})[int(row.made)] = float(row.load_kg)
    for best in bests:
        if pd.Timestamp(best.date) <= (sets["date"].max() if len(sets) else pd.Timestamp(best.date)):
            mine = found.setdefault(best.lift, {})
            mine[1] = max(best.kg, mine.get(1, 0.0))
    for name, lift in trade.lifts.items():
        if lift.role == "part" and lift.family in found:
            whole = found[lift.family]
            mine = found.setdefault(name, {})
            for reps, kg in whole.items():
                mine[reps] = max(kg, mine.get(reps, 0.0))
    return Record(made=found)
