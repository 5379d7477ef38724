"""What carries the goal: what each figure is enough for, and where the goal weight has been."""

import datetime as dt
from typing import Final

import pandas as pd

from reportgen.model.facts import IndicatorFact
from reportgen.view import strip
from reportgen.view.page import Block, Figure, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, between, load, plain, portion, said, words
from reportgen.words import Phrase, Weight, numbers
from reportgen.words.phrases import text_of

READINGS: Final = {
    "short": "lies under what usually goes with this goal",
    "lean": "at the low edge of what usually goes with the goal",
    "within": "enough for the goal",
    "beyond": "more than usually goes with the goal: look elsewhere",
    "untested": "not tested",
}
LIMITS: Final = {
    "shown": "a limit was shown",
    "near": "near a limit",
    "open": "not taken to a limit",
}


def section(reader: Reader) -> Section | None:
    """The section; None where nothing of it was computed."""
    blocks: list[Block] = []
    if reader.facts.indicators is not None:
        blocks.append(enough_for(reader))
        blocks.extend(_context(reader))
    if reader.facts.goal_weight is not None:
        blocks.extend(strip.goal_weight(reader))
    if reader.facts.rep_maxes is not None:
        blocks.append(_rep_maxes(reader))
    if reader.facts.expressed_strength is not None:
        blocks.append(expressed(reader))
    if not blocks:
        return None
    lead: Phrase = (
        "Each figure is turned into the goal lift that it is usually enough for: so many kilograms in the "
        "squat usually go with so many in the goal lift. The ranges are what groups of lifters show, never "
        "one target.",
    )
    return Section(id="supports", title="What carries the goal", lead=lead, blocks=tuple(blocks))


def _shown(reader: Reader) -> tuple[IndicatorFact, ...]:
    return tuple(i for i in reader.facts.indicators or () if not i.context)


def _called(reader: Reader, fact: IndicatorFact) -> str:
    """The lift; of a total also which of its two lifts it is read for: a squat carries both."""
    return f"{fact.lift} for the {fact.goal_lift}" if reader.lift == "total" else fact.lift


def _reading(reader: Reader, fact: IndicatorFact) -> str:
    if fact.current_kg is None:
        return f"{_called(reader, fact)}: not tested"
    range_ = plain(between(fact.supports_low_kg, fact.supports_high_kg), reader.unit)
    limit = f", {LIMITS[fact.limit]}" if fact.limit else ""
    return (
        f"{fact.lift} {reader.say(fact.current_kg)}{limit}: is enough for a {fact.goal_lift} of {range_}; "
        f"{READINGS[fact.reading]}"
    )


def _row(reader: Reader, fact: IndicatorFact) -> str:
    name = _called(reader, fact)
    if fact.current_kg is None:
        return f"{name}: not tested"
    open_ = f", {LIMITS['open']}" if fact.limit == "open" else ""
    return f"{name}: {reader.say(fact.current_kg)}{open_}"


def _ranges(reader: Reader) -> pd.DataFrame:
    """One row an indicator: the goal lift that its figure is enough for."""
    rows = []
    for fact in _shown(reader):
        low, high = fact.supports_low_kg, fact.supports_high_kg
        edge = high if high is not None else low
        # A figure that was not taken to a limit carries at least so much: it points up, whatever its band.
        up = high is None or fact.limit == "open"
        rows.append(
            {
                "lift": fact.lift,
                "goal_lift": fact.goal_lift,
                "low": None if low is None else reader.number(low),
                "high": None if high is None else reader.number(high),
                "up": reader.number(edge) if up and edge is not None else None,
                "down": reader.number(high) if low is None and high is not None and not up else None,
                "label": _row(reader, fact),
                "taken": fact.limit != "open",
                "state": fact.reading,
                "reading": _reading(reader, fact),
            }
        )
    columns = ["lift", "goal_lift", "low", "high", "up", "down", "label", "taken", "state", "reading"]
    return pd.DataFrame(rows, columns=columns)


def enough_for(reader: Reader) -> Figure | Paragraph:
    """Ranges in kilograms of the goal lift against the present lift and the goal."""
    facts = _shown(reader)
    tested = [f for f in facts if f.current_kg is not None]
    if not tested:
        names = numbers.listing(f.lift for f in facts)
        return Paragraph(text=(f"Not tested: none of {names or 'the usual lifts'} is in the log.",))
    sentence = _enough_sentence(reader, facts)
    goal = reader.goal
    single = goal is not None and reader.lift != "total"
    options: dict[str, object] = {
        "unit": reader.unit,
        "goal": reader.number(goal.goal_kg) if single and goal is not None and goal.goal_kg else None,
        "present": reader.number(goal.current_kg)
        if single and goal is not None and goal.current_kg
        else None,
        "goal_label": reader.say(goal.goal_kg) if goal is not None and goal.goal_kg else "",
        "present_label": reader.say(goal.current_kg) if goal is not None and goal.current_kg else "",
        "labels": tuple(_row(reader, f) for f in facts),
    }
    return Figure(
        id="enough-for",
        title="What it is enough for",
        sentence=sentence,
        summary="One bar a lift, drawn over kilograms of the goal lift, with the present lift and the goal "
        "as upright lines. " + ". ".join(_reading(reader, f) for f in facts) + ".",
        chart="enough_for",
        data={"ranges": _ranges(reader)},
        options=options,
        table=_indicator_table(reader, facts, "What each figure is enough for", "enough-for-table"),
    )


def _enough_sentence(reader: Reader, facts: tuple[IndicatorFact, ...]) -> Phrase:
    parts: list[str | Weight] = []
    short = [f for f in facts if f.reading == "short"]
    for fact in short:
        if fact.shortfall_kg is not None:
            parts += [
                f"The {_called(reader, fact)} lies ",
                Weight(fact.shortfall_kg),
                " under what usually goes with this goal. ",
            ]
        else:
            parts.append(f"The {_called(reader, fact)} lies under what usually goes with this goal. ")
    enough = [_called(reader, f) for f in facts if f.reading in ("within", "beyond")]
    if enough:
        usual = "is" if len(enough) == 1 else "are"
        parts.append(f"The {numbers.listing(enough)} {usual} enough for the goal. ")
    edge = [_called(reader, f) for f in facts if f.reading == "lean"]
    if edge:
        parts.append(f"At the low edge of what usually goes with the goal: {numbers.listing(edge)}. ")
    unsure = [_called(reader, f) for f in facts if f.limit == "open" and f.current_kg is not None]
    if unsure:
        parts.append(f"Not taken to a limit, so it carries at least so much: {numbers.listing(unsure)}. ")
    missing = [_called(reader, f) for f in facts if f.current_kg is None]
    if missing:
        parts.append(f"Not tested: {numbers.listing(missing)}. ")
    if not short and not parts:
        return ("No figure is at hand.",)
    return (*parts[:-1], str(parts[-1]).rstrip())


def _indicator_table(reader: Reader, facts: tuple[IndicatorFact, ...], caption: str, id_: str) -> Table:
    tones = {"short": "missed", "untested": "gap"}
    rows = []
    for fact in facts:
        tone = tones.get(fact.reading, "")
        source = reader.facts.sources.get(fact.source, fact.source)
        rows.append(
            (
                words(_called(reader, fact)),
                load(fact.current_kg),
                words(fact.current_date),
                said(between(fact.low_kg, fact.high_kg)) if fact.low_kg or fact.high_kg else words(None),
                said(between(fact.supports_low_kg, fact.supports_high_kg))
                if fact.current_kg is not None
                else words(None),
                words(LIMITS.get(fact.limit or "", "")),
                words(READINGS[fact.reading], tone),
                words("; ".join(part for part in (source, text_of(fact.note)) if part)),
            )
        )
    return Table(
        caption=caption,
        head=("lift", "present", "day", "usual for the goal", "is enough for", "limit", "reading", "from"),
        rows=tuple(rows),
        folded=True,
        id=id_,
    )


def _context(reader: Reader) -> tuple[Block, ...]:
    facts = tuple(i for i in reader.facts.indicators or () if i.context)
    if not facts:
        return ()
    rows = tuple(
        (
            words(f.lift),
            load(f.current_kg),
            portion(f.present_share),
            words(_band(f)),
            words("; ".join(p for p in (reader.facts.sources.get(f.source, f.source), text_of(f.note)) if p)),
        )
        for f in facts
    )
    return (
        Table(
            caption="Other ratios, for context only: they never make a finding",
            head=("lift", "present", "share of the present lift", "reported", "from"),
            rows=rows,
            folded=True,
            id="context",
        ),
    )


def _band(fact: IndicatorFact) -> str:
    base = "the goal" if fact.base == "goal" else "the present lift"
    if fact.low is not None and fact.high is not None:
        return f"{numbers.number(fact.low, 2)} to {numbers.number(fact.high, 2)} of {base}"
    edge = fact.low if fact.low is not None else fact.high
    if edge is None:
        return ""
    return f"{'at least' if fact.low is not None else 'up to'} {numbers.number(edge, 2)} of {base}"


def _rep_maxes(reader: Reader) -> Block:
    facts = reader.facts.rep_maxes or ()
    if not facts:
        return Paragraph(text=("Doubles and triples of the last weeks are not in the log.",))
    items: list[Phrase] = []
    for fact in facts:
        name = "double" if fact.reps == 2 else "triple"
        start: Phrase = (
            f"{numbers.sentence(fact.lift)}, {name}: ",
            Weight(fact.kg),
            f" on {numbers.day(fact.date)}",
        )
        if fact.transfer_gap_kg:
            items.append(
                (
                    *start,
                    " usually goes with a single of at least ",
                    Weight(fact.implied_single_kg),
                    ", ",
                    Weight(fact.transfer_gap_kg),
                    f" over the present one: a {name} not yet a single.",
                )
            )
        else:
            items.append(
                (*start, " usually goes with a single of at least ", Weight(fact.implied_single_kg), ".")
            )
    return Points(items=tuple(items))


def _month(month: str) -> str:
    """2026-11 as "Nov 2026"."""
    return numbers.month(dt.date.fromisoformat(f"{month}-01"))


def expressed(reader: Reader) -> Figure | Paragraph:
    """How much of the squat reaches the bar, month by month."""
    facts = reader.facts.expressed_strength or ()
    if len(facts) < 2:
        return Paragraph(text=("How much of the squat reaches the bar: fewer than two months to compare.",))
    frame = pd.DataFrame(
        {
            "date": pd.to_datetime([f"{f.month}-01" for f in facts]).astype("datetime64[s]"),
            "share": [round(f.share, 4) for f in facts],
            "reading": [
                f"{_month(f.month)}: {reader.lifts[0]} {reader.say(f.snatch_kg)}, the squat is enough for "
                f"{reader.say(f.supported_kg)}: {numbers.share(f.share)} of it reaches the bar"
                for f in facts
            ],
        }
    )
    first, last = facts[0], facts[-1]
    sentence: Phrase = (
        f"In {_month(last.month)} {numbers.share(last.share)} of what the logged squat is enough for reached "
        f"the bar, in {_month(first.month)} {numbers.share(first.share)}. A month whose squat was not taken to "
        "a limit reads too high: a line that falls can be a squat that was tried at last.",
    )
    return Figure(
        id="expressed",
        title="How much of the squat reaches the bar",
        sentence=sentence,
        summary=f"A line by month over {numbers.count(len(facts), 'month')}. {plain(sentence, reader.unit)}",
        chart="expressed",
        data={"months": frame},
        options={"unit": reader.unit},
        table=Table(
            caption="How much of the squat reaches the bar, by month",
            head=("month", "lift", "the squat is enough for", "share"),
            rows=tuple(
                (words(_month(f.month)), load(f.snatch_kg), load(f.supported_kg), portion(f.share))
                for f in facts
            ),
            folded=True,
            id="expressed-table",
        ),
        over_time=True,
    )
