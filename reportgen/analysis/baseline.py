"""What a usual week of training is, and how well loads fit when the usual week itself is left open.

`usual_week` is a point estimate: load by weekday, attendance and scatter, light weeks left out. `marginal`
asks the same of a normal model of log loads with its level, drift, weekdays and scatter integrated out.
"""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Days = NDArray[np.int64]

WEEK = 7
LIGHT_WEEKS = ("light_week_low", "light_week_middle", "light_week_high")  #: what one may come to
_ROUNDS = 5  # of the alternation between weeks and weekdays; it stands still after three or four
_TAMINGS = 3
_TINY = 1e-9
_FAINT = 1e-6  # a day that counts for less says nothing


@dataclass(frozen=True, slots=True, kw_only=True)
class Baseline:
    """The usual week of T cases at once; a column of 7 is one weekday."""

    session_kg: Array  # (T, 7) load of a session where one is done [kg]
    attended: Array  # (T, 7) share of the weeks in which that weekday was trained
    expected_kg: Array  # (T, 7) mean load of the weekday, days without a session counted [kg]
    sessions: Array  # (T, 7) how many sessions the figure rests on
    spread: Array  # (T,) scatter of a session's load around its weekday, as a share
    usual: Array  # (T, R, 7) weight of each day: near 0 in a light or half-empty week
    full: Array  # (T, R, 7) the same for its loads alone: a half-empty week's sessions say what a session is


def usual_week(load_kg: Array, weight: Array, trade: Trade) -> Baseline:
    """Learn the usual week from some weeks of daily loads.

    Weeks and weekdays are fitted in turn, as a mixture: a week is usual, or light all through, or
    half-empty, and only usual ones say what is usual. Weekdays with few sessions are drawn toward the
    mean of all (empirical Bayes), and so is the scatter, toward rule `taper_noise`.

    Args:
        load_kg: (T, R, 7) loads [kg], 0 = no session.
        weight: (T, R, 7) 0 to 1: how far a day may speak for usual training; 0 = not at all.
        trade: Rules `taper_*`.

    Returns:
        The usual week of each case; NaN where no session has any weight.
    """
    done = (load_kg > 0) & (weight > 0)
    log_kg = np.where(done, np.log(np.where(done, load_kg, 1.0)), 0.0)
    days = weight.sum(axis=1)
    attended = _ratio((done * weight).sum(axis=1), days)
    middle = _medians(log_kg, done)
    variance = np.full(len(load_kg), trade.value("taper_noise") ** 2)
    strength = trade.value("taper_noise_sessions")
    full = usual = np.ones(load_kg.shape)
    for _ in range(_ROUNDS):
        regular = attended > trade.value("taper_regular")
        usual = _not_light((log_kg - middle[:, None, :]) * done, weight, variance, trade)
        counted = done * weight * usual
        sessions = counted.sum(axis=1)
        total = sessions.sum(axis=1)
        grand = _ratio((counted * log_kg).sum(axis=(1, 2)), total)
        raw = np.where(sessions > _TINY, _ratio((counted * log_kg).sum(axis=1), sessions), grand[:, None])
        columns = (sessions > 0.5).sum(axis=1)
        squares = (counted * ((log_kg - raw[:, None, :]) * done) ** 2).sum(axis=(1, 2))
        variance = (strength * trade.value("taper_noise") ** 2 + squares) / (
            strength + np.maximum(total - columns, 0.0)
        )
        middle = grand[:, None] + _shrink(raw - grand[:, None], sessions, variance, columns)
        full, usual = usual, usual * _not_sparse(done, weight, regular, trade)[:, :, None]
        attended = _attended(done, weight, usual, attended)
    trusted = weight * usual
    weights = np.where(trusted.sum(axis=1, keepdims=True) > 0.5, trusted, weight)
    return Baseline(
        session_kg=np.exp(middle + variance[:, None] / 2),
        attended=attended,
        expected_kg=_ratio((load_kg * weights).sum(axis=1), weights.sum(axis=1)),
        sessions=sessions,
        spread=np.sqrt(variance),
        usual=usual,
        full=full,
    )


def usual_session(week: Baseline) -> Array:
    """(T,) load of a session where the usual work is done: the mean, weighed by the load itself [kg]."""
    kg = week.session_kg * week.attended
    return _ratio((kg * week.session_kg).sum(axis=1), kg.sum(axis=1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Marginal:
    """How likely the loads of the last S days are if less was meant on some of them.

    Log loads are normal around a level with a drift and around their weekdays. Level, drift, weekdays and
    scatter are integrated out (conjugate priors, so a Student-t marginal likelihood): whatever shift is
    asked about, the usual loads are learnt anew from all days, as it would have them.
    """

    pull: Array  # (T, S) what is left of each of the S days without a shift, times its weight
    hold: Array  # (T, S, S) how a shift of one day counts on another
    squares: Array  # (T,) squares left without a shift
    prior: float  # squares before any day was seen
    power: Array  # (T,) half the degrees of freedom
    odd_chance: float  # share of the sessions that are odd, for no reason
    odd_size: Array  # (T,) their scatter; relative variance of usual to odd

    def left(self, shift: Array, held: Array | None = None) -> Array:
        """Squares left by shifts of log load (T, N, S), `held` by one another: (T, N)."""
        held = shift @ self.hold if held is None else held
        found: Array = ((held - 2 * self.pull[:, None, :]) * shift).sum(axis=2)
        return _not_below_0(found + self.squares[:, None])

    def both(self, one: Array, other: Array) -> Array:
        """Squares left by each shift of one kind together with each of another: (T, N, M)."""
        held = one @ self.hold
        cross = held @ other.transpose(0, 2, 1)
        found: Array = self.left(one, held)[:, :, None] + self.left(other)[:, None, :] + 2 * cross
        return _not_below_0(found - self.squares[:, None, None])

    def log(self, left: Array) -> Array:
        """Log likelihood of what leaves such squares, (T, ...), but for a constant."""
        found: Array = -self.power.reshape(-1, *[1] * (left.ndim - 1)) * np.log(self.prior + left)
        return found

    def likely(self, shift: Array) -> Array:
        """Log likelihood of shifts (T, N, S), any of the S sessions odd or not: (T, N)."""
        held = shift @ self.hold
        left = self.left(shift, held)
        own = self.hold.diagonal(axis1=1, axis2=2)
        size = self.odd_size[:, None]
        # An odd day is one more unknown: what it explains, and what it costs to have it.
        share = (self.pull[:, None, :] - held) ** 2 / (own + size)[:, None, :]
        share = np.minimum(share / (self.prior + left)[:, :, None], 1 - _TINY)
        gain = -self.power[:, None, None] * np.log1p(-share) + (np.log(size / (own + size)) / 2)[:, None, :]
        gain = np.log1p(self.odd_chance * np.expm1(np.minimum(gain, 500.0)))
        found: Array = self.log(left) + np.where(own[:, None, :] > 0, gain, 0.0).sum(axis=2)
        return found

    def part(self, cases: slice) -> "Marginal":
        """Some of the cases."""
        return replace(
            self,
            pull=self.pull[cases],
            hold=self.hold[cases],
            squares=self.squares[cases],
            power=self.power[cases],
            odd_size=self.odd_size[cases],
        )


def marginal(
    load_kg: Array, weight: Array, column: Days, searched: int, week: Baseline, trade: Trade
) -> Marginal:
    """How the last days' loads are judged, the usual week left open.

    Args:
        load_kg: (T, D) daily load [kg].
        weight: (T, D) how far each day counts; 0 without a session.
        column: (T, D) its weekday.
        searched: How many of the days, the last ones, may hold less than usual.
        week: The usual week, for the size of a session and a first idea of the scatter.
        trade: Rules `taper_*`.
    """
    days = np.arange(load_kg.shape[1])
    unit = usual_session(week)[:, None]
    log_kg = np.where(weight > 0, log_share(load_kg / np.maximum(unit, _TINY), trade), 0.0)
    # The log of a share that is kept off zero is that much narrower.
    narrow = 1 / (1 + trade.value("taper_share_floor"))
    strength, prior = trade.value("taper_noise_sessions"), (trade.value("taper_noise") * narrow) ** 2
    design = np.concatenate(
        [
            np.ones((*weight.shape, 1)),
            np.broadcast_to((days / len(days) - 0.5)[:, None], (*weight.shape, 1)),
            (column[:, :, None] == np.arange(WEEK)).astype(np.float64),
        ],
        axis=2,
    )
    spread = np.array([trade.value("taper_drift"), *[trade.value("taper_weekday_spread")] * WEEK]) * narrow
    before = weight * (days < len(days) - searched)
    variance = (week.spread * narrow) ** 2
    variance, log_kg = _tamed(log_kg, before, design, (variance, spread), trade)
    hold = _left_over(weight, design, variance, spread)
    pull = (hold @ log_kg[:, :, None])[:, :, 0]
    return Marginal(
        pull=pull[:, -searched:],
        hold=hold[:, -searched:, -searched:],
        squares=(pull * log_kg).sum(axis=1),
        prior=strength * prior,
        power=(strength + weight.sum(axis=1)) / 2,
        odd_chance=trade.value("taper_odd"),
        odd_size=variance / (trade.value("taper_odd_size") * narrow) ** 2,
    )


def log_share(share: Array, trade: Trade) -> Array:
    """Log of a share of the usual load, kept off zero: nearly no work and none are nearly the same."""
    floor = trade.value("taper_share_floor")
    found: Array = np.log((np.maximum(share, 0.0) + floor) / (1 + floor))
    return found


def _not_below_0(values: Array) -> Array:
    found: Array = np.maximum(values, 0.0)
    return found


def _left_over(weight: Array, design: Array, variance: Array, spread: Array) -> Array:
    """(T, D, D) the quadratic form of what is left when level, drift and weekdays have been learnt."""
    prior = np.concatenate([np.full((len(weight), 1), 1e-3), variance[:, None] / spread**2], axis=1)
    weighed = weight[:, :, None] * design
    inner = design.transpose(0, 2, 1) @ weighed + prior[:, :, None] * np.eye(prior.shape[1])
    found: Array = -weighed @ np.linalg.inv(inner) @ weighed.transpose(0, 2, 1)
    place = np.arange(weight.shape[1])
    found[:, place, place] += weight
    return found


def _tamed(
    log_kg: Array, weight: Array, design: Array, scale: tuple[Array, Array], trade: Trade
) -> tuple[Array, Array]:
    """Scatter of the days before the search, and all log loads, the odd ones before drawn in."""
    variance, spread = scale
    prior = (
        trade.value("taper_noise_sessions"),
        trade.value("taper_noise") / (1 + trade.value("taper_share_floor")),
    )
    counts = weight > _FAINT
    number = weight.sum(axis=1)
    free = np.maximum(number - np.minimum(number / 3, 5.0), 0.0)
    tame = log_kg
    for _ in range(_TAMINGS):
        left = (_left_over(weight, design, variance, spread) @ tame[:, :, None])[:, :, 0]
        fit = tame - np.where(counts, left / np.where(counts, weight, 1.0), 0.0)
        reach = trade.value("taper_odd_from") * np.sqrt(variance)[:, None]
        off = np.clip(log_kg - fit, -reach, reach)
        tame = np.where(counts, fit + off, log_kg)
        variance = (prior[0] * prior[1] ** 2 + (weight * off**2).sum(axis=1)) / (prior[0] + free)
    return variance, tame


def _ratio(above: Array, below: Array) -> Array:
    found: Array = above / np.maximum(below, _TINY)
    return found


def _medians(log_kg: Array, done: Mask) -> Array:
    """Median log load of each weekday; of all days where a weekday was never trained."""
    shown = np.where(done, log_kg, np.nan)
    shown[:, 0, 0] = np.where(done.any(axis=(1, 2)), shown[:, 0, 0], 0.0)
    found = nan_median(shown)
    every = nan_median(shown.reshape(len(shown), -1, 1))
    return np.where(np.isnan(found), every, found)


def nan_median(values: Array) -> Array:
    """Median along axis 1, NaN left out, NaN where nothing is left (and no warning)."""
    ordered = np.sort(values, axis=1)  # NaN goes last
    count = (~np.isnan(values)).sum(axis=1, keepdims=True)
    low = np.take_along_axis(ordered, np.maximum((count - 1) // 2, 0), axis=1)
    high = np.take_along_axis(ordered, np.minimum(count // 2, np.maximum(count - 1, 0)), axis=1)
    found: Array = ((low + high) / 2)[:, 0]
    return found


def _not_light(off: Array, weight: Array, variance: Array, trade: Trade) -> Array:
    """(T, R, 7) chance that a day lies in no light week, from distances in log load.

    A light week may begin on any day: the rows count back from the test day, training weeks do not.
    """
    there = weight * (off != 0)
    sums, counts = (_by_week(part.reshape(len(off), -1)) for part in (off * there, there))
    levels = np.log([trade.value(rule) for rule in LIGHT_WEEKS])[:, None, None]
    gains = (2 * levels * sums - levels**2 * counts) / (2 * variance[:, None])
    gain = np.logaddexp.reduce(gains, axis=0) - np.log(len(levels))
    around = np.lib.stride_tricks.sliding_window_view(gain, WEEK, axis=1)
    odds = np.logaddexp.reduce(around, axis=2) - np.log(WEEK)
    return _chance(odds, trade.value("light_week_chance")).reshape(off.shape)


def _by_week(days: Array) -> Array:
    """Sums of all seven days in a row that hold one of the days at least: (T, D) to (T, D + 6)."""
    wide = np.pad(days, ((0, 0), (WEEK - 1, WEEK - 1)))
    found: Array = np.lib.stride_tricks.sliding_window_view(wide, WEEK, axis=1).sum(axis=2)
    return found


def _not_sparse(done: Mask, weight: Array, regular: Mask, trade: Trade) -> Array:
    """(T, R) chance that a week is not half-empty, from the sessions that its regular days lack."""
    lost = trade.value("taper_lost")
    asked = (weight > 0) & regular[:, None, :]
    count = asked.sum(axis=2)
    came = (done & asked).sum(axis=2)
    sparse = -count * np.log(2.0)
    return _chance(
        sparse - came * np.log(1 - lost) - (count - came) * np.log(lost), trade.value("light_week_chance")
    )


def _chance(odds_against: Array, prior: float) -> Array:
    """1 - posterior chance of the odd hypothesis, from its log evidence and its prior."""
    found: Array = 1 / (1 + np.exp(np.clip(np.log(prior / (1 - prior)) + odds_against, -50, 50)))
    return found


def _shrink(off: Array, sessions: Array, variance: Array, columns: NDArray[np.int64]) -> Array:
    """Weekdays' distances from the mean of all, drawn in as far as they may be chance."""
    total = sessions.sum(axis=1)
    seen: Array = (off**2 * sessions).sum(axis=1)
    between = np.maximum(_ratio(seen - variance * columns, total), 0.0)[:, None]
    within = _ratio(np.broadcast_to(variance[:, None], sessions.shape), sessions)
    found: Array = off * _ratio(between, between + within)
    return found


def _attended(done: Mask, weight: Array, usual: Array, before: Array) -> Array:
    trusted = weight * usual
    total = trusted.sum(axis=1)
    return np.where(total > 0.5, _ratio((done * trusted).sum(axis=1), total), before)
