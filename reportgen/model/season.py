"""What a calendar year, or the span asked for, held, as frozen values."""

import datetime as dt
from typing import Literal

from reportgen.model.peaks import TestDayFact
from reportgen.model.say import Say
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthBest:
    """Heaviest made load of one lift in one month."""

    month: str  # 2026-03
    lift: str
    kg: float
    date: dt.date
    where: str  # contest, test, training


@dataclass(frozen=True, slots=True, kw_only=True)
class MassFact:
    """Body mass over the span; a month's figure is its median."""

    months: tuple[tuple[str, float], ...]  # month, kg
    first_kg: float
    last_kg: float
    low_kg: float
    high_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AttendanceFact:
    """Weeks of the span between the log's first day and the review day, and what became of them."""

    weeks: int
    weeks_trained: int
    sessions: int
    sessions_per_week: float  # over all weeks, empty ones too
    weeks_lost: dict[str, int]  # empty weeks by reason of away.csv; "not explained" for the rest


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedFact:
    """Made of tried."""

    tried: int
    made: int
    rate: float | None
    rate_low: float | None  # 95 % Wilson interval
    rate_high: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiftResult:
    """One lift of one contest or test day."""

    lift: str
    attempts: int  # taken; a declined one is not
    best_kg: float | None
    bombed: bool  # three attempts and none made


@dataclass(frozen=True, slots=True, kw_only=True)
class ContestFact:
    """One contest or test day by the federation's rules."""

    date: dt.date
    kind: Literal["contest", "test"]
    event: str
    lifts: tuple[LiftResult, ...]
    total_kg: float | None
    body_mass_kg: float | None  # weighed nearest to the day
    body_mass_date: dt.date | None
    sinclair_kg: float | None
    sinclair_cycle: str  # whose A and b, or which are missing; totals of two cycles are never compared
    sinclair_borrowed: bool  # the day's own cycle was not found
    faults: tuple[Say, ...] = ()  # what a federation would not have allowed
    sinclair_missing: Literal["", "total", "body mass", "coefficients"] = ""  # what its Sinclair total lacks


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFact:
    """One calendar year, or the span asked for."""

    label: str
    start: dt.date
    end: dt.date
    test_days: tuple[TestDayFact, ...] | None  # with the taper of each and what it gave
    bests: tuple[MonthBest, ...]  # of the goal's lifts
    body_mass: MassFact | None
    attendance: AttendanceFact | None
    heavy_singles: TriedFact | None  # None while the reference was unknown
    openers: TriedFact
    contests: tuple[ContestFact, ...]
