"""One dossier to one line of a squad's index, with the season's figures where the index is the archive's."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

from reportgen.analysis import trust
from reportgen.model import calendar
from reportgen.model.dossier import Dossier
from reportgen.model.season import AttendanceFact, SeasonFact, TriedFact
from reportgen.trade import doubts
from reportgen.trade.schema import Trade
from reportgen.view import head, outcome, spans
from reportgen.view.page import Edition, SquadLine
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, numbers, plain, spoken

NONE: Final[Phrase] = ("–",)
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
        first_need=plain(spoken(facts.needs[0].claim)) if facts.needs else "",
        last_session="" if last is None else numbers.day(last),
        days_since=None if last is None else (facts.as_of - last).days,
        rows_set_aside=sum(entry.rows_set_aside for entry in facts.ledger),
        best=tuple((d.date().isoformat(), float(kg)) for d, kg in zip(best["date"], best["kg"], strict=True)),
        gap_kg=reader.goal.gap_kg if reader.goal is not None else None,
        season=() if held is None else _cells(reader, held),
        held=_held(reader),
    )


def _held(reader: Reader) -> str:
    """What holds the proposal back, in short; "" where nothing does."""
    facts = reader.facts
    stop = trust.stops(facts.unsure, facts.pain)
    sore = [place.place for place in facts.pain.places if place.open] if facts.pain is not None else []
    parts = [f"Open pain: {numbers.listing(sore)}."] if sore else []
    rows = [doubts.where(one) for one in facts.unsure]
    if rows:
        more = f" and {len(rows) - MOST_HELD} more" if len(rows) > MOST_HELD else ""
        parts.append(f"Not sure: {'; '.join(rows[:MOST_HELD])}{more}.")
    if stop.everything:
        parts.append("Nothing is proposed.")
    return " ".join(parts)


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
    reviewed = [
        _date(line.last_session) + dt.timedelta(line.days_since)
        for line in lines
        if line.days_since is not None
    ]
    if not reviewed:
        return lines, None
    day = max(reviewed)
    counted = (
        line if line.days_since is None else replace(line, days_since=(day - _date(line.last_session)).days)
        for line in lines
    )
    return tuple(counted), day


def _date(words: str) -> dt.date:
    """The day that `numbers.day` wrote: a line of a page that was left alone holds it in words only."""
    day, month, year = words.split()
    return dt.date(int(year), calendar.MONTHS.index(month) + 1, int(day))


def _cells(reader: Reader, held: SeasonFact) -> tuple[tuple[str, Phrase], ...]:
    """Heading and cell of each of the season's columns."""
    return (
        ("Season", (spans.named(held),)),
        ("Heaviest made", _heaviest(reader, held)),
        ("Sessions", _sessions(held.attendance)),
        ("Singles at 90 % and over", _singles(spans.singles(reader, held)[0])),
        ("Test days", _tests(held)),
        ("Best total", _total(held)),
    )


def _heaviest(reader: Reader, held: SeasonFact) -> Phrase:
    """The season's best of each goal lift, and what it added to the best before."""
    parts: Phrase = ()
    for lift, top, before in spans.tops(reader, held):
        parts += (("; " if parts else "") + f"{lift} ", Weight(top))
        if before is not None and top > before:
            parts += (" (", Weight(top - before), " more)")
    return parts or NONE


def _sessions(held: AttendanceFact | None) -> Phrase:
    if held is None:
        return NONE
    return (f"{held.sessions} in {held.weeks_trained} of {numbers.count(held.weeks, 'week')}",)


def _singles(heavy: TriedFact | None) -> Phrase:
    if heavy is None:
        return ("not known",)
    return (f"{heavy.made} of {heavy.tried} made",) if heavy.tried else ("none tried",)


def _tests(held: SeasonFact) -> Phrase:
    return NONE if held.test_days is None else (str(len({one.date for one in held.test_days})),)


def _total(held: SeasonFact) -> Phrase:
    totals = [contest.total_kg for contest in held.contests if contest.total_kg is not None]
    if totals:
        return (Weight(max(totals)),)
    return ("none",) if any(outcome.no_total(contest) for contest in held.contests) else NONE
