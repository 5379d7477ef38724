"""The clock, which no figure and no page asks: whether a plan that begins after the log is over already."""

import datetime as dt

from reportgen.model.facts import Facts
from reportgen.words import text


def today() -> dt.date:
    """The day it is where the command runs."""
    return dt.datetime.now().astimezone().date()


def past(facts: Facts, as_of: dt.date | None) -> str:
    """What to say of a plan whose first week is over, without a review day asked for; else "".

    Args:
        facts: The lifter's.
        as_of: The review day that was asked for; whoever names one has seen it.
    """
    weeks = facts.block.weeks if facts.block is not None else ()
    if as_of is not None or not weeks or weeks[0].start + dt.timedelta(days=7) > today():
        return ""
    return text(
        "cli.past", last=str(facts.span.last or facts.as_of), start=str(weeks[0].start), today=str(today())
    )
