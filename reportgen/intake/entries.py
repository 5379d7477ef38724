"""The shapes of lifter.toml and squad.toml: which keys a table has, and what may stand under each.

What is expected of a key stands in the messages under [want.TABLE]; a field's default is the model's.
"""

import datetime as dt
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, field, fields
from typing import Any, Final, Literal, TypeVar

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR
from reportgen.model.values import dataclass
from reportgen.trade import load

Shape = TypeVar("Shape")
#: Gives the value that is meant by what stands under a key; ValueError where it is none.
Check = Callable[[Any], Any]
#: Line ends and letters that print nothing are no part of a word.
_PRINTED: Final = re.compile(r"[^\x00-\x1f\x7f]*")
_BLANKS: Final = "\t\n\v\f\r \x85\xa0\u1680\u2028\u2029\u202f\u205f\u3000" + "".join(
    map(chr, range(0x2000, 0x200B))
)
_SIGNS: Final = ("x", "f", "n", "m", "-", "()")


def _number(most: float) -> Check:
    """A number over 0 and up to `most`."""

    def check(value: Any) -> float:
        if type(value) not in (int, float) or not math.isfinite(value) or not 0 < value <= most:
            raise ValueError
        return float(value)

    return check


def _kg(value: Any) -> float:
    return float(_number(load().value("load_max_kg"))(value))


def _lb(value: Any) -> float:
    return float(_number(load().value("load_max_kg") / load().value("pound"))(value))


def _whole(low: int, high: int) -> Check:
    def check(value: Any) -> int:
        if type(value) is not int or not low <= value <= high:
            raise ValueError
        return value

    return check


def _words(most: int, least: int = 0) -> Check:
    def check(value: Any) -> str:
        found = value.strip(_BLANKS) if isinstance(value, str) else ""
        if not isinstance(value, str) or not least <= len(found) <= most or not _PRINTED.fullmatch(found):
            raise ValueError
        return found

    return check


def _one_of(*names: str) -> Check:
    def check(value: Any) -> str:
        if not isinstance(value, str) or value not in names:
            raise ValueError
        return value

    return check


def _each(check: Check) -> Check:
    def checked(value: Any) -> tuple[Any, ...]:
        if not isinstance(value, list):
            raise ValueError
        return tuple(check(one) for one in value)

    return checked


def _date(value: Any) -> dt.date:
    if type(value) is not dt.date or not FIRST_YEAR <= value.year <= LAST_YEAR:
        raise ValueError
    return value


def _yes(value: Any) -> bool:
    if type(value) is not bool:
        raise ValueError
    return value


def _numbers(order: Any) -> tuple[str, ...]:
    """`load reps sets`, in any order, two or three of them."""
    words = tuple(order.split(" ")) if isinstance(order, str) else ()
    if not 2 <= len(words) <= 3 or not {"load", "reps", "sets"} >= set(words):
        raise ValueError
    return words


def _key(check: Check, default: Any = MISSING) -> Any:
    return field(default=default, metadata={"check": check})


_NAME, _TOLD, _LINE = _words(200, 1), _words(500), _words(200)
_YEAR, _SHARE, _UNIT = _whole(FIRST_YEAR, LAST_YEAR), _number(5), _one_of("kg", "lb")


@dataclass(frozen=True, kw_only=True)
class Head:
    """The keys at the top of lifter.toml, all but `standards` with a default."""

    name: str | None = _key(_NAME, None)
    standards: Literal["women", "men"] | None = _key(_one_of("women", "men"), None)
    born: int | None = _key(_YEAR, None)
    unit: Literal["kg", "lb"] | None = _key(_UNIT, None)
    weeks_current: int = _key(_whole(1, 520), 12)
    supervised: bool = _key(_yes, False)
    accepted: tuple[str, ...] = _key(_each(_NAME), ())
    confirmed: tuple[str, ...] = _key(_each(_NAME), ())
    date_format: str | None = _key(_NAME, None)
    first_week: dt.date | None = _key(_date, None)
    test_day: dt.date | None = _key(_date, None)


@dataclass(frozen=True, kw_only=True)
class GoalEntry:
    """One [[goal]]."""

    lift: str = _key(_NAME)
    kg: float | None = _key(_kg, None)
    lb: float | None = _key(_lb, None)
    times_body_mass: float | None = _key(_number(10), None)
    by: dt.date | None = _key(_date, None)


@dataclass(frozen=True, kw_only=True)
class BestEntry:
    """One [[best]]."""

    lift: str = _key(_NAME)
    kg: float | None = _key(_kg, None)
    lb: float | None = _key(_lb, None)
    date: dt.date = _key(_date)
    where: Literal["contest", "training"] = _key(_one_of("contest", "training"), "training")


@dataclass(frozen=True, kw_only=True)
class BandEntry:
    """One [bands.<indicator>]."""

    low: float | None = _key(_SHARE, None)
    high: float | None = _key(_SHARE, None)


@dataclass(frozen=True, kw_only=True)
class SourceEntry:
    """One [sources."file"]: the fields of `model.lifter.Manners`."""

    layout: str = _key(_one_of("rows", "by lift", "weeks", "form", "diary"), "")
    order: tuple[str, ...] = _key(_numbers, ())
    miss: tuple[str, ...] = _key(_each(_one_of(*_SIGNS)), ())
    made: tuple[str, ...] = _key(_each(_one_of(*_SIGNS)), ())
    comma: str = _key(_one_of("decimal", "list"), "")
    year: int | None = _key(_YEAR, None)
    days: tuple[str, ...] = _key(_each(_NAME), ())
    turned: bool | None = _key(_yes, None)
    bar: float | None = _key(_number(100), None)


@dataclass(frozen=True, kw_only=True)
class SquadEntry:
    """squad.toml."""

    coach: str = _key(_LINE, "")
    theme: str = _key(_LINE, "")
    unit: Literal["kg", "lb"] = _key(_UNIT, "kg")
    remark: str = _key(_TOLD, "")


def keys(shape: type[Any]) -> tuple[str, ...]:
    """The keys that a table of this shape may have."""
    return tuple(one.name for one in fields(shape))


def checked(shape: type[Any], table: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[str, ...]]:
    """The values of a table's known keys, and the keys that are wrong or missing, in the shape's order."""
    good: dict[str, Any] = {}
    bad = []
    for one in fields(shape):
        try:
            if one.name in table:
                good[one.name] = one.metadata["check"](table[one.name])
            elif one.default is MISSING:
                raise ValueError
        except ValueError:
            bad.append(one.name)
    return good, tuple(bad)
