"""Charts of where the lift stands: running best, body mass, how much of the squat reaches the bar."""

import altair as alt
import pandas as pd

from reportgen.charts import ground, plain
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"


def _domain(values: list[float], part: float = 0.06) -> tuple[float, float]:
    low, high = min(values), max(values)
    room = max((high - low) * part * 2, high * 0.02, 0.5)
    return (round(low - room, 1), round(high + room, 1))


def _values(*columns: pd.Series) -> list[float]:
    return [float(v) for column in columns for v in column.dropna()]


def running_best(figure: Figure, palette: Palette) -> Drawn:
    """A line that steps up beside what an ordinary day makes.

    Needs best (date, lift, weight), attempts (the same with mark), tests (date), ability (date, lift, weight,
    low, high), arrival (start, end, weight).
    """
    best, attempts, tests = figure.data["best"], figure.data["attempts"], figure.data["tests"]
    able = figure.data["ability"]
    options = figure.options
    names = tuple(str(lift) for lift in options["lifts"])  # type: ignore[attr-defined]
    goal = options["goal"]
    values = _values(best["weight"], attempts["weight"], able["low"], able["high"]) + (
        [float(str(goal))] if goal is not None else []
    )
    x = ground.calendar("date", options["first"], options["last"])
    domain = _domain(values)
    y = ground.amount("weight", str(options["unit"]), domain)
    line = chart(best).mark_line(interpolate="step-after", strokeWidth=2.5, color=palette.series[0])
    line = line.encode(x=x, y=y, tooltip=alt.Tooltip(READING))
    if len(names) > 1:
        line = line.encode(color=ground.colours(names, palette.series, field="lift"))
    spots = chart(best).mark_point(size=30, opacity=0).encode(x=x, y=y, tooltip=alt.Tooltip(READING))
    kinds = tuple(k for k in ("made", "missed") if len(attempts) and (attempts["mark"] == k).any())
    kinds += ("test day",) if len(tests) else ()
    layers: list[Drawn] = [
        *_ordinary(able, x, y, ground.amount("low", str(options["unit"]), domain), palette),
        *ground.goal_line(goal, options["goal_label"], palette, domain),
        line,
        spots,
    ]
    if len(attempts):
        tried = chart(attempts).mark_point(size=60, strokeWidth=1.8, opacity=1)
        layers.append(tried.encode(x=x, y=y, **ground.symbols(kinds, palette)))
    if len(figure.data["arrival"]):
        reach = chart(figure.data["arrival"]).mark_bar(
            orient="horizontal", size=9, opacity=0.45, color=palette.goal
        )
        start = ground.calendar("start", options["first"], options["last"])
        layers.append(reach.encode(x=start, x2=alt.X2("end:T"), y=y, tooltip=alt.Tooltip(READING)))
    if len(tests):
        marked = chart(tests.assign(mark="test day")).mark_point(size=90, strokeWidth=1.6, opacity=1)
        layers.append(marked.encode(x=x, y=ground.at_y(232), **ground.symbols(kinds, palette)))
    return ground.finish(layers, height=240, palette=palette)


def _ordinary(able: pd.DataFrame, x: alt.X, y: alt.Y, low: alt.Y, palette: Palette) -> list[alt.Chart]:
    """What goes up every other time as a line in the band of its range, named where it begins."""
    if able.empty:
        return []
    colour = palette.series[1]
    base = chart(able).encode(x=x, detail="lift:N")
    band = base.mark_area(color=colour, opacity=0.2).encode(y=low, y2=alt.Y2("high:Q"))
    middle = base.mark_line(strokeWidth=1.5, color=colour).encode(y=y)
    spots = base.mark_point(size=30, opacity=0).encode(y=y, tooltip=alt.Tooltip(READING))
    named = chart(able.groupby("lift", sort=False).head(1).assign(label="an ordinary day"))
    words = named.mark_text(align="left", baseline="top", dy=4, color=palette.ink)
    return [band, middle, spots, words.encode(x=x, y=low, text=alt.Text("label:N"))]


def body_mass(figure: Figure, palette: Palette) -> Drawn:
    """Body mass alone, or bar and body for a goal set by it; needs body (date, weight) and maybe bar."""
    body, bar = figure.data["body"], figure.data.get("bar")
    options = figure.options
    frames = [body] if bar is None else [body, bar]
    first = min(frame["date"].min() for frame in frames).date().isoformat()
    x = ground.calendar("date", first, options["last"])
    y = ground.amount("weight", str(options["unit"]), _domain(_values(*(f["weight"] for f in frames))))
    names: tuple[str, ...] = (
        (str(options["what"]),) if bar is None else (str(options["what"]), f"best {options['lift']}")
    )
    colour = ground.colours(names, (palette.series[1], palette.series[0]))
    mass = chart(body.assign(kind=names[0]))
    spots = mass.mark_point(filled=True, size=14, opacity=0.75).encode(
        x=x, y=y, color=colour, tooltip=alt.Tooltip(READING)
    )
    layers: list[Drawn] = [mass.mark_line(strokeWidth=1.2, opacity=0.6).encode(x=x, y=y, color=colour), spots]
    if bar is not None:
        steps = chart(bar.assign(kind=names[1])).mark_line(interpolate="step-after", strokeWidth=2.5)
        layers.append(steps.encode(x=x, y=y, color=colour, tooltip=alt.Tooltip(READING)))
    return ground.finish(layers, height=200, palette=palette)


def expressed(figure: Figure, palette: Palette) -> Drawn:
    """How much of the squat reaches the bar, by month; needs months (date, share)."""
    months = figure.data["months"]
    first, last = (months["date"].agg(f).date().isoformat() for f in ("min", "max"))
    low, high = _domain(_values(months["share"] * 100))
    x = ground.calendar("date", first, last)
    y = alt.Y(
        "share:Q",
        title="share of what the squat is enough for",
        scale=plain.scale(domain=[round(low / 100, 3), round(high / 100, 3)], nice=False),
        axis=ground.upright(beside=37, format="%", labelExpr=ground.PERCENT, tickCount=5),
    )
    base = chart(months).encode(x=x, y=y, tooltip=alt.Tooltip(READING))
    line = base.mark_line(strokeWidth=2, color=palette.series[0])
    spots = base.mark_point(filled=True, size=45, color=palette.series[0], opacity=1)
    return ground.finish([line, spots], height=180, palette=palette)
