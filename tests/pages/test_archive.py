"""What a dossier carries comes back byte for byte, or not at all."""

import base64
import gzip
import hashlib
from html import escape
from pathlib import PurePosixPath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.model.records import Source
from reportgen.pages import ArchiveProblem, Extra, carried, listing, recover
from reportgen.pages import archive as archive_module
from reportgen.pages.names import fault

names = st.lists(
    st.text(st.characters(exclude_characters="/", exclude_categories=("Cs", "Cc")), min_size=1).filter(
        lambda part: part not in (".", "..")
    ),
    min_size=1,
    max_size=3,
).map("/".join)


def page(extras: tuple[Extra, ...]) -> str:
    """The links of a page, as the theme prints them."""
    links = "".join(
        f'<a download="{escape(e.name)}" href="data:{e.media_type};base64,{e.base64}" '
        f'data-sha256="{e.sha256}" data-file="{escape(e.file)}" data-role="{e.role}">x</a>'
        for e in extras
    )
    return f"<!doctype html><p>{links}</p>"


def link(content: bytes, file: str = "training.csv", sha256: str = "") -> str:
    return page(
        (
            Extra(
                name="x.gz", label="x", media_type="application/gzip",
                base64=base64.b64encode(content).decode(), sha256=sha256 or "0" * 64, file=file,
            ),
        )
    )  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(names, st.binary(max_size=400), max_size=4))
def test_any_bytes_under_any_plain_path_come_back(files: dict[str, bytes]) -> None:
    folders = {str(above) for file in files for above in PurePosixPath(file).parents}
    sources = tuple(Source(file=file, content=files[file]) for file in files if file not in folders)
    assert recover(page(carried(sources, None))).files == sources


def test_a_page_without_sources_gives_nothing_back() -> None:
    found = recover("<!doctype html><p>nothing</p>")
    assert (found.files, found.facts) == ((), None)


def test_one_changed_byte_is_refused_by_its_sum() -> None:
    (one,) = carried((Source(file="a.csv", content=b"date,kg\n"),), None)
    mark = listing.inside(one.base64)
    assert mark is not None
    other = base64.b64encode(listing.pack(b"date,kg,\n", mark)).decode()
    mixed = page((one,)).replace(one.base64, other)
    with pytest.raises(ArchiveProblem, match=r"a\.csv: its SHA-256 is not the one"):
        recover(mixed)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"no gzip at all", "damaged in this page"),
        (gzip.compress(b"x" * 5000, mtime=0)[:-9], "ends too early"),
    ],
)
def test_damaged_files_are_refused_whole(content: bytes, words: str) -> None:
    with pytest.raises(ArchiveProblem, match=words):
        recover(link(content))


def test_letters_that_are_no_base64_are_refused() -> None:
    with pytest.raises(ArchiveProblem, match="damaged"):
        recover(link(b"abc").replace("base64,", "base64,!"))


@pytest.mark.parametrize("file", ["../x", "/etc/x", "a/../../x", "a//b", "a/", "./x", "..", "a/.."])
def test_a_path_out_of_the_folder_is_refused(file: str) -> None:
    content = b"x"
    sha256 = hashlib.sha256(content).hexdigest()
    with pytest.raises(ArchiveProblem, match="leads out of the folder"):
        recover(link(gzip.compress(content), file=file, sha256=sha256))


def test_letters_that_are_steps_on_another_system_only_are_letters_here() -> None:
    files = tuple(
        Source(file=f"notes/{name}", content=b"x") for name in ("10:30.md", "back\\slash.md", "nul.md")
    )
    assert recover(page(carried(files, None))).files == files


@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("", "is an empty name"),
        ("a\0b.md", "letters that steer a terminal or are no text"),
        ("a\x1b[2J.md", "letters that steer a terminal or are no text"),
        ("a\udcff.md", "letters that steer a terminal or are no text"),
        ("notes/../../x.md", "leads out of the folder"),
    ],
)
def test_what_is_wrong_with_a_name_is_said_on_every_system(file: str, words: str) -> None:
    for windows in (True, False):
        assert words in (fault(file, windows=windows) or "")


@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("notes/10:30.md", "no name may hold :"),
        ("C:x", "no name may hold :"),
        ("..\\x", "no name may hold \\"),
        ("notes/what?.md", "no name may hold ?"),
        ("notes/end. ", "no name may end so"),
        ("notes/AUX.md", "names a device"),
        ("com1", "names a device"),
        ("nul .tar.gz", "names a device"),
    ],
)
def test_a_name_that_only_the_other_system_can_not_make_is_refused_there_and_said_so(
    file: str, words: str
) -> None:
    assert fault(file, windows=False) is None
    assert words in (fault(file, windows=True) or "")
    assert fault("notes/console.md", windows=True) is None


def test_a_file_that_unpacks_without_end_is_never_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive_module, "MOST_BYTES", 1000)
    with pytest.raises(ArchiveProblem, match="unpacks to more than 1000 bytes"):
        recover(link(gzip.compress(b"0" * 10_000_000)))


def test_a_path_carried_twice_is_refused() -> None:
    one = Source(file="a.csv", content=b"1")
    with pytest.raises(ArchiveProblem, match="carried twice"):
        recover(page(carried((one, one), None)))
