"""Technique: checkpoints of the textbook model, phase by phase, over time."""

import datetime as dt
from collections.abc import Iterator
from typing import Final

from reportgen.model.findings import CheckpointFact
from reportgen.view import pieces
from reportgen.view.options import CalendarRows
from reportgen.view.page import Block, Figure, Section, Table
from reportgen.view.reader import Reader, load, of, tidy, words
from reportgen.words import Phrase, Say, numbers, phrase, say, text, together

#: Checkpoints off that are told by themselves.
MOST_TOLD: Final = 3

Facts = tuple[CheckpointFact, ...]


def section(reader: Reader) -> Section | None:
    """The section; None where technique was not computed."""
    technique = reader.facts.technique
    if technique is None:
        return None
    known = reader.trade.checkpoints
    graded = sorted(
        (c for c in technique.checkpoints if c.grades),
        key=lambda c: (known[c.checkpoint].order if c.checkpoint in known else len(known), c.lift),
    )
    block: Block = over_time(reader, tuple(graded)) if graded else pieces.paragraph("technique.none")
    return pieces.section("technique.section", "technique", (block,))


def _names(facts: Facts) -> list[str]:
    """A label a row; the lift is named only where a checkpoint was graded on more than one."""
    every = [fact.checkpoint for fact in facts]
    return [
        text("technique.of_lift", checkpoint=f.checkpoint, lift=f.lift or text("technique.any_lift"))
        if every.count(f.checkpoint) > 1
        else f.checkpoint
        for f in facts
    ]


def over_time(reader: Reader, facts: Facts) -> Figure:
    """Every grade of every checkpoint over time, rows in the order of the lift."""
    names = _names(facts)
    rows = [
        (
            grade.date,
            label,
            grade.grade,
            reader.text(
                f"technique.grade.{'bare' if grade.load_kg is None else 'load'}",
                **{**of(fact), **of(grade), "grade": text(f"charts.mark.{grade.grade}")},
            ),
        )
        for fact, label in zip(facts, names, strict=True)
        for grade in fact.grades
    ]
    as_of = reader.facts.as_of
    first = min(date for date, *_ in rows) - dt.timedelta(days=3)
    return pieces.figure(
        "technique.over_time",
        "technique-over-time",
        "technique",
        {"grades": tidy("date checkpoint mark reading", rows)},
        _table(facts),
        options=CalendarRows(first=first, last=as_of, rows=tuple(names)),
        over_time=True,
        sentence=together(_told(facts, as_of)),
        unit=reader.unit,
    )


def _how_long(fact: CheckpointFact, as_of: dt.date) -> Say:
    """From when to when a checkpoint was off: no grading, no word on the days after."""
    last, days = fact.grades[-1].date, fact.persistence_days or 0
    if last >= as_of:
        return say("technique.now", off_days=days) if days else say("technique.once", last=last)
    if not days:
        return say("technique.once_since", last=last)
    return say("technique.since", days=(last - dt.timedelta(days=days), last))


def _told(facts: Facts, as_of: dt.date) -> Iterator[Phrase]:
    off = [f for f in facts if f.latest == "off" and not f.accepted]
    for fact in off[:MOST_TOLD]:
        key = f"technique.over_time.off{'' if fact.load_onset_kg is None else '_from'}"
        yield phrase(key, **of(fact), how_long=_how_long(fact, as_of))
    drifting = [f for f in facts if f.latest == "drifting"]
    accepted = [f for f in facts if f.latest == "off" and f.accepted]
    if not off and not drifting:
        yield phrase(f"technique.over_time.{'no_other' if accepted else 'none'}")
    for key, those in (("more", off[MOST_TOLD:]), ("drifting", drifting), ("accepted", accepted)):
        if those:
            yield phrase(f"technique.over_time.{key}", checkpoints=tuple(f.checkpoint for f in those))


def _table(facts: Facts) -> Table:
    rows = []
    for fact in facts:
        remark = (
            "accepted" if fact.accepted else "departs" if fact.departure and fact.latest != "good" else ""
        )
        last = [g for g in fact.grades if g.grade == fact.latest][-1]
        rows.append(
            (
                fact.phase,
                fact.checkpoint,
                fact.lift,
                words(text(f"charts.mark.{fact.latest}"), "missed" if fact.latest == "off" else ""),
                last.date,
                load(last.load_kg),
                numbers.days(fact.persistence_days) if fact.persistence_days else "",
                None if fact.load_onset_kg is None else phrase("technique.onset", **of(fact)),
                text(f"technique.{remark}") if remark else "",
            )
        )
    return pieces.table("technique.table", rows, address="technique-table", folded=True)
