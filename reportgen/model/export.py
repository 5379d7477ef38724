"""Frozen values to JSON data: dates to ISO 8601, NaN to null, nothing rounded."""

import json
import math
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any

from reportgen.model.facts import Facts


def as_json(value: Any) -> Any:
    """Turn a frozen value into plain lists, dicts, str, int, float, bool and None.

    Args:
        value: A dataclass instance or anything inside one.

    Returns:
        JSON data; NaN and infinities become None, dates ISO text.

    Raises:
        TypeError: The value holds a type that facts never hold.
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, date):
        return value.isoformat()[:10]
    if isinstance(value, tuple | list):
        return [as_json(item) for item in value]
    if isinstance(value, dict):
        return {str(key): as_json(item) for key, item in value.items()}
    if is_dataclass(value):
        return {
            part.name: as_json(getattr(value, part.name))
            for part in fields(value)
            if not part.metadata.get("drawn")
        }
    msg = f"facts never hold a {type(value).__name__}"
    raise TypeError(msg)


def facts_json(facts: Facts) -> str:
    """The facts file of one lifter as indented JSON text, keys in the order of `Facts`."""
    return json.dumps(as_json(facts), ensure_ascii=False, indent=1, allow_nan=False)


def compact_json(facts: Facts) -> str:
    """The same without a space that nobody needs, for carrying along."""
    return json.dumps(as_json(facts), ensure_ascii=False, separators=(",", ":"), allow_nan=False)
