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
        page = _opened(dossier, archive.page_text(dossier), passphrase_file)
        found = archive.recover(page)
    except archive.ArchiveProblem as problem:
        raise terminal.Failure(f"{dossier}: {problem}") from problem
    if not found.files:
        raise terminal.Failure(f"{dossier}: {archive.without(page, found)}")
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
    """Write beside the place first, or inside of it where it is there: every file comes back, or none."""
    import contextlib
    import tempfile

    from reportgen.cli import terminal

    there = folder.is_dir()
    beside = folder if there else folder.parent
    moved: list[Path] = []
    try:
        beside.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=beside, prefix=".recover-") as waiting:
            whole = Path(waiting) / "files"
            whole.mkdir()
            for source in files:
                _write(whole, source, folder)
            if not there:
                whole.replace(folder)
                return
            # The folder itself stays: somebody may stand in it, or a link leads to it.
            try:
                for path in sorted(whole.iterdir()):
                    moved.append(path.replace(folder / path.name))
            except BaseException:
                for path in moved:
                    with contextlib.suppress(OSError):
                        path.replace(whole / path.name)
                raise
    except OSError as error:
        raise terminal.Failure(f"{folder}: not written: {error.strerror}") from error


def _write(whole: Path, source: Source, folder: Path) -> None:
    """One file. A disk on which two names are one is no place for both: nothing is written over."""
    from reportgen.cli import terminal

    path = whole / source.file
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as file:
            file.write(source.content)
    except OSError as error:
        raise terminal.Failure(
            f"{folder}: not written: {source.file} can't be made there: {error.strerror}"
        ) from error
