"""Every column of every table that intake hands on, in order, with its type and unit.

All tables are pandas frames with a plain 0..n-1 index. Text columns hold str, never NaN ("" where the
cell was empty). `date` columns are datetime64 at midnight. `file` is the path relative to the lifter's
folder, `line` the line as an editor counts it.
"""

from typing import Final

import pandas as pd

#: One row a part of a logged set row; attempts are rows with sets = reps = 1.
SETS: Final = {
    "date": "datetime64[s]",
    "session": "str",  # the lifter's own label that tells two sessions of a day apart; "" if none
    "lift": "str",  # catalogue name, or "other" (counts for load only)
    "part": "int64",  # 0 for the first part of a complex
    "parts": "int64",  # 1 for a plain lift
    "load_kg": "float64",
    "sets": "int64",
    "reps": "int64",  # repetitions of this part in one set
    "made": "int64",  # repetitions made of this part in one set, 0..reps
    "declined": "int64",  # repetitions of this part in one set that were declined: neither tried nor missed
    "miss": "str",  # kinds of the missed ones joined by "+": none, one for all, or one each; "" = not stated
    "variant": "str",  # lower case; "" = the lift as it is
    "aid": "str",  # "straps" or own words, lower case; "" = none
    "effort": "float64",  # 1..10, NaN = not given
    "kind": "str",  # training, contest, test
    "event": "str",  # of an attempt
    "attempt": "int64",  # 1, 2, 3 ...; 0 = no attempt
    "remark": "str",
    "file": "str",
    "line": "int64",
}

BODYMASS: Final = {"date": "datetime64[s]", "mass_kg": "float64", "file": "str", "line": "int64"}

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


#: Those that are about no sets, as `Records` calls them.
TABLES: Final = {
    **{"bodymass": BODYMASS, "screening": SCREENING, "technique": TECHNIQUE, "mobility": MOBILITY},
    **{"pain": PAIN, "pain_unread": PAIN_UNREAD, "away": AWAY, "away_unread": AWAY_UNREAD},
    "sets_unread": SETS_UNREAD,
    "decisions": DECISIONS,
}


def empty(columns: dict[str, str]) -> pd.DataFrame:
    """A table of these columns without rows, typed as intake types them."""
    return pd.DataFrame({name: pd.Series([], dtype=kind) for name, kind in columns.items()})


def typed(data: dict[str, list[object]], columns: dict[str, str]) -> pd.DataFrame:
    """A table of these columns from lists of equal length, in the columns' order and types."""
    return pd.DataFrame({name: pd.Series(data[name], dtype=kind) for name, kind in columns.items()})
