"""What a usual week of training is: load by weekday, attendance and scatter, light weeks left out."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from reportgen.trade.schema import Trade

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

WEEK = 7
_ROUNDS = 5  # of the alternation between weeks and weekdays; it stands still after three or four
_TINY = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Baseline:
    """The usual week of T cases at once; a column of 7 is one weekday.

    Attributes:
        session_kg: (T, 7) load of a session where one is done [kg].
        attended: (T, 7) share of the weeks in which that weekday was trained.
        expected_kg: (T, 7) mean load of the weekday, days without a session counted [kg].
        sessions: (T, 7) how many sessions the figure rests on.
        spread: (T,) scatter of a session's load around its weekday, as a share.
        usual: (T, R) weight of each week: near 0 for a light or half-empty one.
    """

    session_kg: Array
    attended: Array
    expected_kg: Array
    sessions: Array
    spread: Array
    usual: Array


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
    usual = np.ones(load_kg.shape[:2])
    for _ in range(_ROUNDS):
        regular = attended > trade.value("taper_regular")
        usual = _not_light((log_kg - middle[:, None, :]) * done, weight, variance, trade)
        counted = done * weight * usual[:, :, None]
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
        usual = usual * _not_sparse(done, weight, regular, trade)
        attended = _attended(done, weight, usual, attended)
    trusted = weight * usual[:, :, None]
    weights = np.where(trusted.sum(axis=1, keepdims=True) > 0.5, trusted, weight)
    return Baseline(
        session_kg=np.exp(middle + variance[:, None] / 2),
        attended=attended,
        expected_kg=_ratio((load_kg * weights).sum(axis=1), weights.sum(axis=1)),
        sessions=sessions,
        spread=np.sqrt(variance),
        usual=usual,
    )


def _ratio(above: Array, below: Array) -> Array:
    found: Array = above / np.maximum(below, _TINY)
    return found


def _medians(log_kg: Array, done: Mask) -> Array:
    """Median log load of each weekday; of all days where a weekday was never trained."""
    shown = np.where(done, log_kg, np.nan)
    shown[:, 0, 0] = np.where(done.any(axis=(1, 2)), shown[:, 0, 0], 0.0)
    found = _nan_median(shown)
    every = _nan_median(shown.reshape(len(shown), -1, 1))
    return np.where(np.isnan(found), every, found)


def _nan_median(values: Array) -> Array:
    """Median along axis 1, NaN left out, NaN where nothing is left (and no warning)."""
    ordered = np.sort(values, axis=1)  # NaN goes last
    count = (~np.isnan(values)).sum(axis=1, keepdims=True)
    low = np.take_along_axis(ordered, np.maximum((count - 1) // 2, 0), axis=1)
    high = np.take_along_axis(ordered, np.minimum(count // 2, np.maximum(count - 1, 0)), axis=1)
    found: Array = ((low + high) / 2)[:, 0]
    return found


def _not_light(off: Array, weight: Array, variance: Array, trade: Trade) -> Array:
    """(T, R) chance that a week is not light all through, from its distances in log load."""
    scale = 2 * variance[:, None]
    plain = -(off**2 * weight).sum(axis=2) / scale
    there = weight * (off != 0)
    light = [
        -((off - np.log(trade.value(rule))) ** 2 * there).sum(axis=2) / scale
        for rule in ("light_week_low", "light_week_middle", "light_week_high")
    ]
    best = np.logaddexp.reduce(np.stack(light), axis=0) - np.log(len(light))
    return _chance(best - plain, trade.value("light_week_chance"))


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
    trusted = weight * usual[:, :, None]
    total = trusted.sum(axis=1)
    return np.where(total > 0.5, _ratio((done * trusted).sum(axis=1), total), before)
