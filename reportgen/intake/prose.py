"""Readings of positions in a screening note: what a line says plainly, and nothing that it may mean.

A line gives a reading where it names an item of the catalogue and then, in words that are all known, what was
read, in which unit and on which side. Goals, negations, comparisons and earlier days give none.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import field
from functools import lru_cache
from typing import Final

from reportgen.intake.cells import number, vocabulary
from reportgen.model.records import Taken
from reportgen.model.values import dataclass
from reportgen.trade import fold, load

_TOKEN: Final = re.compile(r"[-−]?\d+(?:[.,]\d+)?|[^\W\d_]+(?:['’][^\W\d_]+)*|\S")
_NUMBER: Final = re.compile(r"\d+(?:\.\d+|,\d)?")
#: Sentences and parts of a line that stand for themselves.
_CLAUSE: Final = re.compile(r";|(?<=[^\s.])[.!](?=\s+[^\W\d_a-z]|\s*$)")
_BULLET: Final = re.compile(r"^\s*(?:[-*+•]|\d+[.)]|#+)\s+")
_ENDED: Final = (".", "!", "?", ";")
#: A clause with one of these speaks of what should be, is not, was, or is compared.
_STOP_WORDS: Final = """
    should would could must shall will want wants wanted need needs needed goal goals target targets aim
    aims reach plan planned norm normal usual usually expected hope hopes if when until till unless than
    from to under over below above before earlier previous previously last ago was were used then once
    since not never nor without cannot can can't don't doesn't didn't isn't wasn't won't try next about
    roughly approximately circa ca approx around least most maybe perhaps guess guessed estimate estimated
    yesterday prior better worse more less january february march april may june july august september
    october november december
"""
_STOPS: Final = frozenset(_STOP_WORDS.split())
_UNITS: Final = {
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("°", "deg", "degs", "degree", "degrees"), "degrees"),
    **dict.fromkeys(("point", "points", "pt", "pts"), "points"),
}
_SIDES: Final = {
    **dict.fromkeys(("l", "left"), "left"),
    **dict.fromkeys(("r", "right"), "right"),
    **dict.fromkeys(("both", "bilateral"), "both"),
}
_CONDITIONS: Final = frozenset(("barefoot", "shoes", "cold", "warm", "video"))
_FILLERS: Final = frozenset(
    ("is", "of", "on", "the", "side", "sides", "and", "&", "score", "test", *",:=().")
)
#: Forms that are everyday words: alone they name no item.
_EVERYDAY: Final = frozenset(("start", "bottom", "hips back", "wrist back", "loose joints", "laxity"))
_WORDS: Final = 6


def prose(text: str, first_line: int) -> tuple[tuple[Taken, ...], dict[str, int]]:
    """Take the readings out of a screening note; its text begins on `first_line` of the file.

    Returns:
        Readings, and the items that it names without one, each with its line.
    """
    taken: list[Taken] = []
    named: dict[str, int] = {}
    section = under = False  # a heading above, or a sentence that runs on, speaks of goals
    for line, written in enumerate(text.splitlines(), first_line):
        bare = _BULLET.sub("", written, count=1).replace("**", "").replace("`", "").strip()
        if written.lstrip().startswith("#"):
            section, under = _stops(bare), False
            continue
        if not bare or bare.endswith(":"):
            under = bool(bare) and _stops(bare)
            continue
        runs = False
        for clause in (part for part in _CLAUSE.split(bare) if part.strip()):
            for item, got in _clause(clause, line):
                if got and not under and not section:
                    taken += got
                else:
                    named.setdefault(item, line)
            runs = _stops(clause)
        if not _BULLET.match(written):
            under = under or (runs and not bare.endswith(_ENDED))
    read = {one.item for one in taken}
    return tuple(taken), {item: line for item, line in named.items() if item not in read}


def _stops(text: str) -> bool:
    """Whether a text speaks of what should be, is not or was; the items' own words ("to") say nothing."""
    tokens = _TOKEN.findall(text)
    for start, end, _, _ in reversed(list(_items(tokens))):
        del tokens[start:end]
    words = {word.casefold().replace("’", "'") for word in tokens}
    return bool(words & _STOPS) or "?" in text or "n't" in text


def _clause(clause: str, line: int) -> Iterator[tuple[str, tuple[Taken, ...]]]:
    """Every item that a clause names, with its readings; none where it can't be read for sure."""
    tokens = _TOKEN.findall(clause)
    found = list(_items(tokens))
    stopped = _stops(clause)
    for place, (start, end, item, form) in enumerate(found):
        before = tokens[found[place - 1][1] if place else 0 : start]
        after = tokens[end : found[place + 1][0] if place + 1 < len(found) else len(tokens)]
        got = () if stopped else _readings(item, before if place == 0 else [], after, line)
        if got or form not in _EVERYDAY:
            yield item, got


@lru_cache(maxsize=1)
def _forms() -> dict[str, str]:
    return dict(load().words["position"])


def _items(tokens: Sequence[str]) -> Iterator[tuple[int, int, str, str]]:
    """Items in the order of the words: first and last token, name and form; the longest form counts."""
    at = 0
    while at < len(tokens):
        for end in range(min(len(tokens), at + 2 * _WORDS), at, -1):
            form = fold("-".join(tokens[at:end]).replace("---", "-"))
            if tokens[at] not in "-" and tokens[end - 1] != "-" and form in _forms():
                yield at, end, _forms()[form], form
                at = end - 1
                break
        at += 1


@dataclass(slots=True)
class _Line:
    """What stands behind an item, word by word."""

    values: list[float] = field(default_factory=list)
    sides: list[str] = field(default_factory=list)
    units: set[str] = field(default_factory=set)
    conditions: set[str] = field(default_factory=set)
    grade: str = ""
    load_kg: float | None = None
    sure: bool = True


def _readings(item: str, before: Sequence[str], after: Sequence[str], line: int) -> tuple[Taken, ...]:
    """The readings of one item, () where anything about them is not sure."""
    position = load().positions[item]
    first = [_SIDES[word.casefold()] for word in before if word.casefold() in _SIDES]
    if any(word[-1].isdigit() for word in before) or len(first) > 1:
        return ()
    told = _told(after)
    told.sides = first + told.sides
    pairs = _pairs(told, position.unit, alone=not before or bool(first))
    if not told.sure or (told.load_kg is not None and "dowel" in item):
        return ()
    if position.unit == "points" and any(value not in range(10) for _, value in pairs if value is not None):
        return ()
    return tuple(
        Taken(
            item=item,
            side=side,
            reading=value,
            unit=position.unit,
            grade=told.grade,
            load_kg=told.load_kg,
            conditions=", ".join(sorted(told.conditions)),
            line=line,
        )
        for side, value in pairs
    )


def _pairs(told: _Line, unit: str, *, alone: bool) -> list[tuple[str, float | None]]:
    """Each side with its reading, or the grade; none where unit or sides are not clear."""
    sides, values = told.sides, told.values
    if told.units - {unit} or (unit in ("cm", "degrees") and values and not told.units):
        return []
    if told.grade:
        plain = not values and len(sides) <= 1 and alone
        return [(sides[0] if sides else "", None)] if plain else []
    clear = len(sides) == len(values) == len(set(sides)) and ("both" not in sides or len(sides) == 1)
    if not values or not unit or not (clear or (not sides and len(values) == 1)):
        return []
    return list(zip(sides or [""], values, strict=True))


def _told(tokens: Sequence[str]) -> _Line:
    """Read the words behind an item one by one; from the first that is not known on nothing may be meant."""
    told = _Line()
    grades = vocabulary("grade")
    at = 0
    while at < len(tokens):
        word = tokens[at].casefold()
        following = [one.casefold() for one in tokens[at + 1 : at + 3]]
        if word in ("with", "at", "@") and _load(told, following):
            at += 3
            continue
        if word in _SIDES:
            told.sides.append(_SIDES[word])
        elif _NUMBER.fullmatch(word):
            if following[:2] == ["/", "9"]:  # six of nine points
                told.units.add("points")
                at += 2
            told.values.append(number(word, comma=True) or 0.0)
        elif word in _UNITS and told.values:
            told.units.add(_UNITS[word])
        elif word in _CONDITIONS:
            told.conditions.add(word)
        elif not told.values and not told.grade and grades.find(word) and _ends(following):
            told.grade = grades.find(word) or ""
        elif word == "/" and at and at + 1 < len(tokens):
            told.sure &= _pair(tokens[at - 1]) == _pair(tokens[at + 1]) != ""
        elif word not in _FILLERS and not (word in "-–—" and not (told.values or told.grade)):
            break
        at += 1
    rest = [one.casefold() for one in tokens[at:]]
    if any(
        one in _SIDES or any(c.isdigit() for c in one) or (not one[0].isalpha() and one not in ",.:()")
        for one in rest
    ):
        told.sure = False
    return told


def _pair(word: str) -> str:
    """What may stand on both sides of a stroke."""
    if word.casefold() in _SIDES:
        return "side"
    return "number" if _NUMBER.fullmatch(word) else ""


def _ends(following: Sequence[str]) -> bool:
    """Whether a grade is the whole word of its kind: "no video" is no grade."""
    return not following or following[0] in {",", ".", "(", ")", *_SIDES} or following[0] in "-–—"


def _load(told: _Line, following: Sequence[str]) -> bool:
    """A load behind `with` or `at`, with its unit."""
    if len(following) < 2 or not _NUMBER.fullmatch(following[0]):
        return False
    factor = {"kg": 1.0, "kilos": 1.0, "lb": load().value("pound"), "lbs": load().value("pound")}.get(
        following[1]
    )
    got = number(following[0], comma=True)
    if factor is None or got is None or told.load_kg is not None:
        return False
    told.load_kg = got * factor
    return True
