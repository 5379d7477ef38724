"""Loads and repetitions of one lift that its other days, or the other lifts, do not bear out."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from reportgen.analysis import support
from reportgen.analysis.support import Days, Floats, Ints, Log, Rows
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """Rows of one lift over what its other days bear."""

    lift: str  # the lift
    at: tuple[int, ...]  # places of the rows in the log, heaviest first
    days: tuple[int, ...]  # their days
    kg: float  # the heaviest load
    reps: int  # its repetitions
    bears_kg: float  # what the other days bear
    reps_only: bool = False  # the load is borne out; the repetitions are not
    by_others: bool = False  # it is the other lifts that do not bear it out


def read(rows: Rows, starts: tuple[int, ...], trade: Trade) -> tuple[tuple[Jump, ...], Rows]:
    """What stands out in one lift, and the rows that are left.

    Args:
        rows: The lift.
        starts: First days of the spans whose highest day a proposal may take a load from.
        trade: Rules.
    """
    found: list[Jump] = []
    for reps_only in (True, False):
        for start in starts:
            while True:
                one = _highest(rows, start, trade, reps_only=reps_only)
                if one is None:
                    break
                jump, gone = one
                found.append(jump)
                rows = rows.without(gone)
    return tuple(found), rows


def _highest(rows: Rows, start: int, trade: Trade, *, reps_only: bool) -> tuple[Jump, np.ndarray] | None:
    """The highest days from a day on, together, where they stand too far over the others."""
    days = support.days(rows)
    values = days.implied if reps_only else days.load
    inside = np.flatnonzero((days.day >= start) & (values > 0))
    order = inside[np.argsort(-values[inside], kind="stable")]
    for count in range(1, min(int(trade.value("slip_days")), len(order)) + 1):
        cluster = order[:count]
        kg, others = support.borne(days, cluster, trade)
        if not others:
            return None
        share = allowed(rows.lift, others, trade, reps=reps_only)
        if not reps_only and _led_up(rows, int(days.day[cluster[-1]]), values[cluster[-1]], trade):
            share += trade.value("slip_share_ramp")
        if values[cluster[-1]] > kg * share + 1e-6:
            return _jump(rows, days, cluster, kg, share, reps_only=reps_only)
    return None


def allowed(lift: str, others: int, trade: Trade, *, reps: bool = False) -> float:
    """How far over what so many other days bear a lift may stand, as a multiple."""
    share = 1 + trade.value("slip_share") + trade.value("slip_share_few") / others
    share += trade.value("slip_share_pull") if trade.lifts[lift].role == "pull" else 0
    return share + (trade.value("slip_share_reps") if reps else 0)


def _led_up(rows: Rows, day: int, kg: float, trade: Trade) -> bool:
    """Whether a lighter load of the same day stands shortly under this one."""
    under = kg * (1 - trade.value("slip_ramp_step"))
    return bool(((rows.day == day) & (rows.kg >= under) & (rows.kg < kg - 1e-6)).any())


def held(rows: Rows, starts: tuple[int, ...], trade: Trade) -> float | None:
    """The most that a load of a proposal may be taken from [kg]: a little over the next best day.

    Returns:
        None where the lift was logged on one day only: nothing else can bear it out.
    """
    days = support.days(rows)
    most: list[float] = []
    for start in starts:
        inside = np.flatnonzero((days.day >= start) & (days.open > 0))
        order = inside[np.argsort(-days.open[inside], kind="stable")]
        for count, name in enumerate(("held_share", "held_share_two", "held_share_three"), 1):
            if count > len(order):
                break
            cluster = order[:count]
            kg, others = support.borne(days, cluster, trade, strict=True)
            if others:
                most.append(max(kg, _under(rows, days, cluster, trade)) * (1 + trade.value(name)))
    sure = float(rows.worth[rows.open == 0].max(initial=0.0))
    return max(min(most), sure) if most else None


def alone(rows: Rows, trade: Trade) -> tuple[int, float] | None:
    """Place and load of a set whose day stands too far over all others to be sure of; None without one.

    An attempt of a contest or test day is what somebody else wrote down as well; what a lighter set leads up
    to was no slip.
    """
    days = support.days(rows)
    at = int(np.argmax(rows.open)) if len(rows.open) else 0
    if not days.open.any() or rows.tested[at] or rows.at[at] < 0:
        return None
    top = np.array([np.argmax(days.open)], dtype=np.int64)
    kg, others = support.borne(days, top, trade, strict=True)
    most_kg = float(days.open[top[0]])
    led_up = _led_up(rows, int(days.day[top[0]]), float(rows.kg[at]), trade)
    if led_up or others < trade.value("alone_days") or most_kg <= kg * (1 + trade.value("alone_share")):
        return None
    return int(rows.at[at]), float(rows.kg[at])


def _under(rows: Rows, days: Days, cluster: Ints, trade: Trade) -> float:
    """The load that led up to the highest one of the same days, as far as other days may bear it; else 0.

    What was made on the way up to an attempt bears it out by itself: somebody else wrote that down as well.
    """
    kg, _ = support.borne(days, cluster, trade)
    found = 0.0
    for n in cluster:
        # What was missed under it bears nothing out: a slip stands over a heavier miss, too.
        below = (rows.day == days.day[n]) & (rows.kg < days.load[n] - 1e-6) & (rows.load > 0)
        attempts = below & rows.tested
        found = max(
            found, min(kg, float(rows.kg[below].max(initial=0.0))), rows.kg[attempts].max(initial=0.0)
        )
    return float(found)


def _jump(
    rows: Rows, days: Days, cluster: Ints, kg: float, share: float, *, reps_only: bool
) -> tuple[Jump, np.ndarray]:
    here = np.isin(rows.day, days.day[cluster])
    values = rows.implied if reps_only else rows.load
    # On a day in question every row that alone would raise the load goes with the highest.
    gone = here & (values > kg * (1 + (share - 1) / 2))
    jump = _told(rows, np.flatnonzero(gone), values, kg)
    return replace(jump, reps_only=reps_only and jump.kg <= kg * share), gone


def _told(rows: Rows, places: Ints, values: Floats, bears_kg: float, *, by_others: bool = False) -> Jump:
    """Some rows of a lift, highest value first."""
    places = places[np.argsort(-values[places], kind="stable")]
    return Jump(
        lift=rows.lift,
        at=tuple(int(one) for one in rows.at[places]),
        days=tuple(int(one) for one in np.unique(rows.day[places])),
        kg=float(rows.kg[places[0]]),
        reps=int(rows.reps[places[0]]),
        bears_kg=bears_kg,
        by_others=by_others,
    )


def strays(log: Mapping[str, Rows], trade: Trade) -> tuple[tuple[Jump, ...], Mapping[str, Rows]]:
    """A few days of a lift far over its middle day, and the rows that are left: slips of lines, not of a log.

    A log that is in another unit is so on most of its days.
    """
    found: list[Jump] = []
    left = dict(log)
    for lift, rows in log.items():
        days = support.days(rows)
        tops = days.load[days.load > 0]
        if not len(tops):
            continue
        most_kg = float(np.median(tops)) * trade.value("stray_share")
        far = int((tops > most_kg).sum())
        if not 0 < far <= trade.value("stray_days_share") * len(tops):
            continue
        gone = rows.load > most_kg
        found.append(_told(rows, np.flatnonzero(gone), rows.load, float(tops[tops <= most_kg].max())))
        left[lift] = rows.without((rows.kg > most_kg) & (rows.at >= 0))
    return tuple(found), left


def beside(log: Mapping[str, Rows], trade: Trade) -> tuple[Jump, ...]:
    """Lifts that stand out of line with every other lift, where days of their own can't tell.

    A squat may be further over the lifts it is held against, which are none with a squat in them: where all
    squats are in pounds, they bear one another out. A classic lift or one overhead is never far over what
    squats and its relatives speak for. A confirmed row lets through whatever is lighter.
    """
    found: list[Jump] = []
    left = dict(log)
    squats = [lift for lift in log if trade.lifts[lift].role == "squat"]
    plain = {lift: rows for lift, rows in log.items() if trade.lifts[lift].role not in ("squat", "overhead")}
    line = 1 + trade.value("slip_line_share")
    far = 1 + trade.value("slip_line_squat")
    speak = {lift: kg for lift in squats if (kg := usual(lift, plain, trade)) is not None}
    # Where one squat is far out of line, the others need not be so far to be doubted with it.
    doubted = any((log[lift].load > kg * far).any() for lift, kg in speak.items())
    for lift in (*(speak if doubted else ()), *(one for one in log if one not in squats)):
        most_kg = line * (speak.get(lift) or usual(lift, left, trade) or 0.0)
        rows = log[lift]
        over = rows.load > max(most_kg, float(rows.worth[rows.open == 0].max(initial=0.0)))
        if not most_kg or not over.any():
            continue
        left[lift] = rows.without(rows.bears > most_kg)
        found.append(_told(rows, np.flatnonzero(over), rows.load, most_kg / line, by_others=True))
    return tuple(found)


def usual(lift: str, log: Mapping[str, Rows], trade: Trade) -> float | None:
    """The most that another lift speaks for in this one, by usual shares [kg]; None where none does."""
    if f"usual_{_key(lift)}" not in trade.rules:
        return None
    others = [
        float(rows.bears.max(initial=0.0)) / trade.value(f"usual_{_key(one)}")
        for one, rows in log.items()
        if one != lift and f"usual_{_key(one)}" in trade.rules
    ]
    most = max(others, default=0.0) * trade.value(f"usual_{_key(lift)}")
    return most or None


def _key(lift: str) -> str:
    return lift.replace(" ", "_")


def starts(records: Records, log: Log, trade: Trade) -> tuple[int, ...]:
    """First days of all time, of the year and of the current weeks."""
    return (
        -(10**6),
        log.as_of - int(trade.value("reference_days")),
        log.as_of - 7 * records.lifter.weeks_current,
    )
