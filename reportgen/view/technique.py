"""Technique: checkpoints of the textbook model, phase by phase, over time."""

import datetime as dt
from typing import Final

import pandas as pd

from reportgen.model.findings import CheckpointFact
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, load, plain, said, words
from reportgen.words import Phrase, Weight, numbers

PHASES: Final = ("start", "first pull", "transition", "second pull", "pull under", "receiving", "recovery")


def section(reader: Reader) -> Section | None:
    """The section; None where technique was not computed."""
    technique = reader.facts.technique
    if technique is None:
        return None
    lead: Phrase = (
        "Checkpoints of the textbook model in the order of the lift. Good, drifting or off is what was "
        "graded from video or on the platform.",
    )
    graded = [c for c in technique.checkpoints if c.grades]
    if not graded:
        blocks: tuple[Block, ...] = (Paragraph(text=("Not tested: no checkpoint has been graded.",)),)
    else:
        blocks = (over_time(reader, _ordered(reader, graded)),)
    return Section(id="technique", title="Technique", lead=lead, blocks=blocks)


def _ordered(reader: Reader, facts: list[CheckpointFact]) -> tuple[CheckpointFact, ...]:
    known = reader.trade.checkpoints

    def place(fact: CheckpointFact) -> tuple[int, int, str]:
        phase = PHASES.index(fact.phase) if fact.phase in PHASES else len(PHASES)
        order = known[fact.checkpoint].order if fact.checkpoint in known else 0
        return (phase, order, fact.lift)

    return tuple(sorted(facts, key=place))


def _names(facts: tuple[CheckpointFact, ...]) -> dict[tuple[str, str], str]:
    """Row labels; the lift is named only where a checkpoint was graded on more than one."""
    lifts: dict[str, set[str]] = {}
    for fact in facts:
        lifts.setdefault(fact.checkpoint, set()).add(fact.lift)
    return {
        (f.checkpoint, f.lift): f"{f.checkpoint} ({f.lift or 'any lift'})"
        if len(lifts[f.checkpoint]) > 1
        else f.checkpoint
        for f in facts
    }


def over_time(reader: Reader, facts: tuple[CheckpointFact, ...]) -> Figure:
    """Every grade of every checkpoint over time, rows in the order of the lift."""
    names = _names(facts)
    rows = [
        (
            grade.date,
            names[fact.checkpoint, fact.lift],
            grade.grade,
            f"{numbers.day(grade.date)}: {fact.checkpoint} {grade.grade}"
            + (f" at {reader.say(grade.load_kg)}" if grade.load_kg is not None else ""),
        )
        for fact in facts
        for grade in fact.grades
    ]
    frame = pd.DataFrame(rows, columns=["date", "checkpoint", "mark", "reading"])
    frame["date"] = pd.to_datetime(frame["date"]).astype("datetime64[s]")
    sentence = _sentence(facts, reader.facts.as_of)
    return Figure(
        id="technique-over-time",
        title="Checkpoints over time",
        sentence=sentence,
        summary="A row a checkpoint, in the order of the lift; a mark a grading, larger and darker the "
        f"further off. {plain(sentence, reader.unit)}",
        chart="technique",
        data={"grades": frame},
        options={
            "checkpoints": tuple(names[f.checkpoint, f.lift] for f in facts),
            "first": (frame["date"].min() - pd.Timedelta(days=3)).date().isoformat(),
            "last": reader.facts.as_of.isoformat(),
        },
        table=_table(facts),
        over_time=True,
    )


def _how_long(fact: CheckpointFact, as_of: dt.date) -> str:
    """From when to when a checkpoint was off: no grading, no word on the days after."""
    last = fact.grades[-1].date
    days = fact.persistence_days or 0
    first = last - dt.timedelta(days=days)
    if last >= as_of:
        return f"for {numbers.days(days)} now" if days else f"on {numbers.day(last)}"
    if not days:
        return f"on {numbers.day(last)}, not graded since"
    return f"from {numbers.span(first, last)}, not graded since"


def _sentence(facts: tuple[CheckpointFact, ...], as_of: dt.date) -> Phrase:
    parts: list[str | Weight] = []
    off = [f for f in facts if f.latest == "off" and not f.accepted]
    for fact in off[:3]:
        parts.append(f"{numbers.sentence(fact.checkpoint)}: off")
        if fact.load_onset_kg is not None:
            parts += [" from ", Weight(fact.load_onset_kg), " up,"]
        parts.append(f" {_how_long(fact, as_of)}. ")
    if len(off) > 3:
        parts.append(f"Off as well: {numbers.listing(f.checkpoint for f in off[3:])}. ")
    drifting = [f.checkpoint for f in facts if f.latest == "drifting"]
    if drifting:
        parts.append(f"Drifting: {numbers.listing(drifting)}. ")
    accepted = [f.checkpoint for f in facts if f.latest == "off" and f.accepted]
    if accepted:
        other = "" if parts else "No other checkpoint was off at its last grading. "
        parts.append(f"{other}Off, and accepted by the coach: {numbers.listing(accepted)}. ")
    if not parts:
        return ("At its last grading no checkpoint was off.",)
    return (*parts[:-1], str(parts[-1]).rstrip())


def _table(facts: tuple[CheckpointFact, ...]) -> Table:
    rows = []
    for fact in facts:
        remark = ""
        if fact.accepted:
            remark = "accepted by the coach"
        elif fact.departure and fact.latest != "good":
            remark = "departs from the model"
        onset: Phrase = ("from ", Weight(fact.load_onset_kg), " up") if fact.load_onset_kg is not None else ()
        last = [g for g in fact.grades if g.grade == fact.latest][-1]
        rows.append(
            (
                words(fact.phase),
                words(fact.checkpoint),
                words(fact.lift),
                words(fact.latest, "missed" if fact.latest == "off" else ""),
                words(last.date),
                load(last.load_kg),
                words(numbers.days(fact.persistence_days) if fact.persistence_days else ""),
                said(onset),
                words(remark),
            )
        )
    return Table(
        caption="Checkpoints in the order of the lift: the latest grade of each",
        head=("phase", "checkpoint", "lift", "latest", "day", "at", "off for", "off", "remark"),
        rows=tuple(rows),
        folded=True,
        id="technique-table",
    )
