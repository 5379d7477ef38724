"""`reportgen recover`: give back the source files that a dossier carries."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("dossier", type=click.Path(path_type=Path))
@click.option(
    "--to",
    type=click.Path(path_type=Path, file_okay=False),
    help="The folder to write into; must be empty or not there.  [default: the page's name]",
)
def command(dossier: Path, to: Path | None) -> None:
    """Write the folder that DOSSIER was made from, byte for byte, after checking every sum.

    Nothing is written when any file is damaged, and nothing is ever overwritten.
    """
    from reportgen.cli import terminal
    from reportgen.pages import archive

    try:
        page = dossier.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "not a page of ours"
        raise terminal.Failure(f"{dossier}: can't be read: {reason}") from error
    try:
        found = archive.recover(page)
    except archive.ArchiveProblem as problem:
        raise terminal.Failure(f"{dossier}: {problem}") from problem
    if not found.files:
        raise terminal.Failure(f"{dossier}: carries no source files (it was written without them)")
    folder = to or Path(dossier.stem)
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise terminal.Failure(f"{folder}: is there already and not empty; name another with --to")
    try:
        for source in found.files:
            path = folder / source.file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(source.content)
            click.echo(f"{path}: {len(source.content)} bytes")
    except OSError as error:
        raise terminal.Failure(f"{error.filename or folder}: {error.strerror}") from error
