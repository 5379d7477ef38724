"""`reportgen recover`: give back the source files that a dossier carries."""

import contextlib
import tempfile
from pathlib import Path

import click

from reportgen import pages
from reportgen.cli import passphrase, terminal
from reportgen.model.records import Source
from reportgen.pages import archive
from reportgen.words import text


def run(dossier: Path, out: Path | None, passphrase_file: Path | None) -> int:
    """Write the folder that a dossier was made from, after checking every sum; nothing is overwritten."""
    try:
        page = _opened(archive.page_text(dossier), passphrase_file)
        found = archive.recover(page)
    except (archive.ArchiveProblem, pages.SealProblem) as problem:
        raise terminal.Failure(f"{dossier}: {problem}") from problem
    if not found.files:
        raise terminal.Failure(f"{dossier}: {archive.without(page, found)}")
    folder = out or Path(dossier.stem)
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise terminal.Failure(text("cli.recover.taken", folder=str(folder)))
    if not found.whole:
        terminal.say(text("cli.recover.old", page=str(dossier)))
    try:
        _give_back(found.files, folder)
    except OSError as error:
        raise terminal.Failure(
            text("pages.written.not", path=str(folder), why=error.strerror or "")
        ) from error
    for source in found.files:
        click.echo(text("cli.recover.file", file=str(folder / source.file), size=len(source.content)))
    return 0


def _opened(page: str, file: Path | None) -> str:
    """The page's text, out of its seal where it has one."""
    if not pages.is_sealed(page):
        return page
    return pages.unseal(
        page, passphrase.from_file(file, to_seal=False) if file else passphrase.ask(confirm=False)
    )


def _give_back(files: tuple[Source, ...], folder: Path) -> None:
    """Write beside the place first, or inside of it where it is there: every file comes back, or none."""
    there = folder.is_dir()
    beside = folder if there else folder.parent
    moved: list[Path] = []
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


def _write(whole: Path, source: Source, folder: Path) -> None:
    """One file. A disk on which two names are one is no place for both: nothing is written over."""
    path = whole / source.file
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as file:
            file.write(source.content)
    except OSError as error:
        why = text("cli.recover.no_file", file=source.file, why=error.strerror or "")
        raise terminal.Failure(text("pages.written.not", path=str(folder), why=why)) from error
