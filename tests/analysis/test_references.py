"""The reference of a set: the best of the 365 days before that day, where it is known."""

import datetime as dt

import pandas as pd

from reportgen.model.lifter import Goal, Lifter, PriorBest
from tests.analysis.logs import WOMAN, attempt, dossier, row, weeks_of


def shares(table: pd.DataFrame, lift: str = "snatch") -> list[float | None]:
    mine = table.loc[table["lift"] == lift, "share"]
    return [None if pd.isna(share) else float(share) for share in mine]


def test_a_set_is_not_judged_by_the_best_of_its_own_day() -> None:
    log = [*weeks_of("snatch", 50, "2026-01-05", 5), row("2026-02-09", "snatch", 60)]
    sets = dossier(*log, row("2026-02-09", "snatch", 55)).tables.sets
    assert shares(sets)[-2:] == [60 / 50, 55 / 50]


def test_shares_stay_unknown_for_four_weeks_of_log_with_the_lift() -> None:
    sets = dossier(*weeks_of("snatch", 50, "2026-01-05", 6)).tables.sets
    assert shares(sets) == [None, None, None, None, 1.0, 1.0]


def test_an_attempt_makes_the_reference_known_from_the_next_day() -> None:
    log = [attempt("2026-01-05", "snatch", 60, True), row("2026-01-06", "snatch", 54)]
    assert shares(dossier(*log).tables.sets) == [None, 0.9]


def test_a_best_from_before_the_log_makes_the_reference_known_for_a_year() -> None:
    best = PriorBest(lift="snatch", kg=60, date=dt.date(2025, 1, 10))
    lifter = Lifter(name="R", standards="women", goals=(Goal(lift="snatch", kg=64),), bests=(best,))
    near = dossier(row("2026-01-10", "snatch", 54), lifter=lifter)
    late = dossier(row("2026-01-11", "snatch", 54), lifter=lifter)
    assert (shares(near.tables.sets), shares(late.tables.sets)) == ([0.9], [None])


def test_the_window_is_365_days_and_both_its_edges_are_held() -> None:
    first = [row("2025-01-01", "snatch", 60), row("2025-01-02", "snatch", 50)]
    later = [
        row("2025-12-01", "snatch", 45),
        row("2026-01-01", "snatch", 45),
        row("2026-01-02", "snatch", 45),
    ]
    sets = dossier(*first, *later).tables.sets
    assert shares(sets) == [None, None, 0.75, 0.75, 0.9]


def test_missed_strapped_and_varied_sets_make_no_reference() -> None:
    log = [
        *weeks_of("snatch", 50, "2026-01-05", 5),
        row("2026-02-09", "snatch", 70, made=0),
        row("2026-02-09", "snatch", 65, aid="straps"),
        row("2026-02-09", "snatch", 60, variant="pause"),
        row("2026-02-10", "snatch", 45),
    ]
    assert shares(dossier(*log).tables.sets)[-1] == 0.9


def test_straps_may_make_the_reference_of_a_lift_from_the_hang() -> None:
    log = [*weeks_of("hang snatch", 50, "2026-01-05", 5, aid="straps"), row("2026-02-10", "hang snatch", 45)]
    assert shares(dossier(*log).tables.sets, "hang snatch")[-1] == 0.9


def test_pounds_fall_on_the_same_side_of_ninety_per_cent_as_kilograms() -> None:
    pound = 0.45359237  # NIST SP 811, status R
    log = [*weeks_of("snatch", 110 * pound, "2026-01-05", 5), row("2026-02-10", "snatch", 99 * pound)]
    assert shares(dossier(*log).tables.sets)[-1] == 0.9


def test_rows_after_the_review_day_enter_no_table() -> None:
    log = [*weeks_of("snatch", 50, "2026-01-05", 6), row("2026-06-01", "snatch", 80)]
    made = dossier(*log, as_of="2026-02-20")
    assert made.tables.sets["date"].max() <= pd.Timestamp("2026-02-20")
    assert made.facts.current[0].kg == 50
    assert made.facts.span.last == dt.date(2026, 2, 9)


def test_an_attempt_joins_the_first_session_of_its_day() -> None:
    log = [
        row("2026-01-05", "snatch", 50, session="pm"),
        row("2026-01-05", "snatch", 50, session="am"),
        attempt("2026-01-05", "snatch", 60, True),
    ]
    sets = dossier(*log, lifter=WOMAN).tables.sets
    by_label = sets.groupby("session")["session_id"].first()
    assert sets.loc[sets["kind"] == "contest", "session_id"].item() == by_label["am"]
    assert sets["session_id"].nunique() == 2
