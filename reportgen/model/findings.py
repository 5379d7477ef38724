"""Screening, technique and what holds the goal back, as frozen values."""

import datetime as dt
from typing import Literal

from reportgen.model.say import Maybe, Say, Value
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreeningItem:
    """One position or joint, one side, read under like conditions."""

    item: str
    side: str
    kind: str
    latest: float | None
    latest_date: dt.date
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
    contradicted: bool = False  # by `earlier`, read within days and far from it: a doubt, neither is told
    side_difference: float | None = None
    lower: float | None = None  # lower end of healthy people
    best: float | None = None  # the lifter's own best earlier reading under like conditions
    best_date: dt.date | None = None
    fell: float | None = None  # how far it fell from there, where that is clear and leaves it under the norm
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One thing that a need rests on, and where to look. A row is evidence of one need only."""

    text: Say
    file: str
    rule: str
    lines: tuple[int, ...] = ()
    dates: tuple[dt.date, ...] = ()
    source_kind: str = ""  # miss, checkpoint, screening, indicator, exposure; "" = beside, no witness


@dataclass(frozen=True, slots=True, kw_only=True)
class NotTested:
    """Something nobody measured, or a cause that is not likely enough, and what would settle it."""

    id: str
    what_would_settle: Say
    kind: Literal["not tested", "question"] = "not tested"
    claim: Say | None = None  # of a question: what was seen
    chance: float | None = None  # of a question
    evidence: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What the two weeks before an episode held against the usual; None where the log does not say."""

    load: float | None  # tonnage of the lifts that load the place, as a share of the usual two weeks
    sessions: float | None  # sessions, as a share of the usual
    #: Areas of mobility work that had been done and stood still in these two weeks.
    stopped: tuple[str, ...] | None
    #: Lifts that load the place, done in these two weeks and not in the usual ones before them.
    new_lifts: tuple[str, ...] = ()
    left_lifts: tuple[str, ...] = ()  # lifts that load it, done in the usual weeks and not in these two


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """A sign of these two weeks that came before other episodes of the place, too: `times` of `of`."""

    sign: Literal["more load", "more sessions", "work stopped", "new lift"]
    times: int
    of: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EpisodeFact:
    """One episode of pain in one place: from its start until it settled, dated by itself."""

    place: str
    start: dt.date
    settled: dt.date | None  # none while it is open
    worst: float | None  # the highest score
    kind: str  # the gravest kind that was logged, "" without one
    open: bool
    lifts: tuple[str, ...]  # lifts that load the place
    before: Before
    alike: tuple[Alike, ...] = ()  # told from three episodes of the place on
    file: str = ""
    lines: tuple[int, ...] = ()  # of pain.csv


@dataclass(frozen=True, slots=True, kw_only=True)
class CameBefore:
    """A new best or a run of misses, by its days; `told`: what came before it and before most others."""

    dates: tuple[dt.date, ...]
    told: Say | None = None


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
    """What pain.csv says about the next weeks. Printed only where screening is printed, too."""

    #: Open places first, then settled ones, each by its first day; `first` is that of the episode.
    places: tuple[PainFact, ...]
    nothing_proposed: bool  # numbness, locking or an injury is open: no proposal at all
    lifts: tuple[str, ...]  # lifts of the catalogue for which nothing is proposed
    cautions: tuple[Say, ...]  # for the page and every proposal


#: What became of a thing since a day.
Outcome = Literal["better", "same", "worse", "untried", "too early", "unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidDone:
    """One row of decisions.csv and what came of it."""

    date: dt.date
    finding: str
    verdict: str
    why: str
    check: dt.date | None
    #: first (still the first need), listed (a need, further down), gone, unknown (no such finding, or nothing
    #: left to judge it by).
    state: Literal["first", "listed", "gone", "unknown"]
    rank: int | None
    due: bool  # the day to look again is here, or none was given
    gain_kg: float | None  # what the goal lift's best rose since the decision, None where it is not known
    outcome: Outcome  # what became of the thing that the finding was about: the lift, the reading, the misses
    #: Kept or changed, and better; False where it is the same or worse; None where nothing tells.
    proved: bool | None
    text: Say
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighedPart:
    """What one source says about a need."""

    source: str  # misses, video, screening, figures, log, upkeep, joints, bar; beforehand = with nothing read
    #: How many times likelier what was seen is with this cause than without it; under 1 it speaks against it.
    times: float
    seen: tuple[Value, ...] = ()  # what it saw, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One step of the way from a cause to its signs."""

    key: str
    text: Say


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One thing that holds the goal back: a cause and every sign of it."""

    rank: int
    area: Literal["skill", "strength", "positions", "programming"]
    id: str
    kilos: float | None  # goal-lift kilograms at stake, where they can be given
    confidence: Literal["high", "fair", "low"]
    claim: Say
    evidence: tuple[Evidence, ...]
    what_would_settle: Say
    confidence_reason: Say
    cause: str = ""  # a name of causes.toml
    #: That this holds the lifter back, against nothing and against what explains the same rows.
    chance: float = 0.0
    weights: tuple[WeighedPart, ...] = ()  # what the chance is made of, the chance beforehand first
    chain: tuple[Link, ...] = ()  # from the cause to its signs
    figure: str = ""
    caution: tuple[Say, ...] = ()
    conflicts: tuple[Say, ...] = ()
    sources: int = 0  # how many kinds of source speak for it
    decided: str = ""  # what decisions.csv says of it: kept, changed, dropped
