"""`check` tells rows with one fault in one line, and `start` takes the unit of a log."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen.cli import terminal
from reportgen.cli.main import main
from reportgen.intake import read_folder
from reportgen.words import numbers
from tests.trust.logs import lay

HEAD = "date,lift,kg,reps\n"
DAYS = [f"2026-03-{n:02d}" for n in range(10, 26)]


def lines(tmp_path: Path, rows: list[str]) -> list[str]:
    found = read_folder(lay(tmp_path / "a", HEAD + "\n".join(rows) + "\n"))
    return terminal.problem_lines("a", found.problems, terminal.MOST_PROBLEMS)


def test_the_same_row_many_times_is_one_line(tmp_path: Path) -> None:
    (line,) = lines(
        tmp_path, [f"{day},snatch,{kg},2" for day in DAYS[:5] for _ in (0, 1) for kg in (50, 55, 60)]
    )
    assert "15 rows: a row above says the same (lines 5, 6, 7, …)" in line


def test_days_that_may_be_two_are_one_line_with_how_they_are_settled(tmp_path: Path) -> None:
    (line,) = lines(
        tmp_path, ["2026-03-10,snatch,50,2", *(f"{n:02d}/05/2026,snatch,50,2" for n in (1, 2, 3, 4))]
    )
    assert "4 rows" in line
    assert "date_format in lifter.toml settles it" in line


def test_misspelt_lifts_are_one_list_to_paste(tmp_path: Path) -> None:
    words = ("sntach", "snacth", "bakc squat")
    rows = [f"{day},{word},50,2" for day, word in zip(DAYS, words, strict=False)]
    (line,) = lines(tmp_path, [*rows, "2026-03-20,snatch,50,2"])
    assert [part.strip() for part in line.split("\n")[1:]] == [
        *('"sntach" = "snatch"', '"snacth" = "snatch"'),
        '"bakc squat" = "back squat"',
    ]


@pytest.mark.parametrize(("heading", "unit"), [("lb", 'unit = "lb"'), ("kg", '# unit = "lb"')])
def test_a_log_in_pounds_makes_a_lifter_in_pounds(heading: str, unit: str, tmp_path: Path) -> None:
    log = tmp_path / "training.csv"
    log.write_text(f"date,lift,{heading},reps\n2026-03-10,snatch,90,1\n", encoding="utf-8")
    call = ["start", str(tmp_path / "a"), "--from", str(log), "--name", "Odo Vale", "--goal", "snatch 141 lb"]
    done = CliRunner().invoke(main, call)
    assert done.exit_code == 0
    assert f"snatch: 90 {heading}, 1 × 1" in done.output
    assert any(one.startswith(unit) for one in (tmp_path / "a/lifter.toml").read_text().splitlines())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("training.csv looks like pounds", "training.csv looks"),
        ("notes/a.md tells", "notes/a.md"),
        ("the bar", "The bar"),
    ],
)
def test_the_name_of_a_file_is_never_capitalised(words: str, told: str) -> None:
    assert numbers.sentence(words).startswith(told)
