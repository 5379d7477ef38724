"""Diary: text with a line for the date, then lines of a lift and its sets; the others are remarks."""

import re
from dataclasses import dataclass, field, replace

from reportgen.intake import days, marks
from reportgen.intake.layouts.cells import Cell, sheet_of
from reportgen.intake.layouts.log import Log
from reportgen.intake.messages import expect
from reportgen.intake.sheet import Column, Sheet
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, plain
from reportgen.model.say import say
from reportgen.trade import fold, load

_MARKUP = re.compile(r"^[\s#>*•·–—_]+|^\s*-\s+|[\s*_]+$")
#: What stands before a day and is no part of it.
_DECOR = re.compile(r"^[^\w(]+")
_SETS = re.compile(
    r"\d\s*(?:kg|lbs?)?\s*[x×*@/]\s*\(?\d|\d\s*(?:kg|lb)\b|\d\s*,\s*\d|\d\s+(?:x|f|miss|fail)\b|[✗✘❌]|sets?\b",
    re.IGNORECASE,
)
_SHORT_DATE = re.compile(r"\d{1,2}[./]\d{1,2}\.?")
_FULL_DATE = re.compile(r"\d{1,4}[./-]\d{1,2}[./-]\d{1,4}")
_BARE = re.compile(r"[\d(@-]|bar\b|x\s*\d")
_TIMES = re.compile(r"\d\s*(?:kg|lbs?)?\s*[x@]\s*\(?\d")
#: A lift that nobody knows, before its sets: `3-pos snatch 50x3` begins with a number and is no set.
_STRANGER = re.compile(
    r"((?:\d[\s-]?(?:pos\w*|stop\w*|part|stage)\b)?[^\d(@]{2,40}?)[\s:,–-]*(?=[\d(])", re.IGNORECASE
)
_POSITIONS = re.compile(r"\d[\s-]?(?:pos\w*|stop\w*|part|stage)\s+[^\W\d_]{2}", re.IGNORECASE)
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
        (_bare(" ".join(cell.strip() for cell in row if cell.strip())), int(line))
        for row, line in zip(log.grid.cells, log.grid.lines.tolist(), strict=True)
    ]


def _bare(text: str) -> str:
    """A line without bullets, marks of a heading and pictures round it."""
    return _MARKUP.sub("", marks.undecorated(_MARKUP.sub("", text))).strip()


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
    made = sheet_of(log.grid, cells)
    made.layout = say("intake.read.diary", days=page.days, lines=len(cells))
    made.extra = len(page.homeless)
    for line, text in page.homeless:
        place = Column(number=1)
        made.report(say("intake.no_day"), line=line, column=place, found=text, want=expect("date_line"))
    if page.week == -1:
        made.report(say("intake.no_first_week"), line=1, want=expect("first_week"), stop=True)
    return made


def _read(log: Log) -> _Page:
    page = _Page()
    lines = [(text, line) for text, line in lines_of(log) if text]
    rows = dict(zip(log.grid.lines.tolist(), log.grid.cells, strict=True))
    raw = {line: " ".join(row).strip() for line, row in rows.items()}
    for at, (text, line) in enumerate(lines):
        if _date_line(text, page, log):
            continue
        alone = sum(map(bool, rows[line])) == 1  # a row of a table that begins with its date is no such line
        begun = _begun(text, page, log) if alone else None
        if begun is not None and not begun:
            continue
        rest = begun or text
        if _sets_line(rest, line, page, log):
            continue
        below = plain(lines[at + 1][0]) if at + 1 < len(lines) else ""
        if (
            _BARE.match(below)
            and _SETS.search(below)
            and _heads(rest, raw[line], page.lift and raw.get(line - 1))
        ):
            page.lift = rest.strip(" :.-–=")  # of no lift that is known, and so its sets are set aside
        else:
            _remark(rest, page)
    return page


def _begun(text: str, page: _Page, log: Log) -> str | None:
    """What stands behind the date that a line begins with; None where it begins with none."""
    words = text.split()
    parts = re.split(r"\s*[-–—|:,]\s+", text, maxsplit=1)
    if len(parts) == 2 and any(map(str.isdigit, parts[0])) and _counts(parts[0], log):
        return "" if _date_line(parts[1], page, log) else _begun(parts[1], page, log)
    for count in range(min(5, len(words) - 1), 0, -1):
        cut, rest = " ".join(words[:count]).strip(" :,-–"), " ".join(words[count:]).lstrip(" :-–")
        told = re.search(r"[^\W\d_]{2}|\d{4}", cut) is not None or _FULL_DATE.fullmatch(cut)
        like = _SHORT_DATE.fullmatch(cut) and _SHORT_DATE.fullmatch(page.day)
        if (told or like) and days.read(cut, log.hints) is not None:
            page.day, page.lift, page.days = cut, "", page.days + 1
            return rest
    return None


def _counts(word: str, log: Log) -> bool:
    """Whether a word only counts weeks or days: `Week 3`, `Day 2`, `W1D2`."""
    return days.named_week(word, log.tongue) is not None or bool(
        re.fullmatch(r"(?:day|session|workout|w)\s*\d+(?:\s*(?:day|d)\s*\d+)?", fold(word))
        or fold(word).rstrip("0123456789. #") in log.tongue.small["day"]
    )


def _heads(text: str, raw: str, above: str | None) -> bool:
    """Whether a line names what the sets under it are of, though no lift of that name is known."""
    words = re.findall(r"[^\W\d_]+", fold(text))
    if any(map(str.isdigit, text)) or not 0 < len(words) <= 5 or marks.says(text) is not marks.Says.NOTHING:
        return False
    lift = {name.split()[-1] for name in load().words["lift"] if len(name) > 3}
    marked = raw.startswith(("#", "**", "__", "<b")) or raw.rstrip("* _").endswith(":")
    return marked or not above or words[-1] in lift or words[-1].rstrip("s") in lift


def _date_line(text: str, page: _Page, log: Log) -> bool:
    """Take a line with a date, a week or a weekday."""
    word = _DECOR.sub("", text.strip(" :.-"))
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
    rest = marks.uncheered(rest)
    if lift and not rest:
        page.lift = lift
        return True
    if not lift and page.lift and _BARE.match(plain(text)) and not _POSITIONS.match(text):
        unclear = isinstance(entry(text, replace(log.use, looking=True)), Unclear)
        if unclear and not (_SETS.search(plain(text)) or marks.strange(text)):
            return False
        lift, rest = page.lift, text
    if not lift:
        lift, rest = _stranger(text, log)
        if not lift and _BARE.match(plain(text)) and _TIMES.search(plain(text)):
            lift, rest = "?", text  # sets of nothing: they are told, never passed over
            if isinstance(entry(text, replace(log.use, looking=True)), Unclear):
                return False
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
    match = _STRANGER.match(text)
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
