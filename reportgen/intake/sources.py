"""Which files of a lifter's folder are tables, and of what; the files themselves are not opened here."""

from collections.abc import Iterator
from pathlib import Path
from typing import Final

from reportgen.intake.kinds import KINDS, TRAINING, Kind
from reportgen.intake.read import WORKBOOKS, inside
from reportgen.intake.strangers import meant
from reportgen.model.values import dataclass
from reportgen.trade import fold

#: How a name ends, in any letter case.
TEXTS: Final = (".txt", ".md")
TABLES: Final = (".csv", *WORKBOOKS)
#: What is no table by its name, and may be a log, or a doctor's letter, that somebody laid here.
_LOGS: Final = (".txt", ".tsv", ".numbers", ".rtf", ".doc", ".docx", ".odt", ".pages", ".pdf", ".eml", ".msg")
_PICTURES: Final = (".jpg", ".jpeg", ".png", ".heic", ".tif", ".tiff")
_UNREAD: Final = (*_LOGS, *_PICTURES)
#: So begin files that a spreadsheet program lays beside an open workbook, and hidden ones.
_PASSING: Final = (".", "~$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sources:
    """Paths relative to the folder, with forward slashes; a name in a wrong encoding is not made readable."""

    #: A kind's name -> its files: that of the name first, then those of the folder of the name.
    tables: dict[str, tuple[str, ...]]
    books: tuple[str, ...]  # workbooks of another name: their sheets may be named like a table
    others: tuple[str, ...]  # table files that nobody reads
    notes: tuple[str, ...]  # texts that lie beside the tables in place of in notes/; .txt is in `others` too
    twins: tuple[tuple[str, str], ...]  # files whose names differ in letter case only


def sources(root: Path) -> Sources:
    """Look through a lifter's folder."""
    tables: dict[str, list[str]] = {kind.name: [] for kind in KINDS}
    books, others, twins = [], [], []
    rest: list[Path] = []
    seen: dict[str, str] = {}
    for path in listed(root):
        kind = named(path.stem)
        if path.is_dir() and named(path.name) is not None:
            continue
        if kind is not None and _may_be(path, kind):
            tables[kind.name].append(path.name)
        elif path.suffix.casefold() in WORKBOOKS:
            books.append(path.name)
        elif path.suffix.casefold() in TABLES:
            others.append(path.name)
        else:
            rest.append(path)
        other = seen.setdefault(path.name.casefold(), path.name)
        if other != path.name:
            twins.append((other, path.name))
    for kind, inner in _folders(root):
        for path in listed(inner):
            if _may_be(path, kind):
                tables[kind.name].append(f"{inner.name}/{path.name}")
            elif path.is_file():  # whatever lies there is meant to be read
                others.append(f"{inner.name}/{path.name}")
    # A pain.csv.txt is no table, and must not be lost in silence.
    there = [name for name, files in tables.items() if files]
    texts = [path for path in rest if path.suffix.casefold() in TEXTS and not meant(path, there)]
    texts = [path for path in texts if tables[TRAINING.name] and fold(path.stem) != "readme"]
    others += [path.name for path in rest if meant(path, there) or path.suffix.casefold() in _UNREAD]
    # Whatever lies in notes/ is meant to be read; letters of a doctor come so.
    laid = [path for path in listed(root / "notes") if path.is_file() and path.suffix.casefold() not in TEXTS]
    others += [f"notes/{path.name}" for path in laid]
    return Sources(
        tables={name: tuple(files) for name, files in tables.items()},
        books=tuple(books),
        others=tuple(others),
        notes=tuple(path.name for path in texts),
        twins=tuple(twins),
    )


def has_tables(root: Path) -> bool:
    """Whether a folder holds any table, known or not; a closed one may."""
    if inside(root) is None:
        return True  # a lifter that cannot be read, which is said, and not nobody
    found = sources(root)
    others = [
        one
        for one in found.others
        if not one.startswith("notes/")
        and (Path(one).suffix.casefold() not in _UNREAD or meant(root / one, ()))
    ]
    return bool(found.books or others or any(found.tables.values()))


def watched(root: Path) -> list[Path]:
    """Every file that a dossier may be made from: where one of them changes, the page is written again."""
    ends = (*TABLES, *TEXTS, ".toml")
    inner = [root, root / "notes", *(one for _, one in _folders(root))]
    return sorted(path for folder in inner for path in listed(folder) if path.suffix.casefold() in ends)


def named(name: str) -> Kind | None:
    """The kind of table that a file's stem, a folder or a sheet is named like, in any letter case."""
    bare = fold(name).replace(" ", "")
    return next((kind for kind in KINDS if kind.name == bare), None)


def listed(folder: Path) -> list[Path]:
    """What lies in a folder, by name; nothing where there is none or it is closed."""
    found = [one for one in inside(folder) or () if not one.name.startswith(_PASSING)]
    return sorted(found, key=lambda one: (one.name.casefold(), one.name))


def _folders(root: Path) -> Iterator[tuple[Kind, Path]]:
    for path in listed(root):
        kind = named(path.name)
        if kind is not None and path.is_dir():
            yield kind, path


def _may_be(path: Path, kind: Kind) -> bool:
    ends = (*TABLES, *TEXTS) if kind is TRAINING else TABLES
    return path.suffix.casefold() in ends
