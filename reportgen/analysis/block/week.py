"""The lines of one training day, before anybody counts sets."""

import datetime as dt
import math
from dataclasses import replace

from reportgen.analysis.block.diary import Diary, Kept
from reportgen.analysis.block.lines import Line, Wanted, line
from reportgen.analysis.block.setting import SQUATS, Setting
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.choices import choices

#: Which line keeps its sets longest where room is short.
_WEIGHT = {
    "single": 0, "full": 1, "derivative": 2, "back-off": 3, "squat": 4, "other": 4, "pull": 5, "overhead": 5,
    "way up": 1, "press": 7, "back": 7,
}  # fmt: skip


#: Roles of which a set may be longer where the usual ones would be too many.
_LONGER = ("squat", "pull", "press", "back")


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One training day.

    Attributes:
        kind: Of its week.
        step: Weeks of the block before it, light ones apart; a light week stays at the step before it.
        progress: From the first week of work (0) to the last (1).
        lightened: Volume is so short that the needed lines shrink to singles at the lower share.
    """

    date: dt.date
    kind: str
    step: int
    progress: float
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
    elif weekday in diary.full:
        wishes += _full(setting, day, diary.full.index(weekday))
    if weekday == diary.derivative:
        wishes += _derivative(setting, day)
    if weekday == diary.second[0]:
        wishes += _further(setting, day)
    if setting.other and weekday == diary.other:
        wishes += _other(setting, day)
    if setting.other and weekday == diary.second[1]:
        wishes += _other_part(setting, day)
    for kept in diary.kept.get(weekday, ()):
        wishes += _kept(setting, diary, day, kept)
    found = _drawn(setting, day, wishes)
    if weekday in diary.full and not any(one.needed for one in found):
        # The heavy single was out of reach of a ceiling: the full lift stays, lighter.
        found = [one for one in found if one.role not in ("way up", "back-off")]
        found = [*_drawn(setting, day, _full(setting, day, 0)), *found]
    return found


def _drawn(setting: Setting, day: Day, wishes: list[Wanted]) -> list[Line]:
    found = (line(setting, day.date, wish, cap(setting, wish, day)) for wish in wishes)
    return distinct([one for one in found if one is not None])


def distinct(lines: list[Line]) -> list[Line]:
    """No two lines of a day alike: a ceiling may leave a lift's heaviest set no heavier than the others.

    Its set is one of theirs then.
    """
    found: dict[tuple[object, ...], Line] = {}
    for one in lines:
        key = one.day, one.parts, one.reps, one.kg, one.variant, one.aid
        same = found.get(key)
        found[key] = one if same is None else replace(same, most=same.most + one.most)
    return list(found.values())


def cap(setting: Setting, wanted: Wanted, day: Day) -> float:
    """The share that the careful rules allow at most: after a break, after weeks without the lift, by age.

    From there a load climbs by one step a week, also when nothing else holds it any more. After heavy days
    close together singles stay under the limit for some weeks.
    """
    value, step = setting.trade.value, day.step
    caps = [float("inf")]
    pause = setting.trust.pause
    own = setting.stand.bases.get(wanted.parts[0]) or setting.stand.base(wanted.of or wanted.parts[0])
    # Weeks of the way back that are over, and those still to come.
    low = max(0, pause.low) if pause is not None else 0
    ways = [(pause.done - low, pause.left)] if pause is not None and pause.left else []
    ways += [(0, int(value("return_no_heavy_weeks_high")))] if own is not None and own.cold else []
    for done, left in ways:
        under = value("heavy_share") - value("return_step") if step < left else float("inf")
        caps.append(min(under, value("return_load_max") + value("return_step") * (step + done)))
    if not setting.trust.heavy:
        young = {"squat": "youth_squat_high", "pull": "youth_pull_high"} if setting.trust.young else {}
        loaded = any(setting.trade.lifts[part].classic for part in wanted.parts) or wanted.role == "overhead"
        known = young.get(wanted.role, "youth_single_high" if loaded else "")
        caps += [value(known)] if known else []
    if setting.trust.lax and wanted.role == "overhead":
        caps.append(value("overhead_lax_high"))
    weeks = (day.date - setting.begin).days // 7
    if setting.chased and wanted.role == "single" and weeks < int(value("chase_single_weeks")):
        caps.append(value("chase_single_high"))
    return min(caps)


def _most(setting: Setting) -> int:
    """More sets of a line than these are laid out as longer sets, or left to another lift."""
    return int(setting.trade.value("sets_most"))


def _between(setting: Setting, name: str, day: Day) -> tuple[float, float]:
    """The share of a day on the way from low to high, and the high one."""
    low, high = setting.trade.value(f"{name}_low"), setting.trade.value(f"{name}_high")
    return (low if day.lightened else low + (high - low) * day.progress), high


def _wanted(
    setting: Setting, lift: str, reps: int, sets: tuple[int, int], share: tuple[float, float], role: str,
    group: str, serves: Say, *, need: str = "", needed: bool = False,
) -> Wanted:  # fmt: skip
    """A wish for one plain lift; where a need raises its group it is of that need."""
    raised = setting.raised.get(group, "")
    weight = _WEIGHT[role] - 2 * bool(raised and role not in ("single", "full"))
    return Wanted(
        parts=(lift,), reps=(reps,), low=share[0], high=share[1], least=sets[0], most=sets[1],
        weight=weight, role=role, need=raised or need or "upkeep", group=group, needed=needed,
        serves=serves,
    )  # fmt: skip


def _single_day(setting: Setting, day: Day) -> list[Wanted]:
    """The way up, heavy singles, doubles after them."""
    value = setting.trade.value
    work = day.kind == "work"
    low, high = _between(setting, "single", day)
    need = setting.need("no_heavy_singles", "transfer_gap", "chase", otherwise="heavy_singles")
    found: list[Wanted] = []
    for lift in setting.lifts:
        least = _sets_of_two(setting, lift) if work else 0.0
        many = 2, int(value("single_sets"))
        # Up to what is doubled now, as they climb up to their high end.
        shares = (low + max(0.0, least - high) if work else value("single_low"), max(high, least))
        single = _wanted(setting, lift, 1, many if work else (1, 1), shares, "single", lift,
                         say("block.serves.single"), need=need, needed=True)  # fmt: skip
        found += [*_way_up(setting, day, single), single]
        found.append(
            _wanted(setting, lift, 2, (2, 5), _between(setting, "back_off", day), "back-off", lift,
                    say("block.serves.back_off"), need=_full_need(setting))
        )  # fmt: skip
    return found


def _way_up(setting: Setting, day: Day, single: Wanted) -> list[Wanted]:
    """Doubles, then singles up to a heavy one: no step of more than a share of it."""
    top = next(iter(_drawn(setting, day, [single])), None)
    if top is None:
        return []
    lift, plates = single.group, setting.stand.plates
    longest_kg = setting.trade.value("way_up_step") * top.kg
    # Rounded up to the plates: rounded down the last step would be the longest.
    first_kg = min(top.kg, plates.up(setting.trade.value("way_up_first") * top.base_kg))
    steps = math.ceil((top.kg - first_kg) / longest_kg - 1e-9)
    rungs = {first_kg: 2} if first_kg < top.kg else {}
    for n in range(steps - 1, 0, -1):
        kg = plates.up(top.kg - (top.kg - first_kg) * n / steps)
        rungs |= {kg: 1} if first_kg < kg < top.kg else {}
    serves = say("block.serves.way_up")
    return [
        _wanted(setting, lift, reps, (1, 1), (kg / top.base_kg, kg / top.base_kg), "way up", lift, serves,
                need=single.need)
        for kg, reps in rungs.items()
    ]  # fmt: skip


def _sets_of_two(setting: Setting, lift: str) -> float:
    """Where singles are the need: the heaviest load now doubled or tripled, at most the base itself."""
    base = setting.stand.base(lift)
    if base is None or not any(need.id in ("no_heavy_singles", "transfer_gap") for need in setting.needs):
        return 0.0
    shares = (one.kg / base.kg for one in setting.facts.rep_maxes if one.lift == lift)
    return min(1.0, max(shares, default=0.0))


def _full_need(setting: Setting) -> str:
    return setting.need("too_few_full_sessions", "return_after_gap", otherwise="full_lift")


def _full(setting: Setting, day: Day, nth: int) -> list[Wanted]:
    """A session with the full lift, no two of a week alike: near the heavy weights, of volume, easy.

    The one of volume goes from triples to heavier doubles over the block.
    """
    name = ("full_first", "full", "full_easy")[min(nth, 2)]
    reps = 3 if nth == 1 and day.progress < 1 / 2 else 2
    reps = 1 if day.lightened and setting.trust.heavy else reps
    serves = say(f"block.serves.{name}")
    return [
        _wanted(setting, lift, reps, (3, _most(setting)), _between(setting, name, day), "full", lift, serves,
                need=_full_need(setting), needed=True)
        for lift in setting.lifts
    ]  # fmt: skip


def _derivative(setting: Setting, day: Day) -> list[Wanted]:
    """What the first need calls for, and the overhead work that goes with it."""
    one = setting.derivative
    if one is None:
        return []
    need = setting.needs[0].id if setting.needs and one.need else "full_lift"
    # Where no other part of the lift was ever done it is the full lift, held: an easy session of it.
    low, high = _between(setting, "derivative" if one.need or not one.variant else "full_easy", day)
    # Triples while the loads are light, as in the full session of volume.
    longer = (
        len(one.parts) == 1
        and not one.variant
        and day.progress < 1 / 2
        and day.kind == "work"
        and not day.lightened
    )
    reps = tuple(int(reps) + longer for reps in one.reps.split("+"))
    first = (
        Wanted(
            parts=one.parts, reps=reps, low=low, high=high,
            least=3, most=_most(setting), weight=_WEIGHT["derivative"], role="derivative", need=need,
            group="derivative", serves=say("block.serves.words", words=one.why), variant=one.variant,
        )
    )  # fmt: skip
    found = [_as_done(setting, first, day)]
    asked = setting.raised.get("overhead", "")
    support, many = one.support, one.support_reps
    if not support and asked:
        support, many = asked.removesuffix("_short").replace("_", " "), "2"
    if support in setting.trade.lifts:
        share = _between(setting, "overhead", day)
        beside = _wanted(setting, support, int(many), (2, 5), share, "overhead", "overhead",
                         say("block.serves.overhead"), need=asked or need)  # fmt: skip
        found.append(_as_done(setting, beside, day, setting.trade.value("kept_easy")))
    return found


def _as_done(setting: Setting, wanted: Wanted, day: Day, share: float = 1.0) -> Wanted:
    """A plain lift no lighter, and in no longer sets, than what is done of it now, or such a share of that.

    Who never tried a single of it has no best to take shares of but that of these sets.
    """
    usual, base = setting.carried.usual.get(wanted.parts[0]), setting.stand.base(wanted.parts[0])
    plain = len(wanted.parts) == 1 and not wanted.variant and not day.lightened
    if usual is None or base is None or not usual.tonnage_kg or not plain:
        return wanted
    now = share * usual.kg / base.kg * (1.0 if day.kind == "work" else setting.trade.value("kept_light"))
    step = setting.trade.value("kept_step")
    low = max(wanted.low, now * (1 + step * day.progress))
    high = max(wanted.high, low, now * (1 + step))
    return replace(wanted, low=low, high=high, reps=(min(wanted.reps[0], usual.reps),))


def _further(setting: Setting, day: Day) -> list[Wanted]:
    """A further derivative: the one most done now, else the usual one."""
    taken = frozenset(setting.derivative.parts) if setting.derivative else frozenset()
    mine = [one for one in setting.carried.group("derivative") if one.lift not in taken]
    serves, share = say("block.serves.further"), _between(setting, "derivative", day)
    if mine:
        reps = min(mine[0].reps, 3)
        one = _wanted(setting, mine[0].lift, reps, (3, 6), share, "derivative", "derivative", serves)
        return [_as_done(setting, one, day)]
    goal = setting.lifts[0] if setting.lifts else setting.goal_lifts[0]
    usual = choices().derivative(goal, (), setting.trust.banned)
    if usual is None or set(usual.parts) & taken or not setting.stand.done(usual.parts[0]):
        return []
    return [
        _wanted(
            setting, usual.parts[0], 2, (3, 6), share, "derivative", "derivative", serves, need="full_lift"
        )
    ]


def _other(setting: Setting, day: Day) -> list[Wanted]:
    """The other classic lift, once a week; toward a contest, where it is done as well, in singles."""
    if setting.contest:
        share = _between(setting, "other_contest", day)
        return [_wanted(setting, setting.other, 1, (3, 5), share, "other", "other",
                        say("block.serves.other_contest"))]  # fmt: skip
    share, usual = _between(setting, "other_lift", day), setting.carried.usual.get(setting.other)
    reps = min(2, usual.reps) if usual is not None else 1
    return [_wanted(setting, setting.other, reps, (3, _most(setting)), share, "other", "other",
                    say("block.serves.other"))]  # fmt: skip


def _other_part(setting: Setting, day: Day) -> list[Wanted]:
    """A second day of the other lift: what is most done beside it, lighter."""
    mine = [one for one in setting.carried.group("other") if one.lift != setting.other]
    lift, reps = (mine[0].lift, min(mine[0].reps, 3)) if mine else (setting.other, 1)
    share = _between(setting, "derivative" if mine else "full", day)
    return [_wanted(setting, lift, reps, (3, 6), share, "other", "other", say("block.serves.other_part"))]


def _kept(setting: Setting, diary: Diary, day: Day, kept: Kept) -> list[Wanted]:
    """A lift of the usual work, from what is done with it now to a little more, or to what a need asks."""
    one, value = kept.usual, setting.trade.value
    role = setting.trade.lifts[one.lift].role
    of = setting.trade.lifts[one.lift].family if role == "pull" else ""
    base = setting.stand.base(of or one.lift)
    base_kg = base.kg if base is not None else one.top_kg
    raised, step = one.group in setting.raised, 1 + value("kept_step")
    top = one.top_kg if raised else one.high_kg
    # Where the heaviest set of a week stands well over the others, it stays one set over the work.
    apart = kept.heavy and day.kind == "work" and top > one.kg * step
    high = one.kg * step if one.high_kg > one.kg * step else max(top, one.kg * step)
    low = max(one.kg, high * (1 - value("kept_span")))
    low = low + (high - low) * day.progress
    if not kept.heavy:
        low, high = low * value("kept_easy"), high * value("kept_easy")
    if day.kind != "work":
        low = high = min(low, one.kg) * value("kept_light")
    most = value("pull_high") * base_kg if role == "pull" and not one.straps else float("inf")
    # Who squats up to the limit day by day is asked for it once a week, with no more sets of it.
    limit = role == "squat" and one.reps < 3 and one.kg >= value("heavy_share") * base_kg
    most = value("squat_day_high") * base_kg if limit and not kept.heavy else most
    if role == "squat" and day.date + dt.timedelta(days=1) in diary.singles:
        most, apart = value("eve_squat_high") * base_kg, False

    reps = one.reps
    if role in _LONGER:
        reps = min(
            int(value("usual_reps_most")),
            max(reps, math.ceil(kept.repetitions / (_most(setting) - apart) - 1 / 2)),
        )
    now = "raised" if raised else "kept"
    serves = (
        say(f"block.serves.{now}", sets=one.sets, reps=one.reps, kg=setting.stand.plates.down(one.kg))
        if kept.heavy and one.tonnage_kg
        else say(f"block.serves.{'easier' if one.tonnage_kg else 'anew'}")
    )

    def wish(low_kg: float, high_kg: float, sets: tuple[int, int]) -> Wanted:
        share = min(low_kg, high_kg, most) / base_kg, min(high_kg, most) / base_kg
        found = _wanted(setting, one.lift, reps, sets, share, role, one.group, serves)
        own_kg = 0.0 if base is not None else base_kg
        return replace(found, of=of, own_kg=own_kg, aid="straps" if one.straps else "")

    work = wish(low, high, (1, one.sets) if limit and kept.heavy else (2, _most(setting)))
    if not apart or high >= top:
        return [work]
    # That one set is no jump either: it goes as far over the work as a rung of the way up.
    top = min(top, min(low, most) / (1 - value("way_up_step")))
    if setting.stand.plates.down(top) <= setting.stand.plates.down(low):
        return [work]
    most_high = min(top, max(high, one.high_kg + (top - one.high_kg) * day.progress))
    if setting.modest:
        # The one set is among those of the lift: a session holds no more of them than of one line.
        work = replace(work, most=work.most - 1)
    return [work, replace(wish(most_high, top, (1, 1)), serves=say("block.serves.top"))]


def beside(setting: Setting, diary: Diary, day: Day) -> list[Line]:
    """What may stand beside a single exercise, so that no session is one alone: an easy squat, or a pull."""
    light = Day(date=day.date, kind="light", step=day.step, progress=0.0)
    wishes: list[Wanted] = []
    for group in (*SQUATS, "pull", "overhead", "press", "back"):
        for one in setting.carried.group(group):
            wishes += _kept(setting, diary, light, Kept(usual=one, heavy=False, repetitions=0.0))
    easy = _between(setting, "full_easy", light)
    if setting.other:
        wishes.append(_wanted(setting, setting.other, 1, (2, 4), easy, "other", "other",
                              say("block.serves.other_part")))  # fmt: skip
    # For a total who does the two lifts alone: the one that the day has not.
    for lift in reversed(setting.lifts if len(setting.goal_lifts) > 1 else ()):
        wishes.append(_wanted(setting, lift, 1, (2, 4), easy, "full", lift, say("block.serves.full_easy"),
                              need=_full_need(setting)))  # fmt: skip
    usual = choices().derivative(setting.goal_lifts[0], (), setting.trust.banned)
    if usual is not None and setting.stand.done(usual.parts[0]):
        share = _between(setting, "full_easy", light)
        serves = say("block.serves.further")
        wishes.append(_wanted(setting, usual.parts[0], 2, (3, 6), share, "derivative", "derivative", serves))
    return _drawn(setting, day, wishes)
