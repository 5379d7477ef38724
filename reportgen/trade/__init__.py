"""What the trade knows, as data: lifts, bands, positions, norms, coefficients, words and their sources."""

from reportgen.trade.rows import TradeError
from reportgen.trade.schema import Trade
from reportgen.trade.tables import load, read
from reportgen.trade.words import fold, nearest

__all__ = ["Trade", "TradeError", "fold", "load", "nearest", "read"]
