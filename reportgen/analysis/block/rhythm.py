"""When the lifter trains and how much was carried: weekdays, full sessions, a week's volume."""

import datetime as dt
import math
from dataclasses import dataclass
from typing import Any

import pandas as pd

from reportgen.analysis.frames import each
from reportgen.analysis.needs import wording
from reportgen.analysis.trust import Trust
from reportgen.model.facts import Facts
from reportgen.trade.schema import Trade

_HAIR = 1e-9
#: Roles of the lifts that a block may hold.
HELD = ("goal", "derivative", "part", "overhead", "pull", "squat")


@dataclass(frozen=True, slots=True, kw_only=True)
class Volume:
    """One week's barbell work."""

    repetitions: float
    tonnage_kg: float

    def times(self, share: float) -> "Volume":
        """So much of it."""
        return Volume(repetitions=self.repetitions * share, tonnage_kg=self.tonnage_kg * share)

    def minus(self, other: "Volume") -> "Volume":
        """What is left without the other."""
        return Volume(
            repetitions=self.repetitions - other.repetitions, tonnage_kg=self.tonnage_kg - other.tonnage_kg
        )

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
class Rhythm:
    """How the lifter trains.

    Attributes:
        weekdays: Days of the proposed week, 0 = Monday, ascending.
        full: Sessions a week with the goal lift from the floor.
        mean_full: The last eight weeks' mean.
        less_trained: Fewer training days a week than usual.
        weeks: Trained weeks of the last year, oldest first, up to as_of; those of a taper are left out.
        carried: What a week of work is begun from.
        rested: The last trained week lies in a long taper: volume is brought back in steps.
        notes: Why it is not as asked.
    """

    weekdays: tuple[int, ...]
    full: int
    mean_full: float
    less_trained: bool
    weeks: tuple[Volume, ...]
    carried: Volume
    before_break: Volume | None
    rested: bool
    notes: tuple[str, ...]


def mean(weeks: tuple[Volume, ...]) -> Volume:
    """The mean of some weeks; nothing of none."""
    count = max(1, len(weeks))
    return Volume(
        repetitions=sum(week.repetitions for week in weeks) / count,
        tonnage_kg=sum(week.tonnage_kg for week in weeks) / count,
    )


def read(
    sets: pd.DataFrame, days: pd.DataFrame, facts: Facts, held: Trust, *, chased: bool, trade: Trade
) -> Rhythm:
    """Read the lifter's week.

    Args:
        sets: Prepared sets, for the volume of those lifts that a block holds.
        days: `frames.by_day`.
        facts: Exposure and the review day.
        held: For the break.
        chased: Heavy days close together are a finding, or just happened.
        trade: Rules.
    """
    span = int(trade.value("volume_step_weeks"))
    table = _weeks(sets, facts.as_of, trade)
    normal, rested = _without_tapers(table, facts, trade)
    weeks = tuple(_volume(row) for row in each(normal))
    monday = facts.as_of - dt.timedelta(days=facts.as_of.weekday())
    # A week that is still running is no whole week: the smaller reading of the two is taken.
    running = bool(len(normal)) and normal["start"].iloc[-1].date() == monday and facts.as_of.weekday() < 6
    step = 1 + trade.value("volume_step_max")
    carried = mean(weeks[-span:])
    if running and len(weeks) > 1:
        carried = mean(weeks[:-1][-span:]).least(carried.times(step))
    before = None
    if held.pause is not None:
        earlier = table.loc[table["start"] <= pd.Timestamp(held.pause.since)]
        before = mean(tuple(_volume(row) for row in each(earlier))[-span:])
    recent = table.tail(int(trade.value("block_exposure_weeks")))
    trained = half_up(float(recent["days"].mean())) if len(recent) else 0
    mean_full = _mean_full(facts, trade)
    wanted, notes = _full(mean_full, chased, trade)
    count = min(7, max(1, trained, min(wanted, math.ceil(mean_full))))
    full, short = min(wanted, count), wanted > count
    if short:
        notes.append(
            f"{wanted} sessions a week with the full lift are wanted; the log shows {count} training "
            f"{'day' if count == 1 else 'days'} a week, so {full} {'is' if full == 1 else 'are'} proposed."
        )
    if rested:
        notes.append(
            "The weeks of the long taper are no measure of what is carried: the weeks before it are, and the "
            f"first week of work holds {wording.percent(trade.value('rested_volume'))} of them."
        )
    return Rhythm(
        weekdays=_weekdays(days, recent, count),
        full=full,
        mean_full=mean_full,
        less_trained=len(recent) > 0 and float(recent["days"].mean()) < trade.value("less_trained_days"),
        weeks=weeks,
        carried=carried,
        before_break=before,
        rested=rested,
        notes=tuple(notes),
    )


def _full(mean_full: float, chased: bool, trade: Trade) -> tuple[int, list[str]]:
    usual = int(trade.value("block_full"))
    kept = math.ceil(mean_full - trade.value("edge_kg"))
    if chased and kept > usual:
        return usual, [
            f"The last eight weeks held {mean_full:.1f} full sessions a week, many of them near the limit: "
            f"{usual} are proposed, so that heavy days lie further apart."
        ]
    return max(usual, kept), []


def _mean_full(facts: Facts, trade: Trade) -> float:
    """Full sessions a week over the last eight weeks, empty ones too."""
    weeks = facts.exposure.weeks if facts.exposure is not None else ()
    last = weeks[-int(trade.value("block_exposure_weeks")) :]
    return sum(week.full for week in last) / len(last) if last else 0.0


def _weeks(sets: pd.DataFrame, as_of: dt.date, trade: Trade) -> pd.DataFrame:
    """The trained weeks of the last year: start, days, repetitions, tonnage_kg.

    Presses, back work and what is none of ours are left out: the block holds none, and they go on beside it.
    """
    first = pd.Timestamp(as_of) - pd.Timedelta(days=int(trade.value("reference_days")))
    rows = sets.loc[(sets["date"] > first) & (sets["tried"] > 0) & sets["role"].isin(HELD)]
    table = pd.DataFrame(
        {
            "start": rows["week"],
            "date": rows["date"],
            "repetitions": rows["tried"],
            "tonnage_kg": rows["tried"] * rows["load_kg"],
        }
    )
    grouped = table.groupby("start", sort=True)
    weeks = grouped[["repetitions", "tonnage_kg"]].sum()
    weeks["days"] = grouped["date"].nunique()
    return weeks.reset_index()


def carried_weeks(sets: pd.DataFrame, facts: Facts, trade: Trade) -> list[pd.Timestamp]:
    """The Mondays of the last four trained weeks, those of a taper left out."""
    normal, _ = _without_tapers(_weeks(sets, facts.as_of, trade), facts, trade)
    return list(normal["start"].tail(int(trade.value("volume_step_weeks"))))


def _without_tapers(table: pd.DataFrame, facts: Facts, trade: Trade) -> tuple[pd.DataFrame, bool]:
    """The weeks that do not begin inside a taper, and whether the last one begins inside a long one.

    So little was done on purpose: it is not what the lifter carries. All weeks where too few are left.
    """
    tapered, long = (
        [any(first <= start.date() <= last for first, last in spans) for start in table["start"]]
        for spans in (_tapers(facts), _tapers(facts, "long"))
    )
    kept = table.loc[[not one for one in tapered]]
    if len(kept) < trade.value("proposal_least_weeks"):
        return table, False
    return kept, bool(long and long[-1])


def _tapers(facts: Facts, reading: str = "") -> list[tuple[dt.date, dt.date]]:
    """First day and test day of every taper, or of those of one reading."""
    return [
        (day.taper.start, day.date)
        for day in facts.test_days or ()
        if day.taper is not None and day.taper.start is not None and reading in ("", day.taper.reading)
    ]


def _volume(row: Any) -> Volume:
    return Volume(repetitions=float(row.repetitions), tonnage_kg=float(row.tonnage_kg))


def half_up(number: float) -> int:
    """The nearest whole number, a half up."""
    return math.floor(number + 0.5)


def _weekdays(days: pd.DataFrame, recent: pd.DataFrame, count: int) -> tuple[int, ...]:
    """The weekdays most often trained in the last trained weeks; days spread where too few are known."""
    if recent.empty:
        return ()
    dates = days.loc[days["date"] >= recent["start"].min(), "date"]
    used = dates.dt.day_of_week.value_counts()
    order = sorted(range(7), key=lambda day: (-int(used.get(day, 0)), day))
    chosen = [day for day in order if used.get(day, 0)][:count]
    while len(chosen) < count:
        # The day furthest from those already taken, the earlier one in a tie.
        chosen.append(max(set(range(7)) - set(chosen), key=lambda day: (_apart(day, chosen), -day)))
    return tuple(sorted(chosen))


def _apart(day: int, taken: list[int]) -> int:
    return min(min((day - other) % 7, (other - day) % 7) for other in taken)
