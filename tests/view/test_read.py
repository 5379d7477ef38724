"""Pages of the case book as a coach reads them: nothing stronger than the data, nothing left out."""

import datetime as dt
from dataclasses import replace

import pytest

from reportgen.analysis.tapers import NONE
from reportgen.model.dossier import Dossier
from reportgen.model.facts import Facts
from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.page import Figure, Finding, Page, Table
from reportgen.view.reader import plain
from tests.kept import dossier
from tests.view import sample
from tests.view.reading import page_of
from tests.view.reading import section as words


def told(made: Dossier, **more: object) -> Dossier:
    """The same dossier with other facts."""
    facts: Facts = replace(made.facts, **more)  # type: ignore[arg-type]
    return replace(made, facts=facts)


def page(made: Dossier | str, edition: Edition = "review") -> Page:
    return page_of(made, edition) if isinstance(made, str) else build(made, load(), edition=edition)


def tables(made: Page) -> dict[str, Table]:
    """Every table by its address."""
    found = {}
    for block in (b for s in made.sections for b in s.blocks):
        table = block.table if isinstance(block, Figure) else block
        if isinstance(table, Table):
            found[table.id] = table
    return found


def rows(made: Page, id_: str) -> list[tuple[str, ...]]:
    return [tuple(plain(cell.text, "kg") for cell in row) for row in tables(made)[id_].rows]


def findings(made: Page) -> list[Finding]:
    return [b for s in made.sections for b in s.blocks if isinstance(b, Finding)]


def test_pain_is_shown_where_nothing_was_screened() -> None:
    assert dossier("sore_knee").facts.screening is None
    made = rows(page("sore_knee"), "pain")
    assert [(row[0], row[-2].split()[0]) for row in made] == [
        ("right knee", "open"),
        ("left wrist", "settled"),
    ]
    assert "positions" not in {s.id for s in page("sore_knee", "progress").sections}


def test_a_test_line_says_how_it_is_done() -> None:
    for edition in ("review", "progress"):
        told_ = words(page("hardly_any_data", edition), "block")
        assert (
            "Snatch and back squat: begin here; up in small steps as long as it looks like the first one; "
            "the first miss ends it." in told_
        )
        assert "begin with the empty bar" in told_


def test_a_log_of_a_few_days_is_too_little_to_say_what_holds_the_goal_back() -> None:
    short = "11 days of log: too little to say what holds the goal back."
    for edition in ("review", "progress"):
        made = page("hardly_any_data", edition)
        assert plain(made.head.sentence, "kg") == short
        if edition == "progress":  # the head has said it
            assert "needs" not in {section.id for section in made.sections}
        else:
            assert short in words(made, "needs")
            assert "Nothing stands out" not in words(made, "needs")


def test_three_trained_weeks_in_a_long_log_are_counted_in_weeks() -> None:
    made = dossier("squat_chaser")
    exposure = made.facts.exposure
    assert exposure is not None
    kept = [replace(w, sessions=w.sessions if n % 9 == 0 else 0) for n, w in enumerate(exposure.weeks[-27:])]
    few = told(made, needs=(), exposure=replace(exposure, weeks=tuple(kept)))
    assert words(page(few), "needs").count("3 trained weeks in the log: too little to say") == 1


def test_a_long_log_without_a_finding_says_that_nothing_stands_out() -> None:
    made = page(told(dossier("squat_chaser"), needs=()))
    assert "Nothing stands out as holding the goal back: it needs time with the lift." in words(made, "needs")


def test_what_goes_up_on_an_ordinary_day_is_said_where_the_log_carries_it() -> None:
    assert "ordinary day" not in words(page("hardly_any_data"), "stands")
    assert "nine times in ten" not in words(page("hardly_any_data"), "misses")
    made = dossier("keeps_testing")
    sure = made.facts.sure_weight
    assert sure is not None
    assert sure.change_kg is not None
    said = words(page(made), "misses")
    assert "At the snatch that goes up nine times in ten, " in said
    stands = words(page(made), "stands")
    (able,) = made.facts.ability or ()
    often, half = (f"{round(kg, 1):g} kg" for kg in (able.sure_kg, able.kg))
    assert f"On an ordinary day you make {often} nine times in ten, {half} every other time." in stands
    assert f"{sure.made} of {sure.tried} were made over 12 weeks. That weight moved by " in said
    still = told(made, sure_weight=replace(sure, change_kg=None))
    assert f"{sure.made} of {sure.tried} were made over 12 weeks." in words(page(still), "misses")


@pytest.mark.parametrize(
    ("case", "said"),
    [
        ("keeps_testing", "12 misses of snatch; lost behind and lost forward alike (6 each)."),
        ("low_hang_above_floor", "4 misses of snatch, all lost forward."),
        ("stiff_ankles", "4 misses of snatch; most often did not go under (3)."),
    ],
)
def test_kinds_of_miss_that_tie_are_named_alike(case: str, said: str) -> None:
    assert said in words(page(case), "misses")


def test_an_estimate_under_the_single_that_was_made_is_not_shown() -> None:
    beside = {row[0]: row[-1] for row in rows(page("needs_time"), "current")}
    assert beside["back squat"] == "–"
    assert beside["front squat"] == "about 119.9 kg, worked out from a set of several"


def test_what_is_controlled_is_not_called_reached() -> None:
    state = {row[0]: row[5] for row in rows(page("loose_joints"), "screening-control")}
    assert state == {"dowel snatch": "not controlled", "dowel overhead squat": "not controlled"}
    state = {row[0]: row[5] for row in rows(page("contradictory"), "screening-control")}
    assert state["dowel snatch"] == "controlled"


@pytest.mark.parametrize(("born", "points"), [(None, "5"), (2018, "6"), (1990, "5"), (1960, "4")], ids=str)
def test_loose_joints_are_read_by_the_limit_for_the_age(born: int | None, points: str) -> None:
    made = dossier("loose_joints")
    lifter = replace(made.records.lifter, born=born)
    aged = page(replace(made, records=replace(made.records, lifter=lifter)))
    limit = f"loose joints are spoken of from {points}"
    assert f"Loose joints. Beighton score: 7 points on 25 May 2026; {limit}." in words(aged, "positions")
    assert [row[5] for row in rows(aged, "screening-laxity")] == [limit]


def test_a_single_that_never_was_has_no_day() -> None:
    none = "No single was tried at 90 % or more of the best, as far as the best was known."
    assert none in words(page("no_limits"), "exposure")
    assert none in words(page("no_limits", "progress"), "stands")
    assert "12 weeks ago" in words(page("double_chaser"), "exposure")


def test_what_was_never_done_has_no_rate() -> None:
    made = dossier("no_limits")
    exposure = made.facts.exposure
    assert exposure is not None
    never = told(made, exposure=replace(exposure, mean_full_per_week=0.0, mean_derivative_per_week=1.5))
    only = "No full session is in the log; 1.5 a week with a derivative only."
    assert only in words(page(never), "exposure")
    assert "No session with the full snatch is in the log." in words(page(never, "progress"), "stands")


def test_a_figure_under_its_band_that_is_not_short_lies_at_the_low_edge() -> None:
    made = page("double_chaser")
    said = words(made, "supports")
    assert "At the low edge of what usually goes with the goal: snatch balance." in said
    assert "back squat are enough" in said or "back squat is enough" in said
    reading = {row[0]: row[6] for row in rows(made, "enough-for-table")}
    assert reading["snatch balance"] == "at the low edge of what usually goes with the goal"


def test_a_checkpoint_is_off_up_to_its_last_grading_only() -> None:
    said = words(page("coachs_band"), "technique")
    assert "Second pull bar distance: off from 20 Apr to 25 May 2026, not graded since." in said
    made = dossier("coachs_band")
    same_day = told(made, as_of=dt.date(2026, 5, 25))
    assert "Second pull bar distance: off for 5 weeks now." in words(page(same_day), "technique")


def test_an_accepted_checkpoint_that_is_off_is_named() -> None:
    made = page("needs_time")
    assert (
        "No other checkpoint was off at its last grading. Off, and accepted by the coach: pull under feet."
        in words(made, "technique")
    )
    remarks = {(row[1], row[3]): row[-1] for row in rows(made, "technique-table")}
    assert remarks["pull under feet", "off"] == "accepted by the coach"
    assert remarks["start hips", "good"] == "–"


def test_where_no_taper_could_be_looked_for_none_is_said_to_be_missing() -> None:
    said = words(page("needs_time"), "tapers")
    assert "One test day: it brought a new best, and there is too little log before it to look for a" in said
    assert "no taper was found" not in said
    tests = dossier("needs_time").facts.test_days
    assert tests is not None
    second = replace(tests[0], date=tests[0].date + dt.timedelta(days=30))
    both = told(dossier("needs_time"), test_days=(tests[0], second))
    assert "before each of them there is too little log to look for a taper" in words(page(both), "tapers")
    known = replace(second, taper=NONE)
    one = words(page(told(dossier("needs_time"), test_days=(tests[0], known))), "tapers")
    assert "a taper was found before none, and 1 came with too little log before to look for one." in one


def test_one_taper_is_a_beginning() -> None:
    said = words(page("long_taper"), "tapers")
    assert "One taper of one lifter proves nothing; it is a beginning to compare with." in said


def test_no_id_of_a_rule_or_finding_stands_on_a_page() -> None:
    under = [plain(e[0], "kg") for f in findings(page("double_chaser")) for e in f.evidence]
    assert "A double with 80 kg on 13 Jun 2026; the most for one is 80 kg." in under
    purposes = {row[0]: row[3] for row in rows(page("stiff_ankles"), "block-flexibility")}
    assert purposes == {"ankles": "Range is missing"}


def test_a_finding_whose_figure_is_not_drawn_links_to_its_section() -> None:
    for name in ("not_held_at_the_start", "no_limits", "sore_knee", "loose_joints"):
        other = page(name)
        known = {s.id for s in other.sections} | {
            b.id for s in other.sections for b in s.blocks if isinstance(b, Figure)
        }
        assert {f.figure for f in findings(other)} <= known


def test_a_falling_share_of_the_squat_is_not_said_to_be_a_loss() -> None:
    figure = next(
        b for s in build(sample.full(), load()).sections for b in s.blocks
        if isinstance(b, Figure) and b.id == "expressed"
    )  # fmt: skip
    assert "A month whose squat was not taken to a limit reads too high" in plain(figure.sentence, "kg")


def test_a_day_on_which_both_lifts_were_tested_is_one_test_day() -> None:
    made = sample.full()
    tests = made.facts.test_days
    assert tests is not None
    both = told(
        made, test_days=(*tests, *(replace(one, lift="clean and jerk", best_kg=75.0) for one in tests))
    )
    figures = {b.id: b for s in page(both).sections for b in s.blocks if isinstance(b, Figure)}
    assert len(figures["running-best"].data["tests"]) == len(tests)
    assert (figures["exposure-weeks"].data["tries"]["mark"] == "test").sum() == len(tests)
    assert f"and {len(tests)} test days." in figures["running-best"].summary
    read = list(figures["running-best"].data["tests"]["reading"])
    assert read[0].endswith(
        ": test evening, snatch 2 of 3 made, best 57 kg; clean and jerk 2 of 3 made, best 75 kg"
    )


@pytest.mark.parametrize("stopped", [True, False])
@pytest.mark.parametrize("days", [0, 20, 21, 22, 64])
def test_whether_work_has_stopped_is_the_facts_reading_and_no_count_of_days(days: int, stopped: bool) -> None:
    made = sample.full()
    screening = made.facts.screening
    assert screening is not None
    upkeep = tuple(replace(one, days_since=days, stopped=stopped) for one in screening.upkeep)
    shown = page(told(made, screening=replace(screening, upkeep=upkeep)))
    figure = next(
        b for s in shown.sections for b in s.blocks if isinstance(b, Figure) and b.id == "positions-then-now"
    )
    read = words(shown, "positions")
    assert ("Work that stopped: " in read) is stopped
    rows = [row for row in figure.data["names"]["label"] if row.startswith(("ankles", "shoulders"))]
    assert len(rows) == 2
    assert all(("stopped" in row) is stopped for row in rows)
    assert ("No area's work has stopped" in read) is not stopped
