"""One function a figure: tidy table in, validated Vega-Lite out; importing this does not import altair."""

from typing import TYPE_CHECKING, Any

from reportgen.charts.palette import Palette

if TYPE_CHECKING:
    import altair as alt

    from reportgen.view.page import Figure

__all__ = ["Palette", "draw", "spec"]


def draw(figure: "Figure", palette: Palette | None = None) -> "alt.Chart | alt.LayerChart":
    """The chart of one figure; see `reportgen.charts.drawing`.

    Args:
        figure: Page data with its tidy tables.
        palette: Colours by role; CSS variables where None.
    """
    from reportgen.charts import drawing

    return drawing.draw(figure, palette)


def spec(figure: "Figure", palette: Palette | None = None) -> dict[str, Any]:
    """The chart of one figure as a Vega-Lite dict, unchecked; see `reportgen.charts.drawing`.

    Args:
        figure: Page data with its tidy tables.
        palette: Colours by role; CSS variables where None.
    """
    from reportgen.charts import drawing

    return drawing.spec(figure, palette)
