"""Charts over weeks and days: sessions, load, spread, calendar, planned against done."""

from typing import Any

import altair as alt
import pandas as pd

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import Calendar, CalendarRows, CalendarWeights
from reportgen.view.page import Figure
from reportgen.words import listed, text

HEIGHT = 200
#: Sessions a week that the axis has room for at the least.
LEAST = 3


def _spans(table: pd.DataFrame, x: alt.X, **how: Any) -> list[alt.Chart]:
    """A rectangle from start to end a row; nothing without rows."""
    rect = chart(table).mark_rect(**how, clip=True)
    return [rect.encode(x=x, x2=alt.X2("end:T"), tooltip=TIP)] if len(table) else []


def _grounds(gaps: pd.DataFrame, x: alt.X, palette: Palette) -> list[alt.Chart]:
    """Missing time as a light ground with a dotted edge."""
    edge = {"stroke": palette.muted, "strokeDash": [1, 3], "strokeWidth": 0.8}
    return _spans(gaps, x, color=palette.gap, **edge)


def _stacked(
    bars: pd.DataFrame, colour: alt.Color, x: alt.X, y: alt.Y, palette: Palette, edge: float
) -> list[alt.Chart]:
    """Bars from start to end and from low to high."""
    drawn = _spans(bars, x, stroke=palette.ground, strokeWidth=edge)
    return [one.encode(y=y, y2=alt.Y2("high:Q"), color=colour) for one in drawn]


def exposure_weeks(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week; needs bars (start, end, kind, low, high) and grounds (start, end, ground)."""
    bars = figure.data["bars"]
    x = ground.calendar("start", figure.given(Calendar))
    top = max([LEAST, *map(int, bars["high"])])
    y = alt.Y(
        "low:Q",
        title=ground.titled("sessions"),
        scale=plain.scale(domain=[0, top], nice=False),
        axis=ground.upright(values=list(range(top + 1)), format="d"),
    )
    kinds = ground.kinds_of(bars, ground.mark_names("full", "derivative"), "kind")
    colours = (palette.series[0], palette.steps[2]) if "full" in kinds else palette.steps[2:]
    named = bars.assign(kind=bars["kind"].map(kinds))
    colour = ground.colours(tuple(kinds.values()), colours)
    layers = [
        *_grounds(figure.data["grounds"], x, palette),
        *_stacked(named, colour, x, y, palette, edge=0.8),
    ]
    return ground.finish(layers, height=150, palette=palette)


def load_weeks(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week in three parts; needs bars (start, end, kind, low, high), gaps, tests, tapers, chases."""
    bars, tests = figure.data["bars"], figure.data["tests"]
    options = figure.given(CalendarWeights)
    x = ground.calendar("start", options)
    highest = float(bars["high"].max()) if len(bars) else 1.0
    y = ground.amount("low", text(f"load.unit.{options.unit}"), (0.0, round(highest * 1.15, 2)))
    names = {kind: text(f"charts.load.{kind}") for kind in ("classic", "strength", "other")}
    colours = (palette.series[0], palette.series[2], palette.series[4])
    kinds = ground.kinds_of(bars, names, "kind")
    named = bars.assign(kind=bars["kind"].map(kinds))
    colour = ground.colours(tuple(kinds.values()), colours)
    layers: list[Drawn] = [
        *_grounds(figure.data["gaps"], x, palette),
        *_spans(figure.data["tapers"], x, color=palette.taper),
        *_stacked(named, colour, x, y, palette, edge=0.6),
        *(
            strip.encode(y=ground.at_y(0), y2=ground.at_y2(5))
            for strip in _spans(figure.data["chases"], x, color=palette.missed)
        ),
    ]
    if len(tests):
        marked = ground.spots(tests.assign(mark="test"), ground.mark_names("test"), palette, 80)
        layers.append(marked.encode(x=ground.calendar("date", options), y=ground.at_y(14)))
    return ground.finish(layers, height=HEIGHT, palette=palette)


def load_spread(figure: Figure, palette: Palette) -> Drawn:
    """Counted repetitions by month and zone; needs bars (start, end, zone, low, high)."""
    options = figure.given(CalendarRows)
    colour = ground.colours(options.rows, palette.steps[1:], field="zone")
    x = ground.calendar("start", options)
    y = alt.Y("low:Q", title=ground.titled("repetitions"), axis=ground.upright(tickCount=5))
    layers = _stacked(figure.data["bars"], colour, x, y, palette, edge=1)
    return ground.finish(layers, height=HEIGHT, palette=palette)


def calendar(figure: Figure, palette: Palette) -> Drawn:
    """One mark a training day; needs days (week, weekday, kind) and away (week, weekday)."""
    days, away = figure.data["days"], figure.data["away"]
    x = ground.calendar("week", figure.given(Calendar))
    weekdays = ",".join(f"'{day}'" for day in listed("numbers.weekdays"))
    y = alt.Y(
        "weekday:O",
        title=None,
        scale=plain.scale(domain=list(range(7))),
        axis=plain.axis(
            labelExpr=f"[{weekdays}][datum.value]",
            ticks=False,
            domain=False,
            minExtent=ground.BESIDE,
            grid=True,
            gridDash=[1, 4],
        ),
    )
    layers: list[Drawn] = []
    if len(away):
        cells = chart(away).mark_square(size=150, color=palette.gap, opacity=1)
        layers.append(cells.encode(x=x, y=y, tooltip=TIP))
    kinds = ground.kinds_of(days, ground.mark_names("full", "derivative", "other", "test"))
    layers.append(ground.spots(days, kinds, palette, 75).encode(x=x, y=y))
    return ground.finish(layers, height=7 * 20, palette=palette)


def planned_done(figure: Figure, palette: Palette) -> Drawn:
    """A bar for the sets done and a line at the sets planned; needs weeks (week, planned, done)."""
    weeks = figure.data["weeks"]
    names = list(weeks["week"])
    y = alt.Y("week:N", sort=names, title=None, axis=plain.axis(ticks=False, domain=False, minExtent=56))
    x = alt.X("done:Q", title=ground.titled("sets"), axis=plain.axis(tickCount=5))
    base = chart(weeks).encode(y=y, tooltip=TIP)
    bars = base.mark_bar(height=12, color=palette.series[0]).encode(x=x)
    lines = base.mark_tick(thickness=2.5, height=20, color=palette.ink).encode(x=alt.X("planned:Q"))
    return ground.finish([bars, lines], height=26 * max(len(names), 1), palette=palette)


def block_loads(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week as a share of the usual load; needs weeks (week, kind, share)."""
    weeks = figure.data["weeks"]
    x = alt.X(
        "week:N",
        sort=list(weeks["week"]),
        title=None,
        axis=plain.axis(labelAngle=-90, ticks=False, domain=False),
    )
    top = max(1.25, float(weeks["share"].max()) * 1.05)
    y = alt.Y(
        "share:Q",
        title=ground.titled("usual_load"),
        scale=plain.scale(domain=[0, round(top, 2)], nice=False),
        axis=ground.upright(beside=45, values=[0, 0.25, 0.5, 0.75, 1], format="%", labelExpr=ground.PERCENT),
    )
    order = ("before", "work", "light", "return", "work_taper", "taper")
    shown = {kind: text(f"block.week.{kind}") for kind in order}
    kinds = tuple(shown[kind] for kind in shown if (weeks["kind"] == kind).any())
    # A week with whose last sessions the taper begins is a week of work: its name tells the two apart.
    inked = (palette.gap, palette.series[0], *palette.steps[1:3], palette.series[0], palette.taper)
    inks = dict(zip(shown.values(), inked, strict=True))
    colour = ground.colours(kinds, tuple(inks[kind] for kind in kinds))
    bars = chart(weeks.assign(kind=weeks["kind"].map(shown))).mark_bar(stroke=palette.muted, strokeWidth=0.6)
    drawn = bars.encode(x=x, y=y, color=colour, tooltip=TIP)
    usual = chart(weeks.head(1).assign(share=1.0)).mark_rule(color=palette.ink, strokeDash=[2, 3])
    return ground.finish([drawn, usual.encode(y=alt.Y("share:Q"))], height=150, palette=palette)
