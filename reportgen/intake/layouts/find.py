"""Which layout a grid has, by what is there, and where its headings stand."""

from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from itertools import islice, pairwise, zip_longest
from typing import Final

from reportgen.intake import days
from reportgen.intake.bounds import MOST_ABOVE, MOST_COLUMNS
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.diary import is_diary
from reportgen.intake.layouts.heads import SETS, names_of
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.pairs import under_sets
from reportgen.intake.layouts.rows import relaxed
from reportgen.intake.layouts.unfold import short_words
from reportgen.intake.layouts.weeks import columns_of
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, fold_kept, plain, small
from reportgen.model.values import dataclass
from reportgen.trade import fold

ROWS, BY_LIFT, WEEKS, DIARY, TWO_ROWS = "rows", "by lift", "weeks", "diary", "two rows"


#: So many known words make a row one of headings where none has all that is needed.
_KNOWN: Final = 2
#: So many of the words under a heading say what it means.
_MOSTLY: Final = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A layout, the place of its row of headings, and what each heading means (of rows)."""

    layout: str
    at: int = 0
    names: dict[str, str] = field(default_factory=dict)


def find(log: Log) -> Found:  # noqa: PLR0911 - the first layout that fits
    """See what a grid looks like; rows where nothing else fits, so that what lacks is said."""
    grid, asked = log.grid, log.how.layout.replace("form", "rows")
    if log.kind not in SETS:
        return _headings(log)
    if grid.delimiter == "\n" or asked == DIARY:
        return Found(layout=DIARY)
    first = _first(log)
    if (
        (first is None or _goes_on(log, first))
        and asked in ("", ROWS)
        and (joined := _two_rows(log)) is not None
    ):
        first = _first(log)
        if first != joined:
            return Found(layout=TWO_ROWS, at=joined)
    if (first is not None and not asked) or asked == ROWS:
        return _headings(log)
    for at, row in first_rows(log):
        if asked in ("", BY_LIFT) and _by_lift(row, at, log):
            return Found(layout=BY_LIFT, at=at)
        if (
            asked in ("", WEEKS)
            and len(columns_of(row, log)) >= (1 if asked else 2)
            and _lifts_below(log, at, row)
        ):
            return Found(layout=WEEKS, at=at)
    there = _headings(log)
    guessed = _work_column(log, there)
    if guessed is None and len(set(there.names.values())) < 2 and is_diary(log):
        return Found(layout=DIARY)
    return there if guessed is None else replace(there, names=guessed)


def first_rows(log: Log) -> Iterator[tuple[int, list[str]]]:
    """The first rows that hold something: titles and headings are among them."""
    rows = ((at, row) for at, row in enumerate(log.grid.cells) if any(cell.strip() for cell in row))
    return islice(rows, MOST_ABOVE + 1)


def headings_of(row: Sequence[str], log: Log) -> dict[str, str]:
    """What is known of the headings of a row, as `names_of`."""
    own = log.manner.columns.get(log.kind.name, {})
    return names_of((cell.strip() for cell in row[:MOST_COLUMNS]), log.kind, own, log.tongue)


def _whole(names: dict[str, str], log: Log) -> bool:
    """Whether headings give all that rows need."""
    there = set(names.values())
    kind = relaxed(log.kind, there)
    fits = all(any(name in there for name in group) for group in kind.needed)
    # A load alone may be shorthand: `70x2` in the column of weights.
    loads = bool(there & set(LOADS)) and "lift" in there and bool(there & {"date", "week"})
    return fits or (log.kind in SETS and "reps" in kind.columns and loads)


def _first(log: Log) -> int | None:
    return next((at for at, row in first_rows(log) if _whole(_told(row, at, log), log)), None)


def _goes_on(log: Log, at: int) -> bool:
    """Whether the row below some headings is of headings, too."""
    under = [
        cell for cell in (log.grid.cells[at + 1] if at + 1 < len(log.grid.cells) else ()) if cell.strip()
    ]
    names = headings_of(under, log)
    return bool({*names.values()} & {*LOADS}) and all(fold(cell) in names for cell in under)


def _two_rows(log: Log) -> int | None:
    """The second of two rows that are headings together, joined in its place; None where there are none such.

    `Date | Lift | Work sets` stand over `kg | sets | reps`; two groups with a load each stay as they are.
    """
    above = list(first_rows(log))
    for (at, row), (below, under) in pairwise(above):
        if below != at + 1 or not headings_of(under, log) or not headings_of(row, log):
            continue
        joined = under_sets(row, under, log.tongue)
        if joined and _whole(_told(joined, below, log), log):
            log.grid.cells[at], log.grid.cells[below] = [], joined
            return below
        joined = [cell.strip() or over.strip() for over, cell in zip_longest(row, under, fillvalue="")]
        some = [name for cell in joined if (name := headings_of([cell], log).get(fold(cell)))]
        if not _whole(_told(joined, below, log), log):
            continue
        if sum(one in LOADS for one in some) == 1:
            log.grid.cells[below] = joined
        return below
    return None


def _told(row: Sequence[str], at: int, log: Log) -> dict[str, str]:
    """What the headings of a row mean; of days and lifts also by what stands under a heading nobody knows."""
    names = headings_of(row, log)
    there = set(names.values())
    if log.kind not in SETS or not there & {*LOADS, "reps", "entry"}:
        return names
    for name, fits in (("date", _is_day), ("lift", lambda word, log: log.lifts.find(word) is not None)):
        if name in there or (name == "date" and "week" in there):
            continue
        for i, heading in enumerate(row[:MOST_COLUMNS]):
            form = fold(heading)
            if not form or (form in names and (name, names[form]) != ("date", "weekday")):
                continue
            words = {line[i].strip() for line in log.grid.cells[at + 1 : at + 200] if i < len(line)} - {""}
            if {word.rstrip(".") for word in words} == {str(n + 1) for n in range(len(words))}:
                continue  # Day 1, 2, 3 may count sessions
            if len(words) > (form not in names) and sum(fits(word, log) for word in words) >= _MOSTLY * len(
                words
            ):
                names[form] = name
                break
    return names


def _is_day(word: str, log: Log) -> bool:
    number = log.hints.month is not None and word.rstrip(".").isdecimal()  # in a sheet named for its month
    return (len(word) > 5 or number) and days.read(word, log.hints) is not None


def _headings(log: Log) -> Found:
    """The row of headings: the first that gives all that is needed, else the one that knows most of them."""
    at = _first(log)
    if at is None:  # a title stands over many a table, and what lacks is a heading under it
        known = {at: len({*headings_of(row, log).values()} - {"unused"}) for at, row in first_rows(log)}
        best = max(known, key=lambda row: (known[row], -row), default=0)
        at = best if log.kind in SETS and known and known[best] >= _KNOWN else 0
    return Found(layout=ROWS, at=at, names=_told(log.grid.cells[at], at, log) if log.grid.cells else {})


def _by_lift(row: Sequence[str], at: int, log: Log) -> bool:
    """Whether a row heads columns with lifts, and days stand under it."""
    lifts = [cell for cell in row if cell.strip() and log.lifts.find(cell.strip())]
    names = set(headings_of(row, log).values())
    if not lifts or (len(lifts) < 2 and not names & {"date", "week"}) or "lift" in names:
        return False
    if names & {"date", "week"}:
        return len(lifts) > 1 or len([cell for cell in row if cell.strip()]) < 4
    below = [line[0].strip() for line in log.grid.cells[at + 1 :] if line and line[0].strip()][:20]
    return sum(days.read(word, log.hints) is not None for word in below) > len(below) / 2


def _lifts_below(log: Log, at: int, row: Sequence[str]) -> bool:
    """Whether lifts stand under a row of weeks, before its first week."""
    first = min(columns_of(row, log))
    heads = [cell.strip() for line in log.grid.cells[at + 1 :] for cell in line[:first] if cell.strip()]
    return any(log.lifts.find(word) is not None for word in heads[:60])


def _tops(words: Sequence[str], log: Log) -> bool:
    """Whether some words say how far the lifter worked up: `up to 90`."""
    then = small(log.tongue.name, "then")
    return all(then.match(fold_kept(plain(word)).strip()) is not None for word in words)


def _work_column(log: Log, found: Found) -> dict[str, str] | None:
    """The headings with a column of shorthand under a heading that nobody knows, where that is all.

    One of results may hold them as well, and one of sets where nothing else gives loads or repetitions.
    """
    at, names = found.at, found.names
    there = set(names.values())
    if "lift" not in there or not there & {"date", "week"} or not log.grid.cells:
        return None
    may_be = {"result"} if there & {*LOADS, "reps", "scheme", "entry"} else {"result", "sets", "nth"}
    best, most = "", 0.6
    for i, heading in enumerate(log.grid.cells[at][:MOST_COLUMNS]):
        if not heading.strip() or names.get(fold(heading), "result") not in may_be:
            continue
        words = [row[i] for row in log.grid.cells[at + 1 : at + 200] if i < len(row) and row[i].strip()]
        good = sum(not isinstance(entry(word, log.use), Unclear) for word in words)
        if words and good / len(words) >= most and (short_words(words) or _tops(words, log)):
            best, most = fold(heading), good / len(words)
    return {**names, best: "entry"} if best else None
