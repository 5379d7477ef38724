"""What a page was made from: the sum over every file, and whether a page that stands is whole."""

import hashlib
from dataclasses import replace
from pathlib import Path

import pytest

from reportgen.pages import Stamp, digest, read_stamp, render_dossier
from tests.pages import sample

STAMP = Stamp(digest="ab" * 32, code=1, line=sample.squad("M\u00fcller").rows[1].line)


@pytest.fixture(scope="module")
def page() -> bytes:
    return render_dossier(replace(sample.page("M\u00fcller"), sections=()), stamp=STAMP).encode()


def test_the_stamp_of_a_whole_page_is_read_back(page: bytes, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_bytes(page)
    assert read_stamp(tmp_path / "a.html") == STAMP


def test_the_stamp_of_somebody_without_a_session_is_read_back(tmp_path: Path) -> None:
    line = replace(STAMP.line, look=replace(STAMP.line.look, last=None))
    stamp = replace(STAMP, line=line)
    page = render_dossier(replace(sample.page("M\u00fcller"), sections=()), stamp=stamp)
    (tmp_path / "a.html").write_bytes(page.encode())
    assert read_stamp(tmp_path / "a.html") == stamp


@pytest.mark.parametrize("lost", [1, 10, 100_000])
def test_a_page_that_lost_its_end_has_no_stamp(lost: int, page: bytes, tmp_path: Path) -> None:
    for changed in (page[:-lost], page[: -2 * lost] + page[-lost:], page + b"\n" * lost):
        (tmp_path / "a.html").write_bytes(changed)
        assert read_stamp(tmp_path / "a.html") is None


def test_a_stamp_of_an_earlier_version_which_knew_no_size_does_not_count(page: bytes, tmp_path: Path) -> None:
    size = f"{len(page):010d}".encode()
    assert page.count(b" 1 " + size) == 1
    (tmp_path / "a.html").write_bytes(page.replace(b" 1 " + size, b" 1"))
    assert read_stamp(tmp_path / "a.html") is None


def test_the_size_leaves_the_same_bytes_for_the_same_page(page: bytes) -> None:
    assert render_dossier(replace(sample.page("M\u00fcller"), sections=()), stamp=STAMP).encode() == page


def test_a_file_name_that_is_no_text_counts_like_any_other() -> None:
    names = ("notes/\udcff.md", "notes/\udcfe.md", "notes/\ud800.md", "notes/x.md")
    assert len({digest(((name, b"x"),), (name,)) for name in names}) == len(names)


def test_the_sum_of_plain_names_is_what_it_was() -> None:
    content = hashlib.sha256(b"x").hexdigest()
    said = f"11:notes/\u00e9.md:{content}\noption 10:unit kg \u00e9\n"
    assert (
        digest((("notes/\u00e9.md", b"x"),), ("unit kg \u00e9",)) == hashlib.sha256(said.encode()).hexdigest()
    )
