"""The words of logs in each language, one file a language; a word means one thing in one language."""

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any, Final, TypeVar

from reportgen.model.values import dataclass
from reportgen.trade.rows import Table, TradeError, toml
from reportgen.trade.tables import FOLDER, load
from reportgen.trade.words import fold, spellings

T = TypeVar("T")
ENGLISH: Final = "English"
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bare:
    """A word that means `lift` only where the log names all of `beside` and none of `without`."""

    lift: str
    beside: tuple[str, ...]
    without: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """The words of one language, or of all with one of them first; every form is folded."""

    name: str  # the language
    day_first: bool  # dates in figures have the day before the month
    #: Heading -> our column, or one that only layouts know (english.toml lists them).
    headings: Mapping[str, str]
    lifts: Mapping[str, str]  # word -> catalogue name, beside the catalogue's own words
    bare: Mapping[str, Bare]  # word -> what it means beside which others
    days: Mapping[str, int]  # word -> 0 for Monday to 6
    months: Mapping[str, int]  # word -> 1 to 12
    numbers: Mapping[str, int]  # word -> 2 to 10
    #: miss, sure, doubt, open, alone, good, bad, last, every, plain, common, and words that count
    #: (english.toml lists them) -> words and phrases.
    said: Mapping[str, frozenset[str]]
    #: week, day, total, with, times, sets, reps, bar, then, straps, variants, planned, performed,
    #: ticked, weeks, ahead, until, two_to_ten -> words.
    small: Mapping[str, frozenset[str]]


def one(file: str, data: Table) -> Tongue:
    """Check the words of one language.

    Raises:
        TradeError: A word stands for two things of the same sort.
    """
    bare = {
        form: Bare(
            lift=cells["lift"], beside=tuple(cells.get("beside", ())), without=tuple(cells.get("without", ()))
        )
        for cells in data.get("bare", ())
        for form in spellings(cells["word"])
    }
    return Tongue(
        name=data["name"],
        day_first=data.get("day_first", False),
        headings=_once(file, "headings", data),
        lifts=_once(file, "lifts", data),
        bare=bare,
        days=_numbered(_once(file, "days", data), _DAYS, 0),
        months=_numbered(_once(file, "months", data), _MONTHS, 1),
        numbers={fold(word): n for n, word in enumerate(data["small"]["two_to_ten"], 2)},
        said={key: frozenset(map(fold, words)) for key, words in data["said"].items()},
        small={key: frozenset(map(fold, words)) for key, words in data["small"].items()},
    )


def _once(file: str, what: str, data: Table) -> dict[str, str]:
    """Word -> what it stands for, of a table of the file."""
    found: dict[str, str] = {}
    for name, words in data[what].items():
        for form in spellings(words):
            if found.setdefault(form, name) != name:
                raise TradeError(file, what, f"{form!r} stands for {found[form]!r} and for {name!r}")
    return found


def _numbered(words: Mapping[str, str], names: tuple[str, ...], first: int) -> dict[str, int]:
    return {form: names.index(name) + first for form, name in words.items()}


@cache
def tongues() -> Mapping[str, Tongue]:
    """Every language, by name; English first."""
    folder = FOLDER / "languages"
    found = [one(path.name, toml(folder, path.name)) for path in sorted(folder.glob("*.toml"))]
    found.sort(key=lambda tongue: (tongue.name != ENGLISH, tongue.name))
    return {tongue.name: tongue for tongue in found}


@cache
def speaking(language: str) -> Tongue:
    """The words of all languages as one: where they differ this language decides, and else the word is none.

    Returns:
        One tongue. What says that something was missed is taken from every language, whatever this one is.
    """
    every = tongues()
    own = every[language]
    words: dict[str, Any] = {
        what: _together({name: getattr(tongue, what) for name, tongue in every.items()}, language)
        for what in ("headings", "lifts", "bare", "days", "months", "numbers")
    }
    return Tongue(
        **words,
        name=language,
        day_first=own.day_first,
        said=_said(every, own),
        small={key: frozenset().union(*(t.small[key] for t in every.values())) for key in own.small},
    )


def _together(words: Mapping[str, Mapping[str, T]], language: str) -> dict[str, T]:
    found: dict[str, list[T]] = {}
    for of in words.values():
        for form, meaning in of.items():
            found.setdefault(form, []).append(meaning)
    made = {form: some[0] for form, some in found.items() if all(one == some[0] for one in some)}
    return made | dict(words[language])


def _said(every: Mapping[str, Tongue], own: Tongue) -> dict[str, frozenset[str]]:
    made = {key: frozenset().union(*(t.said[key] for t in every.values())) for key in own.said}
    # A letter that is a yes in one language and a no in another is what this language says, or neither.
    good, bad = made["good"], made["bad"]
    made["good"] = (good - bad) | (own.said["good"] - own.said["bad"])
    made["bad"] = (bad - good) | own.said["bad"]
    return made


def language(words: Iterable[str]) -> str:
    """The language that most of these words belong to; English where none is ahead."""
    forms = {fold(word) for word in words}
    score = {
        name: sum(
            form in t.headings or form in t.lifts or form in t.bare or form in t.months for form in forms
        )
        for name, t in tongues().items()
    }
    known = load().words["lift"]
    score[ENGLISH] += sum(form in known for form in forms)
    return max(score, key=lambda name: score[name])
