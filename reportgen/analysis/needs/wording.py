"""Templates of trade/claims.toml filled with figures; weights stay numbers until the last moment."""

import datetime as dt
from collections.abc import Iterable, Mapping
from string import Formatter

from reportgen.model import calendar
from reportgen.model.findings import Worded

Value = str | float | int | dt.date


def fill(template: str, values: Mapping[str, Value | Worded]) -> Worded:
    """Fill one template.

    Args:
        template: A sentence; a field that ends in `_kg` is a weight.
        values: At least the fields of the sentence. A weight is a float [kg], a date a `date`.

    Returns:
        The sentence in parts, words joined; it starts with a capital letter.

    Raises:
        KeyError: A value is missing (a bug).
    """
    parts: list[str | float] = []
    for words, name, _, _ in Formatter().parse(template):
        parts.append(words)
        if name:
            parts.extend(_said(name, values[name]))
    joined: list[str | float] = []
    for part in parts:
        if isinstance(part, str) and joined and isinstance(joined[-1], str):
            joined[-1] += part
        elif part != "":
            joined.append(part)
    if joined and isinstance(joined[0], str):
        joined[0] = joined[0][:1].upper() + joined[0][1:]
    return tuple(joined)


def _said(name: str, value: Value | Worded) -> tuple[str | float, ...]:
    if isinstance(value, tuple):
        return value
    if isinstance(value, dt.date):
        return (day(value),)
    if isinstance(value, str):
        return (value,)
    return (float(value),) if name.endswith("_kg") else (number(value),)


def text(parts: Worded) -> str:
    """The sentence as one string, weights in kilograms to a tenth."""
    return "".join(part if isinstance(part, str) else f"{number(part)} kg" for part in parts)


def number(value: float) -> str:
    """A number to a tenth at most, without trailing zeros."""
    return f"{value:.1f}".removesuffix(".0")


def percent(share: float) -> str:
    """0.954 becomes "95 %"."""
    return f"{share * 100:.0f} %"


day = calendar.day


def listing(items: Iterable[Worded], most: int = 4) -> Worded:
    """ "a, b and c"; what is over `most` is counted."""
    named = list(dict.fromkeys(items))
    if len(named) > most:
        named = [*named[: most - 1], (f"{len(named) - most + 1} more",)]
    parts: list[str | float] = []
    for place, item in enumerate(named):
        if place:
            parts.append(" and " if place == len(named) - 1 else ", ")
        parts.extend(item)
    return tuple(parts)


def supports(low_kg: float | None, high_kg: float | None) -> Worded:
    """The goal lift that a figure carries, as a range in parts."""
    if low_kg is None or high_kg is None:
        return (high_kg if high_kg is not None else low_kg or 0.0,)
    return (low_kg, " to ", high_kg)
