"""Warm-ups counted back from the opener, and the loading of the bar."""

import math
from collections.abc import Iterable

from reportgen.analysis.block.plates import Plates
from reportgen.model.proposal import BlockWarmUp
from reportgen.model.say import Maybe, Say, say
from reportgen.trade import formulas
from reportgen.trade.choices import choices
from reportgen.trade.schema import Trade


def up_to(opener_kg: float, lift: str, standards: str, plates: Plates, trade: Trade) -> list[BlockWarmUp]:
    """Steps up to an opener: loads of the lifter's plates, rising, each one of its own, with when it is done.

    Args:
        opener_kg: The opener.
        lift: snatch or clean and jerk.
        standards: Whose bar.
        plates: What is warmed up with.
        trade: Rules `warmup_*`, `attempt_minutes`.

    Returns:
        From the empty bar up, in round loads but for the last two; the last lies `warmup_minutes_last` before
        the opener.
    """
    steps, near = choices().warmups, int(trade.value("warmup_near"))
    round_kg = trade.value(f"warmup_step_{plates.unit}") * plates.unit_kg
    loads = [(plates.bar_kg, steps[0].reps)]
    for nth, step in enumerate(steps, start=1):
        kg = step.share * opener_kg
        kg = plates.down(kg) if nth > len(steps) - near else math.floor(kg / round_kg + 1 / 2) * round_kg
        if loads[-1][0] < kg < opener_kg:
            loads.append((kg, step.reps))
    loads = [one for one in loads if one[0] < opener_kg]
    last, apart = trade.value("warmup_minutes_last"), trade.value("warmup_minutes_apart")
    found = []
    for nth, (kg, reps) in enumerate(loads):
        minutes = last + apart * (len(loads) - 1 - nth)
        found.append(
            BlockWarmUp(
                lift=lift, kg=float(kg), reps=reps, minutes=minutes,
                loading=side(kg, standards, plates, trade),
                attempts=math.ceil(minutes / trade.value("attempt_minutes") - 1e-9),
            )
        )  # fmt: skip
    return found


def side(kg: float, standards: str, plates: Plates, trade: Trade) -> Maybe:
    """One side of the bar that is warmed up with, in the unit of its plates."""
    if plates.unit == "kg":
        return loading(kg, standards, trade)
    left = round((kg / plates.unit_kg - plates.bar) / 2, 6)
    discs = []
    for disc in choices().discs_lb:
        while left >= disc - 1e-6:
            discs.append(disc)
            left -= disc
    bar = f"{plates.bar} lb"
    return say("block.loading.discs", bar=bar, discs=_row(discs)) if discs else _empty(bar)


def loading(kg: float, standards: str, trade: Trade) -> Maybe:
    """One side of the bar: `bar 20, a side 25 + 10 + collar 2.5`; "" where the bar weighs more than that."""
    bar_kg, collar_kg = trade.value(f"bar_{standards}_kg"), trade.value("collar_kg")
    bar = f"{bar_kg:g}"
    discs = formulas.bar_discs(kg, standards, trade)
    if discs is not None:
        known = f"{_row(discs)} + " if discs else ""
        return say("block.loading.collars", bar=bar, discs=known, collar=f"{collar_kg:g}")
    plain = formulas.bar_discs(kg + 2 * collar_kg, standards, trade)
    if plain:
        return say("block.loading.bare", bar=bar, discs=_row(plain))
    return _empty(bar) if kg == bar_kg else ""


def _row(discs: Iterable[float]) -> str:
    return " + ".join(f"{disc:g}" for disc in discs)


def _empty(bar: str) -> Say:
    return say("block.loading.empty", bar=bar)
