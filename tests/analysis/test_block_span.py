"""How long a block is and where its test day falls."""

import datetime as dt
from types import SimpleNamespace
from typing import Any

from reportgen.analysis.block import span
from tests.each import each


@each(
    "begin, weeks, day",
    [
        # A Saturday in February stays.
        ((2027, 1, 18), 5, (2027, 2, 20)),
        # New Year's Day is a Saturday: the days before it and Christmas are free, too, in the year before.
        ((2027, 11, 29), 5, (2027, 12, 19)),
        # 2 January 2027.
        ((2026, 11, 30), 5, (2026, 12, 20)),
        # Easter Saturday of 2027 is 27 March.
        ((2027, 2, 22), 5, (2027, 3, 21)),
    ],
)
def test_no_test_day_falls_on_a_holiday(
    begin: tuple[int, int, int], weeks: int, day: tuple[int, int, int]
) -> None:
    setting: Any = SimpleNamespace(
        begin=dt.date(*begin), carried=SimpleNamespace(weekdays=(1, 3, 5)), is_absent=lambda _: False
    )
    found, said = span._sensible(setting, weeks)
    assert found == dt.date(*day)
    assert bool(said) is (found != dt.date(*begin) + dt.timedelta(days=7 * (weeks - 1) + 5))
