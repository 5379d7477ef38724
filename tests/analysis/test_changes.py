"""What changed between two facts files: loads with their noise, needs, positions, checkpoints."""

import datetime as dt
from typing import Any

import pytest

from reportgen.analysis import earlier, followed
from reportgen.analysis.changes import between
from reportgen.model.changes import Changes, Followed
from reportgen.model.export import as_json
from reportgen.trade import load
from reportgen.words import plain, said, spoken
from tests.analysis.logs import MAN, dossier, facts, row, weeks_of


def json_facts(*rows: dict[str, object], as_of: str = "") -> dict[str, Any]:
    data: dict[str, Any] = as_json(facts(*rows, as_of=as_of))
    return data


def compare(before: dict[str, Any], now: dict[str, Any]) -> Changes:
    return between(before, now, source="the log", trade=load())


@pytest.mark.parametrize(
    ("now_kg", "clear"),
    # 4.0 % between the contests of one lifter, snatch (senior internationals, status C).
    [(52, False), (52.1, True), (47, True), (49, False)],
)
def test_a_load_that_moved_inside_the_scatter_is_no_clear_change(now_kg: float, clear: bool) -> None:
    before, now = json_facts(row("2026-01-05", "snatch", 50)), json_facts(row("2026-06-01", "snatch", now_kg))
    change = compare(before, now).bests[0]
    assert (change.lift, change.before_kg, change.now_kg, change.clear) == ("snatch", 50, now_kg, clear)
    assert change.scatter_kg == pytest.approx(2)


def test_a_lift_that_is_no_longer_current_is_not_a_loss() -> None:
    log = [row("2026-01-05", "back squat", 90), row("2026-01-05", "snatch", 50)]
    later = [*log, row("2026-06-01", "snatch", 50)]
    change = compare(json_facts(*log), json_facts(*later)).bests[0]
    assert (change.lift, change.now_kg, change.change_kg, change.clear) == ("back squat", None, None, None)


def test_the_gap_and_the_sessions_a_week_stand_side_by_side() -> None:
    log = [*weeks_of("snatch", 50, "2026-01-05", 8), *weeks_of("snatch", 54, "2026-03-02", 8)]
    log += weeks_of("snatch", 45, "2026-03-04", 8)
    found = compare(json_facts(*log, as_of="2026-03-01"), json_facts(*log))
    assert (found.gap_before_kg, found.gap_now_kg) == (14, 10)
    assert (found.full_before_per_week, found.full_now_per_week) == (1, 2)


def test_needs_that_went_stayed_and_came_are_told_apart_and_unknown_ones_are_not_guessed() -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    before = data | {"needs": [{"id": "a"}, {"id": "b"}]}
    now = data | {"needs": [{"id": "b"}, {"id": "c"}]}
    needs = compare(before, now).needs
    assert needs is not None
    assert (needs.gone, needs.stayed, needs.came) == (("a",), ("b",), ("c",))
    assert compare(data | {"needs": None}, now).needs is None


def test_a_need_that_became_a_question_is_neither_gone_nor_still_there() -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    now = data | {
        "needs": [],
        "not_tested": [{"id": "a", "kind": "question"}, {"id": "b", "kind": "not tested"}],
    }
    needs = compare(data | {"needs": [{"id": "a"}, {"id": "b"}]}, now).needs
    assert needs is not None
    assert (needs.asked, needs.gone, needs.stayed) == (("a",), ("b",), ())


def reading(latest: float, date: str, conditions: str = "") -> dict[str, Any]:
    item = {
        "item": "knee to wall", "side": "left", "kind": "flexibility", "latest": latest, "latest_date": date,
        "grade": "", "conditions": conditions, "unit": "cm", "smallest_real_change": 1.0,
    }  # fmt: skip
    return {"screening": {"items": [item]}}


@pytest.mark.parametrize(
    ("now", "conditions", "change", "clear"),
    # Smallest real change 1.0 cm (Chisholm et al. 2012, status S).
    [(9.0, "", 1.0, True), (8.9, "", pytest.approx(0.9), False), (9.5, "shoes", None, None)],
)
def test_positions_are_compared_under_like_conditions_against_the_smallest_real_change(
    now: float, conditions: str, change: float | None, clear: bool | None
) -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    before = data | reading(8.0, "2026-01-05")
    found = compare(before, data | reading(now, "2026-02-05", conditions)).screening[0]
    assert found.change == change
    assert found.clear is clear


def test_a_reading_that_nobody_took_again_is_no_change() -> None:
    data = json_facts(row("2026-01-05", "snatch", 50)) | reading(8.0, "2026-01-05")
    assert compare(data, data).screening == ()


def test_facts_of_an_older_version_that_lack_a_part_are_simply_not_known_there() -> None:
    now = json_facts(row("2026-01-05", "snatch", 50))
    old = {"facts_version": 0, "as_of": "2025-12-01", "lifter": now["lifter"]}
    found = compare(old, now)
    assert (found.gap_before_kg, found.needs, found.full_before_per_week) == (None, None, None)


@pytest.mark.parametrize(
    ("now_kg", "clear"),
    # The same 4.0 % of the single as for a best: 2 kg of 50 kg.
    [(52, False), (52.1, True), (48, False), (47.9, True)],
)
def test_a_gap_that_moved_inside_the_scatter_of_its_lift_is_no_clear_change(
    now_kg: float, clear: bool
) -> None:
    before, now = json_facts(row("2026-01-05", "snatch", 50)), json_facts(row("2026-06-01", "snatch", now_kg))
    found = compare(before, now)
    assert (found.gap_scatter_kg, found.gap_clear) == (2.0, clear)


def test_where_the_goal_moved_the_lift_itself_is_compared_and_with_another_lift_nothing() -> None:
    data, now = json_facts(row("2026-01-05", "snatch", 50)), json_facts(row("2026-06-01", "snatch", 54))
    goal = data["goals"][0]
    lower = compare(data | {"goals": [goal | {"goal_kg": 60.0, "gap_kg": 10.0}]}, now)
    assert (lower.goal_before_kg, lower.gap_before_kg, lower.gap_now_kg) == (60.0, 10.0, 10.0)
    assert (lower.lift_change_kg, lower.gap_clear) == (4.0, True)
    other = compare(data | {"goals": [goal | {"lift": "clean and jerk"}]}, now)
    assert (other.gap_before_kg, other.gap_now_kg, other.full_before_per_week) == (None, 10, None)


def test_one_session_more_or_fewer_is_no_clear_change_of_sessions_a_week() -> None:
    log = weeks_of("snatch", 50, "2026-01-05", 16)
    before = json_facts(*log[:8], as_of="2026-03-01")
    for more, clear in ((1, False), (2, True)):
        now = json_facts(*log, *weeks_of("snatch", 45, "2026-03-04", more), as_of="2026-04-26")
        found = compare(before, now)
        assert (found.full_band, found.full_clear) == (1 / 8, clear)


def test_only_whole_weeks_are_compared_and_a_young_log_says_how_many_it_had() -> None:
    log = [*weeks_of("snatch", 50, "2026-01-05", 10)]
    before = json_facts(*log[:4], as_of="2026-01-28")  # a Wednesday: the fourth week is not over
    found = compare(before, json_facts(*log, as_of="2026-03-11"))
    assert (found.full_weeks_before, found.full_weeks_now) == (3, 5)
    soon = compare(before, json_facts(*log[:5], as_of="2026-02-03"))
    assert (soon.full_weeks_now, soon.full_now_per_week, soon.full_before_per_week) == (0, None, None)


BLOCK: dict[str, Any] = {
    "weeks": [
        {
            "sessions": [
                {
                    "date": day,
                    "sets": [
                        {"lift": "snatch", "sets": 4, "kg": 50.0},
                        {"lift": "snatch + overhead squat", "sets": 2, "kg": 40.0, "variant": ""},
                        {"lift": "back squat", "sets": 1, "kg": None},
                    ],
                }
                for day in days
            ]
        }
        for days in (("2026-03-02", "2026-03-05"), ("2026-03-09", "2026-03-12"), ("2026-03-16",))
    ]
}


def session(day: str, kg: float) -> list[dict[str, object]]:
    pair: dict[str, Any] = {"parts": 2, "sets": 2, "line": 900 + int(day[-2:])}
    return [
        row(day, "snatch", kg, sets=4),
        row(day, "snatch", 0.8 * kg, **pair),
        row(day, "overhead squat", 0.8 * kg, part=1, **pair),
    ]


def proposed(*rows: dict[str, object], as_of: str, block: Any = BLOCK) -> Followed | None:
    found = dossier(row("2026-03-01", "snatch", 50), *rows, as_of=as_of)
    return followed.proposal(
        block, found.tables.sets, dt.date(2026, 3, 1), dt.date.fromisoformat(as_of), load()
    )


def test_what_an_earlier_dossier_proposed_is_set_against_what_was_done_since() -> None:
    rows = [*session("2026-03-02", 51), *session("2026-03-06", 51), *session("2026-03-09", 51)]
    found = proposed(*rows, as_of="2026-03-15")
    assert found is not None
    assert (found.what, found.sessions_planned, found.sessions_done) == ("proposal", 4, 3)
    assert (found.sets_planned, found.sets_done) == (24, 18)
    assert found.load_off == pytest.approx(0.02)


def test_sessions_proposed_for_later_are_not_missed_yet_and_none_may_be_due() -> None:
    found = proposed(*session("2026-03-02", 50), as_of="2026-03-02")
    assert found is not None
    assert (found.sessions_planned, found.sessions_done, found.load_off) == (1, 1, 0)
    later = {"weeks": BLOCK["weeks"][1:]}
    none_due = proposed(*session("2026-03-02", 50), as_of="2026-03-02", block=later)
    assert none_due is not None
    assert none_due.sessions_planned == 0
    assert proposed(as_of="2026-03-02", block={"weeks": []}) is None


def test_what_was_done_up_to_the_earlier_review_day_keeps_no_proposed_session() -> None:
    block = {"weeks": [{"sessions": BLOCK["weeks"][0]["sessions"][1:]}]}
    found = dossier(*session("2026-03-03", 50), as_of="2026-03-08")
    kept = followed.proposal(block, found.tables.sets, dt.date(2026, 3, 4), dt.date(2026, 3, 8), load())
    assert kept is not None
    assert (kept.sessions_planned, kept.sessions_done, kept.sets_done) == (1, 0, 0)


def test_a_plan_is_told_with_its_sets_and_loads_from_the_whole_weeks_since() -> None:
    weeks = [
        {"week": "2026-W09", "sessions_planned": 9, "sessions_done": 9, "sets_planned": 9, "sets_done": 9},
        {"week": "2026-W10", "sessions_planned": 3, "sessions_done": 2, "sets_planned": 30, "sets_done": 10,
         "load_off": 0.10},
        {"week": "2026-W11", "sessions_planned": 3, "sessions_done": 3, "sets_planned": 30, "sets_done": 30,
         "load_off": -0.02},
    ]  # fmt: skip
    found = followed.plan({"planned_done": {"weeks": weeks}}, dt.date(2026, 2, 25), load())
    assert found is not None
    assert (found.sessions_planned, found.sessions_done) == (6, 5)
    assert (found.sets_planned, found.sets_done) == (60, 40)
    assert found.load_off == pytest.approx(0.01)
    assert found.load_near
    weeks[1]["load_off"] = 0.3
    off = followed.plan({"planned_done": {"weeks": weeks}}, dt.date(2026, 2, 25), load())
    assert off is not None
    assert not off.load_near
    assert followed.plan({"planned_done": None}, dt.date(2026, 2, 25), load()) is None


@pytest.mark.parametrize(
    ("table", "rows", "name"),
    [
        ("current", [{"lift": "snatch"}], "bests"),
        ("current", [{"lift": "snatch", "kg": "fifty"}], "bests"),
        ("current", {"lift": "snatch"}, "bests"),
        ("current", [["snatch", 50]], "bests"),
        ("current", [{"lift": "snatch", "kg": float("inf")}], "bests"),
        ("current", [{"lift": "snatch", "kg": True}], "bests"),
        ("goals", [{"gap_kg": 4}], "the goal"),
        ("goals", [{"lift": "snatch", "gap_kg": "4"}], "the goal"),
        ("indicators", [{"lift": "back squat", "current_kg": 90}], "what carries the goal"),
        ("needs", [{"rank": 1}], "findings"),
        ("needs", [{"id": "chase", "evidence": [{"text": "no file"}]}], "findings"),
        ("exposure", {"weeks": [{"week": "W5", "full": 1}]}, "sessions a week"),
        ("exposure", {"weeks": [{"week": "9999-W52", "full": 1}]}, "sessions a week"),
        ("exposure", [], "sessions a week"),
        ("screening", {"items": [{"item": "knee to wall"}]}, "positions"),
        ("screening", {"items": None}, "positions"),
        ("screening", {"items": [{"item": "a", "side": "left", "latest": "8"}]}, "positions"),
        ("technique", {"checkpoints": [{"checkpoint": "start hips"}]}, "technique"),
        ("block", {"weeks": [{"sessions": [{"date": "soon", "sets": []}]}]}, "the proposal"),
        ("lifter", {"name": 3}, "who it is of"),
        ("span", "all year", "the days of the log"),
    ],
)
def test_a_table_with_a_row_that_can_not_be_read_is_left_out_whole_and_named(
    table: str, rows: Any, name: str
) -> None:
    now = json_facts(row("2026-01-05", "snatch", 50), row("2026-01-06", "back squat", 90))
    good = json_facts(row("2026-01-01", "snatch", 48))
    broken = good | {table: rows}
    found = compare(broken, now)
    assert list(map(said, found.unread)) == [name]
    assert table not in earlier.read(broken).facts
    assert compare(good, now).unread == ()


@pytest.mark.parametrize(
    ("broken", "why"),
    [
        ({"as_of": "gestern"}, "no review day"),
        ({"as_of": None}, "no review day"),
        ({"facts_version": 7}, "7"),
    ],
)
def test_facts_without_a_day_or_of_a_newer_version_are_refused(broken: dict[str, Any], why: str) -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    with pytest.raises(earlier.UnreadableError) as refused:
        compare(data | broken, data)
    assert why in said(refused.value.why)


def need(name: str, *files: str) -> dict[str, Any]:
    return {"id": name, "evidence": [{"file": file, "source_kind": "indicator"} for file in files]}


def test_a_finding_whose_source_one_side_lacked_is_neither_new_nor_gone() -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    seen = data | reading(8.0, "2026-01-05")
    screened = need("position_not_reached", "screening.csv", "training.csv")
    squat = need("back_squat_short", "training.csv")
    asked = need(
        "power_snatch_near_snatch", "training.csv", "screening.csv"
    )  # every witness makes its chance
    found = compare(data | {"needs": []}, seen | {"needs": [screened, squat, asked]}).needs
    assert found is not None
    assert (found.came, found.unsure) == (
        ("back_squat_short",),
        ("position_not_reached", "power_snatch_near_snatch"),
    )
    back = compare(seen | {"needs": [screened, squat]}, data | {"needs": []}).needs
    assert back is not None
    assert (back.gone, back.unsure) == (("back_squat_short",), ("position_not_reached",))
    both = compare(seen | {"needs": []}, seen | {"needs": [screened]}).needs
    assert both is not None
    assert both.came == ("position_not_reached",)


def test_positions_and_checkpoints_of_which_nothing_was_known_then_are_missing_not_new() -> None:
    data = json_facts(row("2026-01-05", "snatch", 50))
    checks = {"technique": {"checkpoints": [{"checkpoint": "start hips", "lift": "snatch", "latest": "off"}]}}
    found = compare(data, data | reading(8.0, "2026-01-05") | checks)
    assert found.missing == ("positions", "technique")
    assert (found.screening, found.technique) == ((), ())


def test_a_day_before_the_log_began_says_when_it_began_and_finds_nothing_new() -> None:
    log = [row("2026-01-05", "snatch", 50), row("2026-01-06", "back squat", 90)]
    found = compare(json_facts(*log, as_of="2025-12-01"), json_facts(*log))
    assert found.log_begins == dt.date(2026, 1, 5)
    assert (found.needs, found.bests, found.indicators) == (None, (), ())


def test_a_retest_of_the_first_need_is_told_made_or_failed() -> None:
    rows = [row("2026-02-01", "back squat", 120, effort=9.5), row("2026-02-02", "snatch", 80)]
    for kg, made, told in ((125, 1, "better"), (124, 0, "124 kg was tried and missed")):
        later = (
            row("2026-05-01", "back squat", 118, effort=9.0),
            row("2026-05-02", "back squat", kg, made=made),
        )
        one = dossier(*rows, *later, lifter=MAN, as_of="2026-06-01")
        earlier = as_json(dossier(*rows, lifter=MAN, as_of="2026-03-01").facts) | {
            "needs": [{"id": "back_squat_short"}]
        }
        found = between(earlier, as_json(one.facts), source="the log", trade=load(), made=one).retest
        assert found is not None
        assert told in plain(spoken(found))
