"""`reportgen recover`: give back the source files that a dossier carries."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from reportgen.cli import passphrase

if TYPE_CHECKING:
    from reportgen.model.records import Source


@click.command()
@click.argument("dossier", type=click.Path(path_type=Path))
@click.option(
    "--to",
    type=click.Path(path_type=Path, file_okay=False),
    help="The folder to write into; must be empty or not there.  [default: the page's name]",
)
@passphrase.file_option
def command(dossier: Path, to: Path | None, passphrase_file: Path | None) -> None:
    """Write the folder that DOSSIER was made from, byte for byte, after checking every sum.

    Nothing is written when any file is damaged, and nothing is ever overwritten. A sealed dossier is opened
    with its passphrase first, which is asked for where no file gives it.
    """
    from reportgen.cli import terminal
    from reportgen.pages import archive

    try:
        found = archive.recover(_opened(dossier, archive.page_text(dossier), passphrase_file))
    except archive.ArchiveProblem as problem:
        raise terminal.Failure(f"{dossier}: {problem}") from problem
    if not found.files:
        raise terminal.Failure(f"{dossier}: carries no source files (it was written without them)")
    folder = to or Path(dossier.stem)
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise terminal.Failure(f"{folder}: is there already and not empty; name another with --to")
    if not found.whole:
        terminal.say(
            f"{dossier}: written by an earlier version, which kept no sum over its list of files:"
            " each file is checked, one that was cut out would not be missed"
        )
    _give_back(found.files, folder)
    for source in found.files:
        click.echo(f"{folder / source.file}: {len(source.content)} bytes")


def _opened(dossier: Path, page: str, file: Path | None) -> str:
    """The page's text, out of its seal where it has one."""
    from reportgen.cli import terminal
    from reportgen.pages import SealProblem, is_sealed, unseal

    if not is_sealed(page):
        return page
    words = passphrase.from_file(file, to_seal=False) if file else passphrase.ask(confirm=False)
    try:
        return unseal(page, words)
    except SealProblem as problem:
        raise terminal.Failure(f"{dossier}: {problem}") from problem


def _give_back(files: tuple[Source, ...], folder: Path) -> None:
    """Write beside the place first: every file comes back, or none."""
    import tempfile

    from reportgen.cli import terminal

    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".recover-") as waiting:
            whole = Path(waiting) / "files"
            for source in files:
                path = whole / source.file
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(source.content)
            if folder.exists():
                folder.rmdir()  # it is empty
            whole.replace(folder)
    except OSError as error:
        raise terminal.Failure(f"{folder}: not written: {error.strerror}") from error
