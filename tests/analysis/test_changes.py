"""What changed between two facts files: loads with their noise, needs, positions, checkpoints."""

from typing import Any

import pytest

from reportgen.analysis.changes import between
from reportgen.model.changes import Changes
from reportgen.model.export import as_json
from reportgen.trade import load
from tests.analysis.logs import facts, row, weeks_of


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
