"""Charts of the season edition."""

from typing import Any

import altair as alt
import pandas as pd

from reportgen.charts import ground
from reportgen.charts.palette import Palette
from reportgen.charts.rows import chart
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart
READING = "reading:N"


def month_bests(figure: Figure, palette: Palette) -> Drawn:
    """A dot a month, joined by lift; needs bests (date, lift, weight)."""
    bests = figure.data["bests"]
    options: dict[str, Any] = figure.options
    lifts = tuple(str(lift) for lift in options["lifts"])
    month = pd.Timedelta(days=16)
    first, last = (bests["date"].min() - month).date(), (bests["date"].max() + month).date()
    low, high = float(bests["weight"].min()), float(bests["weight"].max())
    room = max(0.1 * (high - low), 0.02 * high, 0.5)
    x = ground.calendar("date", first.isoformat(), last.isoformat())
    y = ground.amount("weight", str(options["unit"]), (round(low - room, 1), round(high + room, 1)))
    base = chart(bests).encode(
        x=x, y=y, color=ground.colours(lifts, palette.series, field="lift"), tooltip=alt.Tooltip(READING)
    )
    return ground.finish(
        [base.mark_line(strokeWidth=1.5, opacity=0.7), base.mark_point(filled=True, size=70, opacity=1)],
        height=200,
        palette=palette,
    )
