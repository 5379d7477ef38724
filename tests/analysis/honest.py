"""Made-up honest lifters of many kinds: what the search for slips must let pass.

Written without a look at the search. A lifter has an ability a lift that grows, falls in a break, leaps when
the technique clicks and is a little different every day; what is logged follows from it and from the habit of
the kind: ramps or top sets only, heavy or light, often or rarely, kilograms or pounds. Nothing below knows a
threshold of the search.
"""

import datetime as dt
import math
import random
from dataclasses import dataclass, field, replace
from typing import Any

from reportgen.model.lifter import Goal, Lifter, PriorBest
from reportgen.model.records import Records
from tests.analysis.logs import attempt, bodymass, records, row

KINDS = (
    "steady", "beginner", "top sets", "sparse", "light, then a test", "back from a break", "new lifts",
    "breakthrough", "peaks for tests", "pounds", "first weeks", "contests only", "squats in fives",
    "complexes and variants", "older", "one lift a day", "effort noted",
)  # fmt: skip

#: Usual shares of the clean & jerk, and how far lifters lie apart (one standard deviation).
SHARES = {
    "snatch": (0.80, 0.04), "clean and jerk": (1.0, 0.0), "power snatch": (0.67, 0.05),
    "hang snatch": (0.74, 0.06), "low hang snatch": (0.74, 0.05), "block snatch": (0.76, 0.05),
    "snatch balance": (0.87, 0.09), "overhead squat": (0.87, 0.10), "snatch pull": (0.95, 0.09),
    "clean": (1.03, 0.02), "power clean": (0.84, 0.05), "hang clean": (0.92, 0.06), "jerk": (1.05, 0.05),
    "power jerk": (0.93, 0.08), "push press": (0.78, 0.07), "clean pull": (1.15, 0.09),
    "back squat": (1.32, 0.12), "front squat": (1.13, 0.09),
}  # fmt: skip
SLOW = ("back squat", "front squat", "snatch pull", "clean pull", "push press")
POUND = 0.45359237


@dataclass
class Season:
    """One honest season as it grows; `rows` are set rows, `able` the true single a lift on the last day."""

    kind: str
    chance: random.Random
    rows: list[dict[str, Any]] = field(default_factory=list)
    able: dict[str, float] = field(default_factory=dict)
    masses: list[tuple[str, float]] = field(default_factory=list)
    lifter: Lifter | None = None
    as_of: str = ""
    single: bool = False

    def read(self) -> Records:
        """The records of the season."""
        assert self.lifter is not None
        read = records(*self.rows, lifter=self.lifter, as_of=self.as_of)
        return replace(read, bodymass=bodymass(*self.masses)) if self.masses else read


def season(kind: str, seed: int) -> Season:
    """The season of a kind and a number; the same pair gives the same season."""
    chance = random.Random(f"{kind} {seed}")
    made = Season(kind, chance)
    _Writer(made).write()
    return made


class _Writer:
    """Draws one lifter and writes the log day by day."""

    def __init__(self, made: Season) -> None:
        chance, kind = made.chance, made.kind
        self.made, self.chance, self.kind = made, chance, kind
        self.women = chance.random() < 0.45
        mass = chance.uniform(45, 90) if self.women else chance.uniform(58, 112)
        strong = chance.uniform(0.55, 1.15) if self.women else chance.uniform(0.75, 1.6)
        if kind == "beginner":
            strong *= 0.6
        self.mass = mass
        self.jerk = strong * mass ** (2 / 3) * (75 ** (1 / 3))
        self.own = {lift: self.jerk * max(0.3, chance.gauss(mid, sd)) for lift, (mid, sd) in SHARES.items()}
        self.lb = kind == "pounds" or (kind not in ("contests only",) and chance.random() < 0.05)
        self.step = (
            chance.choice((5.0,)) * POUND if self.lb else chance.choice((0.5, 1, 1, 1, 2, 2.5, 2.5, 5))
        )
        self.curve = 1 / chance.uniform(24, 45)
        self.fade = chance.uniform(0.035, 0.07)
        self.weeks = self._weeks()
        days = {"sparse": (1, 2), "beginner": (2, 4), "first weeks": (2, 5), "older": (2, 4)}
        self.days = sorted(chance.sample(range(7), chance.randint(*days.get(kind, (2, 6)))))
        self.ramps = kind != "top sets" and chance.random() < 0.7
        self.effort = kind == "effort noted" or chance.random() < 0.15
        names = [lift for lift in SHARES if lift not in ("snatch", "clean and jerk")]
        taken = chance.sample(names, chance.randint(3, 9))
        squat = chance.choice(("back squat", "front squat"))
        self.lifts = sorted({"snatch", "clean and jerk", squat, *taken} - self._left())
        self.gain = self._gain()
        self.leap = (
            chance.uniform(0.3, 0.9) * self.weeks,
            chance.uniform(0.06, 0.14),
            chance.choice((0.2, 1, 3)),
        )
        self.late = {
            lift: chance.uniform(0.3, 0.95) * self.weeks
            for lift in chance.sample(self.lifts, min(3, len(self.lifts)))
        }
        self.cut = self._cut()
        self.test_every = chance.choice((6, 8, 10, 12))
        self.first = dt.date(2026, 1, 5)

    def _left(self) -> set[str]:
        return {"clean and jerk"} if self.chance.random() < 0.1 else set()

    def _weeks(self) -> int:
        spans = {"beginner": (8, 26), "first weeks": (1, 6), "sparse": (12, 80)}
        return self.chance.randint(*spans.get(self.kind, (10, 70)))

    def _gain(self) -> float:
        """Gain of a year as a logarithm; a beginner's 30 % in three months levels off."""
        if self.kind in ("beginner", "new lifts") and self.chance.random() < 0.8:
            return self.chance.uniform(0.22, 0.36)
        return self.chance.gauss(0.05, 0.05)

    def _cut(self) -> tuple[float, float, float]:
        """A break: first and last week, and what is lost."""
        often = self.kind == "back from a break" or self.chance.random() < 0.15
        if not often:
            return (1e9, 1e9, 0)
        first = self.chance.uniform(0.2, 0.8) * self.weeks
        length = self.chance.uniform(2, 18)
        return (first, first + length, min(0.25, 0.012 * length + self.chance.uniform(0, 0.06)))

    def level(self, lift: str, week: float) -> float:
        """Ability on a day as a share of where it began."""
        if self.kind in ("beginner", "new lifts"):
            grown = self.gain * (1 - math.exp(-week / 9)) / (1 - math.exp(-13 / 9))
        else:
            grown = self.gain * week / 52
        if self.kind == "breakthrough" and lift in ("snatch", "hang snatch", "low hang snatch"):
            at, size, width = self.leap
            grown += size * (1 + math.tanh((week - at) / width * 2)) / 2
        first, last, lost = self.cut
        if week >= first:
            back = max(0.0, week - last)
            grown -= lost * math.exp(-back / 4)
        return float(math.exp(grown))

    def able(self, lift: str, week: float, form: float) -> float:
        return float(self.own[lift] * self.level(lift, week) * form)

    def kg(self, load: float) -> float:
        """What can be put on the bar."""
        bar = 15.0 if self.women else 20.0
        return round(max(bar, round(load / self.step) * self.step), 6)

    def write(self) -> None:
        chance, made = self.chance, self.made
        for week in range(self.weeks):
            if self.cut[0] <= week < self.cut[1]:
                continue
            if self.kind == "sparse" and chance.random() < 0.45:
                continue
            wave = (0.0, 0.03, 0.05, -0.06)[week % 4] * chance.uniform(0.3, 1)
            test = week % self.test_every == self.test_every - 1
            for place, weekday in enumerate(self.days):
                if chance.random() < 0.12:
                    continue
                date = self.first + dt.timedelta(days=7 * week + weekday)
                last = place == len(self.days) - 1
                self.day(date, week + weekday / 7, wave, test=test and last)
            if chance.random() < 0.4:
                date = self.first + dt.timedelta(days=7 * week)
                mass = self.mass * (1 + chance.gauss(0, 0.008))
                made.masses.append((date.isoformat(), round(mass, 1)))
        if not made.rows:
            self.day(self.first, 0, 0, test=False)
        self.finish()

    def day(self, date: dt.date, week: float, wave: float, *, test: bool) -> None:
        chance = self.chance
        form = math.exp(chance.gauss(0, 0.018)) * (chance.uniform(1.0, 1.05) if test else 1)
        here = [lift for lift in self.lifts if not self._not_yet(lift, week)] or ["snatch"]
        if test:
            pair = [lift for lift in ("snatch", "clean and jerk") if lift in here]
            for one in pair:
                self.test(date, one, week, form)
            if chance.random() < 0.3:
                self.work(date, "back squat", week, form, 0.9) if "back squat" in here else None
            return
        many = 1 if self.kind == "one lift a day" else chance.randint(2, 4)
        for lift in chance.sample(here, min(many, len(here))):
            heavy = {
                "light, then a test": 0.76,
                "contests only": 0.78,
                "top sets": 0.9,
                "squats in fives": 0.88,
            }
            share = heavy.get(self.kind, 0.86) + wave + chance.gauss(0, 0.04)
            self.work(date, lift, week, form, min(share, 0.99))
        if self.kind == "complexes and variants" and chance.random() < 0.5:
            self.complex(date, week, form)

    def _not_yet(self, lift: str, week: float) -> bool:
        return (
            self.kind == "new lifts"
            and lift not in ("snatch", "back squat")
            and week < self.late.get(lift, 0)
        )

    def work(self, date: dt.date, lift: str, week: float, form: float, share: float) -> None:
        """One lift of one session: ramp and work sets, sometimes a heavy single."""
        chance = self.chance
        can = self.able(lift, week, form)
        slow = lift in SLOW
        reps = chance.choice(
            (3, 4, 5, 5, 8, 10)
            if slow and self.kind == "squats in fives"
            else (2, 3, 3, 5)
            if slow
            else (1, 2, 2, 3)
        )
        light = self.kind in ("light, then a test", "contests only")
        if not light and chance.random() < 0.15:
            reps, share = 1, chance.uniform(0.9, 1.01)
        most = 1 / (1 + self.curve * (reps - 1)) if slow else 1 - self.fade * (reps - 1)
        load = can * share * most if not light else can * min(share, most)
        if self.ramps:
            start = chance.uniform(0.45, 0.65) * load
            steps = chance.randint(2, 5)
            for step in range(steps):
                kg = self.kg(start + (load - start) * step / steps)
                self.row(date, lift, kg, chance.choice((reps, reps + 1, 3)), 1, can)
        self.row(date, lift, self.kg(load), reps, chance.choice((1, 2, 3, 5)), can)

    def test(self, date: dt.date, lift: str, week: float, form: float) -> None:
        """A day on which the limit is looked for."""
        chance = self.chance
        can = self.able(lift, week, form)
        contest = self.kind == "contests only" or chance.random() < 0.25
        shares = sorted(chance.uniform(0.9, 1.02) for _ in range(3))
        if contest:
            for number, share in enumerate(shares, 1):
                kg = float(round(can * share))
                self.made.rows.append(
                    attempt(date.isoformat(), lift, kg, kg <= can, attempt=number, event="meet")
                )
            return
        warm = (0.6, 0.72, 0.82) if self.ramps else ()
        if self.kind == "top sets":
            shares = shares[-1:]
        for share in (*warm, *shares):
            self.row(date, lift, self.kg(can * share), 1, 1, can)

    def complex(self, date: dt.date, week: float, form: float) -> None:
        chance = self.chance
        can = self.able("snatch", week, form)
        kg = self.kg(can * chance.uniform(0.6, 0.85))
        if chance.random() < 0.5:
            self.made.rows.append(row(date.isoformat(), "snatch", kg, reps=2, sets=3, variant="pause"))
            return
        for part, lift in enumerate(("power snatch", "hang snatch")):
            self.made.rows.append(
                row(
                    date.isoformat(),
                    lift,
                    min(kg, self.kg(self.able("power snatch", week, form) * 0.9)),
                    reps=1,
                    sets=3,
                    part=part,
                    parts=2,
                )
            )

    def row(self, date: dt.date, lift: str, kg: float, reps: int, sets: int, can: float) -> None:
        chance = self.chance
        fits = (
            kg
            <= can
            * (1 / (1 + self.curve * (reps - 1)) if lift in SLOW else 1 - self.fade * (reps - 1))
            * 1.01
        )
        tired = kg > 0.88 * can and chance.random() < 0.15
        made = reps if fits and not tired else max(0, reps - 1)
        if kg > can * 1.01:
            made = 0
        aid = "straps" if "pull" in lift and chance.random() < 0.4 else ""
        more: dict[str, Any] = {"aid": aid}
        if self.effort:
            left = (
                max(0.0, (can / kg - 1) / self.curve - (reps - 1))
                if lift in SLOW
                else max(0.0, (1 - kg / can) / self.fade - (reps - 1))
            )
            effort = min(10.0, max(5.0, 10 - left + chance.gauss(0, 0.6)))
            more["effort"] = round(effort * 2) / 2
        self.made.rows.append(row(date.isoformat(), lift, kg, reps=reps, sets=sets, made=made, **more))

    def finish(self) -> None:
        made, chance = self.made, self.chance
        made.rows.sort(key=lambda one: one["date"])
        made.able = {lift: self.able(lift, self.weeks, 1.05) for lift in self.lifts}
        made.as_of = str(made.rows[-1]["date"])[:10]
        bests: tuple[PriorBest, ...] = ()
        if chance.random() < 0.3:
            kg = float(round(self.own["snatch"] * chance.uniform(0.92, 1.0)))
            bests = (
                PriorBest(lift="snatch", kg=kg, date=self.first - dt.timedelta(days=60), where="contest"),
            )
        goal = round(self.able("snatch", self.weeks, 1) * chance.uniform(1.02, 1.25))
        made.lifter = Lifter(
            name="Made up", standards="women" if self.women else "men", unit="lb" if self.lb else "kg",
            goals=(Goal(lift="snatch", kg=float(goal)),), bests=bests,
        )  # fmt: skip
