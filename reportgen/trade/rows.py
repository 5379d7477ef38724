"""Data of TOML in, checked frozen values out."""

import math
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final, TypeVar

import msgspec
import tomli

Made = TypeVar("Made")
Table = dict[str, Any]
_MISSING: Final = re.compile(r"missing required field `(\w+)`")
_AT: Final = re.compile(r"`\$\.(\w+)")


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
        return tomli.loads((folder / file).read_text(encoding="utf-8"), parse_float=_number)
    except FileNotFoundError:
        raise TradeError(file, "", "no such table") from None
    except (tomli.TOMLDecodeError, UnicodeDecodeError) as error:
        raise TradeError(file, "", str(error)) from error


def _number(word: str) -> float | str:
    """A number that is one; `nan` and `inf` stay words, which no row takes for a number."""
    number = float(word)
    return number if math.isfinite(number) else word


def keyed(kind: type[Made], data: Table, file: str, name: str) -> dict[str, Made]:
    """One row a table of the file; the table's own name becomes the row's field `name`."""
    tables = {key: whole(Table, cells, file, key) for key, cells in data.items()}
    return {key: whole(kind, {name: key, **cells}, file, key) for key, cells in tables.items()}


def rows(kind: type[Made], data: Table, file: str, name: str) -> tuple[Made, ...]:
    """The rows of the file's array of tables `name`."""
    every = enumerate(whole(list[Table], data.get(name), file, name), 1)
    return tuple(whole(kind, cells, file, f"{name} {number}") for number, cells in every)


def whole(kind: type[Made], data: object, file: str, key: str = "") -> Made:
    """One value of a file.

    Args:
        kind: A frozen dataclass, a field of which may be left out where it has a default; or another type.
        data: As TOML has it.
        file: For the message, as is `key`.
        key: Where in the file.

    Returns:
        The value; whole numbers made floats where a field is a float, arrays made tuples.

    Raises:
        TradeError: A key is missing, or unknown to the dataclass, or a value has the wrong type: a number in
            quotation marks, true and infinity are none.
    """
    try:
        made = msgspec.convert(data, kind)
    except msgspec.ValidationError as error:
        said, missing, at = str(error), _MISSING.search(str(error)), _AT.search(str(error))
        if missing:
            raise TradeError(file, key, f"no {missing[1]}") from None
        if at and isinstance(data, Mapping):
            wrong = data.get(at[1])
            raise TradeError(file, key, f"{at[1]} is {wrong!r}, which cannot be used") from None
        raise TradeError(file, key, said) from None
    if isinstance(data, Mapping):
        fields = getattr(kind, "__dataclass_fields__", data)
        for name in data.keys() - fields.keys():
            raise TradeError(file, key, f"{name} is not a key of this table")
    return made
