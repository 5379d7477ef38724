"""Words for lifts as logs have them -> names of the catalogue, with the variant or aid in the word."""

import re
from collections.abc import Iterable
from dataclasses import field
from difflib import SequenceMatcher
from functools import cache

from reportgen.intake.bounds import MOST_PARTS
from reportgen.intake.cells import Vocabulary
from reportgen.intake.tokens import fold_kept, small
from reportgen.model.values import dataclass
from reportgen.trade import fold, load
from reportgen.trade.tongue import ENGLISH, Tongue, speaking

_LEADING = re.compile(r"^(?:\d{1,2}[.)]|[a-h]\d?[.)])\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A lift as training.csv would have it: catalogue names joined by +, or one of the lifter's own words."""

    lift: str
    variant: str = ""
    aid: str = ""


@dataclass(slots=True, kw_only=True)
class Lifts:
    """The words for lifts of one log; `present` are the lifts that it names without doubt."""

    words: Vocabulary
    tongue: Tongue
    present: frozenset[str] = frozenset()
    seen: dict[str, Named | None] = field(default_factory=dict)
    read_as: dict[str, str] = field(default_factory=dict)

    def find(self, word: str) -> Named | None:
        """The lift that a word names, or None."""
        if word not in self.seen:
            self.seen[word] = self._find(_LEADING.sub("", word).strip(" :,;.-–—*_#=@"))
        return self.seen[word]

    def _find(self, word: str) -> Named | None:
        if not word or len(word) > 120:
            return None
        whole = self._one(word)
        if whole is not None:
            return whole
        pieces = re.split(r"\s*\+\s*", word)
        if len(pieces) > MOST_PARTS:
            return None
        found = [self._one(piece) for piece in pieces]
        some = [one for one in found if one is not None]
        if len(some) < len(pieces):
            return None
        return Named(
            lift=" + ".join(one.lift for one in some),
            variant=" ".join(dict.fromkeys(one.variant for one in some if one.variant)),
            aid=next((one.aid for one in some if one.aid), ""),
        )

    def _one(self, word: str) -> Named | None:
        if self.words.find(word) is not None:
            return Named(lift=word)
        name = self._known(fold(word))
        if name is not None:
            return Named(lift=name)
        plain = fold_kept(word.casefold())
        straps, variants = small(self.tongue.name, "straps"), small(self.tongue.name, "variants")
        found = variants.findall(plain)
        aid = "straps" if straps.search(plain) else ""
        if not found and not aid:
            return None
        rest = re.sub(r"[(),/]|\bwith\b|\bw\b", " ", variants.sub(" ", straps.sub(" ", plain)))
        name = self.words.find(rest) or self._known(fold(rest))
        return None if name is None else Named(lift=name, variant=" ".join(found), aid=aid)

    def _known(self, form: str) -> str | None:
        form = form.strip(" .:()")
        if form in self.tongue.lifts:
            return self.tongue.lifts[form]
        bare = self.tongue.bare.get(form)
        if bare and set(bare.beside) <= self.present and not self.present & set(bare.without):
            self.read_as[form] = bare.lift
            return bare.lift
        return None


#: Lifts whose names stand in those of many others.
_MAIN = frozenset(("snatch", "clean", "jerk", "clean and jerk", "back squat", "front squat"))
_SHORTEST = 4
#: Likeness from which a word that holds one lift's name is a slip for a lift.
_LIKE = 0.85


@cache
def _main_forms() -> frozenset[str]:
    every = speaking(ENGLISH)
    bare = {form: one.lift for form, one in every.bare.items()}
    words = {**load().words["lift"], **every.lifts, **bare}
    return frozenset(form for form, name in words.items() if name in _MAIN and len(form) >= _SHORTEST)


def holds_lift(word: str) -> bool:
    """Whether a word that names no known lift holds the name of one: it may be a form of that lift."""
    words = re.findall(r"[^\s,;:.!?()/]+", fold(word))
    runs = (" ".join(words[i : i + n]) for n in (3, 2, 1) for i in range(len(words) - n + 1))
    return any(run in _main_forms() for run in runs)


def slip_for(word: str, lift: str) -> bool:
    """Whether a word with the name of a lift in it may be a slip for another, as `3-pos snatch` is not."""
    return not holds_lift(word) or SequenceMatcher(None, fold(word), fold(lift)).ratio() >= _LIKE


def lifts_of(words: Iterable[str], vocabulary: Vocabulary, tongue: Tongue) -> Lifts:
    """The words for lifts of a log that has these words."""
    plain = Lifts(words=vocabulary, tongue=tongue)
    found = [plain.find(word) for word in words]
    present: set[str] = set()
    for one in found:
        for piece in one.lift.split(" + ") if one else ():
            name = vocabulary.find(piece)
            present |= {name} if name else set()
    return Lifts(words=vocabulary, tongue=tongue, present=frozenset(present))
