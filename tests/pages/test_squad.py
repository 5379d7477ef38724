"""The squad's index: one line a lifter, words stay words."""

import re
from pathlib import Path

from reportgen.pages import render_squad, write
from reportgen.pages.squad import picture
from tests.pages import sample


def test_there_is_one_line_a_lifter_with_what_a_coach_looks_for() -> None:
    page = render_squad(sample.squad())
    rows = re.findall(r"<tr data-name.*?</tr>", page, re.DOTALL)
    assert len(rows) == 3
    for words in ('href="maren.html"', "60 kg", "55 kg", "no heavy singles", "20 Feb 2026", "9 days"):
        assert words in rows[0]


def test_a_lifter_who_could_not_be_written_is_named_with_the_reason() -> None:
    assert re.search(r"<b>jonas</b>: training.csv is empty", render_squad(sample.squad()))


def test_hostile_words_stay_words() -> None:
    page = render_squad(sample.squad('"><script>alert(1)</script>'))
    assert page.count("<script>") == render_squad(sample.squad()).count("<script>")


def test_the_running_best_steps_up_and_ends_in_a_dot() -> None:
    drawn = picture((("2026-01-01", 50.0), ("2026-01-11", 52.0), ("2026-01-21", 54.0)))
    assert 'd="M4.0,22.0H56.0V13.0H108.0V4.0"' in drawn
    assert '<circle cx="108.0" cy="4.0"' in drawn


def test_a_best_that_never_moved_is_a_level_line() -> None:
    assert 'd="M4.0,13.0H108.0V13.0"' in picture((("2026-01-01", 50.0), ("2026-01-21", 50.0)))


def test_one_day_alone_draws_no_line() -> None:
    assert picture((("2026-01-01", 50.0),)) == picture(()) == ""


def test_the_index_is_written(tmp_path: Path) -> None:
    write(tmp_path / "index.html", render_squad(sample.squad()))
    assert "Squad of the north hall" in (tmp_path / "index.html").read_text(encoding="utf-8")
