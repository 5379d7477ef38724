"""What a proposal may rest on: the one place that says what is stopped, what is banned and what is held back.

Block, attempts, testing week, the questions to the coach and the squad's index ask here and decide nothing of
it themselves. What is not sure is not prescribed: in doubt a lift, everything heavy, or everything stops.
"""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import pairwise

import pandas as pd

from reportgen.analysis import alarms, announced, doubts, remarks, screening, slips, untold, wayback
from reportgen.analysis.wayback import Back
from reportgen.analysis.when import day, stamp
from reportgen.model.dossier import Tables
from reportgen.model.doubts import EVERYTHING, HEAVY, STATED, Unsure, sentences
from reportgen.model.facts import Facts
from reportgen.model.findings import Need, PainReading, ScreeningFact
from reportgen.model.records import Records
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """What is stopped, by pain and by doubt."""

    everything: Say | None  # why nothing at all is proposed; None where something may be
    sore: frozenset[str]  # lifts that load a place that hurts
    doubted: frozenset[str]  # lifts whose figures are not sure
    heavy: bool  # nothing at 90 % and over, whatever the age

    @property
    def lifts(self) -> frozenset[str]:
        """Lifts for which nothing is proposed."""
        return self.sore | self.doubted


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """Two weeks or more without training, and what is left of the careful weeks after it."""

    since: dt.date  # last training day before the break
    done: int  # careful weeks that are over when the block begins
    weeks: int  # careful weeks in all
    low: int = 0  # steps that the first of them lies lower, after months away; none or less = no step

    @property
    def left(self) -> int:
        """Careful weeks of the block."""
        return max(0, self.weeks - self.done)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trust:
    """What holds the proposal back."""

    stopped: Say | None  # why nothing at all is proposed; None where something may be
    #: Lifts for which nothing is proposed: they load a sore place, or their figures are not sure.
    banned: frozenset[str]
    doubted: frozenset[str]  # of these the ones that are not sure
    heavy: bool  # singles at 90 % and over may be asked
    young: bool  # under 18, or taken for it
    lax: bool  # loose joints
    older: bool  # over 45
    pause: Break | None  # the break, or None
    backs: tuple[Back, ...]  # ways back after pain that are not over
    cautions: tuple[Say, ...]  # for the page
    notes: tuple[Say, ...]  # what is held back by a doubt
    #: Lift -> the most that a load may be taken from: one day alone raises nothing far over others.
    most_kg: Mapping[str, float]

    def back_weeks(self, begin: dt.date, lifts: Iterable[str]) -> int:
        """Weeks of a block in which one of the lifts is still on its way back after pain."""
        mine = set(lifts)
        left = [-((begin - one.until).days // 7) for one in self.backs if one.lifts & mine]
        return max(0, *left) if left else 0


def unsure(records: Records, trade: Trade) -> tuple[Unsure, ...]:
    """Everything that is not sure and was not let through, what stops everything first."""
    let = {_plain(place) for place in records.lifter.confirmed}
    heard = (*remarks.read(records, trade), *alarms.read(records, trade))
    asked = (*alarms.once(heard), *announced.read(records, trade))
    figures = (*slips.read(records, trade), *untold.read(records, trade))
    every = (*doubts.read(records, trade), *asked, *figures)
    found = [one for one in every if one.reason in STATED or not _places(one) <= let]
    return tuple(sorted(found, key=lambda one: (EVERYTHING not in one.stops, one.file, one.line)))


def idle(records: Records, trade: Trade) -> tuple[str, ...]:
    """Places that lifter.toml confirms and where nothing waits to be let through: slips of the pen."""
    confirmed = records.lifter.confirmed
    if not confirmed:
        return ()
    bare = replace(records, lifter=replace(records.lifter, confirmed=()))
    known = {place for one in unsure(bare, trade) if one.reason not in STATED for place in _places(one)}
    return tuple(place for place in confirmed if _plain(place) not in known)


def _places(one: Unsure) -> set[str]:
    """Every row of a doubt, as `confirmed` names it."""
    return {_plain(one.place), *(_plain(f"{one.file}:{line}") for line in one.lines)}


def _plain(place: str) -> str:
    return "".join(place.split())


def stops(found: tuple[Unsure, ...], pain: PainReading | None) -> Stops:
    """What pain and doubt stop together.

    Args:
        found: `unsure`.
        pain: The reading of pain.csv, None without one.
    """
    hurt = pain is not None and pain.nothing_proposed
    whole = [say("doubts.parts.hurt")] if hurt else []
    whole += sentences(one for one in found if EVERYTHING in one.stops)
    lifts = {stop for one in found for stop in one.stops} - {EVERYTHING, HEAVY}
    # A row or remark of pain stops what loads the place; any other doubt stops the lift that is not sure.
    sore = {stop for one in found if one.reason.startswith(("pain", "remark")) for stop in one.stops} & lifts
    return Stops(
        everything=say("doubts.parts.all", told=tuple(whole)) if whole else None,
        sore=frozenset(sore | set(pain.lifts if pain is not None else ())),
        doubted=frozenset(lifts - sore),
        heavy=any(HEAVY in one.stops for one in found),
    )


def begin(records: Records, trade: Trade) -> dt.date:
    """The Monday on which a block begins: after the review day, an illness that lasts beyond it, weeks away.

    Who is away for all that a block may last has none: it begins as if they were there, and says so.
    """
    plain = _monday_after(_well_from(records))
    for weeks in range(int(trade.value("block_weeks_high"))):
        first = plain + dt.timedelta(weeks=weeks)
        if not all(_is_away(records, first + dt.timedelta(days=n)) for n in range(7)):
            return first
    return plain


def _well_from(records: Records) -> dt.date:
    return max(records.as_of, doubts.ill_until(records) or records.as_of)


def _monday_after(day: dt.date) -> dt.date:
    return day + dt.timedelta(days=7 - day.weekday())


def _is_away(records: Records, day: dt.date) -> bool:
    rows = records.away
    return bool(((rows["from"] <= stamp(day)) & (rows["to"] >= stamp(day))).any())


def read(
    records: Records, tables: Tables, facts: Facts, needs: tuple[Need, ...], first: dt.date, trade: Trade
) -> Trust:
    """Read what a proposal has to leave out."""
    stop = stops(facts.unsure, facts.pain)
    lax = any(need.id == "loose_joints" for need in needs) or _loose(records, facts.screening, trade)
    born = records.lifter.born
    older = born is not None and records.as_of.year - born > trade.value("masters_age")
    pause = away(records, tables.days, first, trade)
    heavy = heavy_allowed(records, facts.unsure, trade)
    backs = wayback.read(facts.pain_episodes, tables.sets, first, trade)
    told = {
        "draft": True,
        "pain": True,
        "heavy": heavy,
        "youth": doubts.is_youth(records, trade),
        "unborn": records.lifter.born is None and not records.lifter.born_kept_back and heavy,
        "laxity": lax,
        "masters": older,
        "return": pause is not None and pause.left > 0,
    }
    hurt = facts.pain.cautions if facts.pain is not None else ()
    return Trust(
        stopped=stop.everything,
        banned=stop.lifts,
        doubted=stop.doubted,
        heavy=heavy,
        young=doubts.is_youth(records, trade),
        lax=lax,
        older=older,
        pause=pause,
        backs=backs,
        cautions=(*hurt, *(say(f"doubts.caution.{key}") for key, true in told.items() if true)),
        notes=sentences(one for one in facts.unsure if EVERYTHING not in one.stops),
        most_kg=slips.held(records, trade),
    )


def old_enough(records: Records, trade: Trade) -> bool:
    """Whether the lifter's age allows singles at 90 % and over.

    Under 18 only with `supervised = true` and a year of log.

    References:
        Faigenbaum et al. 2009 and Lloyd et al. 2014 on qualified supervision and technique before load.
    """
    if not doubts.is_youth(records, trade):
        return True
    if any(doubts.born(records, trade)):
        return False
    as_of = stamp(records.as_of)
    dates = records.sets.loc[records.sets["date"] <= as_of, "date"]
    long = len(dates) > 0 and (as_of - dates.min()).days >= trade.value("youth_log_days")
    return records.lifter.supervised and long


def heavy_allowed(records: Records, found: tuple[Unsure, ...], trade: Trade) -> bool:
    """Whether singles at 90 % and over may be asked of this lifter: by age, and by what is not sure."""
    return old_enough(records, trade) and not any(HEAVY in one.stops for one in found)


def _loose(records: Records, seen: ScreeningFact | None, trade: Trade) -> bool:
    """Whether the joints are loose by the Beighton score for the age."""
    born = records.lifter.born
    least = screening.loose_from(records.as_of.year - born if born is not None else None, trade)
    items = seen.items if seen is not None else ()
    return any(i.kind == "laxity" and i.latest is not None and i.latest >= least for i in items)


def away(records: Records, days: pd.DataFrame, first: dt.date, trade: Trade) -> Break | None:
    """The newest break of two weeks or more, as far as its careful weeks are not over long ago.

    An illness or weeks away that last beyond the review day make the break as long as they are.
    """
    trained = [day(one) for one in days["date"]]
    if not trained:
        return None
    found: tuple[dt.date, dt.date, int] | None = None
    shortest = min(trade.value("return_ill_days"), trade.value("return_days"))
    for before, after in pairwise(trained):
        # Seldom so long that anything has to be looked up.
        if (gap := (after - before).days) > shortest and gap > _least_days(records, before, after, trade):
            found = (before, after, (after - before).days - 1)
    until = _well_from(records)
    if first > _monday_after(until):  # weeks away that are still to come
        until = first - dt.timedelta(days=1)
    if (until - trained[-1]).days >= _least_days(records, trained[-1], until, trade):
        found = (trained[-1], first, (first - trained[-1]).days - 1)
    if found is None:
        return None
    few, more = (int(trade.value(f"return_no_heavy_weeks_{end}")) for end in ("low", "high"))
    long = found[2] >= trade.value("return_long_days")
    months = min(found[2] // int(trade.value("return_month_days")), int(trade.value("return_weeks_most")))
    weeks = max(more, months) if long else few
    pause = Break(since=found[0], done=(first - found[1]).days // 7, weeks=weeks, low=weeks - more)
    return pause if pause.left > 0 else None


def _least_days(records: Records, last: dt.date, until: dt.date, trade: Trade) -> int:
    """From so many days on a gap is a break: fewer after an illness or injury."""
    rows = records.away.loc[records.away["reason"].isin(doubts.UNFIT)]
    ill = ((rows["from"] <= stamp(until)) & (rows["to"] > stamp(last))).any()
    return int(trade.value("return_ill_days" if ill else "return_days"))
