"""What lifter.toml and squad.toml say, after checking."""

from dataclasses import field
from datetime import date
from typing import Final, Literal

from reportgen.model.values import dataclass

#: The file that it stands in; a best from before the log, too.
LIFTER_TOML: Final = "lifter.toml"
Standards = Literal["women", "men"]
Unit = Literal["kg", "lb"]
GoalLift = Literal["snatch", "clean and jerk", "total"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """One goal: exactly one of `kg` and `times_body_mass` is set (pounds are converted on reading)."""

    lift: GoalLift
    kg: float | None = None
    times_body_mass: float | None = None
    by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriorBest:
    """A best from before the log; `lift` is a catalogue name."""

    lift: str
    kg: float
    date: date
    where: Literal["contest", "training"] = "training"


@dataclass(frozen=True, slots=True, kw_only=True)
class CoachBand:
    """A coach's own band of an indicator, as shares of the goal; None is an open edge."""

    indicator: str
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Manners:
    """How one file is written, where the file itself does not show it: one table under [sources]."""

    layout: str = ""  # rows, by lift, weeks, form or diary; "" = found by what is there
    order: tuple[str, ...] = ()  # what the numbers of shorthand are: load, reps, sets
    miss: tuple[str, ...] = ()  # signs of shorthand that mean a miss; `made` those that mean none
    made: tuple[str, ...] = ()
    comma: str = ""  # decimal or list; "" = found
    year: int | None = None  # of dates without one
    days: tuple[str, ...] = ()  # weekday of "Day 1", "Day 2" and so on
    turned: bool | None = None  # a spreadsheet turned days and months when they were typed
    bar: float | None = None  # the empty bar, in the file's unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifter:
    """Who the dossier is about, from lifter.toml."""

    name: str
    standards: Standards
    goals: tuple[Goal, ...]
    born: int | None = None
    unit: Unit = "kg"
    weeks_current: int = 12
    supervised: bool = False
    accepted: tuple[str, ...] = ()
    bests: tuple[PriorBest, ...] = ()
    lift_names: dict[str, str] = field(default_factory=dict)
    columns: dict[str, dict[str, str]] = field(default_factory=dict)
    date_format: str | None = None
    bands: tuple[CoachBand, ...] = ()
    first_week: date | None = None
    test_day: date | None = None  # settles the day on which a proposed block ends
    sources: dict[str, Manners] = field(default_factory=dict)
    confirmed: tuple[str, ...] = ()  # places of odd rows that may stand: training.csv:214
    born_found: str = ""  # what stands where a year of birth is meant and none can be read
    born_line: int = 0
    born_kept_back: bool = False  # left out of a shared copy, not missing


@dataclass(frozen=True, slots=True, kw_only=True)
class Squad:
    """What squad.toml says; every value has a default, the file is optional."""

    coach: str = ""
    theme: str = ""
    unit: Unit = "kg"
    remark: str = ""  # told on the terminal, such as what to know of the rows that are set aside
