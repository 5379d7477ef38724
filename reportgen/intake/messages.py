"""What is said of a file, not worded yet, and how what stood there is quoted: nothing else makes a problem.

The sentences stand in `words/messages/intake.toml`; tests/bad makes each of them.
"""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Final

from reportgen.model.problems import Level, Problem
from reportgen.model.say import NOTHING, Say, Value, say
from reportgen.model.values import dataclass

LONGEST_FOUND = 60
#: A cell that is none of what its column holds.
CELL: Final = say("intake.cell")


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a cell cannot be used; `near` is the word it may have meant."""

    want: Say
    near: str | None = None
    said: Say = CELL


def problem(
    said: Say,
    *,
    file: str,
    line: int = 1,
    at: tuple[int, str] = (0, ""),
    level: Level = "error",
    found: object = "",
    want: Say = NOTHING,
    near: str | None = None,
    name: str = "",
) -> Problem:
    """One problem; its message is `said` with the file, the heading, what was found and what was expected.

    Args:
        said: The sentence, with what else it says.
        file: Where, as `line` and `at`: column and heading as the file has them.
        line: From 1.
        at: Column 0 = the whole line.
        level: Whether the row is set aside.
        found: What stood there; words are quoted.
        want: What would have been understood.
        near: The word it may have meant.
        name: What the column is called where the file has no heading for it.
    """
    text = str(found).lower() if isinstance(found, bool) else str(found)
    column, heading = at
    message = say(
        said.key,
        file=file,
        heading=clipped(heading or name),
        found=quoted(found) if isinstance(found, str) else clipped(text),
        want=want,
        **dict(said.values),
    )
    return Problem(
        file=file,
        line=line,
        column=column,
        heading=heading,
        level=level,
        found=cut(text),
        expected=want,
        message=say("intake.near", message=message, near=near) if near else message,
    )


def quoted(text: str) -> str:
    """The text in quotes, as `clipped` shows it."""
    return f"'{clipped(text)}'"


def clipped(text: str) -> str:
    """The text cut to a readable length, control characters made visible."""
    short = text if len(text) <= LONGEST_FOUND else text[:LONGEST_FOUND] + "…"
    return "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in short)


def cut(text: str) -> str:
    """What stood there, as a problem keeps it: at most 200 characters."""
    return text if len(text) <= 200 else text[:200] + "…"


def expect(name: str, **values: Value) -> Say:
    """What would have been understood, by its name under [want] of the messages."""
    return say(f"intake.want.{name}", **values)


def close(word: str, known: Iterable[str]) -> str | None:
    """The known word that this one may have meant, or None."""
    found = get_close_matches(word[:LONGEST_FOUND], list(known), n=1, cutoff=0.7)
    return found[0] if found else None
