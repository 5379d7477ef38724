"""Charts over weeks: training, the spread of load, planned against done."""

from itertools import pairwise
from typing import Any

import altair as alt
import pandas as pd

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import CalendarRows, CalendarWeights
from reportgen.view.page import Figure
from reportgen.words import text

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


#: Strips of training in pixels from above: its words, and where its bars begin and end.
_SESSIONS, _LOADS, _TRIES = (6, 18, 76), (96, 108, 208), (228, 244, 280)
#: Across, where each word beside a strip's name begins, and places of the three kinds of tries.
_KEYS, _KINDS = (84, 150, 244), {"made": 244, "missed": 256, "test": 270}


def training(figure: Figure, palette: Palette) -> Drawn:
    """Three strips over one calendar.

    Needs sessions and loads (start, end, kind, low, high), tries (date, mark), gaps, tapers and chases.
    """
    data, options = figure.data, figure.given(CalendarWeights)
    x = ground.calendar("start", options)
    first, steps = palette.series[0], palette.steps
    both = {
        "sessions": (_SESSIONS, ground.mark_names("full", "derivative"), (first, steps[2])),
        "loads": (
            _LOADS,
            {kind: text(f"charts.load.{kind}") for kind in ("classic", "strength", "other")},
            (first, steps[2], steps[1]),
        ),
    }
    inks = {
        kind: ink for _, kinds, colours in both.values() for kind, ink in zip(kinds, colours, strict=True)
    }
    heights: list[tuple[float, str]] = []
    layers: list[Drawn] = [
        *_between(_grounds(data["gaps"], x, palette), _SESSIONS[1], _TRIES[2]),
        *_between(_spans(data["tapers"], x, color=palette.taper), _LOADS[1], _TRIES[2]),
        *_between(_spans(data["chases"], x, color=palette.missed), _TRIES[2] - 4, _TRIES[2]),
        *_cleared(palette),
    ]
    for name, (place, *_) in both.items():
        if data[name].empty:
            continue
        top, ticks = _rounded(float(data[name]["high"].max()), LEAST if name == "sessions" else 0)
        heights += [(place[2] - (place[2] - place[1]) * at / top, f"{at:g}") for at in ticks]
        layers += _stacks(data[name], top, place, inks, x, palette)
    unit = text(f"load.unit.{options.unit}")
    layers += _keys(both, {"sessions": ground.titled("sessions"), "loads": unit}, palette)
    layers += _near(data["tries"], options, palette)
    up = _heights(heights)
    layers.append(chart([{"y": _SESSIONS[2]}]).mark_point(opacity=0).encode(y=up))
    return ground.finish(layers, height=_TRIES[2], palette=palette)


def _between(drawn: list[alt.Chart], top: float, bottom: float) -> list[alt.Chart]:
    return [one.encode(y=ground.at_y(top), y2=ground.at_y2(bottom)) for one in drawn]


def _cleared(palette: Palette) -> list[alt.Chart]:
    """The lines of words, free of the grounds that lie under their strips."""
    clear = chart([{}]).mark_rect(color=palette.ground).encode(x=ground.at_x(0), x2=ground.at_x2("width"))
    return [
        clear.encode(y=ground.at_y(above + 1), y2=ground.at_y2(words + 10))
        for (_, _, above), (words, _, _) in pairwise((_SESSIONS, _LOADS, _TRIES))
    ]


def _rounded(most: float, least: float) -> tuple[float, list[float]]:
    """An end of the axis and where it is written."""
    step = next(step for step in (1, 2, 5, 10, 20, 50, 100) if most / step <= 2.5)
    top = max(most, least)
    return top, [step * n for n in range(int(top // step) + 1)]


def _stacks(
    bars: pd.DataFrame,
    top: float,
    place: tuple[float, float, float],
    colours: dict[str, str],
    x: alt.X,
    palette: Palette,
) -> list[alt.Chart]:
    """Bars of one strip, a colour a kind."""
    _, above, base = place
    scaled = bars.assign(
        y=(base - (base - above) * bars["low"] / top).round(1),
        y2=(base - (base - above) * bars["high"] / top).round(1),
    ).drop(columns=["low", "high"])
    colour = alt.Color(
        "kind:N", scale=plain.scale(domain=list(colours), range=list(colours.values())), legend=None
    )
    return [
        one.encode(y=alt.Y("y:Q"), y2=alt.Y2("y2:Q"), color=colour)
        for one in _spans(scaled, x, stroke=palette.muted, strokeWidth=0.5)
    ]


def _heights(heights: list[tuple[float, str]]) -> alt.Y:
    """Pixels from above, written as what they stand for."""
    words = " : ".join(f"abs(datum.value - {at:g}) < .01 ? '{word}'" for at, word in heights)
    return alt.Y(
        "y:Q",
        title=None,
        scale=plain.scale(domain=[_TRIES[2], 0], nice=False, zero=False),
        axis=ground.upright(values=[at for at, _ in heights], labelExpr=f"{words or 'true ? 0'} : ''"),
    )


def _keys(strips: dict[str, Any], names: dict[str, str], palette: Palette) -> list[alt.Chart]:
    """Beside each strip's name what its colours mean."""
    colours: dict[str, str] = {}
    said: list[dict[str, object]] = [{"x": 0, "y": _TRIES[0], "label": ground.titled("near")}]
    for name, (place, kinds, inks) in strips.items():
        said.append({"x": 0, "y": place[0], "label": names[name]})
        for at, (word, ink) in zip(_KEYS, zip(kinds.values(), inks, strict=True), strict=False):
            colours[word] = ink
            said.append({"x": at, "y": place[0], "label": word})
    words, squares = [], []
    for row in said:
        x, y = float(str(row["x"])), ground.at_y(float(str(row["y"])))
        word = chart([row]).mark_text(align="left", baseline="middle", color=palette.ink)
        words.append(word.encode(x=ground.at_x(x), y=y, text=alt.Text("label:N")))
        if ink := colours.get(str(row["label"])):
            square = chart([row]).mark_point(shape=ground.BLOCK, size=60, filled=True, color=ink, opacity=1)
            squares.append(square.encode(x=ground.at_x(x - 9), y=y))
    return words + squares


def _near(tries: pd.DataFrame, days: CalendarWeights, palette: Palette) -> list[alt.Chart]:
    """What was tried near the limit, a line a kind."""
    kinds = ground.kinds_of(tries, ground.mark_names("made", "missed", "test"))
    return [
        ground.spots(tries.loc[tries["mark"] == kind], kinds, palette, 36).encode(
            x=ground.calendar("date", days), y=ground.at_y(_KINDS[kind])
        )
        for kind in kinds
    ]


def load_spread(figure: Figure, palette: Palette) -> Drawn:
    """Counted repetitions by month and zone; needs bars (start, end, zone, low, high)."""
    options = figure.given(CalendarRows)
    colour = ground.colours(options.rows, palette.steps[1:], field="zone")
    x = ground.calendar("start", options)
    y = alt.Y("low:Q", title=ground.titled("repetitions"), axis=ground.upright(tickCount=5))
    bars = _spans(figure.data["bars"], x, stroke=palette.ground, strokeWidth=1)
    layers = [one.encode(y=y, y2=alt.Y2("high:Q"), color=colour) for one in bars]
    return ground.finish(layers, height=HEIGHT, palette=palette)


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
