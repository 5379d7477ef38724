"""What all charts share: size, type, axes, and the one mark for each kind of thing."""

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, Final, NamedTuple, cast

import altair as alt
import pandas as pd

from reportgen.charts import plain
from reportgen.charts import rows as tables
from reportgen.charts.palette import Palette
from reportgen.charts.plain import Plain
from reportgen.view.options import Calendar, Level, wide
from reportgen.words import text

Drawn = alt.Chart | alt.LayerChart
TIP: Final = alt.Tooltip("reading:N")
GOAL_DASH: Final = [10, 5]
FONT: Final = 'Arial, "Liberation Sans", Helvetica, sans-serif'
WIDTH: Final = 680
TEXT: Final = 12
#: Room for the labels of a y axis: as much in all charts, so that calendars lie under one another.
BESIDE: Final = 30
#: A label so near the end of its axis ends at its tick, and nothing hangs over.
FLUSH: Final = 16
#: Below this plot width a chart has few ticks and one legend entry a line.
NARROW: Final = 420
ROW: Final = 46
#: Labels of shares with the space that stands before the sign on the whole page.
PERCENT: Final = "replace(datum.label, '%', ' %')"

CROSS: Final = "M-.75,-.75L.75,.75M.75,-.75L-.75,.75"
DIAMOND: Final = "M0,-1L1,0L0,1L-1,0Z"
DOT: Final = "M-.7,0A.7,.7,0,1,1,.7,0A.7,.7,0,1,1,-.7,0Z"
SQUARE: Final = "M-.7,-.7L.7,-.7L.7,.7L-.7,.7Z"
BLOCK: Final = "M-1,-1L1,-1L1,1L-1,1Z"
#: A reading that was lost: it points down.
FALL: Final = "M-1,-.8L1,-.8L0,1Z"
SPECK: Final = "M-.35,0A.35,.35,0,1,1,.35,0A.35,.35,0,1,1,-.35,0Z"
#: Begins at its x and points to more.
ARROW: Final = "M0,-.3L1,-.3L1,-1L2.6,0L1,1L1,.3L0,.3Z"
LESS: Final = "M0,-.3L-1,-.3L-1,-1L-2.6,0L-1,1L-1,.3L0,.3Z"


class Mark(NamedTuple):
    """How one kind of thing is drawn, everywhere."""

    shape: str
    stroke: str
    fill: str


def marks(palette: Palette) -> dict[str, Mark]:
    """The mark of each kind of thing."""
    first, steps = palette.series[0], palette.steps
    return {
        "made": Mark(DOT, palette.made, palette.made),
        "missed": Mark(CROSS, palette.missed, "transparent"),
        "test": Mark(DIAMOND, palette.test, palette.ground),
        "good": Mark(SPECK, steps[3], steps[3]),
        "drifting": Mark(SQUARE, steps[2], palette.ground),
        "off": Mark(BLOCK, palette.ink, palette.ink),
        "left": Mark(DOT, first, first),
        "right": Mark(DOT, first, palette.ground),
        "healthy": Mark(BLOCK, steps[0], steps[0]),
        "fell": Mark(FALL, palette.missed, palette.missed),
    }


def titled(axis: str, **values: str) -> str:
    """The title of an axis."""
    return text(f"charts.axis.{axis}", **values)


def kinds_of(table: pd.DataFrame, names: Mapping[str, str]) -> dict[str, str]:
    """Those kinds of mark with their names, in their order, that the table holds."""
    held = set(table["mark"]) if len(table) else set()
    return {kind: name for kind, name in names.items() if kind in held}


def mark_names(*kinds: str) -> dict[str, str]:
    """What the legend calls these kinds of mark."""
    return {kind: text(f"charts.mark.{kind}") for kind in kinds}


def spots(
    table: pd.DataFrame, names: Mapping[str, str], palette: Palette, size: int, **how: Any
) -> alt.Chart:
    """A mark a row, by the kind in its column `mark`, with one legend for all of `names`."""
    known = [marks(palette)[kind] for kind in names]
    key = legend(tuple(names.values()))

    def scale(part: str) -> Plain:
        return plain.scale(domain=[*names.values()], range=[getattr(mark, part) for mark in known])

    look: dict[str, Any] = {"strokeWidth": 1.6, "opacity": 1} | how
    drawn = tables.chart(table.assign(mark=table["mark"].map(names))).mark_point(size=size, **look)
    spotted: alt.Chart = drawn.encode(
        shape=alt.Shape("mark:N", scale=scale("shape"), legend=key),
        stroke=alt.Stroke("mark:N", scale=scale("stroke"), legend=key),
        fill=alt.Fill("mark:N", scale=scale("fill"), legend=key),
        tooltip=TIP,
    )
    return spotted


def legend(kinds: tuple[str, ...]) -> Plain:
    """A legend above the plot; on a phone in as many columns as its longest word leaves."""
    narrow = max(1, min(len(kinds), int(290 // wide(kinds, 6.5, 32))))
    return plain.legend(
        title=None,
        orient="top",
        direction="horizontal",
        offset=22,
        columns=alt.ExprRef(f"width < {NARROW} ? {narrow} : {max(len(kinds), 1)}"),
        symbolSize=90,
        symbolStrokeWidth=1.5,
    )


def colours(kinds: tuple[str, ...], values: tuple[str, ...], *, field: str = "kind") -> alt.Color:
    """A colour a kind, with its legend where there is more than one."""
    scale = plain.scale(domain=list(kinds), range=list(values[: len(kinds)]))
    return alt.Color(
        f"{field}:N", scale=scale, legend=legend(kinds) if len(kinds) > 1 else None, sort=list(kinds)
    )


def moment(day: dt.date) -> alt.DateTime:
    """A day as a local day of the chart's calendar."""
    return alt.DateTime(year=day.year, month=day.month, date=day.day)


def calendar(field: str, days: Calendar) -> alt.X:
    """The calendar as x axis: months, with the year under the first and each January."""
    return alt.X(
        f"{field}:T",
        title=None,
        scale=plain.scale(domain=[moment(days.first), moment(days.last)], nice=False),
        axis=plain.axis(
            grid=False,
            tickCount=ticks(9),
            labelExpr="[timeFormat(datum.value, date(datum.value) == 1 ? '%b' : '%e %b'), "
            "datum.index == 0 || month(datum.value) == 0 ? timeFormat(datum.value, '%Y') : '']",
            labelFlush=FLUSH,
            labelOverlap=True,
        ),
    )


def ticks(wide: int) -> alt.ExprRef:
    """About so many ticks, on a phone four."""
    return alt.ExprRef(f"width < {NARROW} ? 4 : {wide}")


def amount(field: str, title: str, domain: tuple[float, float] | None = None) -> alt.Y:
    """A quantity as y axis, with its unit as title."""
    scale = (
        plain.scale(zero=False, nice=True) if domain is None else plain.scale(domain=list(domain), nice=False)
    )
    return alt.Y(f"{field}:Q", title=title, scale=scale, axis=upright(tickCount=5))


def upright(*, beside: int = BESIDE, **more: Any) -> Plain:
    """A y axis whose title stands level above it, where it can be read; `beside` pixels for its labels."""
    return plain.axis(
        titleAngle=0,
        titleAlign="left",
        titleBaseline="bottom",
        titleX=-beside,
        titleY=-8,
        minExtent=beside,
        domain=False,
        ticks=False,
        **more,
    )


def percent(**more: Any) -> Plain:
    """An axis of shares, written as everywhere on the page: 75 %."""
    return plain.axis(format="%", labelExpr=PERCENT, **more)


#: Places across and down; a plain `alt.value` makes the library search its whole grammar for the class.
at_x: Final[Callable[[float | str], alt.XValue]] = alt.XValue
at_x2: Final[Callable[[float | str], alt.X2Value]] = alt.X2Value
at_y: Final[Callable[[float], alt.YValue]] = alt.YValue
at_y2: Final[Callable[[float], alt.Y2Value]] = alt.Y2Value


def rows(field: str, names: tuple[str, ...]) -> alt.Y:
    """One row a name, in the order given; the label stands above its row, so that a phone keeps its width."""
    return alt.Y(f"{field}:N", sort=list(names), title=None, axis=None, scale=plain.scale(domain=list(names)))


def beside(field: str, names: tuple[str, ...]) -> alt.Y:
    """One row a name, in the order given; the label stands at the left in lines parted by a colon."""
    room = wide((line for name in names for line in name.split(": ")), 6.2, 10)
    return alt.Y(
        f"{field}:N",
        sort=list(names),
        title=None,
        scale=plain.scale(domain=list(names)),
        axis=plain.axis(
            labelExpr="split(datum.label, ': ')",
            labelAlign="left",
            labelPadding=room,
            labelColor="var(--ink)",
            labelBaseline="line-top",
            labelOffset=-13,
            ticks=False,
            domain=False,
            minExtent=room,
            maxExtent=room,
        ),
    )


def labels(
    table: pd.DataFrame | list[dict[str, object]], y: alt.Y, field: str, palette: Palette
) -> alt.Chart:
    """The label of each row, above it at the left edge, on a halo that keeps lines off its letters."""
    base = tables.chart(table).encode(x=at_x(0), y=y, text=alt.Text(f"{field}:N"))
    # The page's style and `pages.slim` draw the line under the letters, not over them.
    halo: dict[str, Any] = {"stroke": palette.ground, "strokeWidth": 7, "strokeJoin": "round"}
    words: alt.Chart = base.mark_text(align="left", baseline="middle", yOffset=-10, color=palette.ink, **halo)
    return words


def named(names: tuple[str, ...], field: str) -> list[dict[str, object]]:
    """A table of row names for `labels`."""
    return [{field: name} for name in names]


def goal_line(goal: Level | None, palette: Palette, domain: tuple[float, float]) -> list[alt.Chart]:
    """The goal as a long dashed line across, its label above it at the left."""
    if goal is None:
        return []
    at = tables.chart([{"goal": goal.at, "reading": goal.label}])
    y = alt.Y("goal:Q", scale=plain.scale(domain=list(domain), nice=False))
    line = at.mark_rule(color=palette.goal, strokeDash=GOAL_DASH, strokeWidth=1.5)
    words = at.mark_text(align="left", baseline="bottom", dy=-4, color=palette.goal)
    return [line.encode(y=y, tooltip=TIP), words.encode(x=at_x(2), y=y, text=alt.Text("reading:N"))]


def finish(layers: Sequence[Any], *, height: int, palette: Palette) -> alt.LayerChart:
    """One chart of these layers, undermost first, with size, type and colours."""
    # Not `.properties()`, which copies every layer and its rows once more.
    chart = alt.layer(
        *layers,
        width=WIDTH,
        height=height,
        autosize=alt.AutoSizeParams(type="fit-x", contains="padding"),
        background="transparent",
        padding={"left": 2, "right": 6, "top": 4, "bottom": 2},
        config=_config(palette),
    )
    return cast("alt.LayerChart", chart)


def in_rows(
    layers: Sequence[Any],
    table: pd.DataFrame | list[dict[str, object]],
    y: alt.Y,
    palette: Palette,
    *,
    field: str = "row",
    tall: int = ROW,
) -> alt.LayerChart:
    """A chart of rows with the label of each; a row is so many pixels `tall`."""
    return finish([*layers, labels(table, y, field, palette)], height=tall * len(table), palette=palette)


@cache
def _config(palette: Palette) -> Plain:
    config = alt.Config(
        aria=False,
        font=FONT,
        view=alt.ViewConfig(stroke=None),
        axis=alt.AxisConfig(
            labelColor=palette.muted,
            titleColor=palette.muted,
            gridColor=palette.grid,
            domainColor=palette.grid,
            tickColor=palette.grid,
            labelFontSize=TEXT,
            titleFontSize=TEXT,
            titleFontWeight="normal",
            gridWidth=1,
        ),
        legend=alt.LegendConfig(
            labelColor=palette.ink,
            titleColor=palette.muted,
            labelFontSize=TEXT,
            titleFontSize=TEXT,
        ),
        text=alt.MarkConfig(fontSize=TEXT, font=FONT, color=palette.ink),
        range=alt.RangeConfig(category=list(palette.series), ordinal=list(palette.steps)),
    )
    return config.to_dict(validate=False)
