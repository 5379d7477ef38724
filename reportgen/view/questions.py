"""What a lifter asks the coach at the end of a progress dossier, and the clips that would answer."""

import datetime as dt
from collections import Counter
from typing import Final

from reportgen.analysis import trust
from reportgen.model.findings import CheckpointFact, NotTested
from reportgen.trade.claims import called
from reportgen.view import answers, head, pieces
from reportgen.view.needs import first_sentence, untested
from reportgen.view.page import Section
from reportgen.view.reader import Reader, of
from reportgen.words import Phrase, Say, exists, numbers, phrase, say, spoken

#: A list that is longer than these is not answered.
MOST_CLIPS: Final = 4
MOST_QUESTIONS: Final = 9


def section(reader: Reader) -> Section:
    """Numbered questions to the coach."""
    asked: list[Phrase | Say] = [
        *_open(reader), *_findings(reader), *_untested(reader), *_proposal(reader)
    ]  # fmt: skip
    if not asked:
        return pieces.section("questions.section", "questions", (pieces.paragraph("questions.section.none"),))
    shown = pieces.points(asked[:MOST_QUESTIONS], numbered=True, asked=True)
    place = answers.block("questions", reader.facts.as_of)
    return pieces.section("questions.section", "questions", (shown, place))


def _open(reader: Reader) -> list[Say]:
    """Open pain, where what stays out is agreed with the coach; and decisions whose day to look again is here."""
    asked = []
    for place in head.hurting(reader):
        how = "plain" if place.score is None else "scored"
        asked.append(say(f"questions.pain.{how}", **of(place)))
    for row in reader.facts.said_and_done or ():
        if row.due and row.check and row.verdict != "dropped" and row.state in ("first", "listed"):
            why = say("questions.decision.why", **of(row)) if row.why else ""
            state = say(f"questions.decision.{'listed' if row.rank is None else 'ranked'}", **of(row))
            named = called(row.finding)
            asked.append(say("questions.decision.asked", **of(row, named=named, reason=why, still=state)))
    return asked


def _findings(reader: Reader) -> list[Phrase]:
    """Readings with two sides, and findings that only one kind of source holds or another one contradicts."""
    facts = reader.facts
    asked = [
        phrase("questions.asked.reading", claim=_short(one), settle=_lower(spoken(one.what_would_settle)))
        for one in facts.not_tested
        if one.kind == "question"
    ]
    decided = {row.finding for row in facts.said_and_done or ()}
    for need in facts.needs:
        if need.id not in decided and (need.confidence == "low" or need.conflicts):
            claim = first_sentence(spoken(need.claim))
            settle = _lower(spoken(need.what_would_settle))
            asked.append(phrase("questions.asked.finding", claim=claim, settle=settle))
    return asked


def _short(one: NotTested) -> Phrase:
    return () if one.claim is None else first_sentence(spoken(one.claim), (". ",))


def _lower(words: Phrase) -> Phrase:
    """The same inside a sentence: a small first letter, unless it is an abbreviation's, and no full stop."""
    words = (*words[:-1], words[-1].rstrip(".")) if words and isinstance(words[-1], str) else words
    if words and isinstance(words[0], str) and words[0][:2].istitle():
        return (words[0][:1].lower() + words[0][1:], *words[1:])
    return words


def _untested(reader: Reader) -> list[Phrase]:
    """What nobody measured, in one question; an empty week is the lifter's to explain, not the coach's."""
    every = [one for one in reader.facts.not_tested if one.kind == "not tested" and one.id != "empty_weeks"]
    soon = [untested(one) for one in every if one.id == "test_soon"]
    named = [_test(one.what_would_settle) for one in every if one.id != "test_soon"]
    tests = tuple(name[:1].lower() + name[1:] for name in named)
    asked = [phrase("questions.asked.test", settle=one) for one in soon]
    return [*asked, phrase("questions.asked.untested", tests=tests)] if tests else asked


def _test(settle: Say) -> str:
    """What a test is called, which stands before what is said of it, without what has to be sure first."""
    rest = dict(settle.values).get("rest")
    return str(spoken(rest if isinstance(rest, Say) else settle)[0]).split(": ")[0].rstrip(".")


def _proposal(reader: Reader) -> list[Say]:
    block = reader.facts.block
    if block is None or block.test_day is None or not block.attempts:
        return []
    first, how = block.attempts[0], "contest" if block.test_kind == "contest" else "test_day"
    lift = first.lift or reader.lift
    return [say(f"questions.asked.{how}", date=block.test_day, lift=lift, opener_kg=first.kg)]


def clips(reader: Reader) -> Section:
    """Clips that would answer most, a line each."""
    wanted = [*_graded(reader), *_one_kind(reader)][:MOST_CLIPS]
    blocks = (pieces.points(wanted) if wanted else pieces.paragraph("questions.clips.none"),)
    return pieces.section("questions.clips", "clips", blocks)


def _loads(reader: Reader, lift: str) -> Say:
    """Loads from which on something goes: three, up to a heavy one where that may be asked."""
    present, facts, trade = reader.current(lift), reader.facts, reader.trade
    stop = trust.stops(facts.unsure, facts.pain)
    if stop.everything or lift in stop.lifts:
        return say("questions.loads.later")
    heavy = trust.heavy_allowed(reader.dossier.records, facts.unsure, trade)
    top, step = trade.value("clip_share" if heavy else "clip_share_light"), trade.value("clip_step")
    if present is None or present.kg is None:
        return say("questions.loads.unknown", share=top)
    shares = (round(top - step * below, 6) for below in (2, 1, 0))
    loads = tuple(say("questions.loads.one", load_kg=_round(reader, present.kg * one)) for one in shares)
    return say("questions.loads.known", loads=loads)


def _round(reader: Reader, load_kg: float) -> float:
    """A load as one says it: whole kilograms, or pounds in fives."""
    if reader.unit == "kg":
        return float(round(load_kg))
    return 5 * round(numbers.in_unit(load_kg, "lb") / 5) * numbers.KG_PER_LB


def _graded(reader: Reader) -> list[Say]:
    """One clip a lift, for its checkpoints that are off, drifting or not graded for long."""
    technique, first = reader.facts.technique, reader.lifts[0]
    graded = [c for c in technique.checkpoints if c.grades] if technique is not None else []
    if not graded:
        return [say("questions.clips.ungraded", lift=first, loads=_loads(reader, first))]
    by_lift: dict[str, list[Say]] = {}
    for fact in graded:
        if not fact.accepted and (why := _why(reader, fact)):
            one = say("questions.clips.checkpoint", checkpoint=fact.checkpoint, why=why)
            by_lift.setdefault(fact.lift or first, []).append(one)
    return [
        say("questions.clips.graded", lift=lift, loads=_loads(reader, lift), checkpoints=tuple(items))
        for lift, items in by_lift.items()
    ]


def _why(reader: Reader, fact: CheckpointFact) -> str | Say:
    last = fact.grades[-1].date
    if reader.facts.as_of - last > dt.timedelta(weeks=reader.trade.value("clip_grade_weeks")):
        return say("questions.clips.old", date=last)
    return fact.latest if fact.latest in ("off", "drifting") else ""


def _one_kind(reader: Reader) -> list[Say]:
    """Lifts whose misses are mostly of one kind."""
    kinds: dict[str, Counter[str]] = {}
    for fact in reader.facts.make_rates:
        stated = {kind: many for kind, many in fact.misses.items() if kind != "not stated"}
        kinds.setdefault(fact.lift, Counter()).update(stated)
    least, part = (reader.trade.value(f"clip_miss_{name}") for name in ("least", "share"))
    found = [
        (lift not in reader.lifts, -many, lift, kind, counted.total())
        for lift, counted in kinds.items()
        for kind, many in counted.most_common(1)
        if many >= max(least, part * counted.total())
    ]
    # The goal's lifts first, and then the most misses.
    return [
        say("questions.clips.misses", lift=lift, many=-less, total=total, kind=_failed(kind))
        for _, less, lift, kind, total in sorted(found, key=lambda one: one[:2])[:2]
    ]


def _failed(kind: str) -> Say:
    """A kind of miss as the end of a sentence, where the word alone is none."""
    key = f"questions.kinds.{kind}"
    return say(key) if exists(key) else say("questions.kinds.other", kind=kind)
