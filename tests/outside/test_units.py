"""Pounds and kilograms, against NIST SP 811 (international pound, 1959; status R, products computed C)."""

import pytest

from reportgen.trade import load
from reportgen.words.numbers import in_unit


@pytest.mark.parametrize(
    ("load_lb", "load_kg"),
    [
        (1.0, 0.45359237),  # R: exact by definition
        (225.0, 102.05828325),  # C
        (33.0, 14.96854821),  # C
        (45.0, 20.41165665),  # C
    ],
)
def test_pounds_are_the_international_pound(load_lb: float, load_kg: float) -> None:
    assert load_lb * load().value("pound") == pytest.approx(load_kg, rel=1e-15)
    assert in_unit(load_kg, "lb") == pytest.approx(load_lb, rel=1e-15)


def test_a_45_lb_bar_is_not_a_20_kg_bar() -> None:
    assert 45 * load().value("pound") - load().value("bar_men_kg") > 0.4


def test_the_pound_says_it_is_a_definition_read_in_a_work_that_reports_it() -> None:
    pound = load().rules["pound"]
    assert (pound.unit, pound.kind, pound.status) == ("kg per lb", "definition", "R")
