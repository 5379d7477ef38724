"""The proposed block and test day, and what was planned against what was done."""

import datetime as dt
from typing import Final

from reportgen.model.say import Maybe, Say
from reportgen.model.values import dataclass

#: How the remark of every line of a plan begins, by which it is known as a proposal of ours.
MARK: Final = "for: "


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockSet:
    """One line of a proposed session."""

    lift: str  # a catalogue name, or several joined by " + " (one complex)
    sets: int
    reps: str  # repetitions a set, one number a part: 2, or 1+2
    kg: float  # the load to plan with: whole kilograms that a bar can be loaded with
    floor_kg: float | None  # where to begin on a bad day
    share: float | None  # kg / base_kg
    need: str  # id of the need that the line serves, or full_lift, heavy_singles, upkeep, gather, goal
    serves: Say  # what the line is for
    remark: tuple[Say, ...] = ()
    variant: str = ""
    ceiling_kg: float | None = None  # no load of this line goes above it; None on the test day
    base_kg: float | None = None  # what the share is of: the current best, or what stands for it
    #: way up, single, back-off, full, derivative, overhead, other, pull, squat, press, back, attempt, test.
    role: str = ""
    aid: str = ""  # straps, where the lift is mostly done with them


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockSession:
    """One proposed session."""

    date: dt.date
    sets: tuple[BlockSet, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockWeek:
    """One proposed week; `load_share` is what it holds of a week of the last eight trained ones."""

    week: str
    start: dt.date
    kind: str  # work, light, return (the first weeks after a break), taper, testing
    sessions: tuple[BlockSession, ...]
    load_kg: float | None = None
    load_share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockBefore:
    """The load of one trained week before the block, counted as the block's: sets of work."""

    start: dt.date
    load_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockDose:
    """Minutes of flexibility or control work a week."""

    area: str
    minutes: float
    times_per_week: int = 0
    need: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockTaper:
    """The taper before the proposed test day."""

    start: dt.date
    #: What the sessions from `start` to the day before the test leave out of the tonnage that a week of work
    #: holds on the same days.
    cut: float
    days: int = 0
    last_heavy_pull: dt.date | None = None
    last_heavy_squat: dt.date | None = None
    last_near_limit: dt.date | None = None
    #: own_days, own_cut: Medians of the lifter's own tapers that gave what tapers usually give, or more; None
    #: without one. `own_count` says how many these are.
    own_days: float | None = None
    own_cut: float | None = None
    own_count: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockAttempt:
    """One proposed attempt."""

    attempt: int
    kg: float
    why: Say
    lift: str = ""
    chance: float | None = None  # that it is made, on the day as it is proposed
    #: What to ask for where this one is made: the next attempt, None after the last.
    after_make_kg: float | None = None
    #: What to ask for where this one is missed: the same again, None after the last.
    after_miss_kg: float | None = None
    loading: Maybe = ""  # one side of the bar, in words
    #: made, tried: How often weights so near were made of the last tries; None where too few are logged.
    made: int | None = None
    tried: int | None = None
    published_made: float | None = None  # share that senior internationals make of this attempt
    #: Of the opener: opener / best of the day, their median; of the others: their jump as a share of the
    #: attempt before.
    published_share: float | None = None
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockWarmUp:
    """One step up to the opener: so many minutes, and attempts of the others, before it."""

    lift: str
    kg: float
    reps: int
    loading: Maybe = ""
    minutes: float = 0.0
    attempts: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockFact:
    """The proposal: a draft for a coach to change."""

    weeks: tuple[BlockWeek, ...] = ()
    flexibility: tuple[BlockDose, ...] = ()
    test_day: dt.date | None = None
    taper: BlockTaper | None = None
    attempts: tuple[BlockAttempt, ...] = ()
    reason: str | Say = ""  # why no block is proposed; a testing week may stand in its place
    cautions: tuple[Say, ...] = ()
    notes: tuple[Say, ...] = ()  # why it is as it is, where it departs from what was asked
    test_kind: str = ""  # contest or test; "" without a test day
    warmups: tuple[BlockWarmUp, ...] = ()
    ends: tuple[Say, ...] = ()  # when the test day ends
    tell: tuple[str, ...] = ()  # for the lifter: tell the coach at once if
    #: Of the weeks of work, against the last eight trained weeks; None without one.
    load_share: float | None = None
    load_reasons: tuple[Say, ...] = ()  # why they hold well less than before
    before: tuple[BlockBefore, ...] = ()  # the last eight trained weeks
    raised: tuple[Say, ...] = ()  # what a need raises, with the need, and where the room comes from
    left_out: tuple[Say, ...] = ()  # what was considered and waits or is left out
    #: film, watch: What the lifter films and what the coach watches for this week.
    film: tuple[Say, ...] = ()
    watch: tuple[Say, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedWeek:
    """Planned against done in one week."""

    week: str
    sessions_planned: int
    sessions_done: int  # planned sessions that were kept, on their day or on another one of the week
    sets_planned: int
    sets_done: int  # planned sets for which a set of the same lift was done in the week
    load_off: float | None  # mean of (done - planned) / planned over those sets; None without one
    start: dt.date
    load_apart: float | None = None  # mean of the same without its sign
    sessions_moved: int = 0  # of the sessions done, those on another day of the week
    #: sessions_extra, sets_extra: Done beyond the plan.
    sessions_extra: int = 0
    sets_extra: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Skipped:
    """A lift that is skipped far more often than the rest of the plan, in planned days of whole weeks."""

    lift: str
    planned: int
    skipped: int
    rest_planned: int
    rest_skipped: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedDone:
    """Planned against done."""

    weeks: tuple[PlannedWeek, ...]
    skipped: tuple[Skipped, ...] = ()
