"""What findings are called and where they are shown, and what speaks against what."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from reportgen.model.values import dataclass
from reportgen.trade.rows import keyed, rows, toml
from reportgen.trade.words import fold, nearest

FILE = "claims.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One finding. Keys are explained in claims.toml."""

    id: str
    called: str
    figure: str = ""
    caution: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Two signs (or three) that speak against one another."""

    id: str
    a: str
    b: str
    c: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claims:
    """All findings, and what speaks against what."""

    findings: Mapping[str, Claim]
    conflicts: tuple[Conflict, ...]
    lighter: frozenset[str]  # messages with a form for those of whom no heavy single may be asked


@cache
def claims() -> Claims:
    """What ships with the program, read once.

    Raises:
        TradeError: The file is wrong (a bug, since it ships with the program).
    """
    data = toml(Path(__file__).parent, FILE)
    return Claims(
        findings=keyed(Claim, data["finding"], FILE, "id"),
        conflicts=rows(Conflict, data, FILE, "conflict"),
        lighter=frozenset(data["lighter"]),
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
