"""The sentences of the needs analysis, and what each finding rests on: claims.toml as frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path

from reportgen.trade.rows import Table, TradeError, keyed, rows, table, toml
from reportgen.trade.words import fold, nearest

FILE = "claims.toml"
AREAS = ("positions", "skill", "programming", "strength")


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One finding: what it rests on and how it is said. Keys are explained in claims.toml."""

    id: str
    area: str
    called: str
    claim: str
    settle: str
    rests: tuple[str, ...]
    rests_all: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    agrees: tuple[str, ...] = ()
    positions_if: tuple[str, ...] = ()
    at_least: str = ""  # rule id: so many signs at least
    question: bool = False
    ask_only: bool = False
    alone: bool = False
    caution: str = ""
    figure: str = ""
    goes_with: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Two signs (or three) that speak against one another, and how that is said."""

    a: str
    b: str
    words: str
    c: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claims:
    """All sentences, by kind and name."""

    findings: Mapping[str, Claim]
    conflicts: tuple[Conflict, ...]
    evidence: Mapping[str, str]
    limits: Mapping[str, str]
    whose: Mapping[str, str]
    untested: Mapping[str, str]
    confidence: Mapping[str, str]
    kinds: Mapping[str, str]
    cautions: Mapping[str, str]
    decisions: Mapping[str, str]
    drawn: Mapping[str, str]  # how a taper was drawn out, what heavy days close together gave, a chance
    lighter: Mapping[str, str]  # what is said in place of heavy singles where none may be asked


@cache
def claims() -> Claims:
    """The sentences that ship with the program, read once.

    Raises:
        TradeError: The file is wrong (a bug, since it ships with the program).
    """
    data = toml(Path(__file__).parent, FILE)
    findings = table(data.get("finding"), FILE, "finding")
    plain = {
        key: {k: v for k, v in table(cells, FILE, key).items() if k != "goes_with"}
        for key, cells in findings.items()
    }
    found = keyed(Claim, plain, FILE, "id")
    for key, cells in findings.items():
        if found[key].area not in AREAS:
            raise TradeError(FILE, key, f"no such area: {found[key].area!r}")
        if "goes_with" in cells:
            pairs = {sign: tuple(others) for sign, others in table(cells["goes_with"], FILE, key).items()}
            found[key] = replace(found[key], goes_with=pairs)
    return Claims(
        findings=found,
        conflicts=rows(Conflict, data, FILE, "conflict"),
        **{name: _words(data, name) for name in _WORDS},
    )


def called(id_: str) -> str:
    """What a finding is called where it is only named; its id as words where it is not of this version."""
    known = claims().findings.get(id_)
    return known.called if known else id_.replace("_", " ").strip()


def finding_named(word: str) -> str | None:
    """The id of the finding that is written so, by id or by name, or None where none is."""
    return _named().get(fold(word))


def finding_near(word: str) -> str | None:
    """The id of the finding that an unknown word may have meant, or None."""
    return nearest(_named(), word)


@cache
def _named() -> dict[str, str]:
    return {fold(name): one.id for one in claims().findings.values() for name in (one.id, one.called)}


_WORDS = (
    *("evidence", "limits", "whose", "untested", "confidence"),
    *("kinds", "cautions", "decisions", "drawn", "lighter"),
)


def _words(data: Table, name: str) -> dict[str, str]:
    words = table(data.get(name), FILE, name)
    for key, text in words.items():
        if not isinstance(text, str) or not text:
            raise TradeError(FILE, f"{name}.{key}", "expected a sentence")
    return dict(words)
