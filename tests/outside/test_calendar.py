"""ISO weeks at the ends of years, against the table of boundary dates of ISO 8601 (status S)."""

import datetime as dt

import pytest

from tests.analysis.logs import facts, row

BOUNDARIES = {
    "2005-01-01": "2004-W53",
    "2005-12-31": "2005-W52",
    "2006-01-01": "2005-W52",
    "2007-01-01": "2007-W01",
    "2007-12-31": "2008-W01",
    "2008-12-28": "2008-W52",
    "2008-12-29": "2009-W01",
    "2009-12-31": "2009-W53",
    "2010-01-03": "2009-W53",
    "2024-12-30": "2025-W01",
    "2025-12-29": "2026-W01",
    "2026-12-31": "2026-W53",
    "2027-01-03": "2026-W53",
    "2027-01-04": "2027-W01",
}


@pytest.mark.parametrize(("day", "week"), BOUNDARIES.items())
def test_a_day_falls_into_its_iso_week(day: str, week: str) -> None:
    exposure = facts(row(day, "snatch", 50)).exposure
    assert exposure is not None
    (only,) = exposure.weeks
    date = dt.date.fromisoformat(day)
    assert (only.week, only.start) == (week, date - dt.timedelta(date.weekday()))


def test_2026_has_53_weeks_and_a_mean_a_week_divides_by_them() -> None:
    # C: ISO 8601; the first week starts on 2025-12-29, the last ends on 2027-01-03.
    found = facts(row("2025-12-29", "snatch", 50), row("2027-01-03", "snatch", 50)).exposure
    assert found is not None
    assert [len(found.weeks), found.weeks[0].week, found.weeks[-1].week] == [53, "2026-W01", "2026-W53"]
    assert found.mean_full_per_week == pytest.approx(2 / 53)
