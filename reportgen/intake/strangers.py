"""Files that nobody reads: a slip in a name would lose a whole table in silence, and with it a pain."""

import re
from collections.abc import Collection
from pathlib import Path, PurePosixPath

from reportgen.intake.kinds import KINDS
from reportgen.intake.messages import close, expect, problem
from reportgen.intake.tables import KEPT
from reportgen.model.letters import shown
from reportgen.model.problems import FileLedger
from reportgen.model.say import say
from reportgen.trade import fold, load

#: How a doctor's letter comes that somebody laid into the folder.
_LETTERS = (".pdf", ".eml", ".msg", ".jpg", ".jpeg", ".png", ".heic", ".tif", ".tiff")
_ENDS = ("", "txt", "tsv", "xlsx", "xlsm", "xls", "ods", "numbers", "md")


def meant(path: Path, there: Collection[str]) -> str:
    """`pain` or `away` where a file of another name seems to be that table: pain.csv.txt, Schmerz.xlsx.

    Beside the table itself (`there`) only another table counts: a program's copy tells nothing new.
    """
    stem, *ends = path.name.casefold().split(".")
    csv = "csv" in ends
    if not csv and (ends[-1] if ends else "") not in _ENDS:
        return ""
    bare = fold(re.sub(r"[\W\d_]+", " ", stem))
    words = load().words["file"]
    kind = next((words[word] for word in (bare, *bare.split()) if word in words), "")
    if csv and not kind:
        kind = close(bare, [one.name for one in KINDS]) or ""
    if kind not in KEPT or not stem or path.name.endswith("~") or not path.is_file():
        return ""
    return "" if kind in there and (not csv or ends[-1] == "bak") else kind


def stranger(root: Path, file: str, *, there: frozenset[str], book: bool = False) -> FileLedger:
    """The entry of a table file that nobody reads; a `book` is a workbook without a sheet of a known name."""
    known = [kind.file for kind in KINDS]
    path = PurePosixPath(file)
    kind = meant(root / file, there)
    near = f"{kind}.csv" if kind else close(f"{path.stem.casefold()}.csv", known)
    ending = ".csv" if ".csv" in file.casefold() else path.suffix.casefold()
    near_name = near and near.removesuffix(".csv") + (".csv" if ending in (".txt", ".md", "") else ending)
    want = (
        expect("table_sheets", words=tuple(kind.name for kind in KINDS))
        if book
        else expect("names", names=tuple(known))
    )
    name = shown(file)
    if not kind and (path.parts[0] == "notes" or (len(path.parts) == 1 and ending in _LETTERS)):
        told = problem(say("intake.letter"), file=name, level="odd", found=name, want=expect("note"))
        return FileLedger(file=name, rows_read=0, rows_used=0, rows_set_aside=0, problems=(told,))
    told = problem(say("intake.stranger"), file=name, level="odd", found=name, want=want, near=near_name)
    kind = near.removesuffix(".csv") if near else ""
    return FileLedger(file=name, rows_read=0, rows_used=0, rows_set_aside=0, problems=(told,), kind=kind)
