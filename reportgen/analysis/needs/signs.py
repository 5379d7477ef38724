"""A sign is one thing that one source shows; findings rest on signs and are counted by their sources."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fnmatch import fnmatchcase

import pandas as pd

from reportgen.analysis.needs import wording
from reportgen.analysis.needs.wording import Value
from reportgen.model.dossier import Tables
from reportgen.model.facts import Facts
from reportgen.model.findings import Evidence, Worded
from reportgen.model.records import Records
from reportgen.trade.claims import Claims
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What every question reads."""

    records: Records
    facts: Facts
    tables: Tables
    trade: Trade
    claims: Claims
    lifts: tuple[str, ...]  # the goal's lifts from the floor
    targets: Mapping[str, float]  # goal weight by lift [kg]
    scored: pd.DataFrame  # `bests.scoring` rows, bests from before the log included

    @property
    def as_of(self) -> dt.date:
        """The review day."""
        return self.facts.as_of

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """One thing that one source shows.

    Attributes:
        key: "short:back_squat", "miss:recovery" and so on.
        kind: Kind of source: miss, checkpoint, screening, indicator, exposure; "" = no witness.
        name: What a sentence calls it, in parts.
        evidence: Where to look.
        values: Figures for the sentences.
        kilos: Goal-lift kilograms at stake, where they can be given.
        doubts: Why it weighs less: keys of the confidence sentences, with their values.
    """

    key: str
    kind: str
    name: Worded
    evidence: tuple[Evidence, ...]
    values: Mapping[str, Value | Worded] = field(default_factory=dict)
    kilos: float | None = None
    doubts: tuple[tuple[str, Mapping[str, Value | Worded]], ...] = ()


Signs = dict[str, Sign]


def matching(signs: Signs, patterns: Iterable[str]) -> Iterator[Sign]:
    """Signs that match one of the patterns, in the order of the patterns, none twice."""
    seen = set()
    for pattern in patterns:
        for key, sign in signs.items():
            if key not in seen and fnmatchcase(key, pattern):
                seen.add(key)
                yield sign


def evidence(
    given: Given,
    template: str,
    values: Mapping[str, Value | Worded],
    *,
    file: str,
    rule: str,
    lines: Iterable[int] = (),
    dates: Iterable[dt.date] = (),
    kind: str = "",
) -> Evidence:
    """One thing to look at, worded by its template."""
    parts = wording.fill(given.claims.evidence[template], values)
    return Evidence(
        text=wording.text(parts),
        parts=parts,
        file=file,
        rule=rule,
        lines=tuple(sorted({int(line) for line in lines if line > 0})),
        dates=tuple(sorted(set(dates))),
        source_kind=kind,
    )
