"""The facts file as frozen values: every computed figure, unrounded, with its unit in its name.

Names are interface. None = not computed or not computable; () = computed and none. Shares are fractions
of one, weights kilograms, dates `datetime.date`. `model.export.as_json` turns a `Facts` into JSON data.
"""

import datetime as dt
from typing import Literal

from reportgen.model.ability import AbilityFact, ArrivalFact
from reportgen.model.changes import Changes
from reportgen.model.doubts import Unsure
from reportgen.model.findings import (
    CameBefore,
    EpisodeFact,
    ExpressedStrength,
    Need,
    NotTested,
    PainReading,
    SaidDone,
    ScreeningFact,
    TechniqueFact,
)
from reportgen.model.peaks import ChaseFact, TaperEffect, TestDayFact, TrendFact
from reportgen.model.problems import FileLedger
from reportgen.model.proposal import BlockFact, PlannedDone
from reportgen.model.say import Say
from reportgen.model.season import SeasonFact
from reportgen.model.values import dataclass

FACTS_VERSION = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Who:
    """The lifter."""

    name: str
    standards: str
    folder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """First and last day of the log that count, or None without any."""

    first: dt.date | None
    last: dt.date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """How a total is split between the two lifts."""

    snatch_kg: float
    clean_and_jerk_kg: float
    ratio: float | None  # snatch / clean and jerk, the lifter's own; None = the reference was taken
    reference_ratio: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstNeed:
    """What holds a further goal back first; id and confidence are "" where nothing stands out."""

    id: str
    confidence: str
    claim: Say


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalFact:
    """Where one goal stands; `gap_kg` is never below 0, None where a side of it is unknown.

    `first_need` is that of a further goal; None of the first, whose needs are `needs`, and of one that was
    not weighed: its lift was weighed before, was not done of late, or the goal is reached.
    """

    lift: str
    goal_kg: float | None
    body_mass_kg: float | None
    by: dt.date | None
    current_kg: float | None
    current_date: dt.date | None
    gap_kg: float | None
    times_body_mass: float | None = None
    split: Split | None = None
    first_need: FirstNeed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BestFact:
    """Heaviest load with at least `reps` made repetitions in one set, over all time."""

    lift: str
    reps: int
    kg: float
    date: dt.date
    where: str  # contest, test, training
    complex: bool = False  # the set was a part of a complex
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CurrentFact:
    """Heaviest load with a made repetition inside `weeks_current`; else the stale one."""

    lift: str
    kg: float | None
    date: dt.date | None
    stale_kg: float | None = None
    stale_date: dt.date | None = None
    with_straps_kg: float | None = None  # heaviest with straps in the same weeks, shown apart
    estimated_kg: float | None = None  # squats and presses only, from a set of 2 to 10; stands beside


Limit = Literal["shown", "near", "open"]
Reading = Literal["short", "lean", "within", "beyond", "untested"]


@dataclass(frozen=True, slots=True, kw_only=True)
class IndicatorFact:
    """One lift against its band, and the goal lift that it carries."""

    id: str
    lift: str
    goal_lift: str
    current_kg: float | None
    low_kg: float | None
    high_kg: float | None
    low: float | None  # the band as shares of the base
    high: float | None
    shortfall_kg: float | None = None
    supports_low_kg: float | None = None
    supports_high_kg: float | None = None
    limit: Limit | None = None
    base: Literal["goal", "present"]
    reading: Reading
    source: str
    status: str
    context: bool = False  # shown beside, never a need
    current_date: dt.date | None = None
    days_apart: int | None = None  # between this figure's day and the present lift's
    present_share: float | None = None  # of the present single
    note: str | Say = ""
    file: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekFact:
    """One ISO week of exposure."""

    week: str
    start: dt.date
    sessions: int
    full: int
    derivative: int
    heavy_singles: int | None
    repetitions: int
    tonnage_kg: float
    counted_repetitions: int | None
    relative_load: float | None
    counted_pull_repetitions: int | None = None
    away: str = ""  # reasons of away.csv that touch this week


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureFact:
    """How often the first goal's lift was trained; means over all weeks, empty ones too."""

    weeks: tuple[WeekFact, ...]
    mean_full_per_week: float | None = None
    mean_derivative_per_week: float | None = None
    weeks_without_full: int | None = None
    longest_gap_days: int | None = None
    weeks_without_full_away: int | None = None  # of these, explained by away.csv
    weeks_empty_unexplained: int | None = None
    weeks_since_heavy_single: int | None = None
    share_left_out: float | None = None  # repetitions under 60 % or without a reference


@dataclass(frozen=True, slots=True, kw_only=True)
class RepMaxFact:
    """A best of two or three inside `weeks_current` and the single it implies at the upper factor."""

    lift: str
    reps: int
    kg: float
    date: dt.date
    implied_single_kg: float
    single_kg: float | None
    transfer_gap_kg: float | None
    implied_single_high_kg: float  # at the lower factor
    chance: float | None = None  # of the implied single on an ordinary day


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRate:
    """The clean or the jerk of a clean and jerk, apart."""

    part: str
    tried: int
    made: int
    rate: float | None
    rate_low: float | None
    rate_high: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeRateFact:
    """Made of tried repetitions in one zone, with its 95 % Wilson interval."""

    lift: str
    zone_low: float | None
    zone_high: float | None
    tried: int
    made: int
    rate: float | None
    rate_low: float | None
    rate_high: float | None
    misses: dict[str, int]
    parts: tuple[PartRate, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalWeightFact:
    """How often the goal weight or more was handled in one way; of a total, the weight of one lift."""

    part: Literal["pulled", "squatted", "overhead", "hang", "floor"]
    lift: str
    times: int
    made: int
    misses: dict[str, int]
    heaviest_kg: float | None = None  # heaviest made, below or above the goal weight
    last: dt.date | None = None
    goal_lift: str = ""  # the lift that the weight is of
    goal_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SureWeightFact:
    """The weight made nine times in ten, and the tries of 12 weeks from a little under it up to it."""

    lift: str
    kg: float
    made: int
    tried: int
    change_kg: float | None  # over 12 weeks


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """One lifter's facts. Field names and order are those of the facts file.

    Those with a default rest on the others: `analysis.dossier` adds them at once, `changes` whoever asks.
    """

    facts_version: int = FACTS_VERSION
    lifter: Who
    as_of: dt.date
    span: Span
    goals: tuple[GoalFact, ...]
    ledger: tuple[FileLedger, ...]
    bests: tuple[BestFact, ...]
    current: tuple[CurrentFact, ...]
    indicators: tuple[IndicatorFact, ...] | None
    exposure: ExposureFact
    rep_maxes: tuple[RepMaxFact, ...]
    make_rates: tuple[MakeRateFact, ...]
    test_days: tuple[TestDayFact, ...] | None
    chases: tuple[ChaseFact, ...] | None
    goal_weight: tuple[GoalWeightFact, ...]
    sure_weight: SureWeightFact | None
    screening: ScreeningFact | None
    technique: TechniqueFact | None
    trend: TrendFact | None
    expressed_strength: tuple[ExpressedStrength, ...] | None
    not_tested: tuple[NotTested, ...] = ()
    needs: tuple[Need, ...] = ()
    block: BlockFact | None = None
    planned_done: PlannedDone | None
    changes: Changes | None = None
    season: tuple[SeasonFact, ...] | None
    sources: dict[str, str]
    pain: PainReading | None
    said_and_done: tuple[SaidDone, ...] | None = None
    bests_apart: tuple[BestFact, ...]  # the best single in contests, tests and training
    pain_episodes: tuple[EpisodeFact, ...]
    unsure: tuple[Unsure, ...]  # what stops a proposal
    ability: tuple[AbilityFact, ...]  # of the lifts whose log carries one
    arrival: ArrivalFact | None  # of the first goal
    taper_effect: TaperEffect | None  # None without a taper whose day's form is known
    before_bests: tuple[CameBefore, ...]  # new bests of the first goal's lifts
    before_misses: tuple[CameBefore, ...]  # runs of heavy misses of them
