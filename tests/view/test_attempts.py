"""The attempts of a proposed day, as a page says them."""

import pytest

from reportgen.trade import load
from reportgen.trade.choices import choices
from reportgen.view import build
from reportgen.view.page import Table
from reportgen.view.reader import plain
from tests.view import sample


def attempts() -> Table:
    page = build(sample.full(), load())
    return next(
        b for s in page.sections for b in s.blocks if isinstance(b, Table) and b.id == "block-attempts"
    )


def cell(row: int, head: str) -> str:
    table = attempts()
    return plain(table.rows[row][table.head.index(head)].text, "kg")


def test_the_chance_of_an_attempt_stands_beside_it_in_words_and_a_round_number() -> None:
    assert cell(0, "chance") == "about 85 %: goes on most days like this"
    assert cell(1, "chance") == "about 60 %: made more often than missed"


def test_what_comes_after_a_make_and_after_a_miss_is_said_of_all_but_the_last() -> None:
    assert cell(0, "then") == "made: 59 kg; missed: 56 kg again"
    assert cell(1, "then") == "it ends"


@pytest.mark.parametrize("chance", [0.0, 0.01, 0.25, 0.44, 0.5, 0.79, 0.8, 1.0])
def test_every_chance_has_its_words_and_a_likelier_one_never_the_lesser(chance: float) -> None:
    said = [one.words for one in choices().chances]
    assert choices().chance(chance) in said
    assert said.index(choices().chance(min(1.0, chance + 0.01))) <= said.index(choices().chance(chance))
