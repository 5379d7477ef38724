"""Test days, tapers, heavy days close together and the trend, as frozen values."""

import datetime as dt
from typing import Literal

from reportgen.model.say import Maybe
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperFact:
    """What was done before one test day. `reading` none leaves start, days and cut None."""

    start: dt.date | None
    days: int | None
    volume_cut: float | None
    load_change: float | None
    reading: Literal["none", "short", "usual", "long"]
    shape: str = ""  # step, ramp, ""
    volume_cut_classic: float | None = None
    volume_cut_strength: float | None = None  # squats and pulls
    prolonged: str = ""  # why: "over 21 days", "day moved on"; "" = not
    weeks_below: int | None = None
    full_lost: float | None = None  # sessions with the full lift below the usual number
    best_since_kg: float | None = None  # heaviest made after the test day; only for a prolonged one
    cuts_by_week: tuple[float | None, ...] = ()  # from the start on, the last one may be shorter
    scatter_share: float | None = None  # what a session's load scattered by in the weeks before
    cut_reading: Literal["small", "usual", "deep"] | None = None  # of volume_cut
    load_kept: bool | None = None  # the top load changed by no more than is usual


@dataclass(frozen=True, slots=True, kw_only=True)
class TestDayFact:
    """A test day, given or found, and the taper before it."""

    date: dt.date
    kind: Literal["contest", "test", "found"]
    event: str
    lift: str
    best_kg: float | None
    previous_best_kg: float | None
    gain_kg: float | None
    gain_share: float | None
    tried: int
    made: int
    taper: TaperFact | None
    noise: bool | None = None  # the gain is inside the usual scatter
    scatter_share: float  # the usual scatter, a share of the lift
    previous_contest_kg: float | None = None
    previous_training_kg: float | None = None
    taper_missing: Maybe = ""  # why `taper` is None
    gain_missing: Maybe = ""  # why a gain over the best before says nothing
    effect_share: float | None = None  # form of the day against the ability of the weeks before
    effect_low: float | None = None  # its 95 % range
    effect_high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperEffect:
    """What this lifter's tapers give: the form of their test days as a share, with its 95 % range.

    It leans to what tapers give others, the more the fewer there are.
    """

    share: float
    low: float
    high: float
    tapers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ChaseFact:
    """Heavy days close together without a gain."""

    start: dt.date
    end: dt.date
    heavy_days: int
    missed_days: int
    gain_kg: float
    lift: str = ""
    weeks_below: int | None = None
    full_lost: float | None = None
    best_since_kg: float | None = None  # heaviest made after the end


@dataclass(frozen=True, slots=True, kw_only=True)
class TrendFact:
    """What the ability changed by a month, with its 95 % range, and the range of arrival."""

    lift: str
    kg_per_month: float
    low: float
    high: float
    reach_date: dt.date | None
    reach_early: dt.date | None
    reach_late: dt.date | None
    months: int = 0  # that it is of
    first: dt.date
    last: dt.date
    change_share: float  # of the whole span
    noise: bool  # that change is inside the usual scatter
    noise_share: float
    bar_kg_per_month: float | None = None  # for a body-mass goal: the bar's part of the gap's change
    body_kg_per_month: float | None = None
    reason: Maybe = ""
    weeks: int = 0  # that it is of
