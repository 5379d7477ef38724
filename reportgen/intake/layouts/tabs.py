"""A tab a week or a session: a sheet that is called a week, or a day, and says no dates of its rows."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice

from reportgen.intake import days
from reportgen.intake.bounds import MOST_ABOVE
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.heads import SETS, names_of
from reportgen.intake.layouts.log import Log

#: The name of a tab, or of a file in a folder of its own.
_TAB = re.compile(r"\[(.*)\]$|/([^/]*?)\.\w+$")
#: A longer one is no title.
_LONG = 80
_PARTED = re.compile(r"\s+[-–—]\s*|\s*[-–—]\s+|\s*[:(),|/]\s*")


#: So many tabs that are called days are a log by days.
_DAYS = 3


def days_of_tabs(logs: Sequence[Log]) -> None:
    """Give each row a column with what its tab tells of its day, where the headings name no date.

    A week where they name a weekday; of a tab a session the day. Of two tabs of one week or day, as of two
    blocks that both begin with week 1, nobody knows which is which.
    """
    found = [(log, *there) for log in logs if log.kind in SETS and (there := _told(log)) is not None]
    every = Counter(word for *_, word in found)
    sessions = sum(name == "date" for _, _, name, _ in found)
    for log, at, name, word in found:
        if every[word] > 1 or (name == "date" and sessions < _DAYS):
            continue
        heading = next(form for form, its in log.tongue.headings.items() if its == name)
        width = max(map(len, log.grid.cells[at:]))
        for i, line in enumerate(log.grid.cells[at:]):
            if any(map(str.strip, line)):
                line += [""] * (width - len(line)) + [word if i else heading]


def _told(log: Log) -> tuple[int, str, str] | None:
    """The row of headings, `week` or `date`, and its word."""
    own = log.manner.columns.get(log.kind.name, {})
    tab = _TAB.search(log.grid.file)
    titles = [tab[1] or tab[2]] if tab else []
    for at, row in islice(enumerate(log.grid.cells), MOST_ABOVE + 1):
        there = {*names_of((cell.strip() for cell in row), log.kind, own, log.tongue).values()}
        if "lift" not in there or not there & {*LOADS, "load", "reps", "entry", "scheme"}:
            titles += [cell for cell in row if cell.strip()]
        elif there & {"date", "week"}:
            break
        elif "weekday" in there:
            word = next(_weeks(titles, log), "")
            return (at, "week", word) if word else None
        else:
            word = next((one for one in titles[:1] if tab and days.read(one, log.hints) is not None), "")
            return (at, "date", word) if word else None
    return None


def _weeks(titles: Sequence[str], log: Log) -> Iterator[str]:
    """The week by its number, or by a day in it where nobody says when weeks begin to count."""
    parts = [part for title in titles if len(title) < _LONG for part in (title, *_PARTED.split(title))]
    numbers = [str(number) for part in parts if (number := days.named_week(part, log.tongue)) is not None]
    dates = [part for part in parts if days.read(part, log.hints) is not None]
    yield from (numbers + dates) if log.manner.first_week is not None else (dates + numbers)
