"""Which cells of a workbook are coloured, and when that is asked about."""

from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.styles import Font, PatternFill

from reportgen.intake import colours, read_folder
from reportgen.words import said
from tests.each import each
from tests.intake.books import book
from tests.trust.logs import TOML

HEAD: list[Any] = ["date", "lift", "kg", "reps", "made"]
ROWS: list[list[Any]] = [HEAD, *([f"2026-03-{day:02}", "snatch", 50 + day, 1, None] for day in range(1, 9))]
RED = PatternFill("solid", fgColor="FF0000")


def asked(
    folder: Path, cells: str, *, fill: PatternFill | None = None, font: Font | None = None, **put: int
) -> bool:
    """Whether a log with some cells painted, and others filled, is asked about them."""
    folder.mkdir()
    (folder / "lifter.toml").write_text(TOML, encoding="utf-8")
    made = openpyxl.load_workbook(book(folder / "training.xlsx", {"Log": ROWS}))
    for name in cells.split():
        cell = made["Log"][name]
        if fill is not None:
            cell.fill = fill
        if font is not None:
            cell.font = font
    for name, value in put.items():
        made["Log"][name] = value
    made.save(folder / "training.xlsx")
    return any("coloured or struck" in said(one.message) for one in read_folder(folder).problems)


@each(
    "cells, fill, font, told",
    [
        ("C4 C7", RED, None, True),
        ("D4", None, Font(color="C00000"), True),
        ("C4", None, Font(strike=True), True),
        ("A4 B5", RED, None, False),  # no loads
        ("C1 D1", RED, None, False),  # headings
        ("C4", PatternFill("solid", fgColor="D9D9D9"), None, False),  # grey
        ("C4", None, Font(color="000000", bold=True), False),
        (" ".join(f"C{row}" for row in range(2, 9)), RED, None, False),  # the look of the column
        ("E4", RED, None, False),  # an empty cell
    ],
)
def test_few_coloured_loads_of_a_log_without_a_miss_are_asked_about(
    cells: str, fill: PatternFill | None, font: Font | None, told: bool, tmp_path: Path
) -> None:
    place = tmp_path / f"{len([*tmp_path.iterdir()])}"
    assert asked(place, cells, fill=fill, font=font) is told


def test_coloured_loads_of_a_log_that_notes_misses_are_not_asked_about(tmp_path: Path) -> None:
    assert not asked(tmp_path / "a", "C4 C7", fill=RED, E4=0)


def test_many_more_coloured_loads_than_misses_are_asked_about(tmp_path: Path) -> None:
    assert asked(tmp_path / "a", "C3 C4 C5 D3 D4 D5", fill=RED, E4=0)


@each("styles", [b"", b"<fills>", b"<fill" * 999, b"<cellXfs><xf fillId='9'/></cellXfs>", b"\xff" * 99])
def test_styles_that_are_none_mark_nothing(styles: bytes) -> None:
    assert colours.marking(styles) == frozenset()
