"""What each test day brought: a new best is one of the goal's lifts; where it is not, its lift is named."""

import datetime as dt
from dataclasses import dataclass

from reportgen.analysis.goals import PAIR
from reportgen.model.peaks import TaperFact, TestDayFact
from reportgen.model.season import ContestFact, LiftResult
from reportgen.words import numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One test day with the lifts of it that count.

    Attributes:
        tests: The rows of the goal's lifts; of the other lifts where none of the goal's was tested.
        of_goal: They are of the goal's lifts.
        several: The goal is made of more than one lift.
    """

    tests: tuple[TestDayFact, ...]
    of_goal: bool
    several: bool

    @property
    def date(self) -> dt.date:
        """The day."""
        return self.tests[0].date

    @property
    def taper(self) -> TaperFact | None:
        """The taper before it; None where none could be looked for."""
        return self.tests[0].taper

    @property
    def tapered(self) -> bool:
        """A taper was found before it."""
        return self.taper is not None and self.taper.days is not None

    @property
    def raised(self) -> tuple[TestDayFact, ...]:
        """The rows that brought a new best."""
        return tuple(test for test in self.tests if (told_gain(test) or 0.0) > 0)

    @property
    def gained(self) -> tuple[TestDayFact, ...]:
        """The same, of the goal's lifts only."""
        return self.raised if self.of_goal else ()


def told_gain(test: TestDayFact) -> float | None:
    """What the day added [kg]; None where nothing was made, or where the best before is not known."""
    return None if test.gain_missing else test.gain_kg


def days(tests: tuple[TestDayFact, ...], lifts: tuple[str, ...]) -> tuple[Day, ...]:
    """Every test day once, by date.

    Args:
        tests: By date.
        lifts: The goal's lifts.
    """
    found: dict[dt.date, list[TestDayFact]] = {}
    for test in tests:
        found.setdefault(test.date, []).append(test)
    made = []
    for rows in found.values():
        mine = tuple(test for test in rows if test.lift in lifts)
        made.append(Day(tests=mine or tuple(rows), of_goal=bool(mine), several=len(lifts) > 1))
    return tuple(made)


def words(day: Day) -> str:
    """What the day brought, in words that need no unit and fit beside its date on a phone."""
    named = numbers.listing(test.lift for test in day.tests)
    if all(told_gain(test) is None for test in day.tests):
        many = f"{sum(t.made for t in day.tests)} of {sum(t.tried for t in day.tests)} made"
        return many if day.of_goal else f"{named}, {many}"
    if not day.raised:
        return "no new best" if day.of_goal else f"{named}, no new best"
    if day.of_goal and not day.several:
        return "a new best"
    if len(day.raised) > 1:
        return "a new best in both lifts" if len(day.raised) == 2 else "new bests"
    return f"a new best in the {day.raised[0].lift}"


def spoken(days: tuple[Day, ...], lifts: tuple[str, ...]) -> tuple[str, str]:
    """Of which lift a new best is meant, and how many days were without it; both "" where it goes unsaid.

    Args:
        days: By date.
        lifts: The goal's lifts.
    """
    named = numbers.listing((f"the {lift}" for lift in lifts), "or")
    without = [day for day in days if not day.of_goal]
    of = f" in {named}" if without or len(lifts) > 1 else ""
    if not without:
        return of, ""
    if len(without) == len(days):
        return of, f" of {numbers.listing(sorted({t.lift for day in days for t in day.tests}))}"
    others = numbers.listing(sorted({t.lift for day in without for t in day.tests}))
    return of, f", {len(without)} of them of {others} only"


def no_total(contest: ContestFact) -> str:
    """Why a contest, or a test day with both lifts, gave no total; "" where that is not known or not so."""
    results = [result for result in contest.lifts if result.lift in PAIR]
    if contest.total_kg is not None or (contest.kind != "contest" and len(results) < len(PAIR)):
        return ""
    without = [result for result in results if result.best_kg is None]
    if not without:
        return ""
    if len(without) == len(PAIR):
        return "no total: neither lift was made"
    return f"no total: the {without[0].lift} was {'not made' if without[0].attempts else 'not tried'}"


def no_sinclair(contest: ContestFact) -> str:
    """Why a contest has no Sinclair total, as short as a cell."""
    if contest.sinclair_missing == "coefficients":
        return f"coefficients of {contest.sinclair_cycle} not known"
    return {"total": "no total", "body mass": "not weighed near the day"}.get(contest.sinclair_missing, "")


def none_made(result: LiftResult) -> str:
    """A lift of a contest without a made attempt, in words."""
    return "none made" if result.attempts else "not tried"
