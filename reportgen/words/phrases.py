"""A message and its values become a phrase: words, and weights that stay numbers until the unit is known."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from typing import Final, TypeAlias

from reportgen import trade
from reportgen.model.say import Say, Value
from reportgen.model.values import dataclass
from reportgen.words import messages, numbers


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight inside a sentence or a cell: printed in the reader's unit."""

    kg: float
    sign: bool = False  # print + before a gain


Phrase = tuple[str | Weight, ...]
#: What may be filled in: a value of a `Say`, or a phrase or a weight that is ready.
Filled: TypeAlias = "Value | Weight | tuple[Filled, ...]"

_RULE: Final = "rule."
#: The last word of a placeholder's name says what it is.
_SHARES: Final = frozenset({"share", "rate", "chance"})


def phrase(key: str, /, **values: Filled) -> Phrase:
    """One message with its values.

    A placeholder is printed by the last word of its name and by its type: `load_kg` a weight, `share`, `rate`
    and `chance` per cent, `days` a length of time, a date a day, a tuple a list, a `Say` its own message,
    `rule.NAME` the value of a rule in its unit. What follows a colon chooses another way: `{n:set|sets}`
    counts, `{n:?is|are}` goes by one or several, and any of `_WAYS` does what it says.

    Args:
        key: `file.section.name`.
        values: At least those that the message names.

    Raises:
        MessageError: The message or a value is missing (a bug).
    """
    return _filled(key, messages.parts(key), values)


def headings(key: str, /, **values: Filled) -> tuple[str, ...]:
    """A list of words, as the headings of a table, with the values that they name."""
    return tuple(plain(_filled(key, messages.apart(words), values)) for words in messages.listed(key))


def _filled(key: str, parts: messages.Parts, values: dict[str, Filled]) -> Phrase:
    out: list[str | Weight] = []
    for words, name, how in parts:
        out.append(words)
        if not name:
            continue
        if name.startswith(_RULE):
            out.extend(_rule(name.removeprefix(_RULE), how))
        elif name in values:
            out.extend(_said(name, values[name], how))
        else:
            raise messages.MessageError(f"{key}: {name}")
    return join(out)


def spoken(one: Say) -> Phrase:
    """The sentence of a `Say`."""
    return phrase(one.key, **dict(one.values))


def text(key: str, unit: numbers.Unit = "kg", /, **values: Filled) -> str:
    """One message as plain text in one unit."""
    return plain(phrase(key, **values), unit)


def said(one: Say | str, unit: numbers.Unit = "kg") -> str:
    """A sentence, or a reason that may be missing, as plain text in one unit."""
    return plain(spoken(one), unit) if isinstance(one, Say) else one


def plain(words: Phrase, unit: numbers.Unit = "kg") -> str:
    """A phrase as one string in one unit, for summaries, the terminal and the facts file."""
    return "".join(
        part if isinstance(part, str) else numbers.weight(part.kg, unit, sign=part.sign) for part in words
    )


def join(pieces: list[str | Weight]) -> Phrase:
    """Neighbouring words as one, and nothing empty."""
    out: list[str | Weight] = []
    for part in pieces:
        if isinstance(part, str) and out and isinstance(out[-1], str):
            out[-1] += part
        elif part != "":
            out.append(part)
    return tuple(out)


def listing(items: tuple[Filled, ...], last: str = "and") -> Phrase:
    """ "a, b and c" of words and weights; `last` names the joining word of `numbers.toml`."""
    out: list[str | Weight] = []
    for place, item in enumerate(items):
        if place:
            out.append(numbers.joint(last) if place == len(items) - 1 else ", ")
        out.extend(_said("", item, ""))
    return join(out)


def together(parts: Iterable[Phrase | Say | str]) -> Phrase:
    """Sentences one after the other; an empty one leaves no gap."""
    out: list[str | Weight] = []
    for part in parts:
        if part:
            out += [*([" "] if out else []), *_parts(part)]
    return join(out)


def capital(words: Phrase) -> Phrase:
    """The same with a capital first letter."""
    first = words[0] if words else ""
    return (numbers.sentence(first), *words[1:]) if isinstance(first, str) else words


def _rule(name: str, how: str) -> Phrase:
    rule = trade.load().rules[name]
    if how:
        return _said(name, rule.value, how)
    if rule.unit.startswith(("share", "chance")):
        return (numbers.share(rule.value),)
    return (Weight(rule.value),) if rule.unit == "kg" else (numbers.number(rule.value),)


def _said(name: str, value: Filled, how: str) -> Phrase:
    if "|" in how:
        return (_counted(value, how),)
    if how:
        return _WAYS[how](value)
    if isinstance(value, Say):
        return spoken(value)
    if isinstance(value, tuple):
        return listing(value)
    if isinstance(value, dt.date):
        return (numbers.day(value),)
    return (value,) if isinstance(value, str | Weight) else _figure(name.rpartition("_")[2], value)


def _figure(unit: str, value: float) -> Phrase:
    if unit == "kg":
        return (Weight(float(value)),)
    if unit in _SHARES:
        return (numbers.share(value),)
    return (numbers.days(round(value)),) if unit == "days" else (numbers.number(value),)


def _counted(value: Filled, how: str) -> str:
    many = _number(value)
    one, _, several = how.removeprefix("?").partition("|")
    if how.startswith("?"):
        return one if many == 1 else several
    if many == int(many):
        return numbers.count(int(many), one, several)
    return f"{numbers.number(many)} {several}"


def _number(value: Filled) -> float:
    if isinstance(value, tuple):
        return len(value)
    if isinstance(value, int | float):
        return value
    raise TypeError(value)


def _date(value: Filled) -> dt.date:
    if isinstance(value, dt.date):
        return value
    raise TypeError(value)


def _items(value: Filled) -> tuple[Filled, ...]:
    return value if isinstance(value, tuple) else (value,)


def _joined(mark: str) -> Callable[[Filled], Phrase]:
    """A list with the same between all of its items."""

    def way(value: Filled) -> Phrase:
        items = [_said("", item, "") for item in _items(value)]
        return join([part for place, item in enumerate(items) for part in ((mark,) if place else ()) + item])

    return way


def _parts(value: Filled) -> Phrase:
    """A ready phrase, put in as it stands."""
    return join([piece for item in _items(value) for piece in _said("", item, "")])


_WAYS: Final[dict[str, Callable[[Filled], Phrase]]] = {
    "kg": lambda value: (Weight(_number(value)),),
    "gain": lambda value: (Weight(_number(value), sign=True),),
    "number": lambda value: (numbers.number(_number(value)),),
    "exact": lambda value: (numbers.exact(_number(value)),),
    "signed": lambda value: (numbers.number(_number(value), sign=True),),
    "whole": lambda value: (numbers.number(_number(value), 0),),
    "share": lambda value: (numbers.share(_number(value)),),
    "part": lambda value: (numbers.part(_number(value)),),
    "percent": lambda value: (numbers.percent(_number(value)),),
    "in_ten": lambda value: (numbers.in_ten(_number(value)),),
    "change": lambda value: (numbers.change(_number(value)),),
    "days": lambda value: (numbers.days(round(_number(value))),),
    "times": lambda value: (numbers.times(round(_number(value))),),
    "weekday": lambda value: (numbers.weekday(_date(value)),),
    "near": lambda value: (numbers.near(_date(value)),),
    "month": lambda value: (numbers.month(_date(value)),),
    "week": lambda value: (numbers.week(_date(value)),),
    "lines": lambda value: (numbers.lines(round(_number(item)) for item in _items(value)),),
    "a": lambda value: (("an " if str(value)[:1] in "aeiou" else "a ") + str(value),),
    "hundredths": lambda value: (numbers.number(_number(value), 2),),
    "points": lambda value: (numbers.points(_number(value)),),
    "shares": lambda value: (numbers.shares(*map(_number, _items(value))),),
    "span": lambda value: (numbers.span(*map(_date, _items(value))),),
    "some": lambda value: (numbers.some(round(_number(value))),),
    "commas": _joined(", "),
    "semicolons": _joined("; "),
    "sentences": _joined(" "),
    "or": lambda value: listing(_items(value), "or"),
    "phrase": _parts,
    "cap": lambda value: capital(_parts(value)),
}
