"""The lines of one training day, before anybody counts sets."""

import datetime as dt
import math
from dataclasses import dataclass, replace

from reportgen.analysis.block.diary import Diary
from reportgen.analysis.block.lines import Line, Wanted, line
from reportgen.analysis.block.setting import Setting
from reportgen.trade.choices import choices

_OVERHEAD = ("snatch_balance_short", "overhead_squat_short")


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One training day.

    Attributes:
        kind: Of its week.
        week: Of the block, from 0.
        progress: From the first week of work (0) to the last (1).
        tapered: The day lies in the taper.
        lightened: Volume is so short that the needed lines shrink to singles at the lower share.
    """

    date: dt.date
    kind: str
    week: int
    progress: float
    tapered: bool = False
    lightened: bool = False


def lines(setting: Setting, diary: Diary, day: Day) -> list[Line]:
    """Every line that may stand on a day.

    Args:
        setting: The lifter.
        diary: Roles and heavy days.
        day: The day.

    Returns:
        Lines without sets; lifts that hurt, that are not known or that no bar fits are left out.
    """
    weekday = day.date.weekday()
    wishes: list[Wanted] = []
    if day.date in diary.singles:
        wishes += _single_day(setting, day)
    elif weekday in diary.roles.full:
        wishes += _full_day(setting, diary, day)
    if weekday == diary.roles.derivative:
        wishes += _derivative(setting, day)
    if weekday in diary.roles.spare:
        wishes += _spare(setting, day)
    if weekday == diary.roles.other and setting.other:
        wishes += _other(setting, day)
    wishes += _pulls(setting, diary, day)
    wishes += _squats(setting, diary, day)
    drawn = [line(setting, day.date, wish, cap(setting, wish, day.week)) for wish in wishes]
    found = [one for one in drawn if one is not None]
    if weekday in diary.roles.full and not any(one.needed for one in found):
        # The heavy single was out of reach of a ceiling: the full lift stays, lighter.
        again = [line(setting, day.date, wish, cap(setting, wish, day.week)) for wish in _full(setting, day)]
        found = [*(one for one in again if one is not None), *found]
    return found


def cap(setting: Setting, wanted: Wanted, week: int) -> float:
    """The share that the careful rules allow at most: after a break, after weeks without the lift, by age.

    After heavy days close together singles stay under the limit for some weeks.
    """
    value = setting.trade.value
    caps = [float("inf")]
    pause = setting.trust.pause
    careful: list[int] = []
    if pause is not None and week < pause.left:
        careful.append(week)
    base = setting.stand.base(wanted.of or wanted.parts[0])
    if base is not None and base.cold and week < int(value("return_no_heavy_weeks_high")):
        careful.append(week)
    under = value("heavy_share") - value("return_step")
    caps += [min(under, value("return_load_max") + value("return_step") * step) for step in careful]
    if not setting.trust.heavy:
        young = {"squat": "youth_squat_high", "pull": "youth_pull_high"} if setting.trust.young else {}
        loaded = any(setting.trade.lifts[part].classic for part in wanted.parts) or wanted.role == "overhead"
        known = young.get(wanted.role, "youth_single_high" if loaded else "")
        caps += [value(known)] if known else []
    if setting.chased and wanted.role == "single" and week < int(value("chase_single_weeks")):
        caps.append(value("chase_single_high"))
    return min(caps)


def _between(setting: Setting, name: str, day: Day) -> tuple[float, float]:
    """The share of a day on the way from low to high, and the high one."""
    low, high = setting.trade.value(f"{name}_low"), setting.trade.value(f"{name}_high")
    return (low if day.lightened else low + (high - low) * day.progress), high


def _single_day(setting: Setting, day: Day) -> list[Wanted]:
    """Heavy singles and doubles after them."""
    work = day.kind == "work" and not day.tapered
    low, high = _between(setting, "single", day)
    back_low, back_high = _between(setting, "back_off", day)
    found: list[Wanted] = []
    for lift in setting.lifts:
        least = _sets_of_two(setting, lift) if work else 0.0
        found.append(
            Wanted(
                parts=(lift,),
                reps=(1,),
                low=max(low, least) if work else setting.trade.value("single_low"),
                high=max(high, least),
                least=1,
                most=int(setting.trade.value("single_sets")) if work else 1,
                weight=0,
                role="single",
                need=setting.need("no_heavy_singles", "transfer_gap", "chase", otherwise="heavy_singles"),
                serves="singles at 90 % and over stay in training",
                needed=True,
            )
        )
        found.append(
            Wanted(
                parts=(lift,),
                reps=(2,),
                low=back_low,
                high=back_high,
                least=2,
                most=5,
                weight=3,
                role="back-off",
                need=_full_need(setting),
                serves="made repetitions after the single",
            )
        )
    return found


def _sets_of_two(setting: Setting, lift: str) -> float:
    """Where singles are the need: the heaviest load now doubled or tripled, at most the base itself."""
    base = setting.stand.base(lift)
    if base is None or not any(need.id in ("no_heavy_singles", "transfer_gap") for need in setting.needs):
        return 0.0
    shares = (one.kg / base.kg for one in setting.facts.rep_maxes or () if one.lift == lift)
    return min(1.0, max(shares, default=0.0))


def _full_need(setting: Setting) -> str:
    return setting.need("too_few_full_sessions", "return_after_gap", otherwise="full_lift")


def _full(setting: Setting, day: Day) -> list[Wanted]:
    low, high = _between(setting, "full", day)
    reps = 1 if day.lightened and setting.trust.heavy else 2
    return [
        Wanted(
            parts=(lift,),
            reps=(reps,),
            low=low,
            high=high,
            least=3,
            most=6,
            weight=1,
            role="full",
            need=_full_need(setting),
            serves="the full lift from the floor",
            needed=True,
        )
        for lift in setting.lifts
    ]


def _full_day(setting: Setting, diary: Diary, day: Day) -> list[Wanted]:
    """Doubles; in the last days before a test single repetitions, lighter than the opener."""
    left = diary.before_test(day.date)
    near = int(setting.trade.value("last_near_limit_days_low"))
    if not day.tapered or left is None or left >= near or not setting.trust.heavy:
        return _full(setting, day)
    low, high = setting.trade.value("full_high"), setting.trade.value("opener_rehearsal")
    return [
        replace(wish, reps=(1,), low=low, high=high, serves="the way to the opener, no heavier")
        for wish in _full(setting, day)
    ]


def _derivative(setting: Setting, day: Day) -> list[Wanted]:
    """What the first need calls for, and the overhead work that goes with it."""
    one = setting.derivative
    if one is None:
        return []
    need = setting.needs[0].id if setting.needs and one.need else "full_lift"
    low, high = _between(setting, "derivative", day)
    found = [
        Wanted(
            parts=one.parts,
            reps=tuple(int(reps) for reps in one.reps.split("+")),
            low=low,
            high=high,
            least=2,
            most=6,
            weight=2,
            role="derivative",
            need=need,
            serves=one.why,
            variant=one.variant,
        )
    ]
    support, reps = one.support, one.support_reps
    asked = next((need.id for need in setting.needs if need.id in _OVERHEAD), "")
    if not support and asked:
        support, reps = asked.removesuffix("_short").replace("_", " "), "2"
    if support:
        low, high = _between(setting, "overhead", day)
        if setting.trust.lax:
            high = setting.trade.value("overhead_lax_high")
        found.append(
            Wanted(
                parts=(support,),
                reps=(int(reps),),
                low=min(low, high),
                high=high,
                least=2,
                most=4,
                weight=4,
                role="overhead",
                need=asked or need,
                serves="the bar held overhead",
            )
        )
    return found


def _spare(setting: Setting, day: Day) -> list[Wanted]:
    """A further derivative on a day that nothing else fills."""
    lift = setting.lifts[0] if setting.lifts else setting.goal_lifts[0]
    taken = frozenset(setting.derivative.parts) if setting.derivative else frozenset()
    usual = choices().derivative(lift, (), setting.trust.banned)
    if usual is None or set(usual.parts) & taken:
        return []
    low, high = _between(setting, "derivative", day)
    return [
        Wanted(
            parts=usual.parts,
            reps=tuple(int(reps) for reps in usual.reps.split("+")),
            low=low,
            high=high,
            least=2,
            most=4,
            weight=7,
            role="derivative",
            need="full_lift",
            serves=usual.why,
            variant=usual.variant,
        )
    ]


def _other(setting: Setting, day: Day) -> list[Wanted]:
    """The other classic lift, once a week."""
    low, high = setting.trade.value("other_lift_low"), setting.trade.value("other_lift_high")
    return [
        Wanted(
            parts=(setting.other,),
            reps=(1,),
            low=low + (high - low) * day.progress,
            high=high,
            least=2,
            most=5,
            weight=5,
            role="other",
            need="upkeep",
            serves="keeps the other lift",
        )
    ]


def _pulls(setting: Setting, diary: Diary, day: Day) -> list[Wanted]:
    """Pulls of the goal lift: heavy up to their last day before a test, easy after it, none at the end."""
    left = diary.before_test(day.date)
    last = day.date == diary.last_pull
    if not last and _shortly_before(setting, day.date, diary.last_pull):
        return []
    if not (day.date.weekday() in diary.roles.pull or last) or not setting.goal_lifts:
        return []
    value = setting.trade.value
    low, high = _between(setting, "pull", day)
    heavy_least = int(value("last_heavy_pull_days_low"))
    if left is not None and left < heavy_least:
        if left < int(value("last_near_limit_days_low")):
            return []
        low = high = value("easy_pull")
    elif day.kind in ("light", "return") and not last:
        low, high = value("easy_pull"), value("pull_low")
    name = "clean pull" if setting.goal_lifts[0] == "clean and jerk" else "snatch pull"
    return [
        Wanted(
            parts=(name,),
            reps=(3,),
            low=low,
            high=high,
            least=2,
            most=5,
            weight=3 if last else 5,
            role="pull",
            need=setting.need("power_snatch_short", "power_clean_short", otherwise="upkeep"),
            serves="strength of the pull",
            of=setting.goal_lifts[0],
        )
    ]


def _shortly_before(setting: Setting, date: dt.date, last: dt.date | None) -> bool:
    """Whether the last heavy day before a test follows so soon that it takes this day's place."""
    return last is not None and 0 < (last - date).days <= int(setting.trade.value("last_heavy_apart_days"))


def _squats(setting: Setting, diary: Diary, day: Day) -> list[Wanted]:
    """Squats that keep or raise; none the day before heavy singles or a test, none heavy in the last days."""
    if not setting.squat or day.date + dt.timedelta(days=1) in diary.singles:
        return []
    value = setting.trade.value
    weekday, left = day.date.weekday(), diary.before_test(day.date)
    need = setting.need(
        "back_squat_short", "front_squat_short", "not_enough_squats", area="strength", otherwise="upkeep"
    )
    serves = "raises the squat" if setting.raise_squat else "keeps the squat"
    last = day.date == diary.last_squat
    if not last and _shortly_before(setting, day.date, diary.last_squat):
        return []
    heavy = weekday == diary.roles.squat or last
    if left is not None and left < int(value("last_heavy_squat_days_low")):
        if left < int(value("last_near_limit_days_low")):
            return []
        heavy = False
        easy = weekday in (diary.roles.squat, diary.roles.easy_squat)
    else:
        easy = weekday == diary.roles.easy_squat and not heavy
    if not (heavy or easy):
        return []
    name = "squat_easy" if not heavy else "squat_raise" if setting.raise_squat else "squat_keep"
    low, high = _between(setting, name, day)
    wish = Wanted(
        parts=(setting.squat if heavy else setting.easy_squat,),
        reps=(3,),
        low=low,
        high=high,
        least=2,
        most=5 if heavy else 4,
        weight=(2 if last or setting.raise_squat else 4) if heavy else 6,
        role="squat",
        need=need,
        serves=serves,
    )
    early = left is None or left >= int(value("last_heavy_squat_days_low"))
    return [_no_less(setting, day, wish) if day.kind == "work" and early else wish]


def _no_less(setting: Setting, day: Day, wish: Wanted) -> Wanted:
    """A squat that is to rise is asked for with no less load and no fewer sets than it is done with now."""
    lift = wish.parts[0]
    before, base = setting.squatted.get(lift), setting.stand.bases.get(lift)
    if before is None or base is None:
        return wish
    low = max(wish.low, before.kg / base.kg)
    loaded = replace(wish, low=low, high=max(wish.high, low))
    if day.tapered:
        return loaded
    days = 2 if setting.squat == setting.easy_squat else 1
    sets = min(math.ceil(before.sets / days), int(setting.trade.value("squat_sets_high")))
    return replace(loaded, least=max(wish.least, sets), most=max(wish.most, sets), weight=min(wish.weight, 2))
