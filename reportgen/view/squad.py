"""One dossier to one line of a squad's index; the lines to the coach's morning: who needs a look first, and why."""

import datetime as dt
from collections.abc import Iterable
from typing import Final

from reportgen.analysis import look as looks
from reportgen.analysis import trust
from reportgen.model import doubts
from reportgen.model.dossier import Dossier
from reportgen.model.season import SeasonFact
from reportgen.trade.claims import called
from reportgen.trade.schema import Trade
from reportgen.view import head, outcome, spans
from reportgen.view.needs import first_sentence
from reportgen.view.page import Edition, SquadLine, SquadPage, SquadRow
from reportgen.view.reader import Reader, of
from reportgen.words import Phrase, Weight, listed, numbers, phrase, plain, said, say, spoken, text

#: So many doubts of one lifter are named in the index.
MOST_HELD: Final = 2
#: The pictures go so far back.
DRAWN_DAYS: Final = 365


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
    best = (reader if held is None else spans.within(reader, held)).dossier.tables.running_best
    # Of a total the sum of both bests, from the day on which both are known.
    each = best.pivot_table(index="date", columns="lift", values="kg", aggfunc="max")
    whole = each.reindex(columns=list(reader.lifts)).ffill().dropna().sum(axis=1)
    first = first_sentence(spoken(facts.needs[0].claim)) if facts.needs else ()
    return SquadLine(
        name=facts.lifter.name,
        href=href,
        goal=head.goal(reader, dated=False),
        present=head.present(reader, dated=False),
        gap=head.gap(reader),
        first_need=plain(first, reader.unit),
        rows_set_aside=sum(entry.rows_set_aside for entry in facts.ledger),
        look=looks.read(dossier.records, facts, trade, held=_held(reader)),
        best=tuple((f"{day:%Y-%m-%d}", float(kg)) for day, kg in whole.items()),
        goal_kg=reader.goal.goal_kg,
        gap_kg=reader.goal.gap_kg,
        unit=reader.unit,
        season=() if held is None else _cells(reader, held),
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


def squad_page(
    title: str,
    coach: str,
    lines: Iterable[SquadLine],
    failed: Iterable[tuple[str, str]],
    edition: Edition,
    trade: Trade,
) -> SquadPage:
    """The index of some lifters, who needs a look first; the archive's in the order of the folders.

    Days are counted to one day, the newest review day among them: a lifter's own is mostly that of the last
    session, and somebody who stopped coming in spring would stand beside the others with no day in between.
    Nothing but the lines is asked, so an index can be made of pages that were written before.
    """
    lines = tuple(lines)
    day = max((one.look.as_of for one in lines if one.look.last), default=None)
    rows = [_row(one, day or one.look.as_of, trade) for one in lines]
    if edition != "season":
        rows.sort(key=lambda one: one[0])
    starts = [dt.date.fromisoformat(one.best[0][0]) for one in lines if one.best]
    return SquadPage(
        title=title,
        coach=coach,
        rows=tuple(row for _, row in rows),
        failed=tuple(failed),
        edition=edition,
        first=None if day is None else max(day - dt.timedelta(DRAWN_DAYS), min(starts, default=day)),
        last=day,
        weeks=int(trade.value("look_weeks")),
    )


def _row(line: SquadLine, day: dt.date, trade: Trade) -> tuple[tuple[object, ...], SquadRow]:
    """One lifter on the squad's day, behind what the index is ordered by."""
    look, why = line.look, looks.reasons(line.look, day, trade)
    days = (look.by - day).days if look.by is not None and look.by >= day else None
    ranks = (*(looks.ORDER.index(name) for name, _ in why), len(looks.ORDER))
    # Weeks that ended before a long silence are not the last two.
    known = look.wanted is not None and look.done is not None and "silent" not in dict(why)
    sessions = text(f"squad.sessions.{'planned' if look.planned else 'usual'}", **of(look)) if known else ""
    row = SquadRow(
        line=line,
        why=tuple(said(told, line.unit) for _, told in why),
        days=days,
        by="" if look.by is None else numbers.day(look.by),
        sessions=sessions,
        last="" if look.last is None else numbers.day(look.last),
        ago=None if look.last is None else (day - look.last).days,
        need=called(look.need) if look.need else "",
        area=text(f"needs.page.area.{look.area}") if look.area else "",
    )
    return (ranks, days is None, days or 0, line.name), row


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
