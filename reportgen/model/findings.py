"""Screening, technique and what holds the goal back, as frozen values."""

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from reportgen.model.say import Maybe, Say


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreeningItem:
    """One position or joint, one side, read under like conditions."""

    item: str
    side: str
    kind: str
    latest: float | None
    latest_date: dt.date | None
    grade: str
    norm: float | None
    norm_source: str
    change: float | None
    lapsed: bool | None
    unit: str = ""
    conditions: str = ""
    earlier: float | None = None
    earlier_date: dt.date | None = None
    earlier_grade: str = ""
    clear_change: bool | None = None  # beyond the smallest real change; None = not comparable
    smallest_real_change: float | None = None
    reached: bool | None = None  # against the norm or by the grade
    side_difference: float | None = None
    file: str = ""
    lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CompensationFact:
    """What happens to an angle as the bar gets heavier."""

    item: str
    per_kg: float | None
    at_goal: float | None
    low: float | None
    high: float | None
    side: str = ""
    date: dt.date | None = None
    loads_kg: tuple[float, ...] = ()
    readings: tuple[float, ...] = ()
    reason: Maybe = ""  # why nothing was carried on to the goal
    grows: bool | None = None  # the lower slope of its 95 % interval lies above zero
    file: str = ""
    lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class UpkeepFact:
    """Minutes of flexibility and control work for one area."""

    area: str
    minutes_per_week: float
    peak_minutes_per_week: float
    days_since: int | None
    stopped: bool  # for so long that what it keeps is lost


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreeningFact:
    """Positions and joints."""

    items: tuple[ScreeningItem, ...]
    compensation: tuple[CompensationFact, ...]
    upkeep: tuple[UpkeepFact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """One grading of a checkpoint."""

    date: dt.date
    grade: str
    load_kg: float | None
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckpointFact:
    """One checkpoint of the textbook model over time."""

    checkpoint: str
    phase: str
    lift: str
    grades: tuple[Grade, ...]
    latest: str
    persistence_days: int | None
    load_onset_kg: float | None
    departure: bool = False
    accepted: bool = False
    file: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TechniqueFact:
    """Technique in the order of the textbook model."""

    checkpoints: tuple[CheckpointFact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpressedStrength:
    """How much of the squat reached the bar in one month."""

    month: str
    snatch_kg: float
    supported_kg: float
    share: float


#: A sentence in parts: words, and weights in kilograms that a page may print in another unit.
Worded = tuple[str | float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One thing that a finding rests on, and where to look."""

    text: str
    file: str
    rule: str
    lines: tuple[int, ...] = ()
    dates: tuple[dt.date, ...] = ()
    source_kind: str = ""  # miss, checkpoint, screening, indicator, exposure; "" = beside, no witness
    parts: Worded = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NotTested:
    """Something nobody measured, or a reading with two sides, and what would settle it."""

    id: str
    what_would_settle: str
    kind: Literal["not tested", "question"] = "not tested"
    claim: str = ""  # of a question: what was seen
    claim_parts: Worded = ()
    settle_parts: Worded = ()
    evidence: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What the two weeks before an episode held against the usual; None where the log does not say.

    Attributes:
        load: Tonnage of the lifts that load the place, as a share of the usual two weeks.
        sessions: Sessions, as a share of the usual.
        stopped: Areas of mobility work that had been done and stood still in these two weeks.
    """

    load: float | None
    sessions: float | None
    stopped: tuple[str, ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """A sign of these two weeks that came before other episodes of the place, too: `times` of `of`."""

    sign: Literal["more load", "more sessions", "work stopped"]
    times: int
    of: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EpisodeFact:
    """One episode of pain in one place: from its start until it settled, dated by itself.

    Attributes:
        settled: None while it is open.
        worst: The highest score.
        kind: The gravest kind that was logged, "" without one.
        lifts: Lifts that load the place.
        alike: Told from three episodes of the place on.
        lines: Of pain.csv.
    """

    place: str
    start: dt.date
    settled: dt.date | None
    worst: float | None
    kind: str
    open: bool
    lifts: tuple[str, ...]
    before: Before
    alike: tuple[Alike, ...] = ()
    file: str = ""
    lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PainFact:
    """One place that hurts or hurt: its newest episode, open or settled."""

    place: str
    lift: str
    score: float | None
    kind: str
    first: dt.date
    last: dt.date
    settled: dt.date | None
    open: bool
    lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PainReading:
    """What pain.csv says about the next weeks. Printed only where screening is printed, too.

    Attributes:
        places: Open places first, then settled ones, each by its first day; `first` is that of the episode.
        nothing_proposed: Numbness, locking or an injury is open: no proposal at all.
        lifts: Lifts of the catalogue for which nothing is proposed.
        cautions: For the page and every proposal.
    """

    places: tuple[PainFact, ...]
    nothing_proposed: bool
    lifts: tuple[str, ...]
    cautions: tuple[Say, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidDone:
    """One row of decisions.csv and what came of it.

    Attributes:
        state: first (still the first need), listed (a need, further down), gone, unknown (no such
            finding, or nothing left to judge it by).
        due: The day to look again is here, or none was given.
        gain_kg: What the goal lift's best rose since the decision, None where it is not known.
        proved: Kept or changed, due, gone and the lift rose; None where it is too early to say.
    """

    date: dt.date
    finding: str
    verdict: str
    why: str
    check: dt.date | None
    state: Literal["first", "listed", "gone", "unknown"]
    rank: int | None
    due: bool
    gain_kg: float | None
    proved: bool | None
    text: str
    parts: Worded = ()
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One thing that holds the goal back."""

    rank: int
    area: Literal["skill", "strength", "positions", "programming"]
    id: str
    kilos: float | None
    confidence: Literal["high", "fair", "low"]
    claim: str
    evidence: tuple[Evidence, ...]
    what_would_settle: str
    confidence_reason: str = ""
    figure: str = ""
    caution: str = ""
    conflicts: tuple[str, ...] = ()
    sources: int = 0  # how many independent kinds of source agree
    claim_parts: Worded = ()
    settle_parts: Worded = ()
    conflict_parts: tuple[Worded, ...] = ()
    decided: str = ""  # what decisions.csv says of it: kept, changed, dropped
