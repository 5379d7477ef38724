"""A sign is one thing that one source shows; how likely each cause makes it is weighed in `weighing`."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from fnmatch import fnmatchcase

import pandas as pd

from reportgen.analysis import doubts
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts
from reportgen.model.findings import Evidence
from reportgen.model.records import Records
from reportgen.model.say import Value, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

Values = dict[str, Value]
Row = tuple[str, int]  # file and line
#: First words of the reasons of a load that may be a slip of the pen.
SLIPS = frozenset({"slip", "repetitions", "pounds", "kilograms"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What every question reads."""

    records: Records
    facts: Facts
    tables: Tables
    trade: Trade
    lifts: tuple[str, ...]  # the goal's lifts from the floor
    targets: Mapping[str, float]  # goal weight by lift [kg]
    scored: pd.DataFrame  # `bests.scoring` rows, bests from before the log included

    @property
    def as_of(self) -> dt.date:
        """The review day."""
        return self.facts.as_of

    @property
    def doubted(self) -> bool:
        """Whether a load of the goal's lifts may be a slip of the pen."""
        return any(
            one.reason.partition("_")[0] in SLIPS and set(one.stops) & set(self.lifts)
            for one in self.facts.unsure
        )

    @property
    def thin(self) -> bool:
        """Whether much of the log could not be read, let through or not."""
        return any(doubts.unread(self.records, self.trade))

    @property
    def gap(self) -> float | None:
        """What is missing to the goal [kg]."""
        return self.facts.goals[0].gap_kg

    @property
    def reached(self) -> bool:
        """Whether the goal is reached, as far as the log can be trusted."""
        return self.gap is not None and self.gap <= self.value("edge_kg") and not self.doubted

    def value(self, rule: str) -> float:
        """The number of one rule."""
        return self.trade.value(rule)

    def is_recent(self, day: dt.date | None) -> bool:
        """Whether a screening or a video of a day still says something about today."""
        return day is not None and (self.as_of - day).days <= self.value("sign_days")

    def present_kg(self, lift: str) -> float | None:
        """The present best of a lift [kg]."""
        return next((fact.kg for fact in self.facts.current if fact.lift == lift), None)

    def gap_kg(self, lift: str) -> float | None:
        """What is missing to the goal of a lift [kg], never below 0."""
        present, target = self.present_kg(lift), self.targets.get(lift)
        return None if present is None or target is None else max(0.0, target - present)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sign:
    """One thing that one source shows.

    Attributes:
        key: "short:back_squat", "miss:recovery" and so on.
        source: misses, video, screening, figures, log, upkeep; "" = stands beside, never weighed.
        size: Log odds of a fault where it is graded or measured; a factor where a cause gives it a weight.
        group: Signs of one group are one thing seen twice: the area of a position, the lift of a miss.
        name: What a sentence calls it.
        evidence: Where to look.
        counts: Misses by row.
        kilos: Goal-lift kilograms at stake, where they can be given.
    """

    key: str
    source: str
    size: float = 1.0
    group: str = ""
    name: Value = ""
    evidence: tuple[Evidence, ...] = ()
    values: Values = field(default_factory=dict)
    counts: Mapping[Row, int] = field(default_factory=dict)
    kilos: float | None = None

    @property
    def rows(self) -> frozenset[Row]:
        """Every row that it rests on."""
        return frozenset((piece.file, line) for piece in self.evidence for line in piece.lines)


def is_there(keys: Iterable[str], patterns: Iterable[str]) -> bool:
    """Whether one of the signs matches one of the patterns."""
    patterns = tuple(patterns)
    return any(fnmatchcase(key, pattern) for key in keys for pattern in patterns)


def matching(signs: Iterable[Sign], patterns: Iterable[str]) -> Iterator[Sign]:
    """Signs that match one of the patterns, in the order of the patterns, none twice."""
    signs, seen = tuple(signs), set[str]()
    for pattern in patterns:
        for sign in signs:
            if sign.key not in seen and fnmatchcase(sign.key, pattern):
                seen.add(sign.key)
                yield sign


def evidence(
    template: str,
    values: Values,
    *,
    file: str,
    rule: str,
    lines: Iterable[int] = (),
    dates: Iterable[dt.date] = (),
    kind: str = "",
) -> Evidence:
    """One thing to look at, named by its message."""
    return Evidence(
        text=say(f"needs.evidence.{template}", **values),
        file=file,
        rule=rule,
        lines=tuple(sorted({int(line) for line in lines if line > 0})),
        dates=tuple(sorted(set(dates))),
        source_kind=kind,
    )


def by_file(
    template: str, values: Values, rows: pd.DataFrame, *, rule: str, kind: str, dates: Iterable[dt.date] = ()
) -> tuple[Evidence, ...]:
    """One thing to look at in each file of some rows of the log."""
    return tuple(
        evidence(template, values, file=str(file), rule=rule, kind=kind, lines=part["line"],
                 dates=(*(stamp.date() for stamp in part["date"]), *dates))
        for file, part in rows.groupby("file", sort=True)
    )  # fmt: skip


def without(piece: Evidence, taken: frozenset[Row]) -> Evidence | None:
    """A piece of evidence less the rows that stand under an earlier need; None where none is left."""
    left = tuple(line for line in piece.lines if (piece.file, line) not in taken)
    return None if piece.lines and not left else replace(piece, lines=left)
