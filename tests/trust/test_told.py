"""Reasons that must be the true ones, and what only a remark or a note tells."""

from pathlib import Path

from tests.trust.test_trust import TOML, Odd, away, facts, lifts, proposed


def test_a_goals_date_with_no_day_to_train_on_before_it_has_its_attempts_and_says_nothing_of_pain(
    tmp_path: Path,
) -> None:
    goal_day = (
        "by = 2026-03-10\n"  # the Tuesday after; the lifter trains on Mondays, Wednesdays and Saturdays
    )
    block = proposed(facts(tmp_path / "runa", Odd(toml=TOML + goal_day)))
    assert len(block.attempts) == 3
    assert "hurts" not in block.reason


def test_a_block_whose_every_day_is_away_says_so_and_nothing_of_pain(tmp_path: Path) -> None:
    block = proposed(facts(tmp_path / "runa", Odd(files=away("2026-03-05,2026-06-30,travel,"))))
    assert not lifts(block)
    assert "away.csv" in block.reason
    assert "hurts" not in block.reason
