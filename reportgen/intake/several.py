"""What a remark says of some of several repetitions: `second behind`, `only the first`, `one of two`, `1+0`.

It names no miss, and the row would be read as made. What may tell that fewer were made leaves the row open;
`second set of the day` and `only one kilo more` name no repetition and say nothing.
"""

import re
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Final

from reportgen.trade import fold, load
from reportgen.trade.tongue import speaking

_CLAUSE: Final = re.compile(
    r"[,;:!?()\n/|]|\.(?=\s|$)(?<!\d\.)|\s-\s|(?<!\w)(?:but|aber|mais|pero|ma|mas|ale|но)(?!\w)"
)
_WORD: Final = re.compile(
    r"\d+(?:\+\d+)+|\d+(?:st|nd|rd|th|ere|er|re|eme|e|a|o|ª|º|\.)?(?!\w)|[^\W\d_]+(?:'[^\W\d_]+)*|[+%&]"
)
_NTH: Final = re.compile(r"(\d{1,2})(?:st|nd|rd|th|ere|er|re|eme|e|a|o|ª|º|\.)")
_PARTS: Final = re.compile(r"\d(?:\+\d)+")
_OF: Final = frozenset(("of", "von", "sur", "de", "di", "z", "из", "em", "aus", "entre", "su"))
_THEM: Final = frozenset(
    ("them", "these", "those", "both", "beiden", "ihnen", "elles", "eux", "ellas", "loro")
)
_NO: Final = frozenset(("no", "nope", "nah", "nein", "non", "nie", "нет", "nao", "not"))
#: Words that stand between an ordinal or a count and what it counts.
_BETWEEN: Final = frozenset(
    (
        "the",
        "my",
        "on",
        "in",
        "a",
        "der",
        "die",
        "das",
        "den",
        "dem",
        "la",
        "le",
        "el",
        "il",
        "o",
        "a",
        "that",
    )
)
_REPS: Final = frozenset(("rep", "reps", "wdh", "wiederholung", "repetition", "rip", "powtorzenie", "повтор"))
_GOT: Final = frozenset(("got", "get", "managed", "hat", "eu", "hice", "fatto"))
#: Before an ordinal these make another word of it: at first, zum ersten, every second day.
_ADVERBS: Final = frozenset(
    (
        "at",
        "zum",
        "als",
        "al",
        "au",
        "every",
        "each",
        "jeden",
        "jede",
        "jeder",
        "jedes",
        "cada",
        "chaque",
        "ogni",
        "co",
    )
)
#: Counts that are articles as well, or mean a time.
_ARTICLES: Final = frozenset(("a", "un", "ein", "um", "raz", "раз"))
#: Parts of lifts that a remark names, and the lifts that have them.
_PARTED: Final = frozenset(("snatch", "clean", "jerk", "clean and jerk"))
_SHORT: Final = 5


@cache
def _said(sort: str) -> frozenset[str]:
    return speaking("English").said[sort]


@cache
def _numbers() -> tuple[dict[str, int], dict[str, int]]:
    """Ordinals and counts of every language, each with its number."""
    nth, count = (
        {word: n for n, sort in enumerate(sorts, 1) for word in _said(sort)}
        for sorts in (("first", "second", "third"), ("one", "two", "three"))
    )
    return nth, count


@cache
def _lifts() -> frozenset[str]:
    """Words for a snatch, a clean and a jerk."""
    words = {**load().words["lift"], **speaking("English").lifts}
    return frozenset(form for form, name in words.items() if name in _PARTED)


@cache
def _sieve() -> re.Pattern[str]:
    nth, count = _numbers()
    words = sorted({*nth, *_said("only"), *_said("every"), *_said("last")}, key=len, reverse=True)
    counts = sorted(word for word in count if word not in _ARTICLES)
    some = "|".join(map(re.escape, (*words, *counts)))
    of, good = ("|".join(map(re.escape, sorted(sort))) for sort in (_OF | {"out"}, _said("good")))
    digit = rf"\d\s+(?:{of}|{good})|(?:(?<![^¦,;:(])|(?<=[¦,;:(] ))\d(?=\s*(?:[¦,;:)]|rep|wdh|$))"
    return re.compile(
        rf"(?<!\w)(?:{some}|\d{{1,2}}(?:st|nd|rd|th|er|re|eme|e|a|o|ª|º|\.)|\d\+\d|{digit})(?!\w)"
    )


@cache
def _part_sieve() -> re.Pattern[str]:
    last = {one.split()[-1] for one in _said("alone")} | _NO
    ends = "|".join(map(re.escape, sorted(last, key=lambda one: (-len(one), one))))
    return re.compile(
        rf"(?<!\w)(?:{ends})\s*(?:[,;:!?()\n/|.¦]|$|\s-\s|\s(?:but|aber|mais|pero|ma|mas|ale|но)\s)"
    )


def may_name_part(words: Iterable[str]) -> bool:
    """Whether a text of a column may say that a part of a lift was lost, seen in one look."""
    return _part_sieve().search(fold("¦".join(words))) is not None


def quiet(words: Iterable[str]) -> bool:
    """Whether no text of a column names one of several, seen in one look."""
    return _sieve().search(fold("¦".join(words))) is None


def nth_of(word: str) -> int | None:
    """The number of an ordinal: `2nd`, `zweite`."""
    found = _NTH.fullmatch(word)
    return int(found[1]) if found else _numbers()[0].get(word)


def count_of(word: str) -> int | None:
    """The number of a count: `2`, `zwei`."""
    return int(word) if word.isdecimal() and len(word) < 3 else _numbers()[1].get(word)


def open_part(text: str) -> bool:
    """Whether a clause says no more of a part of a lift than `jerk no`, `jerk forward`."""
    for clause in _CLAUSE.split(fold(text)):
        words = clause.split()
        if not 2 <= len(words) <= _SHORT:
            continue
        named = [word in _lifts() for word in words]
        ordinal = [nth_of(word) is not None or word in _REPS for word in words]
        if words[-1] in _NO and any((*named, *ordinal)):
            return True
        rest = " ".join(word for word, lift in zip(words, named, strict=True) if not lift)
        if any(named) and rest.removeprefix("out ").strip() in _said("alone"):
            return True
    return False


def open_reps(text: str, reps: int) -> bool:
    """Whether a text without a word for a miss may say that not all of so many repetitions were made."""
    plain = fold(text)
    if reps < 2 or not _sieve().search(plain):
        return False
    return any(_clause(_WORD.findall(clause), clause, reps) for clause in _CLAUSE.split(plain))


def _clause(words: Sequence[str], clause: str, reps: int) -> bool:
    if not words:
        return False
    sums = [sum(map(int, word.split("+"))) for word in words if _PARTS.fullmatch(word)]
    if any(total < reps for total in sums):
        return True
    hints = any(
        re.search(rf"(?<!\w){re.escape(one)}(?!\w)", clause) for one in _said("alone") if one in clause
    )
    every = _said("every") | _said("last")
    if hints and any(word in every or (nth_of(word) or reps + 1) <= reps for word in words):
        return True
    return any(_at(words, i, reps) for i in range(len(words)))


def _behind(words: Sequence[str], i: int) -> list[str]:
    """What stands behind a word, without an article and the like."""
    rest = list(words[i + 1 :])
    while rest and rest[0] in _BETWEEN:
        rest.pop(0)
    return rest


def _at(words: Sequence[str], i: int, reps: int) -> bool:
    """Whether the word at one place begins what tells of some of the repetitions."""
    word, rest = words[i], _behind(words, i)
    number, many = nth_of(word), count_of(word)
    if number is not None and number <= reps:
        return _ordinal(words, i, rest)
    if word in _said("only") and rest and rest[0] in _GOT:
        rest = _behind(rest, 0)
    if word in _said("only") and rest:
        told = nth_of(rest[0]) or count_of(rest[0])
        return told is not None and told <= reps and not _noun(_behind(rest, 0))
    alone = i == 0 or words[i - 1] in _said("good") | _GOT
    return many is not None and 0 < many < reps and _count(word, rest, reps, alone=alone)


def _ordinal(words: Sequence[str], i: int, rest: Sequence[str]) -> bool:
    """Whether an ordinal tells of a repetition that may be lost: `second behind`, not `second rep slow`."""
    others = {one for k, one in enumerate(words) if k != i} - _BETWEEN - _REPS
    went = bool(others) and others <= _plain_words() and not others <= _said("good")
    before = words[i - 1] if i else ""
    cue = nth_of(words[i]) == 1 and not rest and before not in _BETWEEN | _NO | _said("only") | {""}
    return not (_noun(rest) or went or cue or before in _ADVERBS)


def _count(word: str, rest: Sequence[str], reps: int, *, alone: bool) -> bool:
    """Whether a count tells of some of the repetitions: `one of two`, `one good`, `just one`."""
    if rest[:2] == ["out", "of"]:
        rest = rest[1:]
    if len(rest) > 1 and rest[0] in _OF:
        behind = _behind(rest, 0)
        whole = count_of(behind[0]) if behind else None
        return bool(behind) and ((whole is not None and whole <= reps) or behind[0] in _THEM)
    if word in _ARTICLES:
        return False
    if not set(rest) - _REPS - _said("only"):
        return alone
    return rest[0] in _said("good") and not _noun(rest[1:])


def _noun(words: Sequence[str]) -> bool:
    """Whether what is counted is no repetition: `set`, `day`, `kilo`."""
    nouns, more = _said("nouns"), words[:1] and (words[0] in _plain_words() or count_of(words[0]) is not None)
    return any(word in nouns for word in words[:1]) or bool(more and any(w in nouns for w in words[1:2]))


@cache
def _plain_words() -> frozenset[str]:
    return _said("fine") | _said("good") | _said("nouns")
