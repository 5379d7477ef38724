"""Charts of what carries the goal: ranges in kilograms of the goal lift, and the strip of the goal weight."""

from typing import Any

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.palette import Palette
from reportgen.charts.plain import Plain
from reportgen.charts.rows import chart
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"


def _names(figure: Figure, option: str) -> tuple[str, ...]:
    found: Any = figure.options[option]
    return tuple(str(name) for name in found)


def _scale(domain: tuple[float, float]) -> Plain:
    return plain.scale(domain=list(domain), nice=False, zero=False)


def _upright(
    value: float, words: str, domain: tuple[float, float], line: int, colour: str, dash: list[int]
) -> list[alt.Chart]:
    """An upright line with its label in a line of its own above the rows."""
    middle = (value - domain[0]) / (domain[1] - domain[0])
    right = middle > 0.5
    at = chart([{"weight": value, "reading": words}])
    x = alt.X("weight:Q", scale=_scale(domain))
    rule = at.mark_rule(color=colour, strokeDash=dash, strokeWidth=1.8)
    label = at.mark_text(
        align="right" if right else "left", dx=-5 if right else 5, baseline="top", color=colour
    )
    return [
        rule.encode(x=x, tooltip=alt.Tooltip(READING)),
        label.encode(x=x, y=ground.at_y(-34 + 16 * line), text=alt.Text(READING)),
    ]


def enough_for(figure: Figure, palette: Palette) -> Drawn:
    """One bar a lift; needs ranges (lift, label, low, high, up, down, taken)."""
    ranges = figure.data["ranges"]
    names = _names(figure, "labels")
    options: dict[str, Any] = figure.options
    unit = options["unit"]
    ends = [float(v) for column in ("low", "high") for v in ranges[column].dropna()]
    ends += [float(options[k]) for k in ("present", "goal") if options[k] is not None]
    room = max(0.08 * (max(ends) - min(ends)), 2.0)
    domain = (round(min(ends) - room, 1), round(max(ends) + room * 1.6, 1))
    x = alt.X(
        "low:Q",
        title=f"enough for so many {unit} of the goal lift",
        scale=_scale(domain),
        axis=plain.axis(tickCount=alt.ExprRef(f"width < {ground.NARROW} ? 4 : 8"), orient="bottom"),
    )
    y = ground.rows("label", names)
    shades = plain.scale(domain=[True, False], range=[palette.series[0], palette.steps[2]])
    colour = alt.Color("taken:N", scale=shades, legend=None)
    base = chart(ranges).encode(y=y, color=colour, tooltip=alt.Tooltip(READING))
    untested = ranges.loc[ranges["low"].isna() & ranges["high"].isna()]
    layers: list[Drawn] = []
    if len(untested):
        empty = chart(untested).mark_bar(
            height=14, yOffset=9, color=palette.gap, stroke=palette.muted, strokeDash=[2, 3], strokeWidth=0.8
        )
        layers.append(
            empty.encode(x=ground.at_x(0), x2=ground.at_x2("width"), y=y, tooltip=alt.Tooltip(READING))
        )
    bars = base.mark_bar(height=14, yOffset=9, cornerRadius=2).encode(x=x, x2=alt.X2("high:Q"))
    arrows = base.mark_point(shape=ground.ARROW, size=160, filled=True, opacity=1, yOffset=9).encode(
        x=alt.X("up:Q", scale=_scale(domain))
    )
    less = base.mark_point(shape=ground.LESS, size=160, filled=True, opacity=1, yOffset=9).encode(
        x=alt.X("down:Q", scale=_scale(domain))
    )
    lines: list[Drawn] = []
    if options["present"] is not None:
        lines += _upright(
            float(options["present"]), f"present {options['present_label']}", domain, 0, palette.ink, [1, 0]
        )
    if options["goal"] is not None:
        lines += _upright(
            float(options["goal"]), f"goal {options['goal_label']}", domain, 1, palette.goal, [10, 5]
        )
    layers += [*lines, bars, arrows, less, *ground.labels(ranges, y, "label", palette)]
    return ground.finish(layers, height=ground.ROW * len(names), palette=palette)


def goal_weight(figure: Figure, palette: Palette) -> Drawn:
    """One row a way of handling the goal weight; needs marks (date, part, mark)."""
    strip = figure.data["marks"]
    parts = _names(figure, "parts")
    x = ground.calendar("date", figure.options["first"], figure.options["last"])
    y = ground.rows("part", parts)
    kinds = tuple(k for k in ("made", "missed") if len(strip) and (strip["mark"] == k).any())
    lines = chart(ground.named(parts, "part")).mark_rule(color=palette.grid, yOffset=9).encode(y=y)
    layers: list[Drawn] = [lines]
    if kinds:
        # A row of dots would hide its few crosses: those lie a little under the line.
        for kind, below in (("made", 9), ("missed", 18)):
            spots = chart(strip.loc[strip["mark"] == kind]).mark_point(
                size=34, strokeWidth=1.6, yOffset=below, opacity=1
            )
            if kind in kinds:
                layers.append(spots.encode(x=x, y=y, **ground.symbols(kinds, palette)))
    layers.extend(ground.labels(ground.named(parts, "part"), y, "part", palette))
    return ground.finish(layers, height=ground.ROW * len(parts), palette=palette)
