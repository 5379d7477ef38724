"""Exposure: sessions with the full lift and with a derivative, heavy singles, volume, weeks without."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.facts import ExposureFact, WeekFact
from reportgen.model.lifter import Goal, PriorBest
from tests.analysis.logs import MAN, WOMAN, attempt, away, facts, row, weeks_of

KNOWN = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=60, date=dt.date(2025, 12, 1)),))


def exposure(*rows: dict[str, object], **more: object) -> ExposureFact:
    found = facts(*rows, **more).exposure  # type: ignore[arg-type]
    assert found is not None
    return found


def only_week(*rows: dict[str, object], **more: object) -> WeekFact:
    weeks = exposure(*rows, **more).weeks
    assert len(weeks) == 1
    return weeks[0]


def complex_of(date: str, kg: float, *lifts: str, line: int) -> list[dict[str, object]]:
    return [row(date, lift, kg, part=n, parts=len(lifts), line=line) for n, lift in enumerate(lifts)]


def test_a_session_is_full_or_derivative_never_both() -> None:
    week = only_week(
        row("2026-01-05", "snatch", 50),
        row("2026-01-05", "power snatch", 45),
        row("2026-01-06", "power snatch", 45),
        row("2026-01-07", "back squat", 90),
    )
    assert (week.sessions, week.full, week.derivative) == (3, 1, 1)


def test_a_snatch_inside_a_complex_makes_a_full_session() -> None:
    assert only_week(*complex_of("2026-01-05", 50, "snatch pull", "snatch", line=2)).full == 1


def test_overhead_work_and_pulls_are_no_derivative_sessions() -> None:
    week = only_week(row("2026-01-05", "overhead squat", 50), row("2026-01-06", "snatch pull", 60))
    assert (week.sessions, week.full, week.derivative) == (2, 0, 0)


def test_a_clean_and_a_jerk_in_one_complex_are_a_clean_and_jerk_but_a_clean_alone_is_not() -> None:
    lifter = replace(MAN, goals=(Goal(lift="clean and jerk", kg=120),))
    together = complex_of("2026-01-05", 90, "clean", "front squat", "jerk", line=2)
    alone = row("2026-01-06", "clean", 90, line=3)
    week = only_week(*together, alone, lifter=lifter)
    assert (week.full, week.derivative) == (1, 1)


def test_two_sessions_of_a_day_count_as_two() -> None:
    week = only_week(
        row("2026-01-05", "snatch", 50, session="1"), row("2026-01-05", "snatch", 50, session="2")
    )
    assert week.full == 2


def test_declined_attempts_are_not_tried() -> None:
    week = only_week(attempt("2026-01-05", "snatch", 60, False, declined=1, miss="declined"))
    assert (week.sessions, week.full, week.repetitions, week.heavy_singles) == (1, 0, 0, None)


def test_an_empty_week_counts_in_every_mean() -> None:
    found = exposure(row("2026-01-05", "snatch", 50), row("2026-01-19", "snatch", 50), as_of="2026-01-26")
    assert [week.full for week in found.weeks] == [1, 0, 1, 0]
    assert found.mean_full_per_week == 0.5
    assert found.weeks_without_full == 2
    assert found.longest_gap_days == 14


def test_a_year_of_53_weeks_is_divided_by_53() -> None:
    # ISO 8601 (S): 2026 has 53 weeks, 2026-12-31 lies in 2026-W53.
    found = exposure(row("2025-12-29", "snatch", 50), row("2026-12-31", "snatch", 50))
    assert (found.weeks[0].week, found.weeks[-1].week, len(found.weeks)) == ("2026-W01", "2026-W53", 53)
    assert found.mean_full_per_week == pytest.approx(2 / 53)


def test_weeks_away_explain_themselves_and_other_empty_weeks_are_counted() -> None:
    found = exposure(
        row("2026-01-05", "snatch", 50),
        row("2026-02-02", "snatch", 50),
        away=away(("2026-01-14", "2026-01-20", "travel")),
    )
    assert [week.away for week in found.weeks] == ["", "travel", "travel", "", ""]
    assert (found.weeks_empty_unexplained, found.weeks_without_full_away) == (1, 2)


@pytest.mark.parametrize(("kg", "count"), [(54, 3), (53.9, 0)])
def test_heavy_singles_are_tried_sets_of_one_from_ninety_per_cent_times_sets(kg: float, count: int) -> None:
    log = [
        row("2026-01-05", "snatch", kg, sets=3, made=0),
        row("2026-01-05", "snatch", 58, reps=2),
        row("2026-01-05", "power snatch", 58),
    ]
    assert only_week(*log, lifter=KNOWN).heavy_singles == count


def test_heavy_singles_are_null_until_the_reference_is_known() -> None:
    found = exposure(*weeks_of("snatch", 50, "2026-01-05", 6))
    assert [week.heavy_singles for week in found.weeks] == [None, None, None, None, 1, 1]
    assert [week.counted_repetitions for week in found.weeks] == [None, None, None, None, 1, 1]


def test_an_attempt_counts_as_a_heavy_single() -> None:
    assert only_week(attempt("2026-01-05", "snatch", 58, False), lifter=KNOWN).heavy_singles == 1


def test_the_worked_session_gives_747_kg_and_a_relative_load_of_0_747() -> None:
    # check value C: snatch 60x3, 70x2, 80x2, 85, 90, 92, best 100.
    best = PriorBest(lift="snatch", kg=100, date=dt.date(2025, 12, 1))
    loads = [(60, 3), (70, 2), (80, 2), (85, 1), (90, 1), (92, 1)]
    week = only_week(
        *[row("2026-01-05", "snatch", kg, reps=reps) for kg, reps in loads],
        lifter=replace(MAN, bests=(best,)),
    )
    assert (week.repetitions, week.tonnage_kg, week.counted_repetitions) == (10, 747, 10)
    assert week.relative_load == pytest.approx(0.747)


def test_light_repetitions_are_left_out_and_pulls_stand_apart() -> None:
    best = PriorBest(lift="snatch pull", kg=100, date=dt.date(2025, 12, 1))
    lifter = replace(KNOWN, bests=(*KNOWN.bests, best))
    found = exposure(
        row("2026-01-05", "snatch", 35, reps=3),
        row("2026-01-05", "snatch", 36, reps=2),
        row("2026-01-05", "snatch pull", 90, reps=3),
        lifter=lifter,
    )
    week = found.weeks[0]
    assert (week.repetitions, week.counted_repetitions, week.counted_pull_repetitions) == (8, 2, 3)
    assert found.share_left_out == pytest.approx(3 / 8)


def test_a_log_in_which_nothing_lies_before_the_review_day_has_no_weeks() -> None:
    found = exposure(row("2026-01-05", "snatch", 50), as_of="2025-12-31")
    assert (found.weeks, found.mean_full_per_week, found.longest_gap_days) == ((), None, None)


def test_a_missed_heavy_single_was_tried_and_no_finding_says_that_there_was_none() -> None:
    light = [
        *weeks_of("snatch", 51, "2026-01-05", 16, reps=2, sets=3),
        *weeks_of("snatch", 52, "2026-01-08", 16, reps=2, sets=3),
    ]
    missed = weeks_of("snatch", 55, "2026-01-07", 16, made=0, miss="behind")
    found = facts(*light, *missed, lifter=KNOWN)
    assert found.exposure is not None
    assert found.exposure.weeks_since_heavy_single == 0
    assert [week.heavy_singles for week in found.exposure.weeks] == [1] * 16
    assert "no_heavy_singles" not in {need.id for need in found.needs or ()}
    without = facts(*light, lifter=KNOWN)
    assert "no_heavy_singles" in {need.id for need in without.needs or ()}
