"""What a picture needs beside its tables: one type a kind of figure that needs any."""

import datetime as dt
from collections.abc import Iterable

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
class RunningBest(CalendarWeights):
    """The goal as a line across; where it moves, its label alone."""

    goal: Level | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Small:
    """A small picture: what lies across and up."""

    low: float  # lower end of the y axis
    high: float  # its upper end
    days: Calendar | None = None  # the calendar across; None where `places` are
    places: tuple[str, ...] = ()  # named places across, in their order
    rungs: tuple[tuple[float, str], ...] = ()  # named heights; numbers where there are none
    share: bool = False  # heights are shares


Options = InUnit | Calendar | Small


def wide(lines: Iterable[str], letter: float, beside: float) -> float:
    """What the longest of some lines takes, a letter so much, with what lies beside it [px]."""
    return beside + letter * max(map(len, lines), default=0)
