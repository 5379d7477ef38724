"""What says how soon a coach looks at a lifter: numbers and days, judged on the one day of a squad."""

import datetime as dt

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One lifter's part of the coach's morning.

    Attributes:
        as_of: The lifter's own review day.
        last: Last session; None without any.
        by: The goal's day.
        test: The proposal's test day.
        contest: It is a contest.
        held: What holds the proposal back, open pain or something not sure, in words; "" where nothing does.
        need: Id of the first need; "" without one.
        area: Where its work lies.
        came: That need is new since `since`.
        went: Id of the first need of that day where it is gone; "" where not, or nothing was compared.
        retest, retest_of: First day on which a finding that stands is to be looked at again, and its id.
        away_from, away_to: The absence of away.csv that ends last, after the last session.
        wanted, done: Sessions of the last weeks, planned or usual, and done; None where neither is known.
        planned: `wanted` is a plan's.
    """

    as_of: dt.date
    last: dt.date | None = None
    by: dt.date | None = None
    test: dt.date | None = None
    contest: bool = False
    held: str = ""
    need: str = ""
    area: str = ""
    came: bool = False
    went: str = ""
    since: dt.date | None = None
    retest: dt.date | None = None
    retest_of: str = ""
    away_from: dt.date | None = None
    away_to: dt.date | None = None
    wanted: int | None = None
    done: int | None = None
    planned: bool = False
