"""The form of a test day against the ability of the weeks before, and what a lifter's tapers give."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import pandas as pd

from reportgen.analysis import ability
from reportgen.analysis import tries as evidence
from reportgen.analysis.baseline import WEEK
from reportgen.analysis.tries import Tries
from reportgen.analysis.when import number_of, to_days
from reportgen.model.peaks import TaperEffect, TestDayFact
from reportgen.trade.schema import Trade


class Forms:
    """The tries of one lift, read once, asked for the form of one day after another."""

    def __init__(self, sets: pd.DataFrame, lift: str, trade: Trade) -> None:
        self._tries: Tries = evidence.read(sets, lift, trade)
        self._days = np.unique(to_days(sets["date"]))
        self._trade = trade

    def of(self, day: dt.date, *, start: dt.date | None = None) -> TaperEffect | None:
        """The form of a day: its tries against the ability of the weeks before.

        Args:
            day: A day with tries of the lift.
            start: First day of the taper before it; the ability is of the rows before that day.

        Returns:
            None where the day has no try, or the weeks before can't carry an ability.
        """
        trade, when = self._trade, number_of(day)
        mine = self._tries.upto(when, when)
        last = number_of(start or day) - 1
        trained = np.unique((last - self._days[self._days <= last]) // WEEK)
        known = ability.before(self._tries, day=last, ahead=when - last, trained=trained, trade=trade)
        if known is None or not len(mine):
            return None
        grid, chance = known
        step = trade.value("ability_step")
        reach = round(3.5 * trade.value("form_scatter") / step)
        wide = np.arange(-reach, len(grid) + reach) * step + grid[0]
        likely = evidence.by_day(mine, wide, trade)[1][0]
        flat = np.exp(likely - likely.max())
        windows = np.lib.stride_tricks.sliding_window_view(flat, len(grid), axis=1)
        forms = np.arange(-reach, reach + 1, dtype=np.float64) * step
        prior = np.exp(-0.5 * (forms / trade.value("form_scatter")) ** 2)
        held = prior * np.einsum("sfg,sg->f", windows, chance)
        held /= held.sum()
        low, high = ability.quantiles(forms, held, (0.025, 0.975))
        share = float(np.expm1(held @ forms))
        return TaperEffect(share=share, low=float(np.expm1(low)), high=float(np.expm1(high)), tapers=1)


def attach(tests: tuple[TestDayFact, ...], sets: pd.DataFrame, trade: Trade) -> tuple[TestDayFact, ...]:
    """Each test day with its form, where the weeks before carry an ability."""
    lifts = {lift: Forms(sets, lift, trade) for lift in {test.lift for test in tests}}
    result = []
    for test in tests:
        start = None if test.taper is None else test.taper.start
        found = lifts[test.lift].of(test.date, start=start)
        if found is not None:
            test = replace(test, effect_share=found.share, effect_low=found.low, effect_high=found.high)
        result.append(test)
    return tuple(result)


def told(test: TestDayFact) -> TaperEffect | None:
    """The form that a test day was given; None without one."""
    if test.effect_share is None or test.effect_low is None or test.effect_high is None:
        return None
    return TaperEffect(share=test.effect_share, low=test.effect_low, high=test.effect_high, tapers=1)


def pooled(effects: Iterable[TaperEffect], trade: Trade) -> TaperEffect:
    """What this lifter's tapers give: their test days' forms together with what tapers give others.

    Args:
        effects: Form of each test day that a taper led to.
        trade: Rules `taper_gain`, `taper_gain_scatter`, `form_scatter`, `ability_day_scatter`.

    Returns:
        With few tapers it lies near what they give others, and its range says how little is known.

    References:
        Mujika & Padilla 2003 for the others.
    """
    day, wide = trade.value("ability_day_scatter"), trade.value("form_scatter")
    centre, spread = trade.value("taper_gain"), trade.value("taper_gain_scatter")
    weight, total, count = 1 / spread**2, centre / spread**2, 0
    for one in effects:
        own = max(((one.high - one.low) / 3.92) ** 2, 1e-8)
        # The form told leans to nothing, as its prior did; here the prior is another one.
        told = max(1 / own - 1 / wide**2, 1e-6)
        value = one.share / own / told
        each = 1 / (1 / told + day**2)
        weight, total, count = weight + each, total + each * value, count + 1
    reach = 1.96 / np.sqrt(weight)
    share = total / weight
    return TaperEffect(share=share, low=share - float(reach), high=share + float(reach), tapers=count)
