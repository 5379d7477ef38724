"""Results to page data: words and rounded numbers; nothing is computed here that a figure rests on."""

from reportgen.view.build import build
from reportgen.view.page import Edition
from reportgen.view.squad import squad_line

__all__ = ["Edition", "build", "squad_line"]
