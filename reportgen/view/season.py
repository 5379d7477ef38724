"""The season edition: one year, or the span asked for, summed up for the archive."""

import pandas as pd

from reportgen.model.season import AttendanceFact, ContestFact, SeasonFact, TriedFact
from reportgen.view import ledger, misses, needs, outcome, pieces, positions, spans, stands, tapers
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, load, portion, tally
from reportgen.words import Phrase, Say, capital, phrase, say, text

#: Ruled lines for the coach's own words, on paper.
LINES = 8


def sections(reader: Reader) -> tuple[Section, ...]:
    """The sections in their order."""
    season = spans.newest(reader)
    if season is None:
        return (pieces.section("season.empty", "season", ()), _words())
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
        _words(),
        ledger.read(reader, brief=True),
        ledger.cautions(reader),
    )
    return tuple(part for part in parts if part is not None)


def sentence(reader: Reader) -> Phrase:
    """The season in one sentence, from its figures."""
    season = spans.newest(reader)
    if season is None:
        return phrase("season.sentence.none")
    told: Say | None = None
    tops = tuple(_top(*top) for top in spans.tops(reader, season))
    if tops:
        told = say("season.sentence.best", best=tops)
    if (held := season.attendance) is not None:
        trained = say(
            "season.sentence.sessions", sessions=held.sessions, trained=held.weeks_trained, weeks=held.weeks
        )
        told = say("season.sentence.best_and_sessions", best=told, sessions=trained) if told else trained
    if told is None:
        return phrase("season.sentence.none_inside", span=(season.start, season.end))
    heavy = season.heavy_singles
    if heavy is None or not heavy.tried:
        return phrase("season.sentence.whole", told=told)
    return phrase("season.sentence.whole_with_singles", told=told, made=heavy.made, tried=heavy.tried)


def _top(lift: str, top: float, before: float | None) -> Say:
    """Best of the season against the best before it."""
    if before is None:
        return say("season.best.first", lift=lift, top_kg=top)
    how = "rose" if top > before else "same" if top == before else "under"
    return say(f"season.best.{how}", lift=lift, top_kg=top, before_kg=before)


def _bests(reader: Reader, season: SeasonFact) -> Section:
    none = pieces.paragraph("season.bests.none", lift=reader.either)
    return pieces.section(
        "season.bests", "bests-by-month", (bests(reader, season) if season.bests else none,)
    )


def bests(reader: Reader, season: SeasonFact) -> Figure:
    """The heaviest made load of each month, by lift."""
    found = season.bests
    lifts = tuple(dict.fromkeys(best.lift for best in found))
    frame = pd.DataFrame(
        {
            "date": pd.to_datetime([f"{best.month}-01" for best in found]).astype("datetime64[s]"),
            "lift": [best.lift for best in found],
            "weight": [reader.number(best.kg) for best in found],
            "reading": [
                text("season.month_bests.reading", reader.unit, lift=b.lift, best_kg=b.kg, date=b.date, where=b.where)
                for b in found
            ],
        }
    )  # fmt: skip
    top = (max((b for b in found if b.lift == lift), key=lambda b: b.kg) for lift in lifts)
    tops = tuple(
        say("season.month_bests.top", lift=b.lift, top_kg=b.kg, date=b.date, where=b.where) for b in top
    )
    return pieces.figure(
        "season.month_bests",
        "month-bests",
        "month_bests",
        {"bests": frame},
        pieces.table(
            "season.month_bests",
            ((text("season.month", date=b.date), b.lift, load(b.kg), b.date, b.where) for b in found),
            address="month-bests-table",
            folded=True,
        ),
        options={"unit": reader.unit, "lifts": lifts},
        sentence=capital(phrase("season.month_bests.sentence", tops=tops)),
        unit=reader.unit,
        first=found[0].date,
        last=found[-1].date,
    )


def _tests(season: SeasonFact) -> Section:
    blocks: list[Block] = []
    faults = [say("season.tests.fault", date=c.date, fault=one) for c in season.contests for one in c.faults]
    if season.contests:
        blocks.append(_contests(season.contests))
    else:
        blocks.append(
            pieces.paragraph("season.tests.only_found" if season.test_days else "season.tests.none")
        )
    if faults:
        blocks += [pieces.paragraph("season.tests.faults"), pieces.points(faults)]
    return pieces.section("season.tests", "test-days-season", blocks, lead=_openers(season.openers))


def _openers(fact: TriedFact) -> Phrase:
    if not fact.tried:
        return phrase("season.openers.none")
    how = "one" if fact.tried == fact.made == 1 else "some"
    return phrase(f"season.openers.{how}", made=fact.made, tried=fact.tried, rates=_likely(fact))


def _likely(fact: TriedFact) -> tuple[float, float]:
    """The interval of a share of what was tried; the whole where nobody worked one out."""
    return fact.rate_low or 0.0, 1.0 if fact.rate_high is None else fact.rate_high


def _contests(contests: tuple[ContestFact, ...]) -> Table:
    """Contest results; Sinclair totals of two cycles stand in one table, never in one line of argument."""
    rows = []
    for one in contests:
        lifts = tuple(
            say("season.contests.lift.made", lift=r.lift, best_kg=r.best_kg)
            if r.best_kg is not None
            else say(f"season.contests.lift.{'none_made' if r.attempts else 'not_tried'}", lift=r.lift)
            for r in one.lifts
        )
        points, cycle = one.sinclair_kg, one.sinclair_cycle
        if one.sinclair_borrowed:
            cycle = text("season.contests.borrowed", cycle=cycle)
        rows.append(
            (
                one.date,
                one.event or one.kind,
                phrase("season.contests.lifts", lifts=lifts),
                outcome.no_total(one) if one.total_kg is None else load(one.total_kg),
                load(one.body_mass_kg),
                outcome.no_sinclair(one) if points is None else points,
                None if points is None else cycle,
            )
        )
    notes = []
    if any(c.sinclair_borrowed and c.sinclair_kg is not None for c in contests):
        notes.append(say("season.contests.notes.borrowed"))
    if any(c.sinclair_missing == "coefficients" for c in contests):
        notes.append(say("season.contests.notes.coefficients"))
    note = phrase("season.contests.notes.both", notes=tuple(notes))
    return pieces.table("season.contests", rows, address="contests", note=note)


def _training(reader: Reader, season: SeasonFact) -> Section:
    held = season.attendance
    blocks: list[Block] = [] if held is None else [_lost(held)]
    blocks.append(Paragraph(text=_singles(*spans.singles(reader, season))))
    lead = phrase("season.training.none")
    if held is not None:
        lead = phrase(
            "season.training.held",
            sessions=held.sessions,
            trained=held.weeks_trained,
            weeks=held.weeks,
            per_week=held.sessions_per_week,
        )
    return pieces.section("season.training", "attendance", blocks, lead=capital(lead))


def _singles(heavy: TriedFact | None, blind: bool) -> Phrase:
    if heavy is None:
        return phrase("season.singles.unknown")
    if not heavy.tried:
        return phrase("season.singles.none_known" if blind else "season.singles.none")
    return phrase(
        "season.singles.some",
        made=heavy.made,
        tried=heavy.tried,
        rate=heavy.made / heavy.tried,
        rates=_likely(heavy),
    )


def _lost(held: AttendanceFact) -> Block:
    lost = sorted(
        ((many, reason) for reason, many in held.weeks_lost.items() if many), key=lambda one: -one[0]
    )
    if not lost:
        return pieces.paragraph("season.training.none_lost")
    reasons = tuple(say("season.training.reason", reason=reason, weeks=many) for many, reason in lost)
    return pieces.paragraph("season.training.lost", weeks=sum(many for many, _ in lost), reasons=reasons)


def _tapers(reader: Reader, season: SeasonFact) -> Section | None:
    tests = season.test_days or ()
    chases = tuple(c for c in reader.facts.chases or () if season.start <= c.start <= season.end)
    blocks = (*tapers.blocks(reader, tests), *misses.chases(reader, chases))
    return pieces.section("season.tapers", "tapers", blocks) if blocks else None


def _body(reader: Reader) -> Section | None:
    figure = stands.body_mass(reader)
    return None if figure is None else pieces.section("season.body", "body", (figure,))


def _positions(reader: Reader) -> Section | None:
    screening = reader.facts.screening
    blocks = positions.then_now(reader, screening) if screening is not None and screening.items else ()
    return pieces.section("season.positions", "positions", blocks) if blocks else None


def _said(reader: Reader, season: SeasonFact) -> Section | None:
    rows = tuple(row for row in reader.facts.said_and_done or () if season.start <= row.date <= season.end)
    if not rows:
        return None
    judged = [bool(row.proved) for row in rows if row.proved is not None]
    how = "judged" if judged else "early"
    lead = phrase(f"season.said.{how}", judged=len(judged), right=sum(judged))
    return pieces.section("season.said", "said", (needs.said_table(rows),), lead=lead)


def _years(reader: Reader) -> Section | None:
    """The seasons of the log side by side."""
    seasons = reader.facts.season or ()
    if len(seasons) < 2:
        return None
    rows = []
    for season in seasons:
        tops = tuple(
            say("season.years.best" if len(reader.lifts) > 1 else "season.years.only", lift=lift, top_kg=top)
            for lift, top, _ in spans.tops(reader, season)
        )
        held, heavy = season.attendance, spans.singles(reader, season)[0]
        rows.append(
            (
                season.label,
                phrase("season.years.bests", bests=tops),
                None if held is None else held.sessions_per_week,
                tally(None if held is None else held.weeks - held.weeks_trained),
                tally(None if heavy is None else heavy.tried),
                portion(None if heavy is None else heavy.rate),
                tally(spans.tested(season)),
            )
        )
    return pieces.section(
        "season.years", "years", (pieces.table("season.years", rows, address="years-table"),)
    )


def _words() -> Section:
    """Room for the coach's words: ruled lines on paper."""
    line = Paragraph(text=("\N{NO-BREAK SPACE}",), tone="line")
    return pieces.section("season.words", "words", (line,) * LINES)
