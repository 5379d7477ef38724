"""attempts.csv: every attempt is a set of one repetition."""

import numpy as np

from reportgen.intake.cells import Parsed, dates, each, integers, listed, loads, terms, texts, vocabulary
from reportgen.intake.messages import Fault, expect
from reportgen.intake.outcomes import DECLINED, NO_KINDS, misses
from reportgen.intake.sheet import Sheet
from reportgen.intake.tables import Manner, Reading, tabulate
from reportgen.model.say import say
from reportgen.model.tables import SETS


def attempts(sheet: Sheet, manner: Manner) -> Reading:
    """attempts.csv as a table of `model.tables.SETS`, one row an attempt.

    Where no `kind` is given, an attempt with an `event` is of a contest, any other one of a test day.
    """
    day = dates(sheet, "date", manner.date_format)
    lift = terms(sheet, "lift", manner.lifts(), expect("lift"), needed=True)
    number = integers(sheet, "attempt", expect("attempt"), 100, empty=0)
    load_kg = loads(sheet, manner.unit)
    word = terms(sheet, "made", vocabulary("yes_no"), expect("yes_no"), needed=True)
    made = np.array([one == "yes" for one in word.values], dtype=np.int64)[word.codes]
    column = sheet.column("miss")
    miss = each(sheet, column, misses(single=True), empty=NO_KINDS, hole=NO_KINDS)
    both = np.flatnonzero((made == 1) & column.filled & ~sheet.aside)
    sheet.blame_rows(column, both, Fault(expect("nothing"), said=say("intake.miss_yes")))
    declined = np.array([DECLINED in one for one in miss.values], dtype=np.int64)[miss.codes]
    kinds = ["+".join(kind for kind in one if kind != DECLINED) for one in miss.values]
    zeros, ones = np.zeros(len(sheet), dtype=np.int64), np.ones(len(sheet), dtype=np.int64)
    return tabulate(
        sheet,
        {
            **dict.fromkeys(("session", "variant", "aid"), Parsed([""], zeros)),
            **dict.fromkeys(("parts", "sets", "reps"), ones),
            "date": day,
            "lift": lift,
            "part": zeros,
            "load_kg": load_kg,
            "made": made,
            "declined": declined,
            "miss": Parsed(kinds, miss.codes),
            "effort": np.full(len(sheet), np.nan),
            "kind": _kind(sheet),
            "event": texts(sheet, "event"),
            "attempt": number,
            "remark": texts(sheet, "remark"),
        },
        SETS,
    )


def _kind(sheet: Sheet) -> Parsed[str]:
    """Contest or test as given; where nothing is, contest with an event's name and test without one."""
    named = sheet.column("event").filled.astype(np.int64)
    if "kind" not in sheet.columns:
        return Parsed(["test", "contest"], named)
    words = vocabulary("attempt_kind")
    given = terms(sheet, "kind", words, expect("word", words=listed(words)))
    values = [*given.values, "test", "contest"]
    unsaid = np.array([value == "" for value in given.values], dtype=bool)[given.codes]
    return Parsed(values, np.where(unsaid, len(given.values) + named, given.codes))
