"""Numbers to words: nothing above zero becomes zero, nothing below a whole becomes a whole."""

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.words import numbers

POSITIVE = st.floats(min_value=1e-6, max_value=1e6, allow_nan=False)


@pytest.mark.parametrize(
    ("load_kg", "words"),
    [(12.34, "12.3 kg"), (64.0, "64 kg"), (0.04, "0.04 kg"), (0.0, "0 kg"), (-1.25, "−1.2 kg"),
     (1234.5, "1234 kg"), (12345.6, "12\u202f346 kg")],
)  # fmt: skip
def test_a_weight_has_one_decimal_at_most(load_kg: float, words: str) -> None:
    assert numbers.kg(load_kg) == words


def test_a_pound_is_the_international_one() -> None:
    # NIST SP 811: 1 lb = 0.45359237 kg exactly; 225 lb = 102.05828325 kg (computed).
    assert numbers.lb(102.05828325) == "225 lb"
    assert numbers.in_unit(14.96854821, "lb") == pytest.approx(33, abs=1e-9)


def test_five_figures_and_more_are_grouped_with_and_without_decimals() -> None:
    assert numbers.number(12345.6) == "12\u202f345.6"
    assert numbers.number(1234567.0, 0) == "1\u202f234\u202f567"
    assert numbers.number(9999.5) == "9999.5"


@settings(max_examples=60)
@given(POSITIVE, st.integers(0, 3))
def test_what_is_above_zero_never_reads_as_zero(value: float, decimals: int) -> None:
    written = numbers.number(value, decimals).replace("\u202f", "")
    assert float(written) > 0


@settings(max_examples=60)
@given(st.floats(min_value=0, max_value=2, allow_nan=False))
def test_only_a_whole_is_a_hundred_per_cent_and_only_nothing_is_none(part: float) -> None:
    assert (numbers.share(part) == "100 %") == (part == 1)
    assert (numbers.share(part) == "0 %") == (part == 0)


def test_dates_and_spans_are_said_as_people_say_them() -> None:
    assert numbers.day(dt.date(2026, 11, 14)) == "14 Nov 2026"
    assert numbers.span(dt.date(2026, 11, 3), dt.date(2026, 11, 14)) == "3 to 14 Nov 2026"
    assert numbers.span(dt.date(2026, 3, 3), dt.date(2026, 11, 14)) == "3 Mar to 14 Nov 2026"
    assert numbers.span(dt.date(2025, 12, 30), dt.date(2026, 1, 2)) == "30 Dec 2025 to 2 Jan 2026"


def test_counts_know_one_none_and_many() -> None:
    assert [numbers.count(n, "miss", "misses") for n in (0, 1, 2)] == ["no misses", "1 miss", "2 misses"]
    assert [numbers.times(n) for n in (0, 1, 2, 3)] == ["never", "once", "twice", "3 times"]
    assert [numbers.days(n) for n in (1, 20, 21, 120)] == ["1 day", "20 days", "3 weeks", "4 months"]


def test_lines_are_joined_to_spans() -> None:
    assert numbers.lines([9, 4, 5, 6]) == "lines 4 to 6 and 9"
    assert numbers.lines([4]) == "line 4"


@settings(max_examples=40)
@given(st.lists(st.integers(1, 10_000)))
def test_line_spans_stay_short_however_many_there_are(lines: list[int]) -> None:
    assert len(numbers.lines(lines)) < 160
