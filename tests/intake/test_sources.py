"""Where a table may come from: workbooks, texts, folders of files; the facts are those of the plain log."""

import datetime as dt
import io
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pandas as pd
import pytest

from reportgen.analysis import share
from reportgen.analysis.dossier import build
from reportgen.cli.unchanged import digest
from reportgen.intake import Intake, find_lifters, read_folder
from reportgen.intake.read import decoded
from reportgen.intake.workbook import Workbook, word, workbook
from reportgen.model.export import as_json
from reportgen.model.problems import Problem, letters, table_of, whole_file
from reportgen.model.records import Records
from reportgen.pages import archive
from reportgen.trade import load
from tests.intake.books import book

HERE = Path(__file__).parent
LIFTER = 'name = "Maren Holt"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
HEAD = ["date", "lift", "kg", "sets", "reps", "made", "miss", "remark"]
Row = list[Any]
ROWS: list[Row] = [
    [dt.date(2026, 3, 2), "snatch", 50, 2, 2, None, None, None],
    [dt.date(2026, 3, 2), "SN", 52.5, 1, 1, 0, "behind", "slow"],
    [dt.date(2026, 3, 2), "back squat", 80, 3, 5, None, None, None],
    [dt.date(2026, 3, 30), "clean + jerk", 60, 1, "1+1", "1+0", "jerk", None],
    [dt.date(2026, 4, 1), "snatch", 55, 1, 1, None, None, "easy"],
    [dt.date(2026, 4, 3), "snatch", 57.5, 1, 1, 1, None, None],
]
MASS: list[Row] = [["date", "kg"], [dt.date(2026, 3, 2), 61.5], [dt.date(2026, 4, 3), 62]]


def csv(rows: list[Row]) -> str:
    return "".join(",".join("" if cell is None else str(cell) for cell in row) + "\n" for row in rows)


def plain(root: Path) -> None:
    (root / "training.csv").write_text(csv([HEAD, *ROWS]))
    (root / "bodymass.csv").write_text(csv(MASS))


def one_workbook(root: Path) -> None:
    book(root / "My log.XLSX", {"Training": [HEAD, *ROWS], "Body mass": MASS, "Ideas": [["more squats"]]})


def a_sheet_a_month(root: Path) -> None:
    title = [["March of this year"], [], HEAD, *ROWS[:4]]
    book(root / "training.xlsx", {"March": title, "April": [HEAD, *ROWS[4:]], "bodymass": MASS, "Empty": []})


def a_folder_of_files(root: Path) -> None:
    book(root / "Training" / "March.xlsx", {"Log": [HEAD, *ROWS[:4]]})
    (root / "Training" / "april.CSV").write_text(csv([HEAD, *ROWS[4:]]))
    book(root / "bodymass.xlsm", {"Sheet1": MASS})


def an_export_beside_its_workbook(root: Path) -> None:
    plain(root)
    book(
        root / "training.xlsx",
        {"Log": [HEAD[:5], *[row[:5] for row in ROWS if row[5] is None or row[5] == 1]]},
    )


FORMS = (one_workbook, a_sheet_a_month, a_folder_of_files, an_export_beside_its_workbook)


def laid(root: Path, form: Callable[[Path], None]) -> Path:
    root.mkdir(parents=True)
    (root / "lifter.toml").write_text(LIFTER)
    form(root)
    return root


def records(intake: Intake) -> Records:
    assert intake.records is not None, [str(one) for one in intake.problems]
    return intake.records


def without_places(value: Any) -> Any:
    """Facts without what says where something stands."""
    if isinstance(value, dict):
        left_out = ("file", "line", "lines", "ledger", "folder", "squat_rows", "tried_rows")
        return {name: without_places(one) for name, one in value.items() if name not in left_out}
    return [without_places(one) for one in value] if isinstance(value, list) else value


def facts(root: Path) -> Any:
    return without_places(as_json(build(records(read_folder(root)), load()).facts))


@pytest.fixture(scope="module")
def wanted(tmp_path_factory: pytest.TempPathFactory) -> Any:
    return facts(laid(tmp_path_factory.mktemp("plain") / "maren", plain))


@pytest.mark.parametrize("form", FORMS)
def test_the_facts_are_those_of_the_plain_log(
    form: Callable[[Path], None], tmp_path: Path, wanted: Any
) -> None:
    assert facts(laid(tmp_path / "maren", form)) == wanted


@pytest.mark.parametrize("form", FORMS)
def test_every_source_comes_back_byte_for_byte(form: Callable[[Path], None], tmp_path: Path) -> None:
    root = laid(tmp_path / "maren", form)
    read = records(read_folder(root))
    page = "".join(
        f'<a href="data:{one.media_type};base64,{one.base64}" data-role="{one.role}" data-file="{one.file}"'
        f' data-sha256="{one.sha256}">x</a>'
        for one in archive.carried(read.sources, None)
    )
    given = {one.file: one.content for one in archive.recover(page).files}
    assert given == {
        one.relative_to(root).as_posix(): one.read_bytes() for one in root.rglob("*") if one.is_file()
    }


@pytest.mark.parametrize("form", FORMS)
def test_a_change_in_any_source_asks_for_a_new_page(form: Callable[[Path], None], tmp_path: Path) -> None:
    root = laid(tmp_path / "maren", form)
    before = digest(root, "plain", ())
    for file in [one for one in root.rglob("*") if one.is_file()]:
        raw = file.read_bytes()
        file.write_bytes(raw + b"\n")
        assert digest(root, "plain", ()) != before
        file.write_bytes(raw)
    assert digest(root, "plain", ()) == before


@pytest.mark.parametrize("form", FORMS)
def test_a_folder_is_a_lifter_whatever_its_log_lies_in(form: Callable[[Path], None], tmp_path: Path) -> None:
    root = laid(tmp_path / "squad" / "maren", form)
    assert find_lifters(root) == find_lifters(tmp_path / "squad") == (root,)


@pytest.mark.parametrize("form", FORMS)
def test_the_ledger_has_an_entry_a_file_and_names_its_table(
    form: Callable[[Path], None], tmp_path: Path
) -> None:
    entries = read_folder(laid(tmp_path / "maren", form)).ledger
    assert len({entry.file for entry in entries}) == len(entries)
    assert all(entry.rows_read == entry.rows_used + entry.rows_set_aside for entry in entries)
    assert {entry.kind for entry in entries if entry.file != "lifter.toml"} == {"training", "bodymass"}


def test_a_copy_to_share_names_no_workbook_and_no_sheet(tmp_path: Path) -> None:
    root = tmp_path / "maren"
    (root / "training").mkdir(parents=True)
    (root / "lifter.toml").write_text(LIFTER)
    book(root / "training" / "Holt.xlsx", {"Maren": [HEAD, *ROWS[:3]], "Maren 2": [HEAD, *ROWS[3:]]})
    book(root / "Maren Holt.xlsx", {"bodymass": MASS})
    read = records(read_folder(root))
    assert "Holt" in str(as_json(build(read, load()).facts))
    shared = as_json(build(share.strip(read, frozenset({"bodymass"})), load()).facts)
    assert "Holt" not in str(shared)
    assert "Maren" not in str(shared)
    assert [one["file"] for one in shared["ledger"]] == ["lifter.toml", "training.csv", "bodymass.csv"]


def test_an_error_or_an_unreckoned_formula_is_no_empty_cell(tmp_path: Path) -> None:
    path = book(tmp_path / "a.xlsx", {"Log": [["made"], ["=A1-1"], ["#REF!"], ['=IF(1,"","")'], [1]]})
    made = openpyxl.load_workbook(path)
    made["Log"]["A3"].data_type = "e"
    made.save(path)
    got = workbook(path.read_bytes(), "a.xlsx")
    assert isinstance(got, Workbook)
    assert [row[0] for row in got.sheets[0][1].cells] == ["made", "=?", "#REF!", "=?", "1"]


@pytest.mark.parametrize("end", ["ods", "xls"])
def test_an_error_of_an_office_program_is_no_empty_cell(end: str) -> None:
    # lost.* were saved by LibreOffice 7.4: 50 * 2, 52.5 / 0 and 0.1 + 0.2 in column F; a hidden sheet.
    got = workbook((HERE / f"lost.{end}").read_bytes(), f"lost.{end}")
    assert isinstance(got, Workbook)
    assert [row[5] for row in got.sheets[0][1].cells[1:4]] == ["100", "#", "0.3"]
    assert got.hidden == ("Hid",)


def test_a_stray_cell_in_the_last_corner_of_an_old_workbook_is_refused_before_it_is_opened() -> None:
    # far.xls was saved by LibreOffice 7.4: three sheets with a word in A1 and one in IV65536.
    assert workbook((HERE / "far.xls").read_bytes(), "far.xls") == "sheets_large"


def cells() -> Iterator[tuple[object, str]]:
    yield from ((82.5, "82.5"), (3.0, "3"), (62.499999999999996, "62.5"), (-0.0, "0"), (1e-7, "0.0000001"))
    yield from ((46082.0, "46082"), (1e20, "100000000000000000000"), (7, "7"), (True, "yes"), (False, "no"))
    yield dt.date(2026, 3, 1), "2026-03-01"
    yield dt.datetime(2026, 3, 1, 18, 29, 59, 999_900), "2026-03-01T18:30:00"
    yield dt.timedelta(hours=30, minutes=5), "30:05:00"


@pytest.mark.parametrize(("cell", "wanted"), tuple(cells()))
def test_a_cell_reads_as_somebody_would_have_typed_it(cell: object, wanted: str) -> None:
    assert word(cell) == wanted


def test_merged_cells_are_those_that_hold_nothing(tmp_path: Path) -> None:
    made = openpyxl.Workbook()
    sheet = made["Sheet"]
    sheet["B2"], sheet["B3"], sheet["C2"] = "day", None, "x"
    sheet.merge_cells("B2:B4")
    sheet["C4"] = "y"
    buffer = io.BytesIO()
    made.save(buffer)
    got = workbook(buffer.getvalue(), "a.xlsx")
    assert isinstance(got, Workbook)
    grid = got.sheets[0][1]
    assert grid.cells == [["", "day", "x"], ["", "", ""], ["", "", "y"]]
    assert (grid.merged, grid.lines.tolist()) == (frozenset({(1, 1), (2, 1)}), [2, 3, 4])


@pytest.mark.parametrize("end", ["ods", "xls", "xlsx"])
def test_files_of_an_office_program_read_like_the_plain_log(end: str, tmp_path: Path, wanted: Any) -> None:
    # office.* were saved by LibreOffice 7.4 from the rows of `one_workbook`: `soffice --convert-to ods`.
    root = tmp_path / "maren"
    root.mkdir()
    (root / "lifter.toml").write_text(LIFTER)
    shutil.copy(HERE / f"office.{end}", root / f"office.{end}")
    assert facts(root) == wanted


def test_a_place_in_a_workbook_has_its_sheet_its_row_and_its_column_letter() -> None:
    assert Problem(file="training.xlsx[March]", line=14, column=3).place == "training.xlsx[March]:14:C"
    assert Problem(file="training.csv", line=14, column=3).place == "training.csv:14:3"
    assert [letters(one) for one in (1, 26, 27, 52, 53, 703)] == ["A", "Z", "AA", "AZ", "BA", "AAA"]
    assert whole_file("a/b.xlsx[x [y]]") == "a/b.xlsx"
    known = ("training", "screening")
    names = ("log.xlsx[Screening]", "training/a.csv", "Training.XLSX[March]", "notes/a.md", "screening.csv")
    assert [table_of(one, known) for one in names] == ["screening", "training", "training", "", "screening"]


def test_the_rows_of_the_first_source_count_and_a_later_one_adds_what_it_alone_holds(tmp_path: Path) -> None:
    root = laid(tmp_path / "maren", plain)
    extra: Row = [dt.date(2026, 4, 5), "snatch", 40, 1, 2]
    book(root / "training.xlsx", {"Log": [HEAD[:5], ROWS[0][:5], ROWS[0][:5], extra]})
    sets = records(read_folder(root)).sets
    same = sets.loc[(sets["date"] == pd.Timestamp(2026, 3, 2)) & (sets["load_kg"] == 50)]
    assert len(same) == 2  # the workbook has it twice, so its second one is its own
    assert sets["date"].max() == pd.Timestamp(2026, 4, 5)


def test_a_log_in_an_older_polish_or_russian_form_is_read() -> None:
    logs = {
        "cp1250": "Data;Ćwiczenie;Ciężar;Serie;Powtórzenia\n15.01.2026;Rwanie;60,5;3;2\n",
        "cp1251": "Дата;Упражнение;Вес;Подходы;Повторения\n15.01.2026;Рывок;60,5;3;2\n",
        "cp1252": "Date;Exercice;Charge;Séries;Répétitions\n15/01/2026;Arraché;60,5;3;2\n",
    }
    for encoding, text in logs.items():
        assert decoded(text.encode(encoding)).text == text


def test_copies_of_one_log_count_each_row_as_often_as_the_copy_that_has_it_most(tmp_path: Path) -> None:
    head = "date,lift,kg,sets,reps\n"
    row = "2026-01-05,snatch,60,3,2\n"
    (tmp_path / "lifter.toml").write_text(LIFTER)
    (tmp_path / "training").mkdir()
    for name, count in (("a", 2), ("b", 1), ("c", 2)):
        (tmp_path / "training" / f"{name}.csv").write_text(head + count * row)
    records = read_folder(tmp_path).records
    assert records is not None
    assert records.sets["sets"].sum() == 6
