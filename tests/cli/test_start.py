"""`reportgen start`: folders from files, and nothing to fill in that reaches a page."""

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from reportgen.cli.main import main
from reportgen.intake import read_folder
from tests.intake.books import book

LOG: list[list[Any]] = [
    ["date", "lift", "kg", "reps"],
    ["2026-03-01", "snatch", 50, 2],
    ["2026-03-02", "flump", 40, 2],
]


def run(*words: object) -> Any:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture
def files(tmp_path: Path) -> list[Path]:
    inner = tmp_path / "my files"
    log = book(inner / "Training log.xlsx", {"March": LOG})
    (inner / "diary.md").write_text("3 March 2026\nSnatch 50x2, 55x1, 60 miss\n")
    (inner / "weights.csv").write_text("date,kg\n2026-03-01,61.5\n")
    return [log, inner / "diary.md", inner / "weights.csv"]


def test_the_files_of_a_log_are_copied_unchanged_and_told(tmp_path: Path, files: list[Path]) -> None:
    folder = tmp_path / "anna b"
    done = run("start", folder, "--from", *files)
    assert done.exit_code == 0, done.output
    there = {one.relative_to(folder).as_posix() for one in folder.rglob("*") if one.is_file()}
    assert there == {"lifter.toml", "training/Training log.xlsx", "training/diary.md", "bodymass/weights.csv"}
    assert (folder / "training" / "Training log.xlsx").read_bytes() == files[0].read_bytes()
    assert "2026-03-03\n    snatch: 50 kg, 1 × 2\n" in done.output
    assert "60 kg, 1 × 1, 0 made" in done.output
    assert f'reportgen check "{folder}"' in done.output
    assert '# "flump" = "…"' in (folder / "lifter.toml").read_text()


def test_a_file_without_a_set_says_what_to_do_in_place_of_an_empty_list(tmp_path: Path) -> None:
    (tmp_path / "log.txt").write_text("went well\nnothing to tell\n")
    done = run("start", tmp_path / "anna", "--from", tmp_path / "log.txt")
    assert done.exit_code == 0
    assert "How the files were understood" not in done.output
    assert "No set was read. A table needs a row of headings" in done.output


def test_once_three_lines_are_filled_in_the_folder_is_a_lifter(tmp_path: Path, files: list[Path]) -> None:
    folder = tmp_path / "anna"
    run("start", folder, "--from", *files)
    text = (folder / "lifter.toml").read_text()
    checked = run("check", folder)
    for word in ("name is missing", "standards is missing", "goal is missing"):
        assert word in checked.output
    assert "…" not in checked.output
    for line in ("name =", "standards =", "[[goal]]", 'lift = "snatch"', "kg = 64"):
        text = text.replace(f"# {line}", line, 1)
    (folder / "lifter.toml").write_text(text)
    assert run("check", folder).exit_code == 1  # flump is no lift that is known


def test_what_the_call_says_of_the_lifter_need_not_be_filled_in(tmp_path: Path, files: list[Path]) -> None:
    folder = tmp_path / "anna"
    who = ("--name", 'Anna "B"', "--standards", "women", "--goal", "Snatch 141,5 lb")
    done = run("start", folder, "--from", *files, *who)
    assert done.exit_code == 0, done.output
    assert "fill in" not in done.output
    read = read_folder(folder)
    assert read.records is not None
    (goal,) = read.records.lifter.goals
    assert (read.records.lifter.name, read.records.lifter.standards) == ('Anna "B"', "women")
    assert goal.lift == "snatch"
    assert goal.kg == pytest.approx(141.5 * 0.45359237)  # NIST SP 811, status R


@pytest.mark.parametrize("goal", ["bench 100", "snatch", "64", "snatch 64 stone"])
def test_a_goal_that_is_none_is_one_clear_line_and_nothing_is_written(tmp_path: Path, goal: str) -> None:
    done = run("start", tmp_path / "anna", "--goal", goal)
    assert done.exit_code == 2
    assert f"--goal is '{goal}', expected a lift and a weight" in done.output
    assert not (tmp_path / "anna").exists()


def test_no_blank_is_laid_beside_a_table_that_is_there_in_another_form(
    tmp_path: Path, files: list[Path]
) -> None:
    folder = tmp_path / "anna"
    run("start", folder, "--from", *files)
    run("start", folder)
    assert not (folder / "training.csv").exists()
    assert (folder / "pain.csv").exists()


def test_what_is_there_is_never_written_over(tmp_path: Path, files: list[Path]) -> None:
    folder = tmp_path / "anna"
    assert run("start", folder, "--from", *files).exit_code == 0
    again = run("start", folder, "--from", *files)
    assert "was there, kept as it is" in again.output
    files[1].write_text("4 March 2026\nSnatch 50x2\n")
    before = (folder / "training" / "diary.md").read_bytes()
    refused = run("start", folder, "--from", *files)
    assert refused.exit_code == 2
    assert (folder / "training" / "diary.md").read_bytes() == before


def test_several_folders_are_laid_out_in_one_call(tmp_path: Path) -> None:
    done = run("start", tmp_path / "anna", tmp_path / "ben", tmp_path / "carla k")
    assert done.exit_code == 0
    for name in ("anna", "ben", "carla k"):
        assert (tmp_path / name / "lifter.toml").exists()
        assert not (tmp_path / name / "plan.csv").exists()
    assert f'reportgen check "{tmp_path / "carla k"}"' in done.output


@pytest.mark.parametrize("words", [["nowhere.csv"], ["lifter.pdf"]])
def test_a_file_that_can_not_be_read_is_one_clear_line(tmp_path: Path, words: list[str]) -> None:
    (tmp_path / "lifter.pdf").write_bytes(b"%PDF")
    done = run("start", tmp_path / "anna", "--from", *(tmp_path / word for word in words))
    assert done.exit_code == 2
    assert not (tmp_path / "anna").exists()
