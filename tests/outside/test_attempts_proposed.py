"""Proposed attempts, worked by hand from the rules of practice and of the federation."""

import pytest

from reportgen.analysis.block import attempts
from reportgen.trade import load

TRADE = load()
Tries = list[tuple[float, bool]]


def three(history: Tries, current_kg: float, goal_kg: float | None) -> list[float]:
    found = attempts.of_lift(history, current_kg, goal_kg, "snatch", "men", TRADE)
    return [one.kg for one in found]


def test_a_sure_lifter_opens_at_93_per_cent_and_reaches_a_near_goal_with_the_third() -> None:
    # Common practice (P): opener 90-93 % of 100 made 9 of 10; second 97 %; 100 is 3.1 % up, under 4 %.
    assert three([(92.0, True)] * 10, 100, 100) == [93, 97, 100]


def test_a_goal_out_of_reach_is_not_asked_for_and_the_third_says_how_far_it_lies() -> None:
    # 89: opener floor(0.93 x 89) = 82; second floor(0.97 x 89) = 86; third floor(1.04 x 86) = 89 (C).
    found = attempts.of_lift([(82.0, True)] * 10, 89, 95, "snatch", "men", TRADE)
    assert [one.kg for one in found] == [82, 86, 89]
    assert "equals the current best" in found[2].why
    assert "95 kg" in found[2].why


def test_an_unsure_lifter_opens_lower_and_is_not_sent_up_in_one_long_step() -> None:
    history: Tries = [(51.0, True)] * 10 + [(53.0, False)] * 10
    first, second, third = attempts.of_lift(history, 59, 64, "snatch", "women", TRADE)
    assert first.kg < 0.9 * 59
    assert second.kg <= first.kg * 1.08
    assert "no longer step" in second.why
    assert "under the current best of 59 kg" in third.why


def test_after_a_miss_the_same_weight_is_asked_again_and_after_the_third_nothing() -> None:
    # IWF Technical and Competition Rules (S): the load never goes down; three attempts.
    found = attempts.of_lift([(92.0, True)] * 10, 100, 100, "snatch", "men", TRADE)
    assert [one.after_miss_kg for one in found] == [93, 97, None]


@pytest.mark.parametrize(
    ("lift", "opener", "jumps"),
    # Senior internationals 1998-2023 (C): opener / best of the day; snatch jumps of 3.9 and 3.0 %.
    [("snatch", 0.964, (0.039, 0.030)), ("clean and jerk", 0.968, None)],
)
def test_the_published_medians_stand_beside_the_attempts(
    lift: str, opener: float, jumps: tuple[float, float] | None
) -> None:
    found = attempts.of_lift([(92.0, True)] * 10, 100, 100, lift, "men", TRADE)
    assert found[0].published_share == opener
    if jumps is not None:
        assert (found[1].published_share, found[2].published_share) == jumps


@pytest.mark.parametrize(
    ("kg", "standards", "words"),
    # Bar arithmetic (C): 100 = 25 + 10 + 2.5 a side on 20 with collars; 63 on 15 = 20 + 1.5.
    [
        (100, "men", "bar 20, a side 25 + 10 + 2.5 + collar 2.5"),
        (101, "men", "bar 20, a side 25 + 10 + 2.5 + 0.5 + collar 2.5"),
        (63, "women", "bar 15, a side 20 + 1.5 + collar 2.5"),
    ],
)
def test_the_loading_line_is_the_federations_arithmetic(kg: float, standards: str, words: str) -> None:
    assert attempts.loading(kg, standards, TRADE) == words
