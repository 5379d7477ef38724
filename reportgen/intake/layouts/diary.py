"""Diary: text with a line for the date, then lines of a lift and its sets; the others are remarks."""

import re
from dataclasses import dataclass, field, replace

import numpy as np

from reportgen.intake import days
from reportgen.intake.layouts.cells import Cell, sheet_of
from reportgen.intake.layouts.log import Log
from reportgen.intake.messages import Said, Want
from reportgen.intake.sheet import Column, Sheet
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, plain
from reportgen.trade import fold

_MARKUP = re.compile(r"^[\s#>*•·–—_]+|^\s*-\s+|[\s*_]+$")
_SETS = re.compile(
    r"\d\s*(?:kg|lbs?)?\s*[x×*@/]\s*\(?\d|\d\s*(?:kg|lb)\b|\d\s*,\s*\d|\d\s+(?:x|f|miss|fail)\b|[✗✘❌]|sets?\b",
    re.IGNORECASE,
)
_SHORT_DATE = re.compile(r"\d{1,2}[./]\d{1,2}\.?")
_LATER = re.compile(r"(?=\d|\(\d|\bbar\b|-\d)")


@dataclass(slots=True)
class _Page:
    """Where the reading of a diary stands."""

    day: str = ""
    lift: str = ""
    week: int | None = None
    cells: list[Cell] = field(default_factory=list)
    notes: dict[str, list[str]] = field(default_factory=dict)
    homeless: list[tuple[int, str]] = field(default_factory=list)
    days: int = 0


def lines_of(log: Log) -> list[tuple[str, int]]:
    """The lines of a text, or of a table that is one."""
    return [
        (_MARKUP.sub("", " ".join(cell.strip() for cell in row if cell.strip())).strip(), int(line))
        for row, line in zip(log.grid.cells, log.grid.lines.tolist(), strict=True)
    ]


def is_diary(log: Log) -> bool:
    """Whether a grid has lines of dates and lines of sets under them."""
    page = _read(log)
    return page.days > 0 and len(page.cells) > 0


def diary(log: Log) -> Sheet:
    """Read a grid as a diary."""
    page = _read(log)
    cells = [
        replace(one, of_day="; ".join(page.notes.get(one.day, ()))) if page.notes.get(one.day) else one
        for one in page.cells
    ]
    made = sheet_of(log.grid.file, cells, decimal_comma=log.grid.decimal_comma)
    made.layout = f"diary; {page.days} days, {len(cells)} lines with sets"
    if page.homeless:
        made.extra = len(page.homeless)
        for line, text in page.homeless:
            place = Column(name="", number=1, heading="", codes=np.zeros(0, dtype=np.int64), words=("",))
            made.say(Said.NO_DAY, line=line, column=place, found=text, want=Want.DATE_LINE)
    if page.week == -1:
        made.say(Said.NO_FIRST_WEEK, line=1, want=Want.FIRST_WEEK, stop=True)
    return made


def _read(log: Log) -> _Page:
    page = _Page()
    for text, line in lines_of(log):
        if not text:
            continue
        if _date_line(text, page, log):
            continue
        if not _sets_line(text, line, page, log):
            _remark(text, page)
    return page


def _date_line(text: str, page: _Page, log: Log) -> bool:
    """Take a line with a date, a week or a weekday."""
    word = text.strip(" :.-")
    for cut in (word, re.split(r"\s+[-–—|]\s+|:\s|\s\(", word)[0].strip(" :")):
        if (len(cut) > 3 or _SHORT_DATE.fullmatch(cut)) and days.read(cut, log.hints) is not None:
            page.day, page.lift, page.days = cut, "", page.days + 1
            rest = word.removeprefix(cut).strip(" :-–—|()")
            if rest:
                _remark(rest, page)
            return True
    number, on = days.named_week(word, log.tongue), days.weekday(word, log.tongue, log.how.days)
    parts = re.split(r"[\s,]+", word)
    if number is None and on is None and len(parts) in (3, 4):
        number = days.named_week(" ".join(parts[:2]), log.tongue)
        on = days.weekday(" ".join(parts[2:]), log.tongue, log.how.days)
        number = number if on is not None else None
    if number is None and (on is None or page.week is None):
        return False
    first = log.manner.first_week
    if number is not None:
        page.week = number if first is not None else -1
        page.day, page.lift = "", ""
    if on is not None and page.week is not None:
        got = days.of_week(first, page.week, on) if first is not None else None
        page.day, page.lift, page.days = got.isoformat() if got else word, "", page.days + 1
    return True


def _sets_line(text: str, line: int, page: _Page, log: Log) -> bool:
    """Take a line of a lift, of its sets or of both."""
    lift, rest = _split(text, log)
    if lift and not rest:
        page.lift = lift
        return True
    if not lift and page.lift and re.match(r"[\d(@-]|bar\b|x\s*\d", plain(text)):
        if isinstance(entry(text, replace(log.use, looking=True)), Unclear) and not _SETS.search(plain(text)):
            return False
        lift, rest = page.lift, text
    if not lift:
        lift, rest = _stranger(text, log)
        if not lift:
            return False
    else:
        page.lift = lift
    if not page.day:
        page.homeless.append((line, text))
        return True
    page.cells.append(Cell(line=line, day=page.day, lift=lift, text=rest, heading=""))
    return True


def _split(text: str, log: Log) -> tuple[str, str]:
    """The lift that a line begins with, and what stands behind it."""
    if log.lifts.find(text):
        return text.strip(" :.-–="), ""
    for match in list(_LATER.finditer(text))[:3]:
        head, rest = text[: match.start()], text[match.start() :]
        while head.rstrip().endswith(("(", "-", "@")):  # these belong to the sets
            mark = head.rstrip()[-1]
            head, rest = head.rstrip()[:-1], mark + rest if mark != "-" or head.endswith("-") else rest
        if head.strip() and log.lifts.find(head):
            return head.strip(" :.,-–="), rest
    words = re.split(r"\s+", text)
    if not any(map(str.isdigit, text)):
        return "", ""
    for count in range(min(6, len(words) - 1), 0, -1):
        if log.lifts.find(" ".join(words[:count])):
            return " ".join(words[:count]).strip(" :.,-–="), " ".join(words[count:])
    return "", ""


def _stranger(text: str, log: Log) -> tuple[str, str]:
    """A line that looks like sets of a lift that nobody knows."""
    match = re.match(r"([^\d(@]{2,40}?)[\s:,–-]*(?=[\d(])", text)
    if match is None or len(match[1].split()) > 5 or fold(match[1]) in log.tongue.headings:
        return "", ""
    rest = text[match.end() :]
    if not _SETS.search(plain(rest)) or isinstance(entry(rest, replace(log.use, looking=True)), Unclear):
        return "", ""
    return match[1].strip(), rest


def _remark(text: str, page: _Page) -> None:
    """Keep a line with the lift above it, or with the day."""
    if not page.day:
        return
    if page.cells and page.cells[-1].day == page.day:
        last = page.cells[-1]
        page.cells[-1] = replace(last, near="; ".join(filter(None, (last.near, text))))
    else:
        page.notes.setdefault(page.day, []).append(text)
