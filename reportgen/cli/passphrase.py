"""A passphrase from the terminal or from a file; never as an argument, which other programs could see."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import click

from reportgen.cli import terminal

#: A sealed file can be tried offline for ever, so a short passphrase seals nothing.
FEWEST_LETTERS: Final = 10
_MOST_BYTES: Final = 4096
_NO_TEXT: Final = "the passphrase can't be read: what was typed is no text in the terminal's letters"

file_option: Callable[[Any], Any] = click.option(
    "--passphrase-file",
    type=click.Path(path_type=Path, dir_okay=False, allow_dash=True),
    metavar="FILE",
    help="Take the passphrase from the first line of FILE.",
)


def ask(confirm: bool) -> str:
    """Ask on the terminal, without showing what is typed.

    Args:
        confirm: Ask twice and refuse a short one: it is to seal, not to open.

    Raises:
        UsageError: There is no terminal to ask on.
        Failure: What is typed is no text, empty or too short.
    """
    if not sys.stdin.isatty():
        raise terminal.usage("no terminal to ask for the passphrase on; give --passphrase-file")
    try:
        typed: str = click.prompt(
            "Passphrase", hide_input=True, confirmation_prompt="Once more" if confirm else False, err=True
        )
    except UnicodeDecodeError as error:
        raise terminal.Failure(_NO_TEXT) from error
    return _checked(typed, to_seal=confirm)


def from_file(file: Path, *, to_seal: bool) -> str:
    """The first line of a file, `-` for standard input.

    Args:
        file: UTF-8 text; a line end and blanks around the line do not count.
        to_seal: Refuse a short one.

    Raises:
        Failure: It can't be read, or its first line is empty or too short.
    """
    try:
        with click.open_file(str(file), "rb") as opened:
            line = opened.readline(_MOST_BYTES).decode("utf-8-sig")
    except OSError as error:
        raise terminal.Failure(f"{file}: can't be read: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise terminal.Failure(f"{file}: can't be read: not UTF-8") from error
    return _checked(line, to_seal=to_seal)


def _checked(typed: str, *, to_seal: bool) -> str:
    if any("\ud800" <= letter <= "\udfff" for letter in typed):  # bytes that were no text, kept as such
        raise terminal.Failure(_NO_TEXT)
    words = typed.strip()
    if not words:
        raise terminal.Failure("the passphrase is empty")
    if to_seal and len(words) < FEWEST_LETTERS:
        raise terminal.Failure(
            f"the passphrase has {len(words)} characters; expected at least {FEWEST_LETTERS}"
            " (four words that do not belong together are good)"
        )
    return words
