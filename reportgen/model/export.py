"""Frozen values to JSON data: dates to ISO 8601, NaN to null, nothing rounded."""

import math
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any

from reportgen.model.say import Say


def _unspoken(one: Say) -> Any:
    return {"key": one.key, **{name: as_json(value) for name, value in one.values}}


def _plain(value: float | date) -> float | str | None:
    if isinstance(value, date):
        return value.isoformat()[:10]
    return value if math.isfinite(value) else None


def as_json(value: Any, speak: Callable[[Say], Any] = _unspoken) -> Any:
    """Turn a frozen value into plain lists, dicts, str, int, float, bool and None.

    Args:
        value: A dataclass instance or anything inside one.
        speak: What becomes of a sentence; without it, its key and values. `reportgen.words.as_json` words it.

    Returns:
        JSON data; NaN and infinities become None, dates ISO text.

    Raises:
        TypeError: The value holds a type that facts never hold.
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float | date):
        return _plain(value)
    if isinstance(value, tuple | list):
        return [as_json(item, speak) for item in value]
    if isinstance(value, dict):
        return {str(key): as_json(item, speak) for key, item in value.items()}
    if isinstance(value, Say):
        return speak(value)
    if is_dataclass(value):
        return {
            part.name: as_json(getattr(value, part.name), speak)
            for part in fields(value)
            if not part.metadata.get("drawn")
        }
    msg = f"facts never hold a {type(value).__name__}"
    raise TypeError(msg)
