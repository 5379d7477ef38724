"""Signs of the screening: reached, controlled, loose joints, work that stopped, what the bar brings out."""

import datetime as dt
from collections.abc import Iterable, Iterator

from reportgen.analysis import screening
from reportgen.analysis.needs import wording
from reportgen.analysis.needs.signs import Given, Sign, evidence
from reportgen.analysis.needs.wording import Value
from reportgen.model.findings import CompensationFact, ScreeningItem, Worded

KIND = "screening"
TEN_KG = 10.0


def read(given: Given) -> Iterator[Sign]:
    """Signs of every item that was screened a short time ago."""
    fact = given.facts.screening
    if fact is None:
        return
    recent = [item for item in fact.items if given.is_recent(item.latest_date)]
    for name in dict.fromkeys(item.item for item in recent):
        items = [item for item in recent if item.item == name]
        if items[0].kind in ("flexibility", "control"):
            yield from _position(given, name, items)
        elif items[0].kind == "laxity":
            yield from _loose(given, items)
    for one in fact.compensation:
        if one.grows and given.is_recent(one.date):
            yield _compensation(given, one)


def _position(given: Given, name: str, items: list[ScreeningItem]) -> Iterator[Sign]:
    """A position is reached where every side is, and not reached where one side is not."""
    short = [item for item in items if item.reached is False]
    control = items[0].kind == "control"
    if short:
        yield _sign(given, name, short, "uncontrolled" if control else "unreached")
    elif all(item.reached for item in items):
        yield _sign(given, name, items, "reached")
    if any(item.lapsed for item in items):
        yield _stopped(given, name, items)


def _sign(given: Given, name: str, items: list[ScreeningItem], what: str) -> Sign:
    position = given.trade.positions[name]
    norm: Worded = ()
    read = [item for item in items if item.latest is not None]
    if position.norm is not None and read:
        source = given.trade.sources[position.norm_source].citation
        norm = (f"; the norm is {wording.number(position.norm)} {position.unit} ({source})",)
    values: dict[str, Value | Worded] = {"item": name, "read": _read(items), "norm": norm}
    shown = evidence(
        given, what, values, file=items[0].file, rule=name, kind=KIND,
        lines=_lines(items), dates=_dates(items),
    )  # fmt: skip
    side = items[0].side
    named = name if side == "both" or len(items) > 1 else f"{name} ({side})"
    return Sign(key=f"{what}:{name}", kind=KIND, name=(named,), evidence=(shown,), values=values)


def _read(items: Iterable[ScreeningItem]) -> str:
    """ "left 6.5 cm, right 6.5 cm on 8 Jun 2026"; a change is named where it is a clear one."""
    said = []
    last = None
    for item in items:
        words = "" if item.side == "both" else f"{item.side} "
        if item.latest is not None:
            words += f"{wording.number(item.latest)} {item.unit}".strip()
            if item.clear_change and item.change is not None and item.earlier_date is not None:
                more = "more" if item.change > 0 else "less"
                words += (
                    f" ({wording.number(abs(item.change))} {more} than on {wording.day(item.earlier_date)})"
                )
        else:
            words += (
                "not held"
                if item.grade == "no"
                else f"{item.grade} held"
                if item.grade == "partly"
                else item.grade
            )
        said.append(words)
        last = item.latest_date if last is None or (item.latest_date and item.latest_date > last) else last
    return ", ".join(said) + (f" on {wording.day(last)}" if last else "")


def _lines(items: Iterable[ScreeningItem]) -> list[int]:
    return [line for item in items for line in item.lines]


def _dates(items: Iterable[ScreeningItem]) -> list[dt.date]:
    return [date for item in items for date in (item.earlier_date, item.latest_date) if date is not None]


def _stopped(given: Given, name: str, items: list[ScreeningItem]) -> Sign:
    """The work that keeps a reached position stopped: from mobility.csv, the position beside it."""
    area = given.trade.positions[name].area
    assert given.facts.screening is not None
    fact = next(one for one in given.facts.screening.upkeep if one.area == area)
    held = all(item.reached for item in items)
    values: dict[str, Value | Worded] = {
        "area": area,
        "days": fact.days_since or 0,
        "peak": fact.peak_minutes_per_week,
        "item": name,
        "now": ", and still was at its last reading" if held else ", and no longer is",
    }
    work = given.records.mobility
    mine = work.loc[(work["area"] == area) & (work["minutes"] > 0)].sort_values("date")
    mine = mine.loc[mine["date"] <= given.as_of.isoformat()]
    shown = evidence(
        given, "stopped", values, file=str(mine["file"].iloc[-1]), rule="lapse_days", kind=KIND,
        lines=(int(mine["line"].iloc[0]), int(mine["line"].iloc[-1])), dates=(mine["date"].iloc[-1].date(),),
    )  # fmt: skip
    return Sign(
        key=f"stopped:{name}", kind=KIND, name=(f"{area} for the {name}",), evidence=(shown,), values=values
    )


def _loose(given: Given, items: list[ScreeningItem]) -> Iterator[Sign]:
    item = items[-1]
    if item.latest is None or item.latest_date is None:
        return
    born = given.records.lifter.born
    least = screening.loose_from(None if born is None else given.as_of.year - born, given.trade)
    if item.latest < least:
        return
    values: dict[str, Value | Worded] = {"score": item.latest, "date": item.latest_date, "from": least}
    shown = evidence(
        given, "loose", values, file=item.file, rule="beighton_adult", kind=KIND,
        lines=item.lines, dates=(item.latest_date,),
    )  # fmt: skip
    yield Sign(key="loose", kind=KIND, name=(item.item,), evidence=(shown,), values=values)


def _compensation(given: Given, fact: CompensationFact) -> Sign:
    unit = given.trade.positions[fact.item].unit
    at_goal = "not known"
    if fact.low is not None and fact.high is not None:
        at_goal = f"{fact.low:.0f} to {fact.high:.0f} {unit}"
    values: dict[str, Value | Worded] = {
        "item": fact.item,
        "per_ten": f"{wording.number(TEN_KG * (fact.per_kg or 0.0))} {unit}",
        "ten_kg": TEN_KG,
        "date": fact.date or given.as_of,
        "at_goal": at_goal,
    }
    shown = evidence(
        given, "compensation", values, file=fact.file, rule="compensation_loads", kind=KIND,
        lines=fact.lines, dates=(fact.date,) if fact.date else (),
    )  # fmt: skip
    side = "" if fact.side == "both" else f" ({fact.side})"
    return Sign(
        key=f"compensation:{fact.item}",
        kind=KIND,
        name=(f"{fact.item}{side}",),
        evidence=(shown,),
        values=values,
    )
