"""A passphrase from the terminal or from a file; never as an argument, which other programs could see."""

import sys
from pathlib import Path
from typing import Final

import click

from reportgen.cli import terminal
from reportgen.words import text

#: A sealed file can be tried offline for ever, so a short passphrase seals nothing.
FEWEST_LETTERS: Final = 10
_MOST_BYTES: Final = 4096


def ask(confirm: bool) -> str:
    """Ask on the terminal, without showing what is typed.

    Args:
        confirm: Ask twice and refuse a short one: it is to seal, not to open.

    Raises:
        UsageError: There is no terminal to ask on.
        Failure: What is typed is no text, empty or too short.
    """
    if not sys.stdin.isatty():
        raise terminal.usage(text("cli.passphrase.no_terminal"))
    again = text("cli.passphrase.again") if confirm else False
    try:
        typed: str = click.prompt(
            text("cli.passphrase.ask"), hide_input=True, confirmation_prompt=again, err=True
        )
    except UnicodeDecodeError as error:
        raise terminal.Failure(text("cli.passphrase.no_text")) from error
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
        why = error.strerror or str(error)
        raise terminal.Failure(text("cli.passphrase.unreadable", file=str(file), why=why)) from error
    except UnicodeDecodeError as error:
        raise terminal.Failure(text("cli.passphrase.not_utf8", file=str(file))) from error
    return _checked(line, to_seal=to_seal)


def _checked(typed: str, *, to_seal: bool) -> str:
    if any("\ud800" <= letter <= "\udfff" for letter in typed):  # bytes that were no text, kept as such
        raise terminal.Failure(text("cli.passphrase.no_text"))
    words = typed.strip()
    if not words:
        raise terminal.Failure(text("pages.seal.empty"))
    if to_seal and len(words) < FEWEST_LETTERS:
        raise terminal.Failure(text("cli.passphrase.short", has=len(words), least=FEWEST_LETTERS))
    return words
