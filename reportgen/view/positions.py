"""Positions: reached or not, controlled or not, what the bar does to them, and the work that keeps them."""

from typing import Final

import pandas as pd

from reportgen.analysis.screening import loose_from
from reportgen.model.findings import CompensationFact, ScreeningFact, ScreeningItem
from reportgen.view import sore
from reportgen.view.page import Block, Cell, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, load, tally, words
from reportgen.words import Phrase, numbers
from reportgen.words.phrases import text_of

QUESTIONS: Final = {
    "flexibility": "Is the position reached?",
    "control": "Is it controlled, unloaded and on the way between positions?",
    "compensation": "What happens as the bar gets heavier?",
    "laxity": "Loose joints",
}
GRADES: Final = {"held": "held", "partly": "partly held", "no": "not held"}


def section(reader: Reader) -> Section | None:
    """The section; None where nothing was screened and nothing hurts or hurt."""
    screening = reader.facts.screening
    hurts = sore.blocks(reader)
    if screening is None and not hurts:
        return None
    lead: Phrase = (
        "Three questions in this order: is the position reached, is it controlled, and what happens to it "
        "as the bar gets heavier. Readings are never added up to a score. A screen is no diagnosis.",
    )
    if screening is None or not (screening.items or screening.compensation or screening.upkeep):
        blocks: tuple[Block, ...] = (Paragraph(text=("Not tested: no screening is in the folder.",)), *hurts)
    else:
        blocks = (
            *then_now(reader, screening),
            *_tables(reader, screening),
            *_heavier(reader, screening),
            *_upkeep(screening),
            *hurts,
        )
    return Section(id="positions", title="Positions", lead=lead, blocks=blocks)


def name(item: ScreeningItem) -> str:
    """Item with its side, as a row is labelled."""
    return f"{item.item} ({item.side})" if item.side in ("left", "right") else item.item


def _value(reading: float | None, unit: str) -> str:
    if reading is None:
        return ""
    mark = {"degrees": "°", "points": " points", "cm": " cm"}.get(unit, f" {unit}" if unit else "")
    return f"{numbers.number(reading)}{mark}"


def _move(item: ScreeningItem) -> str:
    if item.change is None:
        return ""
    if item.clear_change is None:
        return "not comparable"
    if not item.clear_change:
        return "no clear change"
    return f"{numbers.number(item.change, sign=True)}{'°' if item.unit == 'degrees' else f' {item.unit}'}"


def _state(item: ScreeningItem) -> str:
    done = "controlled" if item.kind == "control" else "reached"
    if item.lapsed:
        return f"was {done}, lost since"
    if item.reached is None:
        return "not known"
    return done if item.reached else f"not {done}"


def _loose(reader: Reader, item: ScreeningItem) -> str:
    """From how many points joints are called loose at the lifter's age; nothing is said of other items."""
    if item.kind != "laxity":
        return ""
    born = reader.dossier.records.lifter.born
    age = None if born is None else reader.facts.as_of.year - born
    points = loose_from(age, reader.trade)
    return f"loose joints are spoken of from {numbers.number(points)}"


def _item_reading(item: ScreeningItem, state: str | None = None) -> str:
    parts = [f"{name(item)}: {_value(item.latest, item.unit) or GRADES.get(item.grade, item.grade)}"]
    if item.latest_date is not None:
        parts.append(f" on {numbers.day(item.latest_date)}")
    if item.norm is not None:
        parts.append(f", norm {_value(item.norm, item.unit)}")
    if item.earlier is not None and item.earlier_date is not None:
        parts.append(f"; {_value(item.earlier, item.unit)} on {numbers.day(item.earlier_date)}")
    state = _state(item) if state is None else state
    return "".join(parts) + (f"; {state}" if state else "")


def then_now(reader: Reader, screening: ScreeningFact) -> tuple[Block, ...]:
    """Readings as a share of the norm, then and now."""
    lower_better = {n for n, p in reader.trade.positions.items() if not p.higher_is_better}
    items = [
        i
        for i in screening.items
        if i.kind == "flexibility" and i.latest is not None and i.norm and i.item not in lower_better
    ]
    if not items:
        return ()
    frame = pd.DataFrame(
        {
            "item": [name(i) for i in items],
            "now": [round((i.latest or 0.0) / (i.norm or 1.0), 4) for i in items],
            "then": [None if i.earlier is None else round(i.earlier / (i.norm or 1.0), 4) for i in items],
            "row": [f"{name(i)}: {_value(i.latest, i.unit)}" for i in items],
            "reading": [_item_reading(i) for i in items],
        }
    )
    short = [name(i) for i in items if i.reached is False]
    sentence = (
        f"Below the norm: {numbers.listing(short)}."
        if short
        else "Every position that was measured reaches its norm."
    )
    lapsed = [name(i) for i in items if i.lapsed]
    if lapsed:
        sentence += f" Reached before and lost since: {numbers.listing(lapsed)}."
    return (
        Figure(
            id="positions-then-now",
            title="Positions then and now",
            sentence=(sentence,),
            summary="A row a position: an open dot for the earlier reading, a filled one for the latest, "
            "both as a share of the norm, which is the dashed line. " + ". ".join(frame["reading"]) + ".",
            chart="positions_then_now",
            data={"items": frame},
            options={"items": tuple(frame["item"])},
            table=_item_table(
                reader, tuple(items), "Measured positions then and now", "positions-then-now-table"
            ),
        ),
    )


def _item_table(reader: Reader, items: tuple[ScreeningItem, ...], caption: str, id_: str) -> Table:
    def row(item: ScreeningItem) -> tuple[Cell, ...]:
        latest = _value(item.latest, item.unit) or GRADES.get(item.grade, item.grade)
        earlier = _value(item.earlier, item.unit) or GRADES.get(item.earlier_grade, item.earlier_grade)
        norm = f"{_value(item.norm, item.unit)} ({item.norm_source})" if item.norm is not None else ""
        tone = "missed" if item.reached is False else ""
        return (
            words(name(item)),
            words(latest),
            words(item.latest_date),
            words(item.conditions),
            words(norm),
            words(_loose(reader, item) if item.kind == "laxity" else _state(item), tone),
            words(earlier),
            words(_move(item)),
        )

    return Table(
        caption=caption,
        head=("position", "latest", "day", "conditions", "norm", "state", "earlier", "change"),
        rows=tuple(row(i) for i in items),
        folded=True,
        id=id_,
    )


def _tables(reader: Reader, screening: ScreeningFact) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for kind, question in QUESTIONS.items():
        items = tuple(i for i in screening.items if i.kind == kind)
        if items:
            failed = [name(i) for i in items if i.reached is False]
            words_ = f"{question} "
            if kind == "laxity":
                words_ = f"{question}. " + ". ".join(_item_reading(i, _loose(reader, i)) for i in items) + "."
            elif failed:
                words_ += f"No: {numbers.listing(failed)}."
            elif any(i.reached for i in items):
                words_ += "Yes, as far as it was tested."
            else:
                words_ += "Read, with no norm to hold it against."
            blocks.append(Paragraph(text=(words_,)))
            caption = f"{question}{'' if question.endswith('?') else '.'} The readings"
            blocks.append(_item_table(reader, items, caption, f"screening-{kind}"))
        elif kind in ("flexibility", "control"):
            blocks.append(Paragraph(text=(f"{question} Not tested.",)))
    return tuple(blocks)


def _heavier(reader: Reader, screening: ScreeningFact) -> tuple[Block, ...]:
    facts = screening.compensation
    if not facts:
        return (Paragraph(text=(f"{QUESTIONS['compensation']} Not tested.",)),)
    blocks: list[Block] = []
    for item in dict.fromkeys(f.item for f in facts):
        blocks.append(_angle(reader, item, tuple(f for f in facts if f.item == item)))
    return tuple(blocks)


def _angle_data(
    reader: Reader, item: str, facts: tuple[CompensationFact, ...], goal_kg: float | None
) -> tuple[pd.DataFrame, pd.DataFrame]:
    """The readings, and where they were carried on to at the goal."""
    points, ends = [], []
    for fact in facts:
        side = fact.side or "both"
        for kg, angle in zip(fact.loads_kg, fact.readings, strict=True):
            points.append(
                (
                    side,
                    reader.number(kg),
                    angle,
                    f"{item}, {side}: {numbers.number(angle)}° at {reader.say(kg)}",
                )
            )
        if fact.at_goal is not None and goal_kg is not None:
            span = ""
            if fact.low is not None and fact.high is not None:
                span = f", between {numbers.number(fact.low)}° and {numbers.number(fact.high)}°"
            ends.append(
                (
                    side,
                    reader.number(goal_kg),
                    fact.at_goal,
                    fact.low,
                    fact.high,
                    f"{item}, {side}: about {numbers.number(fact.at_goal)}° at the goal{span}",
                )
            )
    return (
        pd.DataFrame(points, columns=["side", "weight", "angle", "reading"]),
        pd.DataFrame(ends, columns=["side", "weight", "angle", "low", "high", "reading"]),
    )


def _angle(reader: Reader, item: str, facts: tuple[CompensationFact, ...]) -> Figure | Paragraph:
    """One angle against the load, carried on to the goal where that was allowed."""
    read = [f for f in facts if f.loads_kg]
    if not read:
        why = "; ".join(text_of(f.reason) for f in facts if f.reason) or "no reading with a load"
        return Paragraph(text=(f"{numbers.sentence(item)} as the bar gets heavier: not tested ({why}).",))
    lift = reader.lifts[0]  # whose weight the angle was carried on to
    goal_kg = reader.targets.get(lift)
    points, ends = _angle_data(reader, item, tuple(read), goal_kg)
    sentence = _angle_sentence(item, tuple(read))
    slug = item.replace(" ", "-")
    return Figure(
        id=f"heavier-{slug}",
        title=f"{numbers.sentence(item)} as the bar gets heavier",
        sentence=sentence,
        summary=f"Dots: the angle at each load; an upright line is the goal. {sentence[0]}",
        chart="heavier",
        data={
            "points": points,
            "ends": ends,
        },
        options={
            "unit": reader.unit,
            "item": item,
            "goal": None if goal_kg is None else reader.number(goal_kg),
            "goal_label": ""
            if goal_kg is None
            else f"{lift} {reader.say(goal_kg)}"
            if reader.lift == "total"
            else reader.say(goal_kg),
            "sides": tuple(dict.fromkeys(points["side"])),
        },
        table=Table(
            caption=f"{numbers.sentence(item)} by load",
            head=("side", "load", "angle", "day"),
            rows=tuple(
                (words(f.side or "both"), load(kg), words(f"{numbers.number(angle)}°"), words(f.date))
                for f in read
                for kg, angle in zip(f.loads_kg, f.readings, strict=True)
            ),
            folded=True,
            id=f"heavier-{slug}-table",
            note=("An angle read off a phone is worth about 5°.",),
        ),
    )


def _angle_sentence(item: str, facts: tuple[CompensationFact, ...]) -> tuple[str]:
    parts = []
    for fact in facts:
        side = f" ({fact.side})" if fact.side in ("left", "right") else ""
        if fact.per_kg is None:
            parts.append(
                f"{numbers.sentence(item)}{side}: {text_of(fact.reason) or 'too few loads to say how it grows'}."
            )
            continue
        first, last = fact.readings[0], fact.readings[-1]
        parts.append(
            f"{numbers.sentence(item)}{side} goes from {numbers.number(first)}° to {numbers.number(last)}° as the bar "
            "gets heavier"
            + (f", about {numbers.number(fact.at_goal)}° at the goal." if fact.at_goal is not None else ".")
        )
        if fact.at_goal is None and fact.reason:
            parts.append(f"Not carried on to the goal: {text_of(fact.reason)}.")
    return (" ".join(parts),)


def _upkeep(screening: ScreeningFact) -> tuple[Block, ...]:
    facts = sorted(screening.upkeep, key=lambda u: -u.peak_minutes_per_week)
    if not facts:
        return (Paragraph(text=("How much work keeps the positions is not tested: no mobility.csv.",)),)
    frame = pd.DataFrame(
        {
            "area": [u.area for u in facts],
            "now": [round(u.minutes_per_week, 1) for u in facts],
            "peak": [round(u.peak_minutes_per_week, 1) for u in facts],
            "row": [f"{u.area}: {_upkeep_label(u.minutes_per_week, u.days_since)}" for u in facts],
            "reading": [
                f"{u.area}: {numbers.number(u.minutes_per_week, 0)} minutes a week over the last four weeks, at "
                f"most {numbers.number(u.peak_minutes_per_week, 0)}"
                for u in facts
            ],
        }
    )
    stopped = [u for u in facts if u.days_since is not None and u.days_since > 21]
    sentence = (
        "Work that stopped: "
        + numbers.listing(f"{u.area} ({numbers.days(u.days_since or 0)} ago)" for u in stopped)
        + "."
        if stopped
        else "No area's work has stopped for longer than three weeks."
    )
    return (
        Figure(
            id="upkeep",
            title="The work that keeps the positions",
            sentence=(sentence,),
            summary="A bar an area: minutes a week over the last four weeks, and a line at the most it ever "
            "was. " + ". ".join(frame["reading"]) + ".",
            chart="upkeep",
            data={"areas": frame},
            options={"areas": tuple(frame["area"])},
            table=Table(
                caption="Minutes a week of flexibility and control work",
                head=("area", "last four weeks", "at most", "days since"),
                rows=tuple(
                    (
                        words(u.area),
                        words(u.minutes_per_week),
                        words(u.peak_minutes_per_week),
                        tally(u.days_since),
                    )
                    for u in facts
                ),
                folded=True,
                id="upkeep-table",
            ),
        ),
    )


def _upkeep_label(minutes: float, since: int | None) -> str:
    now = f"{numbers.number(minutes, 0)} min" if minutes else "none"
    return now if since is None or since <= 21 else f"{now}, stopped {numbers.days(since)} ago"
