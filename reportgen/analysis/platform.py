"""The chance of an attempt: from its number, since who chooses a weight knows something, and the ability.

Over contests alone the number of the attempt predicts better than the distance from what was lifted before.
Logits are blended, so that neither can say "sure" against the other.
"""

import math

from reportgen.analysis.ability import Ability
from reportgen.trade.schema import Trade

_NUMBERS = ("first", "second", "third")


def chance(
    load_kg: float, attempt: int, lift: str, found: Ability | None, *, fresh: float, trade: Trade
) -> float:
    """The chance that an attempt is made.

    Args:
        load_kg: Its weight.
        attempt: 1, 2 or 3; later ones count as third.
        lift: snatch or clean and jerk.
        found: The lifter's ability, None where the log can't carry one.
        fresh: What a taper gives (a share); 0 without one.
        trade: Rules `platform_*` and the published rates of the attempts.

    Returns:
        The rate of the number where there is no ability; else that blended with the ability's chance, by more
        where training carries it than where only earlier contests do.
    """
    rate = _rate(lift, attempt, trade)
    if found is None:
        return rate
    weight = trade.value("platform_weight_trained" if found.trained else "platform_weight_contests")
    surest = trade.value("platform_surest")
    own = min(max(found.chance(load_kg, fresh=fresh), 1 - surest), surest)
    logit = (1 - weight) * math.log(rate / (1 - rate)) + weight * math.log(own / (1 - own))
    return 1 / (1 + math.exp(-logit))


def _rate(lift: str, attempt: int, trade: Trade) -> float:
    return trade.middle(f"{lift.replace(' ', '_')}_made_{_NUMBERS[min(max(attempt, 1), 3) - 1]}")
