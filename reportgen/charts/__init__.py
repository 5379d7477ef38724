"""One function a figure: tidy table in, validated Vega-Lite out; importing this does not import altair."""

from typing import TYPE_CHECKING, Any

from reportgen.charts.palette import Palette

if TYPE_CHECKING:
    from reportgen.charts.ground import Drawn
    from reportgen.view.page import Picture

__all__ = ["Palette", "draw", "spec"]


def draw(figure: "Picture", palette: Palette | None = None) -> "Drawn":
    """The chart of one figure.

    Args:
        figure: `figure.chart` names the drawing function, `figure.data` holds its tidy tables.
        palette: Colours by role; CSS variables where None.

    Raises:
        KeyError: No chart of that name (a bug).
    """
    from reportgen.charts.drawing import CHARTS

    return CHARTS[figure.chart](figure, palette or Palette())


def spec(figure: "Picture", palette: Palette | None = None) -> dict[str, Any]:
    """The chart of one figure as a Vega-Lite dict, without holding it against the grammar.

    The tests hold every drawing function against it; doing so again for each page takes as long as all the
    pictures, and a chart that is wrong is still refused when it is compiled.
    """
    from altair.utils import schemapi

    with schemapi.debug_mode(False):
        return draw(figure, palette).to_dict(validate=False)
