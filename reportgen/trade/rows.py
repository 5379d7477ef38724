"""One row of a trade table: TOML in, a checked frozen value out."""

import math
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields
from functools import cache
from pathlib import Path
from types import UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from reportgen.model.values import dataclass

Row = TypeVar("Row")
Table = dict[str, Any]


class TradeError(ValueError):
    """A trade table is wrong; the message names the file and the key."""

    def __init__(self, file: str, key: str, what: str) -> None:
        super().__init__(file, key, what)  # as they came: what a worker raises is made again from these
        self.file = file
        self.key = key
        self.what = what

    def __str__(self) -> str:
        """Where and what: `rules/units.toml: pound: no unit`."""
        return ": ".join(part for part in (self.file, self.key, self.what) if part)


def toml(folder: Path, file: str) -> Table:
    """The data of one file of the folder; TradeError where there is none or it is no TOML."""
    try:
        return tomllib.loads((folder / file).read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise TradeError(file, "", "no such table") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise TradeError(file, "", str(error)) from error


def keyed(kind: type[Row], data: Table, file: str, name: str) -> dict[str, Row]:
    """One row a table of the file; the table's own name becomes the row's field `name`."""
    return {key: row(kind, {name: key, **table(cells, file, key)}, file, key) for key, cells in data.items()}


def rows(kind: type[Row], data: Table, file: str, name: str) -> tuple[Row, ...]:
    """The rows of the file's array of tables `name`, at least one."""
    found = data.get(name)
    if not isinstance(found, list) or not found:
        raise TradeError(file, name, "expected one table or more")
    keys = (f"{name} {number}" for number in range(1, len(found) + 1))
    return tuple(
        row(kind, table(cells, file, key), file, key) for key, cells in zip(keys, found, strict=True)
    )


def table(cells: object, file: str, key: str) -> Table:
    """The cells of one row; TradeError where something else than a table stands."""
    if not isinstance(cells, dict):
        raise TradeError(file, key, "expected a table")
    return cells


def row(kind: Callable[..., Row], cells: Table, file: str, key: str) -> Row:
    """Check one row against the fields of its class: nothing missing, nothing unknown, every type right.

    Args:
        kind: A frozen dataclass. Its fields without a default have to be given, unless they may be None:
            TOML has no null, so an open edge is left out.
        cells: The row as TOML has it.
        file: For the message.
        key: For the message.

    Returns:
        The row; whole numbers made floats where the field is a float, arrays made tuples.

    Raises:
        TradeError: As said.
    """
    shape = _shape(kind)
    for name in shape.needed:
        if name not in cells:
            raise TradeError(file, key, f"no {name}")
    values: Table = dict.fromkeys(shape.nullable)
    for name, value in cells.items():
        take = shape.takes.get(name)
        if take is None:
            raise TradeError(file, key, f"{name} is not a key of this table")
        try:
            values[name] = take(value)
        except TypeError:
            raise TradeError(file, key, f"{name} is {value!r}, which cannot be used") from None
    return kind(**values)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    takes: Mapping[str, Callable[[Any], Any]]
    needed: tuple[str, ...]
    nullable: tuple[str, ...]


@cache
def _shape(kind: Any) -> _Shape:
    hints = get_type_hints(kind)
    bare = [p.name for p in fields(kind) if p.default is MISSING and p.default_factory is MISSING]
    nullable = tuple(name for name in bare if type(None) in get_args(hints[name]))
    return _Shape(
        takes={name: _taker(hint) for name, hint in hints.items()},
        needed=tuple(name for name in bare if name not in nullable),
        nullable=nullable,
    )


def _taker(hint: Any) -> Callable[[Any], Any]:
    """A function that returns the value as its field wants it, or raises TypeError."""
    origin, inner = get_origin(hint), get_args(hint)
    if origin in (Union, UnionType):
        (some,) = (part for part in inner if part is not type(None))
        return _taker(some)
    if origin is Literal:
        return lambda value: value if value in inner else _refuse()
    if origin is tuple:
        take = _taker(inner[0])
        return lambda value: tuple(map(take, value)) if isinstance(value, list) else _refuse()
    if hint is float:
        # bool is an int to isinstance, and no number here; inf and nan are TOML floats.
        return lambda value: (
            float(value) if type(value) in (int, float) and math.isfinite(value) else _refuse()
        )
    return lambda value: value if type(value) is hint else _refuse()


def _refuse() -> Any:
    raise TypeError
