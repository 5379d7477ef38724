"""Charts of the lifter's positions and technique."""

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import CalendarRows, Levels
from reportgen.view.page import Figure
from reportgen.words import text


def positions_then_now(figure: Figure, palette: Palette) -> Drawn:
    """Readings as a share of the norm; needs items (row, now, then)."""
    items = figure.data["items"]
    y = ground.rows("row", tuple(items["row"]))
    values = [float(v) for column in ("now", "then") for v in items[column].dropna()]
    domain = [min(round(min(values) - 0.08, 2), 0.9), max(round(max(values) + 0.06, 2), 1.06)]
    scale = plain.scale(domain=domain, nice=False)
    x = alt.X("now:Q", title=ground.titled("share_of_norm"), scale=scale, axis=ground.percent(tickCount=5))
    earlier = alt.X("then:Q", scale=scale)
    norm = chart([{"norm": 1, "reading": text("charts.norm")}]).mark_rule(
        color=palette.goal, strokeDash=ground.GOAL_DASH, strokeWidth=1.5
    )
    both = chart(items.dropna(subset=["then"])).encode(y=y, tooltip=TIP)
    move = both.mark_rule(color=palette.muted, strokeWidth=1.5, yOffset=9)
    then = both.mark_point(
        shape=ground.DOT,
        size=80,
        stroke=palette.muted,
        fill=palette.ground,
        strokeWidth=1.6,
        yOffset=9,
        opacity=1,
    )
    now = chart(items).mark_point(
        shape=ground.DOT, size=95, filled=True, color=palette.series[0], yOffset=9, opacity=1
    )
    return ground.in_rows(
        [
            norm.encode(x=alt.X("norm:Q", scale=scale)),
            move.encode(x=earlier, x2=alt.X2("now:Q")),
            then.encode(x=earlier),
            now.encode(y=y, tooltip=TIP, x=x),
        ],
        items,
        y,
        palette,
    )


def heavier(figure: Figure, palette: Palette) -> Drawn:
    """An angle against the load; needs points (side, weight, angle) and ends (the same with low, high)."""
    points, ends = figure.data["points"], figure.data["ends"]
    options = figure.given(Levels)
    goal = options.goal
    loads = [float(v) for v in points["weight"]] + ([goal.at] if goal is not None else [])
    room = max(0.05 * (max(loads) - min(loads)), 1.0)
    scale = plain.scale(domain=[round(min(loads) - room, 1), round(max(loads) + room, 1)], nice=False)
    x = alt.X(
        "weight:Q",
        title=ground.titled("load", unit=options.unit),
        scale=scale,
        axis=plain.axis(grid=False, tickCount=ground.ticks(8)),
    )
    y = alt.Y(
        "angle:Q",
        title=ground.titled("degrees"),
        scale=plain.scale(zero=False),
        axis=ground.upright(tickCount=5),
    )
    colour = ground.colours(tuple(dict.fromkeys(points["side"])), palette.series, field="side")
    base = chart(points).encode(x=x, y=y, color=colour, tooltip=TIP)
    there = alt.X("weight:Q", scale=scale)
    layers: list[Drawn] = []
    if goal is not None:
        at = chart([{"weight": goal.at, "reading": goal.label}]).encode(x=there)
        rule = at.mark_rule(color=palette.goal, strokeDash=ground.GOAL_DASH, strokeWidth=1.5)
        words = at.mark_text(align="right", dx=-5, baseline="top", color=palette.goal)
        layers += [
            rule.encode(tooltip=TIP),
            words.encode(y=ground.at_y(2), text=alt.Text("reading:N")),
        ]
    layers += [base.mark_line(strokeWidth=1.5, opacity=0.7), base.mark_point(filled=True, size=60, opacity=1)]
    if len(ends):
        end = chart(ends).encode(x=there, color=colour, tooltip=TIP)
        spot = end.mark_point(size=70, strokeWidth=1.8, fill=palette.ground, opacity=1)
        layers += [
            end.mark_rule(strokeWidth=6, opacity=0.3).encode(y=alt.Y("low:Q"), y2=alt.Y2("high:Q")),
            spot.encode(y=alt.Y("angle:Q")),
        ]
    return ground.finish(layers, height=200, palette=palette)


def technique(figure: Figure, palette: Palette) -> Drawn:
    """Every grade over time; needs grades (date, checkpoint, mark)."""
    grades = figure.data["grades"]
    options = figure.given(CalendarRows)
    rows = ground.named(options.rows, "checkpoint")
    y = ground.rows("checkpoint", options.rows)
    kinds = ground.kinds_of(grades, ground.mark_names("good", "drifting", "off"))
    lines = chart(rows).mark_rule(color=palette.grid, yOffset=8).encode(y=y)
    spots = ground.spots(grades, kinds, palette, 80, yOffset=8).encode(
        x=ground.calendar("date", options), y=y
    )
    return ground.in_rows([lines, spots], rows, y, palette, field="checkpoint", tall=34)


def upkeep(figure: Figure, palette: Palette) -> Drawn:
    """Minutes a week now and at most; needs areas (row, now, peak)."""
    areas = figure.data["areas"]
    y = ground.rows("row", tuple(areas["row"]))
    x = alt.X("now:Q", title=ground.titled("minutes"), axis=plain.axis(tickCount=5))
    base = chart(areas).encode(y=y, tooltip=TIP)
    bars = base.mark_bar(height=12, yOffset=9, color=palette.series[0], cornerRadiusEnd=2).encode(x=x)
    peaks = base.mark_tick(thickness=2.5, height=18, yOffset=9, color=palette.ink).encode(x=alt.X("peak:Q"))
    return ground.in_rows([bars, peaks], areas, y, palette, tall=40)
