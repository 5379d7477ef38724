"""The one small picture of a finding, whatever its evidence is."""

from typing import Any, Final

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import Small
from reportgen.view.page import Picture

HEIGHT: Final = 80
#: Room for numbers and for words beside the plot.
_NUMBERS, _WORDS = 34, 62


def _across(field: str, shown: Small) -> alt.X:
    if shown.days is not None:
        return ground.calendar(field, shown.days)
    names = ",".join(f"'{name}'" for name in shown.places)
    return alt.X(
        f"{field}:Q",
        title=None,
        scale=plain.scale(domain=[-0.5, len(shown.places) - 0.5], nice=False, zero=False),
        axis=plain.axis(
            grid=False, values=list(range(len(shown.places))), labelExpr=f"[{names}][datum.value]"
        ),
    )


def _up(field: str, shown: Small) -> alt.Y:
    scale = plain.scale(domain=[shown.low, shown.high], nice=False, zero=False)
    how: dict[str, Any] = {"tickCount": 3}
    if shown.rungs:
        words = " : ".join(f"datum.value == {at} ? '{word}'" for at, word in shown.rungs)
        how = {"values": [at for at, _ in shown.rungs], "labelExpr": f"{words} : ''"}
    elif shown.share:
        how |= {"format": "%", "labelExpr": ground.PERCENT}
    beside = _WORDS if shown.rungs else _NUMBERS
    return alt.Y(
        f"{field}:Q",
        title=None,
        scale=scale,
        axis=plain.axis(domain=False, ticks=False, minExtent=beside, maxExtent=beside, **how),
    )


def small(figure: Picture, palette: Palette) -> Drawn:
    """Any of: bands (low, high, label), bars (start, end, y), levels (y, label), events (x, label), points.

    Points have x, y, line, mark, low, high, label; those of one line are joined, an empty line joins nothing.
    """
    shown, data = figure.given(Small), figure.data
    x, up = _across("x", shown), _up("y", shown)
    layers: list[Drawn] = []
    if "bands" in data:
        bands = chart(data["bands"]).encode(y=_up("low", shown), y2=alt.Y2("high:Q"))
        layers.append(bands.mark_rect(color=palette.steps[0]))
        named = chart(data["bands"]).mark_text(align="left", baseline="bottom", dy=-2, color=palette.muted)
        layers.append(named.encode(x=ground.at_x(3), y=_up("low", shown), text=alt.Text("label:N")))
    if "bars" in data:
        bars = chart(data["bars"]).mark_rect(
            color=palette.series[0], stroke=palette.ground, strokeWidth=0.6, clip=True
        )
        layers.append(
            bars.encode(
                x=_across("start", shown), x2=alt.X2("end:T"), y=up, y2=alt.Y2Datum(shown.low), tooltip=TIP
            )
        )
    for name, colour in (("levels", palette.goal), ("events", palette.ink)):
        if name not in data:
            continue
        base = chart(data[name]).encode(**({"y": up} if name == "levels" else {"x": x}))
        layers.append(base.mark_rule(color=colour, strokeDash=ground.GOAL_DASH, strokeWidth=1.4))
        level = name == "levels"
        words = base.mark_text(
            align="left", baseline="bottom" if level else "top", dx=0 if level else 4, dy=-3 if level else 0
        )
        place = {"x": ground.at_x(3)} if level else {"y": ground.at_y(0)}
        layers.append(words.encode(text=alt.Text("label:N"), color=alt.value(colour), **place))
    if "points" in data:
        layers += _points(data["points"], x, up, _up("low", shown), palette)
    return ground.finish(layers, height=HEIGHT, palette=palette)


def _points(points: Any, x: alt.X, y: alt.Y, low: alt.Y, palette: Palette) -> list[Drawn]:
    joined, ranged = points.loc[points["line"] != ""], points.dropna(subset="low")
    layers: list[Drawn] = []
    if len(joined):
        line = chart(joined).mark_line(strokeWidth=1.8, color=palette.series[0])
        layers.append(line.encode(x=x, y=y, detail="line:N"))
    if len(ranged):
        span = chart(ranged).mark_rule(strokeWidth=5, opacity=0.35, color=palette.made)
        layers.append(span.encode(x=x, y=low, y2=alt.Y2("high:Q")))
    for kind, mine in points.groupby("mark", sort=True):
        shape, stroke, fill = ground.marks(palette)[str(kind)]
        spots = chart(mine).mark_point(
            shape=shape, stroke=stroke, fill=fill, size=60, strokeWidth=1.6, opacity=1
        )
        layers.append(spots.encode(x=x, y=y, tooltip=TIP))
    for below in (False, True):
        said = points.loc[(points["label"] != "") & ((points["mark"] == "fell") == below)]
        if len(said):
            words = chart(said).mark_text(
                align="right",
                baseline="top" if below else "bottom",
                dx=5,
                dy=8 if below else -6,
                color=palette.ink,
            )
            layers.append(words.encode(x=x, y=y, text=alt.Text("label:N")))
    return layers
