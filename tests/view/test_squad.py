"""The squad's index counts every lifter's days to one day."""

import datetime as dt
from dataclasses import replace

from reportgen.trade import load
from reportgen.view import squad_line
from reportgen.view.page import SquadLine
from reportgen.view.squad import on_one_day
from tests.view import sample

LINE = squad_line(sample.full(), load())


def line(last: str, days: int | None) -> SquadLine:
    return replace(LINE, last_session=dt.date.fromisoformat(last) if last else None, days_since=days)


def test_days_are_counted_to_the_newest_review_day_of_the_squad() -> None:
    lines, day = on_one_day([line("2026-03-02", 0), line("2026-11-05", 2), line("", None)])
    assert day == dt.date(2026, 11, 7)
    assert [one.days_since for one in lines] == [250, 2, None]


def test_a_squad_reviewed_on_one_day_counts_as_before() -> None:
    before = [line("2026-03-02", 10), line("2026-03-12", 0)]
    assert on_one_day(before) == (tuple(before), dt.date(2026, 3, 12))


def test_a_squad_without_a_session_has_no_day() -> None:
    assert on_one_day([line("", None)]) == ((line("", None),), None)
