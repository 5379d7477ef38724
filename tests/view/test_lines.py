"""One line each: what came before, a skipped lift, what a further goal needs first; none without."""

from dataclasses import replace

from reportgen.model.facts import FirstNeed
from reportgen.model.findings import CameBefore
from reportgen.model.proposal import Skipped
from reportgen.model.say import say
from reportgen.trade import load
from reportgen.view import build
from tests.view import sample
from tests.view.reading import section

SKIPPED = Skipped(lift="snatch pull", planned=6, skipped=3, rest_planned=12, rest_skipped=0)
TOLD = say("needs.before.bests", times=3, of=4, held=say("needs.before.held.load_less", lift=""))


def test_each_line_stands_in_its_section_and_without_the_fact_nothing_is_said() -> None:
    bare = sample.full()
    facts = bare.facts
    assert facts.planned_done is not None
    goal = replace(
        facts.goals[0],
        lift="clean and jerk",
        goal_kg=120.0,
        first_need=FirstNeed(id="", confidence="", claim=say("needs.second.nothing")),
    )
    day = facts.as_of
    told = replace(
        bare,
        facts=replace(
            facts,
            goals=(*facts.goals, goal),
            before_bests=(CameBefore(dates=(day,)), CameBefore(dates=(day,), told=TOLD)),
            planned_done=replace(facts.planned_done, skipped=(SKIPPED,)),
        ),
    )
    for address, words in (
        ("needs", "Clean and jerk 120 kg: nothing stands out."),
        ("misses", "New bests: 3 of 4 came after"),
        ("block", "Snatch pull: skipped 3 of 6 times"),
    ):
        assert words in section(build(told, load()), address)
        assert words not in section(build(bare, load()), address)
