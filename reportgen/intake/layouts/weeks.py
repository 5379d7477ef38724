"""Weeks: a row a lift, a column a week (or a day), rows with a weekday's name between; cells in shorthand."""

from collections.abc import Sequence

from reportgen.intake import days
from reportgen.intake.days import Hints
from reportgen.intake.layouts.cells import Cell, sheet_of
from reportgen.intake.layouts.log import Log
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


def weeks(log: Log, at: int) -> Sheet:
    """Read a grid of weeks.

    Args:
        log: The grid.
        at: Place of the row that has the weeks.
    """
    grid, tongue = log.grid, log.tongue
    times = columns_of(grid.cells[at], log)
    numbered = {i: days.named_week(word, tongue) for i, word in times.items()}
    settled = days.settle([word for i, word in times.items() if numbered[i] is None], log.hints)
    first = log.manner.first_week
    if first is None and any(number is not None for number in numbered.values()):
        made = sheet_of(grid.file, (), decimal_comma=grid.decimal_comma)
        made.extra = sum(not nothing_done(_at(row, i)) for row in grid.cells[at + 1 :] for i in times)
        made.report(
            say("intake.no_first_week"),
            line=int(grid.lines[at]),
            want=expect("first_week"),
            stop=True,
        )
        return made
    before = range(min(times))
    on = _weekday_of(grid.cells[at][: min(times)], log)
    lift, passed, filled = "", 0, 0
    cells: list[Cell] = []
    for row, line in zip(grid.cells[at + 1 :], grid.lines[at + 1 :].tolist(), strict=True):
        heads = [_at(row, i) for i in before]
        told = [(i, day) for i, word in enumerate(heads) if (day := _weekday_of([word], log)) is not None]
        on = told[0][1] if told else on
        named = [(i, word) for i, word in enumerate(heads) if word and (not told or i != told[0][0])]
        if any(fold(word).rstrip(" :.") in tongue.small["total"] for _, word in named):
            passed += 1
            continue
        lift_at, lift = _lift(named, log) if named else (0, "" if told else lift)
        for i in times:
            text = _at(row, i)
            if nothing_done(text) or (told and not named):
                continue
            filled += 1
            cells.append(
                Cell(
                    line=line,
                    day=_day(times[i], numbered[i], on, settled, log),
                    lift=lift,
                    text=text,
                    column=i + 1,
                    heading=times[i],
                    day_column=i + 1,
                    lift_column=lift_at + 1,
                )
            )
    made = sheet_of(grid.file, cells, decimal_comma=grid.decimal_comma)
    lifts = len({one.lift for one in cells})
    made.layout = say("intake.read.weeks", columns=len(times), lifts=lifts)
    if first is not None and any(number is not None for number in numbered.values()):
        made.told.append(say("intake.read.first_week", day=first.isoformat()))
    if passed:
        made.told.append(say("intake.read.totals", n=passed))
    return made


def _at(row: Sequence[str], i: int) -> str:
    return row[i].strip() if i < len(row) else ""


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
    got = settled.days.get(word)
    if got is None or isinstance(got, Unclear):
        return word
    day = got if on is None else days.of_week(got, 1, on)
    return day.isoformat() if day else word
