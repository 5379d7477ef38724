"""All that was read of one lifter's folder."""

from dataclasses import field
from datetime import date

import pandas as pd

from reportgen.model import tables
from reportgen.model.lifter import Lifter
from reportgen.model.problems import FileLedger, Problem
from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One reading that a screening note gives in prose; its row is in `Records.screening` too."""

    item: str
    side: str
    reading: float | None
    unit: str
    grade: str
    load_kg: float | None
    conditions: str
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One notes/*.md file: `kind` is screening, review, remark or plan; `text` is raw Markdown.

    Of a screening note `taken` are the readings that its lines give, `unread` the items named without one.
    """

    file: str
    date: date
    kind: str
    title: str
    text: str
    taken: tuple[Taken, ...] = ()
    unread: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One source file as it lay on the disk; `file` is relative to the lifter's folder."""

    file: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Records:
    """One lifter's folder, read. Tables as in `model.tables`; rows after `as_of` are still in them.

    Tables have no equality, so records are the same only where they are one: what is asked of them again and
    again can be kept by them.

    `attempts` rows are in `sets` too (file attempts.csv). `plan` has the columns of `sets`.
    """

    folder: str
    lifter: Lifter
    as_of: date
    sets: pd.DataFrame
    bodymass: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.BODYMASS))
    screening: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.SCREENING))
    technique: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.TECHNIQUE))
    mobility: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.MOBILITY))
    pain: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.PAIN))
    away: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.AWAY))
    decisions: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.DECISIONS))
    plan: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.SETS))
    notes: tuple[Note, ...] = ()
    ledger: tuple[FileLedger, ...] = ()
    sources: tuple[Source, ...] = ()
    # Rows set aside.
    sets_unread: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.SETS_UNREAD))
    pain_unread: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.PAIN_UNREAD))
    away_unread: pd.DataFrame = field(default_factory=lambda: tables.empty(tables.AWAY_UNREAD))
    asked: bool = False  # the review day was asked for: rows after it were not known then

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem of every file, by file, line and column."""
        return tuple(problem for entry in self.ledger for problem in entry.problems)
