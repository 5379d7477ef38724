"""Published formulas and the federation's arithmetic; every constant comes from the trade tables."""

import math
from bisect import bisect_right
from collections.abc import Sequence
from datetime import date
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from reportgen.model.say import Say, say
from reportgen.trade.schema import Sinclair, Trade, Zone

if TYPE_CHECKING:
    import numpy as np
    import pandas as pd
    from numpy.typing import ArrayLike, NDArray


Loads = TypeVar("Loads", float, "pd.Series[float]", "NDArray[np.float64]")
#: Shares are compared after rounding to so many places, so that a log in pounds falls into the same zone.
_PLACES = 9
#: Loads so near to one another are the same [kg or lb]: pounds were converted.
_SAME = 1e-4


def epley(load_kg: Loads, reps: Loads, trade: Trade) -> Loads:
    """Estimate singles from sets of several: w (1 + r / 30). Squats and presses only.

    Args:
        load_kg: Load of each set [kg].
        reps: Repetitions made; the caller leaves out singles and more than `estimate_most_reps`.
        trade: Rule `epley_divisor`.

    References:
        Epley 1985, also printed with 0.033 and 0.0333 in place of 1/30.
    """
    return load_kg * (1 + reps / trade.value("epley_divisor"))


def sinclair_row(year: int, standards: str, trade: Trade) -> Sinclair | None:
    """A and b for a year.

    Args:
        year: Year of the total.
        standards: women or men.
        trade: The cycles that are known.

    Returns:
        The cycle that holds the year; for a year after the last known cycle that one (the page says so:
        `last_year` lies before the year); None for a year in or before a cycle that is not known.
    """
    mine = sorted(
        (row for row in trade.sinclair if row.standards == standards), key=lambda row: row.first_year
    )
    if mine and year > mine[-1].last_year:
        return mine[-1]
    return next((row for row in mine if row.first_year <= year <= row.last_year), None)


def cycle_without_sinclair(year: int, trade: Trade) -> str:
    """The cycle of a year whose A and b are not known, by its name; the year alone where it has none."""
    unknown = (row.cycle for row in trade.sinclair_unknown if row.first_year <= year <= row.last_year)
    return next(unknown, str(year))


def sinclair_coefficient(body_mass_kg: float, row: Sinclair) -> float:
    """The factor of one body mass: 10 ** (A X ** 2) with X = log10(body mass / b), and 1 from b up.

    Args:
        body_mass_kg: Body mass [kg], above 0.
        row: A and b of one cycle.

    Returns:
        The coefficient, 1 or more.

    Raises:
        ValueError: The body mass is not above 0.

    References:
        IWF, The Sinclair Coefficients.
    """
    if not body_mass_kg > 0:
        msg = f"a body mass of {body_mass_kg} kg has no coefficient"
        raise ValueError(msg)
    if body_mass_kg >= row.b_kg:
        return 1.0
    power = row.a * math.log10(body_mass_kg / row.b_kg) ** 2
    return float(10**power)


def wilson(made: int, tried: int, confidence: float = 0.95) -> tuple[float, float]:
    """Wilson's score interval of a rate.

    Args:
        made: Repetitions made, 0 to `tried`.
        tried: Repetitions tried, 1 or more.
        confidence: Above 0 and under 1.

    Returns:
        Lower and upper edge, inside 0 to 1.

    Raises:
        ValueError: Nothing was tried, or more was made than tried.

    References:
        Wilson 1927, closed form; 8 of 10 gives 0.4902 to 0.9433.
    """
    if not 0 <= made <= tried or tried < 1:
        msg = f"{made} made of {tried} tried is no rate"
        raise ValueError(msg)
    z = _normal_quantile(0.5 + confidence / 2)
    rate = made / tried
    scale = 1 + z * z / tried
    middle = (rate + z * z / (2 * tried)) / scale
    half = z * math.sqrt(rate * (1 - rate) / tried + z * z / (4 * tried * tried)) / scale
    # The closed form misses 0 and 1 by one bit; nothing made has no lower edge above 0.
    low = 0.0 if made == 0 else max(0.0, middle - half)
    high = 1.0 if made == tried else min(1.0, middle + half)
    return low, high


@cache
def _normal_quantile(share: float) -> float:
    from statistics import NormalDist

    return NormalDist().inv_cdf(share)


def zone_index(share: float, zones: Sequence[Zone]) -> int:
    """The zone that a share of the reference falls into; an edge belongs to the zone above it.

    Args:
        share: Load / reference.
        zones: Ascending, as `Trade.zones`.

    Returns:
        Place in `zones`, from 0.
    """
    return bisect_right(_edges(zones), round(share, _PLACES))


def zone_indices(shares: "ArrayLike", zones: Sequence[Zone]) -> "NDArray[np.intp]":
    """`zone_index` of many shares at once; NaN falls after the last zone (mask it).

    Args:
        shares: Load / reference, any shape.
        zones: Ascending, as `Trade.zones`.

    Returns:
        Places in `zones`, same shape.
    """
    import numpy as np

    return np.searchsorted(
        _edges(zones), np.round(np.asarray(shares, dtype=np.float64), _PLACES), side="right"
    )


def _edges(zones: Sequence[Zone]) -> list[float]:
    return [zone.low for zone in zones if zone.low is not None]


def prilepin_load(reps_by_zone: Sequence[float], zones: Sequence[Zone], *, low: bool = False) -> float:
    """How much of one session's range the repetitions of a classic lift take up, over all zones.

    Args:
        reps_by_zone: Repetitions in each zone.
        zones: As many, with their ranges.
        low: Against the smallest numbers in place of the largest.

    Returns:
        Sum of repetitions / the zone's number; 1 is the whole of it.
    """
    pairs = zip(reps_by_zone, zones, strict=True)
    return sum(reps / (zone.range_low if low else zone.range_high) for reps, zone in pairs)


def best_attempt(tries: Sequence[tuple[float, bool]]) -> float | None:
    """The heaviest made attempt of one lift [kg], or None.

    Args:
        tries: Load [kg] and whether it was made, in order.
    """
    return max((load_kg for load_kg, made in tries if made), default=None)


def contest_total(
    snatches: Sequence[tuple[float, bool]], clean_and_jerks: Sequence[tuple[float, bool]]
) -> float | None:
    """The total by the federation's rules: best snatch + best clean and jerk.

    Args:
        snatches: Load [kg] and whether it was made, in order.
        clean_and_jerks: The same.

    Returns:
        Total [kg]; None where a lift has no made attempt.

    References:
        IWF, Technical and Competition Rules and Regulations.
    """
    snatch_kg, clean_and_jerk_kg = best_attempt(snatches), best_attempt(clean_and_jerks)
    if snatch_kg is None or clean_and_jerk_kg is None:
        return None
    return snatch_kg + clean_and_jerk_kg


def attempt_faults(
    tries: Sequence[tuple[float, bool]], trade: Trade, day: date | None = None
) -> tuple[Say, ...]:
    """What a federation would not have allowed in the attempts of one lift.

    Args:
        tries: Load [kg] and whether it was made, in order; whole pounds are taken for the whole
            kilograms that stood on the bar.
        trade: Rules `attempts_a_lift`, `attempt_step_kg`, `attempt_step_from_year` and `_month`, `pound`.
        day: Of the contest. Before the step was a whole kilogram any load stands, and any rise after a
            made lift will do; None takes today's rules.

    Returns:
        One sentence a fault, in order; empty where all is legal.

    References:
        IWF, Technical and Competition Rules and Regulations.
    """
    step_kg, most = trade.value("attempt_step_kg"), int(trade.value("attempts_a_lift"))
    begins = (trade.value("attempt_step_from_year"), trade.value("attempt_step_from_month"))
    whole = day is None or (day.year, day.month) >= begins
    tries = [(_called_kg(load_kg, trade), made) for load_kg, made in tries]
    faults = [say("analysis.fault.more", attempt=number) for number in range(most + 1, len(tries) + 1)]
    faults += [
        say("analysis.fault.step", attempt=number, load=load_kg)
        for number, (load_kg, _) in enumerate(tries, 1)
        if whole and load_kg % step_kg
    ]
    for number, ((before_kg, made), (load_kg, _)) in enumerate(pairwise(tries), 2):
        if load_kg < before_kg:
            faults.append(say("analysis.fault.under", attempt=number, load=load_kg, before=before_kg))
        elif made and (load_kg < before_kg + step_kg if whole else load_kg == before_kg):
            faults.append(say("analysis.fault.still", attempt=number, load=load_kg, before=before_kg))
    return tuple(faults)


def _called_kg(load_kg: float, trade: Trade) -> float:
    """A load as it was called: the whole kilogram nearest to whole pounds, any other one as it is."""
    pounds = load_kg / trade.value("pound")
    from_pounds = abs(pounds - round(pounds)) < _SAME and abs(load_kg - round(load_kg)) > _SAME
    return float(round(load_kg)) if from_pounds else load_kg


def bar_discs(load_kg: float, standards: str, trade: Trade) -> tuple[float, ...] | None:
    """The discs on each side of a bar with collars, heaviest first.

    Args:
        load_kg: Load on the platform, bar and collars included [kg].
        standards: women or men: whose bar.
        trade: Rules `bar_men_kg`, `bar_women_kg`, `collar_kg` and the discs.

    Returns:
        Discs of one side [kg]; None for a load that these discs do not give, or under bar and collars.

    References:
        IWF, Technical and Competition Rules and Regulations.
    """
    rest_kg = (load_kg - trade.value(f"bar_{standards}_kg")) / 2 - trade.value("collar_kg")
    side: list[float] = []
    for disc_kg in trade.discs_kg:
        while rest_kg >= disc_kg:
            side.append(disc_kg)
            rest_kg -= disc_kg
    return tuple(side) if rest_kg == 0 else None
