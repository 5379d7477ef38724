"""One line of a session: a lift, its load between a floor and a ceiling, and how many sets at most."""

import datetime as dt
from dataclasses import fields, replace

from reportgen.analysis.block.plates import Plates
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.stand import Base
from reportgen.model.say import Say
from reportgen.model.values import dataclass
from reportgen.trade import formulas
from reportgen.trade.schema import Trade

#: Order of a session: snatch, clean and jerk, overhead work, pulls, squats, the rest.
_FAMILIES = ("snatch", "clean and jerk")
_ROLES = {"overhead": 20, "pull": 30, "squat": 40}
_REST = 50
#: What is left of a share after division is no reason to lose a whole kilogram.
_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a line is for.

    Attributes:
        parts, reps: The lift, or the parts of a complex, and the repetitions of each a set.
        least, most: Sets.
        weight: Lines of a small weight are kept longest where volume is short.
        group: What it counts as in a week (`carried.group_of`).
        needed: The session stands on this line.
    """

    parts: tuple[str, ...]
    reps: tuple[int, ...]
    least: int
    most: int
    weight: int
    role: str
    need: str
    serves: Say
    group: str
    variant: str = ""
    aid: str = ""
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Asked):
    """A line before it is known whether the lift can be proposed.

    Attributes:
        low, high: Shares of the base: the load, and the ceiling of the line.
        of: The lift whose base is taken; "" = the first part's own.
        own_kg: The base where the lift has none: what it is usually done with.
    """

    low: float
    high: float
    of: str = ""
    own_kg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(Asked):
    """A line before its number of sets is known."""

    day: dt.date
    kg: float
    floor_kg: float
    ceiling_kg: float | None
    base_kg: float
    borrowed: bool = False

    @property
    def share(self) -> float:
        """The load as a share of its base."""
        return self.kg / self.base_kg

    @property
    def repetitions(self) -> int:
        """Repetitions a set, all parts."""
        return sum(self.reps)

    @property
    def tonnage_kg(self) -> float:
        """Kilograms a set."""
        return self.kg * self.repetitions


def line(setting: Setting, day: dt.date, wanted: Wanted, cap: float) -> Line | None:
    """Turn a wish into a line with loads of the lifter's plates, or None.

    Args:
        setting: The lifter.
        day: Day of the session.
        wanted: The wish.
        cap: Share of the base that the week's careful rules allow at most.

    Returns:
        None where a part is banned, nothing is known to take a load from, or the empty bar is more than
        the line may weigh.
    """
    if set(wanted.parts) & setting.trust.banned:
        return None
    bases = [setting.stand.base(part) for part in ((wanted.of,) if wanted.of else wanted.parts)]
    if wanted.own_kg and bases == [None]:
        bases = [Base(kg=wanted.own_kg)]
    known = [base for base in bases if base is not None]
    if not bases or len(known) != len(bases):
        return None
    base = min(known, key=lambda one: one.kg)
    top = min(wanted.high, cap)
    new = not all(map(setting.stand.done, wanted.parts))
    if base.borrowed and new and wanted.role in ("derivative", "overhead"):
        # Never done, not even as a part of the lift: it is brought in lightly and stays there.
        top = min(top, setting.trade.value("derivative_low"))
    plates = setting.stand.plates
    ceiling_kg = plates.down(top * base.kg)
    ceiling_kg = min(ceiling_kg, plates.down(most_kg(setting, day, wanted, base)))
    found: float | None = min(plates.down(min(wanted.low, top) * base.kg), ceiling_kg)
    if wanted.role == "single":
        able_kg = _able_kg(setting, wanted.parts[0], base)
        near_kg = plates.below(setting.trade.value("chase_share") * base.kg)
        ceiling_kg = min(ceiling_kg, plates.down(top * able_kg), near_kg)
        found = _heavy(base, able_kg, wanted.low, ceiling_kg, plates, setting.trade)
    if plates.bar_kg > ceiling_kg or found is None:
        return None
    kg = max(found, plates.bar_kg)
    asked = {one.name: getattr(wanted, one.name) for one in fields(Asked)}
    return Line(
        day=day,
        kg=kg,
        floor_kg=_floor(kg, plates, setting.trade),
        ceiling_kg=ceiling_kg,
        base_kg=base.kg,
        borrowed=base.borrowed,
        **asked,
    )


def at(one: Line, kg: float, plates: Plates, trade: Trade) -> Line:
    """The same line at a lower load."""
    return replace(one, kg=kg, floor_kg=_floor(kg, plates, trade))


def _floor(kg: float, plates: Plates, trade: Trade) -> float:
    return min(kg, max(plates.bar_kg, plates.up(kg * (1 - trade.value("line_floor")))))


def most_kg(setting: Setting, day: dt.date, wanted: Wanted, base: Base) -> float:
    """What no set of a line goes above, whatever its share: the one place where a load gets its ceiling.

    Under the load from which a checkpoint is off; under what was ever lifted for so many repetitions; and for
    some weeks after pain under what was done before it.
    """
    found = []
    for part, reps in zip(wanted.parts, wanted.reps, strict=True):
        found.append(setting.stand.ceilings_kg.get(part, float("inf")))
        found.append(setting.stand.record.most_kg(part, reps, wanted.of, base.kg, setting.trade))
        backs = (back.most_kg(part, day, base.kg) for back in setting.trust.backs)
        found += [kg for kg in backs if kg is not None]
    return min(found)


def likely_kg(setting: Setting, lift: str) -> float | None:
    """The heaviest single that an ordinary day makes likely enough; None where the log can't tell."""
    able = setting.expected.lifts.get(lift)
    return None if able is None else able.heaviest(setting.trade.value("single_chance_least"))


def _able_kg(setting: Setting, lift: str, base: Base) -> float:
    """What heavy singles are shares of: the base, or less where their heaviest would be likelier a miss."""
    likely = likely_kg(setting, lift)
    return base.kg if likely is None else min(base.kg, likely / setting.trade.value("single_high"))


def _heavy(
    base: Base, able_kg: float, share: float, ceiling_kg: float, plates: Plates, trade: Trade
) -> float | None:
    """A heavy single; None where the ceiling is too low."""
    heavy = trade.value("heavy_share")
    least_kg = max(trade.value("single_least") * base.kg, heavy * able_kg)
    kg = min(plates.up(max(share, heavy) * able_kg), ceiling_kg)
    least_kg = min(least_kg, heavy * base.kg) - _HAIR
    if kg < least_kg and plates.unit == "lb":
        # Five pounds lie between two loads: the one under the ceiling is the heavy single.
        least_kg = max(least_kg - plates.step * plates.unit_kg, trade.value("single_least") * base.kg)
    return kg if kg >= least_kg else None


def rank(line: Line, trade: Trade) -> tuple[int, int, float]:
    """Where a line stands in its session."""
    first = trade.lifts[line.parts[0]]
    if first.role in _ROLES:
        place = _ROLES[first.role]
    elif first.family in _FAMILIES:
        place = 10 * _FAMILIES.index(first.family) + (0 if first.role == "goal" else 5)
    else:
        place = _REST
    # Light to heavy; what follows the heavy singles comes after them.
    return place, int(line.role == "back-off"), line.kg


def prilepin(lines: list[tuple[Line, int]], trade: Trade, lift: str = "", *, low: bool = False) -> float:
    """The fullest classic lift of one session, or one lift: repetitions / zone's end, summed over zones.

    Args:
        lines: Lines of one session with their sets.
        trade: Zones and lifts.
        lift: Of this lift alone.
        low: Against the zones' low ends in place of the upper ones.

    References:
        Prilepin's table; a session's zones together come to 1 of the upper ends at most, and to 1 of the low
        ones at least.
    """
    taken: dict[str, list[float]] = {}
    for one, sets in lines:
        zone = formulas.zone_index(one.share, trade.zones)
        for part, reps in zip(one.parts, one.reps, strict=True):
            if trade.lifts[part].classic and lift in ("", part):
                taken.setdefault(part, [0.0] * len(trade.zones))[zone] += sets * reps
    return max((formulas.prilepin_load(reps, trade.zones, low=low) for reps in taken.values()), default=0.0)
