"""The season edition: one year, or the span asked for, summed up for the archive."""

from collections import Counter

import pandas as pd

from reportgen.model.season import AttendanceFact, ContestFact, LiftResult, SeasonFact, TriedFact
from reportgen.view import ledger, misses, needs, outcome, pieces, positions, spans, stands, tapers
from reportgen.view.options import InUnit
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, load, of, portion, tally
from reportgen.words import Phrase, Say, capital, numbers, phrase, say, spoken, text

#: Ruled lines for the coach's own words, on paper.
LINES = 8


def sections(reader: Reader) -> tuple[Section, ...]:
    """The sections in their order."""
    season = spans.newest(reader)
    line = Paragraph(text=("\N{NO-BREAK SPACE}",), tone="line")
    room = pieces.section("season.words", "words", (line,) * LINES)
    if season is None:
        return (pieces.section("season.empty", "season", ()), room)
    inside = spans.within(reader, season)
    parts = (
        _bests(inside, season),
        _tests(season),
        _training(reader, season),
        _tapers(inside, season),
        _body(inside),
        _positions(reader),
        said(reader, season),
        _years(reader),
        room,
        ledger.read(reader, brief=True),
        ledger.cautions(reader),
    )
    return tuple(part for part in parts if part is not None)


def sentence(reader: Reader) -> Phrase:
    """The season in one sentence, from its figures."""
    season = spans.newest(reader)
    if season is None:
        return phrase("season.sentence.none")
    tops, held, heavy = spans.tops(reader, season), season.attendance, season.heavy_singles
    best = say("season.sentence.best", best=tuple(_top(*top) for top in tops)) if tops else None
    trained = None if held is None else say("season.sentence.sessions", **of(held))
    told = best or trained
    if told is None:
        return phrase("season.sentence.none_inside", span=(season.start, season.end))
    if best and trained:
        told = say("season.sentence.best_and_sessions", best=best, sessions=trained)
    if heavy is None or not heavy.tried:
        return phrase("season.sentence.whole", told=told)
    return phrase("season.sentence.whole_with_singles", **of(heavy, told=told))


def _top(lift: str, top: float, before: float | None) -> Say:
    """Best of the season against the best before it."""
    if before is None:
        return say("season.best.first", lift=lift, top_kg=top)
    how = "rose" if top > before else "same" if top == before else "under"
    return say(f"season.best.{how}", lift=lift, top_kg=top, before_kg=before)


def _bests(reader: Reader, season: SeasonFact) -> Section:
    none = pieces.paragraph("season.bests.none", lift=reader.either)
    blocks = (bests(reader, season) if season.bests else none,)
    return pieces.section("season.bests", "bests-by-month", blocks)


def bests(reader: Reader, season: SeasonFact) -> Figure:
    """The heaviest made load of each month, by lift."""
    found = season.bests
    frame = pd.DataFrame(
        {
            "date": pd.to_datetime([f"{best.month}-01" for best in found]).astype("datetime64[s]"),
            "lift": [best.lift for best in found],
            "weight": [reader.number(best.kg) for best in found],
            "reading": [text("season.month_bests.reading", reader.unit, **of(best)) for best in found],
        }
    )
    lifts = tuple(dict.fromkeys(best.lift for best in found))
    tops = (max((b for b in found if b.lift == lift), key=lambda b: b.kg) for lift in lifts)
    told = tuple(say("season.month_bests.top", **of(top)) for top in tops)
    rows = ((numbers.month(b.date), b.lift, load(b.kg), b.date, stands.where(b.where)) for b in found)
    return pieces.figure(
        "season.month_bests",
        "month-bests",
        "month_bests",
        {"bests": frame},
        pieces.table("season.month_bests", rows, address="month-bests-table", folded=True),
        options=InUnit(unit=reader.unit),
        sentence=capital(phrase("season.month_bests.sentence", tops=told)),
        unit=reader.unit,
        first=found[0].date,
        last=found[-1].date,
    )


def _tests(season: SeasonFact) -> Section:
    held, openers = season.contests, season.openers
    faults = [say("season.tests.fault", date=one.date, fault=fault) for one in held for fault in one.faults]
    none = "only_found" if season.test_days else "none"
    blocks: list[Block] = [_contests(held) if held else pieces.paragraph(f"season.tests.{none}")]
    if faults:
        blocks += [pieces.paragraph("season.tests.faults"), pieces.points(faults)]
    how = "none" if not openers.tried else "one" if openers.tried == openers.made == 1 else "some"
    lead = say(f"season.openers.{how}", **of(openers, likely=_likely(openers)))
    return pieces.section("season.tests", "test-days-season", blocks, lead=lead)


def _contests(contests: tuple[ContestFact, ...]) -> Table:
    """Contest results; Sinclair totals of two cycles stand in one table, never in one line of argument."""
    rows = []
    for one in contests:
        points, cycle = one.sinclair_kg, "borrowed" if one.sinclair_borrowed else "own"
        rows.append(
            (
                one.date,
                one.event or say(f"history.kinds.{one.kind}"),
                say("season.contests.lifts", lifts=tuple(map(_result, one.lifts))),
                outcome.no_total(one) if one.total_kg is None else load(one.total_kg),
                load(one.body_mass_kg),
                outcome.no_sinclair(one) if points is None else points,
                None if points is None else say(f"season.contests.cycle.{cycle}", **of(one)),
            )
        )
    told = {
        "borrowed": any(one.sinclair_borrowed and one.sinclair_kg is not None for one in contests),
        "coefficients": any(one.sinclair_missing == "coefficients" for one in contests),
    }
    notes = tuple(say(f"season.contests.notes.{name}") for name, so in told.items() if so)
    note = phrase("season.contests.notes.both", notes=notes)
    return pieces.table("season.contests", rows, address="contests", note=note)


def _result(one: LiftResult) -> Say:
    how = "made" if one.best_kg else "none_made" if one.attempts else "not_tried"
    return say(f"season.contests.lift.{how}", **of(one))


def _training(reader: Reader, season: SeasonFact) -> Section:
    held = season.attendance
    lead = say("season.training.none") if held is None else say("season.training.held", **of(held))
    singles = pieces.paragraph(_singles(*spans.singles(reader, season)))
    blocks = (singles,) if held is None else (_lost(held), singles)
    return pieces.section("season.training", "attendance", blocks, lead=capital(spoken(lead)))


def _singles(heavy: TriedFact | None, blind: bool) -> Say:
    if heavy is None:
        return say("season.singles.unknown")
    none = "none_known" if blind else "none"
    return say(f"season.singles.{'some' if heavy.tried else none}", **of(heavy, likely=_likely(heavy)))


def _likely(fact: TriedFact) -> tuple[float, ...]:
    """The interval of a rate."""
    return fact.rate_low or 0.0, 1.0 if fact.rate_high is None else fact.rate_high


def _lost(held: AttendanceFact) -> Paragraph:
    lost = Counter(held.weeks_lost)
    if not lost.total():
        return pieces.paragraph("season.training.none_lost")
    reasons = (
        say("season.training.reason", reason=one, weeks=many) for one, many in lost.most_common() if many
    )
    return pieces.paragraph("season.training.lost", weeks=lost.total(), reasons=tuple(reasons))


def _tapers(reader: Reader, season: SeasonFact) -> Section | None:
    chases = tuple(c for c in reader.facts.chases or () if season.start <= c.start <= season.end)
    blocks = (*tapers.blocks(reader, season.test_days or ()), *misses.chases(reader, chases))
    # The picture and what the tapers came to stand open, what they rest on behind.
    return pieces.folded(pieces.section("season.tapers", "tapers", blocks), 2) if blocks else None


def _body(reader: Reader) -> Section | None:
    figure = stands.body_mass(reader)
    return None if figure is None else pieces.section("season.body", "body", (figure,))


def _positions(reader: Reader) -> Section | None:
    screening = reader.facts.screening
    blocks = positions.over_time(reader, screening) if screening is not None and screening.items else ()
    return pieces.section("season.positions", "positions", blocks) if blocks else None


def said(reader: Reader, season: SeasonFact | None = None) -> Section | None:
    """Earlier decisions, of a season where one is given, and what came of them; None without any."""
    rows = reader.facts.said_and_done or ()
    if season is not None:
        rows = tuple(row for row in rows if season.start <= row.date <= season.end)
    if not rows:
        return None
    judged = [bool(row.proved) for row in rows if row.proved is not None]
    lead = say(f"season.said.{'judged' if judged else 'early'}", judged=len(judged), right=sum(judged))
    return pieces.section("season.said", "said", (needs.said_table(rows),), lead=lead)


def _years(reader: Reader) -> Section | None:
    """The seasons of the log side by side."""
    seasons = reader.facts.season or ()
    if len(seasons) < 2:
        return None
    rows = []
    for season in seasons:
        named = f"season.years.{'best' if len(reader.lifts) > 1 else 'only'}"
        tops = tuple(say(named, lift=lift, top_kg=top) for lift, top, _ in spans.tops(reader, season))
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
    table = pieces.table("season.years", rows, address="years-table")
    return pieces.section("season.years", "years", (table,))
