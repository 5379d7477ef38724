"""Weeks: a row a lift, a column a week (or a day), rows with a weekday's name between; cells in shorthand."""

from collections.abc import Sequence

from reportgen.intake import days
from reportgen.intake.days import Hints
from reportgen.intake.layouts.cells import Cell, at, sheet_of
from reportgen.intake.layouts.log import Log, passed_over
from reportgen.intake.layouts.unfold import nothing_done
from reportgen.intake.messages import expect
from reportgen.intake.sheet import Sheet
from reportgen.intake.tokens import Unclear
from reportgen.model.say import say
from reportgen.trade import fold


def columns_of(row: Sequence[str], log: Log) -> dict[int, str]:
    """The columns of a row of headings that are weeks or days."""
    return {
        i: cell.strip() for i, cell in enumerate(row) if cell.strip() and _is_time(cell.strip(), log.hints)
    }


def _is_time(word: str, hints: Hints) -> bool:
    if days.named_week(word, hints.tongue) is not None:
        return True
    if fold("".join(filter(str.isalpha, word))) in hints.tongue.headings:  # `Set 1` is no 1 September
        return False
    return len(word) > 3 and days.read(word, hints) is not None


def weeks(log: Log, top: int) -> Sheet:
    """Read a grid of weeks; `top` is the place of the row that has them."""
    grid = log.grid
    times = columns_of(grid.cells[top], log)
    numbered = {i: days.named_week(word, log.tongue) for i, word in times.items()}
    counted = any(number is not None for number in numbered.values())
    settled, _ = days.settle([word for i, word in times.items() if numbered[i] is None], log.hints)
    rows = list(zip(grid.cells[top + 1 :], grid.lines[top + 1 :].tolist(), strict=True))
    if counted and log.manner.first_week is None:
        made = sheet_of(grid, ())
        made.extra = sum(not nothing_done(at(row, i)) for row, _ in rows for i in times)
        want = expect("first_week")
        made.report(say("intake.no_first_week"), line=int(grid.lines[top]), want=want, stop=True)
        return made
    before = range(min(times))
    on = _weekday_of(grid.cells[top][: min(times)], log)
    lift, passed = "", 0
    cells: list[Cell] = []
    for row, line in rows:
        heads = [at(row, i) for i in before]
        told = [(i, day) for i, word in enumerate(heads) if (day := _weekday_of([word], log)) is not None]
        on = told[0][1] if told else on
        named = [(i, word) for i, word in enumerate(heads) if word and (not told or i != told[0][0])]
        if any(log.total(word) for _, word in named):
            passed += 1
            continue
        lift_at, lift = _lift(named, log) if named else (0, "" if told else lift)
        cells += [
            Cell(
                line=line,
                day=_day(times[i], numbered[i], on, settled, log),
                lift=lift,
                text=at(row, i),
                column=i + 1,
                heading=times[i],
                day_column=i + 1,
                lift_column=lift_at + 1,
            )
            for i in times
            if not nothing_done(at(row, i)) and (named or not told)
        ]
    made = sheet_of(grid, cells)
    lifts = len({one.lift for one in cells})
    made.layout = say("intake.read.weeks", columns=len(times), lifts=lifts)
    if counted:
        log.first_week(made)
    passed_over(made, passed)
    return made


def _weekday_of(words: Sequence[str], log: Log) -> int | None:
    found = (days.weekday(word.strip(" :.-"), log.tongue, log.how.days) for word in words if word.strip())
    return next((day for day in found if day is not None), None)


def _lift(named: Sequence[tuple[int, str]], log: Log) -> tuple[int, str]:
    return next(((i, word) for i, word in named if log.lifts.find(word)), named[-1])


def _day(word: str, number: int | None, on: int | None, settled: days.Settled, log: Log) -> str:
    """The day of a cell in ISO 8601, or the words that name it where that is none."""
    if number is not None:
        first = log.manner.first_week
        day = days.of_week(first, number, on) if first is not None and on is not None else None
        return day.isoformat() if day else word
    got = settled.get(word)
    if got is None or isinstance(got, Unclear):
        return word
    day = got if on is None else days.of_week(got, 1, on)
    return day.isoformat() if day else word
