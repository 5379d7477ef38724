"""How a simulated lifter lives: capacities by the week, the form of the day, sessions, test days, tapers."""

import datetime as dt
import math
import random
from dataclasses import dataclass, field
from functools import cache

from tests.bench.kinds import Kind

FIRST = dt.date(2025, 1, 6)
AHEAD = 104  # weeks of truth after the log
Row = dict[str, object]
PAIR = ("snatch", "clean and jerk")


@dataclass(frozen=True, kw_only=True)
class Test:
    """A test day as it was: the form of the day (a share, taper and all) and what the taper gave."""

    date: dt.date
    lift: str
    form: float
    taper: float
    days: int  # of the taper, 0 without one


#: A try that is just given away, at any weight.
SLACK = 0.015
RHO_DAYS = 2.5  # days in which half of a day's form is gone


def heavy(chance: random.Random) -> float:
    """A draw with heavy tails, about unit spread (Student, five degrees of freedom, scaled)."""
    return chance.gauss(0, 1) / math.sqrt(chance.gammavariate(2.5, 0.4)) * 0.775


def slip(chance: random.Random) -> float:
    """What one try adds, skewed: a pull may fail by much more than it can exceed; median near 0."""
    return 0.85 * chance.gauss(0, 1) - 0.55 * (chance.expovariate(1.0) - 0.69)


@cache
def ordinary(day: float, rep: float) -> tuple[float, ...]:
    """How far over the middle single tries on days as they come reach, sorted."""
    chance = random.Random(5)
    return tuple(sorted(day * heavy(chance) + rep * slip(chance) for _ in range(3000)))


@dataclass
class Life:
    """A lifter while the weeks go by."""

    kind: Kind
    chance: random.Random
    weeks: int
    goal_lift: str
    log: dict[str, list[float]] = field(default_factory=dict)  # lift -> log capacity a week, AHEAD included
    away: list[tuple[int, int]] = field(default_factory=list)  # weeks [a, b)
    rows: list[Row] = field(default_factory=list)
    belief: dict[str, float] = field(default_factory=dict)
    best: dict[str, list[tuple[float, int]]] = field(default_factory=dict)  # singles made, with their days
    tests: list[Test] = field(default_factory=list)
    form: float = 0.0
    last: int = 0
    tired: float = 0.0
    day_spread: float = 0.022
    rep_spread: float = 0.02
    rep_cost: dict[str, float] = field(default_factory=dict)
    effort: tuple[float, float] | None = None  # bias and scatter of what is felt; None = not written down
    taper: float = 0.02
    growth: float = 0.0
    bold: float = 0.0  # how much nearer to the limit than others

    def capacity(self, lift: str, week: int) -> float:
        own = self.log.get(lift)
        return own[week] if own else math.log(60.0)


# ---- How a lifter's weeks go by ------------------------------------------------------------------------


def weeks(life: Life, kg: float) -> list[float]:
    """The log capacity of a goal lift by the week: growth that changes, ups and downs, loss while away."""
    chance, kind = life.chance, life.kind
    level, pace, wobble, lost = math.log(kg), life.growth, 0.0, 0.0
    path = []
    for week in range(life.weeks + AHEAD):
        pace += 0.06 * (life.growth - pace) + chance.gauss(0, 0.0004)
        level += pace
        wobble = 0.85 * wobble + chance.gauss(0, 0.0035)
        gone = any(a <= week < b for a, b in life.away)
        lost = min(lost + kind.loss, 0.16) if gone else lost * 0.78
        path.append(level + wobble - lost)
    return path


def accessory(life: Life, goal_kg: float, share: float) -> list[float]:
    """A lift that stands at a share of the goal at the end of the log, with a slow growth of its own."""
    pace, now = life.growth * 0.7, math.log(goal_kg * share)
    wobble, path = 0.0, []
    for week in range(life.weeks + AHEAD):
        wobble = 0.9 * wobble + life.chance.gauss(0, 0.003)
        path.append(now + pace * (week - life.weeks + 1) + wobble)
    return path


def _day_form(life: Life, day: int) -> float:
    keep = 0.5 ** ((day - life.last) / RHO_DAYS)
    life.form = keep * life.form + math.sqrt(1 - keep * keep) * heavy(life.chance)
    life.last = day
    return life.day_spread * life.form


def attempt(life: Life, capacity: float, kg: float) -> bool:
    room = capacity + life.rep_spread * slip(life.chance) - math.log(kg)
    return room > 0 and life.chance.random() > SLACK


def _miss(life: Life, lift: str) -> str:
    kinds, weights = life.kind.misses(lift)
    return "" if life.chance.random() < life.kind.unnamed else life.chance.choices(kinds, weights)[0]


def _row(day: int, lift: str, kg: float, **more: object) -> Row:
    row: Row = {
        "date": day, "session": "", "lift": lift, "part": 0,
        "parts": 1, "load_kg": float(kg), "sets": 1, "reps": 1, "made": 1, "declined": 0, "miss": "",
        "variant": "", "aid": "", "effort": math.nan, "kind": "training", "event": "", "attempt": 0,
        "remark": "", "file": "training.csv",
    }  # fmt: skip
    return row | more


def _felt(life: Life, room: float) -> float:
    """What the lifter writes down for effort: ten at the limit, one less for each 2.5 % left."""
    if life.effort is None or life.chance.random() < 0.2:
        return math.nan
    bias, spread = life.effort
    raw = 10 - room / 0.025 + bias + life.chance.gauss(0, spread)
    return round(2 * min(10.0, max(4.0, raw))) / 2


def _set(life: Life, day: int, lift: str, kg: float, reps: int, capacity: float, **more: object) -> bool:
    """One set; each further repetition costs something; a missed one ends it."""
    kg = max(20.0, float(round(kg)))
    cost, made = life.rep_cost.get(lift, 0.02), 0
    for place in range(reps):
        if not attempt(life, capacity - cost * place, kg):
            break
        made += 1
    room = capacity - cost * (reps - 1) - math.log(kg)
    failed = _miss(life, lift) if made < reps else ""
    declined = max(0, reps - made - 1)
    more = {
        "reps": reps,
        "made": made,
        "declined": declined,
        "miss": failed,
        "effort": _felt(life, room),
    } | more
    life.rows.append(_row(day, lift, kg, **more))
    if made:
        life.best.setdefault(lift, []).append((kg, day))
    return made == reps


# ---- Sessions ------------------------------------------------------------------------------------------


def _classic(life: Life, day: int, lift: str, top: float, form: float, scale: float = 1.0) -> None:
    """The lift from the floor, up to a share of what the lifter believes in; singles where they are done."""
    less, more = life.kind.cuts_all and scale < 0.6, bool(life.kind.jump) and scale > 1.3
    week, kind, chance = day // 7, life.kind, life.chance
    now = life.capacity(lift, week) + form
    top += life.bold
    belief = life.belief[lift] * math.exp(0.35 * form + chance.gauss(0, 0.01))
    singles = top > 0.87 and chance.random() < kind.singles
    # Who never does singles goes heavier for two.
    work = 0.84 if singles else min(top, 0.86 if kind.singles else 0.92)
    steps = ((0.68, 3), (0.75, 2), (work - 0.04, 2), (work, 2 if chance.random() < 0.7 else 3))
    for share, reps in steps[1:3] if less else steps:
        _set(life, day, lift, belief * share, reps, now, sets=1)
    for _ in range(4 if more else 0):
        _set(life, day, lift, belief * (work - 0.04), 2, now)
    if not singles:
        for _ in range(0 if less else chance.randint(1, 3)):
            _set(life, day, lift, belief * (work + chance.uniform(-0.01, 0.015)), 2, now)
        _believe(life, lift, day)
        return
    share, misses = max(0.88, top - 0.06), 0
    for number in range(1 if less else chance.randint(3, 6)):
        done = _set(life, day, lift, belief * share, 1, now - 0.002 * number)
        misses += not done
        if misses == 2:
            break
        share = min(share + chance.choice((0.02, 0.03)), top) if done else share - chance.choice((0.0, 0.05))
    _believe(life, lift, day)


def _limit(life: Life, day: int, lift: str, form: float, **more: object) -> None:
    """Up to a limit: until two misses in a row or enough."""
    now = life.capacity(lift, day // 7) + form
    kg, misses = life.belief[lift] * 0.88 * math.exp(0.3 * form), 0
    for number in range(9):
        done = _set(life, day, lift, kg, 1, now - 0.0015 * number, **more)
        misses = 0 if done else misses + 1
        if misses == 2:
            break
        kg *= 1 + (
            life.chance.choice((0.02, 0.03, 0.04)) if done and kg < life.belief[lift] else 0.015 * done
        )
    _believe(life, lift, day)


def _believe(life: Life, lift: str, day: int) -> None:
    """What a lifter believes in: the day's best where it is more; else a little up or down by how it felt."""
    best = max((made for made, when in life.best.get(lift, ())[-12:] if when == day), default=0.0)
    old = life.belief[lift]
    if best > old:
        life.belief[lift] = best
        return
    # An easy day is felt as one, a day of misses too, neither exactly.
    room = life.capacity(lift, day // 7) - math.log(old) + life.chance.gauss(0, 0.03)
    life.belief[lift] = old * math.exp(max(-0.02, min(0.02, 0.12 * room)))


def _contest(life: Life, day: int, form: float, event: str) -> None:
    """Three attempts a lift: an opener that should go, then up by what the lifter hopes for."""
    for lift in PAIR:
        now = life.capacity(lift, day // 7) + form
        kg = round(life.belief[lift] * life.chance.gauss(0.97, 0.018))
        for number in (1, 2, 3):
            done = attempt(life, now, kg)
            life.rows.append(
                _row(day, lift, kg, made=int(done), miss="" if done else _miss(life, lift), kind="contest",
                     event=event, attempt=number, file="attempts.csv")
            )  # fmt: skip
            jump = life.chance.choice((0.03, 0.04, 0.05)) if number == 1 else 0.032
            if done:
                life.best.setdefault(lift, []).append((kg, day))
            kg = max(kg + 1, round(kg * (1 + jump))) if done else kg + (life.chance.random() < 0.15)
        _believe(life, lift, day)


# ---- Weeks ---------------------------------------------------------------------------------------------


def _session(life: Life, day: int, place: int, plan: tuple[str, ...], scale: float) -> None:
    """One day: what the plan says of it, with the load of the week."""
    week, kind, chance = day // 7, life.kind, life.chance
    wave = (0.0, 0.025, 0.06, -0.06)[week % 4]
    form = _day_form(life, day) - 0.012 * life.tired
    other = PAIR[1] if life.goal_lift != PAIR[1] else PAIR[0]
    goal = PAIR[0] if life.goal_lift == "total" else life.goal_lift
    todo = plan[place % len(plan)]
    if todo == "full":
        _classic(life, day, goal, 0.88 + wave + chance.uniform(-0.02, 0.03), form, scale)
    elif todo == "derivative":
        lift = ("low hang snatch", "power snatch")[week % 2] if goal == PAIR[0] else "power clean"
        _accessory_work(life, day, lift, form, scale)
    if life.goal_lift == "total" or place % 3 == 1:
        _classic(life, day, other, 0.84 + wave, form)
    if place % 3 == 2:
        _accessory_work(life, day, ("snatch balance", "overhead squat")[week % 2], form, scale)
    _accessory_work(life, day, ("back squat", "front squat")[place % 2], form, scale)
    if place % 2 == 0:
        pull = round(math.exp(life.capacity(goal, week)) * 1.0)
        name = "snatch pull" if goal == PAIR[0] else "clean pull"
        life.rows.append(_row(day, name, pull, sets=max(1, round(4 * scale)), reps=3, made=3))
    life.tired = 0.85 * life.tired + 0.15 * (scale - 1 + wave * 6 + chance.gauss(0, 0.2))
    if kind.chase and week >= life.weeks - 9 and place == len(plan) - 1:
        _limit(life, day, goal, form)


def _accessory_work(life: Life, day: int, lift: str, form: float, scale: float) -> None:
    chance, week = life.chance, day // 7
    now, strong = life.capacity(lift, week) + 0.6 * form, "squat" in lift and lift != "overhead squat"
    reps = chance.choice((3, 4, 5)) if strong else chance.choice((2, 2, 3))
    top = chance.uniform(0.72, 0.84)
    sets = max(1, round(chance.choice((3, 4, 5)) * scale))
    kg = max(20.0, float(round(math.exp(life.capacity(lift, week)) * top)))
    life.rows.append(_row(day, lift, round(kg * 0.88), sets=2, reps=reps, made=reps))
    life.rows.append(_row(day, lift, kg, sets=sets, reps=reps, made=reps))
    if chance.random() < life.kind.limits and week >= life.weeks - 30:
        share = 0.93
        for _ in range(5):
            if not _set(life, day, lift, math.exp(life.capacity(lift, week)) * share, 1, now):
                break
            share += 0.025


def live(life: Life) -> None:
    """Every day of the log, with its test days and tapers."""
    kind, chance = life.kind, life.chance
    weekdays = sorted(chance.sample((0, 1, 2, 3, 4, 5), kind.days))
    plans: tuple[str, ...] = kind.plan
    due = _test_weeks(life)
    jumped = chance.randint(*kind.jump) if kind.jump else 0
    goal = PAIR[0] if life.goal_lift == "total" else life.goal_lift
    for week in range(life.weeks):
        if any(a <= week < b for a, b in life.away) or chance.random() < kind.skips:
            continue
        test = due.get(week)
        ahead = next((w for w in sorted(due) if w >= week), None)
        for place, weekday in enumerate(weekdays):
            day = 7 * week + weekday
            left = 7 * ahead + 5 - day if ahead is not None else 999
            length = due[ahead][0] if ahead is not None else 0
            scale = 0.55 if 0 < left <= length else chance.gauss(1, 0.12)
            if kind.jump and week >= life.weeks - jumped:
                scale, life.tired = 1.7 * scale, life.tired + 0.35
            if test is not None and weekday >= 4:
                continue
            if chance.random() < 0.05:
                continue
            _session(life, day, place, plans, max(0.3, scale))
        if test is not None:
            _tested(life, 7 * week + 5, goal, test)


def _tested(life: Life, day: int, goal: str, test: tuple[int, str]) -> None:
    """A test day: form of the day, what the taper gave, a platform's lift of its own."""
    length, kind = test
    gave = 0.0
    if length:
        usual = life.taper if length <= 21 else life.taper - 0.025
        gave = life.chance.gauss(usual, 0.006)
    form = _day_form(life, day) + gave + (life.chance.gauss(0.003, 0.006) if kind == "contest" else 0.0)
    date = FIRST + dt.timedelta(days=day)
    lifts = PAIR if kind == "contest" else (goal,)
    life.tests += [Test(date=date, lift=lift, form=form, taper=gave, days=length) for lift in lifts]
    if kind == "contest":
        _contest(life, day, form, f"Open {len(life.tests)}")
    else:
        more: Row = {} if kind == "found" else {"kind": "test", "event": "test day", "file": "attempts.csv"}
        _limit(life, day, goal, form, **more)


def _test_weeks(life: Life) -> dict[int, tuple[int, str]]:
    """Weeks with a test day: days of taper before it and its kind."""
    due: dict[int, tuple[int, str]] = {}
    week = life.chance.randint(7, 13)
    while week < life.weeks - 1 and life.kind.tests:
        length = life.chance.choice(life.kind.tapers)
        due[week] = (length, life.chance.choice(("contest", "test", "found")))
        week += life.chance.randint(8, 15)
    return {w: t for w, t in due.items() if not any(a <= w < b + 2 for a, b in life.away)}
