"""A page stands whole or not at all."""

import os
from pathlib import Path

import pytest

from reportgen.pages import WriteProblem, write


def test_a_page_is_written_as_utf8_with_line_feeds(tmp_path: Path) -> None:
    write(tmp_path / "new" / "page.html", "Mårten\nläuft\n")
    assert (tmp_path / "new" / "page.html").read_bytes() == "Mårten\nläuft\n".encode()


def test_writing_leaves_nothing_but_the_page(tmp_path: Path) -> None:
    write(tmp_path / "page.html", "one")
    write(tmp_path / "page.html", "two")
    assert [p.name for p in tmp_path.iterdir()] == ["page.html"]
    assert (tmp_path / "page.html").read_text() == "two"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failing_disk_keeps_the_old_page_and_names_the_path(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = tmp_path / "page.html"
    page.write_text("old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    if step == "fsync":
        monkeypatch.setattr(os, "fsync", full)
    else:
        monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(WriteProblem, match="No space left") as problem:
        write(page, "new")
    assert str(page) in str(problem.value)
    assert page.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["page.html"]


def test_a_folder_in_the_way_is_a_problem_not_a_crash(tmp_path: Path) -> None:
    (tmp_path / "page.html").mkdir()
    with pytest.raises(WriteProblem, match=r"page\.html"):
        write(tmp_path / "page.html", "text")


def test_a_file_where_the_folder_should_be_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(WriteProblem, match="not written"):
        write(tmp_path / "out" / "page.html", "text")


@pytest.mark.skipif(os.name != "posix", reason="rights of a new file are a matter of this system's own")
def test_a_page_can_be_read_by_whoever_may_read_new_files(tmp_path: Path) -> None:
    (tmp_path / "usual").touch()
    write(tmp_path / "page.html", "text")
    assert (tmp_path / "page.html").stat().st_mode == (tmp_path / "usual").stat().st_mode
