"""The commands with their arguments. What does the work is imported when a command is run.

Nothing here needs more than click and the words of the help: `--help` and completion are quick.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any, Final

import click

from reportgen.cli import private
from reportgen.cli.options import (
    Day,
    Declared,
    Earlier,
    as_of,
    as_today,
    edition,
    flag,
    folder,
    jobs,
    opened,
    option,
    out,
    pages_out,
    passphrase_file,
    path,
    strict,
    theme,
    was,
    words,
)
from reportgen.model.private import PARTS

#: A command's arguments, the commands in the order of a first day.
COMMANDS: Final[dict[str, tuple[Declared, ...]]] = {
    "start": (
        click.argument("folders", type=path(), nargs=-1, required=True, metavar="FOLDER..."),
        option("--from", "files", type=path(), multiple=True, metavar="FILE...", key="files"),
        option("--name", default=""),
        option("--standards", type=click.Choice(["women", "men"])),
        option("--goal", default="", metavar='"LIFT KG"'),
        flag("--demo"),
    ),
    "check": (
        folder,
        as_of,
        flag("--all", "everything"),
        flag("--json", "machine"),
    ),
    "write": (
        folder,
        pages_out,
        edition,
        option("--first", "start", type=Day(), metavar="DATE", without="first"),
        option("--last", "end", type=Day(), metavar="DATE", without="last"),
        as_of,
        theme,
        jobs,
        flag("--without-sources", "bare"),
        flag("--share", values=lambda: {"parts": private.listed()}),
        option("--keep", multiple=True, type=click.Choice(PARTS)),
        option("--since", type=Earlier(), metavar="DATE|FILE.html"),
        option("--only", multiple=True, metavar="NAME"),
        option("--list", "listed", type=path(dir_okay=False, allow_dash=True), metavar="FILE"),
        flag("--passphrase", "ask"),
        passphrase_file,
        flag("--again", "always"),
        flag("--no-store"),
        strict,
        opened,
        was("--from", "start", type=Day()),
        was("--until", "end", type=Day()),
        was("--all", "always", is_flag=True),
    ),
    "facts": (folder, as_of, jobs, flag("--lines"), strict),
    "block": (
        folder,
        out("FILE", "plan", dir_okay=False),
        as_of,
        flag("--force"),
        was("--to", "out", type=path(dir_okay=False)),
    ),
    "answers": (folder, click.argument("file", type=path(dir_okay=False, allow_dash=True))),
    "sheet": (
        folder,
        pages_out,
        as_of,
        theme,
    ),
    "index": (
        click.argument("places", type=path(exists=True), nargs=-1, required=True, metavar="PLACES..."),
        out("FILE|FOLDER", "index"),
        edition,
        theme,
        opened,
    ),
    "recover": (
        click.argument("dossier", type=path()),
        out("FOLDER", "recovered", file_okay=False),
        passphrase_file,
        was("--to", "out", type=path(file_okay=False)),
    ),
    "rules": (click.argument("folder", type=path(), required=False),),
}


def command(name: str) -> click.Command:
    """One command, ready to run."""

    def work(**given: Any) -> None:
        # Late, since help has no time for it, and the one place: every other module imports on top.
        click.get_current_context().exit(import_module(f"reportgen.cli.{name}").run(**as_today(given)))

    for declared in reversed(COMMANDS[name]):
        declared(work)
    return click.command(name, help=words(f"command.{name}"))(work)
