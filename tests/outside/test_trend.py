"""Theil-Sen against Sen's own data, the worked figure of the trade, and scipy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.analysis.trend import theil_sen


def test_sens_own_data() -> None:
    # S: Sen, J Am Stat Assoc 1968;63:1379-1389: slope 4, 93 % interval 26/7 to 35/8.
    x = np.array([1.0, 2.0, 3.0, 4.0, 10.0, 12.0, 18.0])
    y = np.array([9.0, 15.0, 19.0, 20.0, 45.0, 55.0, 78.0])
    slope = theil_sen(x, y, 0.93)
    assert slope is not None
    assert (slope.middle, slope.low, slope.high) == pytest.approx((4.0, 26 / 7, 35 / 8))


def test_two_kilograms_in_30_days_whatever_one_light_month_says() -> None:
    # C: days 0 30 60 90 120, snatch 100 102 104 90 108 → 2.0 kg in 30 days.
    slope = theil_sen(np.arange(0.0, 121.0, 30.0), np.array([100.0, 102.0, 104.0, 90.0, 108.0]), 0.95)
    assert slope is not None
    assert 30 * slope.middle == pytest.approx(2.0)


@given(
    points=st.lists(
        st.tuples(st.integers(0, 400), st.integers(40, 130)),
        min_size=4,
        max_size=14,
        unique_by=lambda p: p[0],
    ),
    confidence=st.sampled_from([0.8, 0.9, 0.95]),
)
@settings(max_examples=150, deadline=None)
def test_slope_and_interval_are_those_of_scipy(points: list[tuple[int, int]], confidence: float) -> None:
    from scipy.stats import theilslopes  # type: ignore[import-untyped]

    x, y = (np.array(values, dtype=np.float64) for values in zip(*points, strict=True))
    theirs, ours = theilslopes(y, x, confidence), theil_sen(x, y, confidence)
    assert ours is not None
    assert (ours.middle, ours.low, ours.high) == pytest.approx(
        (theirs.slope, theirs.low_slope, theirs.high_slope)
    )
