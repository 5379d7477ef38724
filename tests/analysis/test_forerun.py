"""What came before new bests and runs of misses."""

import datetime as dt

from reportgen.model.facts import Facts
from reportgen.trade import load
from reportgen.words import plain, spoken
from tests.analysis.logs import facts, row

MONDAY = dt.date(2026, 1, 5)
EVENTS = (20, 28, 36)  # weeks


def lifter(*, light: bool, event: str, weeks: tuple[int, ...] = EVENTS) -> Facts:
    """Forty weeks of squats and snatches; in some something happens, after three light weeks or not."""
    rows = []
    for week in range(40):
        monday = (MONDAY + dt.timedelta(weeks=week)).isoformat()
        easy = light and any(0 < one - week <= 3 for one in weeks)
        rows.append(row(monday, "back squat", 90, sets=2 if easy else 6, reps=3))
        rows.append(row(monday, "snatch", 50, sets=2))
    for place, week in enumerate(weeks):
        days = [(MONDAY + dt.timedelta(weeks=week, days=more)).isoformat() for more in (1, 2)]
        if event == "best":
            rows.append(row(days[0], "snatch", 52 + place))
        else:
            rows.append(row(days[0], "snatch", 50, sets=2, made=0, miss="forward"))
            rows.append(row(days[1], "snatch", 49, made=0, miss="behind"))
    return facts(*rows, as_of="2026-10-11")


def told(facts: Facts, what: str) -> list[str]:
    found = facts.before_bests if what == "best" else facts.before_misses
    return [plain(spoken(one.told)) for one in found or () if one.told is not None]


def test_three_new_bests_after_light_weeks_are_told_as_three_of_three() -> None:
    said = told(lifter(light=True, event="best"), "best")
    assert len(said) == 3
    assert "3 of 3 came after" in said[0]
    assert "less work than usual" in said[0]


def test_three_runs_of_misses_after_light_weeks_are_told_and_cover_two_neighbouring_days() -> None:
    found = lifter(light=True, event="misses")
    assert len(told(found, "misses")) == 3
    assert [len(one.dates) for one in found.before_misses or ()] == [2, 2, 2]
    assert told(found, "best") == []


def test_no_proof_is_claimed() -> None:
    for event in ("best", "misses"):
        assert all("no proof" in one for one in told(lifter(light=True, event=event), event))


def test_after_weeks_as_usual_nothing_is_told() -> None:
    for event in ("best", "misses"):
        found = lifter(light=False, event=event)
        assert len((found.before_bests if event == "best" else found.before_misses) or ()) == 3
        assert told(found, event) == []


def test_two_alike_are_no_pattern() -> None:
    assert load().value("before_alike") == 3
    assert told(lifter(light=True, event="best", weeks=EVENTS[:2]), "best") == []


def test_new_bests_within_the_same_weeks_count_once() -> None:
    assert told(lifter(light=True, event="best", weeks=(28, 29, 30)), "best") == []
