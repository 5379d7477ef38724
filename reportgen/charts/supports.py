"""Charts of what carries the goal: ranges in kilograms of the goal lift, and the strip of the goal weight."""

from typing import Any

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.plain import Plain
from reportgen.charts.rows import chart
from reportgen.view.options import CalendarRows, Level, Levels
from reportgen.view.page import Figure


def _upright(level: Level, scale: Plain, line: int, colour: str, dash: list[int]) -> list[alt.Chart]:
    """An upright line with its label in a line of its own above the rows."""
    low, high = scale["domain"]
    right = (level.at - low) / (high - low) > 0.5
    at = chart([{"weight": level.at, "reading": level.label}]).encode(x=alt.X("weight:Q", scale=scale))
    rule = at.mark_rule(color=colour, strokeDash=dash, strokeWidth=1.8)
    label = at.mark_text(
        align="right" if right else "left", dx=-5 if right else 5, baseline="top", color=colour
    )
    return [
        rule.encode(tooltip=TIP),
        label.encode(y=ground.at_y(-34 + 16 * line), text=alt.Text("reading:N")),
    ]


def enough_for(figure: Figure, palette: Palette) -> Drawn:
    """One bar a lift; needs ranges (lift, label, low, high, up, down, taken)."""
    ranges = figure.data["ranges"]
    options = figure.given(Levels)
    lines = [
        (level, line, colour, dash)
        for line, (level, colour, dash) in enumerate(
            ((options.present, palette.ink, [1, 0]), (options.goal, palette.goal, ground.GOAL_DASH))
        )
        if level is not None
    ]
    ends = [float(v) for column in ("low", "high") for v in ranges[column].dropna()]
    ends += [level.at for level, *_ in lines]
    room = max(0.08 * (max(ends) - min(ends)), 2.0)
    domain = [round(min(ends) - room, 1), round(max(ends) + room * 1.6, 1)]
    scale = plain.scale(domain=domain, nice=False, zero=False)
    x = alt.X(
        "low:Q",
        title=ground.titled("enough_for", unit=options.unit),
        scale=scale,
        axis=plain.axis(tickCount=ground.ticks(8), orient="bottom"),
    )
    y = ground.beside("label", tuple(ranges["label"]))
    layers: list[Drawn] = []
    untested = ranges.loc[ranges["form"] == "untested"]
    if len(untested):
        empty = chart(untested).mark_bar(
            height=14, color=palette.gap, stroke=palette.muted, strokeDash=[2, 3], strokeWidth=0.8
        )
        layers.append(empty.encode(x=ground.at_x(0), x2=ground.at_x2("width"), y=y, tooltip=TIP))
    for level in lines:
        layers += _upright(level[0], scale, *level[1:])
    # Told apart by form: filled is enough, hollow is short, a dotted edge was not taken to a limit.
    forms: dict[str, dict[str, Any]] = {
        "enough": {"color": palette.series[0]},
        "short": {"color": palette.ground, "stroke": palette.missed, "strokeWidth": 2.5},
        "open": {
            "color": palette.ground,
            "stroke": palette.series[0],
            "strokeWidth": 1.5,
            "strokeDash": [2, 2],
        },
    }
    for form, look in forms.items():
        mine = ranges.loc[ranges["form"] == form]
        if mine.empty:
            continue
        base = chart(mine).encode(y=y, tooltip=TIP)
        layers.append(base.mark_bar(height=14, **look).encode(x=x, x2=alt.X2("high:Q")))
        filled = look.get("stroke", look["color"])
        for column, shape in (("up", ground.ARROW), ("down", ground.LESS)):
            arrow = base.mark_point(shape=shape, size=160, filled=True, opacity=1, color=filled)
            layers.append(arrow.encode(x=alt.X(f"{column}:Q", scale=scale)))
    return ground.finish(layers, height=38 * len(ranges), palette=palette)


def goal_weight(figure: Figure, palette: Palette) -> Drawn:
    """One row a way of handling the goal weight; needs marks (date, part, mark)."""
    strip = figure.data["marks"]
    options = figure.given(CalendarRows)
    rows = ground.named(options.rows, "part")
    x, y = ground.calendar("date", options), ground.rows("part", options.rows)
    kinds = ground.kinds_of(strip, ground.mark_names("made", "missed"))
    layers: list[Drawn] = [chart(rows).mark_rule(color=palette.grid, yOffset=9).encode(y=y)]
    for kind in kinds:
        # A row of dots would hide its few crosses: those lie a little under the line.
        mine = strip.loc[strip["mark"] == kind]
        below = 9 if kind == "made" else 18
        layers.append(ground.spots(mine, kinds, palette, 34, yOffset=below).encode(x=x, y=y))
    return ground.in_rows(layers, rows, y, palette, field="part")
