"""What a picture needs beside its tables: one type a kind of figure that needs any."""

import datetime as dt

from reportgen.model.values import dataclass
from reportgen.words import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A line at a weight, in the reader's unit, and what it is called."""

    at: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InUnit:
    """Weights alone."""

    unit: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels(InUnit):
    """Weights across, with the goal and the present lift as upright lines."""

    goal: Level | None
    present: Level | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """The days from the left edge to the right one."""

    first: dt.date
    last: dt.date


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarRows(Calendar):
    """Kinds in their order, with and without a mark."""

    rows: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarWeights(Calendar):
    """Weights over time."""

    unit: Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMass(CalendarWeights):
    """Names of the body's line and, where it is drawn, of the bar's."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningBest(CalendarWeights):
    """The goal as a line across."""

    goal: Level | None


Options = InUnit | Calendar
