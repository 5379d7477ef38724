"""Charts of misses and tapers."""

from typing import Any

import altair as alt

from reportgen.charts import ground
from reportgen.charts.palette import Palette
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"


def make_rate(figure: Figure, palette: Palette) -> Drawn:
    """A dot and its interval a zone; needs rates (row, rate, low, high)."""
    rates = figure.data["rates"]
    names = tuple(rates["row"])
    y = ground.rows("row", names)
    x = alt.X(
        "low:Q",
        title="share made",
        scale=alt.Scale(domain=[0, 1]),
        axis=alt.Axis(format="%", values=[0, 0.25, 0.5, 0.75, 1], labelFlush=True),
    )
    base = alt.Chart(rates).encode(y=y, tooltip=alt.Tooltip(READING))
    spans = base.mark_rule(strokeWidth=7, strokeCap="round", opacity=0.35, color=palette.made, yOffset=9)
    dots = base.mark_point(shape=ground.DOT, filled=True, size=110, opacity=1, color=palette.made, yOffset=9)
    return ground.finish(
        [
            spans.encode(x=x, x2="high:Q"),
            dots.encode(x=alt.X("rate:Q")),
            *ground.labels(rates, y, "row", palette),
        ],
        height=ground.ROW * len(names),
        palette=palette,
    )


def miss_kinds(figure: Figure, palette: Palette) -> Drawn:
    """A bar a kind of miss; needs kinds (kind, row, count, stated)."""
    kinds = figure.data["kinds"]
    names = tuple(kinds["row"])
    y = ground.rows("row", names)
    x = alt.X("count:Q", title="misses", axis=alt.Axis(tickCount=5, format="d", tickMinStep=1))
    colour = alt.Color(
        "stated:N", scale=alt.Scale(domain=[True, False], range=[palette.missed, palette.muted]), legend=None
    )
    bars = alt.Chart(kinds).mark_bar(height=12, yOffset=9, cornerRadiusEnd=2)
    bars = bars.encode(x=x, y=y, color=colour, tooltip=alt.Tooltip(READING))
    return ground.finish(
        [bars, *ground.labels(kinds, y, "row", palette)], height=38 * len(names), palette=palette
    )


def tapers_aligned(figure: Figure, palette: Palette) -> Drawn:
    """The weeks before each test day; needs loads (test, day, load) and tapers (test, onset, label)."""
    loads, tapers = figure.data["loads"], figure.data["tapers"]
    options: dict[str, Any] = figure.options
    names = tuple(str(t) for t in options["tests"])
    y = ground.rows("test", names)
    shown = int(options["days"])
    x = alt.X(
        "day:Q",
        title="days before the test day",
        scale=alt.Scale(domain=[-shown - 0.7, 0.7], nice=False),
        axis=alt.Axis(
            values=list(range(-shown, 1, 7)),
            labelExpr="datum.value == 0 ? 'day' : abs(datum.value)",
            grid=True,
            gridDash=[1, 4],
        ),
    )
    found = tapers.dropna(subset="onset").assign(end=0.0)
    layers: list[Drawn] = []
    if len(found):
        band = alt.Chart(found).mark_bar(height=22, yOffset=9, color=palette.taper)
        layers.append(band.encode(x=alt.X("onset:Q"), x2="end:Q", y=y, tooltip=alt.Tooltip(READING)))
    dots = alt.Chart(loads).mark_circle(color=palette.series[0], opacity=0.85, yOffset=9)
    size = alt.Size("load:Q", scale=alt.Scale(type="linear", range=[0, 220], zero=True), legend=None)
    layers.append(dots.encode(x=x, y=y, size=size, tooltip=alt.Tooltip(READING)))
    day = alt.Chart(tapers.assign(day=0)).mark_point(
        shape=ground.DIAMOND,
        size=90,
        stroke=palette.test,
        fill=palette.ground,
        strokeWidth=1.6,
        yOffset=9,
        opacity=1,
    )
    layers.append(day.encode(x=alt.X("day:Q"), y=y, tooltip=alt.Tooltip(READING)))
    layers.extend(ground.labels(tapers, y, "label", palette))
    return ground.finish(layers, height=ground.ROW * len(names), palette=palette)
