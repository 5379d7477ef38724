"""Every sentence and label as data: `messages/NAME.toml`, a file a part of the page or the program.

A key is `file.section.name`. A file is read when its first message is asked for.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from string import Formatter
from typing import Any, Final

import tomli

FOLDER: Final = Path(__file__).parent / "messages"
#: Words before a placeholder, its name ("" at the end), how it is printed.
Parts = tuple[tuple[str, str, str], ...]

_dress: list[Callable[[str], str]] = []


class MessageError(KeyError):
    """A message or one of its values is missing (a bug: they ship with the program)."""


def names() -> tuple[str, ...]:
    """The files of messages."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.toml")))


@cache
def messages(file: str) -> dict[str, str | tuple[str, ...]]:
    """All messages of one file by key; a list of words, as the headings of a table, is a tuple.

    Raises:
        MessageError: There is no such file, or a value in it is neither words nor a list of words.
    """
    path = FOLDER / f"{file}.toml"
    if not path.is_file():
        raise MessageError(file)
    return dict(_flat(file, tomli.loads(path.read_text(encoding="utf-8"))))


def _flat(prefix: str, data: dict[str, Any]) -> Iterator[tuple[str, str | tuple[str, ...]]]:
    for name, value in data.items():
        key = f"{prefix}.{name}"
        if isinstance(value, dict):
            yield from _flat(key, value)
        elif isinstance(value, str):
            yield key, value
        elif isinstance(value, list) and all(isinstance(word, str) for word in value):
            yield key, tuple(value)
        else:
            raise MessageError(key)


def _found(key: str) -> str | tuple[str, ...]:
    try:
        return messages(key.partition(".")[0])[key]
    except KeyError:
        raise MessageError(key) from None


def exists(key: str) -> bool:
    """Whether there is a message of this key."""
    file = key.partition(".")[0]
    return (FOLDER / f"{file}.toml").is_file() and key in messages(file)


def template(key: str) -> str:
    """One message as it is written, with its placeholders.

    Raises:
        MessageError: There is none of this key.
    """
    found = _found(key)
    if isinstance(found, tuple):
        raise MessageError(key)
    return _dressed(found)


def listed(key: str) -> tuple[str, ...]:
    """A list of words.

    Raises:
        MessageError: There is none of this key.
    """
    found = _found(key)
    if isinstance(found, str):
        raise MessageError(key)
    return tuple(map(_dressed, found))


@cache
def parts(key: str) -> Parts:
    """One message taken apart, words and placeholders."""
    return apart(template(key))


def apart(words: str) -> Parts:
    """Words with placeholders taken apart."""
    return tuple((said, name or "", spec or "") for said, name, spec, _ in Formatter().parse(words))


def _dressed(words: str) -> str:
    return _dress[-1](words) if _dress and words else words


@contextmanager
def another_tongue(change: Callable[[str], str]) -> Iterator[None]:
    """Every message through a function before its values go in: how a translation would stand on a page."""
    _dress.append(change)
    parts.cache_clear()
    try:
        yield
    finally:
        _dress.pop()
        parts.cache_clear()
