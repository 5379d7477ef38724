"""A column in which rows are ticked off: what bears no tick was planned, and nobody says that it was done."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from reportgen.intake.columns import Rows
from reportgen.intake.kinds import LOADS, TRAINING
from reportgen.intake.layouts.log import Log
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Sheet
from reportgen.model.say import say
from reportgen.trade import fold

#: The name of such a column here.
TICKED: Final = "ticked"
_TICKS: Final = "✓✔☑✅"
_CROSSES: Final = frozenset("✗✘❌✖☒")
_NOT: Final = frozenset({"", "-", "–", "0", "☐", "□"})


def ticked_off(rows: Rows, names: Mapping[str, str], log: Log) -> dict[str, str]:
    """The heading of a column of ticks, where the sets stand in columns of their own; none without one."""
    there = {*names.values()}
    if log.kind is not TRAINING or "reps" not in there or not there & {*LOADS, "load"}:
        return {}
    for i, heading in enumerate(rows.headings):
        bare = heading.strip(" .:?!()").rstrip("\ufe0f")
        if not bare or not (fold(bare) in log.tongue.small["ticked"] or {*bare} <= {*_TICKS}):
            continue
        words = {_plain(row[i]) if i < len(row) else "" for row in rows.grid.cells if any(row)}
        good = {word for word in words if _good(word, log)}
        if good and words - good <= _NOT | _CROSSES | log.tongue.said["bad"]:
            return {fold(heading): TICKED}
    return {}
    for i, heading in enumerate(rows.headings):
        bare, planned = heading.strip(" .:?!()").rstrip("\ufe0f"), log.tongue.small["planned"]
        named = bool(bare) and (fold(bare) in log.tongue.small["ticked"] or {*bare} <= {*_TICKS})
        if not named and names.get(fold(heading)) != "result":
            continue
        words = {_plain(row[i]) if i < len(row) else "" for row in rows.grid.cells if any(row)}
        good = {word for word in words if _good(word, log)}
        # A column of results is one of ticks only where it says of the others that they were planned.
        left = _NOT | _CROSSES | log.tongue.said["bad"] | planned if named else planned
        if good and words - good and words - good <= left:
            return {fold(heading): TICKED}
    return {}


def _plain(cell: str) -> str:
    return fold(cell.strip().rstrip("\ufe0f"))


def _good(word: str, log: Log) -> bool:
    return word in log.tongue.said["good"] or word in ("x", "1") or (bool(word) and {*word} <= {*_TICKS})


def not_ticked(made: Sheet, log: Log) -> None:
    """Set aside the rows without a tick, and those that a result calls planned; a cross may be a miss."""
    column, result = made.columns.pop(TICKED, None), made.columns.get("result")
    fault = Fault(expect("ticked"), said=say("intake.not_ticked"))
    if result is not None and log.kind is TRAINING:
        planned = log.tongue.small["planned"]
        some = result.rows(code for code, word in enumerate(result.words) if _plain(word) in planned)
        made.blame_rows(result, np.array(some, dtype=np.int64), fault)
        made.put("result", dict.fromkeys(some, ""))
    if column is None:
        return
    words = np.array([_plain(word) for word in column.words])[column.codes]
    good = np.array([_good(_plain(word), log) for word in column.words])[column.codes]
    crossed = np.isin(words, [*_CROSSES]) | (words == "x") & np.isin(words, [*_TICKS]).any()
    open_ = np.flatnonzero((~good | crossed) & ~made.aside)
    made.unclear_misses += int(crossed[open_].sum())
    made.blame_rows(column, open_, fault)
