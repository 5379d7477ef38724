"""Days as people write them, the same in a proposal's sentences and on the page."""

import datetime as dt
from typing import Final

MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day(date: dt.date) -> str:
    """A day in the order of speech: 14 Nov 2026."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"
