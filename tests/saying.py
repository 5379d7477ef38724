"""Sentences of the facts as a reader sees them, in kilograms."""

from collections.abc import Iterable

from reportgen.model.say import Say
from reportgen.words import plain, spoken


def said(one: Say | None) -> str:
    """One sentence; "" where there is none."""
    return "" if one is None else plain(spoken(one))


def each(many: Iterable[Say]) -> tuple[str, ...]:
    """Several sentences."""
    return tuple(said(one) for one in many)
