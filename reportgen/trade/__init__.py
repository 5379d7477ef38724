"""What the trade knows, as data: lifts, bands, positions, norms, coefficients, words and their sources."""

from reportgen.trade.rows import TradeError
from reportgen.trade.schema import Trade
from reportgen.trade.tables import load, read
from reportgen.trade.words import fold, nearest

__all__ = ["Trade", "TradeError", "fold", "load", "nearest", "read", "suggest"]


def suggest(kind: str, word: str) -> str | None:
    """The known word of a kind that an unknown one may have meant, or None where none is close.

    Args:
        kind: A kind of `Trade.words`: lift, position, miss and so on.
        word: What stood in the file.

    Returns:
        Our word; a suggestion is printed, never taken.
    """
    return nearest(load().words.get(kind, {}), word)
