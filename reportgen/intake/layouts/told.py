"""What each row of a log says of its misses, and what is written into `made`."""

from collections.abc import Iterable

import numpy as np

from reportgen.intake import marks
from reportgen.intake.kinds import ATTEMPTS, TRAINING, Kind
from reportgen.intake.messages import Fault, expect
from reportgen.intake.sheet import Column, Sheet
from reportgen.model.say import Say, say
from reportgen.trade import fold, load
from reportgen.trade.tongue import ENGLISH, Tongue, speaking

_HOW_MANY = expect("how_many_made")
_WHICH_SETS = expect("missed_sets")


class Rows:
    """What each row says of itself, and what is written into `made`."""

    def __init__(self, made: Sheet, kind: Kind) -> None:
        self.sheet, self.kind, self.word = made, kind, made.word
        self.filled: frozenset[int] = frozenset()
        self.entries = made.entries if made.entries is not None else np.arange(len(made))
        self.size = dict(
            zip(*(part.tolist() for part in np.unique(self.entries, return_counts=True)), strict=True)
        )

    def lifts(self, row: int) -> set[str]:
        """The catalogue's names of the lifts of a row."""
        known = load().words["lift"]
        return {known.get(fold(piece), piece) for piece in self.word("lift", row).split("+")}

    def told(self, row: int) -> bool:
        """Whether the row has a miss already."""
        made = self.word("made", row)
        if self.kind is ATTEMPTS:
            return bool(made) and marks.flag(made, speaking(ENGLISH)) is False
        return bool(made) and fold(made) != fold(self.word("reps", row)) and numeric(made)

    def stated(self) -> frozenset[int]:
        """Rows whose own `made` says how many, which no remark outvotes; not what a layout filled in."""
        column = self.sheet.columns.get("made")
        if column is None or self.kind is ATTEMPTS or self.sheet.entries is not None:
            return frozenset()
        return frozenset(row for row in np.flatnonzero(column.filled).tolist() if numeric(column.word(row)))

    def tell(self, row: int, column: Column, lost: int | None) -> None:
        """A row that something says was missed: `lost` repetitions, or it can't be told how many."""
        if self.told(row) or self.sheet.aside[row] or self._entry_told(row):
            return
        made, tried = self.word("made", row), self.reps(row)
        alone = self.kind is TRAINING and self.size[int(self.entries[row])] == 1
        if self.kind is ATTEMPTS and not made:
            self.sheet.put("made", {row: "no"})
        elif alone and not made and tried is not None and lost is not None and lost <= tried:
            self.sheet.put("made", {row: str(tried - lost)})
        else:
            self.aside(row, column)

    def single(self, rows: Iterable[int], column: Column) -> None:
        """Rows that were missed: a single is told, of more it is not known how many were made."""
        for row in rows:
            self.tell(row, column, 1 if self.reps(row) == 1 else None)

    def _entry_told(self, row: int) -> bool:
        """Whether another set of the same entry has the miss."""
        entry = int(self.entries[row])
        return self.size[entry] > 1 and any(map(self.told, np.flatnonzero(self.entries == entry).tolist()))

    def reps(self, row: int) -> int | None:
        """Repetitions of a row of one set of one lift, or None."""
        reps, sets = self.word("reps", row), self.word("sets", row)
        if sets not in ("", "1") or not reps.isdecimal() or "+" in self.word("lift", row):
            return None
        return int(reps)

    def counts(self, row: int) -> set[int]:
        """What `of 3` may count in a row: its sets, the repetitions of one, or of all."""
        reps, sets = (self.word(name, row) or "1" for name in ("reps", "sets"))
        if not (reps.isdecimal() and sets.isdecimal()):
            return set()
        return {int(reps), int(sets), int(reps) * int(sets)}

    def lost_all(self, row: int, lost: int) -> bool:
        """Whether so many misses are all repetitions of all sets of a row that says nothing else."""
        reps, sets = self.word("reps", row), self.word("sets", row)
        plain = reps.isdecimal() and sets.isdecimal() and not self.word("made", row) and not self.told(row)
        alone = self.size[int(self.entries[row])] == 1 and "+" not in self.word("lift", row)
        return plain and alone and int(sets) > 1 and lost == int(reps) * int(sets)

    def aside(self, row: int, column: Column, want: Say | None = None) -> None:
        """Set a row aside since it may hold a miss; without `want` it says how to write it."""
        several = self.kind is TRAINING and self.word("sets", row) not in ("", "1")
        want = want or (_WHICH_SETS if several else _HOW_MANY)
        if not self.sheet.aside[self.entries == self.entries[row]].any():
            self.sheet.unclear_misses += 1
        self.sheet.blame_rows(column, np.array([row]), Fault(want, said=say("intake.missed")))


def flags(column: Column, tongue: Tongue) -> dict[int, bool | None]:
    """What each word of a column says: made, missed, or neither."""
    return {code: marks.flag(word, tongue) for code, word in enumerate(column.words) if word}


def numeric(word: str) -> bool:
    """Whether a cell is whole numbers, joined by + for a complex."""
    return all(piece.strip().isdecimal() for piece in word.split("+"))
