"""A tab a week or a session: a sheet that is called a week, or a day, and says no dates of its rows."""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from reportgen.intake import days
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.find import first_rows, headings_of
from reportgen.intake.layouts.heads import SETS
from reportgen.intake.layouts.log import Log
from reportgen.model.values import dataclass
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue

#: The name of a tab, or of a file in a folder of its own.
_TAB = re.compile(r"\[(.*)\]$|/([^/]*?)\.\w+$")
#: A longer one is no title.
_LONG = 80
_PARTED = re.compile(r"\s+[-–—]\s*|\s*[-–—]\s+|\s*[:(),|/]\s*")
#: So many tabs that are called days are a log by days.
_DAYS = 3
_SUNDAY: Final = 6
_WORDS: Final = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tab:
    """What a tab tells of the days of its rows."""

    log: Log
    at: int  # the row of headings
    name: str  # `week` where the rows name weekdays, else `date`
    word: str
    number: int | None  # of the week
    day: dt.date | None
    planned: bool
    reads: days.Reads | None = None  # what its date may mean


def days_of_tabs(logs: Sequence[Log]) -> frozenset[str]:
    """Give each row a column with what its tab tells of its day, where the headings name no date.

    A week where they name a weekday; of a tab a session the day. Nobody knows which is which of two tabs of
    one week or day, nor whether weeks begin to count again where they don't go on one way; tabs that lie
    weeks apart are no sessions; nor is done what its tab calls planned.

    Returns:
        Files, with their sheets, whose weeks can't be told apart.
    """
    tabs = _settled([tab for log in logs if log.kind in SETS for tab in _told(log)])
    done = [tab for tab in tabs if not tab.planned]
    if not done:  # it is the name of all
        done = tabs
    weeks = [tab for tab in done if tab.name == "week"]
    sessions = [tab for tab in done if tab.name == "date"]
    if len({tab.day.weekday() for tab in sessions if tab.day}) < 2 or len(sessions) < _DAYS:
        sessions = []
    mixed = frozenset(tab.log.grid.file for some in (weeks, sessions) if _again(some) for tab in some)
    for tab in (*weeks, *sessions):
        if tab.log.grid.file not in mixed:
            _write(tab)
    return mixed


def _settled(tabs: Sequence[_Tab]) -> list[_Tab]:
    """The tabs with their dates read in one order, which the weekdays of their rows don't choose.

    Who writes dots between figures puts the day first. Where nothing tells, the days are asked for.
    """
    some = [tab.reads for tab in tabs if tab.reads is not None and tab.reads.sure is None]
    dmy, mdy = any(one.mdy is None for one in some), any(one.dmy is None for one in some)
    first = tabs[0].log.tongue.day_first if tabs else False
    dotted = all("." in tab.word for tab in tabs if tab.reads is not None)
    if dmy == mdy:
        dmy, mdy = not mdy and (dotted or first), False
    found = []
    for tab in tabs:
        told = tab.reads
        day = None if told is None else told.sure or (told.dmy if dmy else told.mdy if mdy else None)
        found.append(tab if day is None else replace(tab, day=day, word=day.isoformat()))
    return found


def _again(tabs: Sequence[_Tab]) -> bool:
    """Whether a week or day stands twice, weeks that are counted go back, or one may begin on a Sunday."""
    numbers = [tab.number for tab in tabs if tab.number is not None and tab.day is None]
    ways = {one < other for one, other in pairwise(numbers)}
    # A week that is called after its Sunday may begin or end with it.
    sundays = any(tab.name == "week" and tab.day is not None and tab.day.weekday() == _SUNDAY for tab in tabs)
    return len(ways) > 1 or sundays or max(Counter(tab.word for tab in tabs).values(), default=0) > 1


def _write(tab: _Tab) -> None:
    log = tab.log
    heading = next(form for form, its in log.tongue.headings.items() if its == tab.name)
    width = max(map(len, log.grid.cells[tab.at :]))
    for i, line in enumerate(log.grid.cells[tab.at :]):
        if any(map(str.strip, line)):
            line += [""] * (width - len(line)) + [tab.word if i else heading]


def _told(log: Log) -> Iterator[_Tab]:
    named = _TAB.search(log.grid.file)
    titles = [named[1] or named[2]] if named else []
    for at, row in first_rows(log):
        there = {*headings_of(row, log).values()}
        if "lift" not in there or not there & {*LOADS, "load", "reps", "entry", "scheme"}:
            titles += [cell for cell in row if cell.strip()]
            continue
        if not there & {"date", "week"} and not ("weekday" not in there and _parted(log, at)):
            yield from _tab(log, at, titles if "weekday" in there else titles[: bool(named)], there)
        return


def years_of_tabs(files: Sequence[str], tongue: Tongue) -> dict[str, int]:
    """The year of tabs such as `Sep 26` and `Oct 26`: several months with one number, which is no day."""
    found = {file: told for file in files if (told := _month_and_number(file, tongue)) is not None}
    some = {*found.values()}
    if len(found) < 2 or len({number for _, number in some}) > 1 or len(some) < len(found):
        return {}
    return {file: days.full_year(number) for file, (_, number) in found.items()}


def _month_and_number(file: str, tongue: Tongue) -> tuple[int, int] | None:
    named = _TAB.search(file)
    parts = re.findall(r"\w+", (named[1] or named[2]) if named else "")
    months = [tongue.months[fold(part)] for part in parts if fold(part) in tongue.months]
    numbers = [part for part in parts if part.isdecimal()]
    if len(parts) != 2 or len(months) != 1 or len(numbers) != 1 or len(numbers[0]) != 2:
        return None
    return months[0], int(numbers[0])


def _is_month(title: str, log: Log) -> bool:
    """Whether a title is that of a month with its year in two figures."""
    told = _month_and_number(f"[{title}]", log.tongue)
    return told is not None and log.hints.year is not None and log.hints.year % 100 == told[1]


def _tab(log: Log, at: int, titles: Sequence[str], there: set[str]) -> Iterator[_Tab]:
    """The tab by the first title that tells, its own name first: by its number, or by a day in the week."""
    name = "week" if "weekday" in there else "date"
    small = log.tongue.small
    words = f" {' '.join(_WORDS.findall(fold(' '.join(titles[:2]))))} "
    planned = any(f" {phrase} " in words for phrase in small["planned"])
    for title in titles:
        parts = [title, *_PARTED.split(title)] if len(title) < _LONG and not _is_month(title, log) else []
        numbers = [n for part in parts if (n := days.named_week(part, log.tongue)) is not None]
        read = [(part, got) for part in parts if (got := days.read(part, log.hints)) is not None]
        counted = bool(numbers) and name == "week" and (log.manner.first_week is not None or not read)
        if counted or read:
            day = None if counted else read[0][1].sure or read[0][1].dmy
            word = str(numbers[0]) if counted else read[0][0]
            number = numbers[0] if counted else None
            reads = None if counted else read[0][1]
            yield _Tab(
                log=log, at=at, name=name, word=word, number=number, day=day, planned=planned, reads=reads
            )
            return


def _parted(log: Log, at: int) -> bool:
    """Whether rows of their own name days: the tab holds several."""
    for row in log.grid.cells[at + 1 :]:
        filled = [cell.strip() for cell in row if cell.strip()]
        if len(filled) == 1 and (
            days.weekday(filled[0], log.tongue, log.how.days) is not None
            or days.read(filled[0], log.hints) is not None
        ):
            return True
    return False
