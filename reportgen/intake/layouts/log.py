"""What every layout needs to know of the log it reads."""

from reportgen.intake.days import Hints
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import Kind
from reportgen.intake.named import Lifts
from reportgen.intake.sheet import Sheet
from reportgen.intake.tables import Manner
from reportgen.intake.tokens import Use
from reportgen.model.lifter import Manners
from reportgen.model.say import say
from reportgen.model.values import dataclass
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """One grid, and how it is written."""

    grid: Grid  # the table or text
    kind: Kind  # which of our tables it is
    manner: Manner  # how this lifter writes
    how: Manners  # what [sources] says of this file
    tongue: Tongue  # the words of all languages, the log's own first
    lifts: Lifts  # its words for lifts
    hints: Hints  # what is known about its dates
    use: Use  # how its shorthand is written, as far as [sources] says
    unticked: bool = False  # nothing of it is ticked off, and other sheets are

    def total(self, word: str) -> bool:
        """Whether a word heads a row of totals or averages."""
        return fold(word).rstrip(" :.") in self.tongue.small["total"]

    def first_week(self, made: Sheet) -> None:
        """Tell from which Monday weeks were counted."""
        if self.manner.first_week is not None:
            made.told.append(say("intake.read.first_week", day=self.manner.first_week.isoformat()))


def passed_over(made: Sheet, rows: int) -> None:
    """Tell how many rows of totals are none of the log."""
    if rows:
        made.told.append(say("intake.read.totals", n=rows))
