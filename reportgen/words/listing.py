"""Everything in force, with unit, status and source, as aligned text: what `rules` prints."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from reportgen.model.lifter import CoachBand
from reportgen.model.say import Value, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Band, Position, Status, Trade
from reportgen.words.phrases import text

_WIDTH: Final = 110


@dataclass(frozen=True, slots=True)
class Listed:
    """One thing in force, in words: a row of its group, with the id of its source."""

    group: str
    id: str
    value: str
    unit: str
    status: str
    source: str
    note: str = ""


def listing(trade: Trade, bands: Sequence[CoachBand] = (), *, goal_lift: str = "") -> str:
    """`listed` as aligned text, and the sources that it cites; no trailing spaces."""
    found = listed(trade, bands, goal_lift=goal_lift)
    parts: list[str] = []
    for group, rows in groupby(found, key=lambda row: row.group):
        parts += [group, "-" * len(group), *_aligned(tuple(rows)), ""]
    cited = {row.source for row in found}
    head, name = text("rules.sources"), max(map(len, cited))
    parts += [head, "-" * len(head)]
    for key, source in trade.sources.items():
        if key in cited:
            said = text("rules.cited", citation=source.citation, status=_status(source.status))
            parts.append(f"{key:<{name}}  {said}")
    return "\n".join(line.rstrip() for line in parts)


def _aligned(rows: Sequence[Listed]) -> Iterator[str]:
    cells = [(row.id, row.value, row.unit, row.status, row.source) for row in rows]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    for row, line in zip(rows, cells, strict=True):
        yield "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True))
        if row.note:
            yield from textwrap.wrap(row.note, _WIDTH, initial_indent="    ", subsequent_indent="    ")


def listed(trade: Trade, bands: Sequence[CoachBand] = (), *, goal_lift: str = "") -> tuple[Listed, ...]:
    """Every rule, band, norm, checkpoint, coefficient and published figure in force, group by group.

    Args:
        trade: The tables.
        bands: A coach's own bands of one lifter; each stands in place of the table's.
        goal_lift: The goal lift that the coach's bands are for, the lifter's first; "" = every one.
    """
    return tuple(_listed(trade, {band.indicator: band for band in bands}, goal_lift))


def _listed(trade: Trade, own: dict[str, CoachBand], goal_lift: str) -> Iterator[Listed]:
    for rule in trade.rules.values():
        group = text("rules.group.rules", topic=rule.topic)
        value = _range(None, None, rule.value)
        yield Listed(group, rule.id, value, rule.unit, _status(rule.status), rule.source, rule.note)
    for band in sorted(trade.bands, key=lambda band: (band.context, band.goal_lift != "snatch")):
        coachs = not band.context and goal_lift in ("", "total", band.goal_lift)
        yield _band(trade, band, own.get(band.id) if coachs else None)
    for one in trade.positions.values():
        yield from _position(one)
    for point in trade.checkpoints.values():
        # The textbook model's order of looking: no number, so practice is all that it rests on.
        value = text("rules.checkpoint", order=point.order, phase=point.phase)
        yield Listed(_group("checkpoints"), point.name, value, "", _status("P"), "practice", point.note)
    yield from _coefficients(trade)
    for figure in trade.published.values():
        note = text("rules.note", what=figure.what, note=figure.note).strip()
        value = _range(figure.low, figure.high, figure.mid)
        cited = (figure.unit, _status(figure.status), figure.source)
        yield Listed(_group("published"), figure.id, value, *cited, note)


def _group(name: str) -> str:
    return text(f"rules.group.{name}")


def _status(status: Status | None) -> str:
    return text(f"rules.status.{status}") if status else ""


def _range(low: float | None, high: float | None, mid: float | None = None) -> str:
    """`1.6 to 1.8`, `1.1 and over`, `up to 0.7`, `0.88`, `0.5 to 6, middle 3`."""
    given: dict[str, Value] = {
        name: value for name, value in (("low", low), ("high", high), ("mid", mid)) if value is not None
    }
    if low is None and high is None:
        return text(f"rules.range.{'none' if mid is None else 'mid'}", **given)
    way = "both" if low is not None and high is not None else "high" if low is None else "low"
    if mid is None:
        return text(f"rules.range.{way}", **given)
    return text("rules.range.middle", range=say(f"rules.range.{way}", **given), mid=mid)


def _share(band: Band | CoachBand) -> str:
    """Shares to four places: a band that was printed the other way round is no round number."""
    low, high = (None if edge is None else round(edge, 4) for edge in (band.low, band.high))
    return _range(low, high)


def _band(trade: Trade, band: Band, coach: CoachBand | None) -> Listed:
    group = text(f"rules.group.{'context' if band.context else 'bands'}", lift=band.goal_lift)
    name = text("rules.band.name", band=band.id, standards=band.standards)
    value = text("rules.band.of", lift=band.lift, range=_share(coach or band))
    unit = text(f"rules.band.{band.base}")
    if coach is None:
        return Listed(group, name, value, unit, _status(band.status), band.source, _band_note(band))
    citation = trade.sources[band.source].citation
    note = text("rules.band.instead", range=_share(band), citation=citation)
    return Listed(group, name, value, unit, _status("coach"), "coach", note)


def _band_note(band: Band) -> str:
    parts = [band.note] if band.note else []
    if band.short_at is not None:
        how = "short_at" if band.short_at_inclusive else "short"
        parts.append(text(f"rules.band.{how}", share=band.short_at))
    if band.alternative_reps is not None and band.alternative_share is not None:
        how = "whole" if band.alternative_share == 1 else "part"
        parts.append(text(f"rules.band.{how}", share=band.alternative_share, reps=band.alternative_reps))
    return " ".join(parts)


def _position(one: Position) -> Iterator[Listed]:
    group = _group("norms")
    if one.norm is None:
        value = text(f"rules.{'no_norm' if one.unit else 'graded'}")
        yield Listed(group, one.name, value, one.unit, "", "", one.note)
    else:
        value = text(f"rules.norm_{'from' if one.higher_is_better else 'to'}", norm=one.norm)
        yield Listed(group, one.name, value, one.unit, _status(one.norm_status), one.norm_source, one.note)
    for what, size in (("change", one.smallest_real_change), ("side", one.smallest_side_difference)):
        if size is not None:
            name = text("rules.of_norm", item=one.name, what=text(f"rules.{what}"))
            status = _status(one.change_status)
            yield Listed(group, name, _range(None, None, size), one.unit, status, one.change_source)


def _coefficients(trade: Trade) -> Iterator[Listed]:
    for row in trade.sinclair:
        value = text("rules.sinclair", a=f"{row.a:.9f}", b=row.b_kg)
        name = text("rules.cycle", cycle=row.cycle, standards=row.standards)
        yield Listed(_group("sinclair"), name, value, "", _status(row.status), row.source)
    for gap in trade.sinclair_unknown:
        yield Listed(_group("sinclair"), gap.cycle, text("rules.unknown"), "", "", "", gap.why)
    for zone in trade.zones:
        value = text(
            "rules.zone", low=zone.reps_a_set_low, high=zone.reps_a_set_high, optimal=zone.optimal,
            least=zone.range_low, most=zone.range_high,
        )  # fmt: skip
        span = (
            _range(zone.low, zone.high) if zone.low is not None else text("rules.under", high=zone.high or 0)
        )
        yield Listed(_group("zones"), span, value, zone.unit, _status(zone.status), zone.source)
    for reps, share in trade.reps_table.items():
        name, unit = text("rules.reps", reps=reps), text("rules.of_single")
        yield Listed(_group("chart"), name, _range(None, None, share), unit, _status("R"), "nsca_chart")
    for one in trade.classes:
        limits = [f"{limit:g}" for limit in one.limits_kg]
        last = one.last or text("rules.now")
        name = text("rules.classes", standards=one.standards, first=one.first, last=last)
        value = " ".join([*limits, f"+{limits[-1]}"])
        yield Listed(_group("classes"), name, value, "kg", _status(one.status), one.source)
