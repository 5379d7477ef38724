"""The top of the page: who, what for, the one sentence, and what must be known first."""

import datetime as dt

from reportgen.model.doubts import Unsure
from reportgen.trade import doubts
from reportgen.view import needs as ranked
from reportgen.view.page import Head
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, numbers, spoken


def head(reader: Reader, edition: str, one: Phrase | None = None) -> Head:
    """The head of one dossier.

    Args:
        reader: The dossier and its reader.
        edition: What it is, for the reader: review, progress, season 2026.
        one: The one sentence; what holds the goal back where None.
    """
    facts = reader.facts
    first, last = facts.span.first, facts.span.last
    stopped = _stopped(reader) if one is None else ()
    span = numbers.span(first, last) if first is not None and last is not None else "no training in the log"
    return Head(
        name=facts.lifter.name,
        edition=edition,
        goal=goal(reader),
        present=present(reader),
        gap=gap(reader),
        sentence=one or stopped or _not_sure(reader) or sentence(reader),
        as_of=numbers.day(facts.as_of),
        span=span,
        unit=reader.unit,
        alerts=alerts(reader, told=bool(stopped)),
    )


def goal(reader: Reader) -> Phrase:
    """The first goal: lift, weight, by when."""
    fact = reader.goal
    if fact is None:
        return ("no goal",)
    by = f" by {numbers.day(fact.by)}" if fact.by is not None else ""
    if fact.goal_kg is None:
        return (f"{fact.lift}, weight not known{by}",)
    of_mass = ""
    if fact.times_body_mass is not None:
        times = fact.times_body_mass
        own = "own body mass" if times == 1 else f"{numbers.number(times, 2)} × body mass"
        of_mass = f" ({own})"
    return (f"{fact.lift} ", Weight(fact.goal_kg), f"{of_mass}{by}")


def present(reader: Reader) -> Phrase:
    """The present best of the goal's lift and its day."""
    fact = reader.goal
    if fact is None or fact.current_kg is None:
        return ("not known",)
    on = f" on {numbers.day(fact.current_date)}" if fact.current_date is not None else ""
    on += ", which is not sure" if doubtful(reader) else ""
    return (Weight(fact.current_kg), on) if on else (Weight(fact.current_kg),)


def gap(reader: Reader) -> Phrase:
    """What is missing to the goal."""
    fact = reader.goal
    if fact is None or fact.gap_kg is None:
        return ("not known",)
    if doubtful(reader):
        return ("not sure",)
    return (Weight(fact.gap_kg),) if fact.gap_kg > 0 else ("none: the goal is reached",)


def sentence(reader: Reader) -> Phrase:
    """What holds the goal back, or before that is known, what is missing."""
    needs = reader.facts.needs
    if needs:
        return ranked.first_sentence(spoken(needs[0].claim))
    fact = reader.goal
    if fact is None or fact.goal_kg is None:
        return ("The goal has no weight yet: it hangs on a body mass that was not logged.",)
    if fact.current_kg is None:
        return (
            f"No made {fact.lift} of the last weeks is in the log, so the gap to ",
            Weight(fact.goal_kg),
            " is not known.",
        )
    if not fact.gap_kg:
        return (
            "The goal of ",
            Weight(fact.goal_kg),
            " is reached: the present best is ",
            Weight(fact.current_kg),
            ".",
        )
    if reader.too_little:
        return ranked.nothing(reader).text
    return (
        Weight(fact.gap_kg),
        f" are missing: the present {fact.lift} is ",
        Weight(fact.current_kg),
        ", the goal ",
        Weight(fact.goal_kg),
        ".",
    )


def alerts(reader: Reader, *, told: bool = False) -> tuple[Phrase, ...]:
    """Open pain unless it is told already, what is not sure, rows set aside, a best no longer present."""
    facts = reader.facts
    found: list[Phrase] = [*(() if told else _sore(reader)), *unsure(reader)]
    aside = sum(f.rows_set_aside for f in facts.ledger)
    if aside:
        were = "was" if aside == 1 else "were"
        found.append(
            (
                f"{numbers.sentence(numbers.count(aside, 'row'))} {were} not understood and set aside: see What "
                "was read.",
            )
        )
    for stale in filter(None, map(reader.current, reader.lifts)):
        if stale.kg is None and stale.stale_kg is not None and stale.stale_date is not None:
            found.append(
                (
                    f"The last {stale.lift} best, ",
                    Weight(stale.stale_kg),
                    f", is from {numbers.day(stale.stale_date)}: too old to count as present.",
                )
            )
    return tuple(found)


def unsure(reader: Reader) -> tuple[Phrase, ...]:
    """What is not sure, by file and line, and how it is let through; what stops everything first."""
    return tuple((doubts.said(one),) for one in reader.facts.unsure)


def _sore(reader: Reader) -> tuple[Phrase, ...]:
    """Open pain, dated by its own episode."""
    facts = reader.facts
    places = []
    for place in facts.pain.places if facts.pain is not None else ():
        if place.open:
            after = ", after the last session" if _after(reader, place.first) else ""
            score = f", {numbers.number(place.score)} of 10" if place.score is not None else ""
            places.append(f"{place.place} since {numbers.day(place.first)}{score}{after}")
    if not places:
        return ()
    stopped = facts.pain is not None and facts.pain.nothing_proposed
    end = "Nothing is proposed: see a clinician first." if stopped else "See a clinician before loading it."
    return ((f"Open pain: {numbers.listing(places)}. {end}",),)


def _after(reader: Reader, day: dt.date) -> bool:
    last = reader.facts.span.last
    return last is not None and day > last


def _stopped(reader: Reader) -> Phrase:
    """What hurts, before anything else, where nothing is proposed because of it."""
    pain = reader.facts.pain
    return _sore(reader)[0] if pain is not None and pain.nothing_proposed else ()


def doubtful(reader: Reader) -> tuple[Unsure, ...]:
    """Doubts about figures that say where the goal's lifts stand."""
    return tuple(one for one in reader.facts.unsure if doubts.of_figures(one, reader.lifts))


def _not_sure(reader: Reader) -> Phrase:
    """That a figure of the goal's lift is not sure; nothing where none is."""
    one = next(iter(doubtful(reader)), None)
    if one is None:
        return ()
    lift = one.lift or " and the ".join(reader.lifts)
    return (f"Where the {lift} stands is not sure: {one.found} ({doubts.where(one)}).",)
