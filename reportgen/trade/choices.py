"""What a proposed block is made of, as data: derivatives by need, warm-ups."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from reportgen.model.values import dataclass
from reportgen.trade.rows import rows, toml, whole
from reportgen.trade.schema import Status

FILE = "choices.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Derivative:
    """The lift that a need calls for beside the goal lift."""

    goal: str  # the goal lift
    need: str  # a need's id or area; "" = where nothing else fits
    lift: str  # a catalogue name, or several joined by " + " (one complex)
    reps: str  # repetitions a set, one number a part
    why: str  # what it is for, in words
    variant: str = ""
    support: str = ""  # a further lift of the same session, or ""
    support_reps: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The lifts of the complex; one for a plain lift."""
        return tuple(self.lift.split(" + "))


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A lift without a current single is begun from this share of another lift's."""

    lift: str
    of: str
    share: float
    status: Status
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmUp:
    """One step up to the opener."""

    share: float
    reps: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """What a page says of a chance from here up."""

    least: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Holidays:
    """Days on which no test day is put: from and to as (month, day), and days around Easter Sunday."""

    dates: tuple[tuple[tuple[int, int], tuple[int, int]], ...]
    easter: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """The tables of choices.toml."""

    derivatives: tuple[Derivative, ...]
    raised: Mapping[str, tuple[str, ...]]  # a need's id or area -> groups of lifts
    starts: Mapping[str, Start]
    warmups: tuple[WarmUp, ...]
    holidays: Holidays
    discs_lb: tuple[float, ...]
    tell: tuple[str, ...]
    chances: tuple[Chance, ...]  # likeliest first

    def chance(self, chance: float) -> str:
        """What is said of a chance."""
        return next(one.words for one in self.chances if chance >= one.least)

    def derivative(self, goal: str, wanted: tuple[str, ...], banned: frozenset[str]) -> Derivative | None:
        """The first derivative of a goal lift for these needs or areas, in order, that nothing forbids."""
        for need in (*wanted, ""):
            for one in self.derivatives:
                if one.goal == goal and one.need == need and not banned & set(one.parts):
                    return one
        return None


@cache
def choices() -> Choices:
    """The choices that ship with the program, read once."""
    data = toml(Path(__file__).parent, FILE)
    return Choices(
        derivatives=rows(Derivative, data, FILE, "derivative"),
        raised=whole(dict[str, tuple[str, ...]], data["raised"], FILE, "raised"),
        starts={one.lift: one for one in rows(Start, data, FILE, "start")},
        warmups=rows(WarmUp, data, FILE, "warmup"),
        holidays=whole(Holidays, data["holidays"], FILE, "holidays"),
        discs_lb=whole(tuple[float, ...], data["discs"]["lb"], FILE, "discs"),
        tell=whole(tuple[str, ...], data["tell"]["lines"], FILE, "tell"),
        chances=rows(Chance, data, FILE, "chance"),
    )
