"""The next block and the test day: a draft for a coach to change."""

from reportgen.analysis.block.proposal import propose

__all__ = ["propose"]
