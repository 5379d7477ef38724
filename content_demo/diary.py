"""How the demo's training logs are made up: weeks in waves, warm-ups, misses, tapers, test days.

Everybody in the demo is invented. The same seed gives the same bytes on every machine: only
`random.Random.random` is drawn from, and loads are whole steps of the bar.
"""

import datetime as dt
import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

DAY = dt.timedelta(days=1)
WAVE = ((-0.03, 1.0), (0.0, 1.12), (0.03, 1.0), (-0.06, 0.58))  # load offset, volume: light every fourth
SQUAT_SHAPES = ((5, -0.05), (4, -0.02), (3, 0.02))  # repetitions, load offset, a block of four weeks each


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a training log, in the lifter's own unit."""

    date: dt.date
    lift: str
    load: int
    sets: int = 1
    reps: str = "1"
    made: str = ""
    miss: str = ""
    variant: str = ""
    aid: str = ""
    effort: str = ""
    session: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One exercise of a session: `top` is a share of the curve of `of` (the lift itself if empty)."""

    lift: str
    top: float
    reps: int
    sets: int
    kind: str = "classic"  # classic, squat, pull, light
    of: str = ""
    variant: str = ""
    aid: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Try:
    """One set of an arranged day, such as a heavy single or a miss above it."""

    load: int
    made: int = 1
    reps: int = 1
    miss: str = ""
    effort: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper:
    """Less training before `day`: `days` long, `cut` of the volume, a ramp or one step."""

    day: dt.date
    days: int
    cut: float
    ramp: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Story:
    """All that makes one lifter's log."""

    seed: int
    first: dt.date
    last: dt.date
    step: int
    curves: Mapping[str, Sequence[tuple[dt.date, float]]]
    sessions: Callable[[dt.date, int], Sequence[Item]]
    misses: Mapping[str, Sequence[tuple[str, float]]]
    caps: Mapping[str, Sequence[tuple[dt.date, float]]] = field(default_factory=dict)
    tapers: Sequence[Taper] = ()
    off: Sequence[tuple[dt.date, dt.date]] = ()
    arranged: Mapping[dt.date, Mapping[str, Sequence[Try]]] = field(default_factory=dict)
    tests: Mapping[dt.date, Mapping[str, int]] = field(default_factory=dict)  # day: lift: opener
    remarks: Sequence[str] = ()
    skip: float = 0.03
    block_start: dt.date | None = None
    wave: Sequence[tuple[float, float]] = WAVE
    shaky: float = 1.0
    efforts: float = 0.35
    plan_from: dt.date | None = None
    weeks: Mapping[dt.date, int] = field(default_factory=dict)  # Monday: place in the wave instead


def between(points: Sequence[tuple[dt.date, float]], day: dt.date) -> float:
    """The value of a broken line on one day; flat outside it."""
    if day <= points[0][0]:
        return points[0][1]
    for (left, low), (right, high) in pairwise(points):
        if day <= right:
            return low + (high - low) * (day - left).days / (right - left).days
    return points[-1][1]


def standing(points: Sequence[tuple[dt.date, float]], day: dt.date) -> float:
    """The last value of a stair that was reached before this day."""
    reached = [value for start, value in points if start < day]
    return reached[-1] if reached else points[0][1]


class Diary:
    """Writes one lifter's log from a story."""

    def __init__(self, story: Story) -> None:
        self.story = story
        self.draw = random.Random(story.seed)
        self.rows: list[Row] = []
        self.planned: list[Row] = []

    def written(self) -> "Diary":
        """Walk through the days; returns itself with `rows` and `planned` filled."""
        story = self.story
        day = story.first
        while day <= story.last:
            self._day(day)
            day += DAY
        self.rows = merged(self.rows)
        self.planned = merged(self.planned)
        return self

    def _day(self, day: dt.date) -> None:
        story = self.story
        if day in story.tests:
            for lift, opener in story.tests[day].items():
                self._climb(
                    day, Item(lift=lift, top=1.0, reps=1, sets=1), opener, (0.45, 0.6, 0.72, 0.82, 0.9)
                )
            return
        week = (day - (story.block_start or story.first)).days // 7
        items = list(story.sessions(day, week))
        if not items:
            return
        off = any(start <= day <= end for start, end in story.off)
        eve = any(day + DAY == test for test in story.tests)
        skipped = self.draw.random() < story.skip and day not in story.arranged
        place = story.weeks.get(day - day.weekday() * DAY, week % len(story.wave))
        offset, volume = story.wave[place]
        taper = self.taper_factor(day)
        if taper < 1.0:
            offset, volume = max(offset, 0.0), taper
        if story.plan_from is not None and day >= story.plan_from and not off and not eve:
            self._plan(day, items, offset, volume, week)
        if off or eve or (skipped and taper == 1.0):
            return
        keep = len(items) - (1 if volume < 0.55 else 0) - (1 if volume < 0.4 else 0)
        arranged = dict(story.arranged.get(day, {}))
        for item in items[: max(2, keep)]:
            tries = arranged.pop(item.lift, None)
            if tries is None:
                self._exercise(day, item, offset, volume, week)
            else:
                self._arranged(day, item, tries)
        for lift, tries in arranged.items():
            self._arranged(day, Item(lift=lift, top=1.0, reps=1, sets=1), tries)

    def taper_factor(self, day: dt.date) -> float:
        """Share of the usual volume left on this day; 1.0 outside a taper."""
        for taper in self.story.tapers:
            left = (taper.day - day).days
            if 0 < left <= taper.days:
                if not taper.ramp:
                    return 1.0 - taper.cut
                return 1.0 - taper.cut * (0.6 + 0.8 * (1 - left / taper.days))
        return 1.0

    def load(self, item: Item, day: dt.date, share: float) -> int:
        """A load on the bar in whole steps, under the cap of that day."""
        name = item.of or item.lift
        value = between(self.story.curves[name], day) * share
        if name in self.story.caps and item.kind == "classic":
            value = min(value, standing(self.story.caps[name], day))
        return max(self.story.step, round(value / self.story.step) * self.story.step)

    def _shape(self, item: Item, offset: float, week: int) -> tuple[int, float]:
        if item.kind == "squat":
            reps, shift = SQUAT_SHAPES[week // len(self.story.wave) % len(SQUAT_SHAPES)]
            return reps, item.top + offset + shift
        if item.kind == "light":
            return item.reps, item.top + offset / 2
        return item.reps, item.top + offset

    def _plan(self, day: dt.date, items: Sequence[Item], offset: float, volume: float, week: int) -> None:
        for item in items:
            reps, share = self._shape(item, offset, week)
            self.planned.append(
                Row(
                    date=day,
                    lift=item.lift,
                    load=self.load(item, day, share),
                    reps=form(item.lift, reps),
                    sets=max(1, round(item.sets * volume)),
                    variant=item.variant,
                    aid=item.aid,
                )
            )

    def _exercise(self, day: dt.date, item: Item, offset: float, volume: float, week: int) -> None:
        reps, share = self._shape(item, offset, week)
        share += 0.012 * (self.draw.random() - 0.5)
        top = self.load(item, day, share)
        sets = max(1, round(item.sets * volume))
        steps = {"classic": (0.52, 0.66, 0.78, 0.89), "squat": (0.5, 0.68, 0.84), "pull": (0.8,), "light": ()}
        warm = steps[item.kind]
        self._climb(day, item, top, warm[1:] if volume < 0.6 and len(warm) > 2 else warm)
        lead = min(sets - 2, 3) if reps == 1 and "+" not in item.lift else min(sets - 2, 1)
        if item.kind == "classic":
            for left in range(lead, 0, -1):
                self._sets(day, item, top - left * self.story.step, reps, 1, share - 0.016 * left)
                sets -= 1
        self._sets(day, item, top, reps, sets, share)

    def _climb(self, day: dt.date, item: Item, top: int, shares: Iterable[float]) -> None:
        for place, share in enumerate(shares):
            load = round(top * share / self.story.step) * self.story.step
            reps = 3 if place < 2 else 2
            self.rows.append(
                Row(
                    date=day,
                    lift=item.lift,
                    load=load,
                    reps=form(item.lift, min(reps, 3)),
                    variant=item.variant,
                )
            )

    def _sets(self, day: dt.date, item: Item, load: int, reps: int, sets: int, share: float) -> None:
        if item.kind != "classic":
            effort = self._effort(share + 0.03 * (reps - 1)) if item.kind == "squat" else ""
            self.rows.append(self._row(day, item, load, reps, sets, effort))
            return
        clean = 0
        for number in range(sets):
            failed = sum(self.draw.random() < self._danger(share + 0.012 * number) for _ in range(reps))
            if not failed:
                clean += 1
                continue
            kind = self._kind(item)
            done = form(item.lift, reps - failed) if "+" not in item.lift else f"{reps}+{reps - failed}"
            self.rows.append(
                replace(self._row(day, item, load, reps, 1, ""), made=done, miss=kind, remark="")
            )
        if clean:
            self.rows.append(
                self._row(day, item, load, reps, clean, self._effort(share + 0.025 * (reps - 1)))
            )

    def _row(self, day: dt.date, item: Item, load: int, reps: int, sets: int, effort: str) -> Row:
        remarks = self.story.remarks
        said = (
            remarks[int(self.draw.random() * len(remarks))] if self.draw.random() < 0.018 and remarks else ""
        )
        return Row(
            date=day,
            lift=item.lift,
            load=load,
            sets=sets,
            reps=form(item.lift, reps),
            variant=item.variant,
            aid=item.aid,
            effort=effort,
            remark=said,
        )

    def _arranged(self, day: dt.date, item: Item, tries: Sequence[Try]) -> None:
        self._climb(day, replace(item, variant="", aid=""), tries[0].load, (0.5, 0.66, 0.8, 0.91))
        for one in tries:
            self.rows.append(
                Row(
                    date=day,
                    lift=item.lift,
                    load=one.load,
                    reps=form(item.lift, one.reps),
                    miss=one.miss,
                    made="" if one.made == one.reps else form(item.lift, one.made),
                    effort=one.effort,
                    remark=one.remark,
                )
            )

    def _danger(self, share: float) -> float:
        return self.story.shaky * (0.006 + 0.62 * (max(0.0, share - 0.78) / 0.2) ** 2)

    def _kind(self, item: Item) -> str:
        family = next((name for name in self.story.misses if name in item.lift), "")
        kinds = self.story.misses[family] if family else (("", 1.0),)
        value = self.draw.random() * sum(weight for _, weight in kinds)
        for kind, weight in kinds:
            value -= weight
            if value <= 0:
                return kind
        return kinds[-1][0]

    def _effort(self, hardness: float) -> str:
        if self.draw.random() > self.story.efforts:
            return ""
        return f"{min(17, max(10, round(2 * (6.0 + (hardness - 0.78) * 20)))) / 2:g}"


def form(lift: str, reps: int) -> str:
    """Repetitions as a log writes them: one number a part of a complex."""
    parts = lift.count("+") + 1
    return str(reps) if parts == 1 else "+".join(["1"] * parts)


def merged(rows: Sequence[Row]) -> list[Row]:
    """Rows alike on the same day become one with their sets added, where the first of them stood."""
    found: dict[Row, int] = {}
    for row in rows:
        key = replace(row, sets=1)
        found[key] = found.get(key, 0) + row.sets
    return [replace(row, sets=count) for row, count in found.items()]


def weighings(
    seed: int, first: dt.date, last: dt.date, every: Sequence[int], points: Sequence[tuple[dt.date, float]]
) -> list[tuple[dt.date, float]]:
    """Body mass on the given weekdays along a broken line, with a morning's scatter, to 0.1."""
    draw = random.Random(seed)
    result = []
    day = first
    while day <= last:
        if day.weekday() in every:
            scatter = sum(draw.random() for _ in range(3)) - 1.5
            result.append((day, round(between(points, day) + 0.6 * scatter, 1)))
        day += DAY
    return result


def minutes(
    seed: int, spans: Sequence[tuple[dt.date, dt.date, Sequence[int], str, int]]
) -> list[tuple[dt.date, str, int]]:
    """Rows of mobility.csv: from, to, weekdays, area, usual minutes; one in twelve is left out."""
    draw = random.Random(seed)
    result = []
    for first, last, weekdays, area, usual in spans:
        day = first
        while day <= last:
            if day.weekday() in weekdays and draw.random() > 1 / 12:
                result.append((day, area, usual + 5 * int(draw.random() * 2)))
            day += DAY
    return sorted(result)
