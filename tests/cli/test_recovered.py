"""What a dossier carries comes back, byte for byte, or nothing does and it is said why."""

import os
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from reportgen.intake import read_folder
from reportgen.model.records import Source
from reportgen.pages import carried, render_dossier
from tests.cli.test_commands import LOG, TOML, lay, run
from tests.pages import sample

ROOT = Path(__file__).parents[2]
FOLDERS = tuple(
    sorted(
        path.parent
        for place in (ROOT / "content_demo" / "squad", ROOT / "tests" / "cases")
        for path in place.glob("*/training.csv")
    )
)
#: Nobody's log, and still somebody's file: wrong letters, no letters, both line ends, a mark at the start.
ODD = {
    "training.csv": b"\xef\xbb\xbf" + LOG.encode().replace(b"\n", b"\r\n") + b"\xff\xfe\x00,\r\r\n\x1a",
    "bodymass.csv": "date;kg\n2026-03-02;61,5\n".encode("utf-16"),
    "pain.csv": b"\x00" * 4096,
    "away.csv": b"",
    "notes/one.md": bytes(range(256)) * 8,
    "notes/10:30.md": b"half past ten",
    "notes/back\\slash.md": b"\\",
    "notes/\u00e9 \u6f22.md": "Date: 2026-03-02\n\n\u202e\U0001f3cb".encode(),
}


def read_files(folder: Path) -> dict[str, bytes]:
    """Every file of a folder that the tool reads, by its path in it."""
    found = (*folder.glob("*.csv"), folder / "lifter.toml", *folder.glob("notes/*.md"))
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def round_trip(folder: Path, place: Path) -> dict[str, bytes]:
    """The files that a page of this folder gives back."""
    records = read_folder(folder).records
    assert records is not None
    page = render_dossier(replace(sample.page(), sections=()), extras=carried(records.sources, None))
    (place / "page.html").write_text(page, encoding="utf-8")
    done = run("recover", place / "page.html", "--out", place / "back")
    assert done.exit_code == 0, done.output
    return {
        path.relative_to(place / "back").as_posix(): path.read_bytes()
        for path in (place / "back").rglob("*")
        if path.is_file()
    }


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_demo_and_case_book_folder_comes_back_byte_for_byte(folder: Path, tmp_path: Path) -> None:
    assert round_trip(folder, tmp_path) == read_files(folder)


@pytest.mark.skipif(os.name != "posix", reason="names that only this system makes")
def test_a_folder_of_odd_bytes_comes_back_byte_for_byte(tmp_path: Path) -> None:
    folder = lay(tmp_path / "odd", LOG)
    (folder / "notes").mkdir()
    for name, content in ODD.items():
        (folder / name).write_bytes(content)
    assert round_trip(folder, tmp_path) == {**ODD, "lifter.toml": TOML.encode()}


def holding(tmp_path: Path, *files: str) -> Path:
    """A dossier of files that can't all be made on this disk."""
    sources = tuple(Source(file=file, content=file.encode()) for file in files)
    html = render_dossier(replace(sample.page(), sections=()), extras=carried(sources, None))
    (tmp_path / "page.html").write_text(html, encoding="utf-8")
    return tmp_path / "page.html"


def test_a_file_that_can_not_be_made_here_is_named_and_nothing_is_left(tmp_path: Path) -> None:
    page = holding(tmp_path, "training.csv", "notes/" + "x" * 300 + ".md")
    done = run("recover", page, "--out", tmp_path / "back")
    assert done.exit_code == 2
    assert f"{tmp_path / 'back'}: not written: notes/xxx" in done.stderr
    assert "can't be made there: File name too long" in done.stderr
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_two_names_that_are_one_on_this_disk_never_overwrite_each_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened = Path.open

    def small(self: Path, *more: Any, **named: Any) -> Any:
        return opened(self.with_name(self.name.lower()), *more, **named)

    page = holding(tmp_path, "notes/a.md", "notes/A.md")
    monkeypatch.setattr(Path, "open", small)
    done = run("recover", page, "--out", tmp_path / "back")
    assert done.exit_code == 2
    assert "notes/A.md can't be made there: File exists" in done.stderr


@pytest.mark.parametrize("where", [".", "link", "empty", "new", "deep/new"])
def test_an_empty_folder_will_do_and_stays_the_folder_that_it_was(
    where: str, runas_page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "empty", target_is_directory=True)
    before = (tmp_path / "empty").stat().st_ino
    monkeypatch.chdir(tmp_path / "empty" if where == "." else tmp_path)
    done = run("recover", runas_page, "--out", where)
    assert done.exit_code == 0, done.stderr
    assert sorted(one.name for one in Path(where).iterdir()) == ["lifter.toml", "training.csv"]
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "empty").stat().st_ino == before


def test_an_empty_folder_is_empty_again_when_the_disk_fails_half_way(
    runas_page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "empty").mkdir()
    replaced = Path.replace

    def full(self: Path, target: Path) -> Path:
        if Path(target) == tmp_path / "empty" / "training.csv":
            raise OSError(28, "No space left on device")
        return replaced(self, target)

    monkeypatch.setattr(Path, "replace", full)
    done = run("recover", runas_page, "--out", tmp_path / "empty")
    assert (done.exit_code, "No space left" in done.stderr) == (2, True)
    assert list((tmp_path / "empty").iterdir()) == []


def recovered(place: Path, text: str) -> str:
    """What recover says of a page that gives nothing back."""
    (place / "some.html").write_text(text, encoding="utf-8")
    done = run("recover", place / "some.html", "--out", place / "back")
    assert done.exit_code == 2
    assert not (place / "back").exists()
    return str(done.stderr)


def test_why_there_is_nothing_to_give_back_is_said_as_far_as_it_is_known(tmp_path: Path) -> None:
    folder = lay(tmp_path / "squad" / "runa", LOG)
    pages = {}
    for name, more in (("whole", ()), ("bare", ("--without-sources",)), ("share", ("--share",))):
        run("write", folder.parent, "--out", tmp_path / name, "--jobs", "1", *more)
        (one,) = (page for page in (tmp_path / name).glob("*.html") if page.name != "index.html")
        pages[name] = one.read_text(encoding="utf-8")
    index = (tmp_path / "whole" / "index.html").read_text(encoding="utf-8")
    assert "carries no source files: it was written without them" in recovered(tmp_path, pages["bare"])
    assert "it is a copy to share, which leaves them out" in recovered(tmp_path, pages["share"])
    assert "is a squad's index" in recovered(tmp_path, index)
    for strange in ("", "<!doctype html><p>hello", "date,lift,kg\n", pages["whole"][:300]):
        said = recovered(tmp_path, strange)
        assert "is no dossier of ours, or so damaged that nothing shows it" in said
        assert "written without" not in said
    body = pages["whole"].index("<body>")
    assert "0 of the 3 files that it was written with" in recovered(tmp_path, pages["whole"][:body])
    assert "what every dossier of ours carries is gone" in recovered(
        tmp_path, pages["whole"][body : body + 9000]
    )


def test_a_cut_dossier_of_an_earlier_version_is_not_said_to_be_written_without_files(tmp_path: Path) -> None:
    old = (ROOT / "tests" / "trust" / "old" / "facts-1.html").read_text(encoding="utf-8")
    cut = old[: old.index("</li>", old.index('data-role="facts"'))]
    assert "its end is missing, and the source files with it" in recovered(tmp_path, cut)
    assert "what every dossier of ours carries is gone" in recovered(tmp_path, old[: old.index("<footer")])


def test_a_dossier_that_lost_a_file_on_its_way_gives_nothing_back(runas_page: Path, tmp_path: Path) -> None:
    page = runas_page.read_text(encoding="utf-8")
    (tmp_path / "cut.html").write_text(page[: page.index('data-file="training.csv"')], encoding="utf-8")
    done = run("recover", tmp_path / "cut.html", "--out", tmp_path / "back")
    assert done.exit_code == 2
    assert "2 of the 3 files that it was written with are there: the page was cut or changed" in done.stderr
    assert not (tmp_path / "back").exists()


def test_a_dossier_of_an_earlier_version_comes_back_with_a_word_on_what_is_not_known(
    runas_page: Path, tmp_path: Path
) -> None:
    done = run("recover", ROOT / "tests" / "trust" / "old" / "facts-1.html", "--out", tmp_path / "back")
    assert done.exit_code == 0
    assert "one that was cut out would not be missed" in done.stderr
    assert run("recover", runas_page, "--out", tmp_path / "new").stderr == ""


def test_a_page_that_was_cut_off_is_written_again(runas_page: Path, tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG)
    whole = runas_page.read_bytes()
    (tmp_path / "runa.html").write_bytes(whole)
    assert "unchanged" in run("write", folder, "--out", tmp_path).stdout
    (tmp_path / "runa.html").write_bytes(whole[: len(whole) // 2])
    assert "unchanged" not in run("write", folder, "--out", tmp_path).stdout
    assert (tmp_path / "runa.html").read_bytes() == whole
