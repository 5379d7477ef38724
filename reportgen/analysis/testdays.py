"""Test days: given in attempts.csv, or found in training; what each gave."""

from typing import Final, Literal

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.analysis.daily import Days
from reportgen.analysis.frames import arrays, best_within
from reportgen.analysis.when import date_of, to_days
from reportgen.model.lifter import LIFTER_TOML
from reportgen.model.peaks import TestDayFact
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

#: Why a test day has no taper, or no gain.
NOT_ENOUGH: Final = say("analysis.log.short")
#: What a test day is told from.
_SHOWN: Final = ["date", "kind", "event", "counts", "made_reps", "tried", "load_kg"]
#: Loads closer than this are the same load: pounds are converted.
_SAME_KG = 1e-6
Kind = Literal["contest", "test", "found"]


def find(
    sets: pd.DataFrame,
    scored: pd.DataFrame,
    *,
    lifts: tuple[str, ...],
    weeks_current: int,
    trade: Trade,
) -> tuple[TestDayFact, ...] | None:
    """Every test day of the log, given ones of all lifts, found ones of the goal's.

    A found test day is a day of training on which a limit was looked for: a single missed at 97 % of the
    current best or over, or a new best; ten days or more after the last such day or test day of the lift:
    more often than that it is a heavy day. Easy makes up to the best are training. The current best is the
    best of the `weeks_current` before; the reference where the log does not cover those weeks or they hold
    none. A set of several at a working weight that was never tested is no try at a limit.

    Returns:
        By date, the goal's lifts first; without tapers (`tapers.attach`). None where no test day is given
        and the reference of no goal lift was ever known.
    """
    given = sets.loc[sets["kind"] != "training", ["lift", *_SHOWN]]
    others = sorted(set(given["lift"]) - set(lifts))
    known = sets.loc[sets["lift"].isin(lifts), "reference_kg"].notna().any()
    if given.empty and not known:
        return None
    facts: list[TestDayFact] = []
    for lift in (*lifts, *others):
        rows = scored.loc[scored["lift"] == lift]
        best = _Bests.of(rows)
        mine = given.loc[given["lift"] == lift, _SHOWN]
        facts += [_fact(part, best, lift, trade) for _, part in mine.groupby("date", sort=True)]
        if lift in lifts:
            stamps = np.unique(to_days(mine["date"]))
            day = _found(sets, lift, rows, stamps, weeks_current, trade)
            facts += [_fact(part, best, lift, trade) for _, part in day[_SHOWN].groupby("date", sort=True)]
    order = {lift: place for place, lift in enumerate((*lifts, *others))}
    return tuple(sorted(facts, key=lambda fact: (fact.date, order[fact.lift])))


def _found(
    sets: pd.DataFrame, lift: str, scored: pd.DataFrame, given: Days, weeks_current: int, trade: Trade
) -> pd.DataFrame:
    """The tries of the found test days of one lift: singles at 90 % of the reference or the current best."""
    name, single, counts, tries, kind = arrays(sets, "lift", "single", "counts", "tried", "kind")
    asked = (name == lift) & single & counts & (tries > 0) & (kind == "training")
    mine: pd.DataFrame = sets.loc[asked, [*_SHOWN, "reference_kg", "missed", "share"]]
    if mine.empty:
        return mine
    top = mine.groupby("date", sort=True)[["load_kg", "reference_kg"]].max()
    days = to_days(top.index.to_series())
    best_days, best_kg = to_days(scored["date"]), scored["load_kg"].to_numpy(dtype=np.float64)
    current = best_within(best_days, best_kg, days, 7 * weeks_current)
    reference = top["reference_kg"].to_numpy(dtype=np.float64)
    # A log younger than that does not hold the current best; what is known from before it does.
    young = days - int(to_days(sets["date"])[name == lift][0]) < 7 * weeks_current
    current = np.where(young | np.isnan(current), np.fmax(current, reference), current)
    # Tries before the reference was known are no test days, yet a row of them is no row of tests either.
    stamps, load_kg = to_days(mine["date"]), mine["load_kg"].to_numpy(dtype=np.float64)
    now = current[np.searchsorted(days, stamps)]
    missed = (mine["missed"] > 0).to_numpy() & (load_kg >= trade.value("test_day_near") * now - _SAME_KG)
    best = (mine["made_reps"] > 0).to_numpy() & (load_kg > now + _SAME_KG)
    tried = np.unique(stamps[missed | best])
    apart = trade.value("test_days_apart")
    near = np.unique(np.concatenate([tried, given]))
    place = np.searchsorted(near, tried)
    since = tried - np.where(place > 0, near[np.maximum(place - 1, 0)], -(10**9))
    # A day near a given test day, before or after, belongs to it.
    after = np.searchsorted(given, tried)
    ahead = np.append(given, 10**9)[after] - tried
    chosen = np.setdiff1d(tried[(since >= apart) & (ahead >= apart)], days[np.isnan(reference)])
    heavy = (load_kg >= now - _SAME_KG) | (mine["share"] >= trade.value("heavy_share")).to_numpy()
    return mine.loc[heavy & np.isin(stamps, chosen)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bests:
    """The rows of one lift that can make a best (`bests.scoring`), as arrays: many days ask them."""

    day: Days
    load_kg: NDArray[np.float64]
    contest: NDArray[np.bool_]
    told: NDArray[np.bool_]  # an attempt, or from lifter.toml

    @classmethod
    def of(cls, rows: pd.DataFrame) -> "_Bests":
        """The rows as arrays."""
        kind = rows["kind"].to_numpy(dtype=object)
        return cls(
            day=to_days(rows["date"]),
            load_kg=rows["load_kg"].to_numpy(dtype=np.float64),
            contest=kind == "contest",
            told=(kind != "training") | (rows["file"].to_numpy(dtype=object) == LIFTER_TOML),
        )


def _fact(rows: pd.DataFrame, scored: _Bests, lift: str, trade: Trade) -> TestDayFact:
    """One test day of one lift from its tries."""
    day = int(to_days(rows["date"])[0])
    kind: Kind = "found" if rows["kind"].iloc[0] == "training" else rows["kind"].iloc[0]
    went = rows["counts"].to_numpy(dtype=bool) & (rows["made_reps"].to_numpy() > 0)
    best = _top(rows["load_kg"].to_numpy(dtype=np.float64)[went])
    before = scored.day < day
    known = _is_known(scored, before, day, trade)
    previous = _top(scored.load_kg[before])
    gain = best - previous if best is not None and previous is not None else None
    share = gain / previous if gain is not None and previous else None
    scatter = scatter_of(lift, trade)
    return TestDayFact(
        date=date_of(day),
        kind=kind,
        event=next((event for event in rows["event"] if event), ""),
        lift=lift,
        best_kg=best,
        previous_best_kg=previous,
        gain_kg=gain,
        gain_share=share,
        tried=int(rows["tried"].sum()),
        made=int(rows["made_reps"].sum()),
        taper=None,
        # What a young log holds are working loads: more than these is no gain yet.
        gain_missing="" if known else NOT_ENOUGH,
        noise=None if share is None or not known else abs(share) < scatter,
        scatter_share=scatter,
        previous_contest_kg=_top(scored.load_kg[before & scored.contest]),
        previous_training_kg=_top(scored.load_kg[before & ~scored.contest]),
    )


def _is_known(scored: _Bests, before: NDArray[np.bool_], day: int, trade: Trade) -> bool:
    """Whether a best before a day is known: from attempts, from lifter.toml, or after four weeks of log."""
    if not before.any():
        return False
    apart = day - int(scored.day[before].min())
    return bool(scored.told[before].any()) or apart >= trade.value("reference_known_days")


def _top(load_kg: NDArray[np.float64]) -> float | None:
    return float(load_kg.max()) if len(load_kg) else None


def scatter_of(lift: str, trade: Trade) -> float:
    """What a lift varies by within one lifter between contests, as a share; the snatch's for any other."""
    own = f"variation_{lift.replace(' ', '_')}"
    return trade.middle(own if own in trade.published else "variation_snatch")
