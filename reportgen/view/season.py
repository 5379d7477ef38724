"""The season edition: one year, or the span asked for, summed up for the archive."""

import datetime as dt

import pandas as pd

from reportgen.model.season import AttendanceFact, ContestFact, SeasonFact, TriedFact
from reportgen.view import (
    history,
    ledger,
    misses,
    needs,
    outcome,
    positions,
    published,
    spans,
    stands,
    tapers,
)
from reportgen.view.options import InUnit
from reportgen.view.page import Block, Figure, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, load, plain, portion, said, tally, words
from reportgen.words import Phrase, Weight, numbers
from reportgen.words.phrases import text_of

#: Ruled lines for the coach's own words, on paper.
LINES = 8
NOT_EXPLAINED = "not explained"


def sections(reader: Reader) -> tuple[Section, ...]:
    """The sections in their order."""
    season = spans.newest(reader)
    if season is None:
        return (
            Section(
                id="season",
                title="The season",
                lead=("No training is in the log, so there is nothing to sum up.",),
                blocks=(),
            ),
            *_words(),
        )
    inside = spans.within(reader, season)
    parts = (
        _bests(inside, season),
        _tests(season),
        _training(reader, season),
        _tapers(inside, season),
        _body(inside),
        _positions(reader),
        _said(reader, season),
        _years(reader),
        *_words(),
        ledger.read(reader, brief=True),
        ledger.cautions(reader),
    )
    return tuple(part for part in parts if part is not None)


def sentence(reader: Reader) -> Phrase:
    """The season in one sentence, from its figures."""
    season = spans.newest(reader)
    if season is None:
        return ("Nothing was trained, so there is nothing to sum up.",)
    parts: list[str | Weight] = [*_rise(reader, season)]
    held = season.attendance
    if held is not None:
        parts.append(
            f"{' over ' if parts else ''}{numbers.count(held.sessions, 'session')} in "
            f"{held.weeks_trained} of {numbers.count(held.weeks, 'week')}"
        )
    heavy = season.heavy_singles
    if heavy is not None and heavy.tried:
        parts.append(f", with {heavy.made} of {numbers.count(heavy.tried, 'single')} at 90 % and over made")
    if not parts:
        return (
            f"Nothing was trained from {numbers.span(season.start, season.end)}, so there is nothing to sum up.",
        )
    if isinstance(parts[0], str):
        parts[0] = numbers.sentence(parts[0])
    return (*parts, ".")


def _rise(reader: Reader, season: SeasonFact) -> list[str | Weight]:
    """Best of the season against the best before it."""
    parts: list[str | Weight] = []
    for lift, top, before in spans.tops(reader, season):
        parts.append(", and the " if parts else "the ")
        if before is None:
            parts += [f"{lift} reached ", Weight(top)]
        elif top > before:
            parts += [f"{lift} rose from ", Weight(before), " to ", Weight(top)]
        elif top == before:
            parts += [f"{lift} stood at ", Weight(top)]
        else:
            parts += [f"{lift} stayed under its best of ", Weight(before), " with ", Weight(top)]
    return parts


def _bests(reader: Reader, season: SeasonFact) -> Section:
    lead: Phrase = ("The heaviest made load of each month, and where it was made.",)
    if not season.bests:
        blocks: tuple[Block, ...] = (
            Paragraph(text=(f"No made {reader.either} is in the log of this season.",)),
        )
    else:
        blocks = (bests(reader, season),)
    return Section(id="bests-by-month", title="Bests by month", lead=lead, blocks=blocks)


def _month(name: str) -> str:
    return numbers.month(dt.date.fromisoformat(f"{name}-01"))


def bests(reader: Reader, season: SeasonFact) -> Figure:
    """The heaviest made load of each month, by lift."""
    lifts = tuple(dict.fromkeys(best.lift for best in season.bests))
    frame = pd.DataFrame(
        {
            "date": pd.to_datetime([f"{best.month}-01" for best in season.bests]).astype("datetime64[s]"),
            "lift": [best.lift for best in season.bests],
            "weight": [reader.number(best.kg) for best in season.bests],
            "reading": [
                f"{_month(b.month)}: {b.lift} {reader.say(b.kg)} on {numbers.day(b.date)}, {b.where}"
                for b in season.bests
            ],
        }
    )
    top = {lift: max((b for b in season.bests if b.lift == lift), key=lambda b: b.kg) for lift in lifts}
    phrase: Phrase = ()
    for lift, best in top.items():
        phrase += ("; the " if phrase else "The ", f"heaviest {lift} was ", Weight(best.kg))
        phrase += (f" on {numbers.day(best.date)} ({best.where})",)
    phrase += (".",)
    return Figure(
        id="month-bests",
        title="Heaviest made load by month",
        sentence=phrase,
        summary=f"A dot a month from {_month(season.bests[0].month)} to {_month(season.bests[-1].month)}, "
        f"joined by lift. {plain(phrase, reader.unit)}",
        chart="month_bests",
        data={"bests": frame},
        options=InUnit(unit=reader.unit),
        table=Table(
            caption="Heaviest made load by month",
            head=("month", "lift", "load", "day", "where"),
            rows=tuple(
                (words(_month(b.month)), words(b.lift), load(b.kg), words(b.date), words(b.where))
                for b in season.bests
            ),
            folded=True,
            id="month-bests-table",
        ),
    )


def _tests(season: SeasonFact) -> Section:
    lead: Phrase = _openers(season.openers)
    blocks: list[Block] = []
    if season.contests:
        blocks.append(_contests(season.contests))
        faults = [
            (f"{numbers.day(c.date)}: {text_of(fault)}.",) for c in season.contests for fault in c.faults
        ]
        if faults:
            blocks += [
                Paragraph(text=("What a federation would not have allowed:",)),
                Points(items=tuple(faults)),
            ]
    elif season.test_days:
        words_ = (
            "No contest and no test day was given; days that were found in the log stand with the tapers."
        )
        blocks.append(Paragraph(text=(words_,)))
    else:
        blocks.append(Paragraph(text=("No test day is in the log of this season, given or found.",)))
    return Section(id="test-days-season", title="Contests and test days", lead=lead, blocks=tuple(blocks))


def _openers(fact: TriedFact) -> Phrase:
    if not fact.tried:
        return ("No opener was taken.",)
    made = (
        "The one opener was made"
        if fact.tried == fact.made == 1
        else f"Openers made: {fact.made} of {fact.tried}"
    )
    return (f"{made}{_chance(fact)}.",)


def _chance(fact: TriedFact) -> str:
    """The interval of a share, in words."""
    if fact.rate_low is None or fact.rate_high is None:
        return ""
    low, high = numbers.share(fact.rate_low), numbers.share(fact.rate_high)
    return f" (the true share lies between {low} and {high}, with 95 % confidence)"


def _contests(contests: tuple[ContestFact, ...]) -> Table:
    """Contest results; Sinclair totals of two cycles stand in one table, never in one line of argument."""
    rows = []
    for contest in contests:
        by_lift: Phrase = ()
        for result in contest.lifts:
            by_lift += ((", ",) if by_lift else ()) + (f"{result.lift} ",)
            if result.best_kg is not None:
                by_lift += (Weight(result.best_kg),)
            else:
                by_lift += (outcome.none_made(result),)
        cycle = contest.sinclair_cycle + (" (borrowed)" if contest.sinclair_borrowed else "")
        points = contest.sinclair_kg
        rows.append(
            (
                words(contest.date),
                words(contest.event or contest.kind),
                said(by_lift),
                load(contest.total_kg) if contest.total_kg is not None else words(outcome.no_total(contest)),
                load(contest.body_mass_kg),
                words(outcome.no_sinclair(contest) if points is None else numbers.number(points)),
                words("" if points is None else cycle),
            )
        )
    note: Phrase = ()
    if any(c.sinclair_borrowed and c.sinclair_kg is not None for c in contests):
        note = ("Borrowed: the federation's table for the day's own cycle was not found.",)
    if any(c.sinclair_missing == "coefficients" for c in contests):
        note += (" " if note else "", "Coefficients not known: the federation's table was not found.")
    return Table(
        caption="Results; Sinclair totals of two cycles are never compared",
        head=("day", "what", "best lifts", "total", "body mass", "Sinclair total", "cycle"),
        rows=tuple(rows),
        id="contests",
        note=note,
    )


def _training(reader: Reader, season: SeasonFact) -> Section:
    held = season.attendance
    blocks: list[Block] = []
    lead: Phrase = ("No training is in the log of this season.",)
    if held is not None:
        lead = (
            f"{numbers.sentence(numbers.count(held.sessions, 'session'))} in {held.weeks_trained} of "
            f"{numbers.count(held.weeks, 'week')}, {numbers.number(held.sessions_per_week)} a week with the empty "
            f"weeks counted.",
        )
        blocks.append(_lost(held))
    blocks.append(Paragraph(text=_singles(*spans.singles(reader, season))))
    return Section(id="attendance", title="Training", lead=lead, blocks=tuple(blocks))


def _singles(heavy: TriedFact | None, blind: bool) -> Phrase:
    if heavy is None:
        return ("Singles at 90 % and over: the best was not known well enough to say.",)
    if not heavy.tried:
        known = ", as far as the best was known" if blind else ""
        return (f"No single at 90 % or over was tried{known}.",)
    rate = f", {numbers.share(heavy.rate)}" if heavy.rate is not None else ""
    return (f"Singles at 90 % and over: {heavy.made} made of {heavy.tried}{rate}{_chance(heavy)}.",)


def _lost(held: AttendanceFact) -> Block:
    lost = [(reason, many) for reason, many in held.weeks_lost.items() if many]
    if not lost:
        return Paragraph(text=("No week was lost.",))
    named = [f"{reason} {many}" for reason, many in sorted(lost, key=lambda pair: -pair[1])]
    weeks = numbers.sentence(numbers.count(sum(many for _, many in lost), "week"))
    return Paragraph(text=(f"{weeks} without a session, by reason: {numbers.listing(named)}.",))


def _tapers(reader: Reader, season: SeasonFact) -> Section | None:
    tests = season.test_days or ()
    chases = tuple(c for c in reader.facts.chases or () if season.start <= c.start <= season.end)
    blocks: list[Block] = []
    if tests:
        figure = tapers.aligned(reader, tests)
        blocks += [figure] if figure is not None else []
        blocks += [*history.blocks(reader, tests), *published.beside(reader, tests)]
    blocks += misses.chases(reader, chases)
    if not blocks:
        return None
    return Section(
        id="tapers",
        title="Tapers, and what each gave",
        lead=("A taper is found from the load before a test day, not from labels.",),
        blocks=tuple(blocks),
    )


def _body(reader: Reader) -> Section | None:
    figure = stands.body_mass(reader)
    if figure is None:
        return None
    return Section(id="body", title="The lifter's weight", lead=(), blocks=(figure,))


def _positions(reader: Reader) -> Section | None:
    screening = reader.facts.screening
    if screening is None or not screening.items:
        return None
    blocks = positions.then_now(reader, screening)
    if not blocks:
        return None
    return Section(
        id="positions",
        title="Positions, then and now",
        lead=(
            "The newest reading beside the earliest one under the same conditions. No score, no diagnosis.",
        ),
        blocks=blocks,
    )


def _said(reader: Reader, season: SeasonFact) -> Section | None:
    rows = tuple(row for row in reader.facts.said_and_done or () if season.start <= row.date <= season.end)
    if not rows:
        return None
    judged = [row for row in rows if row.proved is not None]
    right = sum(bool(row.proved) for row in judged)
    lead = (
        f"Of {numbers.count(len(judged), 'decision')} that can be judged by now, {right or 'none'} proved right."
        if judged
        else "It is too early to say of any decision whether it proved right."
    )
    return Section(
        id="said",
        title="What was decided, and what came of it",
        lead=(lead,),
        blocks=(needs.said_table(rows),),
    )


def _years(reader: Reader) -> Section | None:
    """The seasons of the log side by side."""
    seasons = reader.facts.season or ()
    if len(seasons) < 2:
        return None
    rows = []
    for season in seasons:
        top: Phrase = ()
        for lift in reader.lifts:
            inside = [best.kg for best in season.bests if best.lift == lift]
            if inside:
                top += ((", ",) if top else ()) + ((f"{lift} ",) if len(reader.lifts) > 1 else ())
                top += (Weight(max(inside)),)
        held, heavy = season.attendance, spans.singles(reader, season)[0]
        rows.append(
            (
                words(season.label),
                said(top),
                words(None if held is None else held.sessions_per_week),
                tally(None if held is None else held.weeks - held.weeks_trained),
                tally(None if heavy is None else heavy.tried),
                portion(None if heavy is None else heavy.rate),
                tally(len({t.date for t in season.test_days}) if season.test_days is not None else None),
            )
        )
    return Section(
        id="years",
        title="The seasons side by side",
        lead=("The first and the last of them may be a part of a year only.",),
        blocks=(
            Table(
                caption="Seasons of the log",
                head=(
                    "season", "best", "sessions a week", "weeks lost", "singles at 90 %", "made", "test days",
                ),
                rows=tuple(rows),
                id="years-table",
            ),
        ),
    )  # fmt: skip


def _words() -> tuple[Section, ...]:
    """Room for the coach's words: ruled lines on paper."""
    return (
        Section(
            id="words",
            title="The coach's words",
            lead=(
                "Room to write by hand on the printed page; a note in the folder is printed in the review.",
            ),
            blocks=tuple(Paragraph(text=("\N{NO-BREAK SPACE}",), tone="line") for _ in range(LINES)),
        ),
    )
