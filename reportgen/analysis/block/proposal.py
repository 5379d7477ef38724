"""The next block and the test day, from what holds the goal back."""

import datetime as dt
from collections.abc import Mapping

import pandas as pd

from reportgen.analysis import goals
from reportgen.analysis.block import attempts, diary, doses, schedule, setting, span, squats, testing
from reportgen.analysis.block.filling import Filled, volume
from reportgen.analysis.block.lines import Line, likely_kg, rank
from reportgen.analysis.block.schedule import Schedule
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span
from reportgen.analysis.needs import wording
from reportgen.analysis.outlook import Outlook
from reportgen.model import calendar
from reportgen.model.facts import Facts
from reportgen.model.proposal import (
    BlockFact,
    BlockSession,
    BlockSet,
    BlockTaper,
    BlockWeek,
)
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade

_ALL_SORE = "Nothing is left to propose: every lift of a block loads a place that hurts."
_NO_DAYS = "Nothing is left to propose: away.csv names every day of this block."
_NO_ATTEMPTS = "No attempts are proposed: there is no current best to open from that another day comes near."
_NOT_LOGGED = "none of the last year is logged"
_NOT_SURE = "the figures are not sure"


def propose(
    records: Records, sets: pd.DataFrame, days: pd.DataFrame, facts: Facts, expected: Outlook, trade: Trade
) -> BlockFact:
    """Propose the next block and the test day.

    The block begins on the Monday after the review day. It is a draft for a coach to change.

    Args:
        records: The lifter's records.
        sets: Prepared sets (`frames.prepare`) up to the review day.
        days: `frames.by_day` of them.
        facts: The facts so far: goals, current, exposure, needs, and screening, technique, test days,
            chases and the sure weight where they are known.
        expected: The ability of the lifts and what tapers give (`outlook.read`).
        trade: Rules.

    Returns:
        Weeks of sessions, a taper and attempts; or a reason, with a testing week where the log is too thin.

    References:
        Prilepin's table as upper bounds; tapers: Winwood et al. 2023, Travis et al. 2021; the rest is
        common practice or decided here, rule by rule in trade/rules.
    """
    now = setting.read(records, sets, days, facts, expected, trade)
    if now.trust.stopped:
        return _nothing(now, now.trust.stopped)
    thin = _too_thin(now)
    if thin:
        return _test_instead(now, thin)
    contest_day = span.contest_day(now)
    if contest_day is not None and span.testable(now) and not now.careful:
        return _contest_week(now, sets, contest_day)
    frame = span.read(now)
    marked = diary.plan(now, frame)
    filled = schedule.build(now, frame, marked)
    if filled is None:
        return _test_instead(now, "The last four trained weeks carry not even the sessions of a block.")
    if not any(filled.weeks):
        return _no_sessions(now, sets, frame)
    contest = frame.test_day is not None and attempts.is_contest(now, sets, frame.test_day, given=frame.given)
    taper = _taper(now, frame, filled)
    fresh = 0.0 if taper is None else expected.taper.share
    day = attempts.propose(now, sets, contest=contest, fresh=fresh) if frame.test_day is not None else None
    weeks = _weeks(now, frame, filled, day)
    return BlockFact(
        weeks=weeks,
        flexibility=doses.propose(now),
        test_day=frame.test_day,
        taper=taper,
        attempts=day.attempts if day is not None else (),
        cautions=now.trust.cautions,
        notes=(*_notes(now, frame, weeks, day), *_volume_note(now, frame, filled)),
        test_kind="" if frame.test_day is None else "contest" if contest else "test",
        warmups=day.warmups if day is not None else (),
        ends=day.ends if day is not None else (),
        tell=choices().tell,
    )


def _no_sessions(now: Setting, sets: pd.DataFrame, frame: Span) -> BlockFact:
    """No day to train on: the attempts, where the goal's date leaves none before it; else why."""
    if frame.given and frame.test_day is not None and not now.careful:
        return _contest_week(now, sets, frame.test_day)
    return _nothing(
        now,
        say("doubts.parts.all", told=now.trust.notes)
        if now.trust.notes
        else (_ALL_SORE if now.trust.banned else _NO_DAYS),
    )


def _why_none(now: Setting) -> str | Say:
    if now.trust.notes:
        return say("doubts.parts.all", told=now.trust.notes)
    return _ALL_SORE if now.trust.banned else _NO_DAYS


def _contest_week(now: Setting, sets: pd.DataFrame, day: dt.date) -> BlockFact:
    """The attempts of a day before which no block begins: nothing is won by training before it any more."""
    given = now.facts.goals[0].by == day
    contest = attempts.is_contest(now, sets, day, given=True)
    tries = attempts.propose(now, sets, contest=contest)
    start = day - dt.timedelta(days=day.weekday())
    year, number, _ = day.isocalendar()
    week = BlockWeek(
        week=f"{year}-W{number:02d}",
        start=start,
        kind="taper",
        sessions=tuple(_test_session(now, day, tries)),
    )
    what = "contest" if contest else "test day"
    of = "the goal's date" if given else "the day that is planned"
    notes = (
        f"The {what} is on {calendar.day(day)}, {of}: no block begins before it. Up to then easy sessions at "
        "most, nothing over the opener; the next block is asked for after it.",
    )
    return BlockFact(
        weeks=(week,) if week.sessions else (),
        flexibility=(),
        test_day=day,
        taper=None,
        attempts=tries.attempts,
        cautions=now.trust.cautions,
        notes=(*now.trust.notes, *notes, *(() if tries.attempts else (_NO_ATTEMPTS,))),
        test_kind="contest" if contest else "test",
        warmups=tries.warmups,
        ends=tries.ends,
        tell=choices().tell,
    )


def _nothing(now: Setting, reason: str | Say) -> BlockFact:
    return BlockFact(
        weeks=(), flexibility=(), test_day=None, taper=None, attempts=(), reason=reason,
        cautions=_without_a_draft(now.trust.cautions), tell=choices().tell,
    )  # fmt: skip


def _without_a_draft(cautions: tuple[Say, ...]) -> tuple[Say, ...]:
    """The cautions where nothing is proposed: there is no draft and nothing heavy."""
    return tuple(one for one in cautions if one.key not in ("doubts.caution.draft", "doubts.caution.heavy"))


def _test_instead(now: Setting, reason: str) -> BlockFact:
    week = testing.week(now)
    if week is None:
        return _nothing(now, reason)
    return BlockFact(
        weeks=(week,), flexibility=doses.propose(now), test_day=None, taper=None, attempts=(),
        reason=f"{reason} A testing week stands in place of a block.", cautions=now.trust.cautions,
        tell=choices().tell,
    )  # fmt: skip


def _too_thin(now: Setting) -> str:
    """Why the log carries no block; "" where it does."""
    value = now.trade.value
    weeks, least = len(now.rhythm.weeks), int(value("proposal_least_weeks"))
    if weeks < least:
        word = "week" if weeks == 1 else "weeks"
        return f"The last year's log holds {weeks} trained {word}, {least} are needed."
    unknown = [lift for lift in now.goal_lifts if lift not in {*now.stand.bases} | now.trust.doubted]
    if unknown:
        return (
            f"No made {' or '.join(unknown)} of the last year is logged: there is nothing to take loads from."
        )
    short = [
        lift for lift in now.lifts
        if now.stand.plates.bar_kg > now.trade.value("single_low") * now.stand.bases[lift].kg
    ]  # fmt: skip
    if short:
        bar = now.stand.plates.said(now.stand.plates.bar_kg)
        return f"The empty bar, {bar}, is close to the best {' and '.join(short)}."
    if now.rhythm.carried.repetitions < value("proposal_least_repetitions"):
        return (
            f"The last trained weeks hold {now.rhythm.carried.repetitions:.0f} repetitions a week, "
            f"{value('proposal_least_repetitions'):.0f} are needed to build on."
        )
    return ""


def _weeks(now: Setting, frame: Span, filled: Schedule, day: attempts.Day | None) -> tuple[BlockWeek, ...]:
    found = []
    for index, kind in enumerate(frame.kinds):
        start = now.begin + dt.timedelta(days=7 * index)
        year, number, _ = start.isocalendar()
        sessions = [_session(now, date, lines) for date, lines in sorted(filled.weeks[index].items())]
        if frame.test_day is not None and start <= frame.test_day < start + dt.timedelta(days=7):
            sessions += _test_session(now, frame.test_day, day)
        found.append(
            BlockWeek(week=f"{year}-W{number:02d}", start=start, kind=kind, sessions=tuple(sessions))
        )
    return tuple(found)


def _session(now: Setting, date: dt.date, filled: Filled) -> BlockSession:
    ordered = sorted(filled, key=lambda one: rank(one[0], now.trade))
    return BlockSession(date=date, sets=tuple(_set(now, line, sets) for line, sets in ordered))


def _set(now: Setting, line: Line, sets: int) -> BlockSet:
    return BlockSet(
        lift=" + ".join(line.parts),
        sets=sets,
        reps="+".join(str(reps) for reps in line.reps),
        kg=line.kg,
        floor_kg=line.floor_kg,
        share=line.share,
        need=line.need,
        remark=_remark(now, line),
        variant=line.variant,
        ceiling_kg=line.ceiling_kg,
        base_kg=line.base_kg,
        serves=line.serves,
        role=line.role,
    )


def _remark(now: Setting, line: Line) -> str:
    """What to do after misses, for lifts that can be missed; from where a load without a figure was taken."""
    parts = []
    if line.borrowed:
        parts.append("no figure of its own is logged: begun from the goal lift")
    if any(now.trade.lifts[part].classic for part in line.parts):
        value = now.trade.value
        plates = now.stand.plates
        less = max(plates.bar_kg, plates.down(line.kg * (1 - value("stop_drop"))))
        parts.append(f"{int(value('stop_misses'))} misses: down to {plates.said(less)}, finish")
    return "; ".join(parts)


def _test_session(now: Setting, date: dt.date, day: attempts.Day | None) -> list[BlockSession]:
    if day is None or not day.attempts:
        return []
    lines = tuple(
        BlockSet(
            lift=one.lift, sets=1, reps="1", kg=one.kg, floor_kg=None,
            share=one.kg / now.stand.bases[one.lift].kg, need="goal", remark=f"attempt {one.attempt}",
            base_kg=now.stand.bases[one.lift].kg, serves="the test day", role="attempt",
        )
        for one in day.attempts
    )  # fmt: skip
    return [BlockSession(date=date, sets=lines, remark="test day")]


def _taper(now: Setting, frame: Span, filled: Schedule) -> BlockTaper | None:
    """The taper in dates; None where the day is too near for one."""
    if frame.test_day is None or frame.taper_start is None or filled.cut is None:
        return None
    days = (frame.test_day - frame.taper_start).days
    less = "_less_trained" if now.rhythm.less_trained else ""
    if days < now.trade.value(f"taper_days_low{less}"):
        return None
    value = now.trade.value
    every: Mapping[dt.date, Filled] = {date: one for week in filled.weeks for date, one in week.items()}
    classic = [date for date, one in every.items() if _has(one, "single", value("heavy_share"))]
    pulls = [date for date, one in every.items() if _has(one, "pull", value("heavy_pull_share"))]
    squats = [date for date, one in every.items() if _has(one, "squat", value("heavy_squat_share"))]
    return BlockTaper(
        start=frame.taper_start,
        cut=filled.cut,
        days=days,
        last_heavy_pull=max(pulls, default=None),
        last_heavy_squat=max(squats, default=None),
        last_near_limit=max(classic, default=None),
        own_days=frame.own_days,
        own_cut=frame.own_cut,
    )


def _has(filled: Filled, role: str, share: float) -> bool:
    """Whether a day holds a line of a role from a share up; whole kilograms are a hair under it."""
    return any(line.role == role and line.ceiling_kg is not None and
               line.share >= share - 1 / line.base_kg for line, _ in filled)  # fmt: skip


def _notes(
    now: Setting, frame: Span, weeks: tuple[BlockWeek, ...], day: attempts.Day | None
) -> tuple[str | Say, ...]:
    """Why it is as it is, where it departs from what was asked."""
    found: list[str | Say] = [*now.trust.notes, *_held(now), *now.rhythm.notes, *frame.notes]
    gone = " and ".join(lift for lift in now.goal_lifts if lift not in {*now.lifts} | now.trust.doubted)
    if gone:
        found.append(f"No {gone} is proposed while a place that it loads hurts; the rest stays a draft.")
    singles = any(line.role == "single" for week in weeks for one in week.sessions for line in one.sets)
    if now.lifts and not singles:
        found.append(_why_no_singles(now))
    if not now.other and len(now.goal_lifts) == 1:
        other = frozenset(goals.PAIR) - {*now.goal_lifts}
        why = "it loads a sore place" if other <= now.trust.banned - now.trust.doubted else _NOT_LOGGED
        why = _NOT_SURE if other <= now.trust.doubted else why
        found.append(f"The other classic lift is left out: {why}.")
    if not now.squat:
        sore = {"back squat", "front squat"} & now.trust.banned & {*now.stand.bases}
        why = "they load a sore place" if sore else _NOT_LOGGED
        why = _NOT_SURE if set(squats.LIFTS) & now.trust.doubted else why
        found.append(f"No squats are proposed: {why}.")
    if now.trust.pause is not None:
        left = now.trust.pause.left
        found.append(
            f"After the break since {calendar.day(now.trust.pause.since)}: no 90 % in the first "
            f"{'week' if left == 1 else f'{left} weeks'}."
        )
    found += [
        f"{place[:1].upper()}{place[1:]} settled on {calendar.day(settled)}: up to {calendar.day(last)} what "
        "loads it comes back under the load and volume of before, and nothing new is brought in there."
        for place, settled, last in dict.fromkeys(
            (back.place, back.settled, back.until - dt.timedelta(days=1)) for back in now.trust.backs
        )
    ]
    if any(now.is_absent(week.start + dt.timedelta(days=n)) for week in weeks for n in range(7)):
        found.append("Days that away.csv already names are left free.")
    if day is not None and not day.attempts:
        found.append(_NO_ATTEMPTS)
    return tuple(found)


def _held(now: Setting) -> list[str]:
    """Which loads are taken from less than the best, since one day alone stands over the others."""
    found = []
    for lift in dict.fromkeys((*now.goal_lifts, *now.squatted, now.squat)):
        base, fact = now.stand.bases.get(lift), now.stand.current.get(lift)
        most_kg = now.trust.most_kg.get(lift)
        if base and fact and fact.kg and most_kg and base.kg < fact.kg - 1:
            best, most = now.stand.plates.said(fact.kg), now.stand.plates.said(base.kg)
            found.append(
                f"The best {lift}, {best}, stands over every other day: loads are taken from {most} until "
                "another day bears it out."
            )
    return found


def _volume_note(now: Setting, frame: Span, filled: Schedule) -> list[str]:
    """How much less than before the block holds, where it is well less: so little must not go unsaid."""
    worked = [
        volume([line for lines in week.values() for line in lines])
        for week, kind in zip(filled.weeks, frame.kinds, strict=True)
        if kind == "work"
    ]
    before = now.rhythm.carried
    if not worked or now.rhythm.rested or before.tonnage_kg <= 0:
        return []
    most = max(worked, key=lambda week: week.tonnage_kg)
    share = most.tonnage_kg / before.tonnage_kg
    if share >= now.trade.value("weeks_below_share"):
        return []
    return [
        f"The fullest week of work holds {most.repetitions:.0f} repetitions and "
        f"{wording.percent(share)} of the load of the trained weeks before, which held "
        f"{before.repetitions:.0f}, logged warm-ups among them. Warm-ups and what is done besides are for "
        "the coach to add."
    ]


def _why_no_singles(now: Setting) -> str:
    if not now.trust.heavy and not now.trust.young:
        return "Nothing at 90 % and over is proposed while that is so."
    if not now.trust.heavy:
        return "Nothing at 90 % and over is proposed: the lifter is or may be under 18."
    under = [lift for lift in now.lifts if lift in now.stand.ceilings_kg]
    if under:
        kg = min(now.stand.ceilings_kg[lift] for lift in under)
        most = now.stand.plates.said(kg)
        return f"No singles at 90 % and over: a checkpoint is off above {most}, and no load goes above that."
    for lift in now.lifts:
        base, likely = now.stand.base(lift), likely_kg(now, lift)
        if base is not None and likely is not None and likely < now.trade.value("heavy_share") * base.kg:
            often = wording.percent(now.trade.value("single_chance_least"))
            return (
                f"No singles at 90 % and over: today {lift} goes {often} of the time with "
                f"{now.stand.plates.said(now.stand.plates.down(likely))}, and that is less."
            )
    return "No singles at 90 % and over fit into this block."
