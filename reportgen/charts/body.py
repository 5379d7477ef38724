"""Charts of the lifter's positions and technique."""

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import Calendar, CalendarRows, Levels
from reportgen.view.page import Figure

#: What the readings of a row have room for.
_READINGS_PX = 31


def positions_over_time(figure: Figure, palette: Palette) -> Drawn:
    """Readings over time, a row a position; needs points, bands, work, names of `view.screened`."""
    points, bands, work = figure.data["points"], figure.data["bands"], figure.data["work"]
    names, options = figure.data["names"], figure.given(Calendar)
    x, tall = ground.calendar("date", options), float(names["bottom"].max())
    scale = plain.scale(domain=[tall, 0], nice=False, zero=False)

    def up(field: str) -> alt.Y:
        return alt.Y(f"{field}:Q", axis=None, scale=scale)

    layers: list[Drawn] = []
    if len(bands):
        healthy = chart(bands).encode(tooltip=TIP)
        layers += [
            healthy.mark_rect(color=palette.steps[0]).encode(y=up("low"), y2=alt.Y2("high:Q")),
            healthy.mark_rule(color=palette.muted, strokeDash=[1, 3]).encode(y=up("mean")),
        ]
    if len(work):
        done = chart(work).mark_rect(color=palette.steps[2], clip=True).encode(tooltip=TIP)
        layers.append(
            done.encode(
                x=ground.calendar("start", options), x2=alt.X2("end:T"), y=up("y"), y2=alt.Y2("base:Q")
            )
        )
    line = chart(points).mark_line(strokeWidth=1.6, color=palette.series[0])
    kinds = ground.kinds_of(points, ground.mark_names("left", "right", "fell"))
    kinds |= ground.mark_names("healthy") if len(bands) else {}
    layers += [
        line.encode(x=x, y=up("y"), detail="line:N"),
        ground.spots(points, kinds, palette, 70).encode(x=x, y=up("y")),
    ]
    labels = chart(names).mark_text(align="left", baseline="middle", color=palette.ink)
    layers.append(labels.encode(x=ground.at_x(0), y=up("y"), text=alt.Text("label:N")))
    return ground.finish(layers, height=round(_READINGS_PX * tall), palette=palette)


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
