"""What in the files is not sure enough to load a body by."""

from dataclasses import dataclass
from typing import Final

#: In `Unsure.stops`: no proposal at all; singles at 90 % and over. Any other word there is a lift's name.
EVERYTHING: Final = "everything"
HEAVY: Final = "heavy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """One thing in the files that is not sure, and what of a proposal rests on it.

    Attributes:
        file: Path relative to the lifter's folder; of a workbook with its sheet, `training.xlsx[March]`.
        line: Line or row as an editor counts it; 0 = the file as a whole.
        reason: A key of `[unsure]` in trade/claims.toml, where its sentence stands.
        stops: Names of lifts for which nothing is proposed, or `EVERYTHING`, or `HEAVY`.
        lift: The lift of the row, "" without one.
        found: What stood there.
        likely: What it may have meant, "" where nobody can say.
        lines: Further lines of the same kind in the same file.
    """

    file: str
    line: int
    reason: str
    stops: tuple[str, ...]
    lift: str = ""
    found: str = ""
    likely: str = ""
    lines: tuple[int, ...] = ()

    @property
    def place(self) -> str:
        """The row as `confirmed` in lifter.toml names it: `training.csv:214`."""
        return f"{self.file}:{self.line}" if self.line else self.file
