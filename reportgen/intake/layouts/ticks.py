"""What was planned and not done: rows that say so, and those without a tick where others are ticked off."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from reportgen.intake.bounds import MOST_ABOVE
from reportgen.intake.columns import Rows
from reportgen.intake.kinds import LOADS, TRAINING
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.unfold import short_words
from reportgen.intake.marks import Says, says
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Column, Sheet
from reportgen.model.say import say
from reportgen.trade import fold

#: Names of such columns here: one says what was done, the other what was planned.
TICKED: Final = "ticked"
PLANNED: Final = "planned"
_DATE: Final = re.compile(r"\d{1,4}([ ./]\d{1,4}){1,2}\.?")
_TICKS: Final = "✓✔☑✅"
_CROSSES: Final = frozenset("✗✘❌✖☒")
_NOT: Final = frozenset({"", "-", "–", "0", "0%", "0 %", "☐", "□"})
#: Where a whole cell may say that its row was planned.
_SAYS: Final = ("result", "remark", "session", "variant", "?")


def ticked_off(rows: Rows, names: Mapping[str, str], log: Log) -> dict[str, str]:
    """The heading of a column of ticks, where the sets stand in columns of their own; none without one.

    A few other words among the ticks are no ticks; where ticks are the fewer it is no such column, nor one of
    sets unless it holds shorthand.
    """
    there = {*names.values()}
    if log.kind is not TRAINING or "reps" not in there or not there & {*LOADS, "load"}:
        return {}
    small = log.tongue.small
    for i, heading in enumerate(rows.headings):
        bare, done = _bare(heading), _is_ticks(heading, log)
        if not done and fold(bare) not in small["planned"]:
            continue
        cells = [_plain(row[i]) if i < len(row) else "" for row in rows.grid.cells if any(row)]
        filled = [cell for cell in cells if cell not in _NOT | _CROSSES | log.tongue.said["bad"]]
        good = sum(_good(cell, log) for cell in filled)
        if (good and good > len(filled) / 2) or (done and log.unticked and not filled):
            return {fold(heading): TICKED if done else PLANNED}
        if done and names.get(fold(heading)) == "entry" and not short_words(filled):
            return {fold(heading): "unused"}
    return {}


def unticked(logs: Sequence[Log]) -> frozenset[str]:
    """Files, with their sheets, that have a column of ticks without any, where most others have some."""
    bare, ticks = set[str](), 0
    for log in logs:
        at = next(((i, at) for i, row in enumerate(log.grid.cells[: MOST_ABOVE + 1])
                   for at, cell in enumerate(row) if _is_ticks(cell, log)), None)  # fmt: skip
        if at is None or log.kind is not TRAINING:
            continue
        cells = {_plain(row[at[1]]) for row in log.grid.cells[at[0] + 1 :] if at[1] < len(row)} - {""}
        ticks += any(_good(cell, log) for cell in cells)
        bare |= set() if cells else {log.grid.file}
    return frozenset(bare) if ticks >= len(bare) else frozenset()


def _bare(heading: str) -> str:
    return heading.strip(" .:?!()").rstrip("\ufe0f")


def _is_ticks(heading: str, log: Log) -> bool:
    bare = _bare(heading)
    return bool(bare) and (fold(bare) in log.tongue.small["ticked"] or {*bare} <= {*_TICKS})


def _plain(cell: str) -> str:
    return fold(cell.strip().rstrip("\ufe0f"))


def _good(word: str, log: Log) -> bool:
    """Whether it says that a row was done: a tick, a yes, all of it, or the day on which it was."""
    tick = word in ("x", "1", "100%", "100 %") or (bool(word) and {*word} <= {*_TICKS})
    return tick or word in log.tongue.said["good"] or bool(_DATE.fullmatch(word))


def not_ticked(made: Sheet, log: Log) -> None:
    """Set aside the rows that say of themselves that they were planned, and those without a tick.

    Rows above the first tick are from before anybody ticked; who says how many were made has done the row.
    A cross may be a miss.
    """
    column, planned = made.columns.pop(TICKED, None), made.columns.pop(PLANNED, None)
    if log.kind is TRAINING:
        _planned(made, planned, log)
    if column is None:
        return
    words = np.array([_plain(word) for word in column.words])[column.codes]
    good = np.array([_good(_plain(word), log) for word in column.words])[column.codes]
    crossed = np.isin(words, [*_CROSSES]) | (words == "x") & np.isin(words, [*_TICKS]).any()
    told = made.columns["made"].filled if "made" in made.columns else np.zeros(len(made), dtype=np.bool_)
    open_ = np.flatnonzero((~good | crossed) & ~made.aside & ~told)
    if not log.unticked:
        open_ = open_[open_ > np.flatnonzero(good & ~crossed)[:1].min(initial=len(made))]
    for name in ("remark", "result"):  # a lift, or the session
        if name in made.columns:
            crossed |= made.columns[name].where(
                says(word) is not Says.NOTHING for word in made.columns[name].words
            )
    made.unclear_misses += int(crossed[open_].sum())
    made.blame_rows(column, open_, Fault(expect("ticked"), said=say("intake.not_ticked")))


def _planned(made: Sheet, ticked: Column | None, log: Log) -> None:
    """Set aside what is called planned; `ticked` is a column of ticks that say so."""
    fault = Fault(expect("done"), said=say("intake.planned"))
    small = log.tongue.small
    if ticked is not None:
        good = ticked.rows(code for code, word in enumerate(ticked.words) if _good(_plain(word), log))
        made.blame_rows(ticked, np.array(good, dtype=np.int64), fault)
    for name, one in list(made.columns.items()):
        if not name.startswith(_SAYS):
            continue
        of = {code: _plain(word) for code, word in enumerate(one.words)}
        some = [row for row in one.rows(c for c, word in of.items() if word in small["planned"])
                if not made.aside[row]]  # fmt: skip
        if not some:
            continue
        made.blame_rows(one, np.array(some, dtype=np.int64), fault)
        if name == "result":  # nor is it a miss, nor what stands beside it
            said = one.rows(c for c, word in of.items() if word in small["planned"] | small["performed"])
            made.put("result", dict.fromkeys(said, ""))
