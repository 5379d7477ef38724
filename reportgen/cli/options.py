"""Arguments that several commands share, and how an option gets its words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any, Final

import click

from reportgen.words.messages import template


class Failure(click.ClickException):
    """One clear line and exit code 2."""

    exit_code = 2


Declared = Callable[[Any], Any]
#: Behind the name of an argument: given under an earlier name.
WAS: Final = "_was"


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


def option(
    *names: str,
    key: str = "",
    values: Callable[[], dict[str, str]] = dict,
    without: str = "",
    **more: Any,
) -> Declared:
    """An option with the words of `help.option.KEY`; the key is its long name where none is given.

    The words are looked up when a command is declared, in the tongue of that moment.

    Args:
        names: As click takes them.
        key: Of its words.
        values: Of their placeholders.
        without: What holds without it, the message `help.without.NAME`.
        more: As click takes it.
    """
    said = key or _long(names).replace("-", "_")

    def declared(function: Any) -> Any:
        told: dict[str, Any] = {"show_default": words(f"without.{without}")} if without else {}
        return click.option(*names, help=words(f"option.{said}", **values()), **told, **more)(function)

    return declared


def was(name: str, now: str, **more: Any) -> Declared:
    """What an option was called in an earlier version: hidden, and it works; `now` is its argument today."""
    return click.option(name, now + WAS, hidden=True, **more)


def as_today(given: dict[str, Any]) -> dict[str, Any]:
    """The arguments with what was given under an earlier name in its place."""
    old = {name: value for name, value in given.items() if name.endswith(WAS)}
    today = {name: value for name, value in given.items() if name not in old}
    return today | {name.removesuffix(WAS): value for name, value in old.items() if value}


def _long(names: Iterable[str]) -> str:
    return next(name for name in names if name.startswith("--"))[2:]


def flag(*names: str, values: Callable[[], dict[str, str]] = dict) -> Declared:
    """An option that is there or not."""
    return option(*names, values=values, is_flag=True)


def path(**more: Any) -> click.Path:
    """A path as `Path`."""
    return click.Path(path_type=Path, **more)


#: What several commands take, here once: one name, one text, one type. A test holds every command to it.
folder = click.argument("folder", type=path())
edition = option(
    "--edition", type=click.Choice(["review", "progress", "season"]), default="review", show_default=True
)
as_of = option("--as-of", type=Day(), metavar="DATE", without="as_of")
theme = option("--theme", default="", metavar="NAME|FOLDER")
jobs = option("--jobs", type=click.IntRange(1), metavar="N", without="jobs")
passphrase_file = option("--passphrase-file", type=path(dir_okay=False, allow_dash=True), metavar="FILE")
strict = flag("--strict")
opened = flag("--open", "opened")


def out(kind: str, without: str = "", **more: Any) -> Declared:
    """Where something is written; `kind` is FILE, FOLDER or both."""
    return option("--out", type=path(**more), metavar=kind, without=without)


pages_out = option(
    "--out", type=path(file_okay=False), metavar="FOLDER", default=Path("site_out"), show_default=True
)
