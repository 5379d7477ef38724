"""Wilson's interval, against one computed value and against statsmodels over a grid."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.trade import formulas


def test_eight_of_ten() -> None:
    # C: 0.4902 to 0.9433 at 95 %.
    assert formulas.wilson(8, 10) == pytest.approx((0.4902, 0.9433), abs=5e-5)


def test_every_interval_is_that_of_statsmodels() -> None:
    from statsmodels.stats.proportion import proportion_confint  # type: ignore[import-untyped]

    for tried, confidence in product((1, 2, 7, 10, 33, 250), (0.80, 0.95, 0.99)):
        for made in sorted({0, 1, tried // 2, tried - 1, tried}):
            expected = proportion_confint(made, tried, alpha=1 - confidence, method="wilson")
            assert formulas.wilson(made, tried, confidence) == pytest.approx(expected, abs=1e-12)


@given(st.data())
@settings(max_examples=60)
def test_an_interval_holds_its_rate_inside_zero_and_one(data: st.DataObject) -> None:
    tried = data.draw(st.integers(1, 2000))
    made = data.draw(st.integers(0, tried))
    low, high = formulas.wilson(made, tried)
    assert 0 <= low <= made / tried <= high <= 1
    other_low, other_high = formulas.wilson(tried - made, tried)
    assert (other_low, other_high) == pytest.approx((1 - high, 1 - low), abs=1e-12)


@pytest.mark.parametrize(("made", "tried"), [(0, 0), (3, 2), (-1, 5)])
def test_what_was_not_tried_has_no_rate(made: int, tried: int) -> None:
    with pytest.raises(ValueError, match="is no rate"):
        formulas.wilson(made, tried)
