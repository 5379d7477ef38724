"""The squad's index: who needs a look first, and why, on one day for all."""

import datetime as dt
from dataclasses import replace
from statistics import median
from typing import Any

import pytest

from reportgen import face
from reportgen.model.changes import Changes, NeedChanges
from reportgen.model.look import Look
from reportgen.model.proposal import PlannedDone, PlannedWeek
from reportgen.trade import load
from reportgen.view import squad_line
from reportgen.view.page import Edition, SquadPage
from reportgen.view.squad import squad_page
from tests.view import sample
from tests.view.test_editions import CHANGES

TRADE = load()
LINE = squad_line(sample.full(), TRADE)
DAY = dt.date(2026, 11, 7)
CALM = Look(as_of=DAY, last=DAY, by=dt.date(2027, 3, 1))


def day(iso: str) -> dt.date:
    return dt.date.fromisoformat(iso)


def page(*looks: tuple[str, Look], edition: Edition = "review") -> SquadPage:
    lines = [replace(LINE, name=name, look=look) for name, look in looks]
    return squad_page("Squad", "", lines, (), edition, TRADE)


def why(**more: Any) -> tuple[str, ...]:
    look: Look = replace(CALM, **more)
    return next(row.why for row in page(("a", look), ("b", CALM)).rows if row.line.name == "a")


REASONS: tuple[tuple[dict[str, Any], str], ...] = (
    ({"held": "Open pain: knee."}, "Open pain: knee."),
    ({"came": True, "need": "chase", "since": day("2026-09-01")}, "New first need since 1 Sep 2026."),
    (
        {"went": "chase", "since": day("2026-09-01")},
        "No longer found since 1 Sep 2026: heavy days close together.",
    ),
    ({"retest": DAY, "retest_of": "chase"}, "Retest due 7 Nov 2026: heavy days close together."),
    ({"test": day("2026-11-21"), "contest": True}, "Contest Sat 21 Nov 2026, 14 days from now."),
    ({"wanted": 8, "done": 6, "planned": True}, "6 of 8 planned sessions done."),
    ({"last": day("2026-10-27")}, "No session for 11 days."),
)


@pytest.mark.parametrize(("more", "said"), REASONS)
def test_a_reason_to_look_is_said_in_words(more: dict[str, Any], said: str) -> None:
    assert why(**more) == (said,)


@pytest.mark.parametrize(
    "more",
    [
        {},
        {"retest": day("2026-11-08"), "retest_of": "chase"},
        {"test": day("2026-11-22")},
        {"test": day("2026-11-01")},
        {"wanted": 8, "done": 7},
        {"last": day("2026-10-28")},
        {"last": day("2026-10-27"), "away_from": day("2026-11-01"), "away_to": day("2026-11-20")},
    ],
)
def test_what_is_as_it_should_be_is_no_reason(more: dict[str, Any]) -> None:
    assert why(**more) == ()


def test_who_needs_a_look_first_stands_first_then_the_nearest_goal() -> None:
    calm = [("far", replace(CALM, by=day("2027-05-01"))), ("near", CALM), ("none", replace(CALM, by=None))]
    looks = [(str(n), replace(CALM, **more)) for n, (more, _) in enumerate(REASONS)]
    names = [row.line.name for row in page(*calm, *reversed(looks)).rows]
    assert names == [*"0123456", "near", "far", "none"]


def test_of_two_with_the_same_first_reason_the_one_with_more_reasons_stands_first() -> None:
    sore = replace(CALM, held="Open pain: knee.")
    both = replace(sore, wanted=8, done=2)
    assert [row.line.name for row in page(("a", sore), ("b", both)).rows] == ["b", "a"]


def test_the_archive_keeps_the_order_of_the_folders() -> None:
    rows = page(("b", CALM), ("a", replace(CALM, held="Open pain: knee.")), edition="season").rows
    assert [row.line.name for row in rows] == ["b", "a"]


def test_days_are_counted_to_the_newest_review_day_of_the_squad() -> None:
    gone = Look(as_of=day("2026-03-02"), last=day("2026-03-02"))
    made = page(("gone", gone), ("late", replace(CALM, last=day("2026-11-05"))), ("never", Look(as_of=DAY)))
    assert made.last == DAY
    assert {row.line.name: row.ago for row in made.rows} == {"gone": 250, "late": 2, "never": None}


def test_who_is_silent_for_long_has_no_sessions_of_the_last_weeks() -> None:
    trained = replace(CALM, wanted=8, done=8)
    made = page(("here", trained), ("silent", replace(trained, last=day("2026-10-27"))))
    assert {row.line.name: bool(row.sessions) for row in made.rows} == {"here": True, "silent": False}


def test_a_squad_without_a_session_has_no_day() -> None:
    assert page(("a", Look(as_of=DAY))).last is None


def test_what_is_new_since_a_day_comes_from_what_was_compared() -> None:
    full = sample.full()
    needs = full.facts.needs
    assert needs
    first = needs[0].id

    def look(moved: NeedChanges) -> Look:
        changes: Changes = replace(CHANGES, needs=moved)
        return squad_line(replace(full, facts=replace(full.facts, changes=changes)), TRADE).look

    new = look(NeedChanges(gone=("chase",), stayed=(), came=(first,), first="chase"))
    assert (new.came, new.went, new.since) == (True, "chase", CHANGES.since)
    same = look(NeedChanges(gone=("chase",), stayed=(first,), came=(), first=first))
    assert (same.came, same.went) == (False, "")


def test_sessions_are_held_against_the_plan_or_what_is_usual() -> None:
    full = sample.full()
    as_of, exposure = full.facts.as_of, full.facts.exposure
    assert exposure is not None
    starts = [as_of - dt.timedelta(as_of.weekday() + 7 * n) for n in (3, 2, 1, 0)]
    weeks = tuple(
        PlannedWeek(
            week="",
            start=start,
            sessions_planned=4,
            sessions_done=n,
            sets_planned=0,
            sets_done=0,
            load_off=None,
        )
        for n, start in enumerate(starts)
    )
    planned = replace(full.facts, planned_done=PlannedDone(weeks=weeks))
    look = squad_line(replace(full, facts=planned), TRADE).look
    assert (look.wanted, look.done, look.planned) == (8, 5, True)
    bare = squad_line(replace(full, facts=replace(full.facts, planned_done=None)), TRADE).look
    over = [w.sessions for w in exposure.weeks if not w.away and w.start + dt.timedelta(6) <= as_of]
    assert (bare.wanted, bare.done, bare.planned) == (2 * median(over[-10:-2]), sum(over[-2:]), False)


def test_the_first_need_and_its_day_come_from_the_log_as_it_stood() -> None:
    made = face.changed(sample.full(), sample.full().facts.as_of - dt.timedelta(weeks=4))
    assert made.facts.changes is not None
    moved = made.facts.changes.needs
    assert moved is not None
    assert moved.first in {"", *moved.gone, *moved.stayed, *moved.unsure}
