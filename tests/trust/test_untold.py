"""Misses that nobody counted make every chance too good: nothing heavy is proposed until they are there."""

from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from openpyxl.styles import PatternFill

from reportgen.analysis import trust
from reportgen.analysis.dossier import build
from reportgen.intake import read_folder
from reportgen.model.doubts import HEAVY
from reportgen.model.records import Records
from reportgen.trade import load
from tests.trust.logs import lay
from tests.trust.test_trust import LOG, TOML


def of(folder: Path) -> Records:
    records = read_folder(folder).records
    assert records is not None
    return records


def holding(records: Records, lost: int) -> Records:
    """The same with so many rows set aside that may hold a miss."""
    first, *rest = records.ledger
    return replace(records, ledger=(*rest, replace(first, file="training.csv", unclear_misses=lost)))


@pytest.mark.parametrize(("lost", "stops"), [(0, False), (5, False), (6, True), (40, True)])
def test_rows_set_aside_that_may_hold_a_miss_stop_what_is_heavy(
    lost: int, stops: bool, tmp_path: Path
) -> None:
    records = holding(of(lay(tmp_path / "a", LOG, TOML)), lost)
    found = [one for one in trust.unsure(records, load()) if one.reason == "misses_aside"]
    assert [one.stops for one in found] == ([(HEAVY,)] if stops else [])
    block = build(records, load()).facts.block
    assert block is not None
    assert not (stops and block.test_day)


def test_few_beside_many_misses_that_were_read_stop_nothing(tmp_path: Path) -> None:
    records = holding(of(lay(tmp_path / "a", LOG, TOML)), 6)
    many = records.sets.assign(reps=2, made=1)
    assert not any(one.reason == "misses_aside" for one in trust.unsure(replace(records, sets=many), load()))


def test_who_confirms_the_file_gets_heavy_singles_again(tmp_path: Path) -> None:
    records = of(lay(tmp_path / "a", LOG, 'confirmed = ["training.csv"]\n' + TOML))
    assert not any(one.reason == "misses_aside" for one in trust.unsure(holding(records, 40), load()))


def test_a_log_that_tells_its_misses_by_colour_gets_nothing_heavy(tmp_path: Path) -> None:
    folder = lay(tmp_path / "a", LOG, TOML)
    rows = [line.split(",") for line in (folder / "training.csv").read_text().splitlines()]
    (folder / "training.csv").unlink()
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append([float(cell) if cell.replace(".", "").isdecimal() else cell for cell in row])
    for at in range(4, len(rows), 9):
        sheet.cell(at, 1 + rows[0].index("kg")).fill = PatternFill("solid", fgColor="FFFF0000")
    book.save(folder / "training.xlsx")
    found = [one for one in trust.unsure(of(folder), load()) if one.reason == "misses_coloured"]
    assert [one.stops for one in found] == [(HEAVY,)]
