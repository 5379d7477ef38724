"""A table or text as it stands in a file: cells as words, each row with its place."""

import numpy as np
from numpy.typing import NDArray

from reportgen.model.say import Say
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A line whose cells cannot be told apart."""

    line: int
    column: int
    said: Say
    want: Say
    found: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """One table or text before anybody knows what it is.

    Attributes:
        file: Path relative to the lifter's folder; a workbook's sheet as `training.xlsx[March]`.
        cells: Every row from the first that holds something; rows may differ in length; blank rows are kept.
        lines: Line, or row of the sheet, of each row of `cells`.
        decimal_comma: A comma may be a decimal point (semicolon and tab files).
        delimiter: Of a text table; "" of a workbook's sheet; "\n" of plain text (one cell a line).
        broken: Lines whose cells can't be told apart.
        merged: Of a workbook: cells (row index, column index from 0) that a merged range covers and leaves
            empty.
        coloured: Of a workbook: cells (row of the sheet, column, both from 0) that are coloured or struck
            through.
        commented: The same of cells with a comment.
    """

    file: str
    cells: list[list[str]]
    lines: NDArray[np.int64]
    decimal_comma: bool
    delimiter: str = ","
    broken: tuple[Broken, ...] = ()
    merged: frozenset[tuple[int, int]] = frozenset()
    coloured: frozenset[tuple[int, int]] = frozenset()
    commented: frozenset[tuple[int, int]] = frozenset()
