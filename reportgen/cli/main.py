"""The `reportgen` command: what each word does, before anything heavy is imported."""

import contextlib
import gc
import os
import sys
from typing import Any

import click

from reportgen import __version__
from reportgen.cli import commands, streams
from reportgen.cli.commands import COMMANDS
from reportgen.cli.options import Failure, words
from reportgen.model.letters import shown


class Commands(click.Group):
    """Declares a command only when that command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's own signature
        """The commands in the order of a first day with the tool."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The command of that name, or None."""
        return commands.command(cmd_name) if cmd_name in COMMANDS else None

    def main(self, *args: Any, **more: Any) -> Any:
        """Run with streams that are there and that outlive whoever reads them."""
        # Matrices here are small: threads of the number library cost more than they give. And next to no
        # object of ours is part of a cycle: looking for one often is for nothing.
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        gc.set_threshold(50_000, 20, 20)
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
            from difflib import get_close_matches  # takes as long to import as all words of the help

            near = get_close_matches(args[0].casefold(), COMMANDS, n=1)
            told = (
                words("wrong.command_near", found=args[0], near=near[0])
                if near
                else words("wrong.command", found=args[0], known=", ".join(COMMANDS))
            )
            raise click.UsageError(told, ctx) from error

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; a folder that may not be read or an output that is full is one clear line."""
        try:
            try:
                return super().invoke(ctx)
            finally:
                sys.stdout.flush()  # here, and not when Python ends: nobody could say it in one line then
        except OSError as error:
            if not error.filename:
                _drop_output()
            where = shown(error.filename) if error.filename else words("output")
            raise Failure(f"{where}: {error.strerror or error}") from error

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """What the program does, its commands, and a first day with it."""
        self.help, self.epilog = words("about"), words("first_day")
        super().format_help(ctx, formatter)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """One line a command; none is declared for it."""
        with formatter.section(words("commands")):
            formatter.write_dl([(name, words(f"line.{name}")) for name in COMMANDS])


def _drop_output() -> None:
    """What could not be written is untried when Python ends, which would change the exit code."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


@click.command(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="reportgen")
def main() -> None:
    """The group; its words come with the messages."""
