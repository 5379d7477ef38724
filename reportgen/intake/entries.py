"""The shapes of lifter.toml and squad.toml: which keys a table has, and what may stand under each.

What is expected of a key stands in the messages under [want.TABLE]; a field's default is the model's.
"""

import datetime as dt
import math
import re
from collections.abc import Callable
from typing import Annotated, Any, Final, Literal

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.model.values import dataclass
from reportgen.trade import load

#: What is taken off both ends of a word.
_BLANKS: Final = "\t\n\v\f\r \x85\xa0\u1680\u2028\u2029\u202f\u205f\u3000" + "".join(
    map(chr, range(0x2000, 0x200B))
)
#: Line ends and letters that print nothing are no part of a word.
_PRINTED: Final = re.compile(r"[^\x00-\x1f\x7f]*")


def _over_zero(most: Callable[[], float]) -> Callable[[Any], float]:
    def check(value: Any) -> float:
        if type(value) not in (int, float) or not math.isfinite(value) or not 0 < value <= most():
            raise ValueError
        return float(value)

    return check


def _whole(low: int, high: int) -> Callable[[Any], int]:
    def check(value: Any) -> int:
        if type(value) is not int or not low <= value <= high:
            raise ValueError
        return value

    return check


def _letters(least: int, most: int) -> Callable[[Any], str]:
    def check(value: Any) -> str:
        found = value.strip(_BLANKS) if isinstance(value, str) else None
        if found is None or not least <= len(found) <= most or not _PRINTED.fullmatch(found):
            raise ValueError
        return found

    return check


def _written(value: Any) -> dt.date:
    if type(value) is not dt.date or not FIRST_YEAR <= value.year <= LAST_YEAR:
        raise ValueError
    return value


def _numbers(order: Any) -> tuple[str, ...]:
    """`load reps sets`, in any order, two or three of them."""
    words = tuple(order.split(" ")) if isinstance(order, str) else ()
    if not 2 <= len(words) <= 3 or not {"load", "reps", "sets"} >= set(words):
        raise ValueError
    return words


_Kg = Annotated[float, _over_zero(lambda: load().value("load_max_kg"))]
_Lb = Annotated[float, _over_zero(lambda: load().value("load_max_kg") / load().value("pound"))]
_Share = Annotated[float, _over_zero(lambda: 5)]
_Words = Annotated[str, _letters(1, 200)]
_Told = Annotated[str, _letters(0, 500)]
_Line = Annotated[str, _letters(0, 200)]
_Date = Annotated[dt.date, _written]
_Year = Annotated[int, _whole(FIRST_YEAR, LAST_YEAR)]
_Signs = tuple[Literal["x", "f", "n", "m", "-", "()"], ...]


@dataclass(frozen=True, kw_only=True)
class Head:
    """The keys at the top of lifter.toml, all but `standards` with a default."""

    name: _Words | None = None
    standards: Literal["women", "men"] | None = None
    born: _Year | None = None
    unit: Literal["kg", "lb"] | None = None
    weeks_current: Annotated[int, _whole(1, 520)] = 12
    supervised: bool = False
    accepted: tuple[_Words, ...] = ()
    confirmed: tuple[_Words, ...] = ()
    date_format: _Words | None = None
    first_week: _Date | None = None
    test_day: _Date | None = None


@dataclass(frozen=True, kw_only=True)
class GoalEntry:
    """One [[goal]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    times_body_mass: Annotated[float, _over_zero(lambda: 10)] | None = None
    by: _Date | None = None


@dataclass(frozen=True, kw_only=True)
class BestEntry:
    """One [[best]]."""

    lift: _Words
    kg: _Kg | None = None
    lb: _Lb | None = None
    date: _Date
    where: Literal["contest", "training"] = "training"


@dataclass(frozen=True, kw_only=True)
class BandEntry:
    """One [bands.<indicator>]."""

    low: _Share | None = None
    high: _Share | None = None


@dataclass(frozen=True, kw_only=True)
class SourceEntry:
    """One [sources."file"]: the fields of `model.lifter.Manners`."""

    layout: Literal["rows", "by lift", "weeks", "form", "diary"] = ""  # type: ignore[assignment]
    order: Annotated[tuple[str, ...], _numbers] = ()
    miss: _Signs = ()
    made: _Signs = ()
    comma: Literal["decimal", "list"] = ""  # type: ignore[assignment]
    year: _Year | None = None
    days: tuple[_Words, ...] = ()
    turned: bool | None = None
    bar: Annotated[float, _over_zero(lambda: 100)] | None = None


@dataclass(frozen=True, kw_only=True)
class SquadEntry:
    """squad.toml."""

    coach: _Line = ""
    theme: _Line = ""
    unit: Literal["kg", "lb"] = "kg"
    remark: _Told = ""
