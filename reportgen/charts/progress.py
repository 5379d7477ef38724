"""Charts of where the lift stands: running best, body mass, bests by month, what of the squat shows."""

import datetime as dt
from collections.abc import Iterable

import altair as alt
import pandas as pd

from reportgen.charts import ground, plain
from reportgen.charts.ground import TIP, Drawn
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.options import Calendar, CalendarWeights, InUnit, Level, RunningBest
from reportgen.view.page import Figure, Picture
from reportgen.words import text

#: Height of the picture of the best, where its test days stand, the plot's width on a phone, a name's width.
_PX, _TESTS, _PHONE_PX, _NAME_PX = 240, 232, 290, 88


def _domain(values: Iterable[float], part: float = 0.12) -> tuple[float, float]:
    """From under the lowest to over the highest, by a part of their distance or of the highest."""
    known = [float(value) for value in values]
    low, high = min(known), max(known)
    room = max((high - low) * part, high * 0.02, 0.5)
    return (round(low - room, 1), round(high + room, 1))


def _values(*columns: pd.Series) -> list[float]:
    return [float(v) for column in columns for v in column.dropna()]


def running_best(figure: Figure, palette: Palette) -> Drawn:
    """A line that steps up beside what an ordinary day makes.

    Needs best (date, lift, weight), attempts (the same with mark), tests (date), ability (date, lift, weight,
    low, high), arrival (start, end, weight), goal (date, weight) where it moves.
    """
    best, attempts, tests = figure.data["best"], figure.data["attempts"], figure.data["tests"]
    able, options = figure.data["ability"], figure.given(RunningBest)
    goal, moving = [] if options.goal is None else [options.goal.at], figure.data["goal"]
    weights = (best["weight"], attempts["weight"], able["low"], able["high"], moving["weight"])
    domain = _domain(_values(*weights) + goal)
    x = ground.calendar("date", options)
    y = ground.amount("weight", options.unit, domain)
    line = chart(best).mark_line(interpolate="step-after", strokeWidth=2.5, color=palette.series[0])
    line = line.encode(x=x, y=y, tooltip=TIP)
    names = tuple(dict.fromkeys(best["lift"]))
    if len(names) > 1:
        line = line.encode(color=ground.colours(names, palette.series, field="lift"))
    spots = chart(best).mark_point(size=30, opacity=0).encode(x=x, y=y, tooltip=TIP)
    kinds = ground.kinds_of(attempts, ground.mark_names("made", "missed"))
    kinds |= ground.mark_names("test") if len(tests) else {}
    layers: list[Drawn] = [
        *_ordinary(figure, x, y, domain, palette),
        *(
            _moving(moving, options.goal, x, y, palette)
            if len(moving)
            else ground.goal_line(options.goal, palette, domain)
        ),
        line,
        spots,
    ]
    if len(attempts):
        layers.append(ground.spots(attempts, kinds, palette, 60, strokeWidth=1.8).encode(x=x, y=y))
    if len(figure.data["arrival"]):
        reach = chart(figure.data["arrival"]).mark_bar(
            orient="horizontal", size=9, opacity=0.45, color=palette.goal
        )
        start = ground.calendar("start", options)
        layers.append(reach.encode(x=start, x2=alt.X2("end:T"), y=y, tooltip=TIP))
        named = chart(figure.data["arrival"].assign(label=text("charts.arrival"))).mark_text(
            align="right", baseline="top", dy=7, color=palette.goal
        )
        end = ground.calendar("end", options)
        layers.append(named.encode(x=end, y=y, text=alt.Text("label:N")))
    if len(tests):
        marked = ground.spots(tests.assign(mark="test"), kinds, palette, 90)
        layers.append(marked.encode(x=x, y=ground.at_y(_TESTS)))
    return ground.finish(layers, height=_PX, palette=palette)


def _moving(goal: pd.DataFrame, level: Level | None, x: alt.X, y: alt.Y, palette: Palette) -> list[alt.Chart]:
    """A goal that goes with body mass, its label over where it begins."""
    base = chart(goal).encode(x=x, y=y)
    line = base.mark_line(color=palette.goal, strokeDash=ground.GOAL_DASH, strokeWidth=1.5)
    spots = base.mark_point(size=30, opacity=0).encode(tooltip=TIP)
    named = (
        goal.loc[goal["weight"] == goal["weight"].max()].head(1).assign(label=level.label if level else "")
    )
    words = chart(named).mark_text(align="left", baseline="bottom", dy=-5, color=palette.goal)
    return [line, spots, words.encode(x=x, y=y, text=alt.Text("label:N"))]


def _ordinary(
    figure: Figure, x: alt.X, y: alt.Y, domain: tuple[float, float], palette: Palette
) -> list[alt.Chart]:
    """What goes up every other time as a line in the band of its range, named where nothing else stands."""
    able = figure.data["ability"]
    if able.empty:
        return []
    # Of no lift of a total, and of no taper's band.
    unit, colour = figure.given(RunningBest).unit, palette.series[2]
    low = ground.amount("low", unit, domain)
    base = chart(able).encode(x=x, detail="lift:N")
    band = base.mark_area(color=colour, opacity=0.2).encode(y=low, y2=alt.Y2("high:Q"))
    middle = base.mark_line(strokeWidth=1.5, color=colour).encode(y=y)
    spots = base.mark_point(size=30, opacity=0).encode(y=y, tooltip=TIP)
    words: list[alt.Chart] = []
    for _, mine in able.groupby("lift", sort=False):
        row, above = _room(mine, figure, domain)
        named = chart(mine.iloc[[row]].assign(label=text("charts.ordinary"))).mark_text(
            align="left", baseline="bottom" if above else "top", dy=-4 if above else 4, color=palette.ink
        )
        edge = ground.amount("high", unit, domain) if above else low
        words.append(named.encode(x=x, y=edge, text=alt.Text("label:N")))
    return [band, middle, spots, *words]


def _room(able: pd.DataFrame, figure: Picture, domain: tuple[float, float]) -> tuple[int, bool]:
    """The row of the band where its name touches nothing on a phone, and if above; else the first, below."""
    options, data = figure.given(RunningBest), figure.data
    first, days = pd.Timestamp(options.first), (options.last - options.first).days or 1

    def across(day: object) -> float:
        return (pd.Timestamp(str(day)) - first).days / days * _PHONE_PX

    def down(weight: float) -> float:
        return (domain[1] - weight) / (domain[1] - domain[0]) * _PX

    taken: list[tuple[float, float, float, float]] = []
    for day, weight in zip(data["attempts"]["date"], data["attempts"]["weight"], strict=True):
        taken.append((across(day), across(day), down(weight), down(weight)))
    for table in (*(one for _, one in data["best"].groupby("lift")), able):
        ends = [
            (across(day), down(weight)) for day, weight in zip(table["date"], table["weight"], strict=True)
        ]
        for (x, y), (further, then) in zip(ends, [*ends[1:], (_PHONE_PX, ends[-1][1])], strict=True):
            taken += [(x, further, y, y), (further, further, min(y, then), max(y, then))]
    for above in (False, True):
        for row, day in enumerate(able["date"]):
            left, edge = across(day), down(able["high" if above else "low"].iloc[row])
            top, bottom = (edge - 18, edge - 4) if above else (edge + 4, edge + 18)
            inside = left + _NAME_PX <= _PHONE_PX and top >= 0 and bottom <= _TESTS - 8
            if inside and not any(
                x0 < left + _NAME_PX + 5 and x1 > left - 5 and y0 < bottom + 5 and y1 > top - 5
                for x0, x1, y0, y1 in taken
            ):
                return row, above
    return 0, False


def body_mass(figure: Figure, palette: Palette) -> Drawn:
    """Body mass, or what a goal set by it asks for; needs body (date, weight)."""
    body, options = figure.data["body"], figure.given(CalendarWeights)
    y = ground.amount("weight", options.unit, _domain(_values(body["weight"])))
    mass = chart(body).encode(x=ground.calendar("date", options), y=y)
    spots = mass.mark_point(filled=True, size=14, opacity=0.75, color=palette.series[1]).encode(tooltip=TIP)
    line = mass.mark_line(strokeWidth=1.2, opacity=0.6, color=palette.series[1])
    return ground.finish([line, spots], height=130, palette=palette)


def _by_month(table: pd.DataFrame, around: dt.timedelta = dt.timedelta()) -> alt.X:
    """The calendar from the first row's day to the last one's."""
    days = table["date"].dt.date
    return ground.calendar("date", Calendar(first=days.min() - around, last=days.max() + around))


def expressed(figure: Figure, palette: Palette) -> Drawn:
    """How much of the squat reaches the bar, by month; needs months (date, share)."""
    months = figure.data["months"]
    low, high = _domain(months["share"] * 100)
    y = alt.Y(
        "share:Q",
        title=ground.titled("share_of_squat"),
        scale=plain.scale(domain=[round(low / 100, 3), round(high / 100, 3)], nice=False),
        axis=ground.upright(beside=37, format="%", labelExpr=ground.PERCENT, tickCount=5),
    )
    base = chart(months).encode(x=_by_month(months), y=y, tooltip=TIP)
    line = base.mark_line(strokeWidth=2, color=palette.series[0])
    spots = base.mark_point(filled=True, size=45, color=palette.series[0], opacity=1)
    return ground.finish([line, spots], height=180, palette=palette)


def month_bests(figure: Figure, palette: Palette) -> Drawn:
    """A dot a month, joined by lift; needs bests (date, lift, weight)."""
    bests = figure.data["bests"]
    y = ground.amount("weight", figure.given(InUnit).unit, _domain(bests["weight"], part=0.1))
    colour = ground.colours(tuple(dict.fromkeys(bests["lift"])), palette.series, field="lift")
    base = chart(bests).encode(x=_by_month(bests, dt.timedelta(days=16)), y=y, color=colour, tooltip=TIP)
    layers = [base.mark_line(strokeWidth=1.5, opacity=0.7), base.mark_point(filled=True, size=70, opacity=1)]
    return ground.finish(layers, height=200, palette=palette)
