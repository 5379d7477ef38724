"""The shapes of the trade tables, as the rest of the project reads them."""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from reportgen.model.values import dataclass

Status = Literal["S", "R", "C", "M", "P", "D", "coach"]
"""S read in the source, R read in a work that reports it, C computed, M from memory, P common practice,
D decided here (a convention of this program, founded on nothing outside it), coach the coach's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a value is from; `citation` is what a page prints."""

    id: str
    citation: str
    status: Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One number that analysis uses; there are no bare constants there."""

    id: str
    value: float
    unit: str
    kind: Literal["definition", "published", "practice", "convention"]
    status: Status
    source: str  # id of a Source
    note: str = ""
    topic: str = ""  # the file of rules it stands in


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """One lift of the catalogue."""

    name: str
    short: tuple[str, ...]
    family: str  # snatch, clean and jerk, squat, press, back, other
    #: goal (the contest lift), derivative (pulled and received, derives from a goal lift), part (clean,
    #: jerk), pull, overhead (balance, overhead squat, drop snatch, snatch press), squat, press, back, other.
    role: str
    start: str  # floor, low hang, high hang, blocks, rack, none
    derives_from: tuple[str, ...] = ()  # goal lifts whose exposure this lift counts for as a derivative
    classic: bool = False  # Prilepin's ranges apply
    estimable: bool = False  # a single may be estimated from a set of several (squats and presses only)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """What usually goes with a goal: an indicator's band as shares of its base."""

    id: str
    lift: str
    goal_lift: str
    standards: Literal["women", "men"]
    #: goal = share of the goal weight; present = share of the present goal lift.
    base: Literal["goal", "present"]
    #: low, high: Edges; None is open. Edges belong to the band.
    low: float | None = None
    high: float | None = None
    #: Share below which (or at which, if `short_at_inclusive`) a limit is short. Between it and `low` the
    #: reading is lean.
    short_at: float | None = None
    source: str
    status: Status
    short_at_inclusive: bool = False
    context: bool = False  # shown beside, never a need
    borrowed: bool = False  # the band is the men's since practice states none for women
    #: So many repetitions at `alternative_share` of the goal count as within, too.
    alternative_reps: int | None = None
    alternative_share: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """One zone of relative load, [low, high), with Prilepin's ranges for a classic lift in one session."""

    low: float | None = None
    high: float | None = None
    reps_a_set_low: int
    reps_a_set_high: int
    optimal: int
    range_low: int
    range_high: int
    unit: str = ""
    status: Status | None = None
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """One item of a screening."""

    name: str
    short: tuple[str, ...]
    kind: str  # flexibility, control, compensation, laxity
    unit: str  # cm, degrees, points, "" (graded only)
    area: str  # the area of mobility.csv whose work keeps it: ankles, hips, thoracic spine, shoulders, wrists
    norm: float | None = None  # reading from which the position counts as reached (None = graded only)
    norm_source: str
    norm_status: Status | None = None
    higher_is_better: bool  # false where a smaller reading is the better one
    smallest_real_change: float | None = None  # in `unit`, one side; None = not known
    change_source: str
    smallest_side_difference: float | None = None  # in `unit`; None = not known
    note: str = ""
    areas: tuple[str, ...] = ()  # every area that the position asks of, `area` among them
    change_status: Status | None = None
    lower: float | None = None  # lower end of healthy people: under it range is missing
    lower_source: str = ""
    lower_status: Status | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Checkpoint:
    """One checkpoint of the textbook model; `departure` = off here departs from it by choice or habit."""

    name: str
    short: tuple[str, ...]
    phase: str  # start, first pull, transition, second pull, pull under, receiving, recovery
    order: int
    departure: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sinclair:
    """A and b of one cycle, pinned together."""

    cycle: str
    first_year: int
    last_year: int
    standards: Literal["women", "men"]
    a: float
    b_kg: float
    status: Status
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class UnknownCycle:
    """A cycle whose A and b stand in no source that could be read, and why."""

    cycle: str
    first_year: int
    last_year: int
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMassClasses:
    """The federation's classes of one span; a class is its upper limit in kg, the last one is open."""

    first: str  # ISO date
    last: str  # ISO date or ""
    standards: Literal["women", "men"]
    limits_kg: tuple[float, ...]
    source: str
    status: Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One published figure shown beside the lifter's own (tapers, attempts): a range and its unit."""

    id: str
    what: str
    low: float | None = None
    mid: float | None = None
    high: float | None = None
    unit: str
    source: str
    status: Status
    note: str = ""
    spread: bool = False  # low and high lie one standard deviation either way of mid


@dataclass(frozen=True, slots=True, kw_only=True)
class Trade:
    """All trade tables. `words` maps a kind of word to {as a file may write it, folded: our word}.

    Kinds of word: lift, position, checkpoint, miss, side, grade (screening), mark (technique), area, pain
    (kind), reason (away), verdict, attempt_kind, note_kind, yes_no, aid. Keys are folded by `trade.fold`.
    """

    lifts: Mapping[str, Lift]
    rules: Mapping[str, Rule]
    bands: tuple[Band, ...]
    zones: tuple[Zone, ...]
    positions: Mapping[str, Position]
    checkpoints: Mapping[str, Checkpoint]
    sinclair: tuple[Sinclair, ...]
    sinclair_unknown: tuple[UnknownCycle, ...]
    classes: tuple[BodyMassClasses, ...]
    published: Mapping[str, Published]
    sources: Mapping[str, Source]
    goal_weight: Mapping[str, Mapping[str, tuple[str, ...]]]  # goal lift -> part -> lifts
    reps_table: Mapping[int, float]  # NSCA load chart, repetitions -> share of the single
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    discs_kg: tuple[float, ...] = ()  # discs a bar can be loaded with, heaviest first

    def value(self, rule: str) -> float:
        """The number of one rule; KeyError where there is none (a bug, not bad input)."""
        return self.rules[rule].value

    def middle(self, figure: str) -> float:
        """The middle of a published figure; ValueError where it has none (a bug)."""
        mid = self.published[figure].mid
        if mid is None:
            msg = f"{figure} has no figure"
            raise ValueError(msg)
        return mid

    def indicator_bands(self, goal_lift: str, standards: str) -> tuple[Band, ...]:
        """The bands for a goal lift and a standards table, in the order of the tables."""
        return tuple(b for b in self.bands if b.goal_lift == goal_lift and b.standards == standards)
