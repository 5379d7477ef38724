"""Warm-ups counted back from the opener, and the loading of the bar."""

import math

from reportgen.analysis.block.plates import Plates
from reportgen.model.proposal import BlockWarmUp
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


def side(kg: float, standards: str, plates: Plates, trade: Trade) -> str:
    """One side of the bar that is warmed up with, in the unit of its plates."""
    if plates.unit == "kg":
        return loading(kg, standards, trade)
    left = round((kg / plates.unit_kg - plates.bar) / 2, 6)
    discs = []
    for disc in choices().discs_lb:
        while left >= disc - 1e-6:
            discs.append(disc)
            left -= disc
    return f"bar {plates.bar} lb" + (
        ", a side " + " + ".join(f"{one:g}" for one in discs) if discs else ", empty"
    )


def loading(kg: float, standards: str, trade: Trade) -> str:
    """One side of the bar in words: `bar 20, a side 25 + 10 + collar 2.5`; none where they weigh too much."""
    bar_kg, collar_kg = trade.value(f"bar_{standards}_kg"), trade.value("collar_kg")
    discs = formulas.bar_discs(kg, standards, trade)
    if discs is not None:
        return f"bar {bar_kg:g}, a side " + " + ".join(
            [*(f"{disc:g}" for disc in discs), f"collar {collar_kg:g}"]
        )
    plain = formulas.bar_discs(kg + 2 * collar_kg, standards, trade)
    if plain:
        return f"bar {bar_kg:g}, a side " + " + ".join(f"{disc:g}" for disc in plain) + ", no collars"
    return f"bar {bar_kg:g}, empty" if kg == bar_kg else ""
