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
        trade: Rules `warmup_minutes_apart`, `attempt_minutes`.

    Returns:
        From the empty bar up. The last step lies `warmup_minutes_last` before the opener.
    """
    bar_kg = plates.bar_kg
    loads: list[tuple[float, int]] = []
    for step in (None, *choices().warmups):
        kg = bar_kg if step is None else max(bar_kg, plates.down(step.share * opener_kg))
        if kg < opener_kg and (not loads or kg > loads[-1][0]):
            loads.append((kg, choices().warmups[0].reps if step is None else step.reps))
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
