"""Data of TOML in, checked frozen values out."""

import json
import tomllib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from pydantic import TypeAdapter

Made = TypeVar("Made")
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


def named(data: Table, name: str) -> Table:
    """The tables of a table, each with its own name in its key `name`."""
    return {key: {name: key, **cells} if isinstance(cells, dict) else cells for key, cells in data.items()}


def keyed(kind: type[Made], data: Table, file: str, name: str) -> dict[str, Made]:
    """One row a table of the file; the table's own name becomes the row's field `name`."""
    found: dict[str, Made] = _checked(dict[str, kind], named(data, name), file)  # type: ignore[valid-type]
    return found


def rows(kind: type[Made], data: Table, file: str, name: str) -> tuple[Made, ...]:
    """The rows of the file's array of tables `name`."""
    some: dict[str, tuple[Made, ...]] = _checked(
        dict[str, tuple[kind, ...]],  # type: ignore[valid-type]
        {name: data.get(name)},
        file,
    )
    return some[name]


def whole(kind: type[Made], data: Table, file: str) -> Made:
    """One value of a file as a whole.

    Args:
        kind: A frozen dataclass, with others in it; a field that may be left out has a default.
        data: As TOML has it.
        file: For the message.

    Returns:
        The value; whole numbers made floats where a field is a float, arrays made tuples.

    Raises:
        TradeError: A key is missing or unknown, or a value has the wrong type.
    """
    some: dict[str, Made] = _checked(dict[str, kind], {"": data}, file)  # type: ignore[valid-type]
    return some[""]


def _checked(kind: Any, data: Table, file: str) -> Any:
    from pydantic import ValidationError

    try:
        return _checker(kind).validate_json(json.dumps(data))
    except ValidationError as error:
        wrong = error.errors(include_url=False)[0]
    *place, name = wrong["loc"]
    key = " ".join(str(part + 1 if isinstance(part, int) else part) for part in place).strip()
    if wrong["type"] == "missing":
        raise TradeError(file, key, f"no {name}")
    if wrong["type"] == "unexpected_keyword_argument":
        raise TradeError(file, key, f"{name} is not a key of this table")
    raise TradeError(file, key, f"{name} is {wrong['input']!r}, which cannot be used")


@cache
def _checker(kind: Any) -> "TypeAdapter[Any]":
    """A checker of nothing but the type: a number in quotation marks, true and infinity are none."""
    from pydantic import ConfigDict, TypeAdapter

    return TypeAdapter(kind, config=ConfigDict(strict=True, extra="forbid", allow_inf_nan=False))
