"""The register of drawing functions by name."""

from collections.abc import Callable
from typing import Final

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
        weeks.block_loads,
        rates.make_rate,
        rates.miss_kinds,
        rates.tapers_aligned,
        body.positions_then_now,
        body.heavier,
        body.technique,
        body.upkeep,
    )
}
