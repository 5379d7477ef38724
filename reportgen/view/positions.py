"""Positions: reached or not, controlled or not, what the bar does to them, and the work that keeps them."""

import datetime as dt
from collections.abc import Iterator
from typing import Final

import pandas as pd

from reportgen.analysis.screening import loose_from
from reportgen.model.findings import CompensationFact, ScreeningFact, ScreeningItem
from reportgen.view import pieces, screened, sore
from reportgen.view.options import Levels
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, load, of, tally, tidy, words
from reportgen.words import Phrase, Say, phrase, say, text, together

#: The questions in their order.
KINDS: Final = ("flexibility", "control", "compensation", "laxity")


def section(reader: Reader) -> Section | None:
    """The section; None where nothing was screened and nothing hurts or hurt."""
    screening = reader.facts.screening
    hurts = sore.blocks(reader)
    if screening is None and not hurts:
        return None
    blocks: tuple[Block, ...] = (pieces.paragraph("positions.none.screening"),)
    if screening is not None and (screening.items or screening.compensation or screening.upkeep):
        blocks = (
            *over_time(reader, screening),
            *_tables(reader, screening),
            *_heavier(reader, screening),
            *_upkeep(screening),
        )
    return pieces.section("positions.section", "positions", (*blocks, *hurts))


def name(fact: ScreeningItem | CompensationFact) -> str:
    """Item with its side, as a row is labelled."""
    if fact.side not in ("left", "right"):
        return fact.item
    return text("positions.side", item=fact.item, side=fact.side)


def _value(reading: float | None, unit: str, grade: str = "") -> str:
    """A reading in its unit, else the grade in words."""
    if reading is not None:
        return text(f"positions.unit.{unit or 'none'}", value=reading)
    return text(f"positions.grade.{grade}") if grade else ""


def _before(item: ScreeningItem) -> tuple[float | None, dt.date | None, str]:
    """What it is held against: the lifter's own best where it fell from there, else the first reading."""
    if item.fell:
        return item.best, item.best_date, ""
    said_twice = item.lapsed and item.earlier_grade == item.grade
    return item.earlier, item.earlier_date, "" if said_twice else item.earlier_grade


def _move(item: ScreeningItem) -> str:
    if item.fell and item.best is not None and item.latest is not None:
        return text(f"positions.moved.{item.unit or 'none'}", value=item.latest - item.best)
    if item.change is None or item.contradicted:
        return ""
    if item.clear_change:
        return text(f"positions.moved.{item.unit or 'none'}", value=item.change)
    return text("positions.moved.unlike" if item.clear_change is None else "positions.moved.unclear")


def _state(reader: Reader, item: ScreeningItem) -> str:
    """Reached or controlled, or not; of loose joints from how many points they are called so at that age."""
    if item.kind == "laxity":
        born = reader.dossier.records.lifter.born
        age = None if born is None else reader.facts.as_of.year - born
        return text("positions.state.loose", n=loose_from(age, reader.trade))
    if item.contradicted:
        return text("positions.state.disagree")
    if item.reached is None and not item.lapsed:
        return text("positions.state.unknown")
    done = "controlled" if item.kind == "control" else "reached"
    return text(f"positions.state.{done}{'_lost' if item.lapsed else '' if item.reached else '_not'}")


def _latest(item: ScreeningItem) -> str:
    return _value(item.latest, item.unit, item.grade)


def _reading(reader: Reader, item: ScreeningItem) -> str:
    """One item with its day, its norm, the earlier reading and what it comes to."""
    on, norm, earlier = text("positions.reading.on", **of(item)), "", ""
    if item.norm is not None:
        norm = text("positions.reading.norm", norm=_value(item.norm, item.unit))
    before, day, _ = _before(item)
    if before is not None and day is not None:
        earlier = text("positions.reading.earlier", earlier=_value(before, item.unit), date=day)
    said = text(
        "positions.reading.item", item=name(item), latest=_latest(item), on=on, norm=norm, earlier=earlier
    )
    return text("positions.reading.state", said=said, state=_state(reader, item))


def over_time(reader: Reader, screening: ScreeningFact) -> tuple[Block, ...]:
    """Every reading over time, and under it the work that keeps it."""
    items = tuple(
        i
        for i in screening.items
        if i.kind == "flexibility" and i.latest is not None and screened.read(reader, i.item)
    )
    if not items:
        return ()
    data, days = screened.strips(reader, tuple(dict.fromkeys(i.item for i in items)))
    short = tuple(name(i) for i in items if i.reached is False)
    lapsed = tuple(name(i) for i in items if i.lapsed)
    said = [phrase(f"positions.over_time.{'short' if short else 'reached'}", items=short)]
    if lapsed:
        said.append(phrase("positions.over_time.lapsed", items=lapsed))
    if doubted := tuple(name(i) for i in items if i.contradicted):
        said.append(phrase("positions.over_time.disagree", items=doubted))
    table = _item_table(reader, items, "positions-then-now-table", text("positions.table.over_time"))
    return (
        pieces.figure(
            "positions.over_time",
            "positions-then-now",
            "positions_over_time",
            data,
            table,
            options=days,
            over_time=True,
            sentence=together(said),
            readings=". ".join(_reading(reader, i) for i in items),
        ),
    )


def _item_table(reader: Reader, items: tuple[ScreeningItem, ...], address: str, what: str) -> Table:
    rows = (
        (
            name(item),
            _latest(item),
            item.latest_date,
            item.conditions,
            ""
            if item.norm is None
            else text(
                "positions.reading.norm_from",
                norm=_value(item.norm, item.unit),
                source=reader.trade.sources[item.norm_source].citation,
            ),
            words(_state(reader, item), "missed" if item.reached is False else ""),
            _value(before, item.unit, grade),
            _move(item),
        )
        for item in items
        for before, _, grade in (_before(item),)
    )
    return pieces.table("positions.table", rows, address=address, folded=True, what=what)


def _tables(reader: Reader, screening: ScreeningFact) -> Iterator[Block]:
    """Each question with its answer and the readings."""
    for kind in KINDS:
        question = text(f"positions.ask.{kind}")
        items = tuple(i for i in screening.items if i.kind == kind)
        failed = tuple(name(i) for i in items if i.reached is False)
        doubted = any(i.contradicted for i in items)
        answer = "yes" if any(i.reached for i in items) else "no_norm"
        answer = "no" if failed else "disagree" if doubted else answer
        if kind == "laxity":
            answer = kind
        if not items:
            if kind not in ("flexibility", "control"):
                continue
            answer = "untested"
        yield pieces.paragraph(
            f"positions.answer.{answer}",
            question=question,
            items=failed,
            readings=". ".join(_reading(reader, i) for i in items),
        )
        if items:
            what = text("positions.table.readings", question=question)
            yield _item_table(reader, items, f"screening-{kind}", what)


def _heavier(reader: Reader, screening: ScreeningFact) -> tuple[Block, ...]:
    facts = screening.compensation
    if not facts:
        question = text("positions.ask.compensation")
        return (pieces.paragraph("positions.answer.untested", question=question),)
    items = dict.fromkeys(f.item for f in facts)
    return tuple(_angle(reader, item, [f for f in facts if f.item == item]) for item in items)


def _side(fact: CompensationFact) -> str:
    return fact.side or text("positions.both")


def _points(reader: Reader, facts: list[CompensationFact]) -> pd.DataFrame:
    """The readings of an angle by load."""
    return tidy(
        "side weight angle reading",
        (
            (
                _side(f),
                reader.number(kg),
                angle,
                reader.text("positions.heavier.point", item=f.item, side=_side(f), angle=angle, load_kg=kg),
            )
            for f in facts
            for kg, angle in zip(f.loads_kg, f.readings, strict=True)
        ),
    )


def _ends(reader: Reader, facts: list[CompensationFact], goal_kg: float | None) -> pd.DataFrame:
    """Where an angle was carried on to at the goal."""
    rows = []
    for f in facts:
        if f.at_goal is not None and goal_kg is not None:
            ranged = f.low is not None and f.high is not None
            reading = text(
                f"positions.heavier.goal{'_range' if ranged else ''}", **{**of(f), "side": _side(f)}
            )
            rows.append((_side(f), reader.number(goal_kg), f.at_goal, f.low, f.high, reading))
    return tidy("side weight angle low high reading", rows)


def _angle(reader: Reader, item: str, facts: list[CompensationFact]) -> Figure | Paragraph:
    """One angle against the load, carried on to the goal where that was allowed."""
    read = [f for f in facts if f.loads_kg]
    if not read:
        why = tuple(f.reason for f in facts if f.reason) or (say("positions.none.loads"),)
        return pieces.paragraph("positions.heavier.untested", item=item, why=why)
    goal_kg = reader.targets.get(reader.lifts[0])  # the weight that the angle was carried on to
    whose = "goal_snatch" if reader.lift == "total" else "goal"
    slug = item.replace(" ", "-")
    rows = (
        (_side(f), load(kg), _value(angle, "degrees"), f.date)
        for f in read
        for kg, angle in zip(f.loads_kg, f.readings, strict=True)
    )
    return pieces.figure(
        "positions.heavier",
        f"heavier-{slug}",
        "heavier",
        {"points": _points(reader, read), "ends": _ends(reader, read, goal_kg)},
        pieces.table(
            "positions.heavier.table", rows, address=f"heavier-{slug}-table", folded=True, item=item
        ),
        options=Levels(unit=reader.unit, goal=reader.level(whose, goal_kg)),
        sentence=together(said for f in read for said in _grows(f)),
        item=item,
    )


def _grows(fact: CompensationFact) -> Iterator[Phrase]:
    """How one angle grows with the load, or why that can't be said."""
    if fact.per_kg is None:
        why = fact.reason or say("positions.heavier.too_few")
        yield phrase("positions.heavier.few", item=name(fact), why=why)
        return
    yield phrase(
        f"positions.heavier.grows{'' if fact.at_goal is None else '_goal'}",
        item=name(fact),
        first=fact.readings[0],
        last=fact.readings[-1],
        at_goal=fact.at_goal or 0.0,
    )
    if fact.at_goal is None and fact.reason:
        yield phrase("positions.heavier.stops", why=fact.reason)


def _upkeep(screening: ScreeningFact) -> tuple[Block, ...]:
    """Minutes a week by area, the most that they ever were, and what has stopped."""
    facts = sorted(screening.upkeep, key=lambda u: -u.peak_minutes_per_week)
    if not facts:
        return (pieces.paragraph("positions.none.upkeep"),)
    stopped: tuple[Say, ...] = tuple(
        say("positions.upkeep.ago", area=u.area, days_since=u.days_since or 0) for u in facts if u.stopped
    )
    rows = ((u.area, u.minutes_per_week, u.peak_minutes_per_week, tally(u.days_since)) for u in facts)
    return (
        pieces.paragraph(f"positions.upkeep.{'stopped' if stopped else 'kept'}", areas=stopped),
        pieces.table("positions.upkeep.table", rows, address="upkeep-table", folded=True),
    )
