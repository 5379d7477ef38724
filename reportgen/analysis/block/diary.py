"""Which day holds what: the roles of the weekdays, the days of heavy singles, where the usual work stands."""

import datetime as dt
from collections.abc import Mapping
from itertools import combinations

from reportgen.analysis.baseline import WEEK
from reportgen.analysis.block.carried import Usual, half_up
from reportgen.analysis.block.setting import SQUATS, Setting
from reportgen.analysis.block.span import Span
from reportgen.model.values import dataclass

#: Groups whose lifts stay in with their usual work; a raised one comes in anew.
KEPT = ("overhead", "pull", *SQUATS, "press", "back")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A lift of the usual work on one weekday with its repetitions; its first day of a week is heavier."""

    usual: Usual
    heavy: bool
    repetitions: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Diary:
    """What each training weekday is for, 0 = Monday, and the days of heavy singles.

    Attributes:
        single: The weekday of heavy singles.
        full: Every weekday with the full lift, `single` first.
        derivative, other: The derivative and the other classic lift; -1 = no such day.
        second: A further weekday for each of these: (derivative, other); -1 = none.
        kept: Weekday -> lifts of the usual work.
        singles: Dates with singles at 90 % and over.
    """

    single: int
    full: tuple[int, ...]
    derivative: int
    other: int
    second: tuple[int, int]
    kept: Mapping[int, tuple[Kept, ...]]
    singles: frozenset[dt.date]
    test_day: dt.date | None

    def before_test(self, day: dt.date) -> int | None:
        """Days left to the test day."""
        return (self.test_day - day).days if self.test_day is not None else None


def plan(setting: Setting, span: Span) -> Diary:
    """Give each of the lifter's weekdays what it is for, and lay the heavy days.

    Args:
        setting: The lifter.
        span: The block's frame.

    Returns:
        Heavy singles come after the longest rest, or where the last of them lies in its range before the
        test; the other days with the full lift as far apart as they go; all else on its own usual weekdays.
    """
    days = setting.carried.weekdays
    count = len(days)
    single = _single(setting, span)
    turned = [days[(days.index(single) + n) % count] for n in range(count)]
    wanted = min(setting.carried.full, count) if setting.lifts else 0
    full = _apart(turned, wanted)
    free = [day for day in turned if day not in full]
    derivative = free[0] if free else turned[-1]
    other = free[1] if len(free) > 1 else next((day for day in turned[1:] if day != derivative), derivative)
    left = [*free[2:], *(day for day in turned[1:] if day not in (derivative, other, *free[2:]))]
    twice = [_days(setting, group) > 3 / 2 for group in ("derivative", "other")]
    spare = (
        left[0] if left and (twice[0] or len(free) > 2) else -1,
        next((day for day in (*left[1:2], *full[1:]) if day != other), -1) if twice[1] else -1,
    )
    return Diary(
        single=single,
        full=tuple(full),
        derivative=derivative,
        other=other,
        second=spare,
        kept=_kept(setting, turned),
        singles=_singles(setting, span, single),
        test_day=span.test_day,
    )


def _apart(turned: list[int], wanted: int) -> tuple[int, ...]:
    """So many of the weekdays, the first among them, with as few next to each other as can be."""

    def rests(days: tuple[int, ...]) -> list[int]:
        return sorted((after - day) % 7 or 7 for day, after in zip(days, (*days[1:], *days[:1]), strict=True))

    even = tuple(turned[round(n * len(turned) / wanted)] for n in range(wanted))
    others = ((turned[0], *more) for more in combinations(turned[1:], wanted - 1)) if wanted else ()
    return max((even, *others), key=rests)


def dates(setting: Setting, week: int, span: Span) -> tuple[dt.date, ...]:
    """The training days of one week, without those that away.csv names and those from the test day on."""
    start = setting.begin + dt.timedelta(days=7 * week)
    found = [start + dt.timedelta(days=day) for day in setting.carried.weekdays]
    return tuple(
        day
        for day in found
        if not setting.is_absent(day)
        and day not in setting.given_days
        and (span.test_day is None or day < span.test_day)
    )


def _single(setting: Setting, span: Span) -> int:
    """The weekday of heavy singles: after the longest rest, of those that lie right before the test day."""
    days = setting.carried.weekdays
    rest = {day: (day - days[n - 1]) % 7 or 7 for n, day in enumerate(days)}
    low, high = (int(setting.trade.value(f"last_near_limit_days_{edge}")) for edge in ("low", "high"))
    near = days
    if span.test_day is not None:
        at = span.test_day.weekday()
        near = tuple(day for day in days if low <= ((at - day) % 7 or 7) <= high) or days
    return max(near, key=lambda day: (rest[day], -day))


def _singles(setting: Setting, span: Span, single: int) -> frozenset[dt.date]:
    """Dates of heavy singles: counted back from the test, or on from the first week of work.

    Where they lie more than a week apart the last of them comes right before the taper, in which no session
    is heavier than that of the week before.
    """
    if not setting.trust.heavy or not setting.lifts:
        return frozenset()
    value = setting.trade.value
    gap = int(value("masters_single_days_low" if setting.trust.older else "heavy_single_days"))
    least = int(value("last_near_limit_days_low"))
    found: list[dt.date] = []
    end = span.test_day if gap <= WEEK or span.taper_start is None else span.taper_start
    candidates = [
        day
        for week, kind in enumerate(span.kinds)
        for day in dates(setting, week, span)
        if day.weekday() == single and kind != "return"
        and (day - setting.tested).days > value("single_after_test_days")
        and (span.test_day is None or (span.test_day - day).days >= least) and (end is None or day < end)
    ]  # fmt: skip
    for day in candidates if span.test_day is None else reversed(candidates):
        if not found or abs((day - found[-1]).days) >= gap:
            found.append(day)
    return frozenset(found)


def _days(setting: Setting, group: str) -> float:
    return sum(one.days for one in setting.carried.group(group))


def _kept(setting: Setting, turned: list[int]) -> Mapping[int, tuple[Kept, ...]]:
    """The usual work on its usual weekdays; squats are heavy on no eve of heavy singles."""
    found: dict[int, list[Kept]] = {day: [] for day in turned}
    eve = (turned[0] - 1) % 7
    for group in KEPT:
        lifts = [one for one in _lifts(setting, group) if one.lift not in setting.trust.banned]
        days = sum(one.days for one in lifts)
        least = setting.trade.value("kept_days_least")
        if not lifts or (days < least and group not in setting.raised):
            continue
        squat = group in SQUATS
        free = [day for day in turned if not (squat and setting.sore and _squats(found[day]))]
        count = min(len(free), max(1, half_up(days)))
        if not count:
            continue
        more = 1 + setting.raised_step * (group in setting.raised)
        each = sum(one.repetitions for one in lifts) * more / count
        chosen = _chosen(lifts, count, free, found, eve if squat else -1)
        for nth, day in enumerate(chosen):
            # Several lifts of one kind take turns; the one most done comes first.
            usual = lifts[nth % len(lifts)] if not squat else lifts[0]
            heavy = nth < (1 if squat else len(lifts)) and not (squat and day == eve)
            found[day].append(Kept(usual=usual, heavy=heavy, repetitions=each))
    return {day: tuple(mine) for day, mine in found.items()}


def _lifts(setting: Setting, group: str) -> list[Usual]:
    """The lifts of a group; a squat that a need raises, or any where none was done, is begun lightly."""
    mine = list(setting.carried.group(group))
    base = setting.stand.bases.get(group)
    done = any(any(setting.carried.group(lift)) for lift in SQUATS)
    first = next((lift for lift in SQUATS if lift in setting.stand.bases), "")
    if (
        mine
        or base is None
        or group not in SQUATS
        or not (group in setting.raised or (group == first and not done))
    ):
        return mine
    kg = setting.trade.value("squat_begin") * base.kg
    return [
        Usual(lift=group, group=group, tonnage_kg=0.0, repetitions=0.0, days=1.0, weekdays=(), reps=3, kg=kg,
              high_kg=kg, top_kg=kg, straps=False)
    ]  # fmt: skip


def _squats(taken: list[Kept]) -> bool:
    return any(kept.usual.group in SQUATS for kept in taken)


def _chosen(
    lifts: list[Usual], count: int, turned: list[int], taken: Mapping[int, list[Kept]], eve: int
) -> list[int]:
    """So many weekdays for lifts of one kind: their own first, then those that hold least."""
    own = [day for one in lifts for day in one.weekdays]

    def order(day: int) -> tuple[int, bool, int, int]:
        # A second squat in one session is worse than an easy one on the eve of heavy singles.
        same = _squats(taken[day]) and eve >= 0
        worse = 2 * same + (day == eve)
        return worse, day not in own, len(taken[day]), own.index(day) if day in own else 9

    return sorted(turned, key=order)[:count]
