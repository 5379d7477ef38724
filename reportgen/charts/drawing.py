"""Figures to charts: the register of drawing functions by name."""

from collections.abc import Callable
from typing import Any, Final

import altair as alt
from altair.utils import schemapi

from reportgen.charts import body, progress, rates, season, supports, weeks
from reportgen.charts.palette import Palette
from reportgen.view.page import Figure

Drawn = alt.Chart | alt.LayerChart

CHARTS: Final[dict[str, Callable[[Figure, Palette], Drawn]]] = {
    "running_best": progress.running_best,
    "body_mass": progress.body_mass,
    "expressed": progress.expressed,
    "enough_for": supports.enough_for,
    "goal_weight": supports.goal_weight,
    "exposure_weeks": weeks.exposure_weeks,
    "load_weeks": weeks.load_weeks,
    "load_spread": weeks.load_spread,
    "calendar": weeks.calendar,
    "planned_done": weeks.planned_done,
    "block_loads": weeks.block_loads,
    "make_rate": rates.make_rate,
    "miss_kinds": rates.miss_kinds,
    "tapers_aligned": rates.tapers_aligned,
    "positions_then_now": body.positions_then_now,
    "heavier": body.heavier,
    "technique": body.technique,
    "upkeep": body.upkeep,
    "month_bests": season.month_bests,
}


def draw(figure: Figure, palette: Palette | None = None) -> Drawn:
    """The chart of one figure.

    Args:
        figure: `figure.chart` names the drawing function, `figure.data` holds its tidy tables.
        palette: Colours by role; CSS variables where None.

    Raises:
        KeyError: No chart of that name (a bug).
    """
    return CHARTS[figure.chart](figure, palette or Palette())


def spec(figure: Figure, palette: Palette | None = None) -> dict[str, Any]:
    """The chart of one figure as a Vega-Lite dict, without holding it against the grammar.

    The tests hold every drawing function against it; doing so again for each page takes as long as all the
    pictures, and a chart that is wrong is still refused when it is compiled.

    Args:
        figure: As for `draw`.
        palette: As for `draw`.
    """
    with schemapi.debug_mode(False):
        return draw(figure, palette).to_dict(validate=False)
