"""What every layout needs to know of the log it reads."""

from dataclasses import dataclass

from reportgen.intake.days import Hints
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import Kind
from reportgen.intake.named import Lifts
from reportgen.intake.tables import Manner
from reportgen.intake.tokens import Use
from reportgen.model.lifter import Manners
from reportgen.trade.tongue import Tongue


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """One grid, and how it is written.

    Attributes:
        grid: The table or text.
        kind: Which of our tables it is.
        manner: How this lifter writes.
        how: What [sources] says of this file.
        tongue: The words of all languages, the log's own first.
        lifts: Its words for lifts.
        hints: What is known about its dates.
        use: How its shorthand is written, as far as [sources] says.
    """

    grid: Grid
    kind: Kind
    manner: Manner
    how: Manners
    tongue: Tongue
    lifts: Lifts
    hints: Hints
    use: Use
