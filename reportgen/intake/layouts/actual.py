"""Repetitions planned beside those done: none done of some planned, with a load on the bar, is a miss."""

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from reportgen.intake import marks
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.log import Log
from reportgen.intake.marks import Says
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Sheet
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue

_SAYS: Final = ("remark", "result", "miss", "missed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """The column, from 1, of planned repetitions beside a column of those done.

    `plain`: its heading says no more than `Reps`; `loaded`: the load is that which was done.
    """

    column: int
    heading: str
    plain: bool
    loaded: bool


def planned_reps(headings: Sequence[str], names: Mapping[str, str], tongue: Tongue) -> Planned | None:
    """The column of planned repetitions of some headings, where another holds those done."""
    forms = [fold(heading) for heading in headings]
    done = {form for form in forms if _side(form, tongue, "performed")}
    loaded = any(names.get(form) in LOADS for form in done)
    if not any(names.get(form) == "reps" for form in done):
        return None
    for at, form in enumerate(forms):
        plain = names.get(form) == "reps" and form not in done
        rest = form.partition(" ")[2]
        if plain or (_side(form, tongue, "planned") and tongue.headings.get(rest) == "reps"):
            return Planned(column=at + 1, heading=headings[at], plain=plain, loaded=loaded)
    return None


def _side(form: str, tongue: Tongue, side: str) -> bool:
    words = form.split()
    return len(words) > 1 and bool({words[0], words[-1]} & tongue.small[side])


def actual_reps(made: Sheet, planned: Planned, log: Log) -> None:
    """Bring repetitions planned and done into `reps` and `made`, where the others were tried for sure."""
    column, reps = made.columns.get(f"?{planned.column}"), made.columns.get("reps")
    if column is None or reps is None:
        return
    tried: dict[int, str] = {}
    good: dict[int, str] = {}
    for row in range(len(made)):
        plan, done = column.word(row), reps.word(row)
        if not plan.isdecimal() or plan == done:
            continue
        if not done:
            tried |= {row: plan} if planned.plain else {}
        elif done.isdecimal() and int(done) < int(plan) and _missed(made, row, planned, log):
            tried[row], good[row] = plan, done
        elif planned.plain:
            fault = Fault(expect("same_in_both"), said=say("intake.twice"))
            made.blame_rows(reps, np.array([row]), fault)
    if good:
        made.told.append(say("intake.read.actual"))
    made.put("reps", tried)
    made.put("made", {row: word for row, word in good.items() if not made.word("made", row)})


def _missed(made: Sheet, row: int, planned: Planned, log: Log) -> bool:
    """Whether the repetitions that lack were tried: a word says so, or none was done with a load."""
    sets, none = made.word("sets", row), made.word("reps", row) == "0"
    if sets not in ("", "1") and not (none and sets.isdecimal() and int(sets)):
        return False
    words = [made.word(name, row) for name in _SAYS]
    if any(marks.says(word) is Says.MISS or marks.flag(word, log.tongue) is False for word in words if word):
        return True
    said = [word for word in words if word]
    load = any(made.word(name, row).strip("0., ") for name in LOADS)
    return none and planned.loaded and load and not said
