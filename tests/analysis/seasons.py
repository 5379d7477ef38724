"""Invented seasons with a known taper: what the taper finder is measured on.

Every choice below was made before the finder was measured: what a season looks like, what counts as a hit
(start within three days), and which seasons ought to be readable at all.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Finder = Callable[[Array, Mask], tuple[NDArray[np.int64], Array]]

SPAN = 140  #: days simulated before the test day
HIT_DAYS = 3
READABLE_DAYS = 5  #: a taper shorter than this leaves too few sessions to be seen
READABLE_CUT = 0.30  #: a mean cut smaller than this drowns in the noise of two or three sessions


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """How one season is made; `days` 0 = no taper. `cut` is the mean cut of the taper's planned work."""

    days: int
    cut: float
    shape: str = "step"  # step, or ramp: falls evenly, session by session, from full to 1 - 2 * cut
    weekdays: tuple[int, ...] = (0, 2, 4)  # counted from the test day's own weekday
    noise: float = 0.10  # coefficient of variation of a session's load
    lost: float = 0.0  # share of sessions that fell out
    light: tuple[int, ...] = ()  # first days of light weeks, in days before the test day
    half_empty: bool = False  # the log begins 12 weeks before; its first month lacks half of the sessions
    moved: int = 0  # days before the test day from which training is on other weekdays, with the same load
    empty: int = 0  # first day of an empty week, in days before the test day
    away: int = 0  # the same, but told in away.csv
    eve_off: bool = True
    gaussian: bool = True  # else log-normal
    drift: float = 0.0  # change of load over the ten weeks


@dataclass(frozen=True, slots=True, kw_only=True)
class Season:
    """Daily load of the days before a test day (index 0 = SPAN days before), and the truth."""

    plan: Plan
    load: Array
    away: Mask
    first: int  # index of the log's first day
    days: int  # days of the taper, from the first planned session with less work; 0 = none
    cut: float  # true share below the usual load of those days, lost sessions included
    usual: Array  # what each day's session would be, 0 on a rest day: only an oracle sees it


def make(rng: np.random.Generator, plan: Plan) -> Season:
    """One season from a plan."""
    before = np.arange(SPAN, 0, -1)  # days before the test day
    slot = -before % 7
    usual_of_slot = 8000 * rng.uniform(0.75, 1.3, 7)
    planned = np.isin(slot, plan.weekdays)
    if plan.eve_off:
        planned[before == 1] = False
    if plan.moved:
        shifted = np.isin(slot, [(day + 1) % 7 for day in plan.weekdays])
        planned = np.where(before <= plan.moved, shifted, planned)
        usual = np.where(before <= plan.moved, usual_of_slot[(slot - 1) % 7], usual_of_slot[slot])
    else:
        usual = usual_of_slot[slot]
    usual = usual * planned * (1 - plan.drift * before / 70)
    share, truth = _taper(plan, planned, before)
    for start in plan.light:
        share = np.where((before <= start) & (before > start - 7), rng.uniform(0.45, 0.65), share)
    away = (before <= plan.away) & (before > plan.away - 7) if plan.away else np.zeros(SPAN, dtype=bool)
    out = away | ((before <= plan.empty) & (before > plan.empty - 7) if plan.empty else away)
    first = 0
    fallen = rng.random(SPAN) < plan.lost
    if plan.half_empty:
        first = SPAN - 84
        fallen |= (np.arange(SPAN) < first + 28) & (rng.random(SPAN) < 0.5)
        fallen |= np.arange(SPAN) < first
    if plan.gaussian:
        noise = np.clip(1 + plan.noise * rng.standard_normal(SPAN), 0.1, None)
    else:
        width = np.sqrt(np.log1p(plan.noise**2))
        noise = np.exp(width * rng.standard_normal(SPAN) - width**2 / 2)
    load = usual * share * noise * ~fallen * ~out
    inside = (before <= truth) & ~away
    expected = float(np.sum(usual[inside]))
    cut = 1 - float(np.sum(load[inside])) / expected if expected else 0.0
    return Season(plan=plan, load=load, away=away, first=first, days=truth, cut=cut, usual=usual)


def _taper(plan: Plan, planned: Mask, before: NDArray[np.int64]) -> tuple[Array, int]:
    """Share of the usual load each day, and days from the first planned session with less to the test."""
    share = np.ones(SPAN)
    inside = planned & (before <= plan.days)
    sessions = int(np.sum(inside))
    if not sessions:
        return share, 0
    if plan.shape == "step":
        share[inside] = 1 - plan.cut
    else:
        # Falls by equal steps; the mean of the steps is the cut, the last one at most 95 %.
        last = min(0.95, 2 * plan.cut * sessions / (sessions + 1))
        share[inside] = 1 - last * np.arange(1, sessions + 1) / sessions
    return share, int(before[inside][0])


def readable(season: Season) -> bool:
    """Whether a person with the log in hand could be expected to see the taper."""
    return season.days >= READABLE_DAYS and _planned_cut(season.plan) >= READABLE_CUT


def _planned_cut(plan: Plan) -> float:
    return min(plan.cut, 0.475) if plan.shape == "ramp" else plan.cut


def draw(rng: np.random.Generator, *, noise: float, lost: float, taper: bool) -> Plan:
    """A plan at random: everything that the finder has to cope with, in the mix it is scored on."""
    often = int(rng.integers(2, 7))
    days = int(rng.integers(1, 29)) if taper else 0
    plan = Plan(
        days=days,
        cut=float(rng.uniform(0.2, 0.7)),
        shape="ramp" if rng.random() < 0.4 else "step",
        weekdays=_weekdays(rng, often),
        noise=noise,
        lost=lost,
        half_empty=bool(rng.random() < 0.2),
        eve_off=bool(rng.random() < 0.7),
        gaussian=bool(rng.random() < 0.5),
        drift=float(rng.uniform(-0.1, 0.1)),
    )
    if rng.random() < 0.5:
        # A light week that ends a week or more before the taper (or the test day) begins.
        plan = replace(plan, light=(int(rng.integers(days + 14, days + 63)),))
    if rng.random() < 0.15:
        start = int(rng.integers(days + 7, days + 50))
        plan = replace(plan, empty=start) if rng.random() < 0.5 else replace(plan, away=start)
    if rng.random() < 0.1 and often < 6:
        plan = replace(plan, moved=int(rng.integers(7, 29)))
    return plan


def _weekdays(rng: np.random.Generator, often: int) -> tuple[int, ...]:
    """Training days of a week; with two or three never on neighbouring days, as people train."""
    choices = list(combinations(range(7), often))
    if often <= 3:
        choices = [days for days in choices if all((a - b) % 7 > 1 for a in days for b in days if a != b)]
    return choices[int(rng.integers(len(choices)))]


LEVELS = ((0.05, 0.0), (0.10, 0.0), (0.10, 0.03), (0.22, 0.06), (0.30, 0.06))
"""Noise of a session's load and share of lost sessions at which the finder is scored."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How a finder did at one level of noise; shares of the seasons named."""

    seasons: int  # readable ones
    hits: float  # readable: start within three days
    found: float  # readable: any taper
    steps: float
    ramps: float
    by_days_a_week: dict[int, float]
    moved: float  # readable, with other training days from some day on
    rest: float  # the ones that ought not to be readable, start within three days
    cut_error: float  # mean absolute error of the cut, readable and found
    cut_bias: float
    false: float  # seasons without a taper in which one was found


def draw_many(seed: int, count: int, *, noise: float, lost: float, taper: bool) -> list[Season]:
    """Seasons at random; those whose taper holds no planned session at all are drawn anew."""
    rng = np.random.default_rng(seed)
    found: list[Season] = []
    while len(found) < count:
        season = make(rng, draw(rng, noise=noise, lost=lost, taper=taper))
        if season.days or not taper:
            found.append(season)
    return found


def windows(seasons: list[Season], span: int = 70) -> tuple[Array, Mask]:
    """Daily load and usable days of the `span` days before each test day, as the finder takes them."""
    load = np.stack([season.load[-span:] for season in seasons])
    usable = np.stack(
        [~season.away[-span:] & (np.arange(SPAN) >= season.first)[-span:] for season in seasons]
    )
    return load, usable


def score(find: Finder, *, seed: int, count: int, noise: float, lost: float) -> Score:
    """Score a finder on `count` seasons with and as many without a taper.

    Args:
        find: Daily load (T, 70) and usable days to days of the taper (0 = none) and its cut, (T,) each.
        seed: Of the seasons.
        count: Seasons of each kind.
        noise: Coefficient of variation of a session's load.
        lost: Share of sessions that fall out.
    """
    with_taper = draw_many(seed, count, noise=noise, lost=lost, taper=True)
    days, cut = find(*windows(with_taper))
    truth = np.array([season.days for season in with_taper])
    hit = (days > 0) & (np.abs(days - truth) <= HIT_DAYS)
    able = np.array([readable(season) for season in with_taper])
    ramp = np.array([season.plan.shape == "ramp" for season in with_taper])
    often = np.array([len(season.plan.weekdays) for season in with_taper])
    moved = np.array([season.plan.moved > 0 for season in with_taper])
    error = (cut - np.array([season.cut for season in with_taper]))[able & (days > 0)]
    without = draw_many(seed + 1, count, noise=noise, lost=lost, taper=False)
    return Score(
        seasons=int(able.sum()),
        hits=float(hit[able].mean()),
        found=float((days > 0)[able].mean()),
        steps=float(hit[able & ~ramp].mean()),
        ramps=float(hit[able & ramp].mean()),
        by_days_a_week={n: float(hit[able & (often == n)].mean()) for n in range(2, 7)},
        moved=float(hit[able & moved].mean()),
        rest=float(hit[~able].mean()),
        cut_error=float(np.abs(error).mean()),
        cut_bias=float(error.mean()),
        false=float((find(*windows(without))[0] > 0).mean()),
    )
