"""What became of the parts of a set: repetitions, made, declined, and how the missed ones failed."""

import re
from collections.abc import Callable

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from reportgen.intake.cells import Parsed, listed, vocabulary, whole
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Codes, Sheet
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade import load

Counts = tuple[int, ...]
_JOINS = re.compile(r"[+,/;]")
DECLINED = "declined"
NO_COUNTS: Counts = ()
NO_KINDS: tuple[str, ...] = ()


#: What became of one part of one set: repetitions, made, declined, and kinds of the missed ones joined by +.
Part = tuple[int, int, int, str]
#: A row that does not add up: the column that shows it, and why.
Wrong = tuple[str, Fault]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcomes:
    """The parts of every row: row `r` has `parts[r]` of them, from place `starts[r]` of the flat lists on."""

    parts: Codes
    starts: Codes
    reps: NDArray[np.int64]
    made: NDArray[np.int64]
    declined: NDArray[np.int64]
    miss: list[str]


def counts(low: int, comma: bool, want: Say) -> Callable[[str], Counts | Fault]:
    """A reader of whole numbers joined by +."""
    most = int(load().value("reps_max"))

    def one(word: str) -> Counts | Fault:
        pieces = [whole(piece.strip(), low, most, comma) for piece in word.split("+")]
        known = tuple(piece for piece in pieces if piece is not None)
        return known if len(known) == len(pieces) else Fault(want)

    return one


def misses(*, single: bool = False) -> Callable[[str], tuple[str, ...] | Fault]:
    """A reader of kinds of miss, joined by + , / or ; (only one where it is `single`)."""
    words = vocabulary("miss")
    want = expect("miss", words=listed(words))

    def one(word: str) -> tuple[str, ...] | Fault:
        known = words.find(word)
        if known is not None:
            return (known,)
        found: list[str] = []
        for piece in [word] if single else _JOINS.split(word):
            kind = words.find(piece)
            if kind is None:
                return Fault(want, words.near(piece))
            found.append(kind)
        return tuple(found)

    return one


def outcome(reps: Counts, made: Counts | None, kinds: tuple[str, ...]) -> list[Part]:
    """Work out one set that adds up: what became of each part.

    `reps` and `made` hold one number a part, None = all were made; `kinds` none, one for all or one each.
    """
    found: list[Part] = []
    each = len(kinds) > 1
    at = 0
    for tried, good in zip(reps, made or reps, strict=True):
        lost = tried - good
        mine = kinds[at : at + lost] if each else kinds * min(lost, 1)
        at += lost
        declined = mine.count(DECLINED) if each else lost * mine.count(DECLINED)
        found.append((tried, good, declined, "+".join(kind for kind in mine if kind != DECLINED)))
    return found


def _wrong(parts: int, reps: Counts, made: Counts | None, kinds: tuple[str, ...]) -> Wrong | None:
    """The column that does not fit and why, or None."""
    for name, numbers in (("reps", reps), ("made", made)):
        if numbers is not None and len(numbers) != parts:
            return name, Fault(expect("parts", parts=parts))
    missed = sum(reps) - sum(made or reps)
    fault: Fault | None = None
    if made is None and kinds:
        said = say("intake.miss_no_made", kinds="+".join(kinds))
        return "made", Fault(expect("made_stated"), said=said)
    if any(good > tried for tried, good in zip(reps, made or reps, strict=True)):
        said = say("intake.made_over", reps="+".join(map(str, reps)))
        return "made", Fault(expect("made"), said=said)
    if kinds and not missed:
        fault = Fault(expect("nothing"), said=say("intake.miss_all_made"))
    elif len(kinds) not in {0, 1, missed}:
        said = say("intake.miss_count", count=len(kinds), missed=missed)
        fault = Fault(expect("miss_count", missed=missed), said=said)
    return ("miss", fault) if fault else None


def outcomes(
    sheet: Sheet,
    lifts: Parsed[tuple[str, ...]],
    reps: Parsed[Counts],
    made: Parsed[Counts | None],
    miss: Parsed[tuple[str, ...]],
) -> Outcomes:
    """Work out every row, each different combination once; a row set aside has no part."""
    parts = np.array([len(one) for one in lifts.values], dtype=np.int64)[lifts.codes]
    code = parts
    for parsed in (reps, made, miss):
        code = pd.factorize(code * len(parsed.values) + parsed.codes)[0]
    code = np.where(sheet.aside, -1, code)  # what does not add up there may follow from its other fault
    _, first, of = np.unique(code, return_index=True, return_inverse=True)
    found: list[list[Part]] = []
    wrong: dict[int, Wrong] = {}
    for number, row in enumerate(first.tolist()):
        got: list[Part] = []
        if not sheet.aside[row]:
            said = [parsed.values[parsed.codes[row]] for parsed in (reps, made, miss)]
            fault = _wrong(int(parts[row]), *said)
            if fault is not None:
                wrong[number] = fault
            else:
                got = outcome(*said)
        found.append(got)
    for name in ("reps", "made", "miss") if wrong else ():
        mine = {number: fault for number, (column, fault) in wrong.items() if column == name}
        rows = np.flatnonzero(np.isin(of, list(mine)))
        sheet.blame_rows(sheet.column(name), rows, [mine[number] for number in of[rows].tolist()])
    sizes = np.array([len(one) for one in found], dtype=np.int64)
    flat = [part for one in found for part in one] or [(0, 0, 0, "")]
    tried, good, declined = (np.array([part[i] for part in flat], dtype=np.int64) for i in range(3))
    return Outcomes(
        parts=sizes[of],
        starts=(np.cumsum(sizes) - sizes)[of],
        reps=tried,
        made=good,
        declined=declined,
        miss=[part[3] for part in flat],
    )
