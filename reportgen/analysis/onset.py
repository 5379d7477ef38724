"""When less training began before a test day: the posterior of the onset, step or ramp, or none.

The 70 days before a test day are ten rows of seven; a column is one weekday. Rows 0 to 5 (days 70 to 29
before) say what is usual, rows 6 to 9 (the last 28 days) are searched. Each day's load over its expected
one is compared with what every onset, shape and depth of cut would have made of it, under a scatter with
heavy tails; sums over shapes and depths (a marginal likelihood) need no penalty of their own. A light
week before the onset, a lost session, sessions moved by a day or two and an empty week are explained by
something cheaper than a taper. How well it does is measured in tests (seasons with a known taper).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.analysis.baseline import WEEK, Array, Baseline, Mask, usual_week
from reportgen.trade.schema import Trade

Days = NDArray[np.int64]

ROWS, SEARCHED = 10, 4
SPAN, TAIL = ROWS * WEEK, SEARCHED * WEEK
BASE = SPAN - TAIL

_PASSES = 2  # the second lets days before the likely onset speak for usual training, too


@dataclass(frozen=True, slots=True, kw_only=True)
class Onset:
    """What was found before T test days.

    Attributes:
        days: (T,) days from the first day of less to the test day; 0 = no taper.
        cut: (T,) share below the expected load from that day on; NaN without a taper.
        ramp: (T,) the taper falls more evenly than at once.
        evidence: (T,) log of the Bayes factor, taper against none.
        spread: (T,) scatter of a session's load, as a share.
        usable: (T, 28) days of the search that count: not away, not in an empty week.
        base: The usual week of days 70 to 29 before.
    """

    days: Days
    cut: Array
    ramp: Mask
    evidence: Array
    spread: Array
    usable: Mask
    base: Baseline


@dataclass(frozen=True, slots=True, kw_only=True)
class _Search:
    """The last 28 days as the search sees them, (T, 28) each: share of the expected load, and its doubt."""

    share: Array
    doubt: Array  # relative variance of the expected load
    done: Mask  # a session that can be judged
    absent: Mask  # a session that was expected and is not there
    expected: Mask  # either
    weight: Array  # how much it says: 1, less for a weekday with less than the usual session
    spread: Array  # (T,)


def find(load_kg: Array, usable: Mask, trade: Trade) -> Onset:
    """Find the onset of the taper before each test day, or none.

    Args:
        load_kg: (T, 70) daily load of the days 70 .. 1 before [kg], 0 = no session.
        usable: (T, 70) False on days that say nothing: away, before the log, another test day.
        trade: Rules `taper_*` and `light_week_*`.

    Returns:
        One result a test day. Whether there was log enough to ask is the caller's question.
    """
    rows, weight = _weighed(load_kg, usable)
    tail_kg = load_kg[:, BASE:]
    open_days = usable[:, BASE:] & ~_empty_runs(tail_kg > 0)
    base = usual_week(rows, weight, trade)
    week, evidence, chance = base, np.zeros(len(rows)), np.zeros((len(rows), TAIL))
    ramp = np.zeros((len(rows), TAIL), dtype=bool)
    for number in range(_PASSES):
        seen, moved = _look(tail_kg, open_days, week, base.attended, trade)
        scores, none, ramp = _scores(seen, trade)
        top = scores.max(axis=1, keepdims=True)
        top = np.where(np.isfinite(top), top, 0.0)
        mass = np.exp(scores - top)
        total = mass.sum(axis=1)
        evidence = np.where(total > 0, np.log(np.maximum(total, 1e-300)) + top[:, 0] - none, -np.inf)
        chance = mass / np.maximum(total, 1e-300)[:, None]
        if number + 1 < _PASSES:
            before = _still_usual(chance, evidence, trade) * open_days * ~moved
            weight[:, ROWS - SEARCHED :] = before.reshape(-1, SEARCHED, WEEK)
            week = usual_week(rows, weight, trade)
    return _decide(chance, evidence, ramp, (tail_kg, open_days), base, week.spread, trade)


def usual(load_kg: Array, usable: Mask, trade: Trade) -> Baseline:
    """The usual week of days 70 to 29 before each test day, as `find` has it; arguments as there."""
    return usual_week(*_weighed(load_kg, usable), trade)


def _weighed(load_kg: Array, usable: Mask) -> tuple[Array, Array]:
    """(T, 10, 7) daily load, and how far each day may speak for usual training: none of the last 28."""
    rows = load_kg.reshape(-1, ROWS, WEEK)
    own = usable.reshape(-1, ROWS, WEEK) & True
    own[:, : ROWS - SEARCHED] &= rows[:, : ROWS - SEARCHED].any(axis=2, keepdims=True)
    weight = own.astype(np.float64)
    weight[:, ROWS - SEARCHED :] = 0.0
    return rows, weight


def _empty_runs(done: Mask) -> Mask:
    """Days that lie in a run of seven or more without a session."""
    run = np.lib.stride_tricks.sliding_window_view(done, WEEK, axis=1).any(axis=2)
    found = np.zeros_like(done)
    for shift in range(WEEK):
        found[:, shift : shift + run.shape[1]] |= ~run
    return found


def _look(
    tail_kg: Array, open_days: Mask, week: Baseline, attended: Array, trade: Trade
) -> tuple[_Search, Mask]:
    """Set each day beside its expected load; a session a day or two off stands for the one it replaced."""
    column = np.arange(TAIL) % WEEK
    regular = (attended > trade.value("taper_regular"))[:, column]
    usual_kg, sessions = week.session_kg[:, column], week.sessions[:, column]
    done = (tail_kg > 0) & open_days
    source = _moved(done & ~regular, regular & ~done & open_days, int(trade.value("taper_moved_days")))
    moved = source != np.arange(TAIL)
    usual_kg = np.take_along_axis(usual_kg, source, axis=1)
    sessions = np.take_along_axis(sessions, source, axis=1)
    regular = regular | moved
    replaced = np.zeros_like(moved)
    case, day = np.nonzero(moved)
    replaced[case, source[case, day]] = True
    regular &= ~replaced
    judged = done & regular & (usual_kg > 0)
    return (
        _Search(
            share=np.where(judged, tail_kg / np.where(judged, usual_kg, 1.0), 1.0),
            doubt=1 / np.maximum(sessions, 1.0),
            weight=np.clip(usual_kg / np.maximum(_usual_session(week)[:, None], 1e-9), 0.0, 1.0),
            done=judged,
            absent=regular & ~done & open_days,
            expected=regular & open_days,
            spread=week.spread,
        ),
        moved | replaced,
    )


def _usual_session(week: Baseline) -> Array:
    """(T,) load of a session where the usual work is done: the mean, weighed by the load itself [kg]."""
    kg = week.session_kg * week.attended
    found: Array = (kg * week.session_kg).sum(axis=1) / np.maximum(kg.sum(axis=1), 1e-9)
    return found


def _moved(extra: Mask, vacant: Mask, reach: int) -> Days:
    """(T, 28) the day whose session each day stands for; itself unless it replaces a vacant one."""
    source = np.broadcast_to(np.arange(extra.shape[1]), extra.shape).copy()
    for case in np.flatnonzero((extra.any(axis=1)) & vacant.any(axis=1)):
        free = set(np.flatnonzero(vacant[case]).tolist())
        for day in np.flatnonzero(extra[case]).tolist():
            near = [other for other in free if abs(other - day) <= reach]
            if near:
                # Rows are whole weeks: a vacant day's weekday is its own column.
                source[case, day] = min(near, key=lambda other: (abs(other - day), other))
                free.discard(int(source[case, day]))
    return source


def _fit(seen: _Search, share: Array, trade: Trade) -> Array:
    """Log likelihood of each judged day if `share` of the usual load was meant; broadcasts over (T, 28)."""
    floor, tail = trade.value("taper_noise_floor"), trade.value("taper_noise_tail")
    extra = share.ndim - 2
    shape = (len(seen.share), *([1] * extra), TAIL)
    doubt = 1 + seen.doubt.reshape(shape)
    scale = seen.spread.reshape(-1, *([1] * (extra + 1))) * np.sqrt(share**2 * doubt + floor**2)
    off = (seen.share.reshape(shape) - share) / scale
    likely = -(tail + 1) / 2 * np.log1p(off * off / tail) - np.log(scale)
    return np.where(seen.done.reshape(shape), likely * seen.weight.reshape(shape), 0.0)


def _scores(seen: _Search, trade: Trade) -> tuple[Array, Array, Mask]:
    """(T, 28) log evidence of a taper from each day on, (T,) of none, (T, 28) whether a ramp fits better."""
    cases = len(seen.share)
    lost, skipped = trade.value("taper_lost"), trade.value("taper_skipped")
    usual = _fit(seen, np.ones((1, TAIL)), trade)
    usual = usual + _came(seen, lost)
    before = np.concatenate([np.zeros((cases, 1)), np.cumsum(usual, axis=1)], axis=1)
    light = _light(seen, trade)
    # A light week right before less work, or before the day itself, is a part of the taper.
    apart = int(trade.value("light_week_apart"))
    light = np.concatenate([np.repeat(light[:, :1], apart, axis=1), light[:, : TAIL + 1 - apart]], axis=1)
    none = before[:, TAIL] + light[:, TAIL]
    before = before + light
    step, ramp = _shapes(seen, trade)
    fewer = np.log(trade.value("taper_fewer"))
    # Fewer sessions than usual, each as it was or cut as well.
    rare = np.logaddexp(np.logaddexp(step, ramp), _from_each(_fit(seen, np.ones((1, TAIL)), trade)))
    rare = rare + _from_each(_came(seen, trade.value("taper_skipped_many"))) + fewer
    often = np.logaddexp(step, ramp) + _from_each(_came(seen, skipped)) + np.log1p(-np.exp(fewer))
    # A start is a day with an expected session; it stands for the days since the one before.
    index = np.arange(TAIL)
    last = np.maximum.accumulate(np.where(seen.expected, index, -1), axis=1)
    last = np.concatenate([np.full((cases, 1), -1), last[:, :-1]], axis=1)
    gap = index - np.maximum(last, -1)
    able = seen.expected & (_from_each(seen.done) > 0)
    both = before[:, :TAIL] + np.logaddexp(often, rare) + np.log(gap / TAIL)
    return np.where(able, both, -np.inf), none, ramp > step


def _from_each(values: Array | Mask) -> Array:
    """Sums from each day to the last, along the last axis."""
    found: Array = np.cumsum(values.astype(np.float64)[..., ::-1], axis=-1)[..., ::-1]
    return found


def _came(seen: _Search, skipped: float) -> Array:
    """(T, 28) log chance of each session done or missed where so many fall out."""
    found: Array = np.where(seen.absent, np.log(skipped), np.where(seen.done, np.log(1 - skipped), 0.0))
    return found * seen.weight


def _shapes(seen: _Search, trade: Trade) -> tuple[Array, Array]:
    """(T, 28) log likelihood of the days from each start on: cut at once; cut evenly or in stairs."""
    least, most = trade.value("taper_cut_least"), trade.value("taper_cut_most")
    depths = np.linspace(least, most, int(trade.value("taper_cut_grid")))
    deepest = np.linspace(least, trade.value("taper_ramp_most"), len(depths) // 2 + 1)
    ramps = [(0.0, float(depth)) for depth in deepest]
    some = depths[1::3].tolist()
    slopes = [(shallow, deep) for shallow in some for deep in some if deep > shallow]
    steps = _fit(seen, (1 - depths)[None, :, None] * np.ones((1, 1, TAIL)), trade)
    steps = _from_each(steps)
    stairs = trade.value("taper_stairs")

    def mean(likely: Array, prior: float) -> Array:
        found: Array = np.logaddexp.reduce(likely, axis=1) - np.log(likely.shape[1]) + np.log(prior)
        return found

    even = mean(_ramps(seen, ramps, trade), (1 - stairs) / 2)
    return mean(steps, (1 - stairs) / 2), np.logaddexp(even, mean(_ramps(seen, slopes, trade), stairs))


def _ramps(seen: _Search, cuts: list[tuple[float, float]], trade: Trade) -> Array:
    """(T, cuts, 28) log likelihood of a cut that grows evenly from each day to the last session's."""
    order = np.cumsum(seen.expected, axis=1)
    nth = order[:, None, :] - order[:, :, None] + 1  # (T, start, day)
    total = np.maximum(order[:, -1:, None] - order[:, :, None] + 1, 1)
    inside = np.arange(TAIL)[None, :] >= np.arange(TAIL)[:, None]
    part = np.where(inside, np.clip(nth / total, 0.0, 1.0), 0.0)
    found = []
    for shallow, deep in cuts:
        likely = _fit(seen, 1 - shallow - (deep - shallow) * part, trade)
        found.append(np.where(inside, likely, 0.0).sum(axis=2))
    return np.stack(found, axis=1)


def _light(seen: _Search, trade: Trade) -> Array:
    """(T, 29) log factor of days 0 .. d - 1 that allows for one light week that ends before day d."""
    chance = trade.value("light_week_before")
    plain = _fit(seen, np.ones((1, TAIL)), trade)
    starts = np.arange(1 - WEEK, TAIL - WEEK + 1)
    levels = [trade.value("light_week_low"), trade.value("light_week_middle")]
    gains = []
    for level in levels:
        sums = np.cumsum(_fit(seen, np.full((1, TAIL), level), trade) - plain, axis=1)
        sums = np.concatenate([np.zeros((len(plain), 1)), sums], axis=1)
        gains.append(sums[:, starts + WEEK] - sums[:, np.maximum(starts, 0)])
    gain = np.logaddexp.reduce(np.stack(gains), axis=0) - np.log(len(levels) * len(starts))
    upto = np.logaddexp.accumulate(gain, axis=1)
    # The first possible light week ends on the first day searched.
    upto = np.concatenate([np.full((len(plain), 1), -np.inf), upto], axis=1)
    found: Array = np.logaddexp(np.log(1 - chance), np.log(chance) + upto)
    return found


def _still_usual(chance: Array, evidence: Array, trade: Trade) -> Array:
    """(T, 28) chance that a day lies before the taper, `taper_hit_days` to spare."""
    spare = int(trade.value("taper_hit_days"))
    after = np.cumsum(chance[:, ::-1], axis=1)[:, ::-1]
    later = np.zeros_like(after)
    later[:, : TAIL - spare - 1] = after[:, spare + 1 :]
    taper = 1 / (1 + np.exp(-np.clip(evidence, -30, 30)))[:, None]
    found: Array = later * taper + (1 - taper)
    return found


def _decide(
    chance: Array,
    evidence: Array,
    ramp: Mask,
    tail: tuple[Array, Mask],
    base: Baseline,
    spread: Array,
    trade: Trade,
) -> Onset:
    """The day with most chance near it, where the evidence and the cut are large enough."""
    tail_kg, open_days = tail
    index = np.arange(TAIL)
    near = np.abs(index[:, None] - index[None, :]) <= trade.value("taper_hit_days")
    score = chance @ near.astype(np.float64) + trade.value("taper_own_chance") * chance
    start = np.argmax(np.where(chance > 0, score, -1.0), axis=1)
    inside = (index[None, :] >= start[:, None]) & open_days
    expected = (base.expected_kg[:, index % WEEK] * inside).sum(axis=1)
    done = (tail_kg * inside).sum(axis=1)
    cut = 1 - done / np.where(expected > 0, expected, np.nan)
    # A noisier log makes chance starts that fit well more frequent, so it has to show more.
    found = (evidence > trade.value("taper_evidence") * spread) & (cut >= trade.value("taper_cut_gate"))
    return Onset(
        days=np.where(found, TAIL - start, 0),
        cut=np.where(found, cut, np.nan),
        ramp=found & ramp[np.arange(len(start)), start],
        evidence=evidence,
        spread=spread,
        usable=open_days,
        base=base,
    )
