"""The platform sheet as one HTML file: black on white, no script, one printed page."""

from pathlib import Path

from reportgen.pages.phrases import phrase
from reportgen.pages.policy import policy
from reportgen.pages.themes import BUILT_IN, load, markup
from reportgen.view.sheet import SheetPage


def render_sheet(page: SheetPage, *, theme: str | Path = BUILT_IN) -> str:
    """The whole HTML of a platform sheet.

    Raises:
        ThemeProblem: The theme fails; names its file and line.
    """
    used = load(theme)
    style = used.text("platform.css")
    values = {
        "page": page,
        "style": markup(style),
        "policy": policy(scripts=(), styles=(style,)),
        "say": lambda parts: phrase(parts, page.unit),
    }
    return used.render("platform.html", values)
