"""The next block and the test day, from what is carried and what holds the goal back."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from reportgen.analysis.block import (
    attempts,
    diary,
    doses,
    eyes,
    reasons,
    schedule,
    setting,
    span,
    testing,
)
from reportgen.analysis.block.filling import Filled
from reportgen.analysis.block.lines import Line, rank
from reportgen.analysis.block.schedule import Schedule
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span
from reportgen.analysis.needs.signs import Given
from reportgen.analysis.outlook import Outlook
from reportgen.model.findings import Need
from reportgen.model.proposal import (
    BlockBefore,
    BlockFact,
    BlockSession,
    BlockSet,
    BlockTaper,
    BlockWeek,
)
from reportgen.model.say import Say, say
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade


def propose(asked: Given, needs: tuple[Need, ...], expected: Outlook) -> BlockFact:
    """Propose the next block and the test day.

    The block begins on the Monday after the review day. It is a draft for a coach to change.

    Args:
        asked: What is asked of the first goal.
        needs: Its needs, ranked.
        expected: The ability of the lifts and what tapers give (`outlook.read`).

    Returns:
        Weeks of sessions, a taper and attempts; or a reason, with a testing week where the log is too thin.

    References:
        Prilepin's table; tapers: Winwood et al. 2023, Travis et al. 2021; the rest is common practice or
        decided here, rule by rule in trade/rules.
    """
    now = setting.read(asked, needs, expected)
    stopped = now.trust.stopped
    if not stopped and {*now.goal_lifts} <= now.trust.doubted:  # a block without its goal is none
        stopped = say("doubts.parts.all", told=now.trust.notes)
    if stopped:
        return _nothing(now, stopped)
    thin = _too_thin(now)
    if thin is not None:
        return _test_instead(now, thin)
    contest_day = span.contest_day(now)
    if contest_day is not None and span.testable(now) and not now.careful:
        return _contest_week(now, contest_day)
    frame = span.read(now)
    day = None
    if frame.test_day is not None:
        now = replace(now, contest=attempts.is_contest(now, frame.test_day, given=frame.given))
        day = _day(now, frame.test_day, tapered=frame.taper_start is not None)
        now = replace(now, openers={one.lift: one.kg for one in day.attempts if one.attempt == 1})
    marked = diary.plan(now, frame)
    filled = schedule.build(now, frame, marked)
    if filled is None:
        return _test_instead(now, say("block.reason.no_room"))
    if not any(filled.weeks):
        return _no_sessions(now, frame)
    taper = _taper(now, frame, filled)
    if frame.test_day is not None and frame.taper_start is not None and taper is None:
        day = _day(now, frame.test_day, tapered=False)
    return _block(now, frame, filled, taper, day)


def _day(now: Setting, test_day: dt.date, *, tapered: bool) -> attempts.Day:
    fresh = now.expected.taper.share if tapered else 0.0
    return attempts.propose(now, day=test_day, contest=now.contest, fresh=fresh)


def _block(
    now: Setting, frame: Span, filled: Schedule, taper: BlockTaper | None, day: attempts.Day | None
) -> BlockFact:
    """The block with its test day and what is said of it."""
    weeks = _called_lighter(_called_doubles(_weeks(now, frame, filled, day)), now.trade)
    worked = [week.load_share for week in weeks if week.kind == "work" and week.load_share is not None]
    share = sum(worked) / len(worked) if worked else None
    return BlockFact(
        weeks=weeks,
        flexibility=doses.propose(now),
        test_day=frame.test_day,
        taper=taper,
        attempts=day.attempts if day is not None else (),
        cautions=now.trust.cautions,
        notes=reasons.notes(now, frame, weeks, tries=None if day is None else len(day.attempts)),
        test_kind="" if frame.test_day is None else "contest" if now.contest else "test",
        warmups=day.warmups if day is not None else (),
        ends=day.ends if day is not None else (),
        tell=choices().tell,
        load_share=share,
        load_reasons=reasons.load(now, filled, min(worked, default=None)),
        before=_before(now),
        raised=reasons.raised(now, frame, filled),
        left_out=reasons.left_out(now, weeks),
        film=eyes.film(now, weeks[0]),
        watch=eyes.watch(now, weeks[0]),
    )


def _before(now: Setting) -> tuple[BlockBefore, ...]:
    pairs = zip(now.carried.starts, now.carried.weeks, strict=True)
    return tuple(BlockBefore(start=start, load_kg=week.tonnage_kg) for start, week in pairs)


def _no_sessions(now: Setting, frame: Span) -> BlockFact:
    """No day to train on: the attempts, where the goal's date leaves none before it; else why."""
    if frame.given and frame.test_day is not None and not now.careful:
        return _contest_week(now, frame.test_day)
    if now.trust.notes:
        return _nothing(now, say("doubts.parts.all", told=now.trust.notes))
    return _nothing(now, say(f"block.reason.{'all_sore' if now.trust.banned else 'no_days'}"))


def _contest_week(now: Setting, day: dt.date) -> BlockFact:
    """The attempts of a day before which no block begins: nothing is won by training before it any more."""
    contest = attempts.is_contest(now, day, given=True)
    tries = attempts.propose(now, day=day, contest=contest)
    sessions = tuple(_test_session(now, day, tries))
    week = _week(day - dt.timedelta(days=day.weekday()), "taper", sessions)
    why = say(
        "block.note.contest_week", what=say(f"block.note.{'contest' if contest else 'test'}"), date=day,
        of=say(f"block.note.{'goals_date' if day in now.given_days else 'planned'}"),
    )  # fmt: skip
    missing = () if tries.attempts else (say("block.note.no_attempts"),)
    return BlockFact(
        weeks=(week,) if sessions else (),
        test_day=day,
        attempts=tries.attempts,
        cautions=now.trust.cautions,
        notes=(*now.trust.notes, why, *missing),
        test_kind="contest" if contest else "test",
        warmups=tries.warmups,
        ends=tries.ends,
        tell=choices().tell,
    )


def _nothing(now: Setting, reason: Say) -> BlockFact:
    """Nothing is proposed, so no caution is said of a draft or of what is heavy."""
    unsaid = ("doubts.caution.draft", "doubts.caution.heavy")
    cautions = tuple(one for one in now.trust.cautions if one.key not in unsaid)
    return BlockFact(reason=reason, cautions=cautions, tell=choices().tell)


def _test_instead(now: Setting, reason: Say) -> BlockFact:
    week = testing.week(now)
    if week is None:
        return _nothing(now, reason)
    return BlockFact(
        weeks=(week,),
        flexibility=doses.propose(now),
        reason=say("block.reason.testing", reason=reason),
        cautions=now.trust.cautions,
        tell=choices().tell,
    )


def _too_thin(now: Setting) -> Say | None:
    """Why the log carries no block; None where it does."""
    value = now.trade.value
    weeks = now.carried.trained_weeks
    if weeks < int(value("proposal_least_weeks")):
        return say("block.reason.few_weeks", weeks=weeks)
    unknown = tuple(lift for lift in now.goal_lifts if lift not in {*now.stand.bases} | now.trust.doubted)
    if unknown:
        return say("block.reason.not_logged", lifts=unknown)
    bar_kg = now.stand.plates.bar_kg
    short = tuple(lift for lift in now.lifts if bar_kg > value("single_low") * now.stand.bases[lift].kg)
    if short:
        return say("block.reason.bar", bar_kg=bar_kg, lifts=short)
    if now.carried.week.repetitions < value("proposal_least_repetitions"):
        return say("block.reason.few_reps", repetitions=now.carried.week.repetitions)
    return None


def _weeks(now: Setting, frame: Span, filled: Schedule, day: attempts.Day | None) -> tuple[BlockWeek, ...]:
    found = []
    for index, kind in enumerate(frame.kinds):
        start = now.begin + dt.timedelta(days=7 * index)
        sessions = [_session(now, date, lines) for date, lines in sorted(filled.weeks[index].items())]
        if frame.test_day is not None and start <= frame.test_day < start + dt.timedelta(days=7):
            sessions += _test_session(now, frame.test_day, day)
        named = "work_taper" if index == frame.late else kind
        found.append(_week(start, named, tuple(sessions), filled.loads_kg[index], filled.shares[index]))
    return tuple(found)


def _week(
    start: dt.date, kind: str, sessions: tuple[BlockSession, ...], load_kg: float | None = None,
    share: float | None = None,
) -> BlockWeek:  # fmt: skip
    year, number, _ = start.isocalendar()
    return BlockWeek(
        week=f"{year}-W{number:02d}", start=start, kind=kind, sessions=sessions, load_kg=load_kg,
        load_share=share,
    )  # fmt: skip


def _session(now: Setting, date: dt.date, filled: Filled) -> BlockSession:
    ordered = sorted(filled, key=lambda one: rank(one[0], now.trade))
    # Where a ceiling leaves two lines of a lift alike they are one.
    alike: dict[tuple[object, ...], tuple[Line, int]] = {}
    for line, sets in ordered:
        key = line.parts, line.reps, line.kg, line.variant, line.aid
        first, others = alike.get(key, (line, 0))
        alike[key] = first, others + sets
    return BlockSession(date=date, sets=tuple(_set(now, line, sets) for line, sets in alike.values()))


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
        aid=line.aid,
    )


def _called_doubles(weeks: tuple[BlockWeek, ...]) -> tuple[BlockWeek, ...]:
    """The weeks with doubles that follow no single called so: the single was out of reach, or had no room."""

    def told(one: BlockSession) -> BlockSession:
        after = {line.lift for line in one.sets if line.role == "single"}
        doubles = say("block.serves.doubles")
        sets = (
            replace(x, serves=doubles) if x.role == "back-off" and x.lift not in after else x
            for x in one.sets
        )
        return replace(one, sets=tuple(sets))

    return tuple(replace(week, sessions=tuple(map(told, week.sessions))) for week in weeks)


def _called_lighter(weeks: tuple[BlockWeek, ...], trade: Trade) -> tuple[BlockWeek, ...]:
    """The weeks with each usual lift that comes out lighter than now in all of them called so."""
    every = [line for week in weeks for one in week.sessions for line in one.sets]
    tops: dict[tuple[str, Say], float] = {}
    for line in every:
        if line.serves.key in ("block.serves.kept", "block.serves.raised"):
            key = line.lift, line.serves
            tops[key] = max(line.kg, tops.get(key, 0.0))
    less = {
        (lift, serves): replace(serves, key="block.serves.lighter")
        for (lift, serves), kg in tops.items()
        if isinstance(now_kg := serves.value("kg"), float) and kg < trade.value("kept_lighter") * now_kg
    }

    def told(line: BlockSet) -> BlockSet:
        return replace(line, serves=less.get((line.lift, line.serves), line.serves))

    return tuple(
        replace(week, sessions=tuple(replace(one, sets=tuple(map(told, one.sets))) for one in week.sessions))
        for week in weeks
    )


def _remark(now: Setting, line: Line) -> tuple[Say, ...]:
    """What to do after misses, for lifts that can be missed; from where a load without a figure was taken."""
    found = [say("block.line.borrowed")] if line.borrowed else []
    if any(now.trade.lifts[part].classic for part in line.parts):
        value, plates = now.trade.value, now.stand.plates
        less = max(plates.bar_kg, plates.down(line.kg * (1 - value("stop_drop"))))
        found.append(say("block.line.misses", n=int(value("stop_misses")), kg=less))
    return tuple(found)


def _test_session(now: Setting, date: dt.date, day: attempts.Day | None) -> list[BlockSession]:
    if day is None or not day.attempts:
        return []
    lines = tuple(
        BlockSet(
            lift=one.lift, sets=1, reps="1", kg=one.kg, floor_kg=None,
            share=one.kg / now.stand.bases[one.lift].kg, need="goal",
            remark=(say("block.line.attempt", n=one.attempt),), base_kg=now.stand.bases[one.lift].kg,
            serves=say("block.serves.test"), role="attempt",
        )
        for one in day.attempts
    )  # fmt: skip
    return [BlockSession(date=date, sets=lines)]


def _taper(now: Setting, frame: Span, filled: Schedule) -> BlockTaper | None:
    """The taper in dates; None where the day is too near for one."""
    if frame.test_day is None or frame.taper_start is None or filled.cut is None:
        return None
    days = (frame.test_day - frame.taper_start).days
    less = "_less_trained" if now.carried.less_trained else ""
    if days < now.trade.value(f"taper_days_low{less}"):
        return None
    value = now.trade.value
    every: Mapping[dt.date, Filled] = {date: one for week in filled.weeks for date, one in week.items()}

    def last(role: str, rule: str) -> dt.date | None:
        return max((date for date, one in every.items() if _has(one, role, value(rule))), default=None)

    return BlockTaper(
        start=frame.taper_start,
        cut=filled.cut,
        days=days,
        last_heavy_pull=last("pull", "heavy_pull_share"),
        last_heavy_squat=last("squat", "heavy_squat_share"),
        last_near_limit=last("single", "heavy_share"),
        own_days=frame.own.own_days,
        own_cut=frame.own.own_cut,
        own_count=frame.own.count,
    )


def _has(filled: Filled, role: str, share: float) -> bool:
    """Whether a day holds a line of a role from a share up; whole kilograms are a hair under it."""
    return any(line.role == role and line.ceiling_kg is not None and
               line.share >= share - 1 / line.base_kg for line, _ in filled)  # fmt: skip
