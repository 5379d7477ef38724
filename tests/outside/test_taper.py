"""Tapers against the worked figures of the trade; readings against the published ranges."""

import datetime as dt

import pytest

from reportgen.analysis.tapers import reading
from reportgen.trade import load
from tests.analysis.logs import attempt
from tests.analysis.peaked import peaks, weekly

START = dt.date(2026, 1, 5)


@pytest.mark.parametrize("weekdays", [(0, 2, 4), (0, 1, 3, 5), (0, 1, 2, 3, 4, 5), (0, 3)])
def test_ten_weeks_of_10_000_then_6_500_and_4_500_are_fourteen_days_less_0_45(
    weekdays: tuple[int, ...],
) -> None:
    # C: cuts 0.35 and 0.55, mean 0.45, 14 days; the test on the Monday after.
    rows = weekly(START, [10_000.0] * 10 + [6_500.0, 4_500.0], weekdays)
    test = START + dt.timedelta(weeks=12)
    found = peaks(*rows, attempt(test.isoformat(), "snatch", 60, True)).test_days
    assert found is not None
    taper = found[-1].taper
    assert taper is not None
    assert (taper.days, taper.start) == (14, test - dt.timedelta(days=14))
    assert taper.cuts_by_week == pytest.approx((0.35, 0.55))
    assert taper.volume_cut == pytest.approx(0.45)
    assert taper.reading == "usual"


def test_weightlifters_own_tapers_and_the_best_of_the_meta_analysis_read_as_usual() -> None:
    # S: Winwood et al. 2023, 8.0 ± 4.4 days; Travis et al. 2021, 7 to 10 days; Bosquet et al. 2007, 14 days.
    trade = load()
    assert {reading(days, trade) for days in (5, 7, 8, 10, 12, 14, 21)} == {"usual"}


def test_the_edges_of_the_readings_are_those_of_the_rules() -> None:
    # The project's convention: none; short < 5 days; usual 5 to 21; long > 21.
    trade = load()
    assert [reading(days, trade) for days in (1, 4, 5, 21, 22, 28)] == [
        "short",
        "short",
        "usual",
        "usual",
        "long",
        "long",
    ]
