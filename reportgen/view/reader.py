"""What every section is written from: the dossier, the trade tables and the reader's unit."""

import datetime as dt
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields
from typing import Any, Final

import pandas as pd

from reportgen.analysis.goals import lifts_of, targets
from reportgen.model.dossier import Dossier
from reportgen.model.facts import CurrentFact, Facts, GoalFact
from reportgen.model.say import Value
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade
from reportgen.view.options import Level
from reportgen.view.page import Cell
from reportgen.words import Phrase, Say, Weight, numbers, phrase, text
from reportgen.words.phrases import Filled, plain

__all__ = ["Reader", "as_day", "between", "load", "of", "plain", "portion", "said", "tally", "tidy", "words"]

#: Columns that hold days.
_DAYS: Final = frozenset({"date", "start", "end", "week"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """One dossier for one reader; charts and summaries are in `unit`, sentences keep weights."""

    dossier: Dossier
    trade: Trade
    unit: numbers.Unit

    @property
    def facts(self) -> Facts:
        """The lifter's facts."""
        return self.dossier.facts

    @property
    def goal(self) -> GoalFact:
        """The first goal: the one that the dossier is about."""
        return self.facts.goals[0]

    @property
    def lift(self) -> str:
        """Name of the first goal's lift."""
        return self.goal.lift

    @property
    def lifts(self) -> tuple[str, ...]:
        """The lifts from the floor that the first goal is made of."""
        return lifts_of(self.goal)

    @property
    def either(self) -> str:
        """The goal's lifts in words: nobody does a set of a total."""
        return numbers.listing(self.lifts, "or")

    @property
    def targets(self) -> dict[str, float]:
        """The goal weight of each of the goal's lifts [kg]; of a total, its part."""
        return targets(self.goal)

    @property
    def derived(self) -> frozenset[str]:
        """The lifts that derive from the goal's lifts."""
        mine = set(self.lifts)
        return frozenset(n for n, lift in self.trade.lifts.items() if mine & set(lift.derives_from))

    @property
    def too_little(self) -> str:
        """How little is logged, in words, where it carries no finding at all; "" where it is enough."""
        trained = sum(1 for week in self.facts.exposure.weeks if week.sessions)
        least = int(self.trade.value("proposal_least_weeks"))
        if self.facts.needs or trained >= least:
            return ""
        length = self.logged
        if length is None:
            return text("common.log.none")
        if length < 7 * least:
            return text("common.log.days", n=length)
        return numbers.sentence(text("common.log.weeks", n=trained))

    @property
    def logged(self) -> int | None:
        """Days from the first of the log to the last, both counted; None without any."""
        first, last = self.facts.span.first, self.facts.span.last
        return None if first is None or last is None else (last - first).days + 1

    def current(self, lift: str) -> CurrentFact | None:
        """The current best of one lift, where it has an entry."""
        return next((c for c in self.facts.current if c.lift == lift), None)

    def text(self, key: str, **values: Filled) -> str:
        """One message as plain text in the reader's unit."""
        return text(key, self.unit, **values)

    def readings(self, table: pd.DataFrame, key: Callable[[dict[str, Any]], str] | str) -> list[str]:
        """One message a row, by a key or by what its row says; the values are the columns."""
        rows = ({str(name): value for name, value in row.items()} for row in table.to_dict("records"))
        return [self.text(key if isinstance(key, str) else key(row), **row) for row in rows]

    def say(self, load_kg: float, *, sign: bool = False) -> str:
        """A weight as plain text in the reader's unit."""
        return numbers.weight(load_kg, self.unit, sign=sign)

    def number(self, load_kg: float) -> float:
        """A weight as a rounded number in the reader's unit, for a chart."""
        return round(numbers.in_unit(load_kg, self.unit), 2)

    def level(self, name: str, load_kg: float | None) -> Level | None:
        """The line at a weight of a chart, called as `charts.NAME` says; None without one."""
        if not load_kg:
            return None
        return Level(at=self.number(load_kg), label=text(f"charts.{name}", load=self.say(load_kg)))

    def numbers(self, load_kg: pd.Series) -> pd.Series:
        """A column of weights in the reader's unit, for a chart."""
        factor = 1.0 if self.unit == "kg" else 1 / numbers.KG_PER_LB
        return (load_kg * factor).round(2)


def words(value: str | dt.date | float | None, tone: str = "") -> Cell:
    """A cell of words; nothing known is a dash."""
    if value is None or value == "":
        return Cell(("–",), tone)
    if isinstance(value, dt.date):
        return Cell((numbers.day(value),), tone)
    return (
        Cell((value,), tone) if isinstance(value, str) else Cell((numbers.number(value),), tone, number=True)
    )


def said(spoken: Phrase, tone: str = "") -> Cell:
    """A cell of a phrase; an empty one is a dash."""
    return Cell(spoken or ("–",), tone)


def load(load_kg: float | None, tone: str = "", *, sign: bool = False) -> Cell:
    """A cell of a weight that the page can turn into pounds; nothing known is a dash."""
    if load_kg is None or math.isnan(load_kg):
        return Cell(("–",), tone, number=True)
    return Cell((Weight(load_kg, sign),), tone, number=True)


def portion(part: float | None) -> Cell:
    """A cell of a share in per cent; nothing known is a dash."""
    return Cell(("–" if part is None or math.isnan(part) else numbers.share(part),), number=True)


def tally(many: int | None, tone: str = "") -> Cell:
    """A cell of a count; nothing known is a dash, nothing done is 0."""
    return Cell(("–" if many is None else str(many),), tone, number=True)


def between(low: float | None, high: float | None) -> Phrase:
    """A range of weights with open ends worded."""
    ends = {f"{name}_kg": kg for name, kg in (("low", low), ("high", high)) if kg is not None}
    return phrase(f"common.range.{'_'.join(ends) or 'unknown'}", **ends)


def of(fact: Any, /, **more: Value) -> dict[str, Value]:
    """What is known of a fact, by the names of its fields, for a message about it; `more` goes before."""
    every = ((field.name, getattr(fact, field.name)) for field in fields(fact))
    return {
        name: value for name, value in every if isinstance(value, str | float | int | dt.date | Say)
    } | more


def tidy(columns: str, rows: Iterable[Sequence[object]]) -> pd.DataFrame:
    """A tidy table of rows; columns of days hold moments of the calendar."""
    table = pd.DataFrame(list(rows), columns=columns.split())
    days = {n: pd.to_datetime(table[n]).astype("datetime64[s]") for n in table.columns if n in _DAYS}
    return table.assign(**days)


def as_day(moment: pd.Timestamp | dt.date) -> dt.date:
    """The plain date of a table's date cell."""
    return moment.date() if isinstance(moment, pd.Timestamp) else moment
