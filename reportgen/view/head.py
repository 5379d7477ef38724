"""The top of the page: who, what for, the one sentence, and what must be known first."""

from reportgen.model import doubts
from reportgen.model.doubts import Unsure
from reportgen.model.findings import PainFact
from reportgen.view import needs as ranked
from reportgen.view.page import Head
from reportgen.view.reader import Reader, of
from reportgen.words import Phrase, numbers, phrase, say, spoken, text


def head(reader: Reader, edition: str, one: Phrase | None = None) -> Head:
    """The head of one edition of a dossier; its one sentence says what holds the goal back where None."""
    facts, sore = reader.facts, _sore(reader)
    first, last = facts.span.first, facts.span.last
    stopped = facts.pain is not None and facts.pain.nothing_proposed and one is None
    return Head(
        name=facts.lifter.name,
        edition=edition,
        goal=goal(reader),
        present=present(reader),
        gap=gap(reader),
        sentence=one or (sore[0] if stopped and sore else ()) or _not_sure(reader) or sentence(reader),
        as_of=numbers.day(facts.as_of),
        span=text("head.no_training") if first is None or last is None else numbers.span(first, last),
        unit=reader.unit,
        alerts=(*(() if stopped else sore), *_alerts(reader)),
    )


def goal(reader: Reader) -> Phrase:
    """The first goal: lift, weight, by when."""
    fact = reader.goal
    if fact is None:
        return phrase("head.goal.none")
    times = fact.times_body_mass
    how = "plain" if times is None else "own" if times == 1 else "times"
    how = "no_weight" if fact.goal_kg is None else how
    what = say(f"head.goal.{how}", **of(fact))
    return spoken(what) if fact.by is None else phrase("head.goal.by", goal=what, date=fact.by)


def present(reader: Reader) -> Phrase:
    """The present best of the goal's lift and its day."""
    fact = reader.goal
    if fact is None or fact.current_kg is None:
        return phrase("head.unknown")
    now = say(f"head.present.{'plain' if fact.current_date is None else 'on'}", **of(fact))
    return phrase("head.present.unsure", present=now) if doubtful(reader) else spoken(now)


def gap(reader: Reader) -> Phrase:
    """What is missing to the goal."""
    fact = reader.goal
    if fact is None or fact.gap_kg is None:
        return phrase("head.unknown")
    how = "unsure" if doubtful(reader) else "plain" if fact.gap_kg > 0 else "none"
    return phrase(f"head.gap.{how}", **of(fact))


def sentence(reader: Reader) -> Phrase:
    """What holds the goal back, or before that is known, what is missing."""
    needs, fact = reader.facts.needs, reader.goal
    if needs:
        return ranked.first_sentence(spoken(needs[0].claim))
    if fact is None or fact.goal_kg is None:
        return phrase("head.sentence.no_weight")
    if fact.current_kg is None:
        return phrase("head.sentence.no_present", **of(fact))
    if fact.gap_kg and reader.too_little:
        return ranked.nothing(reader).text
    return phrase(f"head.sentence.{'missing' if fact.gap_kg else 'reached'}", **of(fact))


def _alerts(reader: Reader) -> list[Phrase]:
    """What is not sure, with what stops everything first; rows set aside; a best no longer present."""
    facts = reader.facts
    found: list[Phrase] = [spoken(doubts.said(one)) for one in facts.unsure]
    if aside := sum(entry.rows_set_aside for entry in facts.ledger):
        found.append(phrase("head.alert.aside", rows=aside))
    for old in filter(None, map(reader.current, reader.lifts)):
        if old.kg is None and old.stale_kg is not None and old.stale_date is not None:
            found.append(phrase("head.alert.stale", **of(old)))
    return found


def _sore(reader: Reader) -> tuple[Phrase, ...]:
    """Open pain, dated by its own episode."""
    pain, last, places = reader.facts.pain, reader.facts.span.last, []
    for one in hurting(reader):
        score = "" if one.score is None else say("head.pain.score", **of(one))
        after = say("head.pain.after") if last is not None and one.first > last else ""
        places.append(say("head.pain.place", **of(one, scored=score, after=after)))
    how = "stopped" if pain is not None and pain.nothing_proposed else "open"
    return (phrase(f"head.pain.{how}", places=tuple(places)),) if places else ()


def hurting(reader: Reader) -> tuple[PainFact, ...]:
    """Places whose pain is open."""
    pain = reader.facts.pain
    return tuple(place for place in pain.places if place.open) if pain is not None else ()


def doubtful(reader: Reader) -> tuple[Unsure, ...]:
    """Doubts about figures that say where the goal's lifts stand."""
    return tuple(one for one in reader.facts.unsure if doubts.of_figures(one, reader.lifts))


def _not_sure(reader: Reader) -> Phrase:
    """That a figure of the goal's lift is not sure; nothing where none is."""
    for one in doubtful(reader):
        named = (one.lift,) if one.lift else reader.lifts
        lifts = tuple(say("head.sentence.lift", lift=lift) for lift in named)
        return phrase("head.sentence.unsure", lifts=lifts, found=one.found, place=doubts.where(one))
    return ()
