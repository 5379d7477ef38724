"""The words of logs: one meaning a word in a language, and which words differ between languages."""

import pytest

from reportgen.intake import marks
from reportgen.intake.marks import Says
from reportgen.trade import TradeError, load
from reportgen.trade.tongue import language, one, speaking, tongues

EIGHT = ("English", "French", "German", "Italian", "Polish", "Portuguese", "Russian", "Spanish")


def test_there_are_eight_languages_with_the_same_sorts_of_words() -> None:
    assert tuple(tongues()) == EIGHT
    for tongue in tongues().values():
        assert set(tongue.said) == {
            *("miss", "sure", "doubt", "open", "alone", "good", "bad", "last", "every", "plain", "common"),
            *("first", "second", "third", "one", "two", "three", "only", "nouns", "fine"),
            *("harmless", "tail"),
        }
        assert set(tongue.days.values()) == set(range(7))
        assert set(tongue.months.values()) == set(range(1, 13))
        assert {"date", "lift", "sets", "reps", "remark"} <= set(tongue.headings.values())


def test_no_word_means_two_things_in_one_language() -> None:
    known = load().words["lift"]
    for tongue in tongues().values():
        assert not tongue.said["good"] & tongue.said["bad"]
        assert not tongue.said["miss"] & tongue.said["sure"]
        assert not set(tongue.bare) & set(tongue.lifts)
        assert {form for form, name in tongue.lifts.items() if known.get(form, name) != name} == set()
    with pytest.raises(TradeError, match=r"'a' stands for 'date' and for 'lift'"):
        one(
            "x.toml",
            {"name": "X", "headings": {"date": ["a"], "lift": ["a"]}, "lifts": {}, "days": {}, "months": {}},
        )


def test_words_that_differ_between_languages_are_these() -> None:
    found: dict[str, set[str]] = {}
    for tongue in tongues().values():
        for form, name in (*tongue.headings.items(), *tongue.lifts.items()):
            found.setdefault(form, set()).add(name)
    assert {form for form, names in found.items() if len(names) > 1} == {"n° serie", "n°serie", "prova"}
    assert speaking("Italian").headings["prova"] == "attempt"
    assert speaking("Portuguese").headings["prova"] == "event"
    assert "prova" not in speaking("English").headings


def test_the_language_of_a_log_is_that_of_most_of_its_words() -> None:
    assert language(["Datum", "Übung", "Gewicht", "Reißen"]) == "German"
    assert language(["Data", "Exercício", "Carga", "Arranco"]) == "Portuguese"
    assert language(["Date", "Exercise", "Snatch"]) == "English"


@pytest.mark.parametrize("name", EIGHT)
def test_words_for_a_miss_say_so_and_clear_denials_do_not(name: str) -> None:
    said = tongues()[name].said
    assert [word for word in said["miss"] if marks.says(word) is Says.NOTHING] == []
    assert [word for word in said["sure"] if marks.says(word) is not Says.NOTHING] == []
    assert [word for word in (*said["open"], *said["alone"]) if marks.says(word) is Says.NOTHING] == []


@pytest.mark.parametrize(
    "text",
    [
        "missed 3rd",
        "fail",
        "no lift",
        "X",
        "raté",
        "Fehlversuch",
        "nieudane",
        "не взял",
        "❌",
        "lost it behind",
        "nulo",
    ],
)
def test_a_remark_tells_of_a_miss(text: str) -> None:
    assert marks.says(text) is Says.MISS


@pytest.mark.parametrize(
    "text", ["no misses", "didn't miss", "not a miss", "aucun raté", "keine Fehlversuche", "easy"]
)
def test_a_remark_tells_of_none(text: str) -> None:
    assert marks.says(text) is Says.NOTHING


@pytest.mark.parametrize(
    "text", ["almost missed", "never even missed", "missed last week", "miss?", "to failure", "no"]
)
def test_a_remark_that_is_not_clear_is_no_make(text: str) -> None:
    assert marks.says(text) is Says.UNCLEAR


@pytest.mark.parametrize(
    "text",
    ["lost one behind", "lost two forward", "lost 1", "lost 2 in front", "lost first", "last one behind"],
)
def test_so_many_lost_of_several_are_no_makes(text: str) -> None:
    assert marks.says(text) is not Says.NOTHING


@pytest.mark.parametrize(
    "text", ["lost one kilo since monday", "lost 2 kg", "lost 1 hour of sleep", "lost one glove"]
)
def test_so_much_lost_of_something_else_is_no_miss(text: str) -> None:
    assert marks.says(text) is Says.NOTHING
