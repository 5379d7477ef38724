"""When less training began before a test day: the posterior of the onset, step or ramp, or none.

The 70 days before a test day are ten rows of seven; a column is one weekday. Rows 0 to 5 (days 70 to 29
before) say what is usual, rows 6 to 9 (the last 28 days) are searched. Each onset, shape and depth of cut
is asked how likely it makes the loads of all 70 days, with the usual loads and their scatter left open
(`baseline.Marginal`): every day before the onset speaks for the usual load, and days after it do, too, as
far as the cut is known. Sums over shapes and depths need no penalty of their own. A light week before the
onset, an odd session, a lost one, sessions moved by a day or two, an empty week and a rest on the eve are
explained by something cheaper than a taper. How well it does is measured in tests (seasons with a known
taper).
"""

from dataclasses import dataclass

import numpy as np

from reportgen.analysis.baseline import (
    LIGHT_WEEKS,
    WEEK,
    Array,
    Baseline,
    Days,
    Marginal,
    Mask,
    log_share,
    marginal,
    usual_session,
    usual_week,
)
from reportgen.trade.schema import Trade

ROWS, SEARCHED = 10, 4
SPAN, TAIL = ROWS * WEEK, SEARCHED * WEEK
BASE = SPAN - TAIL

_AT_ONCE = 16  # test days: more do not fit the processor's memory and take longer each


@dataclass(frozen=True, slots=True, kw_only=True)
class Onset:
    """What was found before T test days."""

    days: Days  # (T,) days from the first day of less to the test day; 0 = no taper
    cut: Array  # (T,) share below the expected load from that day on; NaN without a taper
    ramp: Mask  # (T,) the taper falls more evenly than at once
    evidence: Array  # (T,) log of the Bayes factor, taper against none
    spread: Array  # (T,) scatter of a session's load, as a share
    usable: Mask  # (T, 28) days of the search that count: not away, not in an empty week
    #: (T, 28) the weekday whose usual load is to be expected, moved sessions moved with it; -1 on a day whose
    #: session was held on another.
    stands_for: Days
    base: Baseline  # the usual week of days 70 to 29 before


@dataclass(frozen=True, slots=True, kw_only=True)
class _Search:
    """The last 28 days as the search sees them, (T, 28) each."""

    done: Mask  # a session that can be judged
    absent: Mask  # a session that was expected and is not there
    expected: Mask  # either
    column: Days  # the weekday it is judged as
    weight: Array  # how much it says: 1, less for a weekday with less than the usual session
    stands_for: Days  # the weekday whose load is usual on that day; -1 where its session was on another

    def part(self, cases: slice) -> "_Search":
        """Some of the test days."""
        return _Search(**{name: getattr(self, name)[cases] for name in self.__slots__})


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
    seen = _look(tail_kg, open_days, base, trade)
    judged = _marginal(load_kg, weight, seen, base, trade)
    evidence, chance = np.zeros(len(rows)), np.zeros((len(rows), TAIL))
    ramp = np.zeros((len(rows), TAIL), dtype=bool)
    for first in range(0, len(rows), _AT_ONCE):
        part = slice(first, first + _AT_ONCE)
        scores, none, ramp[part] = _scores(seen.part(part), judged.part(part), trade)
        top = scores.max(axis=1, keepdims=True)
        top = np.where(np.isfinite(top), top, 0.0)
        mass = np.exp(scores - top)
        total = np.maximum(mass.sum(axis=1), 1e-300)
        evidence[part] = np.where(mass.any(axis=1), np.log(total) + top[:, 0] - none, -np.inf)
        chance[part] = mass / total[:, None]
    return _decide(chance, evidence, ramp, (tail_kg, open_days, seen.stands_for), base, trade)


def usual(load_kg: Array, usable: Mask, trade: Trade) -> Baseline:
    """The usual week of days 70 to 29 before each test day, as `find` has it; arguments as there."""
    return usual_week(*_weighed(load_kg, usable), trade)


def expected_on(weekday_kg: Array, stands_for: Days) -> Array:
    """(T, 28) load to be expected on each day, from that of the weekdays (T, 7) and `Onset.stands_for`."""
    found = np.take_along_axis(weekday_kg, np.maximum(stands_for, 0), axis=1)
    return np.where(stands_for >= 0, found, 0.0)


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


def _look(tail_kg: Array, open_days: Mask, week: Baseline, trade: Trade) -> _Search:
    """Which days are judged, and as what; a session a day or two off stands for the one it replaced."""
    own = _weekdays(tail_kg > 0, open_days, week, trade)
    regular = np.take_along_axis(week.attended > trade.value("taper_regular"), own, axis=1)
    done = (tail_kg > 0) & open_days
    source = _moved(done & ~regular, regular & ~done & open_days, int(trade.value("taper_moved_days")))
    moved = source != np.arange(TAIL)
    replaced = np.zeros_like(moved)
    case, day = np.nonzero(moved)
    replaced[case, source[case, day]] = True
    regular = (regular | moved) & ~replaced
    column = np.take_along_axis(own, source, axis=1)
    usual_kg = np.take_along_axis(week.session_kg, column, axis=1)
    # Rest on the last days before a test is customary with and without a taper.
    eve = np.arange(TAIL) >= TAIL - trade.value("taper_eve_days")
    expected = regular & open_days & (done | ~eve)
    return _Search(
        done=done & regular & (usual_kg > 0),
        absent=expected & ~done,
        expected=expected,
        column=column,
        weight=np.clip(usual_kg / np.maximum(usual_session(week)[:, None], 1e-9), 0.0, 1.0),
        stands_for=np.where(replaced, -1, column),
    )


def _weekdays(done: Mask, open_days: Mask, week: Baseline, trade: Trade) -> Days:
    """(T, 28) the weekday that each day stands for: its own, or, where training went on so many days later
    from some day on, another one.
    """
    reach, index = int(trade.value("taper_moved_days")), np.arange(TAIL)
    shifts = np.array(sorted(range(-reach, reach + 1), key=abs))
    columns = (index - shifts[:, None]) % WEEK
    regular = (week.attended > trade.value("taper_regular"))[:, columns]  # (T, shift, day)
    eve = index >= TAIL - trade.value("taper_eve_days")
    off = (done[:, None] != regular) & open_days[:, None] & (done[:, None] | ~eve)
    plain = off[:, :1].astype(np.float64)
    misfits = np.cumsum(plain, axis=2) - plain + _from_each(off)  # (T, shift, first day of it)
    # The last day that fits as well: as few days as can be are taken for others.
    flat = misfits[:, :, ::-1].reshape(len(done), -1)
    best = flat.argmin(axis=1)
    better = misfits[:, 0, 0] - flat.min(axis=1) >= 2 * trade.value("taper_moved_sessions")
    first = TAIL - 1 - best % TAIL
    shift = np.where(better, shifts[best // TAIL], 0)
    found: Days = (index - shift[:, None] * (index >= first[:, None])) % WEEK
    return found


def _marginal(load_kg: Array, weight: Array, seen: _Search, base: Baseline, trade: Trade) -> Marginal:
    """How the loads are judged; light weeks of rows 0 to 5 count as little as they are likely to be light."""
    early = weight[:, : ROWS - SEARCHED]
    trusted = early * base.full[:, : ROWS - SEARCHED]
    early = np.where(trusted.sum(axis=(1, 2), keepdims=True) > 0.5, trusted, early).reshape(-1, BASE)
    usual_kg = np.tile(base.session_kg, ROWS - SEARCHED)
    size = np.clip(usual_kg / np.maximum(usual_session(base)[:, None], 1e-9), 0.0, 1.0)
    column = np.broadcast_to(np.arange(BASE) % WEEK, early.shape)
    return marginal(
        load_kg,
        np.concatenate([early * size * (load_kg[:, :BASE] > 0), seen.weight * seen.done], axis=1),
        np.concatenate([column, seen.column], axis=1),
        TAIL,
        base,
        trade,
    )


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


def _scores(seen: _Search, judged: Marginal, trade: Trade) -> tuple[Array, Array, Mask]:
    """(T, 28) log evidence of a taper from each day on, (T,) of none, (T, 28) whether a ramp fits better."""
    cases = len(seen.done)
    came = _came(seen, trade.value("taper_lost"))
    before = np.concatenate([np.zeros((cases, 1)), np.cumsum(came, axis=1)], axis=1)
    shifts, prior, ramped = _shapes(seen, trade)
    likely = judged.likely(shifts.reshape(cases, -1, TAIL)).reshape(shifts.shape[:3]) + prior[:, None]
    plain = np.zeros((cases, 1, TAIL))
    usual = judged.likely(plain)
    best = np.take_along_axis(shifts, likely.argmax(axis=1)[:, None, :, None], axis=1)[:, 0]
    none = usual[:, 0] + before[:, TAIL] + _light(judged, plain, np.array([TAIL]), trade)[:, 0]
    step = np.logaddexp.reduce(likely[:, ~ramped], axis=1)
    ramp = np.logaddexp.reduce(likely[:, ramped], axis=1)
    fewer = np.log(trade.value("taper_fewer"))
    # Fewer sessions than usual, each as it was or cut as well.
    less = np.logaddexp(step, ramp)
    rare = np.logaddexp(less, usual) + _from_each(_came(seen, trade.value("taper_skipped_many"))) + fewer
    often = less + _from_each(_came(seen, trade.value("taper_skipped"))) + np.log1p(-np.exp(fewer))
    # A start is a day with an expected session; it stands for the days since the one before.
    index = np.arange(TAIL)
    last = np.maximum.accumulate(np.where(seen.expected, index, -1), axis=1)
    last = np.concatenate([np.full((cases, 1), -1), last[:, :-1]], axis=1)
    able = seen.expected & (_from_each(seen.done) > 0)
    both = before[:, :TAIL] + _light(judged, best, index, trade) + np.logaddexp(often, rare)
    days = np.where(TAIL - index < trade.value("taper_short_days"), trade.value("taper_short_chance"), 1.0)
    return np.where(able, both + np.log(days * (index - last) / TAIL), -np.inf), none, ramp > step


def _from_each(values: Array | Mask) -> Array:
    """Sums from each day to the last, along the last axis."""
    found: Array = np.cumsum(values.astype(np.float64)[..., ::-1], axis=-1)[..., ::-1]
    return found


def _came(seen: _Search, skipped: float) -> Array:
    """(T, 28) log chance of each session done or missed where so many fall out."""
    found: Array = np.where(seen.absent, np.log(skipped), np.where(seen.done, np.log(1 - skipped), 0.0))
    return found * seen.weight


def _shapes(seen: _Search, trade: Trade) -> tuple[Array, Array, Mask]:
    """Every cut from every day on: (T, N, 28, 28) change of log load, (N,) log prior, (N,) not at once."""
    least, most = trade.value("taper_cut_least"), trade.value("taper_cut_most")
    depths = np.linspace(least, most, int(trade.value("taper_cut_grid")))
    deepest = np.linspace(least, trade.value("taper_ramp_most"), len(depths) // 2 + 1)
    some = depths[1::3].tolist()
    stairs = np.array([(shallow, deep) for shallow in some for deep in some if deep > shallow])
    order = np.cumsum(seen.expected, axis=1)
    nth = order[:, None, :] - order[:, :, None] + 1  # (T, start, day)
    total = np.maximum(order[:, -1:, None] - order[:, :, None] + 1, 1)
    inside = np.arange(TAIL)[None, :] >= np.arange(TAIL)[:, None]
    part = np.clip(nth / total, 0.0, 1.0)[:, None]
    # Each cut is so much at once and grows evenly by so much to the last session's.
    kinds = (depths, np.zeros(len(deepest)), stairs[:, 0]), (depths * 0, deepest, stairs[:, 1] - stairs[:, 0])
    first, more = (np.concatenate(kind)[None, :, None, None] for kind in kinds)
    shifts = np.where(inside, log_share(1 - first - more * part, trade), 0.0)
    chance = trade.value("taper_stairs")
    means = (depths, deepest / 2, stairs.mean(axis=1))
    priors = [_depth_prior(mean, trade) for mean in means]
    shares = ((1 - chance) / 2, (1 - chance) / 2, chance)
    prior = np.concatenate([np.log(share * one) for share, one in zip(shares, priors, strict=True)])
    return shifts, prior, np.arange(len(prior)) >= len(depths)


def _depth_prior(mean: Array, trade: Trade) -> Array:
    """Chance of each mean cut, before the log says otherwise."""
    off = (mean - trade.value("taper_cut_mean")) / trade.value("taper_cut_spread")
    likely = np.exp(-(off**2) / 2)
    found: Array = likely / likely.sum()
    return found


def _light(judged: Marginal, shifts: Array, onsets: Days, trade: Trade) -> Array:
    """(T, N) log factor of each shift that allows for one light week well before its onset."""
    chance, apart = trade.value("light_week_before"), int(trade.value("light_week_apart"))
    starts = np.arange(1 - WEEK, TAIL - WEEK + 1)[:, None]
    days = np.arange(TAIL)
    inside = (days >= starts) & (days < starts + WEEK)
    levels = log_share(np.array([trade.value(rule) for rule in LIGHT_WEEKS]), trade)
    weeks = (levels[:, None, None] * inside).reshape(-1, TAIL)
    gain = judged.log(judged.both(shifts, np.broadcast_to(weeks, (len(shifts), *weeks.shape))))
    gain = gain - judged.log(judged.left(shifts))[:, :, None] - np.log(len(weeks))
    # A light week right before less work, or before the day itself, is a part of the taper.
    allowed = np.tile(starts[:, 0] + WEEK, len(levels)) <= onsets[:, None] - apart
    some = np.logaddexp.reduce(np.where(allowed, gain, -np.inf), axis=2)
    found: Array = np.logaddexp(np.log(1 - chance), np.log(chance) + some)
    return found


def _decide(
    chance: Array,
    evidence: Array,
    ramp: Mask,
    tail: tuple[Array, Mask, Days],
    base: Baseline,
    trade: Trade,
) -> Onset:
    """The day with most chance near it, where the evidence and the cut are large enough."""
    tail_kg, open_days, stands_for = tail
    index = np.arange(TAIL)
    near = np.abs(index[:, None] - index[None, :]) <= trade.value("taper_hit_days")
    score = chance @ near.astype(np.float64) + trade.value("taper_own_chance") * chance
    start = np.argmax(np.where(chance > 0, score, -1.0), axis=1)
    inside = (index[None, :] >= start[:, None]) & open_days
    expected = (expected_on(base.expected_kg, stands_for) * inside).sum(axis=1)
    done = (tail_kg * inside).sum(axis=1)
    cut = 1 - done / np.where(expected > 0, expected, np.nan)
    found = (evidence > trade.value("taper_evidence")) & (cut >= trade.value("taper_cut_gate"))
    return Onset(
        days=np.where(found, TAIL - start, 0),
        cut=np.where(found, cut, np.nan),
        ramp=found & ramp[np.arange(len(start)), start],
        evidence=evidence,
        spread=base.spread,
        usable=open_days,
        stands_for=stands_for,
        base=base,
    )
