"""Tables that ship with the program and that nobody hands in: what they name is there, and they add up."""

import re
from collections import Counter
from pathlib import Path

import pytest

import reportgen
from reportgen.trade import load
from reportgen.trade.alarms import alarms
from reportgen.trade.causes import causes
from reportgen.trade.choices import choices
from reportgen.trade.places import places
from reportgen.trade.tongue import tongues

TRADE = load()
#: Modules that ask for a kind of alarm.
_ASKING = ("alarms.py", "told.py", "announced.py", "remarks.py")


def test_every_kind_of_alarm_is_asked_for_by_its_name() -> None:
    folder = Path(reportgen.__file__).parent / "analysis"
    asked = "".join((folder / name).read_text("utf-8") for name in _ASKING)
    assert set(alarms()) <= set(re.findall(r"\"([a-z]+)\"", asked))
    assert {"symptom", "birth", "surgery", "strict", "hold", "medicine", "weight"} < set(alarms())


def test_the_misses_of_a_cause_are_shares_of_those_that_everybody_has() -> None:
    made = causes()
    for shares in made.usual.values():
        assert sum(shares.values()) == pytest.approx(1.0)
    for cause in made.causes.values():
        for lift, raised in cause.misses.items():
            assert set(raised) <= set(made.usual[lift]), cause.id
            assert sum(raised.values()) < 1, cause.id


def test_something_is_left_for_nothing_stands_out() -> None:
    assert 0 < causes().nothing(causes().usual) < 1


def test_what_a_block_is_made_of_are_lifts_of_the_catalogue_with_a_number_each() -> None:
    for one in choices().derivatives:
        assert {one.goal, *one.parts, *filter(None, (one.support,))} <= set(TRADE.lifts)
        assert len(one.reps.split("+")) == len(one.parts)
    for start in choices().starts.values():
        assert {start.lift, start.of} <= set(TRADE.lifts)
        assert start.source in TRADE.sources


def test_a_word_means_one_place_of_the_body() -> None:
    words = Counter(word for place in places().values() for word in place.words)
    assert words.most_common(1)[0][1] == 1


def test_every_language_speaks_of_lifts_of_the_catalogue() -> None:
    for tongue in tongues().values():
        assert {*tongue.lifts.values(), *(one.lift for one in tongue.bare.values())} <= set(TRADE.lifts)
