"""Sinclair coefficients and totals, against the federation's tables and its own example."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.trade import formulas, load
from reportgen.trade.schema import Sinclair

#: IWF, The Sinclair Coefficients: S for 2001-04, R for the later cycles.
TABLE = [
    (2001, "men", 0.938573813, 157.141, "S"),
    (2001, "women", 1.005487664, 112.811, "S"),
    (2017, "men", 0.751945030, 175.508, "R"),
    (2017, "women", 0.783497476, 153.655, "R"),
    (2021, "men", 0.722762521, 193.609, "R"),
    (2021, "women", 0.787004341, 153.757, "R"),
]


def cycle(year: int, standards: str) -> Sinclair:
    row = formulas.sinclair_row(year, standards, load())
    assert row is not None
    return row


@pytest.mark.parametrize(("year", "standards", "a", "b_kg", "status"), TABLE)
def test_a_and_b_are_pinned_together_with_their_cycle(
    year: int, standards: str, a: float, b_kg: float, status: str
) -> None:
    for later in range(4):
        row = cycle(year + later, standards)
        assert (row.a, row.b_kg, row.status) == (a, b_kg, status)


def test_the_federations_own_example_comes_out() -> None:
    # S: man, 83.5 kg, total 390 kg, 2001-04.
    row = cycle(2004, "men")
    assert formulas.sinclair_coefficient(83.5, row) == pytest.approx(1.17699569414, abs=5e-12)
    assert 390 * formulas.sinclair_coefficient(83.5, row) == pytest.approx(459.028, abs=5e-4)


@pytest.mark.parametrize(
    ("year", "standards", "body_mass_kg", "total_kg", "expected"),
    [  # C: computed from the tables above.
        (2017, "men", 61.9, 320, 456.2341),
        (2021, "men", 81.0, 305, 387.0899),
        (2021, "women", 63.0, 200, 262.5428),
        (2021, "men", 200.0, 400, 400),
    ],
)
def test_totals_of_known_cycles(
    year: int, standards: str, body_mass_kg: float, total_kg: float, expected: float
) -> None:
    found = total_kg * formulas.sinclair_coefficient(body_mass_kg, cycle(year, standards))
    assert found == pytest.approx(expected, abs=5e-5)


def test_the_table_of_2025_to_2028_was_not_found_and_the_last_one_says_so() -> None:
    row = cycle(2026, "women")
    assert (row.cycle, row.last_year) == ("2021-24", 2024)
    assert not any(row.first_year <= 2025 <= row.last_year for row in load().sinclair)


@pytest.mark.parametrize("year", [1999, 2005, 2016])
def test_a_cycle_that_is_not_known_is_not_guessed(year: int) -> None:
    assert formulas.sinclair_row(year, "men", load()) is None


def test_every_year_since_1998_has_coefficients_or_a_reason_why_it_has_none() -> None:
    trade = load()
    for year in range(1998, 2029):
        known = {row.standards for row in trade.sinclair if row.first_year <= year <= row.last_year}
        unknown = [row for row in trade.sinclair_unknown if row.first_year <= year <= row.last_year]
        assert (known, len(unknown)) in ((set(), 1), ({"women", "men"}, 0)), year
        assert all(row.why for row in unknown)


@given(st.floats(30, 250), st.sampled_from(load().sinclair))
@settings(max_examples=60)
def test_a_coefficient_is_one_from_b_up_and_falls_with_body_mass(body_mass_kg: float, row: Sinclair) -> None:
    here = formulas.sinclair_coefficient(body_mass_kg, row)
    assert here >= formulas.sinclair_coefficient(body_mass_kg + 1, row) >= 1
    assert (here == 1) == (body_mass_kg >= row.b_kg) or here == pytest.approx(1, abs=1e-12)


@pytest.mark.parametrize("body_mass_kg", [0.0, -60.0, float("nan")])
def test_no_body_mass_has_no_coefficient(body_mass_kg: float) -> None:
    with pytest.raises(ValueError, match="has no coefficient"):
        formulas.sinclair_coefficient(body_mass_kg, load().sinclair[0])
