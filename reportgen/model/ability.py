"""What a lifter makes on an ordinary day, and how sure that is, as frozen values."""

import datetime as dt
from dataclasses import field

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class AbilityWeek:
    """The ability at the end of a week with its 95 % range [kg]."""

    date: dt.date
    kg: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AbilityFact:
    """The weight made one time in two on an ordinary day; ranges are of 95 %."""

    lift: str
    kg: float
    low: float
    high: float
    sure_kg: float  # made nine times in ten
    change_kg: float | None  # over 12 weeks, None where the tries go back less far
    change_low: float | None
    change_high: float | None
    tried: int = 0  # sets that it rests on
    made: int = 0  # of these, with every repetition made
    #: The path, oldest first: a picture is drawn from it, and the facts file does without.
    weeks: tuple[AbilityWeek, ...] = field(default=(), metadata={"drawn": True})


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrivalFact:
    """When the goal weight is made. None of `early` or `late` = not within two years."""

    goal_kg: float
    by: dt.date | None
    asked_kg_per_month: float | None  # from the best to the goal by its day
    chance: float | None  # made by that day
    early: dt.date | None
    late: dt.date | None
    middle: dt.date | None = None  # as likely before as after
    rare: bool | None = None  # so small a chance that it is not to be counted on
    attempts_kg: float | None = None  # where that day's attempts end, under the goal: no chance then
