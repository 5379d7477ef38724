"""The taper: each session below the one that it replaces, from the first day on."""

import datetime as dt
import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from reportgen.analysis.block.diary import Diary
from reportgen.analysis.block.filling import Filled, volume
from reportgen.analysis.block.lines import Line, Wanted, line
from reportgen.analysis.block.setting import Setting
from reportgen.analysis.block.span import Span
from reportgen.model.say import say

#: Cuts of the sets of a session that are tried, from the longest session to the shortest; the first is felt.
_CUTS = tuple(n / 20 for n in range(3, 15))
#: What ends before the last days.
_STRENGTH = ("pull", "squat", "press", "back", "overhead")
#: Sets of a lift that it and what follows heavy singles hold shortly before, and repetitions of a set.
_LATE = 3
#: Singles a lift on the last day of training before the test; nothing else stands on it.
_FEW = 3
#: Where too little would be left: 1 keeps squats and pulls in to the last days, 2 more than a few singles on
#: the last two, all of it light.
_SOFTEST = 2
#: Even so half of such a session goes.
_LEAST_CUT = 0.5


def lay(setting: Setting, span: Span, days: Diary, weeks: list[dict[dt.date, Filled]]) -> float | None:
    """Put the taper's sessions into the weeks, and say what they leave out.

    Args:
        setting: The lifter.
        span: The taper's first day and the cut that is wanted.
        days: Days of heavy singles and the test day.
        weeks: The filled weeks, changed in place: in those of the taper stands a week of work.

    Returns:
        The share of the tonnage that the days of the taper leave out; None where they would hold none.
    """
    assert span.taper_start is not None
    templates = _templates(span, weeks)
    if not templates:
        return None
    low, high = (setting.trade.value(f"taper_volume_cut_{edge}") for edge in ("low", "high"))
    rest = {day: lines for one in weeks for day, lines in one.items() if day < span.taper_start}
    tried = []
    for soft in range(_SOFTEST + 1):
        late = {day: _late(setting, days, day, lines, soft=soft) for day, lines in templates.items()}
        for cut in _CUTS:
            less = {day: _less(setting, days, day, templates[day], late[day], cut) for day in templates}
            tried.append(_laid(rest, less))
    basis = templates
    cuts = [_cut(basis, one) for one in tried]
    if min(cuts[: 2 * len(_CUTS)]) > high:
        # Two days a week, one of them the eve: the rest before the test is more than the cut by itself.
        basis = {day: lines for day, lines in templates.items() if tried[0][day]} or templates
        cuts = [_cut(basis, one) for one in tried]
    inside = [at for at, cut in enumerate(cuts) if low <= cut <= high]
    # No softer than it takes to leave enough.
    firm = [at for at in inside if at // len(_CUTS) == inside[0] // len(_CUTS)]
    best = min(firm or range(len(cuts)), key=lambda at: abs(cuts[at] - span.own.cut))
    for one in weeks:
        for day in [day for day in one if day >= span.taper_start]:
            del one[day]
    for day, lines in tried[best].items():
        if lines:
            weeks[(day - setting.begin).days // 7][day] = lines
    return cuts[best]


def _laid(rest: Mapping[dt.date, Filled], sessions: Mapping[dt.date, Filled]) -> dict[dt.date, Filled]:
    """The sessions, each under the one of a week before; `rest` is what stands before them."""
    every = dict(rest)
    for day, lines in sorted(sessions.items()):
        every[day] = _under(lines, every.get(day - dt.timedelta(weeks=1)))
    return {day: every[day] for day in sorted(sessions)}


def _under(lines: Filled, before: Filled | None) -> Filled:
    """The session with no more sets and less tonnage than that of a week before, be it a light one."""
    if not before:
        return lines
    counts = [sets for _, sets in lines]
    most, full_kg = sum(sets for _, sets in before), volume(before).tonnage_kg
    while sum(counts) > most or _kg(lines, counts) >= full_kg:
        # Evenly, the least important first; where one set of one lift is left the session goes.
        at = max(
            range(len(counts)),
            key=lambda at: (counts[at] > 1, counts[at] / lines[at][1], lines[at][0].weight),
        )
        counts[at] -= 1
        if not any(counts):
            return []
    return [(one, n) for (one, _), n in zip(lines, counts, strict=True) if n]


def _kg(lines: Filled, counts: list[int]) -> float:
    return sum(one.tonnage_kg * n for (one, _), n in zip(lines, counts, strict=True))


def _cut(templates: dict[dt.date, Filled], sessions: dict[dt.date, Filled]) -> float:
    full = sum(volume(lines).tonnage_kg for lines in templates.values())
    return 1 - sum(volume(sessions[day]).tonnage_kg for day in templates) / full


def _templates(span: Span, weeks: list[dict[dt.date, Filled]]) -> dict[dt.date, Filled]:
    """Day of the taper -> the session of the same weekday in the last week before it that holds one."""
    assert span.taper_start is not None
    every = {day: lines for one in weeks for day, lines in one.items()}
    kinds = {day: span.kinds[at] for at, one in enumerate(weeks) for day in one}
    before = [day for day in every if day < span.taper_start and kinds[day] in ("work", "return")]
    found: dict[dt.date, Filled] = {}
    for day in sorted(day for day in every if day >= span.taper_start):
        same = [one for one in before if one.weekday() == day.weekday()]
        found[day] = every[max(same)] if same else every[day]
    return found


def _few(setting: Setting, left: int) -> bool:
    """Whether a session is so late that it holds little."""
    return left <= int(setting.trade.value("taper_few_days"))


def _late(setting: Setting, days: Diary, day: dt.date, lines: Filled, *, soft: int) -> tuple[Filled, bool]:
    """What of a session may stand so late before the test, its loads taken back, and whether it is cut."""
    left = days.before_test(day)
    if left is None or left <= int(setting.trade.value("taper_stop_days")):
        return [], False
    few = _few(setting, left)
    if few and soft < _SOFTEST:
        return _rehearsal(setting, day, lines), False
    moved = [(replace(one, day=day), sets) for one, sets in lines]
    eased: Filled = []
    tops: dict[tuple[str, ...], float] = {}
    for one, sets in moved:
        less = _eased(setting, days, day, one, left, soft=soft > 0 and not few)
        if less is not None:
            eased.append((less, sets))
            if one.role == "single":
                tops[one.parts] = less.kg
    # Nothing leads up past what was taken back.
    eased = [
        (one, sets) for one, sets in eased if one.role != "way up" or one.kg < tops.get(one.parts, math.inf)
    ]
    goals = any(lift in one.parts for one, _ in eased for lift in setting.lifts)
    if eased and not goals and not few and left < int(setting.trade.value("last_near_limit_days_low")):
        # The last days before a test hold its lifts, lightly, in place of what derives from them.
        lifts = _rehearsal(setting, day, lines)
        strength = [(one, sets) for one, sets in eased if one.role in _STRENGTH]
        eased, goals = ([*lifts, *strength], True) if lifts else (eased, goals)
    return (eased, True) if eased and (goals or not few) else (_rehearsal(setting, day, lines), False)


def _less(
    setting: Setting, days: Diary, day: dt.date, lines: Filled, stood: tuple[Filled, bool], cut: float
) -> Filled:
    """A session as it may stand so late, with so much of its tonnage cut, the least important first."""
    eased, whole = stood
    left = days.before_test(day)
    if left is None or not whole:
        return eased
    cut = max(cut, _LEAST_CUT) if _few(setting, left) else cut
    counts = [sets for _, sets in eased]
    if left <= int(setting.trade.value("taper_late_days")):
        counts = _few_sets(eased)
    # What is left out anyway is not all of the cut: the lifts that stay are done less as well.
    most_kg = min(volume(lines).tonnage_kg * (1 - cut), volume(eased).tonnage_kg * (1 - cut / 2))
    order = sorted(range(len(eased)), key=lambda at: (-eased[at][0].weight, -eased[at][0].kg))
    while _kg(eased, counts) > most_kg:
        # One set at a time, evenly; the main lift keeps one.
        able = [at for at in order if counts[at] > 1] or [at for at in order[:-1] if counts[at]]
        if not able:
            break
        at = max(able, key=lambda at: (counts[at] / eased[at][1], eased[at][0].weight))
        counts[at] -= 1
    return [(one, n) for (one, _), n in zip(eased, counts, strict=True) if n]


def _few_sets(lines: Filled) -> list[int]:
    """Sets of each line where a lift may hold few: the heavier line of two keeps its own."""
    room, found = Counter[tuple[str, ...]](), [sets for _, sets in lines]
    for at in sorted(range(len(lines)), key=lambda at: -lines[at][0].kg):
        one, sets = lines[at]
        if one.role in (*_STRENGTH, "back-off"):
            found[at] = min(sets, _LATE - room[one.parts])
            room[one.parts] += found[at]
    return found


def _rehearsal(setting: Setting, day: dt.date, lines: Filled) -> Filled:
    """Where nothing of a session is left so late: light singles of the day's lifts, under what it held."""
    low, high = setting.trade.value("full_easy_high"), setting.trade.value("opener_rehearsal")
    found: Filled = []
    for lift in setting.platform:
        wish = Wanted(
            parts=(lift,), reps=(1,), low=low, high=high, least=1, most=_FEW, weight=1, role="full",
            need="full_lift", group=lift, serves=say("block.serves.rehearsal"),
        )  # fmt: skip
        one = line(setting, day, wish, high)
        if one is not None:
            found.append((one, wish.most))
    return found if volume(found).within(volume(lines)) else []


def _eased(setting: Setting, days: Diary, day: dt.date, one: Line, left: int, *, soft: bool) -> Line | None:
    """A line as late as this before the test: heavy pulls end first, then squats, then heavy singles."""
    value, plates = setting.trade.value, setting.stand.plates
    near = left >= int(value("last_near_limit_days_low"))
    share = float("inf")
    if one.role == "pull" and left < int(value("last_heavy_pull_days_low")):
        share = value("easy_pull")
    if one.role == "squat" and left < int(value("last_heavy_squat_days_low")):
        share = value("squat_easy_high")
    if one.role in _STRENGTH and not near and not soft:
        return None
    if not near or (one.role == "single" and day not in days.singles):
        share = min(share, value("opener_rehearsal"))
    kg = min(one.kg, plates.down(share * one.base_kg) if share < float("inf") else one.kg)
    role = "full" if one.role == "single" and kg < one.kg else one.role
    if one.role == "single" and left <= int(value("last_near_limit_days_high")):
        kg = min(kg, plates.down(setting.openers.get(one.parts[0], kg)))
    if kg < plates.bar_kg:
        return None
    lighter = kg < one.kg
    ceiling_kg = min(one.ceiling_kg or kg, kg) if lighter else one.ceiling_kg
    single = not near and len(one.parts) == 1 and setting.trade.lifts[one.parts[0]].classic
    reps = one.reps
    if one.role in _STRENGTH and left <= int(value("taper_late_days")):
        reps = tuple(min(n, _LATE) for n in reps)
    return replace(
        one,
        kg=kg,
        reps=(1,) if single else reps,
        floor_kg=min(one.floor_kg, kg),
        ceiling_kg=ceiling_kg,
        role=role,
    )
