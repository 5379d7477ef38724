"""The squad's index: one line a lifter, words stay words."""

import datetime as dt
import re
from dataclasses import replace
from pathlib import Path

from reportgen.pages import render_squad, write
from reportgen.pages.squad import picture
from tests.pages import sample

LINE = sample.squad().rows[0].line
FIRST, LAST = dt.date(2026, 1, 1), dt.date(2026, 2, 1)


def drawn(*best: tuple[str, float], goal_kg: float | None = None) -> str:
    return picture(replace(LINE, best=best, goal_kg=goal_kg), FIRST, LAST)


def test_there_is_one_line_a_lifter_with_what_a_coach_looks_for() -> None:
    page = render_squad(sample.squad())
    rows = re.findall(r"<tr data-name.*?</tr>", page, re.DOTALL)
    assert len(rows) == 3
    for words in (
        'href="maren.html"', "60 kg", "now <data", "55 kg", "no heavy singles",
        "Retest due: speed under the bar.", "7 of 8 planned", "20 Feb 2026, 9 days ago",
    ):  # fmt: skip
        assert words in rows[0]
    assert "40 days, 10 Apr 2026" in rows[1]


def test_each_lifter_stands_in_their_own_unit_for_eye_and_ear() -> None:
    rows = re.findall(r"<tr data-name.*?</tr>", render_squad(sample.squad()), re.DOTALL)
    assert " lb" not in rows[0]
    assert " kg" not in rows[2]
    assert 'aria-label="best 125.7 lb, goal snatch 136.7 lb"' in rows[2]


def test_where_each_first_need_lies_is_a_filter_with_its_count() -> None:
    page = render_squad(sample.squad())
    found = re.findall(r"<button[^>]*>(.*?) <b>(\d+)</b></button>", page)
    assert found == [("all", "3"), ("technique", "2"), ("programming", "1")]


def test_a_lifter_who_could_not_be_written_is_named_with_the_reason() -> None:
    assert re.search(r"<b>jonas</b>: training.csv is empty", render_squad(sample.squad()))


def test_hostile_words_stay_words() -> None:
    page = render_squad(sample.squad('"><script>alert(1)</script>'))
    assert page.count("<script>") == render_squad(sample.squad()).count("<script>")


def test_a_best_stands_on_its_day_and_goes_on_level_to_the_squads_day() -> None:
    made = drawn(("2026-01-01", 50.0), ("2026-01-11", 52.0))
    assert 'd="M4.0,30.0H44.0V4.0H128.0"' in made
    assert '<circle cx="44.0" cy="4.0"' in made


def test_all_bests_lie_on_one_axis_of_days_and_the_goal_is_dashed_above() -> None:
    made = drawn(("2024-05-01", 48.0), ("2025-12-01", 50.0), ("2026-01-11", 52.0), goal_kg=54.0)
    assert 'd="M4.0,30.0H44.0V17.0H128.0"' in made  # the best from before begins the line; 48 kg is over
    assert 'd="M4,4.0H128" stroke="var(--goal)"' in made


def test_a_best_that_never_moved_is_a_level_line_also_of_one_day() -> None:
    assert 'd="M4.0,17.0H128.0"' in drawn(("2025-06-01", 50.0))


def test_nothing_is_drawn_without_a_best() -> None:
    assert drawn() == drawn(("2026-03-01", 50.0)) == picture(LINE, None, None) == ""


def test_the_index_is_written(tmp_path: Path) -> None:
    write(tmp_path / "index.html", render_squad(sample.squad()))
    assert "Squad of the north hall" in (tmp_path / "index.html").read_text(encoding="utf-8")
