"""Where a figure of the goal's lift is not sure, no statement of the page takes it for sure."""

from dataclasses import replace

import pytest

from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.trade import load
from reportgen.view import head
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight
from tests.view.sample import full

SLIP = Unsure(file="training.csv", line=7, reason="slip", stops=("snatch",), lift="snatch", found="180 kg")
DOUBTS = (
    SLIP,
    replace(SLIP, reason="pounds_likely", lift="", stops=("back squat", "snatch"), likely="80 kg"),
    replace(SLIP, reason="pounds_all_likely", lift="", line=0, stops=(EVERYTHING,), likely="80 kg"),
)


def reader(*unsure: Unsure) -> Reader:
    made = full()
    goal = replace(made.facts.goals[0], gap_kg=0.0)
    facts = replace(made.facts, goals=(goal, *made.facts.goals[1:]), unsure=unsure)
    return Reader(dossier=replace(made, facts=facts), trade=load(), unit="kg")


def plain(phrase: Phrase) -> str:
    return "".join("#" if isinstance(part, Weight) else part for part in phrase)


@pytest.mark.parametrize("doubt", DOUBTS, ids=lambda one: one.reason)
def test_a_goal_is_not_called_reached_where_its_figure_is_not_sure(doubt: Unsure) -> None:
    mine = reader(doubt)
    assert plain(head.gap(mine)) == "not sure"
    said = plain(head.head(mine, "review").sentence)
    assert "not sure" in said
    assert "reached" not in said


def test_rows_of_one_doubt_are_one_sentence_that_names_them_and_one_line_lets_them_stand() -> None:
    rows = [replace(SLIP, line=line, found=f"{kg} kg") for line, kg in ((7, 180), (9, 190), (12, 175))]
    other = replace(SLIP, reason="remark_pain", line=20, found="sore", lift="", stops=("back squat",))
    top = head.head(reader(*rows, other, replace(other, line=23, found="hurts", lines=(25, 26))), "review")
    told = [one for one in map(plain, top.alerts) if "training.csv" in one]
    assert len(told) == 2
    assert told[0].startswith("training.csv, line 7: 180 kg in the snatch is far over")
    assert told[0].endswith("The same in line 9 (190 kg) and line 12 (175 kg).")
    assert told[1].endswith("The same in line 23 and 2 more (hurts).")
    places = ", ".join(f'"training.csv:{line}"' for line in (7, 9, 12, 20, 23))
    assert plain(top.let) == f"In lifter.toml: confirmed = [{places}]"


@pytest.mark.parametrize("reason", ["pain_row", "away_open", "born"])
def test_a_doubt_about_the_lifter_leaves_the_figures_as_they_are(reason: str) -> None:
    mine = reader(replace(SLIP, reason=reason, stops=(EVERYTHING,)))
    assert "reached" in plain(head.gap(mine))


def test_an_open_injury_is_the_first_sentence_and_stands_once() -> None:
    made = full()
    pain = made.facts.pain
    assert pain is not None
    facts = replace(made.facts, pain=replace(pain, nothing_proposed=True))
    top = head.head(Reader(dossier=replace(made, facts=facts), trade=load(), unit="kg"), "review")
    assert plain(top.sentence).startswith("Open pain: ")
    assert plain(top.sentence).endswith("Nothing is proposed: see a clinician first.")
    assert not [one for one in top.alerts if plain(one).startswith("Open pain")]


def test_what_stops_every_proposal_is_said_before_what_holds_the_goal_back() -> None:
    operated = replace(SLIP, file="away.csv", reason="pain_surgery", lift="", stops=(EVERYTHING,))
    top = head.head(reader(operated), "review")
    assert plain(top.sentence) == "Nothing is proposed until what stands below is settled."
    assert any("away.csv" in plain(one) for one in top.alerts)
    assert (top.sure, top.small) == ("", None)
