"""The clock, which no figure and no page asks: whether a plan is over already, or a log ahead of its day."""

import datetime as dt

from reportgen.model.facts import Facts
from reportgen.words import text


def today() -> dt.date:
    """The day it is where the command runs."""
    return dt.datetime.now().astimezone().date()


def ahead(newest: dt.date, as_of: dt.date | None) -> str:
    """What to say of a log with days that are still to come, without a review day asked for; else "".

    Args:
        newest: The newest day that counts.
        as_of: The review day that was asked for.
    """
    # Somewhere it is tomorrow already.
    if as_of is not None or newest <= today() + dt.timedelta(days=1):
        return ""
    return text("cli.ahead", last=str(newest), today=str(today()))


def past(facts: Facts, as_of: dt.date | None) -> str:
    """What to say of a plan whose first week is over or a log ahead of today, without a review day asked for.

    Args:
        facts: The lifter's.
        as_of: The review day that was asked for; whoever names one has seen it.
    """
    if over := ahead(facts.as_of, as_of):
        return over
    weeks = facts.block.weeks if facts.block is not None else ()
    if as_of is not None or not weeks or weeks[0].start + dt.timedelta(days=7) > today():
        return ""
    return text(
        "cli.past", last=str(facts.span.last or facts.as_of), start=str(weeks[0].start), today=str(today())
    )
