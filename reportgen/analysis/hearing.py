"""What a remark or a note tells of a body: an injury, or pain; words of trade/words.toml, `[told]`.

No word is heard where one before it says no, or one right behind it that it is over. Muscles that are
sore from training are no pain of a joint.
"""

import re
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Final

from reportgen.model.values import dataclass
from reportgen.trade.alarms import undotted
from reportgen.trade.places import places, places_in
from reportgen.trade.schema import Trade
from reportgen.trade.words import fold, gapless

Kinds = Mapping[str, tuple[str, ...]]
#: Words before another one within which a no is looked for.
_BEFORE: Final = 3
#: A place stands beside a word within so many words.
_BESIDE: Final = 4
_WORD: Final = re.compile(r"[^\W_]+(?:'[^\W_]+)?")
_SENTENCE: Final = re.compile(r"[.;!?\n。！？]+")
_CLAUSE: Final = re.compile(r"[,()]+|\b(?:but|aber|mais|pero|ma(?! doare| dor\b)|ale)\b|(?<!\w)но(?!\w)")
_BROKE: Final = re.compile(
    r" broke (?:(?:a|an|my|his|her|their|the|one|two|left|right|big|little) ){1,3}(\w+) "
)
#: Places that lock; an elbow that locks is a lift well held.
_LOCKING: Final = frozenset({"knee", "hip", "back", "ankle"})
#: Why a hand does not grip, but for a nerve.
_SWEATY: Final = ("chalk", "sweat", "sweaty", "wet", "slippery")
#: What an old one is told of without a word of today.
_PAST: Final = frozenset(
    {"injury", "pain", "sprain", "surgery", "operation", "tear", "fracture", "dislocation"}
)
#: There a whole day's work is felt: what is sore *from* it is a muscle.
_BROAD: Final = frozenset({"back", "hip", "shoulder"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """What was heard."""

    word: str  # as the text has it
    grave: bool  # an injury, numbness or a joint that locks; else pain
    places: tuple[str, ...]  # of places.toml; none where nobody can say
    elsewhere: bool = False  # no place, and a word that may be one


@dataclass(frozen=True, slots=True, kw_only=True)
class _Clause:
    """Part of a sentence: its and the sentence's words, its places, those it may speak of."""

    text: str
    whole: str
    places: tuple[str, ...]
    near: tuple[str, ...]
    muscle: bool
    usual: bool
    hurts: bool


def hear(text: str, year: int, trade: Trade, about: str = "") -> Heard | None:
    """What a text tells of now: what is grave before what is sore; None where it tells of nothing.

    Args:
        text: A remark or a note.
        year: The year of the review day: a clause that names an earlier one tells of the past.
        trade: The words.
        about: What the text is about, such as a note's title: the place of what names none.
    """
    kinds = _kinds(trade)
    plain = _apart(undotted(fold(text)), kinds)
    clauses = _clauses(plain, year, kinds, places_in(about))
    if found := next(filter(None, (_grave(clause, kinds) for clause in clauses)), None):
        return found
    for sentence in _SENTENCE.split(plain):
        if told := _of_clinician(f" {' '.join(_WORD.findall(sentence))} ", kinds):
            return Heard(word=told, grave=True, places=())
    return next(filter(None, (_sore(clause, kinds, trade) for clause in clauses)), None)


@cache
def _by_kind(forms: frozenset[tuple[str, str]]) -> Kinds:
    found: dict[str, list[str]] = {}
    for form, kind in sorted(forms, key=lambda one: (-len(one[0]), one)):
        found.setdefault(kind, []).append(" ".join(_WORD.findall(form)))
    return {kind: tuple(dict.fromkeys(some)) for kind, some in found.items()}


def _kinds(trade: Trade) -> Kinds:
    """The forms of each kind, longest first; the kinds' own names are no words."""
    named = ("no", "old", "gone", "pain", "clinician", "cleared")
    told = trade.words["told"].items()
    return _by_kind(frozenset((form, kind) for form, kind in told if form != kind or kind in named))


@cache
def _gapless(forms: tuple[str, ...]) -> re.Pattern[str]:
    """Known words of scripts that put no gap between words, the longest first."""
    known = {form for form in forms if gapless(form)}
    known |= {fold(word) for one in places().values() for word in one.words if gapless(word)}
    return re.compile("|".join(sorted(map(re.escape, known), key=lambda form: (-len(form), form))))


def _apart(text: str, kinds: Kinds) -> str:
    """A text whose known words stand apart, in scripts that put no gap between words."""
    if not gapless(text):
        return text
    forms = tuple(form for some in kinds.values() for form in some)
    return _gapless(forms).sub(r" \g<0> ", text)


def _has(text: str, forms: Sequence[str]) -> str:
    return next((form for form in forms if f" {form} " in text), "")


def _clauses(text: str, year: int, kinds: Kinds, about: tuple[str, ...]) -> list[_Clause]:
    found: list[_Clause] = []
    for sentence in _SENTENCE.split(text):
        before: tuple[str, ...] = ()
        whole = places_in(sentence)
        words = f" {' '.join(_WORD.findall(sentence))} "
        hurts = bool(_has(words, kinds["pain"]) or _has(words, kinds["tender"]))
        for part in _CLAUSE.split(sentence):
            tokens = _WORD.findall(part)
            if any(re.fullmatch(r"(?:19|20)\d\d", word) and int(word) < year for word in tokens):
                continue
            plain = f" {' '.join(tokens)} "
            for idle in kinds["idle"]:
                plain = plain.replace(f" {idle} ", " | ")
            muscle = bool(_has(plain, kinds["soft"]))
            usual = bool(_has(plain, kinds["usual"]))
            mine = places_in(plain)
            near = mine or (() if usual or muscle else before or whole or about)
            found.append(
                _Clause(
                    text=plain, whole=words, places=mine, near=near, muscle=muscle, usual=usual, hurts=hurts
                )
            )
            before = mine or before
    return found


def _told(text: str, forms: Sequence[str], kinds: Kinds) -> list[tuple[str, int]]:
    """Each form that the text has and nothing takes back, with its place."""
    found: list[tuple[str, int]] = []
    for form in forms:
        at = text.find(f" {form} ")
        while at >= 0:
            before, after = text[:at].split(), f" {text[at + len(form) + 2 :]}"
            no = {*kinds["no"], *kinds["any"]} & {*before[-_BEFORE:]}
            old = form in _PAST and {*kinds["old"]} & {*before[-2:]}
            gone = any(after.startswith(f" {word} ") for word in (*kinds["gone"], *kinds["any"]))
            if not (no or old or gone):
                found.append((form, len(before)))
                break
            at = text.find(f" {form} ", at + 1)
    return found


def _grave(clause: _Clause, kinds: Kinds) -> Heard | None:
    for form, _ in _told(clause.text, kinds["grave"], kinds):
        chalk = form.endswith("grip") and _has(clause.whole, _SWEATY)
        walked = form.endswith("walk") and (clause.usual or clause.muscle or not clause.near)
        if not chalk and not walked:
            return Heard(word=form, grave=True, places=clause.near)
    for form, at in _told(clause.text, kinds["beside"], kinds):
        if _joint_beside(clause, form, at):
            return Heard(word=form, grave=True, places=clause.near)
    broke = _BROKE.search(clause.text)
    if broke and (places_in(broke[1]) or broke[1] in ("leg", "nose", "bone", "jaw")):
        return Heard(word=broke[0].strip(), grave=True, places=places_in(broke[1]))
    for form, _ in _told(clause.text, kinds["lock"], kinds):
        if clause.near and ({*clause.near} & _LOCKING or clause.hurts):
            return Heard(word=form, grave=True, places=clause.near)
    locked = re.search(
        r" (?:knee|finger|hip) (?:\w+ ){1,2}(?:locked|locks|locking) (?!at |and |well )", clause.text
    )
    if locked and not {*kinds["no"]} & {*locked[0].split()}:
        return Heard(word=locked[0].strip(), grave=True, places=clause.near)
    return None


def _joint_beside(clause: _Clause, form: str, at: int) -> bool:
    """Whether a place stands beside a word; a hand that tore is skin."""
    if not clause.places:
        return bool(clause.near)
    tokens, size = clause.text.split(), len(form.split())
    around = tokens[max(0, at - _BESIDE) : at + size + _BESIDE]
    hands = {"hand", "hands", "palm", "palms", "thumb", "thumbs"} & {*around}
    skin = form in ("tear", "tears", "tore") and hands and places_in(" ".join(around)) == ("wrist",)
    return bool(places_in(" ".join(around))) and not skin


def _of_clinician(text: str, kinds: Kinds) -> str:
    """What somebody who treats people said, or a picture that was taken, unless all is well."""
    if _has(text, kinds["cleared"]):
        return ""
    if scan := _told(text, kinds["scan"], kinds):
        return scan[0][0]
    who = _told(text, kinds["clinician"], kinds)
    said = [form for form in kinds["verdict"] if f" {form} " in text]
    return f"{who[0][0]} {min(said, key=text.index)}" if who and said else ""


def _sore(clause: _Clause, kinds: Kinds, trade: Trade) -> Heard | None:
    joints = _joints(clause, kinds)
    for form, _ in _told(clause.text, kinds["pain"], kinds):
        if joints or clause.muscle or not clause.usual:
            return Heard(
                word=form, grave=False, places=clause.near, elsewhere=_elsewhere(clause, form, kinds, trade)
            )
    broad = {*joints} <= _BROAD and (clause.usual or " from " in clause.text or " after " in clause.text)
    for form, _ in _told(clause.text, kinds["tender"], kinds):
        if joints and not broad:
            return Heard(word=form, grave=False, places=joints)
    return None


def _elsewhere(clause: _Clause, form: str, kinds: Kinds, trade: Trade) -> bool:
    """Whether the sentence of a pain without a place has a word that nobody knows: it may be a place."""
    if clause.near:
        return False
    told = {*form.split(), *(one for kind, forms in kinds.items() if kind != "soft" for one in forms)}
    told |= trade.words["plain"].keys()
    return any(word not in told and not word[0].isdigit() for word in clause.whole.split())


def _joints(clause: _Clause, kinds: Kinds) -> tuple[str, ...]:
    """The places a clause speaks of but for its muscles."""
    if not clause.places:
        return clause.near
    text = clause.text
    for muscle in kinds["soft"]:
        text = text.replace(f" {muscle} ", " | ")
    return places_in(text)
