"""Weeks filled with sessions: what each is to hold of what is carried, light weeks, the taper."""

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import replace

from reportgen.analysis.block import diary, taper, week
from reportgen.analysis.block.carried import Volume, mean
from reportgen.analysis.block.diary import Diary
from reportgen.analysis.block.filling import Aim, Filled, Held, by_day, fill, volume
from reportgen.analysis.block.lines import Line
from reportgen.analysis.block.lines import at as line_at
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span
from reportgen.analysis.block.week import Day
from reportgen.model.values import dataclass

#: A lift, how it is done, its role, its weekday, and whether it is the one set over the rest.
Place = tuple[object, ...]
#: Less than this share of a group is no room that anybody would name.
_FELT = 0.015
_ANY = Volume(repetitions=math.inf, tonnage_kg=math.inf)


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """The block's training, test day apart.

    Attributes:
        weeks: A filled day each, by week of the block.
        cut: Share of the tonnage that the taper leaves out; None without one.
        loads_kg, shares: What each week holds, and that as a share of what is carried.
        stepped: Weeks of work that hold less since the last weeks held less: no week steps up by more.
        room: Groups that give room to what a need raises.
    """

    weeks: tuple[dict[dt.date, Filled], ...]
    cut: float | None
    loads_kg: tuple[float, ...]
    shares: tuple[float, ...]
    stepped: bool
    room: tuple[str, ...]


def build(setting: Setting, span: Span, days: Diary) -> Schedule | None:
    """Fill every week.

    Args:
        setting: The lifter.
        span: Kinds of weeks and the taper's first day.
        days: Roles and heavy days.

    Returns:
        None where the log's volume carries not even the sessions' needed lines.
    """
    recent, last = list(setting.carried.recent), dict[Place, float]()
    found: list[dict[dt.date, Filled]] = []
    stepped, room = False, dict[str, None]()
    carried = _groups(setting, 1.0)
    for index, kind in enumerate(span.kinds):
        # The sessions that a week lacks are not made up for in the others.
        part = len(diary.dates(setting, index, span)) / max(1, len(setting.carried.weekdays))
        wanted = _share(setting, span, index) * part
        aim, short = _aim(setting, index, kind, wanted, recent)
        filled = _week(setting, span, days, index, aim, last)
        if filled is None:
            return None
        if kind != "light":
            last |= {_place(line): line.kg for line, _ in filled}
        stepped |= short and kind == "work" and "work" not in span.kinds[:index]
        if kind == "work":
            given = (name for name, kg in aim.groups.items() if kg < carried[name] * wanted * (1 - _FELT))
            room |= dict.fromkeys(given)
        filled_days = by_day(filled)
        found.append(filled_days)
        if kind != "taper" and filled_days:
            recent.append(volume(filled))
    cut = None
    if span.taper_start is not None:
        cut = taper.lay(setting, span, days, found)
    loads_kg = tuple(volume([line for lines in one.values() for line in lines]).tonnage_kg for one in found)
    whole_kg = max(1.0, setting.carried.week.tonnage_kg)
    return Schedule(
        weeks=tuple(dict(sorted(one.items())) for one in found),
        cut=cut,
        loads_kg=loads_kg,
        shares=tuple(kg / whole_kg for kg in loads_kg),
        stepped=stepped,
        room=tuple(room),
    )


def _share(setting: Setting, span: Span, index: int) -> float:
    """How much of what is carried a week is to hold: from a little less to a little more within each run."""
    value, kind = setting.trade.value, span.kinds[index]
    if kind == "light":
        return value("volume_light")
    if kind == "return":
        return value("return_volume")
    run = 0
    while index > run and span.kinds[index - run - 1] == "work":
        run += 1
    first = "rested_volume" if setting.carried.rested and "work" not in span.kinds[:index] else "work_first"
    run -= run > 0 and index == span.late
    low, step = value(first), value("volume_work_step")
    if setting.chased:
        low -= value("work_chased_less")
    return min(value("work_most"), low + step * run)


def _groups(setting: Setting, share: float) -> dict[str, float]:
    """Group of lifts -> so much of a week's tonnage, of the lifts that may be proposed."""
    found: dict[str, float] = {}
    for one in setting.carried.usual.values():
        if one.lift not in setting.trust.banned:
            found[one.group] = found.get(one.group, 0.0) + one.tonnage_kg * share
    return found


def _raised(setting: Setting, groups: dict[str, float]) -> dict[str, float]:
    """The groups with a step more of what a need raises; what that is over the whole the others give."""
    value = setting.trade.value
    whole = sum(groups.values())
    more = {name: kg * (1 + setting.raised_step) for name, kg in groups.items() if name in setting.raised}
    rest = sum(kg for name, kg in groups.items() if name not in more)
    over = sum(more.values()) + rest - whole * (1 + value("work_over"))
    less = max(0.0, 1 - max(0.0, over) / rest) if rest else 1.0
    return {name: more.get(name, kg * less) for name, kg in groups.items()}


def _aim(setting: Setting, index: int, kind: str, share: float, recent: list[Volume]) -> tuple[Aim, bool]:
    """What a week is to hold, and whether the step up from the last weeks is what bounds it."""
    value = setting.trade.value
    step = mean(tuple(recent[-int(value("volume_step_weeks")) :])).times(1 + value("volume_step_max"))
    groups = _groups(setting, share)
    whole = sum(groups.values())
    if kind in ("work", "taper"):
        groups = _raised(setting, groups)
    rested = setting.carried.rested and kind == "work" and share <= value("rested_volume")
    reps = share * setting.carried.week.repetitions if rested else float("inf")
    most = Volume(repetitions=reps, tonnage_kg=whole * (1 + value("work_over")))
    if kind == "return" and setting.carried.before_break is not None:
        most = setting.carried.before_break.times(value("return_volume"))
    bound = most.least(step)
    aim = Aim(
        most=bound,
        groups=groups,
        tonnage_kg=min(sum(groups.values()), bound.tonnage_kg) * (1 - value("work_over")),
        held=_held(setting, index),
        raised=frozenset(setting.raised) if kind in ("work", "taper") else frozenset(),
        light=kind == "light",
        modest=setting.modest,
    )
    return aim, bound.tonnage_kg < whole * (1 - value("work_over"))


def _week(
    setting: Setting, span: Span, days: Diary, index: int, aim: Aim, last: Mapping[Place, float]
) -> Filled | None:
    """One week's lines with their sets; with smaller ones where the volume is short.

    No load climbs far over the one of the last week that held its line: triples that become doubles, and
    coarse plates, would make it a jump.
    """
    kind = "work" if span.kinds[index] == "taper" else span.kinds[index]
    # A light week and the taper go no step further than the week of work before them.
    before = span.kinds[: min(index, span.work_ends)]
    step = max(0, sum(one != "light" for one in before) - (kind == "light" or index >= span.work_ends))
    lines: list[Line] = []
    for light in (False, True):
        lines = []
        for date in diary.dates(setting, index, span):
            day = Day(date=date, kind=kind, step=step, progress=span.progress[index], lightened=light)
            lines += _together(setting, days, day)
        lines = week.distinct([_climbed(setting, _no_more(line, aim.held), last) for line in lines])
        filled = fill(lines, aim, setting.trade)
        if filled is not None:
            return filled
    if kind == "light":
        # So little that nothing can be left out: the sessions stand on their needed lines, a set of each.
        return fill(lines, replace(aim, most=_ANY), setting.trade, least=True)
    return None


def _together(setting: Setting, days: Diary, day: Day) -> list[Line]:
    """A day's lines, at least two exercises among them: none is a session of one alone."""
    lines = week.lines(setting, days, day)
    if not lines:
        return lines
    main = min(lines, key=lambda line: line.weight)
    others = [line for line in lines if line.parts != main.parts]
    if not others:
        beside = week.beside(setting, days, day)
        squat = setting.sore and main.role == "squat"
        others = [x for x in beside if x.parts != main.parts and not (squat and x.role == "squat")][:1]
        lines = [*lines, *others]
    for one in [main, *sorted(others, key=lambda line: line.weight)[:1]]:
        lines[lines.index(one)] = replace(one, weight=min(one.weight, 1))
    return lines


def _place(line: Line) -> Place:
    """Where a line stands in every week, be it of other repetitions."""
    return *line.parts, line.variant, line.aid, line.role, line.day.weekday(), line.most == 1


def _climbed(setting: Setting, line: Line, last: Mapping[Place, float]) -> Line:
    """The line, no further over its last load than a week may climb; singles follow their own rules."""
    before_kg, plates = last.get(_place(line)), setting.stand.plates
    if before_kg is None or line.role in ("single", "way up"):
        return line
    step_kg = plates.step * plates.unit_kg
    most_kg = max(plates.down(before_kg * (1 + setting.trade.value("line_step_max"))), before_kg + step_kg)
    return line if line.kg <= most_kg else line_at(line, most_kg, plates, setting.trade)


def _held(setting: Setting, index: int) -> tuple[Held, ...]:
    """What lifts on their way back after pain may hold in one week."""
    start = setting.begin + dt.timedelta(days=7 * index)
    carried = setting.carried.week
    return tuple(
        (
            back.lifts,
            Volume(
                repetitions=carried.repetitions if back.repetitions is None else back.repetitions,
                tonnage_kg=carried.tonnage_kg if back.tonnage_kg is None else back.tonnage_kg,
            ).times(back.share("volume", start)),
        )
        for back in setting.trust.backs
        if start < back.until
    )


def _no_more(line: Line, held: tuple[Held, ...]) -> Line:
    """A line that comes back after pain: no session stands on it, and one set is enough."""
    coming = any(lifts & {*line.parts} for lifts, _ in held)
    return replace(line, needed=False, least=1) if coming else line
