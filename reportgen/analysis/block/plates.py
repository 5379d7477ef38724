"""What can be put on the lifter's bar: whole kilograms, or what pairs of pound plates give."""

import math
from collections.abc import Collection

from reportgen.model.lifter import Lifter, Unit
from reportgen.model.values import dataclass
from reportgen.trade.schema import Trade

#: What is left of a share after division is no reason to lose a whole step.
_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Plates:
    """The loads of one bar: the empty bar, and every step up from nothing that is not under it.

    Attributes:
        unit: What the plates are marked in.
        unit_kg: One of that unit [kg].
        step: From one load to the next, in that unit.
        bar: The empty bar, in that unit; a multiple of the step.
    """

    unit: Unit
    unit_kg: float
    step: float
    bar: int

    @property
    def bar_kg(self) -> float:
        """The empty bar [kg]."""
        return self.bar * self.unit_kg

    def down(self, load_kg: float) -> float:
        """The heaviest load that is not over this one [kg]."""
        return math.floor(load_kg / (self.step * self.unit_kg) + _HAIR) * self.step * self.unit_kg

    def up(self, load_kg: float) -> float:
        """The lightest load that is not under this one [kg]."""
        return math.ceil(load_kg / (self.step * self.unit_kg) - _HAIR) * self.step * self.unit_kg

    def below(self, load_kg: float) -> float:
        """The heaviest load that is under this one [kg]."""
        return (math.ceil(load_kg / (self.step * self.unit_kg) - _HAIR) - 1) * self.step * self.unit_kg

    def number(self, load_kg: float) -> str:
        """A load in the plates' unit, without it: a plain decimal."""
        return f"{round(load_kg / self.unit_kg, 6):g}"

    def said(self, load_kg: float) -> str:
        """A load as it stands on the plates: `54 kg`, `120 lb`; whole kilograms with the pounds."""
        if self.unit == "lb" and abs(self.down(load_kg) - load_kg) > _HAIR:
            return f"{load_kg:g} kg ({load_kg / self.unit_kg:.1f} lb)"
        return f"{self.number(load_kg)} {self.unit}"


def of(lifter: Lifter, trade: Trade, loads_kg: Collection[float] = ()) -> Plates:
    """The plates of a lifter who reads kilograms or pounds.

    Args:
        lifter: Whose unit and whose bar.
        trade: Rules `bar_men_kg`, `bar_women_kg`, `bar_men_lb`, `bar_women_lb`, `plates_step_kg`,
            `plates_step_lb`, `plates_coarse_kg`, `pound`.
        loads_kg: What was trained with: small discs that hardly any load needs are not asked for.

    References:
        IWF, Technical and Competition Rules and Regulations. Pounds: common practice.
    """
    unit = lifter.unit
    step, coarse = trade.value(f"plates_step_{unit}"), trade.value("plates_coarse_kg")
    fine = sum(load % coarse > _HAIR for load in loads_kg)
    if unit == "kg" and len(loads_kg) >= trade.value("plates_coarse_loads"):
        step = coarse if fine <= (1 - trade.value("plates_coarse_share")) * len(loads_kg) else step
    return Plates(
        unit=unit,
        unit_kg=1.0 if unit == "kg" else trade.value("pound"),
        step=step,
        bar=int(trade.value(f"bar_{lifter.standards}_{unit}")),
    )
