"""What could hold a goal back: causes.toml as frozen values."""

from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cache
from pathlib import Path
from typing import Literal

from reportgen.model.values import dataclass
from reportgen.trade.rows import keyed, toml, whole

FILE = "causes.toml"
Shares = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One cause and what it makes likelier. Keys are explained in causes.toml."""

    id: str
    area: Literal["positions", "skill", "programming", "strength"]
    prior: float  # chance beforehand
    named: tuple[tuple[str, str], ...]  # pattern of a sign and the finding that it is called by
    checkpoints: tuple[str, ...] = ()
    screens: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    requires: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    lifts: tuple[str, ...] = ()
    missing: float = 0.0
    against_most: float = 9.0
    signs: Shares = field(default_factory=dict)  # sign -> log odds
    #: Lift -> kind of miss -> share of the heavy misses that the cause makes of that kind.
    misses: Mapping[str, Shares] = field(default_factory=dict)

    def asks(self, lifts: Iterable[str]) -> bool:
        """Whether it can hold back a goal in one of these lifts."""
        return not self.lifts or bool(set(self.lifts) & set(lifts))


@dataclass(frozen=True, slots=True, kw_only=True)
class Causes:
    """All causes by name, and how lifts are missed by whom nothing holds back."""

    causes: Mapping[str, Cause]
    usual: Mapping[str, Shares]

    def nothing(self, lifts: Iterable[str]) -> float:
        """The chance beforehand that nothing stands out, for a goal in these lifts."""
        return 1 - sum(cause.prior for cause in self.causes.values() if cause.asks(lifts))


@cache
def causes() -> Causes:
    """The causes that ship with the program, read once."""
    data = toml(Path(__file__).parent, FILE)
    usual = whole(dict[str, dict[str, float]], data["usual"], FILE, "usual")
    return Causes(causes=keyed(Cause, data["cause"], FILE, "id"), usual=usual)
