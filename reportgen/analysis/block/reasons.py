"""Why a block is as it is, where it departs from what was asked; what it raises, and what it leaves out."""

import datetime as dt

from reportgen.analysis import goals
from reportgen.analysis.block.lines import likely_kg
from reportgen.analysis.block.schedule import Schedule
from reportgen.analysis.block.setting import SQUATS, Setting
from reportgen.analysis.block.span import Span
from reportgen.model.proposal import BlockSet, BlockWeek
from reportgen.model.say import Say, say
from reportgen.trade.claims import called

#: Lines of what was considered and left out.
_LEFT = 3


def notes(now: Setting, frame: Span, weeks: tuple[BlockWeek, ...], *, tries: int | None) -> tuple[Say, ...]:
    """Why it is as it is, where it departs from what was asked.

    Args:
        now: The lifter.
        frame: Weeks and test day.
        weeks: What is proposed.
        tries: Attempts of the test day; None without one.
    """
    found = [*now.trust.notes, *_held(now), *now.carried.notes, *frame.notes]
    gone = tuple(lift for lift in now.goal_lifts if lift not in {*now.lifts} | now.trust.doubted)
    if gone:
        found.append(say("block.note.gone", lifts=gone))
    singles = [line for week in weeks for one in week.sessions for line in one.sets if line.role == "single"]
    if now.lifts and not singles:
        found.append(_why_no_singles(now))
    found += _under_heavy(now, singles)
    if not now.other and len(now.goal_lifts) == 1:
        other = frozenset(goals.PAIR) - {*now.goal_lifts}
        why = "sore" if other <= now.trust.banned - now.trust.doubted else "not_logged"
        why = "not_sure" if other <= now.trust.doubted else why
        found.append(say("block.note.no_other", why=say(f"block.{why}")))
    if not any(line.lift in SQUATS for week in weeks for one in week.sessions for line in one.sets):
        sore = {*SQUATS} & now.trust.banned & {*now.stand.bases}
        known = "no_place" if {*SQUATS} & {*now.stand.bases} else "not_logged"
        why = "not_sure" if {*SQUATS} & now.trust.doubted else "sore_many" if sore else known
        found.append(say("block.note.no_squats", why=say(f"block.{why}")))
    if now.trust.pause is not None:
        found.append(say("block.note.after_break", since=now.trust.pause.since, weeks=now.trust.pause.left))
    backs = ((back.place, back.settled, back.until - dt.timedelta(days=1)) for back in now.trust.backs)
    found += [
        say("block.note.settled", place=place, settled=settled, last=last)
        for place, settled, last in dict.fromkeys(backs)
    ]
    if _absent(now, weeks):
        found.append(say("block.note.absent"))
    if tries == 0:
        found.append(say("block.note.no_attempts"))
    return (*found, *_lighter(now, weeks))


def _lighter(now: Setting, weeks: tuple[BlockWeek, ...]) -> list[Say]:
    """Why usual work is lighter than now in every week, where it is no way back that others tell of."""
    by: dict[str, dict[str, None]] = {}
    every = [(week, one) for week in weeks for session in week.sessions for one in session.sets]
    lighter = [(week, line.lift) for week, line in every if line.serves.key == "block.serves.lighter"]
    at_work = {lift for week, lift in lighter if week.kind not in ("taper", "work_taper")}
    for lift in dict.fromkeys(lift for _, lift in lighter):
        base, role = now.stand.base(lift), now.trade.lifts[lift].role
        held = {"squat": "eve", "pull": "pull"}.get(role, "")
        if base is not None and base.cold:
            why = "cold"
        elif lift not in at_work:
            why = "taper"
        else:
            why = "young" if now.trust.young and held else held
        by.setdefault(why, {})[lift] = None
    told = now.trust.pause is not None or now.trust.backs or now.carried.rested
    return [] if told else [say(f"block.lighter.{why}", lifts=tuple(of)) for why, of in by.items() if why]


def _absent(now: Setting, weeks: tuple[BlockWeek, ...]) -> bool:
    return any(now.is_absent(week.start + dt.timedelta(days=n)) for week in weeks for n in range(7))


def _held(now: Setting) -> list[Say]:
    """Which loads are taken from less than the best, since one day alone stands over the others."""
    found = []
    for lift in (*now.goal_lifts, *SQUATS):
        base, fact = now.stand.bases.get(lift), now.stand.current.get(lift)
        if base and fact and fact.kg and lift in now.trust.most_kg and base.kg < fact.kg - 1:
            found.append(say("block.note.held", lift=lift, best_kg=fact.kg, most_kg=base.kg))
    return found


def _under_heavy(now: Setting, singles: list[BlockSet]) -> list[Say]:
    """Why the singles of a lift end under what is called heavy."""
    tops = {line.lift: max(one.kg for one in singles if one.lift == line.lift) for line in singles}
    return [
        say("block.singles.today", lift=lift, kg=kg)
        for lift, kg in tops.items()
        if kg < now.trade.value("heavy_share") * now.stand.bases[lift].kg
    ]


def _why_no_singles(now: Setting) -> Say:
    if not now.trust.heavy:
        return say(f"block.singles.{'young' if now.trust.young else 'not_sure'}")
    under = [now.stand.ceilings_kg[lift] for lift in now.lifts if lift in now.stand.ceilings_kg]
    if under:
        return say("block.singles.ceiling", kg=min(under))
    for lift in now.lifts:
        base, likely = now.stand.base(lift), likely_kg(now, lift)
        if base is not None and likely is not None and likely < now.trade.value("single_least") * base.kg:
            return say("block.singles.unlikely", lift=lift, kg=now.stand.plates.down(likely))
    return say("block.singles.no_room")


def load(now: Setting, filled: Schedule, least: float | None) -> tuple[Say, ...]:
    """Why a week of work, the lightest of them, holds well less than before; nothing where none does."""
    if least is None or least >= now.trade.value("work_least"):
        return ()
    gone = {"sore": now.trust.banned - now.trust.doubted, "not_sure": now.trust.doubted}
    found = [_gone(now, key, lifts) for key, lifts in gone.items() if lifts & {*now.carried.usual}]
    true = {
        "rested": now.carried.rested,
        "careful": now.trust.pause is not None,
        "back": bool(now.trust.backs),
        "chased": now.chased,
        "stepped": filled.stepped,
        "days": bool(now.absent),
    }
    found += [say(f"block.load.{key}") for key, holds in true.items() if holds]
    return tuple(found) or (say("block.load.full"),)


def _gone(now: Setting, key: str, lifts: frozenset[str]) -> Say:
    """Lifts that are left out, the one most done first, with what they hold of a usual week."""
    mine = sorted(
        (one for one in now.carried.usual.values() if one.lift in lifts), key=lambda x: -x.tonnage_kg
    )
    share = sum(one.tonnage_kg for one in mine) / max(1.0, now.carried.week.tonnage_kg)
    return say(f"block.load.{key}", lifts=tuple(one.lift for one in mine)[:3], share=share)


def raised(now: Setting, frame: Span, filled: Schedule) -> tuple[Say, ...]:
    """What each need raises and by how much in the weeks of work, and where the room comes from."""
    found, rising = [], False
    for id_ in dict.fromkeys(now.raised.values()):
        groups = tuple(
            group for group, need in now.raised.items() if need == id_ and now.carried.tonnage(group)
        )
        if not groups:
            continue
        rank = next(need.rank for need in now.needs if need.id == id_)
        share = _held_of(groups, now, frame, filled)
        more = share >= 1
        rising |= more
        rare = share > now.trade.value("raised_rare")
        key = f"block.raise.{'rare' if rare else 'one' if more else 'kept'}"
        found.append(say(key, lifts=tuple(map(_group, groups)), share=share, rank=rank))
    if rising and filled.room:
        found.append(say("block.raise.room", lifts=tuple(map(_group, filled.room))))
    return tuple(found)


def _held_of(groups: tuple[str, ...], now: Setting, frame: Span, filled: Schedule) -> float:
    """What the weeks of work hold of these groups on the mean, as a share of what is done now."""
    work = [
        week for at, week in enumerate(filled.weeks) if frame.kinds[at] == "work" and at < frame.work_ends
    ]
    held_kg = sum(
        one.tonnage_kg * sets
        for week in work
        for lines in week.values()
        for one, sets in lines
        if one.group in groups
    )
    return held_kg / max(1, len(work)) / sum(map(now.carried.tonnage, groups))


def _group(name: str) -> Say:
    known = ("derivative", "other", "overhead", "pull", "press", "back")
    return say(f"block.raise.group_{name}") if name in known else say("block.raise.group_lift", lift=name)


def left_out(now: Setting, weeks: tuple[BlockWeek, ...]) -> tuple[Say, ...]:
    """What was considered and waits, in three lines at most."""
    lines = [line for week in weeks for one in week.sessions for line in one.sets]
    served = {line.need for line in lines} | {*now.raised.values()}
    sore = tuple(one for one in now.carried.usual if one in now.trust.banned - now.trust.doubted)
    doubted = tuple(one for one in now.carried.usual if one in now.trust.doubted)
    proposed = {part for line in lines for part in line.lift.split(" + ")}
    rare = tuple(
        one.lift for one in now.carried.usual.values()
        if one.lift not in proposed | now.trust.banned and one.days < now.trade.value("kept_days_least")
    )  # fmt: skip
    found = [say("block.left.hurts", lifts=sore[:3])] if sore else []
    found += [say("block.left.doubted", lifts=doubted[:3])] if doubted else []
    found += [say("block.left.waits", need=called(need.id)) for need in now.needs if need.id not in served]
    found += [say("block.left.rare", lifts=rare[:3])] if rare else []
    return tuple(found[:_LEFT])
