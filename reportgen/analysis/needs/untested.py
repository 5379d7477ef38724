"""What nobody measured, and causes that are not likely enough to be a need. Not tested is an answer."""

import datetime as dt
from collections.abc import Iterator, Sequence

import pandas as pd

from reportgen.analysis import strength
from reportgen.analysis.needs import figures, movement, telling
from reportgen.analysis.needs.practice import named
from reportgen.analysis.needs.signs import Given, Row, Sign, Values
from reportgen.analysis.needs.weighing import Weighed
from reportgen.model.findings import Need, NotTested
from reportgen.model.say import say

#: Kinds of miss that have a question of their own.
_MISSED = {"jerk": "misses_jerk", "clean": "misses_clean", "recovery": "misses_recovery_open"}
#: What asks for lifting; the others ask for a reading, a video or a word.
LOADED = ("present_lift", "figure", "limit", "squat_up_not_tried", "test_soon")


def read(
    given: Given, needs: Sequence[Need], found: Sequence[Weighed], signs: Sequence[Sign]
) -> tuple[NotTested, ...]:
    """What is not known, each with what would settle it; questions first.

    Returns:
        Ids: those of the questions; upkeep_stopped, departure_from_model; misses_one_kind, misses_jerk,
        misses_clean or misses_recovery_open where so many heavy misses are of one kind and no need says why;
        present_lift, body_mass; <indicator> where no figure is in the log and limit_<indicator> where it was
        not taken to a limit; screening or screening_reached and screening_control; readings_disagree;
        technique; miss_kinds; squat_up_not_tried; test_soon; empty_weeks.
    """
    told = {need.cause for need in needs}
    asked = [telling.question(given, one) for one in found if one.cause.id not in told]
    return (
        *asked,
        *_remarks(given, asked, signs),
        *_unexplained(given, needs, asked, signs),
        *_missing(given),
    )


def _remarks(given: Given, asked: Sequence[NotTested], signs: Sequence[Sign]) -> Iterator[NotTested]:
    """Work that stopped while the position it keeps is still there, and ways that may be the lifter's own."""
    done = {one.id for one in asked}
    for sign in signs:
        own = sign.key.startswith("departs:")
        finding = "departure_from_model" if own else "upkeep_stopped"
        if (own or sign.key == "stopped") and finding not in done:
            done.add(finding)
            yield NotTested(
                id=finding,
                kind="question",
                claim=say(f"needs.claim.{finding if own else 'stopped'}", **sign.values, items=(sign.name,)),
                what_would_settle=telling.settle(given, finding, sign.values, loads=False),
                evidence=sign.evidence,
            )


def _unexplained(
    given: Given, needs: Sequence[Need], asked: Sequence[NotTested], signs: Sequence[Sign]
) -> Iterator[NotTested]:
    """A kind that fills a third or more of the heavy misses, of which no need and no question says why."""
    pieces = [piece for one in needs for piece in one.evidence]
    pieces += [piece for question in asked for piece in question.evidence]
    shown: set[Row] = {(piece.file, line) for piece in pieces for line in piece.lines}
    told: dict[str, list[Sign]] = {}
    for sign in signs:
        count, stated = sum(sign.counts.values()), sign.values.get("stated", 0)
        if not isinstance(stated, int) or count < given.value("miss_told") or sign.rows <= shown:
            continue
        if count >= given.value("miss_told_share") * stated - 1e-9:
            told.setdefault(_MISSED.get(str(sign.name), "misses_one_kind"), []).append(sign)
    for finding, alike in told.items():
        alike.sort(key=lambda sign: -sum(sign.counts.values()))
        yield NotTested(
            id=finding,
            kind="question",
            claim=say(
                f"needs.claim.{finding}",
                **alike[0].values,
                kinds=tuple(say("needs.drawn.kind", **sign.values) for sign in alike),
            ),
            what_would_settle=telling.settle(given, finding, alike[0].values),
            evidence=tuple(piece for sign in alike for piece in sign.evidence),
        )


def _missing(given: Given) -> Iterator[NotTested]:
    lift = named(given)
    goal = given.facts.goals[0]
    if goal.goal_kg is None:
        yield _said(given, "body_mass", "body_mass", {})
    for one in given.lifts:
        if given.present_kg(one) is None:
            yield _said(given, "present_lift", "present_lift", {"lift": one})
    yield from _figures(given)
    yield from _screening(given)
    graded = given.facts.technique
    if graded is None or not any(given.is_recent(one.grades[-1].date) for one in graded.checkpoints):
        yield _said(given, "technique", "technique", {"lift": lift})
    heavy = movement.heavy_misses(given)
    unnamed = int(heavy.loc[heavy["kind"].isin(movement.UNNAMED), "count"].sum())
    total = int(heavy["count"].sum())
    if total >= given.value("miss_told") and 2 * unnamed > total:
        yield _said(given, "miss_kinds", "miss_kinds", {})
    yield from _log(given)


def _said(given: Given, id: str, template: str, values: Values) -> NotTested:  # noqa: A002
    asked = telling.settle(given, template, values, loads=template in LOADED, part="untested")
    return NotTested(id=id, what_would_settle=asked)


def _figures(given: Given) -> Iterator[NotTested]:
    seen = set()
    for fact in given.facts.indicators or ():
        unread = fact.reading == "untested" or (fact.reading == "short" and figures.only_nominal(given, fact))
        if fact.context or fact.base != "goal" or fact.id in seen or not unread:
            continue
        seen.add(fact.id)
        values: Values = {"lift": fact.lift, "current_kg": fact.current_kg or 0.0}
        if fact.current_kg is None:
            yield _said(given, fact.id, "figure", values)
        else:
            yield _said(given, f"limit_{fact.id}", "limit", values)


def _screening(given: Given) -> Iterator[NotTested]:
    fact = given.facts.screening
    recent = [item for item in fact.items if given.is_recent(item.latest_date)] if fact else []
    kinds = {item.kind for item in recent}
    if not kinds:
        yield _said(given, "screening", "screening", {})
        return
    for kind, name in (("flexibility", "screening_reached"), ("control", "screening_control")):
        if kind not in kinds:
            yield _said(given, name, name, {})
    if doubted := tuple(dict.fromkeys(item.item for item in recent if item.contradicted)):
        yield _said(given, "readings_disagree", "readings_disagree", {"items": doubted})


def _log(given: Given) -> Iterator[NotTested]:
    """What the log leaves open: a lift not tried, a test that is due, weeks that nobody explained."""
    for lift in given.lifts:
        found = strength.rise(given.scored, given.tables.sets, lift, as_of=given.as_of, trade=given.trade)
        if found is not None and not found.tried:
            values: Values = {"lift": lift, "share": found.share}
            yield _said(given, "squat_up_not_tried", "squat_up_not_tried", values)
    if _test_soon(given):
        sure = given.facts.sure_weight
        assert sure is not None
        yield _said(given, "test_soon", "test_soon", {"change_kg": sure.change_kg or 0.0, "sure_kg": sure.kg})
    if weeks := given.facts.exposure.weeks_empty_unexplained:
        yield _said(given, "empty_weeks", "empty_weeks", {"weeks": weeks})


def _test_soon(given: Given) -> bool:
    """The sure weight rose while the best did not; both spans of weeks have to lie in the log."""
    sure = given.facts.sure_weight
    span = dt.timedelta(weeks=2 * given.value("sure_weeks"))
    if given.facts.span.first is None or given.facts.span.first > given.as_of - span:
        return False
    if sure is None or sure.change_kg is None or sure.change_kg < given.value("sure_rise") * sure.kg:
        return False
    rows = given.scored.loc[given.scored["lift"] == sure.lift]
    recent = rows["date"] > pd.Timestamp(given.as_of) - pd.Timedelta(weeks=given.value("sure_weeks"))
    before = rows.loc[~recent, "load_kg"]
    flat = rows.loc[recent, "load_kg"].max() <= before.max() * (1 + given.value("still_share"))
    return len(before) > 0 and bool(flat)
