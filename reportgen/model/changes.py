"""What changed between an earlier day (or an earlier dossier) and now, as frozen values."""

import datetime as dt
from dataclasses import dataclass


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


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedChanges:
    """Rule ids of the needs that went, stayed and came."""

    gone: tuple[str, ...]
    stayed: tuple[str, ...]
    came: tuple[str, ...]


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
class Changes:
    """Everything that moved since a day. None = not known on one of the two sides."""

    since: dt.date
    source: str  # "the log" or the earlier dossier's file name
    gap_before_kg: float | None
    gap_now_kg: float | None
    full_before_per_week: float | None  # the weeks up to since, as many as lie between since and now
    full_now_per_week: float | None
    bests: tuple[LoadChange, ...]
    indicators: tuple[LoadChange, ...]
    needs: NeedChanges | None
    screening: tuple[PositionChange, ...]
    technique: tuple[CheckpointChange, ...]
    sessions_planned: int | None = None  # of plan.csv since that day
    sessions_done: int | None = None
