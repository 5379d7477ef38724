"""Heavy days close together: three or more near-limit days within three weeks that gained nothing."""

import numpy as np
import pandas as pd

from reportgen.analysis.baseline import WEEK, Array, Mask
from reportgen.analysis.daily import Daily, Days, cost
from reportgen.analysis.frames import arrays
from reportgen.analysis.tapers import best_since
from reportgen.analysis.when import date_of, to_days
from reportgen.model.peaks import ChaseFact
from reportgen.trade.schema import Trade

_THURSDAY = 3  # 1970-01-01 was one


def find(
    sets: pd.DataFrame, scored: pd.DataFrame, daily: Daily | None, *, lifts: tuple[str, ...],
    counted: tuple[str, ...], trade: Trade,
) -> tuple[ChaseFact, ...] | None:  # fmt: skip
    """Every chase of the goals' lifts; what one of those lifts cost that `daily` counts.

    A heavy day holds a single tried at 97 % of that day's reference or more. Three or more of them within
    21 days are a chase if none of them raised the best, or if two or more of them hold a miss up there and
    raised nothing: who sets a best and misses the next one on the same day is not chasing. The last ten
    days before a contest and the contest's own week are left out, whatever was done in them.

    Returns:
        By start, the lifts in order; neighbouring chases that share a day are one. None where the
        reference of no goal lift was ever known.
    """
    if not sets.loc[sets["lift"].isin(lifts), "reference_kg"].notna().any():
        return None
    found: list[ChaseFact] = []
    for lift in lifts:
        days, missed, gain_kg = _heavy_days(sets, scored, lift, trade)
        for first, last in _runs(days, missed, gain_kg, trade):
            part = slice(first, last + 1)
            below, lost = (None, None)
            if daily is not None and lift in counted:
                below, lost = cost(daily, int(days[first]), int(days[last]) + 1, trade)
            found.append(
                ChaseFact(
                    start=date_of(days[first]),
                    end=date_of(days[last]),
                    heavy_days=last - first + 1,
                    missed_days=int(missed[part].sum()),
                    gain_kg=float(gain_kg[part].sum()),
                    lift=lift,
                    weeks_below=below,
                    full_lost=lost,
                    best_since_kg=best_since(scored, lift, int(days[last])),
                )
            )
    return tuple(sorted(found, key=lambda fact: (fact.start, lifts.index(fact.lift))))


def close(sets: pd.DataFrame, scored: pd.DataFrame, lifts: tuple[str, ...], trade: Trade) -> Days:
    """Heavy days of one lift, three or more within `chase_close_days` without a gain, time after time.

    A row of windows that overlap counts from `chase_close_row` days up: a week's peak or two are training.
    """
    found: set[int] = set()
    for lift in lifts:
        days, _, gain_kg = _heavy_days(sets, scored, lift, trade)
        row = range(0)
        for first, after in enumerate(np.searchsorted(days, days + trade.value("chase_close_days"), "right")):
            if after - first < trade.value("chase_heavy_days") or gain_kg[first:after].sum() > 0:
                continue
            row = range(row.start if first in row else first, after)
            if len(row) >= trade.value("chase_close_row"):
                found.update(days[row.start : row.stop].tolist())
    return np.array(sorted(found), dtype=np.int64)


def _heavy_days(
    every: pd.DataFrame, scored: pd.DataFrame, lift: str, trade: Trade
) -> tuple[Days, Mask, Array]:
    """The heavy days of one lift, whether each only missed up there, and what each added to the best [kg].

    Those of a contest's own week and right before it are left out.
    """
    name, single, tried, share, missed, kind = arrays(
        every, "lift", "single", "tried", "share", "missed", "kind"
    )
    day, near = to_days(every["date"]), (name == lift) & single & (tried > 0)
    near &= share >= trade.value("chase_share")
    days, failed = np.unique(day[near]), np.unique(day[near & (missed > 0)])
    mine = scored["lift"].to_numpy() == lift
    dates, place = np.unique(to_days(scored["date"])[mine], return_inverse=True)
    tops = np.full(len(dates), -np.inf)
    np.maximum.at(tops, place, scored["load_kg"].to_numpy()[mine])
    raised = np.diff(np.maximum.accumulate(tops), prepend=np.nan)
    place = np.searchsorted(dates, days)
    there = np.append(dates, -1)[place] == days
    # The first day of all adds nothing: there was no best to raise.
    gain_kg = np.where(there, np.nan_to_num(np.append(raised, 0.0)[place]), 0.0)
    free = ~_peaking(days, np.unique(day[kind == "contest"]), trade)
    return days[free], (np.isin(days, failed) & (gain_kg <= 0))[free], gain_kg[free]


def _peaking(days: Days, contests: Days, trade: Trade) -> Mask:
    """Days of a contest's own week and the ten days before it."""
    found = np.zeros(len(days), dtype=bool)
    for contest in contests:
        sunday = contest + (WEEK - 1 - (contest + _THURSDAY) % WEEK)
        monday = sunday - (WEEK - 1)
        found |= (days >= min(monday, contest - trade.value("chase_contest_days"))) & (days <= sunday)
    return found


def _runs(days: Days, missed: Mask, gain_kg: Array, trade: Trade) -> list[tuple[int, int]]:
    """First and last index of each chase: windows that qualify, joined where they share a day."""
    span, least = trade.value("chase_days"), int(trade.value("chase_heavy_days"))
    runs: list[tuple[int, int]] = []
    for first in range(len(days)):
        after = int(np.searchsorted(days, days[first] + span, side="right"))
        for last in range(after - 1, first + least - 2, -1):
            part = slice(first, last + 1)
            if gain_kg[part].sum() > 0 and missed[part].sum() < trade.value("chase_missed_days"):
                continue
            if runs and first <= runs[-1][1]:
                runs[-1] = (runs[-1][0], max(last, runs[-1][1]))
            else:
                runs.append((first, last))
            break
    return runs
