"""The proposed block and test day, and what was planned against what was done."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockSet:
    """One line of a proposed session."""

    lift: str
    sets: int
    reps: str
    kg: float | None
    floor_kg: float | None
    share: float | None
    need: str
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockSession:
    """One proposed session."""

    date: dt.date
    sets: tuple[BlockSet, ...]
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockWeek:
    """One proposed week."""

    week: str
    start: dt.date
    kind: str  # work, light, taper, testing
    sessions: tuple[BlockSession, ...]


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
    cut: float
    days: int = 0
    last_heavy_pull: dt.date | None = None
    last_heavy_squat: dt.date | None = None
    last_near_limit: dt.date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockAttempt:
    """One proposed attempt."""

    attempt: int
    kg: float
    why: str
    lift: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockFact:
    """The proposal: a draft for a coach to change."""

    weeks: tuple[BlockWeek, ...]
    flexibility: tuple[BlockDose, ...]
    test_day: dt.date | None
    taper: BlockTaper | None
    attempts: tuple[BlockAttempt, ...]
    reason: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedWeek:
    """Planned against done in one week."""

    week: str
    sessions_planned: int
    sessions_done: int
    sets_planned: int
    sets_done: int
    load_off: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedDone:
    """Planned against done."""

    weeks: tuple[PlannedWeek, ...]
