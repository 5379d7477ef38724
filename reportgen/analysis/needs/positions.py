"""Signs of the screening: reached, controlled, loose joints, work that stopped, what the bar brings out."""

import datetime as dt
from collections.abc import Iterable, Iterator

from reportgen.analysis import readings, screening
from reportgen.analysis.needs.movement import graded
from reportgen.analysis.needs.signs import Given, Sign, Values, evidence
from reportgen.model.findings import CompensationFact, ScreeningItem
from reportgen.model.say import Value, say

SOURCE = KIND = "screening"
TEN_KG = 10.0


def read(given: Given) -> Iterator[Sign]:
    """Signs of every item that was screened a short time ago."""
    fact = given.facts.screening
    if fact is None:
        return
    recent = [item for item in fact.items if given.is_recent(item.latest_date)]
    short: dict[str, list[ScreeningItem]] = {}
    for name in dict.fromkeys(item.item for item in recent):
        items = [item for item in recent if item.item == name]
        if items[0].kind in ("flexibility", "control"):
            sign = _position(given, name, items)
            yield sign
            if sign.size > 0:
                short.setdefault(given.trade.positions[name].area, []).extend(items)
        elif items[0].kind == "laxity":
            yield from _loose(given, items)
    yield from _stopped(given, recent, short)
    for one in fact.compensation:
        if one.grows and given.is_recent(one.date):
            yield _compensation(given, one)


def _position(given: Given, name: str, items: list[ScreeningItem]) -> Sign:
    """A position is reached where every side is, and not reached where one side is not."""
    position, control = given.trade.positions[name], items[0].kind == "control"
    measured = [item for item in items if item.latest is not None and position.norm is not None]
    size = _measured(given, measured) if measured else _graded(given, name)
    if size > 0:
        what = "uncontrolled" if control else "unreached"
        shown = [item for item in items if item.reached is False] or items
    else:
        what, shown = ("reached" if all(item.reached for item in items) else "between"), items
    values: Values = {"item": name, "read": _read(given, shown), "norm": _norm(given, name, measured)}
    template = "measured" if measured else "graded"
    piece = evidence(
        template, values, file=items[0].file, rule=name, kind=KIND, lines=_lines(shown), dates=_dates(shown)
    )
    side = "" if len(shown) > 1 or shown[0].side == "both" else shown[0].side
    named: Value = say("needs.drawn.side", item=name, side=side) if side else name
    return Sign(
        key=f"{what}:{name}", source=SOURCE, size=size, group=f"{items[0].kind}/{position.area}", name=named,
        evidence=(piece,), values=values,
    )  # fmt: skip


def _measured(given: Given, items: list[ScreeningItem]) -> float:
    """The log odds that range is missing: under the lower end of healthy people, or clearly fallen."""
    under = any(item.lower is not None and item.reached is False and not item.fell for item in items)
    fell = any(item.fell for item in items)
    if fell:
        return given.value("screen_fell_more") if under else given.value("screen_fell")
    if under:
        return given.value("screen_under")
    return -given.value("screen_over") if all(item.reached for item in items) else 0.0


def _graded(given: Given, name: str) -> float:
    """The same by grades: how many of the days it was not held; nothing where it is held now."""
    rows = [row for row in readings.rows(given.records) if row.item == name and given.is_recent(row.date)]
    days: dict[dt.date, float] = {}
    for row in rows:
        if row.grade:
            off = {"no": 1.0, "partly": given.value("grade_partly")}.get(row.grade, 0.0)
            days[row.date] = max(off, days.get(row.date, 0.0))
    size = graded(given, sum(days.values()), len(days), given.value("grade_usual_no"))
    return min(size, 0.0) if not days or days[max(days)] == 0 else size


def _norm(given: Given, name: str, measured: list[ScreeningItem]) -> Value:
    position = given.trade.positions[name]
    if not measured or measured[0].lower is None:
        return ""
    source = given.trade.sources[position.lower_source or position.norm_source].citation
    return say("needs.drawn.norm", lower=measured[0].lower, unit=position.unit, source=source)


def _read(given: Given, items: Iterable[ScreeningItem]) -> tuple[Value, ...]:
    """One part a side: what was read, and what it fell from."""
    return tuple(_side(given, item) for item in items)


def _side(given: Given, item: ScreeningItem) -> Value:
    side = "" if item.side == "both" else f"{item.side} "
    if item.latest is None:
        return say("needs.drawn.grade", side=side, grade=say(f"needs.grades.{item.grade or 'held'}"),
                   date=item.latest_date or given.as_of)  # fmt: skip
    values: Values = {
        "side": side,
        "reading": item.latest,
        "unit": item.unit,
        "date": item.latest_date or given.as_of,
    }
    if item.fell and item.best is not None and item.best_date is not None:
        return say("needs.drawn.fell", **values, best=item.best, then=item.best_date)
    return say("needs.drawn.reading", **values)


def _lines(items: Iterable[ScreeningItem]) -> list[int]:
    return [line for item in items for line in item.lines]


def _dates(items: Iterable[ScreeningItem]) -> list[dt.date]:
    return [
        date
        for item in items
        for date in (item.earlier_date, item.best_date, item.latest_date)
        if date is not None
    ]


def _stopped(
    given: Given, recent: list[ScreeningItem], short: dict[str, list[ScreeningItem]]
) -> Iterator[Sign]:
    """The work that keeps a position stopped: the cause where the position was lost, else a question."""
    assert given.facts.screening is not None
    for fact in given.facts.screening.upkeep:
        items = [
            item for item in recent if item.lapsed and given.trade.positions[item.item].area == fact.area
        ]
        if not items:
            continue
        lost = [item for item in short.get(fact.area, ()) if item.lapsed]
        shown = max(lost or items, key=lambda item: item.fell or 0.0)
        work = given.records.mobility
        mine = work.loc[(work["area"] == fact.area) & (work["minutes"] > 0)].sort_values("date")
        mine = mine.loc[mine["date"] <= given.as_of.isoformat()]
        values: Values = {
            "area": fact.area,
            "weeks": (fact.days_since or 0) // 7,
            "peak": fact.peak_minutes_per_week,
            "item": shown.item,
            "read": _side(given, shown),
        }
        piece = evidence(
            "stopped", values, file=str(mine["file"].iloc[-1]), rule="lapse_days", kind=KIND,
            lines=(int(mine["line"].iloc[0]), int(mine["line"].iloc[-1])),
            dates=(mine["date"].iloc[-1].date(),),
        )  # fmt: skip
        yield Sign(
            key="lapsed" if lost else "stopped", source="upkeep", group=fact.area, name=fact.area,
            evidence=(piece,), values=values,
        )  # fmt: skip


def _loose(given: Given, items: list[ScreeningItem]) -> Iterator[Sign]:
    item = items[-1]
    if item.latest is None:
        return
    born = given.records.lifter.born
    least = screening.loose_from(None if born is None else given.as_of.year - born, given.trade)
    if item.latest < least:
        return
    values: Values = {"score": item.latest, "date": item.latest_date, "from": least}
    piece = evidence(
        "loose", values, file=item.file, rule="beighton_adult", kind=KIND,
        lines=item.lines, dates=(item.latest_date,),
    )  # fmt: skip
    yield Sign(key="loose", source="joints", name=item.item, evidence=(piece,), values=values)


def _compensation(given: Given, fact: CompensationFact) -> Sign:
    unit = given.trade.positions[fact.item].unit
    values: Values = {
        "item": fact.item,
        "per_ten": TEN_KG * (fact.per_kg or 0.0),
        "unit": unit,
        "ten_kg": TEN_KG,
        "date": fact.date or given.as_of,
    }
    piece = evidence(
        "compensation", values, file=fact.file, rule="compensation_loads", kind=KIND,
        lines=fact.lines, dates=(fact.date,) if fact.date else (),
    )  # fmt: skip
    return Sign(
        key="compensation", source="bar", group=fact.item, name=fact.item, evidence=(piece,), values=values
    )
