"""One dossier to one line of a squad's index, with the season's figures where the index is the archive's."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from reportgen.analysis import trust
from reportgen.model import doubts
from reportgen.model.dossier import Dossier
from reportgen.model.season import SeasonFact
from reportgen.trade.schema import Trade
from reportgen.view import head, outcome, spans
from reportgen.view.page import Edition, SquadLine
from reportgen.view.reader import Reader, of
from reportgen.words import Phrase, Weight, listed, phrase, plain, say, spoken, text

#: So many doubts of one lifter are named in the index.
MOST_HELD: Final = 2


def squad_line(dossier: Dossier, trade: Trade, *, href: str = "", edition: Edition = "review") -> SquadLine:
    """One lifter's line in the squad's index.

    Args:
        dossier: The lifter's dossier.
        trade: The trade tables that the facts were computed with.
        href: Address of the lifter's page beside the index.
        edition: Of that page; that of the season has the season's figures in its line, too.
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
        first_need=plain(spoken(facts.needs[0].claim)) if facts.needs else "",
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
    if sore := tuple(one.place for one in head.hurting(reader)):
        told.append(say("squad.stopped.pain", places=sore))
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
    in spring would stand beside the others with no day in between. The day is None where nobody has a session.
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
    trained, heavy, tested = held.attendance, spans.singles(reader, held)[0], spans.tested(held)
    tops = tuple(
        say(f"squad.season.{'top_more' if more > 0 else 'top'}", lift=lift, top_kg=top, more_kg=more)
        for lift, top, before in spans.tops(reader, held)
        for more in (0.0 if before is None else top - before,)
    )
    singles = f"squad.season.singles.{'unknown' if heavy is None else 'some' if heavy.tried else 'none'}"
    total = max((one.total_kg for one in held.contests if one.total_kg is not None), default=None)
    lost = any(map(outcome.no_total, held.contests))
    cells = (
        (spans.named(held),),
        phrase("squad.season.tops", tops=tops),
        () if trained is None else phrase("squad.season.sessions", **of(trained)),
        phrase(singles) if heavy is None else phrase(singles, **of(heavy)),
        () if tested is None else phrase("squad.season.test_days", tested=tested),
        (Weight(total),) if total is not None else phrase("squad.season.no_total") if lost else (),
    )
    filled = (cell or phrase("squad.unknown") for cell in cells)
    return tuple(zip(listed("squad.season.columns"), filled, strict=True))
