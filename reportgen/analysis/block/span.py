"""How long the block is, what each week is for, when the test day is and when the taper begins."""

import datetime as dt
import math
import statistics
from dataclasses import dataclass

import pandas as pd

from reportgen.analysis.block.setting import Setting
from reportgen.model import calendar


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """The block's frame.

    Attributes:
        kinds: What each week is for: return, work, light, taper.
        test_day: None where none is proposed.
        taper_start: First day of less; None without a taper.
        given: The test day is the goal's own date.
        notes: Why.
    """

    kinds: tuple[str, ...]
    test_day: dt.date | None
    taper_start: dt.date | None
    given: bool
    own_days: float | None
    own_cut: float | None
    notes: tuple[str, ...]

    @property
    def progress(self) -> tuple[float, ...]:
        """How far each week is on the way from the first week of work to the last; 0 in the others."""
        work = [index for index, kind in enumerate(self.kinds) if kind == "work"]
        steps = max(1, len(work) - 1)
        return tuple(
            work.index(index) / steps if kind == "work" else 1.0 if kind == "taper" and work else 0.0
            for index, kind in enumerate(self.kinds)
        )


def read(setting: Setting) -> Span:
    """Lay out the weeks.

    Args:
        setting: The lifter.

    Returns:
        One to eight weeks: four to eight, or up to the goal's date where it is nearer.
    """
    careful = setting.careful
    value = setting.trade.value
    most = int(value("block_weeks_high"))
    usual = min(most, int(value("block_weeks_usual")) + careful)
    if _test_soon(setting) and not careful:
        usual = int(value("block_weeks_test_soon"))
    if not testable(setting):
        note = () if setting.trust.stopped else (_why_not(setting),)
        return Span(
            kinds=layout(usual, careful, _every(setting), closing=False), test_day=None, taper_start=None,
            given=False, own_days=None, own_cut=None, notes=note,
        )  # fmt: skip
    day, given, notes = _day(setting, usual, careful, most)
    weeks = (day - setting.begin).days // 7 + 1
    days, own_days = _taper_days(setting)
    # A date too near for a whole taper: less is done from the first day on, and nothing is called a taper.
    start = max(setting.begin, day - dt.timedelta(days=days))
    middle = dt.timedelta(days=3)
    tapered = sum(setting.begin + dt.timedelta(days=7 * n) + middle >= start for n in range(weeks))
    kinds = layout(weeks - tapered, careful, _every(setting), closing=True) + ("taper",) * tapered
    return Span(
        kinds=kinds,
        test_day=day,
        taper_start=start,
        given=given,
        own_days=own_days,
        own_cut=_own(setting, "cut"),
        notes=tuple(notes),
    )


def layout(weeks: int, careful: int, every: int, *, closing: bool) -> tuple[str, ...]:
    """What each week before the taper is for.

    Args:
        weeks: Weeks before the taper, or all of them without one.
        careful: Of these the first, after a break.
        every: A light week comes at the latest as the `every`-th.
        closing: A taper follows, which is light itself.

    Returns:
        return, then runs of work of at most every - 1 weeks with a light week between.
    """
    careful = min(careful, weeks)
    rest = weeks - careful
    lights = max(0, math.ceil((rest + 1) / every) - 1) if closing else rest // every
    work = rest - lights
    runs: list[int] = []
    left = work
    for run in range(lights + 1):
        waiting = lights - run
        runs.append(min(every - 1, left - waiting) if closing else min(every - 1, left))
        left -= runs[-1]
    parts = [("work",) * run for run in runs]
    kinds: tuple[str, ...] = ("return",) * careful
    for index, part in enumerate(parts):
        kinds += part + (("light",) if index < lights else ())
    return kinds


def testable(setting: Setting) -> bool:
    """Whether a test day with heavy singles may be proposed at all."""
    return setting.trust.heavy and bool(setting.lifts) and setting.lifts == setting.goal_lifts


def _why_not(setting: Setting) -> str:
    if set(setting.goal_lifts) & setting.trust.doubted:
        return "No test day is proposed while a figure of the lift is not sure."
    if setting.lifts != setting.goal_lifts:
        return "No test day is proposed while a place that the lift loads hurts."
    if not setting.trust.young:
        return "No test day is proposed while nothing at 90 % and over is."
    return (
        "No test day is proposed: the lifter is or may be under 18, and that asks for qualified supervision "
        "and a year of log."
    )


def contest_day(setting: Setting) -> dt.date | None:
    """The goal's date, or a day of attempts that a file names, before the block would begin.

    The review day itself counts as long as nothing is logged on it.
    """
    as_of = setting.facts.as_of
    ahead = [setting.facts.goals[0].by, *_named_days(setting)]
    days = sorted(day for day in ahead if day is not None and as_of <= day < setting.begin)
    return next((day for day in days if day > as_of or setting.facts.span.last != as_of), None)


def _named_days(setting: Setting) -> list[dt.date]:
    """Days ahead with rows of attempts.csv, or with attempts in a plan."""
    sets, plan = setting.records.sets, setting.records.plan
    tries = sets.loc[sets["attempt"] > 0, "date"]
    planned = plan.loc[plan["remark"].str.contains(r"\battempt \d", regex=True), "date"]
    as_of = pd.Timestamp(setting.facts.as_of)
    return [stamp.date() for stamp in pd.concat([tries, planned]).unique() if stamp > as_of]


def _every(setting: Setting) -> int:
    return int(setting.trade.value("light_week_every_masters" if setting.trust.older else "light_week_every"))


def _test_soon(setting: Setting) -> bool:
    """The sure weight rises under a flat best."""
    sure = setting.facts.sure_weight
    newest = setting.facts.goals[0].current_date
    flat = dt.timedelta(days=int(setting.trade.value("test_soon_days")))
    return (
        sure is not None
        and sure.change_kg is not None
        and sure.change_kg >= setting.trade.value("sure_rise") * sure.kg
        and newest is not None
        and setting.facts.as_of - newest >= flat
        and not setting.chased
    )


def _day(setting: Setting, usual: int, careful: int, most: int) -> tuple[dt.date, bool, list[str]]:
    """The test day, whether it is the goal's date, and why."""
    by = setting.facts.goals[0].by
    begin = setting.begin
    if by is not None and by > setting.facts.as_of:
        first = begin + dt.timedelta(days=7 * careful)
        last = begin + dt.timedelta(days=7 * most - 1)
        if begin <= by <= last and by >= first:
            low = int(setting.trade.value("block_weeks_low"))
            weeks = (by - begin).days // 7 + 1
            near = [f"The goal's date is {calendar.day(by)}: the block ends there."]
            if weeks < low:
                near.append(f"That is {weeks} {'week' if weeks == 1 else 'weeks'} and no whole block.")
            return by, True, near
        why = (
            f"The goal's date, {calendar.day(by)}, comes before the block begins"
            + (", in the first weeks after a break or after pain." if careful else ".")
            if by < begin
            else f"The goal's date, {calendar.day(by)}, falls into the weeks after a break or pain."
            if by < first
            else f"The goal's date, {calendar.day(by)}, lies beyond this block, which ends in a test day."
        )
        return _sensible(setting, usual), False, [why]
    why = "No date is given" if by is None else f"The goal's date, {calendar.day(by)}, is over"
    return _sensible(setting, usual), False, [f"{why}: the test day is the end of the block."]


def _sensible(setting: Setting, weeks: int) -> dt.date:
    """The last training day of the last week on which the lifter is there."""
    week = setting.begin + dt.timedelta(days=7 * (weeks - 1))
    days = [week + dt.timedelta(days=day) for day in setting.rhythm.weekdays]
    there = [day for day in days if not setting.is_absent(day)]
    return (there or days)[-1]


def _taper_days(setting: Setting) -> tuple[int, float | None]:
    """Days of less: the lifter's own that paid, kept inside the bounds, else the usual number."""
    less = "_less_trained" if setting.rhythm.less_trained else ""
    low = setting.trade.value(f"taper_days_low{less}")
    high = setting.trade.value(f"taper_days_high{less}")
    own = _own(setting, "days")
    wanted = own if own is not None else setting.trade.value("taper_days_usual")
    return int(min(high, max(low, round(wanted)))), own


def _own(setting: Setting, what: str) -> float | None:
    """The median of the lifter's own tapers that gave in form what tapers usually give, or more.

    A best is luck as well: many a taper that helped ends without one.
    """
    usual = setting.trade.value("taper_gain")
    found: list[float] = []
    for day in setting.facts.test_days or ():
        if day.taper is None or (day.effect_share or 0.0) < usual or day.lift not in setting.goal_lifts:
            continue
        one = day.taper.days if what == "days" else day.taper.volume_cut
        if one is not None:
            found.append(float(one))
    return statistics.median(found) if found else None
