"""The register of drawing functions by name."""

from collections.abc import Callable
from typing import Any, Final

from reportgen.charts import body, progress, rates, small, supports, weeks
from reportgen.charts.ground import Drawn
from reportgen.charts.palette import Palette

CHARTS: Final[dict[str, Callable[[Any, Palette], Drawn]]] = {
    chart.__name__: chart
    for chart in (
        progress.running_best,
        progress.body_mass,
        progress.expressed,
        progress.month_bests,
        supports.enough_for,
        supports.goal_weight,
        weeks.training,
        weeks.load_spread,
        weeks.planned_done,
        weeks.block_loads,
        rates.make_rate,
        rates.miss_kinds,
        rates.tapers_aligned,
        body.positions_over_time,
        body.heavier,
        body.technique,
        small.small,
    )
}
