"""What a year, or the span asked for, held."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.model.export import as_json
from reportgen.model.lifter import Goal, PriorBest
from reportgen.model.season import SeasonFact
from reportgen.words.phrases import said
from tests.analysis.logs import MAN, WOMAN, attempt, away, bodymass, row
from tests.analysis.peaked import Row, peaks

KNOWN = replace(WOMAN, bests=(PriorBest(lift="snatch", kg=60.0, date=dt.date(2025, 12, 1)),))
TOTAL = replace(MAN, goals=(Goal(lift="total", kg=330.0),))


def seasons(*rows: Row, **more: object) -> tuple[SeasonFact, ...]:
    found = peaks(*rows, **{"lifter": KNOWN} | more).season  # type: ignore[arg-type]
    assert found is not None
    return found


def contest(day: str, snatch: list[tuple[float, bool]], jerk: list[tuple[float, bool]]) -> list[Row]:
    lifts = {"snatch": snatch, "clean and jerk": jerk}
    return [
        attempt(day, lift, kg, made, attempt=number, event="Cup")
        for lift, tries in lifts.items()
        for number, (kg, made) in enumerate(tries, 1)
    ]


def test_each_calendar_year_is_a_season() -> None:
    found = seasons(row("2024-11-02", "snatch", 50), row("2026-02-03", "snatch", 55))
    assert [one.label for one in found] == ["2024", "2025", "2026"]
    assert found[-1].end == dt.date(2026, 2, 3)
    assert found[1].bests == ()


def test_the_span_asked_for_is_one_season() -> None:
    rows = [row("2025-11-02", "snatch", 50), row("2026-02-03", "snatch", 55), row("2026-06-03", "snatch", 57)]
    (one,) = seasons(*rows, span=(dt.date(2025, 12, 1), dt.date(2026, 5, 31)))
    assert [best.kg for best in one.bests] == [55.0]


def test_an_empty_log_has_no_season() -> None:
    later = [row("2026-06-03", "snatch", 57)]
    assert peaks(*later, as_of="2026-01-01").season is None


def test_bests_by_month_are_the_heaviest_made_with_where() -> None:
    rows = [
        row("2026-01-05", "snatch", 55),
        row("2026-01-12", "snatch", 57),
        row("2026-01-19", "snatch", 59, made=0),
        row("2026-02-07", "snatch", 56),
        attempt("2026-02-14", "snatch", 58, True),
        row("2026-02-20", "back squat", 100),
    ]
    found = [(best.month, best.kg, best.where) for best in seasons(*rows)[0].bests]
    assert found == [("2026-01", 57.0, "training"), ("2026-02", 58.0, "contest")]


def test_attendance_counts_every_iso_week_and_says_why_one_was_lost() -> None:
    rows = [row(day, "snatch", 50) for day in ("2026-01-05", "2026-01-07", "2026-01-26", "2026-02-16")]
    gone = away(("2026-01-12", "2026-01-20", "illness"), ("2026-01-21", "2026-01-22", "travel"))
    found = seasons(*rows, away=gone)[0].attendance
    assert found is not None
    assert (found.weeks, found.weeks_trained, found.sessions) == (7, 3, 4)
    assert found.weeks_lost == {"illness": 2, "not explained": 2}
    assert found.sessions_per_week == pytest.approx(4 / 7)


def test_a_year_of_53_weeks_is_divided_by_53() -> None:
    # ISO 8601: 2026 has 53 weeks.
    rows = [row("2025-12-22", "snatch", 50), row("2026-12-31", "snatch", 50), row("2027-01-05", "snatch", 50)]
    found = {one.label: one.attendance for one in seasons(*rows)}
    assert found["2026"] is not None
    assert found["2026"].weeks == 53
    assert found["2027"] is not None
    assert found["2027"].weeks == 1


def test_heavy_singles_and_openers_are_counted_with_their_interval() -> None:
    rows = [
        row("2026-01-05", "snatch", 55, sets=4),
        row("2026-01-12", "snatch", 56, made=0),
        row("2026-01-14", "snatch", 50),
        attempt("2026-02-14", "snatch", 57, True),
        attempt("2026-02-14", "snatch", 59, False, attempt=2),
        attempt("2026-04-18", "snatch", 57, False),
    ]
    one = seasons(*rows)[0]
    assert one.heavy_singles is not None
    assert (one.heavy_singles.tried, one.heavy_singles.made) == (8, 5)
    assert (one.openers.tried, one.openers.made, one.openers.rate) == (2, 1, 0.5)
    assert one.openers.rate_low is not None
    assert one.openers.rate_low < 0.5


def test_nothing_tried_has_no_rate() -> None:
    one = seasons(row("2026-01-05", "snatch", 50))[0]
    assert (one.openers.tried, one.openers.rate, one.openers.rate_low) == (0, None, None)


def test_heavy_singles_are_unknown_without_a_reference() -> None:
    assert seasons(row("2026-01-05", "snatch", 50), lifter=WOMAN)[0].heavy_singles is None


def test_body_mass_by_month() -> None:
    weighed = bodymass(("2026-01-05", 64.0), ("2026-01-20", 63.0), ("2026-02-02", 62.0))
    mass = seasons(row("2026-01-05", "snatch", 50), as_of="2026-02-10", bodymass=weighed)[0].body_mass
    assert mass is not None
    assert mass.months == (("2026-01", 63.5), ("2026-02", 62.0))
    assert (mass.first_kg, mass.last_kg, mass.low_kg, mass.high_kg) == (64.0, 62.0, 62.0, 64.0)


def test_a_total_is_the_best_snatch_and_the_best_clean_and_jerk() -> None:
    rows = contest(
        "2024-05-04", [(130, True), (135, False), (135, True)], [(165, True), (170, True), (175, False)]
    )
    (fact,) = seasons(*rows, lifter=TOTAL, bodymass=bodymass(("2024-05-03", 81.0)))[0].contests
    assert fact.total_kg == 305.0
    assert [(lift.lift, lift.best_kg, lift.attempts) for lift in fact.lifts] == [
        ("snatch", 135.0, 3),
        ("clean and jerk", 170.0, 3),
    ]
    # C: man of 81.0 kg, total 305, cycle 2021-24: 387.0899.
    assert fact.sinclair_kg == pytest.approx(387.0899, abs=5e-5)
    assert (fact.sinclair_cycle, fact.sinclair_borrowed, fact.sinclair_missing) == ("2021-24", False, "")


def test_a_total_after_the_last_known_cycle_says_whose_figures_it_took() -> None:
    rows = contest("2026-05-04", [(130, True)], [(165, True)])
    (fact,) = seasons(*rows, lifter=TOTAL, bodymass=bodymass(("2026-05-03", 81.0)))[0].contests
    assert (fact.sinclair_cycle, fact.sinclair_borrowed) == ("2021-24", True)


def test_three_misses_in_one_lift_are_a_bomb_out_and_no_total() -> None:
    rows = contest("2026-05-04", [(130, False)] * 3, [(165, True)])
    (fact,) = seasons(*rows, lifter=TOTAL, bodymass=bodymass(("2026-05-03", 81.0)))[0].contests
    assert [lift.bombed for lift in fact.lifts] == [True, False]
    assert (fact.total_kg, fact.sinclair_kg, fact.sinclair_cycle) == (None, None, "")
    assert fact.sinclair_missing == "total"


def test_two_misses_are_no_bomb_out_yet_no_total() -> None:
    rows = contest("2026-05-04", [(130, False)] * 2, [(165, True)])
    (fact,) = seasons(*rows, lifter=TOTAL)[0].contests
    assert (fact.lifts[0].bombed, fact.total_kg) == (False, None)


def test_a_total_without_a_weighing_near_it_has_no_sinclair_total() -> None:
    rows = contest("2026-05-04", [(130, True)], [(165, True)])
    weighed = bodymass(("2026-04-01", 81.0))
    (fact,) = seasons(*rows, lifter=TOTAL, bodymass=weighed)[0].contests
    assert (fact.total_kg, fact.body_mass_kg, fact.sinclair_kg) == (295.0, None, None)
    assert fact.sinclair_missing == "body mass"


def test_attempts_that_a_federation_would_not_allow_are_named() -> None:
    rows = contest("2026-05-04", [(130, True), (129, True)], [(165.5, True)])
    (fact,) = seasons(*rows, lifter=TOTAL)[0].contests
    assert len(fact.faults) == 2


def test_whole_pounds_are_no_fault_and_are_called_in_kilograms() -> None:
    pound = 0.45359237
    rows = contest("2026-05-04", [(209 * pound, True), (214 * pound, True), (211 * pound, True)], [])
    (fact,) = seasons(*rows)[0].contests
    # 95, 97 and 96 kg stood on the bar.
    (fault,) = fact.faults
    assert said(fault) == "snatch: attempt 3 of 96 kg lies under the one before, 97 kg"
    (half,) = seasons(*contest("2026-05-04", [(92.5, True)], []))[0].contests
    assert list(map(said, half.faults)) == ["snatch: attempt 1 of 92.5 kg is no whole kilogram"]


def test_half_kilograms_of_a_contest_before_may_2005_are_no_fault() -> None:
    for day, faults in (("2005-04-16", 0), ("2005-05-14", 1)):
        (found, *_) = seasons(*contest(day, [(92.5, True)], []))
        assert [len(fact.faults) for fact in found.contests] == [faults]


@pytest.mark.parametrize(
    ("day", "cycle"), [("1998-05-04", "1997-2000"), ("2012-05-05", "2009-12"), ("1995-05-06", "1995")]
)
def test_a_total_of_a_cycle_without_known_coefficients_names_it_and_has_no_sinclair_total(
    day: str, cycle: str
) -> None:
    rows = contest(day, [(130, True)], [(165, True)])
    (found, *_) = seasons(*rows, lifter=TOTAL, bodymass=bodymass((day, 81.0)))
    (fact,) = found.contests
    assert (fact.sinclair_kg, fact.sinclair_cycle, fact.sinclair_missing) == (None, cycle, "coefficients")


def test_a_contest_over_two_days_gives_one_total() -> None:
    rows = [
        attempt("2026-05-02", "snatch", 130, True, event="Cup"),
        attempt("2026-05-03", "clean and jerk", 165, True, event="Cup"),
        attempt("2026-05-10", "snatch", 131, True, event="Cup"),
        attempt("2026-05-11", "clean and jerk", 160, True, event="Meet"),
    ]
    weighed = bodymass(("2026-05-02", 81.0))
    found = seasons(*rows, lifter=TOTAL, bodymass=weighed)[0].contests
    assert [(fact.date.day, fact.event, fact.total_kg) for fact in found] == [
        (2, "Cup", 295.0),
        (10, "Cup", None),
        (11, "Meet", None),
    ]
    assert found[0].sinclair_kg is not None


def test_days_without_the_name_of_an_event_are_not_put_together() -> None:
    rows = [
        attempt("2026-05-02", "snatch", 130, True, kind="test"),
        attempt("2026-05-03", "clean and jerk", 165, True, kind="test"),
    ]
    assert [fact.total_kg for fact in seasons(*rows, lifter=TOTAL)[0].contests] == [None, None]


def test_attempts_without_numbers_are_counted_in_the_order_of_the_file() -> None:
    rows = [
        attempt("2026-05-04", "snatch", kg, made, attempt=0)
        for kg, made in ((90, False), (90, True), (95, True))
    ]
    rows += [attempt("2026-05-04", "clean and jerk", 120, True, attempt=0)]
    one = seasons(*rows, lifter=TOTAL)[0]
    assert [(fact.total_kg, fact.faults) for fact in one.contests] == [(215.0, ())]
    assert [lift.attempts for lift in one.contests[0].lifts] == [3, 1]
    assert (one.openers.tried, one.openers.made) == (2, 1)


def test_test_days_of_a_season_are_those_of_its_days() -> None:
    rows = [
        attempt("2025-11-02", "snatch", 58, True),
        attempt("2026-04-18", "snatch", 61, True),
    ]
    found = seasons(*rows)
    assert [[fact.date.year for fact in one.test_days or ()] for one in found] == [[2025], [2026]]


def test_a_season_without_any_test_day_has_none_and_one_without_reference_is_unknown() -> None:
    assert seasons(row("2026-01-05", "snatch", 50))[0].test_days == ()
    assert seasons(row("2026-01-05", "snatch", 50), lifter=WOMAN)[0].test_days is None


def test_a_season_is_json() -> None:
    rows = [*contest("2024-05-04", [(130, True)], [(165, True)]), row("2024-01-08", "snatch", 110)]
    data = as_json(seasons(*rows, lifter=TOTAL, bodymass=bodymass(("2024-05-03", 81.0))))
    assert data[0]["contests"][0]["total_kg"] == 295.0
