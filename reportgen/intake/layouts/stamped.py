"""Lines with a day, a time and a name before them, as messages are saved: a diary of who wrote them."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Final

import numpy as np

from reportgen.intake.grid import Grid
from reportgen.intake.messages import clipped, expect
from reportgen.intake.sheet import Sheet, blank
from reportgen.model.say import say

#: `[12.10.26, 18:22:01] Name: text` and `12/10/2026, 18:22 - Name: text`.
_STAMP: Final = re.compile(
    r"[\u200e\u200f\ufeff\s]*\[?(?P<day>\d{1,4}(?P<sign>[./-])\d{1,2}(?P=sign)\d{1,4})\.?,?\s+"
    r"\d{1,2}[:.]\d{2}(?:[:.]\d{2})?(?:\s*[ap]\.?\s?m\.?)?(?:\]\s*|\s+[-–]\s+)(?P<rest>.*)",
    re.IGNORECASE,
)
_NAME: Final = re.compile(r"[\u200e\u200f~\s]*(?P<name>[^:]{1,40}?):(?:\s+(?P<text>.*)|$)")
#: So many lines with a stamp are no chance, and so many names are told.
_FEW: Final = 2
_MOST_TOLD: Final = 6


def unstamped(grid: Grid, is_lift: Callable[[str], bool]) -> tuple[Grid, tuple[str, ...]]:
    """A text of stamped lines as a diary, and who wrote them; any other grid as it is, and nobody.

    A line of a day stands before the first text of each day, and text behind a name is a line of its own, as
    are the lines under it. With several names nothing is changed.
    """
    first = next((row[0] for row in grid.cells if any(cell.strip() for cell in row)), "")
    if grid.delimiter != "\n" or _STAMP.match(first) is None:
        return grid, ()
    names: dict[str, None] = {}
    cells: list[list[str]] = []
    lines: list[int] = []
    day, stamps = "", 0
    for row, line in zip(grid.cells, grid.lines.tolist(), strict=True):
        stamp = _STAMP.match(row[0]) if row else None
        text = row[0] if row else ""
        if stamp is not None:
            said = _NAME.fullmatch(stamp["rest"])
            if said is None:
                continue  # what nobody wrote: somebody joined, a picture was left out
            stamps += 1
            if is_lift(said["name"]):
                text = stamp["rest"]  # `2026-10-05, 18:00 - Snatch: 60x2` of a diary
            else:
                names[said["name"].strip()] = None
                text = said["text"] or ""
            if stamp["day"] != day:
                day = stamp["day"]
                cells.append([day])
                lines.append(line)
        cells.append([text])
        lines.append(line)
    if stamps < _FEW:
        return grid, ()
    if len(names) > 1:
        return grid, tuple(names)
    return replace(grid, cells=cells, lines=np.array(lines, dtype=np.int64)), tuple(names)


def of_several(grid: Grid, names: tuple[str, ...]) -> Sheet:
    """The sheet of a text that several people wrote: whose sets are whose nobody knows."""
    made = blank(grid.file)
    made.extra = sum(any(map(str.strip, row)) for row in grid.cells)
    told = tuple(f"'{clipped(name)}'" for name in names[:_MOST_TOLD])
    said = say("intake.senders", names=told)
    made.report(said, line=int(grid.lines[0]), want=expect("one_sender"), stop=True)
    return made
