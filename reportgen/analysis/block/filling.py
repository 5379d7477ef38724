"""How many sets of each line: from what the sessions stand on up to what is carried, group by group."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping

from reportgen.analysis.block.carried import Volume
from reportgen.analysis.block.lines import Line, prilepin
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

Filled = list[tuple[Line, int]]
#: Some lifts and what they may come to together.
Held = tuple[frozenset[str], Volume]
_HAIR = 1e-9
#: Roles that may hold more sets than usual where the week holds too little.
_GROW = ("derivative", "pull", "squat", "overhead", "press", "back")
#: Roles of which one set is no work.
_SCRAPS = ("derivative", "other", "overhead")
#: Roles of which a further day may stand beside a lift that would be alone.
_BESIDE = ("squat", "pull")
#: Roles that grow by no group: the way up is as long as it is.
_UP = ("single", "way up")
#: Groups of usual work that is not the goal's lift, nor what stands beside it by a need.
_USUAL = ("pull", "back squat", "front squat", "overhead", "press", "back")
#: What has its place before anything grows, in this order; then come lines up to the weight `_FIRST`.
_BEGIN: tuple[tuple[str, ...], ...] = (("single", "way up"), ("other",), _BESIDE)
_FIRST = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """What a week is to hold.

    Attributes:
        most: Never more.
        groups: Group of lifts -> tonnage of it [kg].
        tonnage_kg: Of the whole week: where the groups do not come to it, others grow.
        held: Lifts on their way back after pain, which hold less than the rest.
        raised: Groups that a need raises.
        light: Only the goal's lifts come to Prilepin's low ends.
        modest: No session holds more sets of pulls than of classic lifts.
    """

    most: Volume
    groups: Mapping[str, float]
    tonnage_kg: float
    held: tuple[Held, ...] = ()
    raised: frozenset[str] = frozenset()
    light: bool = False
    modest: bool = False


def volume(filled: Filled) -> Volume:
    """Repetitions and tonnage of lines with their sets."""
    counts = [(line.kg, line.repetitions, sets) for line, sets in filled]
    return Volume(
        repetitions=sum(reps * sets for _, reps, sets in counts),
        tonnage_kg=sum(kg * reps * sets for kg, reps, sets in counts),
    )


def by_day(filled: Filled) -> dict[dt.date, Filled]:
    """The lines of each day."""
    days: dict[dt.date, Filled] = defaultdict(list)
    for line, sets in filled:
        days[line.day].append((line, sets))
    return dict(sorted(days.items()))


class _Week:
    """Lines of one week and the sets given so far."""

    def __init__(self, lines: list[Line], aim: Aim, trade: Trade) -> None:
        self.lines, self.aim, self.trade = lines, aim, trade
        self.counts = [0] * len(lines)

    def filled(self) -> Filled:
        return [(line, sets) for line, sets in zip(self.lines, self.counts, strict=True) if sets]

    def session(self, day: dt.date) -> Filled:
        return [(line, sets) for line, sets in self.filled() if line.day == day]

    def group(self, name: str) -> float:
        return volume([(line, sets) for line, sets in self.filled() if line.group == name]).tonnage_kg

    def fits(self) -> bool:
        every = self.filled()
        if not volume(every).within(self.aim.most):
            return False
        return all(
            volume([(one, n) for one, n in every if lifts & {*one.parts}]).within(most)
            for lifts, most in self.aim.held
        )

    def modest(self, line: Line) -> bool:
        """Whether the pulls of a day stand over its classic lifts no more than they may."""
        if not self.aim.modest or line.role != "pull":
            return True
        day = self.session(line.day)
        classic = sum(n for one, n in day if any(self.trade.lifts[part].classic for part in one.parts))
        return sum(n for one, n in day if one.role == "pull") <= max(1, classic)

    def add(self, at: int, sets: int = 1) -> bool:
        """Add sets to a line where the volume and the session's upper bound allow it."""
        line = self.lines[at]
        if sets < 1 or self.counts[at] + sets > line.most:
            return False
        self.counts[at] += sets
        whole = self.trade.value("prilepin_load_max") + _HAIR
        if self.fits() and self.modest(line) and prilepin(self.session(line.day), self.trade) <= whole:
            return True
        self.counts[at] -= sets
        return False


def fill(lines: list[Line], aim: Aim, trade: Trade, *, least: bool = False) -> Filled | None:
    """Give lines their sets, what matters most first.

    The lines that sessions stand on; the goal's lifts up to Prilepin's low ends; what a need raises; most of
    the usual work; the other lines; then every group what it carries, and the week what it is to hold.

    Args:
        lines: Lines of one week.
        aim: What they are to come to.
        trade: Zones.
        least: The needed lines alone, a set each, and what stands beside them.

    Returns:
        Lines with at least one set, in the order given; None where not even the needed ones fit.
    """
    week = _Week(lines, aim, trade)
    for at, line in enumerate(lines):
        week.counts[at] = int(line.needed)
    if not week.fits():
        return None
    if least:
        _without_lone_days(week)
        return week.filled()
    order = sorted(range(len(lines)), key=lambda at: (lines[at].weight, lines[at].day))
    for roles in _BEGIN:
        for at in order:
            if lines[at].role in roles:
                _begin(week, at)
    _begin_evenly(week, [at for at in order if lines[at].weight <= _FIRST])
    for at in order:
        if lines[at].role in ("full", "back-off"):
            _begin(week, at)
            _to_low_end(week, at)
    raised = {name: kg for name, kg in aim.groups.items() if name in aim.raised}
    usual = {name: kg * trade.value("kept_first") for name, kg in aim.groups.items() if name in _USUAL}
    _to_groups(week, order, raised)
    _to_groups(week, order, {name: kg for name, kg in usual.items() if name not in raised})
    for at in order:
        _begin(week, at)
        if lines[at].role in ("derivative", "other") and not aim.light:
            _to_low_end(week, at)
    _to_groups(week, order, aim.groups)
    _without_scraps(week, order)
    _to_whole(week, order)
    _without_lone_days(week)
    return week.filled()


def _least(week: _Week, at: int) -> int:
    """The least number of sets of a line: its own.

    A day more of squats or pulls, which stands beside a lift that would be alone, is one set where the week
    holds its part of them already: the room is the goal lift's.
    """
    line = week.lines[at]
    part = week.aim.groups.get(line.group, 0.0) if line.role in _BESIDE else 0.0
    if not part:
        return line.least
    left = part - week.group(line.group) + week.counts[at] * line.tonnage_kg
    return min(line.least, max(1, int(left / line.tonnage_kg + 1 / 2)))


def _begin(week: _Week, at: int) -> None:
    """The least number of sets of a line; where these do not fit, as many of them as do."""
    any(week.add(at, sets) for sets in range(_least(week, at) - week.counts[at], 0, -1))


def _begin_evenly(week: _Week, some: list[int]) -> None:
    """The same a set at a time: no day of a light week has all that is left, and the next a single set."""
    added = 1
    while added:
        added = sum(week.counts[at] < _least(week, at) and week.add(at) for at in some)


def _to_low_end(week: _Week, at: int) -> None:
    """Add sets until the lift's repetitions of the session come to the low end of Prilepin's ranges."""
    line = week.lines[at]
    while (
        week.counts[at]
        and prilepin(week.session(line.day), week.trade, line.parts[0], low=True) < 1 - _HAIR
        and week.add(at)
    ):
        pass


def _to_groups(week: _Week, order: list[int], groups: Mapping[str, float]) -> None:
    """Grow the groups that lie furthest under their part, each until less than half a set is missing."""
    open_ = {line.group for line in week.lines if groups.get(line.group, 0.0) > 0}
    done = {group: week.group(group) for group in open_}
    while open_:
        group = min(open_, key=lambda name: (done[name] / groups[name], name))
        mine = [at for at in order if week.lines[at].group == group and week.lines[at].role not in _UP]
        mine.sort(key=lambda at: week.counts[at] / max(1, week.lines[at].least))
        missing = groups[group] - done[group]
        added = next((at for at in mine if week.lines[at].tonnage_kg / 2 <= missing and week.add(at)), None)
        if added is None:
            open_.discard(group)
        else:
            done[group] += week.lines[added].tonnage_kg


def _without_scraps(week: _Week, order: list[int]) -> None:
    """Leave out what has room for one set only, where its day holds two other exercises."""
    for at in order:
        line = week.lines[at]
        others = {(one.parts, one.variant) for one, _ in week.session(line.day) if one is not line}
        if week.counts[at] == 1 < line.least and line.role in _SCRAPS and len(others) > 1:
            week.counts[at] = 0


def _without_lone_days(week: _Week) -> None:
    """No session of one exercise alone: a set of another of its day, for one of the longest line."""
    for day in dict.fromkeys(line.day for line, _ in week.filled()):
        there = {line.parts for line, _ in week.session(day)}
        others = [at for at, one in enumerate(week.lines) if one.day == day and one.parts not in there]
        for at in sorted(others, key=lambda at: week.lines[at].tonnage_kg) if len(there) == 1 else ():
            counts = [*week.counts]
            while not week.add(at) and max(week.counts) > 1:
                week.counts[week.counts.index(max(week.counts))] -= 1
            if week.counts[at]:
                break
            week.counts = counts


def _to_whole(week: _Week, order: list[int]) -> None:
    """Where groups are full or left out before the week holds what it is to hold, the others take it up."""
    growing = [
        at for at in order if week.counts[at] and week.lines[at].role in _GROW and week.lines[at].most > 1
    ]
    whole_kg = week.aim.tonnage_kg
    while growing and volume(week.filled()).tonnage_kg < whole_kg:
        growing = [at for at in growing if volume(week.filled()).tonnage_kg < whole_kg and week.add(at)]
