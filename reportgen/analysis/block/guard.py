"""What a proposal may not ask: pain, youth, loose joints, age, the first weeks after a break."""

import datetime as dt
from dataclasses import dataclass
from itertools import pairwise

import pandas as pd

from reportgen.analysis import pain, screening
from reportgen.model.facts import Facts
from reportgen.model.records import Records
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """Two weeks or more without training, and what is left of the careful weeks after it.

    Attributes:
        since: Last training day before the break.
        done: Careful weeks that are over when the block begins.
        weeks: Careful weeks in all.
    """

    since: dt.date
    done: int
    weeks: int

    @property
    def left(self) -> int:
        """Careful weeks of the block."""
        return max(0, self.weeks - self.done)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guard:
    """What holds the proposal back.

    Attributes:
        stopped: Nothing at all is proposed.
        banned: Lifts for which nothing is proposed.
        heavy: Singles at 90 % and over may be asked.
        lax: Loose joints.
        older: Over 45.
        pause: The break, or None.
        cautions: Sentences for the page.
    """

    stopped: bool
    banned: frozenset[str]
    heavy: bool
    lax: bool
    older: bool
    pause: Break | None
    cautions: tuple[str, ...]


def read(records: Records, days: pd.DataFrame, facts: Facts, begin: dt.date, trade: Trade) -> Guard:
    """Read what a proposal has to leave out.

    Args:
        records: Pain, the lifter's year of birth, the review day.
        days: `frames.by_day`.
        facts: Screening and needs.
        begin: First day of the block.
        trade: Rules.
    """
    hurt = pain.read(records, trade)
    youth = pain.is_youth(records.lifter.born, records.as_of, trade)
    lax = loose(records, facts, trade)
    born = records.lifter.born
    older = born is not None and records.as_of.year - born > trade.value("masters_age")
    pause = away(days, records.as_of, begin, trade)
    words = choices().cautions
    said = {
        "draft": True,
        "pain": True,
        "heavy": pain.heavy_singles_allowed(records, trade),
        "youth": youth,
        "laxity": lax,
    }
    said |= {"masters": older, "return": pause is not None and pause.left > 0}
    return Guard(
        stopped=hurt is not None and hurt.nothing_proposed,
        banned=frozenset(hurt.lifts) if hurt is not None else frozenset(),
        heavy=pain.heavy_singles_allowed(records, trade),
        lax=lax,
        older=older,
        pause=pause,
        cautions=(*(hurt.cautions if hurt else ()), *(words[key] for key, true in said.items() if true)),
    )


def loose(records: Records, facts: Facts, trade: Trade) -> bool:
    """Whether the joints are loose: by the Beighton score for the age, or by a need that says so."""
    if any(need.id == "loose_joints" for need in facts.needs or ()):
        return True
    born = records.lifter.born
    least = screening.loose_from(records.as_of.year - born if born is not None else None, trade)
    items = facts.screening.items if facts.screening is not None else ()
    return any(i.kind == "laxity" and i.latest is not None and i.latest >= least for i in items)


def away(days: pd.DataFrame, as_of: dt.date, begin: dt.date, trade: Trade) -> Break | None:
    """The newest break of two weeks or more, as far as its careful weeks are not over long ago."""
    trained = [stamp.date() for stamp in days["date"]]
    if not trained:
        return None
    least = int(trade.value("return_days"))
    found: tuple[dt.date, dt.date, int] | None = None
    for before, after in pairwise(trained):
        if (after - before).days > least:
            found = (before, after, (after - before).days - 1)
    if (as_of - trained[-1]).days >= least:
        found = (trained[-1], begin, (begin - trained[-1]).days - 1)
    if found is None:
        return None
    long = found[2] >= trade.value("return_long_days")
    pause = Break(
        since=found[0],
        done=(begin - found[1]).days // 7,
        weeks=int(trade.value("return_no_heavy_weeks_high" if long else "return_no_heavy_weeks_low")),
    )
    return pause if pause.left > 0 else None
