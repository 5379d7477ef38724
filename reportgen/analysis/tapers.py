"""The taper before each test day, found from the log; what it cost and what it gave."""

import datetime as dt
import math
from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np
import pandas as pd

from reportgen.analysis import onset
from reportgen.analysis.baseline import WEEK, Array, Mask
from reportgen.analysis.daily import Daily, Days, cost
from reportgen.analysis.testdays import NOT_ENOUGH
from reportgen.analysis.when import date_of, number_of, to_days
from reportgen.model import tables
from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

NONE = TaperFact(start=None, days=None, volume_cut=None, load_change=None, reading="none")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Windows:
    """The 70 days before each of T test days, (T, 70) each."""

    days: Days  # (T,) the test days, since 1970
    index: Days
    kg: Array
    usable: Mask
    enough: Mask  # (T,)


def attach(
    tests: tuple[TestDayFact, ...], daily: Daily | None, scored: pd.DataFrame, trade: Trade
) -> tuple[TestDayFact, ...]:
    """Each test day with the taper before it.

    Args:
        tests: Test days by date.
        daily: One value a day; None for an empty log.
        scored: Rows that can make a best, for the best since.
        trade: Rules `taper_*`.

    Returns:
        The same test days. `taper` stays None, with `taper_missing` saying why, where fewer than four of
        the six weeks of days 29 to 70 before hold training.

    References:
        The onset: `analysis.onset`. Readings: Winwood et al. 2023, Travis et al. 2020 and 2021.
    """
    if not tests or daily is None:
        return tuple(replace(test, taper_missing=NOT_ENOUGH) for test in tests)
    windows = _windows(tests, daily, trade)
    found = onset.find(windows.kg, windows.usable, trade)
    place = {day: number for number, day in enumerate(windows.days.tolist())}
    result = []
    for test in tests:
        case = place[number_of(test.date)]
        if not windows.enough[case]:
            result.append(replace(test, taper_missing=NOT_ENOUGH))
            continue
        taper = _taper(case, windows, found, daily, trade)
        result.append(replace(test, taper=_costed(taper, test, tests, daily, scored, trade)))
    return tuple(result)


def _windows(tests: tuple[TestDayFact, ...], daily: Daily, trade: Trade) -> _Windows:
    days = np.unique([number_of(test.date) for test in tests])
    index = daily.before(days, onset.SPAN)
    tested = np.zeros(len(daily.kg), dtype=bool)
    inside = days - daily.first
    tested[inside[(inside >= 0) & (inside < len(tested))]] = True
    kg = np.where(daily.known[index], daily.kg[index], 0.0)
    # Another test day is no training day: it says nothing of usual load, nor of a taper.
    usable = daily.known[index] & ~daily.away[index] & ~tested[index]
    weeks = (kg[:, : onset.BASE].reshape(len(days), -1, WEEK) > 0).any(axis=2).sum(axis=1)
    enough = weeks >= trade.value("taper_before_weeks")
    return _Windows(
        days=days,
        index=index,
        kg=np.where(enough[:, None], kg, 0.0),
        usable=usable & enough[:, None],
        enough=enough,
    )


def _taper(case: int, windows: _Windows, found: onset.Onset, daily: Daily, trade: Trade) -> TaperFact:
    open_days, stands_for = found.usable[case], found.stands_for[case : case + 1]
    base, tail = windows.index[case, : onset.BASE], windows.index[case, onset.BASE :]
    expected = onset.expected_on(found.base.expected_kg[case : case + 1], stands_for)[0]
    whole = int(found.days[case])
    weekday = date_of(int(windows.days[case])).weekday()
    days = _last_fall(daily.kg[tail], expected, open_days, whole, weekday, trade)
    if not days:
        return NONE
    inside = _from(onset.TAIL - days) & open_days
    weight = windows.usable[case, : onset.BASE].reshape(-1, WEEK) * found.base.usual[case][:6]

    def cut(kg: Array) -> float | None:
        loads = kg[base].reshape(-1, WEEK)
        usual = (loads * weight).sum(axis=0) / np.maximum(weight.sum(axis=0), 1e-9)
        return _cut(kg[tail], onset.expected_on(usual[None], stands_for)[0], inside)

    less = float(found.cut[case]) if days == whole else _cut(daily.kg[tail], expected, inside) or 0.0
    # Attempts of another test day are no training loads.
    tops = np.where(windows.usable[case], daily.top_share[windows.index[case]], np.nan)
    change = _load_change(tops[: onset.BASE], tops[-days:])
    return TaperFact(
        start=date_of(int(windows.days[case]) - days),
        days=days,
        volume_cut=less,
        cut_reading=cut_reading(less, trade),
        load_change=change,
        load_kept=load_kept(change, trade),
        reading=reading(days, trade),
        shape="ramp" if found.ramp[case] and days == whole else "step",
        volume_cut_classic=cut(daily.classic_kg),
        volume_cut_strength=cut(daily.strength_kg),
        cuts_by_week=_by_week(daily.kg[tail], expected, open_days, days),
        scatter_share=float(found.spread[case]),
    )


def _from(first: int) -> Mask:
    """The days of the search from one on."""
    found: Mask = np.arange(onset.TAIL) >= first
    return found


def _by_week(done_kg: Array, expected_kg: Array, open_days: Mask, days: int) -> tuple[float | None, ...]:
    """The cut of every seven of the last so many days; the last of them may be fewer."""
    weeks = range(onset.TAIL - days, onset.TAIL, WEEK)
    return tuple(
        _cut(done_kg, expected_kg, _from(first) & ~_from(first + WEEK) & open_days) for first in weeks
    )


def _last_fall(
    done_kg: Array, expected_kg: Array, open_days: Mask, days: int, weekday: int, trade: Trade
) -> int:
    """Days of the taper proper: where a long run of less work holds a block, only its last fall is one.

    A light week with work after it, or weeks at one level somewhat below the usual and then far less: that is
    a block with a taper at its end, and nothing was drawn out. So who followed the printed page of a proposal
    has a taper about as long as it wrote.

    Returns:
        `days` where no block lies inside; 0 where one does and nothing fell after it.
    """
    if days <= trade.value("taper_long_days"):
        return days
    # A session that fell out makes no light week: of each week the sessions that were held are asked.
    held = open_days & (done_kg > 0)
    # Weeks begin on Mondays, as a block's do; day 0 is of the test day's own weekday.
    weeks, done = list[int](), list[float]()
    for first in range(-weekday, onset.TAIL, WEEK):
        cut = _cut(done_kg, expected_kg, _from(first) & ~_from(first + WEEK) & held)
        if first + WEEK > onset.TAIL - days and cut is not None:
            weeks.append(first)
            done.append(1 - cut)
    if len(done) < 2:
        return days
    step = 1 + trade.value("taper_came_back")
    back = [n + 1 for n, (one, after) in enumerate(pairwise(done)) if after >= step * one]
    *level, last = done
    flat = max(level) - min(level) <= trade.value("taper_level_flat")
    if not back and not (flat and 1 - last >= trade.value("taper_level_fell") * (1 - min(level))):
        return days
    # The last fall begins with the session that parts what lies before it from what follows most.
    kg, wanted = done_kg * open_days, expected_kg * open_days
    begins = max(0, weeks[back[-1] if back else 0])
    gate = trade.value("taper_cut_gate")
    most, found = 0.0, 0
    for first in np.flatnonzero(wanted).tolist():
        work, rest = float(wanted[begins:first].sum()), float(wanted[first:].sum())
        if work > 0 and rest > 0:
            fell = float(kg[begins:first].sum()) / work - float(kg[first:].sum()) / rest
            if fell >= gate and fell**2 * work * rest > most:
                most, found = fell**2 * work * rest, onset.TAIL - first
    return found


def _cut(done_kg: Array, expected_kg: Array, inside: Mask) -> float | None:
    """Share below the expected load of the days inside; None where nothing was expected."""
    expected = float((expected_kg * inside).sum())
    return 1 - float((done_kg * inside).sum()) / expected if expected > 0 else None


def reading(days: int, trade: Trade) -> Literal["short", "usual", "long"]:
    """The word for a taper's length: short under 5 days, usual up to 21, long over them."""
    if days < trade.value("taper_short_days"):
        return "short"
    return "long" if days > trade.value("taper_long_days") else "usual"


def cut_reading(volume_cut: float, trade: Trade) -> Literal["small", "usual", "deep"]:
    """The word for a taper's cut; the edges belong to what is usual."""
    if volume_cut < trade.value("taper_cut_low"):
        return "small"
    return "deep" if volume_cut > trade.value("taper_cut_high") else "usual"


def load_kept(change: float | None, trade: Trade) -> bool | None:
    """Whether the top load stayed what it was; None where it is not known."""
    return None if change is None else abs(change) <= trade.value("taper_load_kept")


def _load_change(before: Array, inside: Array) -> float | None:
    """Top share of the goal lift in the taper against the median weekly top of the weeks before."""
    tops = [float(np.nanmax(week)) for week in before.reshape(-1, WEEK) if not np.isnan(week).all()]
    if not tops or np.isnan(inside).all():
        return None
    return float(np.nanmax(inside)) / float(np.median(tops)) - 1


def _costed(
    taper: TaperFact,
    test: TestDayFact,
    tests: tuple[TestDayFact, ...],
    daily: Daily,
    scored: pd.DataFrame,
    trade: Trade,
) -> TaperFact:
    """A taper that was drawn out, with why and what it cost."""
    if taper.start is None:
        return taper
    end = number_of(test.date)
    if _proposed(daily, number_of(taper.start), end, trade):
        return taper
    moved = _moved_on(taper.start, test, tests, trade)
    below, lost = cost(daily, number_of(taper.start), end, trade)
    # A block that asks for somewhat less than the weeks before it, with a taper at its end, reads as long
    # from its first day on; drawn out is only what keeps the work well down for as many weeks.
    down = below is None or below * WEEK >= trade.value("taper_long_days")
    why = "over 21 days" if taper.reading == "long" and down else "day moved on" if moved else ""
    if not why:
        return taper
    return replace(
        taper,
        prolonged=why,
        weeks_below=below,
        full_lost=lost,
        best_since_kg=best_since(scored, test.lift, end),
    )


def _moved_on(start: dt.date, test: TestDayFact, tests: tuple[TestDayFact, ...], trade: Trade) -> bool:
    """Whether an earlier test lies inside, and so the load stayed down from before it.

    A contest in between is its own peak; a test over two days, a lift on each, is one.
    """
    apart = trade.value("test_days_together")
    return any(
        one.kind != "contest" and start < one.date and (test.date - one.date).days > apart for one in tests
    )


def _proposed(daily: Daily, start: int, end: int, trade: Trade) -> bool:
    """Whether most of the days trained from `start` to before `end` lie in weeks that we laid out."""
    inside = slice(start - daily.first, end - daily.first)
    trained = daily.kg[inside] > 0
    ours = float((trained & daily.proposed[inside]).sum())
    return ours > trade.value("taper_proposed_share") * float(trained.sum())


def best_since(scored: pd.DataFrame, lift: str, day: int) -> float | None:
    """Heaviest made load of a lift after a day (since 1970) [kg]; None without one."""
    rows = scored.loc[(scored["lift"] == lift).to_numpy() & (to_days(scored["date"]) > day), "load_kg"]
    return float(rows.max()) if len(rows) else None


def aligned(tests: tuple[TestDayFact, ...], daily: Daily | None, trade: Trade) -> pd.DataFrame:
    """The days around each test day for the figure: what was lifted beside what was expected.

    Returns:
        Columns `model.tables.ALIGNED`. Days before the log and after the review day are left out.
    """
    if not tests or daily is None:
        return tables.empty(tables.ALIGNED)
    windows = _windows(tests, daily, trade)
    base = onset.usual(windows.kg, windows.usable, trade)
    offsets = np.arange(int(trade.value("aligned_first")), int(trade.value("aligned_last")) + 1)
    tapers = {test.date: test.taper for test in tests}
    frames = []
    for case, day in enumerate(windows.days.tolist()):
        place = day + offsets - daily.first
        inside = (place >= daily.margin) & (place < len(daily.kg) - 1)
        taper = tapers[date_of(day)]
        days = taper.days if taper is not None and taper.days is not None else 0
        expected = base.expected_kg[case][offsets % WEEK]
        frames.append(
            pd.DataFrame(
                {
                    "test": np.datetime64(date_of(day), "s"),
                    "day": offsets[inside],
                    "load_kg": daily.kg[place[inside]],
                    "expected_kg": np.where(windows.enough[case], expected, math.nan)[inside],
                    "taper": ((offsets >= -days) & (offsets < 0))[inside],
                    "away": daily.away[place[inside]],
                }
            )
        )
    return pd.concat(frames, ignore_index=True)
