"""What says how soon a coach looks at a lifter: numbers and days, judged on the one day of a squad."""

import datetime as dt

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One lifter's part of the coach's morning."""

    as_of: dt.date  # the lifter's own review day
    last: dt.date | None = None  # last session; None without any
    by: dt.date | None = None  # the goal's day
    test: dt.date | None = None  # the proposal's test day
    contest: bool = False  # it is a contest
    #: What holds the proposal back, open pain or something not sure, in words; "" where nothing does.
    held: str = ""
    need: str = ""  # id of the first need; "" without one
    area: str = ""  # where its work lies
    came: bool = False  # that need is new since `since`
    went: str = ""  # id of the first need of that day where it is gone; "" where not, or nothing was compared
    since: dt.date | None = None
    #: retest, retest_of: First day on which a finding that stands is to be looked at again, and its id.
    retest: dt.date | None = None
    retest_of: str = ""
    #: away_from, away_to: The absence of away.csv that ends last, after the last session.
    away_from: dt.date | None = None
    away_to: dt.date | None = None
    #: wanted, done: Sessions of the last weeks, planned or usual, and done; None where neither is known.
    wanted: int | None = None
    done: int | None = None
    planned: bool = False  # `wanted` is a plan's
