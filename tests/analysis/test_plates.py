"""Loads of the lifter's own plates: never over what was asked where it rounds down, never under where up."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.analysis.block import plates
from reportgen.analysis.block.plates import Plates
from reportgen.model.lifter import Standards, Unit
from reportgen.trade import load
from tests.analysis.logs import MAN

TRADE = load()
LB = 0.45359237  # NIST SP 811, exactly


def own(unit: Unit, standards: Standards = "men") -> Plates:
    return plates.of(replace(MAN, unit=unit, standards=standards), TRADE)


@given(st.sampled_from(("kg", "lb")), st.floats(0.5, 600))
def test_down_is_not_over_up_is_not_under_and_each_is_less_than_a_step_away(
    unit: Unit, load_kg: float
) -> None:
    mine = own(unit)
    step_kg = mine.step * mine.unit_kg
    assert load_kg - step_kg < mine.down(load_kg) <= load_kg + 1e-6
    assert load_kg - 1e-6 <= mine.up(load_kg) < load_kg + step_kg
    assert mine.below(load_kg) < load_kg
    assert mine.down(mine.down(load_kg)) == mine.down(load_kg)
    assert mine.up(mine.down(load_kg)) == mine.down(load_kg)


@pytest.mark.parametrize(
    ("unit", "standards", "bar", "down", "said"),
    [
        ("kg", "men", 20.0, 54.0, "54 kg"),
        ("kg", "women", 15.0, 54.0, "54 kg"),
        ("lb", "men", 45 * LB, 115 * LB, "115 lb"),
        ("lb", "women", 35 * LB, 115 * LB, "115 lb"),
    ],
)
def test_bar_and_steps_are_those_of_the_unit(
    unit: Unit, standards: Standards, bar: float, down: float, said: str
) -> None:
    mine = own(unit, standards)
    assert mine.bar_kg == bar
    assert mine.down(54.2) == down  # 54.2 kg = 119.49 lb
    assert mine.said(mine.down(54.2)) == said


def test_where_no_logged_load_needs_small_discs_none_that_does_is_proposed() -> None:
    coarse = [20.0, 42.5, 50.0, 57.5] * 20
    mine = plates.of(MAN, TRADE, coarse)
    assert (mine.step, mine.down(54.2), mine.up(50.1)) == (2.5, 52.5, 52.5)
    assert plates.of(MAN, TRADE, [*coarse, *[51.0] * 9]).step == 1
    assert plates.of(MAN, TRADE, coarse[:20]).step == 1
    assert plates.of(replace(MAN, unit="lb"), TRADE, coarse).step == 5
