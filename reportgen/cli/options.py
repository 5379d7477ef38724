"""Arguments that several commands share."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import click


class Day(click.ParamType[Any]):
    """A date on the command line, ISO 8601."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> dt.date:
        """The date, or a usage error that says what was expected."""
        if isinstance(value, dt.date):
            return value
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            self.fail(f"'{value}' is no date; expected one like 2026-03-01", param, ctx)


folder = click.argument("folder", type=click.Path(path_type=Path))
as_of = click.option(
    "--as-of",
    type=Day(),
    help="The review day; later rows enter no figure. Without it: the newest day of the log.",
)


strict = click.option("--strict", is_flag=True, help="Leave with 1 where a row was set aside.")


class Earlier(click.ParamType[Any]):
    """What to compare with: a date, or the file of an earlier dossier."""

    name = "date or file"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> dt.date | Path:
        """The date or the path, or a usage error that says what was expected."""
        if isinstance(value, dt.date | Path):
            return value
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            pass
        path = Path(value)
        if not path.is_file():
            self.fail(f"'{value}' is neither a date like 2026-03-01 nor a dossier's file", param, ctx)
        return path
