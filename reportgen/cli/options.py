"""Arguments that several commands share, and how an option gets its words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from reportgen.words.messages import template


class Failure(click.ClickException):
    """One clear line and exit code 2."""

    exit_code = 2


Declared = Callable[[Any], Any]


def words(key: str, **values: str) -> str:
    """A message of `help.toml`: filled in by itself, since the words' printers take longer than help may."""
    return template(f"help.{key}").format(**values)


class Day(click.ParamType[Any]):
    """A date on the command line, ISO 8601."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The date, or a usage error that says what was expected."""
        try:
            return value if isinstance(value, dt.date | Path) else dt.date.fromisoformat(value)
        except ValueError:
            return self.other(value, param, ctx)

    def other(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """What is no date."""
        self.fail(words("wrong.date", found=value), param, ctx)


class Earlier(Day):
    """What to compare with: a date, or the file of an earlier dossier."""

    def other(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The file, or a usage error that says what was expected."""
        path = Path(value)
        return path if path.is_file() else self.fail(words("wrong.earlier", found=value), param, ctx)


def option(*names: str, key: str = "", values: Callable[[], dict[str, str]] = dict, **more: Any) -> Declared:
    """An option with the words of `help.option.KEY`; the key is its long name where none is given.

    The words are looked up when a command is declared, in the tongue of that moment.
    """
    said = key or next(name for name in names if name.startswith("--"))[2:].replace("-", "_")

    def declared(function: Any) -> Any:
        return click.option(*names, help=words(f"option.{said}", **values()), **more)(function)

    return declared


def flag(*names: str, key: str = "", values: Callable[[], dict[str, str]] = dict) -> Declared:
    """An option that is there or not."""
    return option(*names, key=key, values=values, is_flag=True)


def path(**more: Any) -> click.Path:
    """A path as `Path`."""
    return click.Path(path_type=Path, **more)


folder = click.argument("folder", type=path())
as_of = option("--as-of", type=Day())
out = option("--out", type=path(file_okay=False), default=Path("site_out"), show_default=True)
edition = option(
    "--edition", type=click.Choice(["review", "progress", "season"]), default="review", show_default=True
)
theme = option("--theme", default="")
opened = flag("--open", "opened")
jobs = option("--jobs", type=click.IntRange(1))
strict = flag("--strict")
passphrase_file = option("--passphrase-file", type=path(dir_okay=False, allow_dash=True), metavar="FILE")
