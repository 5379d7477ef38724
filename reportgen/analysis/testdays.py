"""Test days: given in attempts.csv, or found in training; what each gave."""

from typing import Final, Literal

import numpy as np
import pandas as pd

from reportgen.analysis.daily import Days
from reportgen.analysis.frames import best_within
from reportgen.analysis.when import date_of, to_days
from reportgen.model.lifter import LIFTER_TOML
from reportgen.model.peaks import TestDayFact
from reportgen.model.say import say
from reportgen.trade.schema import Trade

#: Why a test day has no taper, or no gain.
NOT_ENOUGH: Final = say("analysis.log.short")
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
    given = sets.loc[sets["kind"] != "training"]
    others = sorted(set(given["lift"]) - set(lifts))
    known = sets.loc[sets["lift"].isin(lifts), "reference_kg"].notna().any()
    if given.empty and not known:
        return None
    facts: list[TestDayFact] = []
    for lift in (*lifts, *others):
        rows = scored.loc[scored["lift"] == lift]
        mine = given.loc[given["lift"] == lift]
        facts += [_fact(part, rows, lift, trade) for _, part in mine.groupby("date", sort=True)]
        if lift in lifts:
            stamps = np.unique(to_days(mine["date"]))
            day = _found(sets.loc[sets["lift"] == lift], rows, stamps, weeks_current, trade)
            facts += [_fact(part, rows, lift, trade) for _, part in day.groupby("date", sort=True)]
    order = {lift: place for place, lift in enumerate((*lifts, *others))}
    return tuple(sorted(facts, key=lambda fact: (fact.date, order[fact.lift])))


def _found(
    sets: pd.DataFrame, scored: pd.DataFrame, given: Days, weeks_current: int, trade: Trade
) -> pd.DataFrame:
    """The tries of the found test days of one lift: singles at 90 % of the reference or the current best."""
    mine = sets.loc[sets["single"] & sets["counts"] & (sets["tried"] > 0) & (sets["kind"] == "training")]
    if mine.empty:
        return mine
    top = mine.groupby("date", sort=True)[["load_kg", "reference_kg"]].max()
    days = to_days(top.index.to_series())
    best_days, best_kg = to_days(scored["date"]), scored["load_kg"].to_numpy(dtype=np.float64)
    current = best_within(best_days, best_kg, days, 7 * weeks_current)
    reference = top["reference_kg"].to_numpy(dtype=np.float64)
    # A log younger than that does not hold the current best; what is known from before it does.
    young = days - to_days(sets["date"])[0] < 7 * weeks_current
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


def _fact(rows: pd.DataFrame, scored: pd.DataFrame, lift: str, trade: Trade) -> TestDayFact:
    """One test day of one lift from its tries."""
    stamp = rows["date"].iloc[0]
    kind: Kind = "found" if rows["kind"].iloc[0] == "training" else rows["kind"].iloc[0]
    best = _top(rows.loc[rows["counts"] & (rows["made_reps"] > 0)])
    before = scored.loc[scored["date"] < stamp]
    known = _is_known(before, stamp, trade)
    contest = before["kind"] == "contest"
    previous = _top(before)
    gain = best - previous if best is not None and previous is not None else None
    share = gain / previous if gain is not None and previous else None
    scatter = scatter_of(lift, trade)
    return TestDayFact(
        date=date_of(int(to_days(rows["date"])[0])),
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
        previous_contest_kg=_top(before.loc[contest]),
        previous_training_kg=_top(before.loc[~contest]),
    )


def _is_known(before: pd.DataFrame, day: pd.Timestamp, trade: Trade) -> bool:
    """Whether a best before a day is known: from attempts, from lifter.toml, or after four weeks of log."""
    if before.empty:
        return False
    told = (before["kind"] != "training") | (before["file"] == LIFTER_TOML)
    apart: int = (day - before["date"].min()).days
    return bool(told.any()) or apart >= trade.value("reference_known_days")


def _top(rows: pd.DataFrame) -> float | None:
    return float(rows["load_kg"].max()) if len(rows) else None


def scatter_of(lift: str, trade: Trade) -> float:
    """What a lift varies by within one lifter between contests, as a share; the snatch's for any other."""
    own = f"variation_{lift.replace(' ', '_')}"
    return trade.middle(own if own in trade.published else "variation_snatch")
