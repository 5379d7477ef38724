"""Results to page data: words and rounded numbers; nothing is computed here that a figure rests on."""

from reportgen.view.build import build, squad_line

__all__ = ["build", "squad_line"]
