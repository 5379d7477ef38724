"""One contest written down twice, two weigh-ins of a day: told, and counted once."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from typing import Final

import numpy as np
import pandas as pd

from reportgen.intake.messages import Fault, expect, quoted
from reportgen.intake.tables import Reading
from reportgen.intake.twice import without
from reportgen.model.say import say
from reportgen.trade import fold

#: From so alike on two names of one day are two spellings of one event.
_ALIKE: Final = 0.85
Attempt = tuple[str, float, int]


def one_event(reading: Reading) -> Reading:
    """Take two spellings of one day's event for one, and attempts that stand under two events once."""
    if not len(reading.table):
        return reading
    named = replace(reading, table=_spelled(reading))
    gone: dict[int, Fault] = {}
    for _, day in named.table.groupby("date", sort=False):
        gone |= _doubles(day)
        _numbers(named, day, gone)
    rows = named.rows[list(gone)]
    named.sheet.blame_rows(None, rows, list(gone.values()))
    return without(named, rows)


def _spelled(reading: Reading) -> pd.DataFrame:
    """The table with the first spelling of each event; what differs by more than letter case is told."""
    table = reading.table
    first: dict[str, str] = {}
    names = [first.setdefault(fold(name), name) for name in table["event"].tolist()]
    made = table.assign(event=pd.array(names, dtype="str"))
    for _, day in made.groupby("date", sort=False):
        seen: dict[str, int] = {}
        for name, row in zip(day["event"].tolist(), day.index.tolist(), strict=True):
            other = name if name in seen else next((one for one in seen if _alike(one, name)), None)
            if other is None:
                seen[name] = row
            elif other != name:
                made.loc[row, "event"] = other
                line = made["line"].tolist()[seen[other]]
                said = say("intake.event_as", other=quoted(other), line=line)
                column = reading.sheet.column("event")
                reading.sheet.odd(reading.rows[[row]], column, Fault(expect("one_event"), said=said))
    return made


def _alike(one: str, other: str) -> bool:
    """Whether two names are spellings of one: much alike, and no number in them differs."""
    a, b = fold(one), fold(other)
    numbers = [[c for c in name if c.isdigit()] for name in (a, b)]
    return bool(a and b) and numbers[0] == numbers[1] and SequenceMatcher(None, a, b).ratio() >= _ALIKE


def _doubles(day: pd.DataFrame) -> dict[int, Fault]:
    """Rows of events all of whose attempts stand under an earlier event of the day."""
    gone: dict[int, Fault] = {}
    events = [rows for _, rows in day.groupby("event", sort=False)]
    for place, mine in enumerate(events):
        for other in events[:place]:
            if gone.keys() & set(other.index) or Counter(_all(mine)) - Counter(_all(other)):
                continue
            lines: dict[Attempt, list[int]] = {}
            for attempt, line in zip(_all(other), other["line"].tolist(), strict=True):
                lines.setdefault(attempt, []).append(line)
            event = quoted(str(other["event"].iloc[0]))
            for attempt, row in zip(_all(mine), mine.index.tolist(), strict=True):
                said = say("intake.meet_twice", line=lines[attempt].pop(0), other=event)
                gone[row] = Fault(expect("one_attempt"), said=said)
            break
    return gone


def _all(rows: pd.DataFrame) -> list[Attempt]:
    loads = rows["load_kg"].round(1).tolist()
    return list(zip(rows["lift"].tolist(), loads, rows["made"].tolist(), strict=True))


def _numbers(reading: Reading, day: pd.DataFrame, gone: dict[int, Fault]) -> None:
    """An attempt of one number twice: the same counts once, another one is told."""
    seen: dict[tuple[str, str, int], tuple[Attempt, int]] = {}
    keys = zip(day["event"].tolist(), day["lift"].tolist(), day["attempt"].tolist(), strict=True)
    for key, attempt, row, line in zip(
        keys, _all(day), day.index.tolist(), day["line"].tolist(), strict=True
    ):
        if key[2] == 0 or row in gone:
            continue
        before, at = seen.setdefault(key, (attempt, line))
        if at == line:
            continue
        if before == attempt:
            gone[row] = Fault(expect("one_attempt"), said=say("intake.attempt_twice", line=at))
        else:
            said = say("intake.attempt_other", number=key[2], line=at)
            column = reading.sheet.column("attempt")
            reading.sheet.odd(reading.rows[[row]], column, Fault(expect("one_attempt"), said=said))


def one_weigh_in(readings: Sequence[Reading]) -> list[Reading]:
    """Keep the first weigh-in of each day, which is the morning's where both are written down."""
    seen: dict[object, tuple[str, int]] = {}
    kept = []
    for reading in readings:
        rows: list[int] = []
        faults: list[Fault] = []
        of = zip(
            reading.table["date"].tolist(), reading.table["line"].tolist(), reading.rows.tolist(), strict=True
        )
        for day, line, row in of:
            file, at = seen.setdefault(day, (reading.sheet.file, line))
            if (file, at) != (reading.sheet.file, line):
                rows.append(row)
                said = say("intake.weighed", line=at, other=file)
                faults.append(Fault(expect("one_weigh_in"), said=said))
        gone = np.array(rows, dtype=np.int64)
        reading.sheet.blame_rows(None, gone, faults)
        kept.append(without(reading, gone))
    return kept
