"""Figures to charts: the register of drawing functions by name."""

from collections.abc import Callable
from typing import Any, Final

from altair.utils import schemapi

from reportgen.charts import body, progress, rates, supports, weeks
from reportgen.charts.ground import Drawn
from reportgen.charts.palette import Palette
from reportgen.view.page import Figure

CHARTS: Final[dict[str, Callable[[Figure, Palette], Drawn]]] = {
    chart.__name__: chart
    for chart in (
        progress.running_best,
        progress.body_mass,
        progress.expressed,
        progress.month_bests,
        supports.enough_for,
        supports.goal_weight,
        weeks.exposure_weeks,
        weeks.load_weeks,
        weeks.load_spread,
        weeks.calendar,
        weeks.planned_done,
        rates.make_rate,
        rates.miss_kinds,
        rates.tapers_aligned,
        body.positions_then_now,
        body.heavier,
        body.technique,
        body.upkeep,
    )
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
