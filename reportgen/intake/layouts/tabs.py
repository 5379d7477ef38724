"""A tab a week: a sheet that is called a week, or has that as its title, and says the weekday of its rows."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice

from reportgen.intake import days
from reportgen.intake.bounds import MOST_ABOVE
from reportgen.intake.layouts.heads import SETS, names_of
from reportgen.intake.layouts.log import Log
from reportgen.trade import fold

#: The name of a tab, or of a file in a folder of its own.
_TAB = re.compile(r"\[(.*)\]$|/([^/]*?)\.\w+$")
#: A longer one is no title.
_LONG = 80
_PARTED = re.compile(r"\s+[-–—]\s*|\s*[-–—]\s+|\s*[:(),|/]\s*")


def weeks_of_tabs(logs: Sequence[Log]) -> None:
    """Give each row a column with the week of its tab, where the headings name a weekday and no date.

    Of two tabs of one week, as of two blocks that both begin with week 1, nobody knows which is which.
    """
    found = [(log, *there) for log in logs if log.kind in SETS and (there := _week(log)) is not None]
    every = Counter(fold(week) for _, _, week in found)
    for log, at, week in found:
        if every[fold(week)] > 1:
            continue
        heading = next(form for form, name in log.tongue.headings.items() if name == "week")
        width = max(map(len, log.grid.cells[at:]))
        for i, line in enumerate(log.grid.cells[at:]):
            if any(map(str.strip, line)):
                line += [""] * (width - len(line)) + [week if i else heading]


def _week(log: Log) -> tuple[int, str] | None:
    """The row of headings, and what the tab or a title above it calls the week."""
    own = log.manner.columns.get(log.kind.name, {})
    above: list[str] = []
    for at, row in islice(enumerate(log.grid.cells), MOST_ABOVE + 1):
        there = {*names_of((cell.strip() for cell in row), log.kind, own, log.tongue).values()}
        if {"weekday", "lift"} <= there:
            week = None if there & {"date", "week"} else next(_weeks(above, log), None)
            return None if week is None else (at, week)
        above += [cell for cell in row if cell.strip()]
    return None


def _weeks(above: list[str], log: Log) -> Iterator[str]:
    """The week by its number, or by a day in it where nobody says when weeks begin to count."""
    tab = _TAB.search(log.grid.file)
    titles = [*((tab[1] or tab[2],) if tab else ()), *above]
    parts = [part for title in titles if len(title) < _LONG for part in (title, *_PARTED.split(title))]
    numbers = [part for part in parts if days.named_week(part, log.tongue) is not None]
    dates = [part for part in parts if days.read(part, log.hints) is not None]
    yield from (numbers + dates) if log.manner.first_week is not None else (dates + numbers)
