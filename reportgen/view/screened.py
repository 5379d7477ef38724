"""Every reading of a screening over time, with the spread of healthy people and the work that keeps it."""

import datetime as dt
from collections.abc import Iterator
from typing import Final

import pandas as pd

from reportgen.analysis import readings
from reportgen.analysis.screening import contradicts
from reportgen.model.values import dataclass
from reportgen.trade.schema import Position
from reportgen.view.options import Calendar
from reportgen.view.reader import Reader, as_day, of, tidy
from reportgen.words import text

#: Parts of a row, in readings: its words, its readings; the words and bars of the work under them.
_WORDS, _TOP, _LOW, _ROW = 0.3, 0.5, 1.5, 1.8
_SAID, _WORK, _END, _WHOLE = 1.8, 2.0, 2.45, 2.7
WEEK: Final = dt.timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """One reading. `line` names those that may be joined: one side, like conditions.

    `fell`: it lies under the best before it by more than what a reading differs by anyway.
    """

    date: dt.date
    side: str
    value: float
    conditions: str
    line: str
    fell: bool


def read(reader: Reader, item: str) -> tuple[Read, ...]:
    """The readings of one position without a load, by day."""
    position, found = reader.trade.positions[item], []
    sign = 1 if position.higher_is_better else -1
    best: dict[str, float] = {}
    rows = readings.rows(reader.dossier.records)
    for row in rows:
        if row.item != item or row.reading is None or row.load_kg is not None:
            continue
        line, value = f"{row.side} {row.conditions}", sign * row.reading
        doubted = contradicts(row, rows, reader.trade) is not None
        best[line] = best.get(line, value) if doubted else max(best.get(line, value), value)
        fell = not doubted and best[line] - value > (position.smallest_real_change or 0.0)
        found.append(
            Read(
                date=row.date,
                side=row.side,
                value=row.reading,
                conditions=row.conditions,
                line=line,
                fell=fell,
            )
        )
    return tuple(found)


def said(value: float, unit: str) -> str:
    """A reading in its unit."""
    return text(f"positions.unit.{unit or 'none'}", value=value)


def room(position: Position, rows: tuple[Read, ...]) -> tuple[float, float]:
    """From under the lowest to over the highest that is drawn: readings, the lower end and the mean."""
    drawn = [row.value for row in rows]
    drawn += [end for end in (position.norm, position.lower) if end is not None]
    low, high = min(drawn), max(drawn)
    pad = max(0.15 * (high - low), 0.5)
    return low - pad, high + pad


def minutes(reader: Reader, area: str) -> pd.Series:
    """Minutes of upkeep of one area by the Monday of their week, up to the review day."""
    table = reader.dossier.records.mobility
    mine = table.loc[(table["area"] == area) & (table["date"] <= pd.Timestamp(reader.facts.as_of))]
    weeks = mine["date"] - pd.to_timedelta(mine["date"].dt.day_of_week, unit="D")
    return mine["minutes"].astype(float).groupby(weeks).sum()


def strips(reader: Reader, items: tuple[str, ...]) -> tuple[dict[str, pd.DataFrame], Calendar]:
    """Tables of the picture: a row a position, the minutes of its area under it where it stands first.

    Returns:
        points (date, line, mark, y), bands (low, high, mean), work (start, end, y, base), names (label, y, bottom),
        each with its reading, and the calendar; y goes down, 1 is what the readings of a row have room for.
    """
    tables: dict[str, list[tuple[object, ...]]] = {"points": [], "bands": [], "work": [], "names": []}
    seen: set[str] = set()
    at = 0.0
    for item in items:
        position, rows = reader.trade.positions[item], read(reader, item)
        tables["points"] += _drawn(item, position, rows, at)
        tables["bands"] += _band(item, position, rows, at)
        label = _label(reader, item, rows)
        weeks = minutes(reader, position.area) if position.area not in seen else pd.Series(dtype=float)
        tall = _ROW if weeks.empty else _WHOLE
        tables["names"].append((label, round(at + _WORDS, 2), round(at + tall, 2), label))
        if len(weeks):
            seen.add(position.area)
            done = _done(reader, position.area)
            tables["names"].append((done, round(at + _SAID, 2), round(at + tall, 2), done))
            tables["work"] += _work(position.area, weeks, at)
        at += tall
    first = min(as_day(row[0]) for name in ("points", "work") for row in tables[name])  # type: ignore[arg-type]
    columns = {
        "points": "date line mark y reading",
        "bands": "low high mean reading",
        "work": "start end y base reading",
        "names": "label y bottom reading",
    }
    made = {name: tidy(columns[name], rows) for name, rows in tables.items()}
    return made, Calendar(first=first - WEEK, last=reader.facts.as_of)


def _up(value: float, ends: tuple[float, float], at: float) -> float:
    """Where a value stands in a row that begins at `at`."""
    return round(at + _LOW - (_LOW - _TOP) * (value - ends[0]) / (ends[1] - ends[0]), 3)


def _drawn(item: str, position: Position, rows: tuple[Read, ...], at: float) -> Iterator[tuple[object, ...]]:
    ends = room(position, rows)
    for row in rows:
        told = text(
            f"positions.over_time.point{'_fell' if row.fell else ''}",
            item=text("positions.side", item=item, side=row.side) if row.side in ("left", "right") else item,
            value=said(row.value, position.unit), date=row.date, conditions=row.conditions or "-",
        )  # fmt: skip
        mark = "fell" if row.fell else "right" if row.side == "right" else "left"
        yield row.date, f"{item} {row.line}", mark, _up(row.value, ends, at), told


def _band(item: str, position: Position, rows: tuple[Read, ...], at: float) -> Iterator[tuple[object, ...]]:
    """From the lower end of healthy people on; how far up they go is not known."""
    if position.lower is None or position.norm is None:
        return
    ends = room(position, rows)
    lower, mean = (said(end, position.unit) for end in (position.lower, position.norm))
    beyond = ends[1] if position.higher_is_better else ends[0]
    edges = sorted((_up(position.lower, ends, at), _up(beyond, ends, at)))
    told = text("positions.over_time.band", item=item, low=lower, mean=mean)
    yield *edges, _up(position.norm, ends, at), told


def _label(reader: Reader, item: str, rows: tuple[Read, ...]) -> str:
    """The position with the last reading of each side."""
    latest = {row.side: said(row.value, reader.trade.positions[item].unit) for row in rows}
    sides = tuple(
        value if side not in ("left", "right") else text("positions.over_time.side", side=side, value=value)
        for side, value in sorted(latest.items())
    )
    return text("positions.over_time.row", item=item, sides=sides)


def _done(reader: Reader, area: str) -> str:
    """The minutes of work on an area in words."""
    screening = reader.facts.screening
    facts = screening.upkeep if screening is not None else ()
    fact = next(one for one in facts if one.area == area)
    return text(f"positions.over_time.done{'_stopped' if fact.stopped else ''}", **of(fact))


def _work(area: str, weeks: pd.Series, at: float) -> Iterator[tuple[object, ...]]:
    """A bar a week."""
    most = max(float(weeks.max()), 1.0)
    for start, many in zip(weeks.index, weeks, strict=True):
        if many > 0:
            told = text("positions.over_time.work", area=area, minutes=round(many), start=as_day(start))
            top = round(at + _END - (_END - _WORK) * many / most, 3)
            yield start, start + WEEK, top, round(at + _END, 3), told
