"""Data as TOML or JSON has them, checked into the values that a type describes.

A number in quotation marks is no number, true is none, infinity is none. What a type can't say stands in
`Annotated`: a function that gives the value that is meant, ValueError where it is none.
"""

import dataclasses
import datetime as dt
import math
import types
from collections.abc import Callable, Mapping
from functools import cache
from typing import Annotated, Any, Final, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

Made = TypeVar("Made")
Read = Callable[[Any], Any]
#: What is wrong: a key is missing, a key is not known, a value is none of its type.
Wrong = Literal["missing", "unknown", "value"]


class MisfitError(ValueError):
    """Data do not have their shape: what is wrong, where from the outside in, and what stood there."""

    def __init__(self, what: Wrong, place: list[str | int], found: object) -> None:
        super().__init__(what, place, found)
        self.what: Wrong = what
        self.place = place
        self.found = found


def fit(kind: type[Made], data: object, *, strangers: bool = False, words: bool = False) -> Made:
    """The value of a type that some data hold.

    Args:
        kind: A frozen dataclass, a dict, a tuple and so on of such, of words, numbers and days.
        data: As a parser gives them; arrays become tuples, whole numbers floats where a float is wanted.
        strangers: Keys that are not known are passed over.
        words: Days are words, as in JSON.

    Raises:
        MisfitError: A key is missing or unknown, or a value is of another type.
    """
    of: Any = kind
    made: Made = _reader(of, strangers, words)(data)
    return made


def misfits(kind: Any, data: Mapping[str, Any]) -> tuple[dict[str, Any], tuple[str, ...]]:
    """The good values of a table's known keys, and the keys that are wrong or missing, in their order."""
    good: dict[str, Any] = {}
    bad: list[str] = []
    for name, read, needed in _fields(kind, False, False):
        try:
            if name in data:
                good[name] = read(data[name])
            elif needed:
                bad.append(name)
        except ValueError:
            bad.append(name)
    return good, tuple(bad)


def keys(kind: type[Any]) -> tuple[str, ...]:
    """The keys that a table of this shape may have."""
    return tuple(one.name for one in dataclasses.fields(kind))


@cache
def _fields(kind: Any, strangers: bool, words: bool) -> tuple[tuple[str, Read, bool], ...]:
    """Of each field its name, how it is read, and whether it has to be there."""
    hints, none = get_type_hints(kind, include_extras=True), dataclasses.MISSING
    return tuple(
        (one.name, _reader(hints[one.name], strangers, words), one.default is one.default_factory is none)
        for one in dataclasses.fields(kind)
    )


@cache
def _reader(kind: Any, strangers: bool, words: bool) -> Read:
    """How data become a value of this type."""
    if kind in _PLAIN:
        return _day if words and kind is dt.date else _PLAIN[kind]
    if dataclasses.is_dataclass(kind):
        return _object(kind, strangers, words)
    origin, inner = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return _checked(inner[1:])
    if origin is Literal:
        return _one_of(inner)
    return _holder(origin, inner, [_reader(one, strangers, words) for one in inner if one is not ...])


def _holder(origin: Any, inner: tuple[Any, ...], readers: list[Read]) -> Read:
    """The same of a type with others in it."""
    if origin in (Union, types.UnionType):
        return _any_of(readers)
    if issubclass(origin, Mapping):
        return _table(readers[1])
    return _row(readers) if origin is tuple and ... not in inner else _array(origin, readers[0])


def _plain(kind: type) -> Read:
    def read(value: Any) -> Any:
        if type(value) is not kind:
            raise MisfitError("value", [], value)
        return value

    return read


def _number(value: Any) -> float:
    if type(value) not in (float, int) or not math.isfinite(value):
        raise MisfitError("value", [], value)
    return float(value)


def _day(value: Any) -> dt.date:
    try:
        return dt.date.fromisoformat(value)
    except (TypeError, ValueError):
        raise MisfitError("value", [], value) from None


_PLAIN: Final[dict[Any, Read]] = {
    **{kind: _plain(kind) for kind in (str, int, bool, dt.date, types.NoneType)},
    float: _number,
}


def _checked(checks: tuple[Read, ...]) -> Read:
    def read(value: Any) -> Any:
        for check in checks:
            value = check(value)
        return value

    return read


def _one_of(known: tuple[Any, ...]) -> Read:
    def read(value: Any) -> Any:
        if not isinstance(value, str) or value not in known:
            raise MisfitError("value", [], value)
        return value

    return read


def _any_of(readers: list[Read]) -> Read:
    def read(value: Any) -> Any:
        first: ValueError | None = None
        for one in readers:
            try:
                return one(value)
            except ValueError as error:
                first = first or error
        raise first or MisfitError("value", [], value)

    return read


def _each(read: Read, key: str | int, value: Any) -> Any:
    try:
        return read(value)
    except MisfitError as error:
        error.place.insert(0, key)
        raise


def _table(inner: Read) -> Read:
    def read(value: Any) -> Any:
        if not isinstance(value, dict):
            raise MisfitError("value", [], value)
        return {key: _each(inner, key, one) for key, one in value.items()}

    return read


def _array(made: type, inner: Read) -> Read:
    def read(value: Any) -> Any:
        if not isinstance(value, list | tuple):
            raise MisfitError("value", [], value)
        return made([_each(inner, number, one) for number, one in enumerate(value)])

    return read


def _row(inner: list[Read]) -> Read:
    def read(value: Any) -> Any:
        if not isinstance(value, list | tuple) or len(value) != len(inner):
            raise MisfitError("value", [], value)
        return tuple(_each(one, n, v) for n, (one, v) in enumerate(zip(inner, value, strict=True)))

    return read


def _object(kind: Any, strangers: bool, words: bool) -> Read:
    def read(value: Any) -> Any:
        if not isinstance(value, dict):
            raise MisfitError("value", [], value)
        made, known = {}, _fields(kind, strangers, words)
        for name, inner, needed in known:
            if name in value:
                made[name] = _each(inner, name, value[name])
            elif needed:
                raise MisfitError("missing", [name], value)
        if len(made) < len(value) and not strangers:
            odd = next(key for key in value if key not in made)
            raise MisfitError("unknown", [odd], value[odd])
        return kind(**made)

    return read
