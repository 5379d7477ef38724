"""What changed between an earlier day (or an earlier dossier) and now, as frozen values."""

import datetime as dt
from typing import Literal

from reportgen.model.say import Say
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadChange:
    """A load then and now; `clear` is None where one of the two is missing."""

    id: str  # an indicator's id, or "" for a lift
    lift: str
    before_kg: float | None
    now_kg: float | None
    change_kg: float | None
    change_share: float | None
    clear: bool | None  # beyond the usual scatter of a lifter from meet to meet
    before_reading: str = ""
    now_reading: str = ""
    scatter_kg: float | None = None  # that usual scatter of the load of then


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedChanges:
    """Rule ids of the needs that went, stayed and came."""

    gone: tuple[str, ...]
    stayed: tuple[str, ...]
    came: tuple[str, ...]
    unsure: tuple[str, ...] = ()  # on one side only, and the other one held nothing of what they rest on
    asked: tuple[str, ...] = ()  # no need any more, and still a question
    first: str = ""  # the first need of that day; "" without one


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionChange:
    """One position, one side, then and now."""

    item: str
    side: str
    unit: str
    before: float | None
    now: float | None
    before_grade: str
    now_grade: str
    change: float | None
    clear: bool | None  # beyond the smallest real change; None = not comparable or not known


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckpointChange:
    """One checkpoint's grade then and now."""

    checkpoint: str
    lift: str
    before: str
    now: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """What became of a plan, or of an earlier dossier's proposal; no session planned = none was due yet."""

    what: Literal["plan", "proposal"]
    sessions_planned: int
    sessions_done: int
    sets_planned: int
    sets_done: int
    load_off: float | None  # mean of (done - planned) / planned over the sets done; None without one
    load_near: bool | None = None  # it is so small that the planned loads were the ones done


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Everything that moved since a day. None = not known on one of the two sides."""

    since: dt.date
    source: str  # "the log" or the earlier dossier's file name
    gap_before_kg: float | None
    gap_now_kg: float | None
    full_before_per_week: float | None  # in whole weeks up to since, at most as many as lie after it
    full_now_per_week: float | None
    bests: tuple[LoadChange, ...]
    indicators: tuple[LoadChange, ...]
    needs: NeedChanges | None
    screening: tuple[PositionChange, ...]
    technique: tuple[CheckpointChange, ...]
    sessions_planned: int | None = None  # of plan.csv since that day
    sessions_done: int | None = None
    #: The gap moved by more than `gap_scatter_kg`, the usual scatter of the goal lift; where the goal was
    #: another weight then, the lift itself did. None where a side is not known.
    gap_clear: bool | None = None
    gap_scatter_kg: float | None = None
    #: The goal where it was another weight then, as body mass or the coach moved it.
    goal_before_kg: float | None = None
    lift_change_kg: float | None = None  # what the goal lift itself gained
    #: Sessions a week differ by more than `full_band`: what one session more or fewer makes.
    full_clear: bool | None = None
    full_band: float | None = None
    #: full_weeks_before, full_weeks_now: Whole weeks that the two means are over.
    full_weeks_before: int | None = None
    full_weeks_now: int | None = None
    followed: tuple[Followed, ...] = ()  # the plan and the earlier proposal; empty where there was neither
    missing: tuple[str, ...] = ()  # parts of which nothing was known then, in words
    unread: tuple[Say, ...] = ()  # parts of the earlier facts that could not be read
    log_begins: dt.date | None = None  # first day of the log where it lies after `since`
    retest: Say | None = None  # what became of the thing that the first need of that day was about
