"""Charts of the lifter's positions and technique."""

from typing import Any

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"


def positions_then_now(figure: Figure, palette: Palette) -> Drawn:
    """Readings as a share of the norm; needs items (row, now, then)."""
    items = figure.data["items"]
    names = tuple(items["row"])
    y = ground.rows("row", names)
    values = [float(v) for column in ("now", "then") for v in items[column].dropna()]
    domain = [min(round(min(values) - 0.08, 2), 0.9), max(round(max(values) + 0.06, 2), 1.06)]
    scale = plain.scale(domain=domain, nice=False)
    x = alt.X("now:Q", title="share of the norm", scale=scale, axis=ground.percent(tickCount=5))
    earlier = alt.X("then:Q", scale=scale)
    base = chart(items).encode(y=y, tooltip=alt.Tooltip(READING))
    norm = chart([{"norm": 1, "reading": "the norm"}]).mark_rule(
        color=palette.goal, strokeDash=[10, 5], strokeWidth=1.5
    )
    both = chart(items.dropna(subset=["then"])).encode(y=y, tooltip=alt.Tooltip(READING))
    move = both.mark_rule(color=palette.muted, strokeWidth=1.5, yOffset=9).encode(
        x=earlier, x2=alt.X2("now:Q")
    )
    then = both.mark_point(
        shape=ground.DOT,
        size=80,
        stroke=palette.muted,
        fill=palette.ground,
        strokeWidth=1.6,
        yOffset=9,
        opacity=1,
    ).encode(x=earlier)
    now = base.mark_point(
        shape=ground.DOT, size=95, filled=True, color=palette.series[0], yOffset=9, opacity=1
    )
    return ground.finish(
        [
            norm.encode(x=alt.X("norm:Q", scale=scale)),
            move,
            then,
            now.encode(x=x),
            *ground.labels(items, y, "row", palette),
        ],
        height=ground.ROW * len(names),
        palette=palette,
    )


def heavier(figure: Figure, palette: Palette) -> Drawn:
    """An angle against the load; needs points (side, weight, angle) and ends (the same with low, high)."""
    points, ends = figure.data["points"], figure.data["ends"]
    options: dict[str, Any] = figure.options
    sides = tuple(str(s) for s in options["sides"])
    loads = [float(v) for v in points["weight"]] + (
        [float(options["goal"])] if options["goal"] is not None else []
    )
    room = max(0.05 * (max(loads) - min(loads)), 1.0)
    scale = plain.scale(domain=[round(min(loads) - room, 1), round(max(loads) + room, 1)], nice=False)
    x = alt.X(
        "weight:Q",
        title=f"load, {options['unit']}",
        scale=scale,
        axis=plain.axis(grid=False, tickCount=alt.ExprRef(f"width < {ground.NARROW} ? 4 : 8")),
    )
    y = alt.Y("angle:Q", title="degrees", scale=plain.scale(zero=False), axis=ground.upright(tickCount=5))
    colour = ground.colours(sides, palette.series, field="side")
    base = chart(points).encode(x=x, y=y, color=colour, tooltip=alt.Tooltip(READING))
    layers: list[Drawn] = []
    if options["goal"] is not None:
        at = chart([{"weight": options["goal"], "reading": f"goal {options['goal_label']}"}])
        rule = at.mark_rule(color=palette.goal, strokeDash=[10, 5], strokeWidth=1.5)
        words = at.mark_text(align="right", dx=-5, baseline="top", color=palette.goal)
        layers += [
            rule.encode(x=alt.X("weight:Q", scale=scale), tooltip=alt.Tooltip(READING)),
            words.encode(x=alt.X("weight:Q", scale=scale), y=ground.at_y(2), text=alt.Text(READING)),
        ]
    layers += [base.mark_line(strokeWidth=1.5, opacity=0.7), base.mark_point(filled=True, size=60, opacity=1)]
    if len(ends):
        end = chart(ends).encode(x=alt.X("weight:Q", scale=scale), color=colour, tooltip=alt.Tooltip(READING))
        layers.append(end.mark_rule(strokeWidth=6, opacity=0.3).encode(y=alt.Y("low:Q"), y2=alt.Y2("high:Q")))
        layers.append(
            end.mark_point(size=70, strokeWidth=1.8, fill=palette.ground, opacity=1).encode(
                y=alt.Y("angle:Q")
            )
        )
    return ground.finish(layers, height=200, palette=palette)


def technique(figure: Figure, palette: Palette) -> Drawn:
    """Every grade over time; needs grades (date, checkpoint, mark)."""
    grades = figure.data["grades"]
    names = tuple(str(c) for c in figure.options["checkpoints"])  # type: ignore[attr-defined]
    y = ground.rows("checkpoint", names)
    x = ground.calendar("date", figure.options["first"], figure.options["last"])
    kinds = tuple(k for k in ("good", "drifting", "off") if (grades["mark"] == k).any())
    lines = chart(ground.named(names, "checkpoint")).mark_rule(color=palette.grid, yOffset=8).encode(y=y)
    spots = chart(grades).mark_point(size=80, strokeWidth=1.6, yOffset=8, opacity=1)
    spots = spots.encode(x=x, y=y, **ground.symbols(kinds, palette))
    label = ground.labels(ground.named(names, "checkpoint"), y, "checkpoint", palette)
    return ground.finish([lines, spots, *label], height=34 * len(names), palette=palette)


def upkeep(figure: Figure, palette: Palette) -> Drawn:
    """Minutes a week now and at most; needs areas (row, now, peak)."""
    areas = figure.data["areas"]
    names = tuple(areas["row"])
    y = ground.rows("row", names)
    x = alt.X("now:Q", title="minutes a week", axis=plain.axis(tickCount=5))
    base = chart(areas).encode(y=y, tooltip=alt.Tooltip(READING))
    bars = base.mark_bar(height=12, yOffset=9, color=palette.series[0], cornerRadiusEnd=2).encode(x=x)
    peaks = base.mark_tick(thickness=2.5, height=18, yOffset=9, color=palette.ink).encode(x=alt.X("peak:Q"))
    return ground.finish(
        [bars, peaks, *ground.labels(areas, y, "row", palette)],
        height=40 * len(names),
        palette=palette,
    )
