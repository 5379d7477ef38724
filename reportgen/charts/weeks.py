"""Charts over weeks and days: sessions, load, spread, calendar, planned against done."""

from typing import Any

import altair as alt

from reportgen.charts import ground, plain
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"
KINDS = {"full": "full lift", "derivative": "derivative only", "other": "other lifting", "test": "test day"}
LOADS = {"classic": "classic lifts", "strength": "squats and pulls", "other": "everything else"}
HEIGHT = 200


def _grounds(figure: Figure, name: str, x: alt.X, palette: Palette) -> list[Drawn]:
    """Missing time as a light ground with a dotted edge."""
    gaps = figure.data[name]
    if gaps.empty:
        return []
    rect = chart(gaps).mark_rect(
        color=palette.gap, stroke=palette.muted, strokeDash=[1, 3], strokeWidth=0.8, clip=True
    )
    return [rect.encode(x=x, x2=alt.X2("end:T"), tooltip=alt.Tooltip(READING))]


def exposure_weeks(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week; needs bars (start, end, kind, low, high) and grounds (start, end, ground)."""
    bars = figure.data["bars"]
    options: dict[str, Any] = figure.options
    x = ground.calendar("start", options["first"], options["last"])
    top = int(options["top"])
    y = alt.Y(
        "low:Q",
        title="sessions",
        scale=plain.scale(domain=[0, top], nice=False),
        axis=ground.upright(values=list(range(top + 1)), format="d"),
    )
    kinds = tuple(KINDS[k] for k in ("full", "derivative") if (bars["kind"] == k).any())
    colour = ground.colours(
        kinds, (palette.series[0], palette.steps[2]) if "full lift" in kinds else palette.steps[2:]
    )
    drawn = chart(bars.assign(kind=bars["kind"].map(KINDS))).mark_rect(
        stroke=palette.ground, strokeWidth=0.8, clip=True
    )
    sessions = drawn.encode(
        x=x, x2=alt.X2("end:T"), y=y, y2=alt.Y2("high:Q"), color=colour, tooltip=alt.Tooltip(READING)
    )
    return ground.finish([*_grounds(figure, "grounds", x, palette), sessions], height=150, palette=palette)


def load_weeks(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week in three parts; needs bars (start, end, kind, low, high), gaps, tests, tapers, chases."""
    bars, tests = figure.data["bars"], figure.data["tests"]
    options: dict[str, Any] = figure.options
    x = ground.calendar("start", options["first"], options["last"])
    unit = "tonnes" if options["unit"] == "kg" else "thousand lb"
    highest = float(bars["high"].max()) if len(bars) else 1.0
    y = ground.amount("low", unit, (0.0, round(highest * 1.15, 2)))
    kinds = tuple(v for k, v in LOADS.items() if (bars["kind"] == k).any())
    colour = ground.colours(kinds, (palette.series[0], palette.series[2], palette.series[4]))
    drawn = chart(bars.assign(kind=bars["kind"].map(LOADS))).mark_rect(
        stroke=palette.ground, strokeWidth=0.6, clip=True
    )
    tip = alt.Tooltip(READING)
    layers: list[Drawn] = [*_grounds(figure, "gaps", x, palette)]
    if len(figure.data["tapers"]):
        band = chart(figure.data["tapers"]).mark_rect(color=palette.taper, clip=True)
        layers.append(band.encode(x=x, x2=alt.X2("end:T"), tooltip=tip))
    layers.append(drawn.encode(x=x, x2=alt.X2("end:T"), y=y, y2=alt.Y2("high:Q"), color=colour, tooltip=tip))
    if len(figure.data["chases"]):
        strip = chart(figure.data["chases"]).mark_rect(color=palette.missed, clip=True)
        layers.append(
            strip.encode(x=x, x2=alt.X2("end:T"), y=ground.at_y(0), y2=ground.at_y2(5), tooltip=tip)
        )
    if len(tests):
        marked = chart(tests.assign(mark="test day")).mark_point(size=80, strokeWidth=1.6, opacity=1)
        x_day = ground.calendar("date", options["first"], options["last"])
        layers.append(marked.encode(x=x_day, y=ground.at_y(14), **ground.symbols(("test day",), palette)))
    return ground.finish(layers, height=HEIGHT, palette=palette)


def load_spread(figure: Figure, palette: Palette) -> Drawn:
    """Counted repetitions by month and zone; needs bars (start, end, zone, low, high)."""
    bars = figure.data["bars"]
    options: dict[str, Any] = figure.options
    x = ground.calendar("start", options["first"], options["last"])
    y = alt.Y("low:Q", title="repetitions", axis=ground.upright(tickCount=5))
    zones = tuple(str(z) for z in options["zones"])
    colour = ground.colours(zones, palette.steps[1:], field="zone")
    drawn = chart(bars).mark_rect(stroke=palette.ground, strokeWidth=1, clip=True)
    drawn = drawn.encode(
        x=x, x2=alt.X2("end:T"), y=y, y2=alt.Y2("high:Q"), color=colour, tooltip=alt.Tooltip(READING)
    )
    return ground.finish([drawn], height=HEIGHT, palette=palette)


def calendar(figure: Figure, palette: Palette) -> Drawn:
    """One mark a training day; needs days (week, weekday, kind) and away (week, weekday)."""
    days, away = figure.data["days"], figure.data["away"]
    options: dict[str, Any] = figure.options
    x = ground.calendar("week", options["before"], options["last"])
    y = alt.Y(
        "weekday:O",
        title=None,
        scale=plain.scale(domain=list(range(7))),
        axis=plain.axis(
            labelExpr="['Mon','Tue','Wed','Thu','Fri','Sat','Sun'][datum.value]",
            ticks=False,
            domain=False,
            minExtent=ground.BESIDE,
            grid=True,
            gridDash=[1, 4],
        ),
    )
    layers: list[Drawn] = []
    if len(away):
        cells = chart(away).mark_square(size=150, color=palette.gap, opacity=1)
        layers.append(cells.encode(x=x, y=y, tooltip=alt.Tooltip(READING)))
    kinds = tuple(v for k, v in KINDS.items() if (days["kind"] == k).any())
    spots = chart(days.assign(mark=days["kind"].map(KINDS))).mark_point(size=75, strokeWidth=1.6, opacity=1)
    layers.append(spots.encode(x=x, y=y, **ground.symbols(kinds, palette)))
    return ground.finish(layers, height=7 * 20, palette=palette)


def planned_done(figure: Figure, palette: Palette) -> Drawn:
    """A bar for the sets done and a line at the sets planned; needs weeks (week, planned, done)."""
    weeks = figure.data["weeks"]
    names = tuple(str(w) for w in figure.options["weeks"])  # type: ignore[attr-defined]
    y = alt.Y(
        "week:N", sort=list(names), title=None, axis=plain.axis(ticks=False, domain=False, minExtent=56)
    )
    x = alt.X("done:Q", title="sets", axis=plain.axis(tickCount=5))
    base = chart(weeks).encode(y=y, tooltip=alt.Tooltip(READING))
    bars = base.mark_bar(height=12, color=palette.series[0]).encode(x=x)
    lines = base.mark_tick(thickness=2.5, height=20, color=palette.ink).encode(x=alt.X("planned:Q"))
    return ground.finish([bars, lines], height=26 * max(len(names), 1), palette=palette)


def block_loads(figure: Figure, palette: Palette) -> Drawn:
    """A bar a week as a share of the usual load; needs weeks (week, kind, share)."""
    weeks = figure.data["weeks"]
    names = tuple(str(w) for w in figure.options["weeks"])  # type: ignore[attr-defined]
    x = alt.X(
        "week:N", sort=list(names), title=None, axis=plain.axis(labelAngle=-90, ticks=False, domain=False)
    )
    top = max(1.25, float(weeks["share"].max()) * 1.05)
    y = alt.Y(
        "share:Q",
        title="of the usual load",
        scale=plain.scale(domain=[0, round(top, 2)], nice=False),
        axis=ground.upright(beside=45, values=[0, 0.25, 0.5, 0.75, 1], format="%", labelExpr=ground.PERCENT),
    )
    shown = {"before": "before", "work": "work", "light": "light", "return": "coming back", "taper": "taper"}
    kinds = tuple(shown[kind] for kind in shown if (weeks["kind"] == kind).any())
    inks = dict(
        zip(shown.values(), (palette.gap, palette.series[0], *palette.steps[1:3], palette.taper), strict=True)
    )
    colour = ground.colours(kinds, tuple(inks[kind] for kind in kinds))
    bars = chart(weeks.assign(kind=weeks["kind"].map(shown))).mark_bar(stroke=palette.muted, strokeWidth=0.6)
    drawn = bars.encode(x=x, y=y, color=colour, tooltip=alt.Tooltip(READING))
    usual = chart(weeks.head(1).assign(share=1.0)).mark_rule(color=palette.ink, strokeDash=[2, 3])
    return ground.finish([drawn, usual.encode(y=alt.Y("share:Q"))], height=150, palette=palette)
