"""What the lifter carries: weekdays, sessions, and what is done of each lift in eight trained weeks."""

import datetime as dt
import math
import statistics
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any, Final

import numpy as np
import pandas as pd

from reportgen.analysis.block.stand import Stand
from reportgen.analysis.frames import each
from reportgen.analysis.trust import Trust
from reportgen.model.facts import Facts
from reportgen.model.say import Say, say
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

_HAIR = 1e-9
_STRAPS = "strap"
#: What of a set says what is carried.
_WORK: Final = ["lift", "date", "week", "tried", "load_kg", "reps", "sets", "aid"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Volume:
    """Barbell work of some days: repetitions and kilograms times repetitions."""

    repetitions: float = 0.0
    tonnage_kg: float = 0.0

    def times(self, share: float) -> "Volume":
        """So much of it."""
        return Volume(repetitions=self.repetitions * share, tonnage_kg=self.tonnage_kg * share)

    def within(self, most: "Volume") -> bool:
        """Whether neither number is over the other's, rounding apart."""
        return self.repetitions <= most.repetitions + _HAIR and self.tonnage_kg <= most.tonnage_kg + _HAIR

    def least(self, other: "Volume") -> "Volume":
        """The smaller number of each."""
        return Volume(
            repetitions=min(self.repetitions, other.repetitions),
            tonnage_kg=min(self.tonnage_kg, other.tonnage_kg),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """One lift in a usual week: sets of work only, from `work_share` of its base up.

    Attributes:
        group: What it counts as: a goal lift, derivative, other, overhead, pull, back squat, front squat,
            press, back.
        tonnage_kg, repetitions, days: A week.
        weekdays: Those it is done on, the most frequent first.
        reps: Repetitions of a usual set.
        kg: Mean load.
        high_kg: Mean of the heaviest set of two or more of each week; `top_kg` the heaviest of all of them.
        straps: Mostly done with straps.
    """

    lift: str
    group: str
    tonnage_kg: float
    repetitions: float
    days: float
    weekdays: tuple[int, ...]
    reps: int
    kg: float
    high_kg: float
    top_kg: float
    straps: bool

    @property
    def sets(self) -> int:
        """Sets of a usual session."""
        return math.ceil(self.repetitions / max(1.0, self.days * self.reps) - _HAIR)


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """How the lifter trains.

    Attributes:
        weekdays: Days of the proposed week, 0 = Monday, ascending.
        full: Sessions a week with the goal lift from the floor.
        less_trained: Fewer training days a week than usual.
        weeks: Work of the last eight trained weeks, oldest first; those of a taper are left out, and after a
            break they are those before it. `week` is their mean: what a week of work is held against.
        starts: Their Mondays.
        recent: Work of the last trained weeks as they were: a week steps up from these.
        before_break: The mean week before a break.
        rested: The last trained week lies in a long taper or an empty chase: work is brought back in steps.
        usual: Lift -> what is done of it in a usual week, the lifts that stay first.
        notes: Why it is not as asked.
    """

    weekdays: tuple[int, ...]
    full: int
    less_trained: bool
    weeks: tuple[Volume, ...]
    starts: tuple[dt.date, ...]
    recent: tuple[Volume, ...]
    trained_weeks: int
    before_break: Volume | None
    rested: bool
    usual: Mapping[str, Usual]
    notes: tuple[Say, ...]

    @property
    def week(self) -> Volume:
        """The mean week."""
        return mean(self.weeks)

    def group(self, name: str) -> Iterator[Usual]:
        """The lifts of a group, the one most done first."""
        mine = [one for one in self.usual.values() if one.group == name]
        yield from sorted(mine, key=lambda one: (-one.tonnage_kg, one.lift))

    def tonnage(self, name: str) -> float:
        """A week's tonnage of a group [kg]."""
        return sum(one.tonnage_kg for one in self.group(name))


def mean(weeks: tuple[Volume, ...]) -> Volume:
    """The mean of some weeks; nothing of none."""
    count = max(1, len(weeks))
    return Volume(
        repetitions=sum(week.repetitions for week in weeks) / count,
        tonnage_kg=sum(week.tonnage_kg for week in weeks) / count,
    )


def read(
    sets: pd.DataFrame,
    days: pd.DataFrame,
    facts: Facts,
    stand: Stand,
    goal_lifts: tuple[str, ...],
    held: Trust,
    *,
    chased: bool,
    trade: Trade,
) -> Carried:
    """Read the lifter's week.

    Args:
        sets: Prepared sets.
        days: `frames.by_day`.
        facts: Exposure, test days and the review day.
        stand: Bases: what is lighter than a share of them is a warm-up.
        goal_lifts: The goal's lifts.
        held: For the break.
        chased: Heavy days close together are a finding, or just happened.
        trade: Rules.
    """
    rows = _work(sets, facts, stand, goal_lifts, trade)
    volumes = _volumes(rows)
    every = tuple(volumes)
    span = int(trade.value("block_exposure_weeks"))
    normal, rested = _without_tapers(volumes, facts, trade)
    monday = pd.Timestamp(facts.as_of - dt.timedelta(days=facts.as_of.weekday()))
    if normal and normal[-1] == monday and facts.as_of.weekday() < 6 and len(normal) > 1:
        normal = normal[:-1]  # a week that is still running is no whole week
    last = normal[-span:]
    before = None
    if held.pause is not None:
        earlier = [week for week in every if week <= pd.Timestamp(held.pause.since)]
        before = mean(tuple(volumes[week] for week in earlier[-int(trade.value("volume_step_weeks")) :]))
        last = tuple(earlier[-span:]) or last
    recent = sets.loc[sets["week"].isin(last if rested else every[-span:]) & (sets["tried"] > 0), _WORK]
    trained = recent.groupby("week")["date"].nunique().mean() if len(recent) else 0.0
    mean_full = _mean_full(facts, trade)
    wanted, notes = _full(mean_full, chased, trade)
    count = min(7, max(1, half_up(float(trained)), min(wanted, math.ceil(mean_full))))
    if wanted > count:
        notes.append(say("block.note.fewer_full", wanted=wanted, count=count))
    if rested:
        notes.append(say("block.note.rested"))
    return Carried(
        weekdays=_weekdays(days, recent, count),
        full=min(wanted, count),
        less_trained=len(recent) > 0 and float(trained) < trade.value("less_trained_days"),
        weeks=tuple(volumes[week] for week in last),
        starts=tuple(week.date() for week in last),
        recent=tuple(volumes[week] for week in normal[-int(trade.value("volume_step_weeks")) :]),
        trained_weeks=len(every),
        before_break=before,
        rested=rested,
        usual=_usual(rows.loc[rows["week"].isin(last)], max(1, len(last)), trade),
        notes=tuple(notes),
    )


def group_of(lift: str, goal_lifts: tuple[str, ...], trade: Trade) -> str:
    """What a lift counts as in a week."""
    of = trade.lifts.get(lift)
    if of is None or of.role == "other":
        return ""
    if lift in goal_lifts or of.role == "squat":
        return lift
    if of.role in ("goal", "derivative", "part"):
        return "derivative" if of.family in goal_lifts else "other"
    return of.role


def _work(
    sets: pd.DataFrame, facts: Facts, stand: Stand, goal_lifts: tuple[str, ...], trade: Trade
) -> pd.DataFrame:
    """The sets of work of the last year: from a share of the base up; a pull's base is its family's."""
    first = pd.Timestamp(facts.as_of) - pd.Timedelta(days=int(trade.value("reference_days")))
    rows = sets.loc[(sets["date"] > first) & (sets["tried"] > 0), _WORK]
    share = trade.value("work_share")
    least: dict[str, float] = {}
    for lift in rows["lift"].unique():
        of = trade.lifts.get(str(lift))
        base = stand.base(of.family if of is not None and of.role == "pull" else str(lift))
        least[str(lift)] = share * base.kg - _HAIR if base is not None else 0.0
    groups = {lift: group_of(lift, goal_lifts, trade) for lift in least}
    kept = rows.loc[rows["load_kg"] >= rows["lift"].map(least)]
    return kept.assign(
        group=kept["lift"].map(groups),
        straps=kept["aid"].str.contains(_STRAPS, regex=False),
        tonnage_kg=kept["tried"] * kept["load_kg"],
    ).loc[lambda table: table["group"] != ""]


def _volumes(rows: pd.DataFrame) -> dict[pd.Timestamp, Volume]:
    """Every week with work, in order."""
    table = rows.groupby("week")[["tried", "tonnage_kg"]].sum()
    return {
        week: Volume(repetitions=float(row.tried), tonnage_kg=float(row.tonnage_kg))
        for week, row in zip(table.index, each(table), strict=True)
    }


def _usual(rows: pd.DataFrame, weeks: int, trade: Trade) -> dict[str, Usual]:
    every: dict[str, Any] = {name: rows[name].to_numpy() for name in rows.columns}
    found: dict[str, Usual] = {}
    for lift, at in sorted(rows.groupby("lift").indices.items()):
        mine = {name: cells[at] for name, cells in every.items()}
        several = mine["reps"] >= 2
        reps, sets, kg, week = (
            mine[name][several if several.any() else ~several] for name in ("reps", "sets", "load_kg", "week")
        )
        tops = np.maximum.reduceat(kg, np.unique(week, return_index=True)[1])
        dates = pd.DatetimeIndex(np.unique(mine["date"]))
        used = Counter(dates.day_of_week.tolist())
        found[str(lift)] = Usual(
            lift=str(lift),
            group=str(mine["group"][0]),
            tonnage_kg=float(mine["tonnage_kg"].sum()) / weeks,
            repetitions=float(mine["tried"].sum()) / weeks,
            days=len(dates) / weeks,
            weekdays=tuple(sorted(used, key=lambda day: (-used[day], day))),
            reps=int(min(trade.value("usual_reps_most"), max(1, np.median(np.repeat(reps, sets))))),
            kg=float((kg * sets).sum() / sets.sum()),
            high_kg=float(tops.mean()),
            top_kg=float(tops.max()),
            straps=bool(mine["straps"].mean() > 1 / 2),
        )
    return found


def _full(mean_full: float, chased: bool, trade: Trade) -> tuple[int, list[Say]]:
    usual = int(trade.value("block_full"))
    kept = math.ceil(mean_full - trade.value("edge_kg"))
    if chased and kept > usual:
        return usual, [say("block.note.chase_full", full=mean_full, usual=usual)]
    return max(usual, kept), []


def _mean_full(facts: Facts, trade: Trade) -> float:
    """Full sessions a week over the last eight weeks, empty ones too."""
    last = facts.exposure.weeks[-int(trade.value("block_exposure_weeks")) :]
    return sum(week.full for week in last) / len(last) if last else 0.0


def _without_tapers(
    volumes: Mapping[pd.Timestamp, Volume], facts: Facts, trade: Trade
) -> tuple[tuple[pd.Timestamp, ...], bool]:
    """The weeks that do not begin inside a taper, and whether the last one begins inside a long one.

    So little was done on purpose: it is not what the lifter carries; nor is a chase that took the place of
    all other work. All weeks where too few are left.
    """
    weeks, chases = tuple(volumes), [(one.start, one.end) for one in facts.chases or ()]
    chased = [any(first <= week.date() <= last for first, last in chases) for week in weeks]
    kg = [volume.tonnage_kg for volume in volumes.values()]
    usual = [one for one, inside in zip(kg, chased, strict=True) if not inside]
    least_kg = trade.value("chase_volume_least") * statistics.median(usual) if usual else 0.0
    empty = [inside and one < least_kg for one, inside in zip(kg, chased, strict=True)]
    tapered, long = (
        [
            hole or any(first <= week.date() <= last for first, last in spans)
            for week, hole in zip(weeks, empty, strict=True)
        ]
        for spans in (_tapers(facts), _tapers(facts, "long"))
    )
    kept = tuple(week for week, inside in zip(weeks, tapered, strict=True) if not inside)
    if len(kept) < trade.value("proposal_least_weeks"):
        return weeks, False
    return kept, bool(long and long[-1])


def _tapers(facts: Facts, reading: str = "") -> list[tuple[dt.date, dt.date]]:
    """First day and test day of every taper, or of those of one reading."""
    return [
        (day.taper.start, day.date)
        for day in facts.test_days or ()
        if day.taper is not None and day.taper.start is not None and reading in ("", day.taper.reading)
    ]


def half_up(number: float) -> int:
    """The nearest whole number, a half up."""
    return math.floor(number + 0.5)


def _weekdays(days: pd.DataFrame, recent: pd.DataFrame, count: int) -> tuple[int, ...]:
    """The weekdays most often trained in the last trained weeks; days spread where too few are known."""
    if recent.empty:
        return ()
    dates = days.loc[days["date"] >= recent["week"].min(), "date"]
    used = dates.dt.day_of_week.value_counts()
    order = sorted(range(7), key=lambda day: (-int(used.get(day, 0)), day))
    chosen = [day for day in order if used.get(day, 0)][:count]
    while len(chosen) < count:
        # The day furthest from those already taken, the earlier one in a tie.
        chosen.append(max(set(range(7)) - set(chosen), key=lambda day: (_apart(day, chosen), -day)))
    return tuple(sorted(chosen))


def _apart(day: int, taken: list[int]) -> int:
    return min(min((day - other) % 7, (other - day) % 7) for other in taken)
