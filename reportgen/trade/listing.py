"""Everything in force, with unit, status and source: as rows for a page and as aligned text."""

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType
from typing import Final

from reportgen.model.lifter import CoachBand
from reportgen.trade.schema import Band, Checkpoint, Position, Status, Trade

STATUS_WORDS: Final[Mapping[Status, str]] = MappingProxyType(
    {
        "S": "read in the source",
        "R": "read in a work that reports it",
        "C": "computed",
        "M": "from memory",
        "P": "common practice",
        "D": "decided here",
        "coach": "the coach's own",
    }
)

_WIDTH = 110


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One thing in force, in words.

    Attributes:
        group: Rules, Bands for a snatch goal and so on; rows of a group follow one another.
        id: Name in its table.
        value: The number or range.
        unit: Its unit, "" where it has none.
        status: How well it is founded, in words.
        source: Id of the source.
        citation: What a page prints of the source.
        note: One sentence, or "".
    """

    group: str
    id: str
    value: str
    unit: str
    status: str
    source: str
    citation: str
    note: str = ""


def listed(trade: Trade, bands: Sequence[CoachBand] = (), *, goal_lift: str = "") -> tuple[Listed, ...]:
    """Every rule, band, norm, checkpoint, coefficient and published figure in force.

    Args:
        trade: The tables.
        bands: A coach's own bands of one lifter; each stands in place of the table's.
        goal_lift: The goal lift that the coach's bands are for, the lifter's first; "" = every one.

    Returns:
        Rows, group by group, in the order of the tables.
    """
    return (
        *_rules(trade),
        *_bands(trade, bands, goal_lift),
        *_norms(trade),
        *(_checkpoint(trade, one) for one in trade.checkpoints.values()),
        *_coefficients(trade),
        *_published(trade),
    )


def listing(trade: Trade, bands: Sequence[CoachBand] = (), *, goal_lift: str = "") -> str:
    """What `reportgen rules` prints: `listed` as aligned text, and the sources that it cites.

    Args:
        trade: The tables.
        bands: A coach's own bands of one lifter.
        goal_lift: The goal lift that they are for, the lifter's first; "" = every one.

    Returns:
        Text with line ends, no trailing spaces.
    """
    found = listed(trade, bands, goal_lift=goal_lift)
    parts: list[str] = []
    for group, rows in groupby(found, key=lambda row: row.group):
        parts += [group, "-" * len(group), *_aligned(tuple(rows)), ""]
    cited = {row.source for row in found}
    parts += ["Sources", "-------"]
    name = max(map(len, cited))
    for key, source in trade.sources.items():
        if key in cited:
            parts.append(f"{key:<{name}}  {source.citation} ({STATUS_WORDS[source.status]})")
    return "\n".join(line.rstrip() for line in parts)


def _aligned(rows: Sequence[Listed]) -> Iterable[str]:
    cells = [(row.id, row.value, row.unit, row.status, row.source) for row in rows]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    for row, line in zip(rows, cells, strict=True):
        yield "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True))
        if row.note:
            yield from textwrap.wrap(row.note, _WIDTH, initial_indent="    ", subsequent_indent="    ")


def _row(
    trade: Trade,
    group: str,
    key: str,
    value: str,
    unit: str,
    status: Status | None,
    source: str,
    note: str = "",
) -> Listed:
    known = trade.sources.get(source)
    return Listed(
        group=group,
        id=key,
        value=value,
        unit=unit,
        status=STATUS_WORDS[status] if status else "",
        source=source,
        citation=known.citation if known else "",
        note=note,
    )


def _number(value: float) -> str:
    return f"{value:.10g}"


def _range(low: float | None, high: float | None, mid: float | None = None) -> str:
    """`1.6 to 1.8`, `1.1 and over`, `up to 0.7`, `0.88`, `0.5 to 6, mean 3`."""
    if low is not None and high is not None:
        text = f"{_number(low)} to {_number(high)}"
    elif low is not None:
        text = f"{_number(low)} and over"
    elif high is not None:
        text = f"up to {_number(high)}"
    else:
        return _number(mid) if mid is not None else "none"
    return f"{text}, middle {_number(mid)}" if mid is not None else text


def _rules(trade: Trade) -> Iterable[Listed]:
    for rule in trade.rules.values():
        yield _row(
            trade,
            f"Rules: {rule.topic}",
            rule.id,
            _number(rule.value),
            rule.unit,
            rule.status,
            rule.source,
            rule.note,
        )


def _bands(trade: Trade, own: Sequence[CoachBand], goal_lift: str) -> Iterable[Listed]:
    mine = {band.indicator: band for band in own}
    order = sorted(trade.bands, key=lambda band: (band.context, band.goal_lift != "snatch"))
    for band in order:
        coach = mine.get(band.id) if not band.context and goal_lift in ("", "total", band.goal_lift) else None
        group = f"Bands for a {band.goal_lift} goal" + (", context only" if band.context else "")
        unit = "share of the goal" if band.base == "goal" else "share of the present lift"
        key = f"{band.id}, {band.standards}"
        value = f"{band.lift}: {_band_range(band.low, band.high)}"
        if coach is None:
            yield _row(trade, group, key, value, unit, band.status, band.source, _band_note(band))
            continue
        instead = f"In place of {_band_range(band.low, band.high)} ({trade.sources[band.source].citation})."
        value = f"{band.lift}: {_band_range(coach.low, coach.high)}"
        yield _row(trade, group, key, value, unit, "coach", "coach", instead)


def _band_range(low: float | None, high: float | None) -> str:
    """Shares to four places: a band that was printed the other way round is no round number."""
    return _range(None if low is None else round(low, 4), None if high is None else round(high, 4))


def _band_note(band: Band) -> str:
    parts = [band.note] if band.note else []
    if band.short_at is not None:
        at = "at or under" if band.short_at_inclusive else "under"
        parts.append(f"Short {at} {_number(band.short_at)}.")
    if band.alternative_reps is not None and band.alternative_share is not None:
        share = (
            "the goal weight"
            if band.alternative_share == 1
            else f"{_number(band.alternative_share)} of the goal"
        )
        parts.append(f"Or {share} for {band.alternative_reps} repetitions.")
    return " ".join(parts)


def _norms(trade: Trade) -> Iterable[Listed]:
    for one in trade.positions.values():
        yield from _position(trade, one)


def _position(trade: Trade, one: Position) -> Iterable[Listed]:
    group = "Positions and norms"
    if one.norm is None:
        yield _row(
            trade, group, one.name, "graded only" if not one.unit else "no norm", one.unit, None, "", one.note
        )
    else:
        value = f"reached {'from' if one.higher_is_better else 'up to'} {_number(one.norm)}"
        yield _row(trade, group, one.name, value, one.unit, one.norm_status, one.norm_source, one.note)
    for what, value_or_none in (
        ("smallest real change", one.smallest_real_change),
        ("smallest difference of sides", one.smallest_side_difference),
    ):
        if value_or_none is not None:
            yield _row(
                trade,
                group,
                f"{one.name}, {what}",
                _number(value_or_none),
                one.unit,
                one.change_status,
                one.change_source,
            )


def _checkpoint(trade: Trade, one: Checkpoint) -> Listed:
    """Checkpoints are the textbook model's order of looking: no number, so practice is all they rest on."""
    return _row(trade, "Checkpoints", one.name, f"{one.order}. {one.phase}", "", "P", "practice", one.note)


def _coefficients(trade: Trade) -> Iterable[Listed]:
    for row in trade.sinclair:
        value = f"A {row.a:.9f}, b {row.b_kg:g} kg"
        yield _row(
            trade, "Sinclair coefficients", f"{row.cycle}, {row.standards}", value, "", row.status, row.source
        )
    for missing in trade.sinclair_unknown:
        yield _row(trade, "Sinclair coefficients", missing.cycle, "not known", "", None, "", missing.why)
    for zone in trade.zones:
        value = f"{zone.reps_a_set_low} to {zone.reps_a_set_high} a set, {zone.optimal}, "
        value += f"{zone.range_low} to {zone.range_high}"
        span = f"under {_number(zone.high or 0)}" if zone.low is None else _range(zone.low, zone.high)
        yield _row(trade, "Prilepin's table", span, value, zone.unit, zone.status, zone.source)
    for reps, share in trade.reps_table.items():
        yield _row(
            trade,
            "Load chart",
            f"{reps} repetitions",
            _number(share),
            "share of the single",
            "R",
            "nsca_chart",
        )
    for one in trade.classes:
        value = " ".join(map(_number, one.limits_kg)) + f" +{_number(one.limits_kg[-1])}"
        key = f"{one.standards}, {one.first} to {one.last or 'now'}"
        yield _row(trade, "Body-mass classes", key, value, "kg", one.status, one.source)


def _published(trade: Trade) -> Iterable[Listed]:
    for one in trade.published.values():
        note = f"{one.what[:1].upper()}{one.what[1:]}. {one.note}".strip()
        value = _range(one.low, one.high, one.mid)
        yield _row(trade, "Published figures", one.id, value, one.unit, one.status, one.source, note)
