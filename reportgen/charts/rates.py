"""Charts of misses and tapers."""

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.page import Figure
from reportgen.words import text


def make_rate(figure: Figure, palette: Palette) -> Drawn:
    """A dot and its interval a zone; needs rates (row, rate, said, low, high)."""
    rates = figure.data["rates"]
    y = ground.rows("row", tuple(rates["row"]))
    lowest = min(0.5, float(rates["low"].min()) // 0.25 * 0.25)
    x = alt.X(
        "low:Q",
        title=ground.titled("share_made"),
        scale=plain.scale(domain=[lowest, 1], nice=False, zero=False),
        axis=ground.percent(values=[at / 4 for at in range(round(lowest * 4), 5)], labelFlush=True),
    )
    base = chart(rates).encode(y=y, tooltip=TIP)
    spans = base.mark_rule(strokeWidth=7, strokeCap="round", opacity=0.35, color=palette.made, yOffset=9)
    dots = base.mark_point(shape=ground.DOT, filled=True, size=110, opacity=1, color=palette.made, yOffset=9)
    layers = [spans.encode(x=x, x2=alt.X2("high:Q")), dots.encode(x=alt.X("rate:Q"))]
    # Before its range, where the axis leaves room for that, else behind it.
    room = rates["low"] - lowest > 0.25 * (1 - lowest)
    for those, end, align, off in (
        (rates.loc[room], "low", "right", -8),
        (rates.loc[~room], "high", "left", 8),
    ):
        if len(those):
            words = chart(those).mark_text(
                align=align,  # type: ignore[arg-type]
                baseline="middle",
                dx=off,
                yOffset=9,
                color=palette.ink,
            )
            layers.append(words.encode(x=alt.X(f"{end}:Q"), y=y, text=alt.Text("said:N")))
    return ground.in_rows(layers, rates, y, palette, tall=34)


def miss_kinds(figure: Figure, palette: Palette) -> Drawn:
    """A bar a kind of miss; needs kinds (kind, row, count, stated)."""
    kinds = figure.data["kinds"]
    y = ground.rows("row", tuple(kinds["row"]))
    x = alt.X(
        "count:Q", title=ground.titled("misses"), axis=plain.axis(tickCount=5, format="d", tickMinStep=1)
    )
    colour = alt.Color(
        "stated:N",
        scale=plain.scale(domain=[True, False], range=[palette.missed, palette.muted]),
        legend=None,
    )
    bars = chart(kinds).mark_bar(height=12, yOffset=9, cornerRadiusEnd=2)
    bars = bars.encode(x=x, y=y, color=colour, tooltip=TIP)
    return ground.in_rows([bars], kinds, y, palette, tall=38)


#: Of a row's height: where its words stand, where its highest bar ends, where its bars begin.
_WORDS, _TOP, _BASE = 0.16, 0.36, 0.96
_ROW_PX = 74


def tapers_aligned(figure: Figure, palette: Palette) -> Drawn:
    """Days round each test day; needs loads (place, day, load, expected) and tapers (place, onset, label)."""
    loads, tapers = figure.data["loads"], figure.data["tapers"]
    rows = len(tapers)
    height = _BASE - _TOP
    base = loads["place"] + _BASE
    bars = loads.assign(
        left=loads["day"] - 0.36,
        right=loads["day"] + 0.36,
        base=base,
        top=(base - height * loads["load"]).round(2),
    ).loc[loads["load"] > 0, ["left", "right", "base", "top", "reading"]]
    lines = loads.assign(
        left=loads["day"] - 0.5,
        right=loads["day"] + 0.5,
        top=(base - height * loads["expected"]).round(2),
    ).loc[loads["expected"].notna(), ["left", "right", "top"]]
    marks = tapers.assign(day=0, top=tapers["place"] + _WORDS, base=tapers["place"] + _BASE, end=0.5)
    marks["above"] = tapers["place"] + _TOP - 0.06
    y = alt.Y("top:Q", axis=None, scale=plain.scale(domain=[rows, 0], nice=False, zero=False))
    x = alt.X(
        "left:Q",
        title=ground.titled("round_test"),
        scale=plain.scale(domain=[-35.6, 14.6], nice=False),
        axis=plain.axis(
            values=list(range(-35, 15, 7)),
            labelExpr=f"datum.value == 0 ? '{text('charts.test_day')}' : abs(datum.value)",
            grid=True,
            gridDash=[1, 4],
        ),
    )
    bands = chart(marks.dropna(subset="onset")).mark_rect(color=palette.taper)
    drawn = chart(bars).mark_rect(color=palette.series[0])
    expected = chart(lines).mark_rule(color=palette.ink, strokeWidth=1.4)
    tested = chart(marks).mark_point(
        shape=ground.DIAMOND, size=80, stroke=palette.test, fill=palette.ground, strokeWidth=1.6, opacity=1
    )
    words = chart(marks).mark_text(align="left", baseline="middle", color=palette.ink)
    layers: list[Drawn] = [
        bands.encode(
            x=alt.X("onset:Q"),
            x2=alt.X2("end:Q"),
            y=alt.Y("above:Q", axis=None),
            y2=alt.Y2("base:Q"),
            tooltip=TIP,
        ),
        drawn.encode(x=x, x2=alt.X2("right:Q"), y=y, y2=alt.Y2("base:Q"), tooltip=TIP),
        expected.encode(x=x, x2=alt.X2("right:Q"), y=y),
        tested.encode(x=alt.X("day:Q"), y=alt.Y("above:Q", axis=None), tooltip=TIP),
        words.encode(x=ground.at_x(0), y=y, text=alt.Text("label:N")),
    ]
    return ground.finish(layers, height=_ROW_PX * rows, palette=palette)
