"""Every column of every table that intake hands on and analysis prepares, in order, with its type and unit.

All tables are pandas frames with a plain 0..n-1 index. Text columns hold str, never NaN ("" where the
cell was empty). `date` columns are datetime64 at midnight. `file` is the path relative to the lifter's
folder, `line` the line as an editor counts it.
"""

from functools import cache
from typing import Final

import pandas as pd

#: One row a part of a logged set row; attempts are rows with sets = reps = 1. Counts are narrow, as a log of
#: a life has a million rows of them; what is added up of them is wide.
SETS: Final = {
    "date": "datetime64[s]",
    "session": "str",  # the lifter's own label that tells two sessions of a day apart; "" if none
    "lift": "str",  # catalogue name, or "other" (counts for load only)
    "part": "int32",  # 0 for the first part of a complex
    "parts": "int32",  # 1 for a plain lift
    "load_kg": "float64",
    "sets": "int32",
    "reps": "int32",  # repetitions of this part in one set
    "made": "int32",  # repetitions made of this part in one set, 0..reps
    "declined": "int32",  # repetitions of this part in one set that were declined: neither tried nor missed
    "miss": "str",  # kinds of the missed ones joined by "+": none, one for all, or one each; "" = not stated
    "variant": "str",  # lower case; "" = the lift as it is
    "aid": "str",  # "straps" or own words, lower case; "" = none
    "effort": "float64",  # 1..10, NaN = not given
    "kind": "str",  # training, contest, test
    "event": "str",  # of an attempt
    "attempt": "int32",  # 1, 2, 3 ...; 0 = no attempt
    "remark": "str",
    "file": "str",
    "line": "int32",
}

BODYMASS: Final = {
    "date": "datetime64[s]",
    "mass_kg": "float64",
    "remark": "str",
    "file": "str",
    "line": "int64",
}

SCREENING: Final = {
    "date": "datetime64[s]",
    "item": "str",  # catalogue name
    "side": "str",  # left, right, both; "" = not given
    "load_kg": "float64",  # NaN = unloaded
    "reading": "float64",  # in the item's unit; NaN = only graded
    "grade": "str",  # held, partly, no; "" = only read
    "conditions": "str",  # lower case, sorted, joined by ", "
    "remark": "str",
    "file": "str",
    "line": "int64",
}

TECHNIQUE: Final = {
    "date": "datetime64[s]",
    "lift": "str",  # catalogue name, "" = not given
    "load_kg": "float64",  # NaN = not given
    "checkpoint": "str",  # catalogue name
    "grade": "str",  # good, drifting, off
    "clip": "str",
    "remark": "str",
    "file": "str",
    "line": "int64",
}

MOBILITY: Final = {
    "date": "datetime64[s]",
    "area": "str",  # ankles, hips, thoracic spine, shoulders, wrists
    "minutes": "float64",
    "remark": "str",
    "file": "str",
    "line": "int64",
}

PAIN: Final = {
    "date": "datetime64[s]",
    "place": "str",
    "lift": "str",  # catalogue name, "" = not given
    "score": "float64",
    "kind": "str",  # ache, sharp, numb, locking, injury; "" = not given
    "settled": "datetime64[s]",  # NaT = open
    "remark": "str",
    "file": "str",
    "line": "int64",
}

#: Rows of pain.csv that were set aside: what could be read, the columns that could not, and what stood there.
PAIN_UNREAD: Final = PAIN | {"wrong": "str", "found": "str"}  # wrong: joined by ","; "*" = the whole row

#: What was said beside a set that was set aside: an injury is heard there as well.
SETS_UNREAD: Final = {"date": "datetime64[s]", "remark": "str", "file": "str", "line": "int64"}

AWAY: Final = {
    "from": "datetime64[s]",
    "to": "datetime64[s]",
    "reason": "str",
    "remark": "str",
    "file": "str",
    "line": "int64",
}

AWAY_UNREAD: Final = AWAY | {"wrong": "str", "found": "str"}

DECISIONS: Final = {
    "date": "datetime64[s]",
    "finding": "str",  # a rule id of the facts
    "verdict": "str",  # kept, changed, dropped
    "why": "str",
    "check": "datetime64[s]",  # NaT = not given
    "file": "str",
    "line": "int64",
}

#: `Tables.sets`: the set rows up to the review day with everything that a later question asks of a row.
PREPARED: Final = SETS | {
    "family": "str",  # from the lifts table; "other" where the log's lift is none of ours
    "role": "str",
    "counts": "bool",  # may make a best: no variant, no straps on a lift from the floor
    "tried": "int64",  # repetitions tried, all sets of the row (declined ones are not tried)
    "made_reps": "int64",  # the same for made
    "missed": "int64",
    "reference_kg": "float64",  # best of the 365 days before that day, NaN until it is known
    "share": "float64",  # load / reference, NaN without a reference
    "week": "datetime64[s]",  # Monday of the ISO week
    "session_id": "int32",  # 0..n-1 by day, then by the lifter's own label
    "single": "bool",  # one repetition of a plain lift
}

#: `Tables.days`: one row a training day.
DAYS: Final = {
    "date": "datetime64[s]",
    "sessions": "int64",
    "repetitions": "int64",
    "tonnage_kg": "float64",
    "tonnage_classic_kg": "float64",
    "tonnage_strength_kg": "float64",  # squats and pulls
    "top_share_goal": "float64",  # highest share of a goal lift, NaN without one
}

#: `Tables.weeks`: one row an ISO week from the first to the review day.
WEEKS: Final = {
    "start": "datetime64[s]",
    "week": "str",
    "sessions": "int64",
    "full": "int64",  # sessions with the goal's lift itself
    "derivative": "int64",  # sessions with a derivative and not the lift
    "heavy_singles": "float64",  # NaN where the reference was unknown
    "repetitions": "int64",
    "tonnage_kg": "float64",
    "counted_repetitions": "float64",  # NaN alike, as are the next two
    "counted_pull_repetitions": "float64",
    "relative_load": "float64",
    "away": "str",
}

#: `Tables.misses`: one row a kind of miss of a set; counts add up to `missed`.
MISSES: Final = {
    "date": "datetime64[s]",
    "lift": "str",
    "load_kg": "float64",
    "share": "float64",
    "kind": "str",  # "not stated" where none was given
    "count": "int64",
    "file": "str",
    "line": "int32",
}

#: `Tables.running_best`: the goal lift's best at each day that raised it.
RUNNING_BEST: Final = {"date": "datetime64[s]", "lift": "str", "kg": "float64", "kind": "str"}

#: `Tables.aligned`: the days around each test day that lie in the log.
ALIGNED: Final = {
    "test": "datetime64[s]",
    "day": "int64",  # the test day is 0
    "load_kg": "float64",
    "expected_kg": "float64",  # NaN without log enough before
    "taper": "bool",  # inside the taper
    "away": "bool",
}

#: Those that are about no sets, as `Records` calls them.
TABLES: Final = {
    **{"bodymass": BODYMASS, "screening": SCREENING, "technique": TECHNIQUE, "mobility": MOBILITY},
    **{"pain": PAIN, "pain_unread": PAIN_UNREAD, "away": AWAY, "away_unread": AWAY_UNREAD},
    "sets_unread": SETS_UNREAD,
    "decisions": DECISIONS,
}


def empty(columns: dict[str, str]) -> pd.DataFrame:
    """A table of these columns without rows, typed as intake types them."""
    return _empty(tuple(columns.items())).copy()


@cache
def _empty(columns: tuple[tuple[str, str], ...]) -> pd.DataFrame:
    return pd.DataFrame({name: pd.Series([], dtype=kind) for name, kind in columns})


def typed(data: dict[str, list[object]], columns: dict[str, str]) -> pd.DataFrame:
    """A table of these columns from lists of equal length, in the columns' order and types."""
    return pd.DataFrame({name: pd.Series(data[name], dtype=kind) for name, kind in columns.items()})
