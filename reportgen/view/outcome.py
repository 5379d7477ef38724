"""What each test day brought: a new best is one of the goal's lifts; where it is not, its lift is named."""

import datetime as dt

from reportgen.analysis.goals import PAIR
from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.model.season import ContestFact
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade
from reportgen.words import Say, exists, say


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One test day with the lifts of it that count."""

    date: dt.date
    #: The rows of the goal's lifts; of the other lifts where none of the goal's was tested.
    tests: tuple[TestDayFact, ...]
    taper: TaperFact | None  # the taper before it; None where none could be looked for
    tapered: bool  # one was found
    of_goal: bool  # the rows are of the goal's lifts
    several: bool  # the goal is made of more than one lift
    raised: tuple[TestDayFact, ...]  # the rows that brought a new best
    gained: tuple[TestDayFact, ...]  # the same, of the goal's lifts only


def told_gain(test: TestDayFact) -> float | None:
    """What the day added [kg]; None where nothing was made, or where the best before is not known."""
    return None if test.gain_missing else test.gain_kg


def days(tests: tuple[TestDayFact, ...], lifts: tuple[str, ...]) -> tuple[Day, ...]:
    """Every test day once, by date, seen from the goal's lifts."""
    found: dict[dt.date, list[TestDayFact]] = {}
    for test in tests:
        found.setdefault(test.date, []).append(test)
    return tuple(_day(date, tuple(rows), lifts) for date, rows in found.items())


def _day(date: dt.date, rows: tuple[TestDayFact, ...], lifts: tuple[str, ...]) -> Day:
    mine, taper = tuple(test for test in rows if test.lift in lifts), rows[0].taper
    raised = tuple(test for test in mine or rows if (told_gain(test) or 0.0) > 0)
    return Day(
        date=date,
        tests=mine or rows,
        taper=taper,
        tapered=taper is not None and taper.days is not None,
        of_goal=bool(mine),
        several=len(lifts) > 1,
        raised=raised,
        gained=raised if mine else (),
    )


def events(tests: tuple[TestDayFact, ...], trade: Trade) -> list[tuple[TestDayFact, ...]]:
    """The rows of each event, by date: several lifts of one day and the days of one contest have one taper."""
    near = dt.timedelta(days=trade.value("event_days_apart"))
    found: list[list[TestDayFact]] = []
    for test in tests:
        last = found[-1][-1] if found else None
        if last is not None and (
            last.date == test.date
            or (last.event == test.event != "" and last.kind == test.kind and test.date - last.date <= near)
        ):
            found[-1].append(test)
        else:
            found.append([test])
    return [tuple(rows) for rows in found]


def told(day: Day) -> Say:
    """What the day brought, in words that need no unit and fit beside its date on a phone."""
    if all(told_gain(test) is None for test in day.tests):
        made, tried = sum(t.made for t in day.tests), sum(t.tried for t in day.tests)
        words = say("history.new_best.made", made=made, tried=tried)
    elif not day.raised:
        words = say("history.new_best.none")
    elif day.of_goal and not day.several:
        return say("history.new_best.one")
    elif len(day.raised) == 1:
        return say("history.new_best.lift", lift=day.raised[0].lift)
    else:
        return say(f"history.new_best.{'both' if len(day.raised) == 2 else 'several'}")
    if day.of_goal:
        return words
    return say("history.new_best.other", lifts=tuple(test.lift for test in day.tests), told=words)


def no_total(contest: ContestFact) -> Say | None:
    """Why a contest, or a test day with both lifts, gave no total; None where that is not known or not so."""
    results = [result for result in contest.lifts if result.lift in PAIR]
    if contest.total_kg is not None or (contest.kind != "contest" and len(results) < len(PAIR)):
        return None
    without = [result for result in results if result.best_kg is None]
    if len(without) == len(PAIR):
        return say("season.contests.no_total.neither")
    how = "not_made" if without and without[0].attempts else "not_tried"
    return say(f"season.contests.no_total.{how}", lift=without[0].lift) if without else None


def no_sinclair(contest: ContestFact) -> Say | None:
    """Why a contest has no Sinclair total, as short as a cell."""
    key = f"season.contests.no_sinclair.{contest.sinclair_missing}"
    return say(key, cycle=contest.sinclair_cycle) if exists(key) else None
