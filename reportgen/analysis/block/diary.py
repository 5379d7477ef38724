"""Which day holds what: the roles of the weekdays, the days of heavy singles, the last heavy days."""

import datetime as dt
from dataclasses import dataclass

from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Roles:
    """What each training weekday is for, 0 = Monday; -1 = no such day.

    Attributes:
        single: Heavy singles.
        full: Every day with the full lift, `single` among them.
        derivative, other: The derivative and the other classic lift, on a day of their own if there is one.
        squat, easy_squat: Squats.
        pull: Pulls.
        spare: Days that none of these has: a further derivative.
    """

    single: int
    full: tuple[int, ...]
    derivative: int
    other: int
    squat: int
    easy_squat: int
    pull: tuple[int, ...]
    spare: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Diary:
    """The block's days.

    Attributes:
        singles: Days with singles at 90 % and over.
        last_pull, last_squat: Last days on which these may be heavy; None without a test day.
    """

    roles: Roles
    singles: frozenset[dt.date]
    test_day: dt.date | None
    last_pull: dt.date | None
    last_squat: dt.date | None

    def before_test(self, day: dt.date) -> int | None:
        """Days left to the test day."""
        return (self.test_day - day).days if self.test_day is not None else None


def roles(setting: Setting) -> Roles:
    """Give each of the lifter's weekdays what it is for.

    Heavy singles come after the longest rest, heavy squats never on the day before them, the other days
    with the full lift as far apart as they go.
    """
    days = setting.rhythm.weekdays
    count = len(days)
    rest = [(days[n] - days[n - 1]) % 7 or 7 for n in range(count)]
    first = max(range(count), key=lambda n: (rest[n], -n))
    turned = [days[(first + n) % count] for n in range(count)]
    wanted = min(setting.rhythm.full, count) if setting.lifts else 0
    full = [turned[round(n * count / wanted)] for n in range(wanted)]
    free = [day for day in turned if day not in full]
    eve = (turned[0] - 1) % 7
    derivative = free[0] if free else turned[-1]
    other = free[1] if len(free) > 1 else derivative
    squats = [day for day in (*full[1:], *turned) if day != eve] or [turned[0]]
    squat = squats[0]
    # The day next to the heavy squats would be no rest: the day furthest from them is best, if any is free.
    apart = {day: min((day - squat) % 7, (squat - day) % 7) for day in turned}
    easy = sorted((day for day in turned if day != eve and apart[day] > 1), key=lambda day: -apart[day])
    pull = [day for day in (derivative, other) if day in free] or list(turned[1:2] or turned)
    return Roles(
        single=turned[0],
        full=tuple(full),
        derivative=derivative,
        other=other,
        squat=squat,
        easy_squat=(easy or [-1])[0],
        pull=tuple(dict.fromkeys(pull)),
        spare=tuple(free[2:]),
    )


def dates(setting: Setting, week: int, span: Span) -> tuple[dt.date, ...]:
    """The training days of one week, without those that away.csv names and those from the test day on."""
    start = setting.begin + dt.timedelta(days=7 * week)
    found = [start + dt.timedelta(days=day) for day in setting.rhythm.weekdays]
    stop = None if span.test_day is None else span.test_day
    return tuple(day for day in found if not setting.is_absent(day) and (stop is None or day < stop))


def plan(setting: Setting, span: Span) -> Diary:
    """Lay the heavy days.

    Args:
        setting: The lifter.
        span: The block's frame.

    Returns:
        The diary. Heavy singles are counted back from the last near-limit day before the test, or on from
        the first week of work, so many days apart as the lifter's age asks.
    """
    what = roles(setting)
    value = setting.trade.value
    every = [day for week in range(len(span.kinds)) for day in dates(setting, week, span)]
    kinds = {day: span.kinds[(day - setting.begin).days // 7] for day in every}
    gap = int(value("masters_single_days_low" if setting.trust.older else "heavy_single_days"))
    test = span.test_day
    stop = int(value("taper_stop_days"))
    usable = [day for day in every if test is None or (test - day).days > stop]
    candidates = [day for day in usable if day.weekday() == what.single and kinds[day] != "return"]
    if not setting.trust.heavy or not setting.lifts:
        candidates = []
    chosen: list[dt.date] = []
    if test is not None:
        last = _last(
            [day for day in usable if day.weekday() in what.full and kinds[day] != "return"],
            test, "last_near_limit_days", setting, (what.single,),
        )  # fmt: skip
        candidates = sorted({*candidates, *([last] if last else [])}, reverse=True)
        least = int(value("last_near_limit_days_low"))
        for day in candidates:
            if (test - day).days >= least and (not chosen or (chosen[-1] - day).days >= gap):
                chosen.append(day)
    else:
        for day in candidates:
            if not chosen or (day - chosen[-1]).days >= gap:
                chosen.append(day)
    singles = frozenset(chosen)
    free = [day for day in usable if day + dt.timedelta(days=1) not in singles]
    return Diary(
        roles=what,
        singles=singles,
        test_day=test,
        last_pull=_last(usable, test, "last_heavy_pull_days", setting, what.pull) if test else None,
        last_squat=_last(free, test, "last_heavy_squat_days", setting, (what.squat,)) if test else None,
    )


def _last(
    days: list[dt.date], test: dt.date, rule: str, setting: Setting, usual: tuple[int, ...] = ()
) -> dt.date | None:
    """The day of the last heavy work: inside the range before the test, on a usual weekday if possible."""
    least, most = (int(setting.trade.value(f"{rule}_{edge}")) for edge in ("low", "high"))
    early = [day for day in days if (test - day).days >= least]
    inside = [day for day in early if (test - day).days <= most]
    return max([day for day in inside if day.weekday() in usual] or inside or early, default=None)
