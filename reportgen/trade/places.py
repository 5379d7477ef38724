"""Which lifts load a place that hurts."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from reportgen.model.values import dataclass
from reportgen.trade.rows import keyed, toml
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold, gapless

FILE = "places.toml"
_GAP = re.compile(r"[^\w]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place of the body: the words that mean it, roles of lifts that load it, and further lifts."""

    name: str
    words: tuple[str, ...]
    roles: tuple[str, ...]
    lifts: tuple[str, ...] = ()


@cache
def places() -> dict[str, Place]:
    """The places that ship with the program, read once."""
    return keyed(Place, toml(Path(__file__).parent, FILE), FILE, "name")


@cache
def _named() -> tuple[Mapping[str, str], Mapping[str, str]]:
    """Word -> its place; and of these the words in scripts that put no gap between words."""
    every = {fold(word): name for name, one in places().items() for word in one.words}
    return every, {word: name for word, name in every.items() if gapless(word)}


def places_in(text: str) -> tuple[str, ...]:
    """The names of the places that a text names."""
    folded = fold(text)
    words, run_on = _named()
    found = {words[word] for word in _GAP.split(folded) if word in words}
    if gapless(folded):
        found |= {name for word, name in run_on.items() if word in folded}
    return tuple(name for name in places() if name in found)


def loading(place: str, lift: str, trade: Trade) -> tuple[str, ...]:
    """The lifts of the catalogue for which nothing may be proposed while a place hurts.

    Args:
        place: As pain.csv has it.
        lift: During which lift it hurt; "" = not given.
        trade: Lifts.

    Returns:
        Names in the catalogue's order: the lifts that load the place, and the one in which it hurt. Where the
        place is none of ours the answer is the careful one: every lift. A knee in a language that nobody
        reads here hurts in the squat, too, whatever the lift in which it was felt.
    """
    found = [places()[name] for name in places_in(place)]
    roles = {role for one in found for role in one.roles}
    named = {lift, *(also for one in found for also in one.lifts)}
    return tuple(name for name, one in trade.lifts.items() if name in named or not roles or one.role in roles)
