"""What carries the goal: what each figure is enough for, and where the goal weight has been."""

import datetime as dt

from reportgen.model.facts import GoalFact, IndicatorFact, RepMaxFact
from reportgen.view import pieces, strip
from reportgen.view.options import Levels
from reportgen.view.page import Block, Figure, Paragraph, Section
from reportgen.view.reader import Reader, between, load, of, portion, tidy, words
from reportgen.words import Phrase, numbers, phrase, text, together
from reportgen.words.phrases import Filled, said

#: Months of a picture: of a longer log every other one, or fewer.
MOST_POINTS = 120

Indicators = tuple[IndicatorFact, ...]


def section(reader: Reader) -> Section:
    """What the other lifts are enough for, and where the goal weight has been."""
    facts = reader.facts
    doubles = [_doubles(fact) for fact in facts.rep_maxes]
    blocks: list[Block] = [enough_for(reader)] if facts.indicators is not None else []
    blocks += [*strip.goal_weight(reader), *_context(reader)]
    blocks.append(pieces.points(doubles) if doubles else pieces.paragraph("supports.none.doubles"))
    if facts.expressed_strength is not None:
        blocks.append(expressed(reader))
    return pieces.section("supports.section", "supports", blocks)


def _called(reader: Reader, fact: IndicatorFact) -> str:
    """The lift; of a total also which of its two lifts it is read for: a squat carries both."""
    if reader.lift != "total":
        return fact.lift
    return text("supports.for_lift", lift=fact.lift, goal_lift=fact.goal_lift)


def _limit(fact: IndicatorFact) -> str:
    return text(f"supports.limit.{fact.limit}") if fact.limit else ""


def _carries(fact: IndicatorFact) -> Phrase:
    return between(fact.supports_low_kg, fact.supports_high_kg)


def _reading(reader: Reader, fact: IndicatorFact) -> str:
    if fact.current_kg is None:
        return text("supports.row.untested", lift=_called(reader, fact))
    told: dict[str, Filled] = {
        "range": _carries(fact),
        "limit": _limit(fact),
        "reading": text(f"supports.reading.{fact.reading}"),
    }
    return reader.text(f"supports.row.reading{'_limit' if fact.limit else ''}", **{**of(fact), **told})


def _row(reader: Reader, fact: IndicatorFact) -> str:
    return reader.text(
        f"supports.row.{_form(fact)}", lift=_called(reader, fact), current_kg=fact.current_kg or 0.0
    )


def _form(fact: IndicatorFact) -> str:
    """How the row is drawn; what was not taken to a limit is never short."""
    if fact.current_kg is None:
        return "untested"
    return "open" if fact.limit == "open" else "short" if fact.reading == "short" else "enough"


def _range(reader: Reader, fact: IndicatorFact) -> tuple[object, ...]:
    """The goal lift that one figure is enough for, as a row of the picture."""
    low, high = (
        None if kg is None else reader.number(kg) for kg in (fact.supports_low_kg, fact.supports_high_kg)
    )
    # A figure that was not taken to a limit carries at least so much: it points up, whatever its band.
    up = high is None or fact.limit == "open"
    return (
        low,
        high,
        (high if high is not None else low) if up else None,
        high if low is None and not up else None,
        _row(reader, fact),
        _form(fact),
        _reading(reader, fact),
    )


def enough_for(reader: Reader) -> Figure | Paragraph:
    """Ranges in kilograms of the goal lift against the present lift and the goal."""
    facts = tuple(i for i in reader.facts.indicators or () if not i.context)
    if all(f.current_kg is None for f in facts):
        lifts = tuple(f.lift for f in facts) or text("supports.none.usual")
        return pieces.paragraph("supports.none.tested", lifts=lifts)
    goal: GoalFact | None = reader.goal if reader.lift != "total" else None
    rows = (
        (
            _called(reader, f),
            load(f.current_kg),
            f.current_date,
            between(f.low_kg, f.high_kg) if f.low_kg or f.high_kg else None,
            None if f.current_kg is None else _carries(f),
            _limit(f),
            words(
                text(f"supports.reading.{f.reading}"),
                {"short": "missed", "untested": "gap"}.get(f.reading, ""),
            ),
            _from(reader, f),
        )
        for f in facts
    )
    return pieces.figure(
        "supports.enough",
        "enough-for",
        "enough_for",
        {"ranges": tidy("low high up down label form reading", (_range(reader, f) for f in facts))},
        pieces.table("supports.enough.table", rows, address="enough-for-table", folded=True),
        options=Levels(
            unit=reader.unit,
            goal=reader.level("goal", goal.goal_kg if goal else None),
            present=reader.level("present", goal.current_kg if goal else None),
        ),
        sentence=_enough(reader, facts),
        readings=". ".join(_reading(reader, f) for f in facts),
    )


def _enough(reader: Reader, facts: Indicators) -> Phrase:
    """First what lies under, each by itself, then the others by what is said of them."""
    parts = [
        phrase(
            f"supports.enough.short{'' if f.shortfall_kg is None else '_kg'}",
            **{**of(f), "lift": _called(reader, f)},
        )
        for f in facts
        if f.reading == "short"
    ]
    for kind, those in (
        ("within", [f for f in facts if f.reading in ("within", "beyond")]),
        ("lean", [f for f in facts if f.reading == "lean"]),
        ("open", [f for f in facts if f.limit == "open" and f.current_kg is not None]),
        ("untested", [f for f in facts if f.current_kg is None]),
    ):
        if those:
            parts.append(phrase(f"supports.enough.{kind}", lifts=tuple(_called(reader, f) for f in those)))
    return together(parts)


def _from(reader: Reader, fact: IndicatorFact) -> str:
    source = reader.facts.sources.get(fact.source, fact.source)
    return "; ".join(part for part in (source, said(fact.note)) if part)


def _context(reader: Reader) -> tuple[Block, ...]:
    facts = tuple(i for i in reader.facts.indicators or () if i.context)
    rows = ((f.lift, load(f.current_kg), portion(f.present_share), _band(f), _from(reader, f)) for f in facts)
    return (pieces.table("supports.context", rows, address="context", folded=True),) if facts else ()


def _band(fact: IndicatorFact) -> str:
    if fact.low is None and fact.high is None:
        return ""
    ends = "_high" if fact.low is None else "_low" if fact.high is None else ""
    base = text(f"supports.base.{fact.base}")
    return text(f"supports.band{ends}", **{**of(fact), "base": base})


def _doubles(fact: RepMaxFact) -> Phrase:
    """The single that a double or triple suggests, beside the best single."""
    sets = text("supports.sets.double" if fact.reps == 2 else "supports.sets.triple")
    return phrase(f"supports.sets.{'gap' if fact.transfer_gap_kg else 'covered'}", sets=sets, **of(fact))


def expressed(reader: Reader) -> Figure | Paragraph:
    """How much of the squat reaches the bar, month by month."""
    facts = [(dt.date.fromisoformat(f"{f.month}-01"), f) for f in reader.facts.expressed_strength or ()]
    if len(facts) < 2:
        return pieces.paragraph("supports.none.months")
    lift = reader.lifts[0]
    drawn = facts[:: -(len(facts) // MOST_POINTS + 1)]  # from the newest back
    points = (
        (month, round(f.share, 4), reader.text("supports.expressed.reading", date=month, lift=lift, **of(f)))
        for month, f in reversed(drawn)
    )
    rows = (
        (numbers.month(month), load(f.snatch_kg), load(f.supported_kg), portion(f.share))
        for month, f in facts
    )
    return pieces.figure(
        "supports.expressed",
        "expressed",
        "expressed",
        {"months": tidy("date share reading", points)},
        pieces.newest(
            pieces.table("supports.expressed.table", rows, address="expressed-table", folded=True), last=True
        ),
        over_time=True,
        last=facts[-1][0],
        last_share=facts[-1][1].share,
        first=facts[0][0],
        first_share=facts[0][1].share,
        months=len(facts),
    )
