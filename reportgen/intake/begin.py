"""A folder before lifter.toml is filled in: what its tables look like, and its sets as understood."""

from collections.abc import Iterable
from pathlib import Path
from typing import Final

import pandas as pd

from reportgen.intake.gather import Folder, gather, text_grid
from reportgen.intake.kinds import KINDS, TRAINING, Kind
from reportgen.intake.layouts import known_headings
from reportgen.intake.read import content, decoded, is_workbook
from reportgen.intake.sources import TABLES, TEXTS, named
from reportgen.intake.tables import Manner
from reportgen.intake.twice import once
from reportgen.intake.workbook import Workbook, workbook
from reportgen.model.lifter import Lifter, Unit
from reportgen.model.problems import Problem
from reportgen.model.say import NOTHING, Say, say
from reportgen.model.tables import SETS, empty
from reportgen.model.values import dataclass
from reportgen.trade import fold

#: So many rows are looked at for the headings of a file that is named like nothing.
_ROWS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What the tables of a folder look like."""

    #: File or sheet, its layout, and what its headings were taken for.
    looks: tuple[tuple[str, Say, tuple[Say, ...]], ...]
    problems: tuple[Problem, ...]  # everything that could not be used or is odd
    sets: pd.DataFrame  # the sets as understood, in the order of the log
    unit: Unit  # lb where most rows of the log have their load in a column of pounds


def place_of(file: Path) -> str | None:
    """Where a file of a log belongs in a lifter's folder, by its name, its sheets or its headings.

    A path relative to the folder, under its own name; None where no file of its kind is read.
    """
    end = file.suffix.casefold()
    if end not in (*TABLES, *TEXTS):
        return None
    kind = named(file.stem)
    if kind is not None and (end in TABLES or kind is TRAINING):
        return f"{kind.name}/{file.name}"
    raw = content(file.parent, file.name, table=True)
    if isinstance(raw, Problem) or end in TEXTS:
        return f"{TRAINING.name}/{file.name}"
    if is_workbook(raw):
        book = workbook(raw, file.name)
        if not isinstance(book, Workbook):
            return f"{TRAINING.name}/{file.name}"
        if any(named(name) is not None for name, _ in book.sheets):
            return file.name
        rows = [row for _, grid in book.sheets[:1] for row in grid.cells[:_ROWS]]
    else:
        grid = text_grid(file.name, decoded(raw).text, known_headings(TRAINING, {}), plain=False)
        rows = [] if grid is None else grid.cells[:_ROWS]
    return f"{_by_headings(rows).name}/{file.name}"


def _by_headings(rows: Iterable[list[str]]) -> Kind:
    """The table whose needed columns a row of headings holds, where it is not that of a log of sets."""
    for row in rows:
        cells = {fold(cell) for cell in row if cell.strip()}
        for kind in (TRAINING, *KINDS):
            known = known_headings(kind, {})
            ours = {known.get(cell) for cell in cells}
            if all(any(name in ours for name in group) for group in kind.needed):
                return kind
    return TRAINING


def look(root: Path) -> Seen:
    """Read the tables of a folder as they would be read, without asking who the lifter is."""
    who = Lifter(name="", standards="men", goals=())
    folder = Folder(root)
    parts = gather(folder, who, Manner.of(who))
    sheets = [part.reading.sheet for part in parts]
    logs = [part.reading for part in parts if part.kind is TRAINING]
    tables = [one.table for one in once(logs) if len(one.table)]
    sets = pd.concat(tables, ignore_index=True) if tables else empty(SETS)
    pounds = sum(int(one.sheet.columns["lb"].filled.sum()) for one in logs if "lb" in one.sheet.columns)
    strangers = [problem for entry in folder.strangers for problem in entry.problems]
    return Seen(
        looks=tuple(
            (one.file, one.layout if one.layout is not NOTHING else say("intake.read.plain"), tuple(one.told))
            for one in sheets
            if (len(one) or one.extra) and not (one.whole and one.layout is NOTHING)
        ),
        problems=(*(problem for one in sheets for problem in sorted(one.problems)), *strangers),
        sets=sets.sort_values(["date", "file", "line", "part"], kind="stable", ignore_index=True),
        unit="lb" if pounds * 2 > sum(len(one.sheet) for one in logs) else "kg",
    )
