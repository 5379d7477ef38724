"""The top of the page: who, what for, the one sentence, and what must be known first."""

import datetime as dt
from typing import Final

from reportgen.model import doubts
from reportgen.model.doubts import Unsure
from reportgen.model.findings import PainFact
from reportgen.model.proposal import BlockSession, BlockSet
from reportgen.view import needs as ranked
from reportgen.view.page import Head
from reportgen.view.reader import Reader, as_day, of
from reportgen.words import Phrase, Say, capital, numbers, phrase, say, spoken, text

#: The figure that stands beside the head of a review.
PICTURE: Final = "running-best"
#: Lifts of a session that the head names.
LIFTS: Final = 3


def head(reader: Reader, edition: str, one: Phrase | None = None) -> Head:
    """The head of one edition of a dossier; its one sentence says what holds the goal back where None."""
    facts, sore = reader.facts, _sore(reader)
    first, last = facts.span.first, facts.span.last
    stopped = _stopped(reader) and one is None
    first_said = one or (sore[0] if stopped and sore else ()) or _not_sure(reader) or _held(reader)
    review = edition == "review"
    return Head(
        name=facts.lifter.name,
        edition=edition,
        goal=goal(reader),
        present=present(reader),
        gap=gap(reader),
        ask=text(f"head.ask.{'likely' if reader.goal.by else 'when'}"),
        chance=() if one else chance(reader),
        sentence=first_said or sentence(reader),
        sure=text(f"head.sure.{facts.needs[0].confidence}") if facts.needs and not first_said else "",
        week=week(reader) if review else (),
        test=test_day(reader) if review else (),
        as_of=numbers.day(facts.as_of),
        span=text("head.no_training") if first is None or last is None else numbers.span(first, last),
        unit=reader.unit,
        alerts=(*(() if stopped else sore), *_alerts(reader)),
        let=spoken(let) if (let := doubts.let(*facts.unsure)) is not None else (),
        figure=PICTURE if review else "",
        small=ranked.small(reader, facts.needs[0]) if review and facts.needs and not first_said else None,
    )


def says_first(reader: Reader) -> bool:
    """Whether its one sentence is the first need, and nothing graver."""
    graver = (_stopped(reader) and _sore(reader)) or _not_sure(reader) or _held(reader)
    return bool(reader.facts.needs) and not graver


def _stopped(reader: Reader) -> bool:
    pain = reader.facts.pain
    return pain is not None and pain.nothing_proposed


def goal(reader: Reader, *, dated: bool = True) -> Phrase:
    """The first goal: lift, weight, and by when unless its day stands elsewhere."""
    fact = reader.goal
    times = fact.times_body_mass
    how = "plain" if times is None else "own" if times == 1 else "times"
    how = "no_weight" if fact.goal_kg is None else how
    what = say(f"head.goal.{how}", **of(fact))
    return spoken(what) if fact.by is None or not dated else phrase("head.goal.by", goal=what, date=fact.by)


def present(reader: Reader, *, dated: bool = True) -> Phrase:
    """The present best of the goal's lift, and its day unless that stands elsewhere."""
    fact = reader.goal
    if fact.current_kg is None:
        return phrase("head.unknown")
    how = "plain" if fact.current_date is None or not dated else "on" if len(reader.lifts) < 2 else "total"
    now = say(f"head.present.{how}", **of(fact))
    if doubtful(reader):
        return phrase("head.present.unsure", present=now)
    older = once(reader)
    return spoken(now) if older is None else phrase("head.present.once", present=now, best_kg=older[0])


def once(reader: Reader) -> tuple[float, dt.date] | None:
    """A best that is heavier than the present one, and its day; None where the present one is the best."""
    goal = reader.goal
    best = reader.dossier.tables.running_best
    mine = best.loc[best["lift"] == reader.lift] if len(best) else best
    if goal.current_kg is None or mine.empty:
        return None
    kg, day = max(zip(mine["kg"], mine["date"], strict=True), key=lambda pair: float(pair[0]))
    return (float(kg), as_day(day)) if kg > goal.current_kg else None


def gap(reader: Reader) -> Phrase:
    """What is missing to the goal."""
    fact = reader.goal
    if fact.gap_kg is None:
        return phrase("head.unknown")
    how = "unsure" if doubtful(reader) else "plain" if fact.gap_kg > 0 else "none"
    return phrase(f"head.gap.{how}", **of(fact))


def chance(reader: Reader) -> Phrase:
    """How likely the goal is by its day, or between which days it comes; nothing where that is not known."""
    fact = reader.facts.arrival
    if fact is None or doubtful(reader):
        return ()
    if fact.attempts_kg is not None:
        return phrase("head.chance.attempts", **of(fact))
    if fact.by is not None:
        how = "rare" if fact.rare else "by"
        return () if fact.chance is None else phrase(f"head.chance.{how}", **of(fact))
    how = "late" if fact.early is None else "earliest" if fact.late is None else "between"
    return phrase(f"head.chance.{how}", **of(fact))


def week(reader: Reader) -> tuple[Phrase, ...]:
    """The days of the proposal's first week by their first lifts, or why nothing is proposed."""
    block = reader.facts.block
    if block is None:
        return ()
    if not block.weeks and (
        _stopped(reader) or any(doubts.EVERYTHING in one.stops for one in reader.facts.unsure)
    ):
        return (phrase("head.week.nothing"),)  # why it is stands above
    if not block.weeks:
        return (capital(spoken(block.reason) if isinstance(block.reason, Say) else (block.reason,)),)
    first = block.weeks[0]
    days = ((one.date, _lifts(one)) for one in first.sessions)
    how = "testing" if first.kind == "testing" else "session"
    return tuple(phrase(f"head.week.{how}", date=date, lifts=lifts) for date, lifts in days if lifts)


def _lifts(session: BlockSession) -> tuple[Say, ...]:
    """The first lifts of a session, each by its singles or by the most of its sets; attempts are told apart."""
    told: dict[str, BlockSet] = {}
    for one in (one for one in session.sets if one.role not in ("attempt", "way up")):
        there = told.setdefault(one.lift, one)
        if there.role != "single" and (one.role == "single" or one.sets > there.sets):
            told[one.lift] = one
    first, rest = list(told.values())[:LIFTS], len(told) - LIFTS
    return (
        *(
            say("head.week.lift", lift=one.lift, sets=one.sets, reps=one.reps, load_kg=one.kg)
            if one.kg
            else say("head.week.lift_bare", lift=one.lift)
            for one in first
        ),
        *((say("head.week.more", n=rest),) if rest > 0 else ()),
    )


def test_day(reader: Reader) -> Phrase:
    """The proposal's test day, with the opener and the third of each lift."""
    block = reader.facts.block
    if block is None or block.test_day is None:
        return ()
    kg = {(one.lift or reader.lift, one.attempt): one.kg for one in block.attempts}
    told = tuple(
        say(
            f"head.test.{'lift' if (lift, 3) in kg else 'opener'}",
            lift=lift,
            opener_kg=opener,
            third_kg=kg.get((lift, 3), opener),
        )
        for (lift, attempt), opener in kg.items()
        if attempt == 1
    )
    how = "attempts" if told else "bare"
    return phrase(f"head.test.{how}", date=block.test_day, lifts=told)


def sentence(reader: Reader) -> Phrase:
    """What holds the goal back, or that nothing is known to."""
    needs, fact = reader.facts.needs, reader.goal
    if needs:
        return capital(ranked.first_sentence(spoken(needs[0].claim), (". ",)))
    if fact.goal_kg is None:
        return phrase("head.sentence.no_weight")
    if fact.current_kg is None:
        return phrase("head.sentence.no_present", **of(fact))
    if not fact.gap_kg:
        return phrase("head.sentence.reached", **of(fact))
    # How far it is stands above.
    return ranked.first_sentence(ranked.nothing(reader).text, (". ",))


def _alerts(reader: Reader) -> list[Phrase]:
    """What is not sure, with what stops everything first; rows set aside; a best no longer present."""
    facts = reader.facts
    found: list[Phrase] = [*map(spoken, doubts.sentences(facts.unsure))]
    if aside := sum(entry.rows_set_aside for entry in facts.ledger):
        found.append(phrase("head.alert.aside", rows=aside))
    contests = (one for season in facts.season or () for one in season.contests)
    last = max(contests, key=lambda one: one.date, default=None)
    lost = tuple(one.lift for one in last.lifts if one.bombed) if last is not None else ()
    if (
        last is not None
        and lost
        and (facts.as_of - last.date).days <= 7 * reader.dossier.records.lifter.weeks_current
    ):
        found.append(phrase("head.alert.bombed", lifts=lost, date=last.date))
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


def _held(reader: Reader) -> Phrase:
    """That something stops every proposal, which the alerts below it tell; nothing where nothing does."""
    everything = any(doubts.EVERYTHING in one.stops for one in reader.facts.unsure)
    return phrase("head.sentence.held") if everything else ()
