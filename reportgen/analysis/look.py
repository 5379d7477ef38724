"""Whom a coach looks at first, and why: read of one lifter's facts, judged on the squad's one day."""

import datetime as dt
from statistics import median
from typing import Final

from reportgen.model.facts import Facts
from reportgen.model.look import Look
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.trade.claims import called
from reportgen.trade.schema import Trade

#: Reasons in the order in which they put a lifter before others.
ORDER: Final = ("held", "came", "went", "retest", "test", "missed", "silent")
WEEK: Final = dt.timedelta(days=7)


def read(records: Records, facts: Facts, trade: Trade, *, held: str = "") -> Look:
    """What the order needs of one lifter; `held` is what holds the proposal back, in words."""
    block, changes = facts.block, facts.changes
    moved = changes.needs if changes is not None else None
    need = facts.needs[0].id if facts.needs else ""
    again = [
        (row.check, row.finding)
        for row in facts.said_and_done or ()
        if row.check and row.verdict != "dropped" and row.state in ("first", "listed")
    ]
    retest, of = min(again, default=(None, ""))
    away = _away(records, facts.span.last)
    wanted, done, planned = _sessions(facts, trade)
    return Look(
        as_of=facts.as_of,
        last=facts.span.last,
        by=facts.goals[0].by,
        test=block.test_day if block is not None else None,
        contest=block is not None and block.test_kind == "contest",
        held=held,
        need=need,
        area=facts.needs[0].area if facts.needs else "",
        came=moved is not None and need in moved.came,
        went=moved.first if moved is not None and moved.first in moved.gone else "",
        since=changes.since if changes is not None else None,
        retest=retest,
        retest_of=of,
        away_from=away[0],
        away_to=away[1],
        wanted=wanted,
        done=done,
        planned=planned,
    )


def reasons(look: Look, day: dt.date, trade: Trade) -> tuple[tuple[str, Say], ...]:
    """Why a coach should look at a lifter, as names of `ORDER` with their messages, the gravest first.

    Args:
        look: What is known of the lifter.
        day: The squad's day: the newest review day of its lifters.
        trade: Rules.
    """
    found = {}
    if look.held:
        found["held"] = say("squad.look.held", held=look.held)
    if look.came and look.since is not None:
        found["came"] = say("squad.look.came", since=look.since)
    if look.went and look.since is not None:
        found["went"] = say("squad.look.went", since=look.since, named=called(look.went))
    if look.retest is not None and look.retest <= day:
        found["retest"] = say("squad.look.retest", date=look.retest, named=called(look.retest_of))
    days = [(one, how) for one, how in ((look.test, "test"), (look.by, "goal")) if one and one >= day]
    if days and (min(days)[0] - day).days <= trade.value("look_test_days"):
        date, how = min(days)
        what = "contest" if how == "test" and look.contest else how
        found["test"] = say(f"squad.look.{what}", date=date, n=(date - day).days)
    missed = 0 if look.wanted is None or look.done is None else look.wanted - look.done
    if missed >= trade.value("look_missed"):
        how = "planned" if look.planned else "usual"
        found["missed"] = say(f"squad.look.missed_{how}", wanted=look.wanted or 0, done=look.done or 0)
    silent = 0 if look.last is None else (day - look.last).days
    away = look.away_from is not None and look.away_to is not None and look.away_from <= day <= look.away_to
    if silent > trade.value("look_silent_days") and not away:
        found["silent"] = say("squad.look.silent", silent_days=silent)
    return tuple((name, found[name]) for name in ORDER if name in found)


def _away(records: Records, last: dt.date | None) -> tuple[dt.date | None, dt.date | None]:
    """The absence that ends last, where it ends after the last session."""
    rows = records.away.dropna(subset=["from", "to"])
    spans = [(end.date(), start.date()) for start, end in zip(rows["from"], rows["to"], strict=True)]
    end, start = max(spans, default=(None, None))
    return (start, end) if end is not None and (last is None or end > last) else (None, None)


def _sessions(facts: Facts, trade: Trade) -> tuple[int | None, int | None, bool]:
    """Sessions wanted and done in the last weeks, and whether a plan wanted them."""
    many = int(trade.value("look_weeks"))
    plan = facts.planned_done.weeks if facts.planned_done is not None else ()
    due = [week for week in plan if week.start > facts.as_of - many * WEEK]
    if due:
        return sum(week.sessions_planned for week in due), sum(week.sessions_done for week in due), True
    newest = facts.as_of + dt.timedelta(days=1) - WEEK  # Monday of a week that is over
    over = [week for week in facts.exposure.weeks if week.start <= newest and not week.away]
    usual, late = over[:-many][-int(trade.value("look_usual_weeks")) :], over[-many:]
    if 2 * len(usual) < trade.value("look_usual_weeks"):
        return None, None, False
    return round(many * median(week.sessions for week in usual)), sum(week.sessions for week in late), False
