"""By lift: a row a day, a column a lift, cells in shorthand."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from reportgen.intake import marks
from reportgen.intake.columns import strange
from reportgen.intake.layouts.cells import Cell, at, sheet_of
from reportgen.intake.layouts.heads import names_of
from reportgen.intake.layouts.log import Log, passed_over
from reportgen.intake.layouts.unfold import nothing_done
from reportgen.intake.messages import expect
from reportgen.intake.sheet import Column, Sheet
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade import fold


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heads:
    """What the columns are: lifts (those that nobody knows too), the day, and the rest."""

    lifts: dict[int, str]
    roles: dict[int, str]
    date: int | None
    week: int | None
    weekday: int | None
    unknown: dict[int, str]


def _heads(log: Log, top: int) -> _Heads:
    headings = [cell.strip() for cell in log.grid.cells[top]]
    own = log.manner.columns.get(log.kind.name, {})
    names = names_of(headings, log.kind, own, log.tongue)
    lifts = {i: heading for i, heading in enumerate(headings) if heading and log.lifts.find(heading)}
    roles = {i: names.get(fold(heading), "") for i, heading in enumerate(headings) if i not in lifts}
    place = {role: i for i, role in reversed(roles.items())}
    date = place.get("date", 0 if "week" not in place and 0 not in lifts else None)
    unknown = {i: headings[i] for i, role in roles.items() if not role and headings[i] and i != date}
    below = log.grid.cells[top + 1 :]
    short = {i: word for i, word in unknown.items() if _short([at(row, i) for row in below], log)}
    return _Heads(
        lifts=lifts | short,
        roles=roles,
        date=date,
        week=place.get("week"),
        weekday=place.get("weekday"),
        unknown={i: one for i, one in unknown.items() if i not in short and any(at(r, i) for r in below)},
    )


def bylift(log: Log, top: int) -> Sheet:
    """Read a grid by lift; `top` is the place of the row that has the headings."""
    grid, heads = log.grid, _heads(log, top)
    rows = list(zip(grid.cells[top + 1 :], grid.lines[top + 1 :].tolist(), strict=True))
    once = _stands_once([at(row, heads.date) for row, _ in rows if any(at(row, i) for i in heads.lifts)])
    cells: list[Cell] = []
    passed, last = 0, ""
    for row, line in rows:
        word = at(row, heads.date) or " ".join(filter(None, (at(row, heads.week), at(row, heads.weekday))))
        if log.total(word):
            passed += 1
            continue
        last = word or (last if once or _merged(log, line, heads.date) else "")
        cells += _cells(row, line, last, heads, log)
    made = sheet_of(grid, cells)
    made.layout = say("intake.read.by_lift", days=len({one.day for one in cells}), lifts=len(heads.lifts))
    if heads.date is None:
        _weeks(made, rows, heads.week, heads.weekday)
    passed_over(made, passed)
    for i, heading in heads.unknown.items():
        place = Column(number=i + 1, heading=heading)
        strange(made, place, log.kind, int(grid.lines[top]), expect("lift"))
    return made


def _cells(row: Sequence[str], line: int, day: str, heads: _Heads, log: Log) -> list[Cell]:
    """The entries of one row."""
    notes = _notes(row, heads.roles, log)
    session = next((at(row, i) for i, role in heads.roles.items() if role == "session"), "")
    return [
        Cell(
            line=line,
            day=day,
            lift=heading,
            text=at(row, i),
            column=i + 1,
            heading=heading,
            day_column=(heads.date or 0) + 1,
            session=session,
            of_day=notes,
        )
        for i, heading in heads.lifts.items()
        if not nothing_done(at(row, i))
    ]


def _merged(log: Log, line: int, column: int | None) -> bool:
    if not log.grid.merged:
        return False
    row = int(np.searchsorted(log.grid.lines, line))
    return (row, column or 0) in log.grid.merged


def _stands_once(words: Sequence[str]) -> bool:
    """Whether a date holds for the rows under it: many cells are empty, and none says the day above again."""
    blank = sum(not word for word in words)
    again = any(a and a == b for a, b in pairwise(words))
    return bool(words) and not again and blank >= 0.25 * len(words)


def _short(words: Sequence[str], log: Log) -> bool:
    """Whether a column that nobody knows holds sets: a lift of another name."""
    some = [word for word in words if word.strip()]
    good = sum(not isinstance(entry(word, log.use), Unclear) for word in some)
    joined = sum(any(mark in word for mark in "x×*@/") for word in some)
    return bool(some) and good >= 0.6 * len(some) and joined >= 0.3 * len(some)


def _notes(row: Sequence[str], roles: dict[int, str], log: Log) -> str:
    """What the row says of the day beside the sets; a column of results that says missed as a word for it."""
    found: list[str] = []
    for i, role in roles.items():
        word = at(row, i)
        if not word or role in ("date", "week", "weekday", "session"):
            continue
        if role in ("result", "made", "missed"):
            bad = (
                marks.flag(word, log.tongue) is False
                if role != "missed"
                else fold(word) not in ("0", "no", "-")
            )
            found += ["missed"] if bad else []
        elif role in ("remark", "miss", "variant"):
            found.append(word)
        elif (role != "unused" and i) or (marks.says(word) is not marks.Says.NOTHING and len(word) > 2):
            found += [word] if marks.says(word) is not marks.Says.NOTHING else []
    return "; ".join(found)


def _weeks(made: Sheet, rows: Sequence[tuple[list[str], int]], week: int | None, weekday: int | None) -> None:
    """Columns week and weekday, for the days that count from the first week."""
    of = {line: row for row, line in rows}
    for name, i in (("week", week), ("weekday", weekday)):
        words = [at(of[line], i) for line in made.lines.tolist()]
        made.columns[name] = Column.of(words, name=name, number=(i or 0) + 1, heading=name)
    del made.columns["date"]
