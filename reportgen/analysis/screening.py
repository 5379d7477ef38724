"""Positions and joints: reached, controlled, under load; what changed, what is kept up. Never a score.

Left and right are compared with one another, a side with itself under like conditions, a reading with its
norm. What a phone cannot see is no change; two readings of neighbouring days that lie far apart are a doubt.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

import pandas as pd

from reportgen.analysis import compensation, readings
from reportgen.analysis.readings import Row
from reportgen.analysis.when import upto
from reportgen.model.findings import ScreeningFact, ScreeningItem, UpkeepFact
from reportgen.model.records import Records
from reportgen.trade.schema import Position, Trade

KINDS = ("flexibility", "control", "compensation", "laxity")
HELD = "held"


def read(
    records: Records, trade: Trade, *, best_kg: float | None = None, goal_kg: float | None = None
) -> ScreeningFact | None:
    """Read the screening, and the work that keeps it.

    Args:
        records: Screening and mobility up to as_of are used.
        trade: Positions, norms and rules.
        best_kg: Best of the goal lift [kg]: how far apart loads must lie for a compensation.
        goal_kg: Goal weight [kg], to which a compensation is carried on.

    Returns:
        Items by kind, then as the catalogue has them; None where neither file has a row.

    References:
        Norms and smallest real changes cite their sources in trade/positions.toml.
    """
    rows = readings.rows(records)
    upkeep = _upkeep(records, trade)
    if not rows and not upkeep:
        return None
    items = [_item(trade, name, side, own, upkeep) for name, side, own in _grouped(rows, trade)]
    items = _sides(items, trade)
    kinds = {name: position.kind for name, position in trade.positions.items()}
    loaded = [row for row in rows if kinds.get(row.item) == "compensation"]
    return ScreeningFact(
        items=tuple(sorted(items, key=lambda item: KINDS.index(item.kind))),
        compensation=compensation.read(loaded, trade, best_kg=best_kg, goal_kg=goal_kg),
        upkeep=upkeep,
    )


def _grouped(rows: Sequence[Row], trade: Trade) -> list[tuple[str, str, list[Row]]]:
    """Rows of one item and side, in the catalogue's order; items of no catalogue are left out."""
    order = list(trade.positions)
    keys = {(order.index(row.item), row.side) for row in rows if row.item in trade.positions}
    return [
        (order[index], side, [row for row in rows if row.item == order[index] and row.side == side])
        for index, side in sorted(keys)
    ]


def _item(
    trade: Trade, name: str, side: str, rows: list[Row], upkeep: tuple[UpkeepFact, ...]
) -> ScreeningItem:
    """The latest reading, and beside it the first under like conditions, or the one that contradicts it."""
    position, latest = trade.positions[name], rows[-1]
    if position.kind == "compensation":
        latest = max(rows, key=lambda row: (row.date, row.load_kg or 0.0))
    held = [row for row in rows if contradicts(row, rows, trade) is None]
    like = [row for row in held if _alike(row, latest) and row.date < latest.date]
    against = contradicts(latest, rows, trade)
    earlier = against or (like[0] if like else None)
    change = None
    if against is None and earlier and earlier.reading is not None and latest.reading is not None:
        change = latest.reading - earlier.reading
    smallest = position.smallest_real_change
    best = _best(position, like)
    fell = None if against else _fell(position, latest, best)
    return ScreeningItem(
        item=position.name,
        side=side,
        kind=position.kind,
        latest=latest.reading,
        latest_date=latest.date,
        grade=latest.grade,
        norm=position.norm,
        norm_source=position.norm_source,
        change=change,
        lapsed=None if against else _lapsed(position, held, upkeep),
        unit=position.unit,
        conditions=latest.conditions,
        earlier=earlier.reading if earlier else None,
        earlier_date=earlier.date if earlier else None,
        earlier_grade=earlier.grade if earlier else "",
        clear_change=abs(change) >= smallest if change is not None and smallest is not None else None,
        smallest_real_change=smallest,
        reached=None if against else False if fell else reached(position, latest),
        contradicted=against is not None,
        lower=position.lower,
        best=best.reading if best else None,
        best_date=best.date if best else None,
        fell=fell,
        file=latest.file,
        lines=tuple(dict.fromkeys(row.line for row in (earlier, best if fell else None, latest) if row)),
    )


def contradicts(row: Row, rows: Sequence[Row], trade: Trade) -> Row | None:
    """The reading of neighbouring days that a reading can't stand beside; None where a third bears it out."""
    least = trade.positions[row.item].smallest_real_change
    if least is None or row.reading is None:
        return None
    days = dt.timedelta(days=trade.value("contradicted_days"))
    near = [
        (abs(other.reading - row.reading), other)
        for other in rows
        if other is not row and other.reading is not None and _alike(other, row)
        and (other.item, other.side) == (row.item, row.side) and abs(other.date - row.date) <= days
    ]  # fmt: skip
    if any(apart <= least for apart, _ in near):
        return None
    far = [other for apart, other in near if apart > trade.value("contradicted_times") * least]
    return far[-1] if far else None


def _best(position: Position, rows: list[Row]) -> Row | None:
    """The best earlier reading under like conditions, the latest of several."""
    read = [row for row in rows if row.reading is not None]
    sign = 1 if position.higher_is_better else -1
    return max(reversed(read), key=lambda row: sign * (row.reading or 0.0)) if read else None


def _fell(position: Position, latest: Row, best: Row | None) -> float | None:
    """How far a reading fell from the lifter's own best, where that is clear and leaves it under the norm."""
    if position.norm is None or position.kind not in ("flexibility", "control") or best is None:
        return None
    if latest.reading is None or best.reading is None or reached(position, latest):
        return None
    lost = best.reading - latest.reading if position.higher_is_better else latest.reading - best.reading
    return lost if lost > (position.smallest_real_change or 0.0) else None


def _alike(row: Row, other: Row) -> bool:
    """Readings that may be compared: same conditions, and both unloaded or at the same load."""
    return row.conditions == other.conditions and row.load_kg == other.load_kg


def reached(position: Position, row: Row) -> bool | None:
    """Whether a position is reached (or controlled): a reading by healthy people, else the grade.

    Returns:
        True from the norm up, their mean; False under their lower end; None between the two, since a mean is
        no line, and where nothing says so.
    """
    if position.kind in ("compensation", "laxity"):
        return None
    if position.norm is not None and row.reading is not None:
        sign = 1 if position.higher_is_better else -1
        if sign * (row.reading - position.norm) >= 0:
            return True
        under = position.lower is not None and sign * (row.reading - position.lower) < 0
        return False if under else None
    return None if not row.grade else row.grade == HELD


def _lapsed(position: Position, rows: list[Row], upkeep: tuple[UpkeepFact, ...]) -> bool | None:
    """Reached once or better than now, and the work that keeps it stopped; None without such a file."""
    area = next((fact for fact in upkeep if fact.area == position.area), None)
    if area is None or area.days_since is None or position.kind not in ("flexibility", "control"):
        return None
    held = any(reached(position, row) for row in rows)
    return area.stopped and (held or _fell(position, rows[-1], _best(position, rows[:-1])) is not None)


def _sides(items: list[ScreeningItem], trade: Trade) -> list[ScreeningItem]:
    """Left and right beside one another, where they were read together under like conditions."""
    apart = dt.timedelta(days=trade.value("sides_days_apart"))
    other_side = {"left": "right", "right": "left"}
    read = {(one.item, one.side, one.conditions): one for one in items}
    found = []
    for item in items:
        other = read.get((item.item, other_side.get(item.side, ""), item.conditions))
        if other is None or other.latest is None or item.latest is None:
            found.append(item)
        elif abs(other.latest_date - item.latest_date) <= apart:
            found.append(replace(item, side_difference=item.latest - other.latest))
        else:
            found.append(item)
    return found


def _upkeep(records: Records, trade: Trade) -> tuple[UpkeepFact, ...]:
    """Minutes a week over the last weeks, the most they ever were over as many, days since."""
    table, as_of = upto(records.mobility, records.as_of), pd.Timestamp(records.as_of)
    if table.empty:
        return ()
    weeks = int(trade.value("upkeep_weeks"))
    daily = table.groupby(["area", "date"])["minutes"].sum()
    found = []
    for area in sorted(table["area"].unique()):
        mine = daily.loc[area].astype(float)
        days = pd.date_range(mine.index.min(), as_of, freq="D")
        rolled = mine.reindex(days).fillna(0.0).rolling(7 * weeks, min_periods=1).sum() / weeks
        done = mine.index[mine > 0]
        since = int((as_of - done.max()).days) if len(done) else None
        found.append(
            UpkeepFact(
                area=str(area),
                minutes_per_week=float(rolled.iloc[-1]),
                peak_minutes_per_week=float(rolled.max()),
                days_since=since,
                stopped=since is not None and since >= trade.value("lapse_days"),
            )
        )
    return tuple(found)


def loose_from(age: int | None, trade: Trade) -> float:
    """Points of the Beighton score from which joints are called loose at an age [points].

    References:
        The international criteria of 2017; the score alone confirms and excludes nothing.
    """
    if age is not None and age <= trade.value("beighton_child_age"):
        return trade.value("beighton_child")
    if age is not None and age > trade.value("beighton_older_age"):
        return trade.value("beighton_over_50")
    return trade.value("beighton_adult")
