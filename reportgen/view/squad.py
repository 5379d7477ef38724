"""One dossier to one line of a squad's index, with the season's figures where the index is the archive's."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from reportgen.analysis import trust
from reportgen.model.dossier import Dossier
from reportgen.model.season import SeasonFact
from reportgen.trade import doubts
from reportgen.trade.schema import Trade
from reportgen.view import head, outcome, spans
from reportgen.view.page import Edition, SquadLine
from reportgen.view.reader import Reader
from reportgen.words import Phrase, listed, phrase, say, say_of, spoken, text

#: So many doubts of one lifter are named in the index.
MOST_HELD: Final = 2


def squad_line(dossier: Dossier, trade: Trade, *, href: str = "", edition: Edition = "review") -> SquadLine:
    """One lifter's line in the squad's index.

    Args:
        dossier: The lifter's dossier.
        trade: The trade tables that the facts were computed with.
        href: Address of the lifter's page beside the index.
        edition: Of that page; with a season the line holds the season's figures, too.
    """
    facts = dossier.facts
    reader = Reader(dossier=dossier, trade=trade, unit=dossier.records.lifter.unit)
    held = spans.newest(reader) if edition == "season" else None
    last = facts.span.last
    drawn = reader if held is None else spans.within(reader, held)
    best = drawn.dossier.tables.running_best
    best = best.loc[best["lift"] == reader.lifts[0]] if len(best) else best
    return SquadLine(
        name=facts.lifter.name,
        href=href,
        goal=head.goal(reader),
        present=head.present(reader),
        gap=head.gap(reader),
        first_need=facts.needs[0].claim if facts.needs else "",
        last_session=last,
        days_since=None if last is None else (facts.as_of - last).days,
        rows_set_aside=sum(entry.rows_set_aside for entry in facts.ledger),
        best=tuple((d.date().isoformat(), float(kg)) for d, kg in zip(best["date"], best["kg"], strict=True)),
        gap_kg=reader.goal.gap_kg if reader.goal is not None else None,
        season=() if held is None else _cells(reader, held),
        held=_held(reader),
    )


def _held(reader: Reader) -> str:
    """What holds the proposal back, in short; "" where nothing does."""
    facts, told = reader.facts, []
    sore = [place.place for place in facts.pain.places if place.open] if facts.pain is not None else []
    if sore:
        told.append(say("squad.stopped.pain", places=tuple(sore)))
    rows = tuple(doubts.where(one) for one in facts.unsure)
    if more := len(rows[MOST_HELD:]):
        told.append(say("squad.stopped.unsure_more", rows=rows[:MOST_HELD], more=more))
    elif rows:
        told.append(say("squad.stopped.unsure", rows=rows))
    if trust.stops(facts.unsure, facts.pain).everything:
        told.append(say("squad.stopped.everything"))
    return text("squad.held", told=tuple(told))


def on_one_day(lines: Iterable[SquadLine]) -> tuple[tuple[SquadLine, ...], dt.date | None]:
    """The lines with their days counted to one day, the newest review day among them, and that day.

    A lifter's own review day is mostly that of the last session: counted to it, somebody who stopped coming
    in spring would stand beside the others with no day in between.

    Args:
        lines: Each with days counted to its own review day.

    Returns:
        The lines in their order; None for the day where nobody has a session.
    """
    lines = tuple(lines)
    reviewed = [one.last_session + dt.timedelta(one.days_since or 0) for one in lines if one.last_session]
    day = max(reviewed, default=None)
    if day is None:
        return lines, None
    return tuple(
        replace(one, days_since=(day - one.last_session).days) if one.last_session else one for one in lines
    ), day


def _cells(reader: Reader, held: SeasonFact) -> tuple[tuple[str, Phrase], ...]:
    """Heading and cell of each of the season's columns."""
    unknown, trained, tested = phrase("squad.unknown"), held.attendance, spans.tested(held)
    sessions = unknown if trained is None else spoken(say_of("squad.season.sessions", trained))
    cells = (
        (spans.named(held),),
        _heaviest(reader, held) or unknown,
        sessions,
        _singles(reader, held),
        unknown if tested is None else phrase("squad.season.test_days", tested=tested),
        _total(held) or unknown,
    )
    return tuple(zip(listed("squad.season.columns"), cells, strict=True))


def _heaviest(reader: Reader, held: SeasonFact) -> Phrase:
    """The season's best of each goal lift, and what it added to the best before."""
    tops = tuple(
        say("squad.season.top_more", lift=lift, top_kg=top, more_kg=top - before)
        if before is not None and top > before
        else say("squad.season.top", lift=lift, top_kg=top)
        for lift, top, before in spans.tops(reader, held)
    )
    return phrase("squad.season.tops", tops=tops)


def _singles(reader: Reader, held: SeasonFact) -> Phrase:
    heavy, _ = spans.singles(reader, held)
    if heavy is None:
        return phrase("squad.season.singles_unknown")
    return spoken(say_of(f"squad.season.{'singles' if heavy.tried else 'singles_none'}", heavy))


def _total(held: SeasonFact) -> Phrase:
    totals = [contest.total_kg for contest in held.contests if contest.total_kg is not None]
    if totals:
        return phrase("squad.season.total", total_kg=max(totals))
    return phrase("squad.season.no_total") if any(map(outcome.no_total, held.contests)) else ()
