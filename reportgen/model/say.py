"""A sentence that is not worded yet: which one it is, and the figures that go into it."""

from __future__ import annotations

import datetime as dt
from typing import Final, Literal, TypeAlias

from reportgen.model.values import dataclass


@dataclass(frozen=True, slots=True)
class Say:
    """What analysis and intake give in place of a sentence; `reportgen.words` makes one of it."""

    key: str  # which message: `file.section.name` of `reportgen/words/messages`
    #: What goes into its placeholders, by name. Weights are kilograms under a name that ends in `kg`, shares
    #: are fractions, lengths of time days; a list is a tuple, a part of a sentence a `Say`.
    values: tuple[tuple[str, Value], ...] = ()

    def value(self, name: str) -> Value:
        """One of the values.

        Raises:
            KeyError: It is not among them.
        """
        return dict(self.values)[name]

    def __str__(self) -> str:
        """Refused: a sentence is worded by `reportgen.words` and by nothing else."""
        raise TypeError(self.key)


#: A reason, where there is one.
Maybe: TypeAlias = Say | Literal[""]
Value: TypeAlias = "str | int | float | dt.date | Say | tuple[Value, ...]"


def say(key: str, /, **values: Value) -> Say:
    """The message of a key with its values."""
    return Say(key, tuple(values.items()))


#: Where nothing is said.
NOTHING: Final = Say("intake.nothing")
