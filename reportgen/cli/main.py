"""The `reportgen` command: what each word does, before anything heavy is imported."""

import contextlib
import importlib
import os
import sys
from typing import Any

import click

from reportgen import __version__
from reportgen.cli import streams

#: Command -> (module, one line of help). The line stands here so that `--help` imports no command.
COMMANDS = {
    "start": (
        "reportgen.cli.start",
        "Lay out a lifter's folder, blank or from the files of a log, or the demo squad.",
    ),
    "check": ("reportgen.cli.check", "Read everything, report what was not understood, write nothing."),
    "write": ("reportgen.cli.write", "Write one HTML dossier a lifter, and an index for a squad."),
    "facts": ("reportgen.cli.facts", "Print every computed figure as JSON."),
    "block": ("reportgen.cli.block", "Write the proposed block as a plan.csv for a coach to edit."),
    "sheet": ("reportgen.cli.sheet", "Write the platform sheet: one page for a contest or test day."),
    "recover": ("reportgen.cli.recover", "Give back the source files that a dossier carries."),
    "rules": ("reportgen.cli.rules", "Print every rule, band and source in force."),
}


class Commands(click.Group):
    """Imports a command's module only when that command is run."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's own signature
        """The commands in the order of a first day with the tool."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The command of that name, or None."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = importlib.import_module(COMMANDS[cmd_name][0]).command
        return command

    def main(self, *args: Any, **more: Any) -> Any:
        """Run with streams that are there and that outlive whoever reads them."""
        with streams.kept():
            return super().main(*args, **more)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is meant; of a misspelt one, which it may have been."""
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            if args[0].startswith("-"):
                raise
            from difflib import get_close_matches

            near = get_close_matches(args[0].casefold(), COMMANDS, n=1)
            meant = f"; did you mean '{near[0]}'?" if near else f" (one of: {', '.join(COMMANDS)})"
            raise click.UsageError(f"no such command '{args[0]}'{meant}", ctx) from error

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; a folder that may not be read or an output that is full is one clear line."""
        try:
            try:
                return super().invoke(ctx)
            finally:
                sys.stdout.flush()  # here, and not when Python ends: nobody could say it in one line then
        except OSError as error:
            from reportgen.cli import terminal
            from reportgen.model.letters import shown

            if not error.filename:
                _drop_output()
            where = shown(error.filename) if error.filename else "the output"
            raise terminal.Failure(f"{where}: {error.strerror or error}") from error

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """One line a command, from the table above."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in COMMANDS.items()])


def _drop_output() -> None:
    """What could not be written is not tried again when Python ends, which would change the exit code."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


EPILOG = """\b
A first day:
  reportgen start --demo demo        lay out three invented lifters to look at
  reportgen check demo               see what was read and what was not
  reportgen write demo --out pages   write their dossiers, then open pages/index.html
  reportgen start anna --from FILE   lay out a folder for a lifter of your own, from a log in FILE
"""


@click.command(cls=Commands, epilog=EPILOG, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="reportgen")
def main() -> None:
    """Turn a lifter's training log, notes and readings into a dossier: one HTML file to open anywhere.

    A folder with a training log and a lifter.toml is a lifter; a folder of such folders is a squad. Every
    command takes either. Nothing is sent anywhere.
    """
