"""Weeks filled with sessions: volume steps, light weeks, the taper."""

import datetime as dt
from dataclasses import dataclass, replace

from reportgen.analysis.block import diary, week
from reportgen.analysis.block.diary import Diary
from reportgen.analysis.block.filling import Filled, Held, by_day, fill, volume
from reportgen.analysis.block.lines import Line
from reportgen.analysis.block.rhythm import Volume, mean
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span
from reportgen.analysis.block.week import Day


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """The block's training, test day apart.

    Attributes:
        weeks: A filled day each, by week of the block.
        cut: Share of the tonnage that the taper leaves out; None without one.
    """

    weeks: tuple[dict[dt.date, Filled], ...]
    cut: float | None


def build(setting: Setting, span: Span, days: Diary) -> Schedule | None:
    """Fill every week.

    Args:
        setting: The lifter.
        span: Kinds of weeks and the taper's first day.
        days: Roles and heavy days.

    Returns:
        None where the log's volume carries not even the sessions' needed lines.
    """
    carried = list(setting.rhythm.weeks)
    found: list[dict[dt.date, Filled]] = []
    work: Volume | None = None
    expected = Volume(repetitions=0.0, tonnage_kg=0.0)
    room: list[Volume] = []
    for index, kind in enumerate(span.kinds):
        limit = _limit(setting, kind, carried, work)
        filled = _week(setting, span, days, index, limit)
        if filled is None:
            return None
        if kind in ("work", "return"):
            work = volume(filled)
        kept = [(line, sets) for line, sets in filled if not _tapered(line.day, span)]
        sunday = setting.begin + dt.timedelta(days=7 * index + 6)
        usual = _usual(setting, span, days, index, work or limit) if _tapered(sunday, span) else []
        tapered = [(line, sets) for line, sets in usual if _tapered(line.day, span)]
        expected = Volume(
            repetitions=expected.repetitions + volume(tapered).repetitions,
            tonnage_kg=expected.tonnage_kg + volume(tapered).tonnage_kg,
        )
        found.append(by_day(kept))
        room.append(limit.minus(volume(kept)))
        if kept:
            carried.append(volume(kept))
    if span.taper_start is None:
        return Schedule(weeks=tuple(found), cut=None)
    taper, share = _taper(setting, span, days, expected, room)
    for line, sets in taper:
        week_index = (line.day - setting.begin).days // 7
        found[week_index].setdefault(line.day, []).append((line, sets))
    return Schedule(weeks=tuple(dict(sorted(one.items())) for one in found), cut=share)


def _limit(setting: Setting, kind: str, carried: list[Volume], work: Volume | None) -> Volume:
    """What a week may hold: never more than a step over the last four trained weeks."""
    value = setting.trade.value
    last = tuple(carried[-int(value("volume_step_weeks")) :])
    most = mean(last).times(1 + value("volume_step_max"))
    if kind == "return" and setting.rhythm.before_break is not None:
        return most.least(setting.rhythm.before_break.times(value("return_volume")))
    if work is None:
        share = value("rested_volume") if setting.rhythm.rested else 1.0
        return most.least(setting.rhythm.carried.times(share))
    if kind == "light":
        return most.least(work.times(value("volume_light")))
    step = value("volume_step_max") if setting.trust.pause is not None else value("volume_work_step")
    return most.least(work.times(1 + step))


def _days(setting: Setting, span: Span, index: int) -> list[Day]:
    return [
        Day(date=date, kind=span.kinds[index], week=index, progress=span.progress[index])
        for date in diary.dates(setting, index, span)
    ]


def _week(setting: Setting, span: Span, days: Diary, index: int, limit: Volume) -> Filled | None:
    """One week's lines with their sets; with smaller ones where the volume is short."""
    for light in (False, True):
        lines = [
            line
            for day in _days(setting, span, index)
            for line in week.lines(
                setting,
                days,
                Day(date=day.date, kind=day.kind, week=index, progress=day.progress, lightened=light),
            )
        ]
        held = _held(setting, index)
        filled = fill([_no_more(line, held) for line in lines], limit, setting.trade, held)
        if filled is not None:
            return filled
    if span.kinds[index] in ("light", "taper"):
        # So little that nothing can be left out: the sessions stand on their needed lines alone.
        return [(line, 1) for line in lines if line.needed]
    return None


def _held(setting: Setting, index: int) -> tuple[Held, ...]:
    """What lifts on their way back after pain may hold in one week."""
    start = setting.begin + dt.timedelta(days=7 * index)
    carried = setting.rhythm.carried
    return tuple(
        (
            back.lifts,
            Volume(
                repetitions=carried.repetitions if back.repetitions is None else back.repetitions,
                tonnage_kg=carried.tonnage_kg if back.tonnage_kg is None else back.tonnage_kg,
            ).times(back.volume_share(start)),
        )
        for back in setting.trust.backs
        if start < back.until
    )


def _no_more(line: Line, held: tuple[Held, ...]) -> Line:
    """A line that comes back after pain: no session stands on it, and one set is enough."""
    coming = any(lifts & {*line.parts} for lifts, _ in held)
    return replace(line, needed=False, least=1) if coming else line


def _tapered(day: dt.date, span: Span) -> bool:
    return span.taper_start is not None and day >= span.taper_start


def _usual(setting: Setting, span: Span, days: Diary, index: int, limit: Volume) -> Filled:
    """The same week as a week of work without a test day after it: what a taper is measured against."""
    plain = Diary(
        roles=days.roles,
        singles=frozenset(),
        test_day=None,
        last_pull=None,
        last_squat=None,
    )
    start = setting.begin + dt.timedelta(days=7 * index)
    dates = [start + dt.timedelta(days=day) for day in setting.rhythm.weekdays]
    lines: list[Line] = []
    for date in dates:
        day = Day(date=date, kind="work", week=index, progress=1.0)
        lines += week.lines(setting, plain, day)
    filled = fill(lines, limit, setting.trade) or []
    return [(line, sets) for line, sets in filled if span.test_day is None or line.day < span.test_day]


def _taper(
    setting: Setting, span: Span, days: Diary, expected: Volume, room: list[Volume]
) -> tuple[Filled, float | None]:
    """Fill the days of the taper up to what the cut leaves, and say what the cut comes to.

    Args:
        setting: The lifter.
        span: The taper's first day.
        days: Roles and heavy days.
        expected: What the same days of a week of work hold.
        room: What each week may still hold beside the days before the taper.
    """
    value = setting.trade.value
    stop = int(value("taper_stop_days"))
    low, high = value("taper_volume_cut_low"), value("taper_volume_cut_high")
    wanted = span.own_cut if span.own_cut is not None else value("taper_cut_usual")
    wanted = min(high, max(low, wanted))
    lines: list[Line] = []
    for index, kind in enumerate(span.kinds):
        for date in diary.dates(setting, index, span):
            left = days.before_test(date)
            if _tapered(date, span) and left is not None and left > stop:
                day = Day(date=date, kind=kind, week=index, progress=1.0, tapered=True)
                lines += week.lines(setting, days, day)
    # Where the lines are full before so much is left over, some may grow: less than the cut is no aim.
    grown = [
        one if one.needed else replace(one, most=one.most + int(value("taper_sets_extra"))) for one in lines
    ]
    filled: Filled = []
    for cut, these in ((wanted, lines), (low, lines), (wanted, grown), (low, grown)):
        limit = Volume(repetitions=float("inf"), tonnage_kg=expected.tonnage_kg * (1 - cut))
        found = fill(these, limit, setting.trade)
        filled = found if found is not None else [(line, 1) for line in lines if line.needed]
        filled = _trimmed(filled, setting, room)
        share = 1 - volume(filled).tonnage_kg / expected.tonnage_kg if expected.tonnage_kg else None
        if share is not None and low <= share <= high:
            break
    return filled, share


def _trimmed(filled: Filled, setting: Setting, room: list[Volume]) -> Filled:
    """Take sets away, from the lines that matter least, until no week holds more than it has room for."""
    counts = dict(enumerate(sets for _, sets in filled))
    for week_index, most in enumerate(room):
        mine = [n for n, (line, _) in enumerate(filled) if (line.day - setting.begin).days // 7 == week_index]
        order = sorted(mine, key=lambda n: (-filled[n][0].weight, -n))
        while not volume([(filled[n][0], counts[n]) for n in mine]).within(most):
            spare = [n for n in order if counts[n] > (1 if filled[n][0].needed else 0)]
            if not spare:
                break
            counts[spare[0]] -= 1
    return [(line, counts[n]) for n, (line, _) in enumerate(filled) if counts[n]]
