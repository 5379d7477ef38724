"""The list of what a page carries: no file can be lost or renamed in silence."""

import base64
import gzip
import io
import re
from dataclasses import replace
from pathlib import Path

import pytest

from reportgen.model.records import Source
from reportgen.pages import ArchiveProblem, Extra, carried, listing, page_text, recover, render_dossier
from tests.pages import sample
from tests.searches import far

FILES = (
    Source(file="lifter.toml", content=b'name = "Runa Velde"\n'),
    Source(file="training.csv", content=b"date,lift,kg,reps\n2026-03-01,snatch,50,1\n"),
    Source(file="notes/Zo\u00eb & co.md", content=b"Date: 2026-03-01\n"),
    Source(file="pain.csv", content=b""),
)
OLD = Path(__file__).parents[1] / "trust" / "old" / "facts-1.html"


@pytest.fixture(scope="module")
def extras() -> tuple[Extra, ...]:
    return carried(FILES, None)


@pytest.fixture(scope="module")
def page(extras: tuple[Extra, ...]) -> str:
    """A small dossier, without the packed scripts that make up most of its weight."""
    html = render_dossier(replace(sample.page(), sections=()), extras=extras)
    html = re.sub(r"<style>.*?</style>|<script.*?</script>|<pre>.*?</pre>", "", html, flags=re.DOTALL)
    assert recover(html).files == FILES
    return html


def back(raw: bytes, place: Path) -> tuple[Source, ...] | None:
    """What a page of these bytes gives back; None where it is refused."""
    place.write_bytes(raw)
    try:
        return recover(page_text(place)).files
    except ArchiveProblem:
        return None


def blocks(page: str) -> list[str]:
    return re.findall(r'<li id="carried-.*?</li>', page, re.DOTALL)


@pytest.mark.parametrize("case", [True, False])  # the bit that makes capitals small; each bit in its turn
def test_a_bit_turned_over_anywhere_in_the_block_is_refused_or_changes_no_file(
    case: bool, page: str, tmp_path: Path
) -> None:
    raw = page.encode()
    start, end = raw.index(b'<div class="carried">'), raw.index(b"</ul>", raw.index(b'<div class="carried">'))
    assert end - start > 2000
    for at in range(start, end, far(3, 1, gate=1)):
        flipped = raw[:at] + bytes((raw[at] ^ (32 if case else 1 << at % 8),)) + raw[at + 1 :]
        assert back(flipped, tmp_path / "a.html") in (None, FILES), (at, flipped[at - 20 : at + 20])


def test_a_bit_turned_over_in_the_head_s_mark_changes_no_file(page: str, tmp_path: Path) -> None:
    raw = page.encode()
    start = raw.index(b'<meta name="carried"')
    for at in range(start, raw.index(b">", start) + 1):
        flipped = raw[:at] + bytes((raw[at] ^ 1,)) + raw[at + 1 :]
        assert back(flipped, tmp_path / "a.html") in (None, FILES), at


def test_a_page_cut_anywhere_gives_all_or_nothing(page: str, tmp_path: Path) -> None:
    raw = page.encode()
    ends = list(range(0, len(raw), 97)) + [found.start() for found in re.finditer(rb"<", raw)]
    for at in ends:
        assert back(raw[:at], tmp_path / "a.html") in (None, FILES, ())
        assert back(raw[at:], tmp_path / "a.html") in (None, FILES, ())


def test_a_page_cut_behind_its_head_is_refused_with_the_number_of_files_it_had(page: str) -> None:
    with pytest.raises(ArchiveProblem, match="0 of the 4 files that it was written with are there"):
        recover(page[: page.index("<body>")])


def test_one_file_cut_out_is_refused_with_or_without_the_mark_in_the_head(page: str) -> None:
    for shown in (page, re.sub(r'<meta name="carried"[^>]*>', "", page)):
        for block in blocks(page):
            with pytest.raises(ArchiveProblem, match="3 of the 4 files"):
                recover(shown.replace(block, ""))


@pytest.mark.parametrize(
    ("words", "other"),
    [
        ('data-file="pain.csv"', 'data-file="paIn.csv"'),
        ('data-role="source"', 'data-role="facts"'),
        ('data-role="source"', ""),
        ('data-file="pain.csv"', 'data-file="notes/pain.csv"'),
    ],
)
def test_a_name_or_a_role_that_was_changed_is_refused(words: str, other: str, page: str) -> None:
    for shown in (page, re.sub(r'<meta name="carried"[^>]*>', "", page)):
        with pytest.raises(ArchiveProblem, match="is not the one that was written"):
            recover(shown.replace(words, other))


def test_an_attribute_s_name_that_was_changed_is_refused(page: str) -> None:
    with pytest.raises(ArchiveProblem, match="3 of the 4 files"):
        recover(page.replace("data-sha256", "data-sha25v", 1))


def test_two_files_that_change_places_are_refused(page: str) -> None:
    one, two = blocks(page)[:2]
    with pytest.raises(ArchiveProblem, match="is not the one that was written"):
        recover(page.replace(one, "\0").replace(two, one).replace("\0", two))


def test_a_file_of_another_dossier_is_refused(page: str) -> None:
    (other,) = carried((Source(file="plan.csv", content=b"x"),), None)
    link = (
        f'<a href="data:application/gzip;base64,{other.base64}" data-file="plan.csv" data-role="source"'
        f' data-sha256="{other.sha256}">plan.csv</a>'
    )
    with pytest.raises(ArchiveProblem, match="5 of the 4 files"):
        recover(page.replace("</ul>\n</div>\n", f"{link}</ul></div>"))


def test_a_page_of_before_the_list_had_a_sum_is_given_back_and_said_to_be_so(page: str) -> None:
    old = recover(page_text(OLD))
    assert (len(old.files) > 1, old.whole) == (True, False)
    assert recover(page).whole


def test_any_program_that_reads_gzip_reads_a_carried_file(extras: tuple[Extra, ...]) -> None:
    for extra, source in zip(extras, FILES, strict=True):
        packed = base64.b64decode(extra.base64)
        assert gzip.decompress(packed) == source.content
        assert gzip.GzipFile(fileobj=io.BytesIO(packed)).read() == source.content
        mark = listing.inside(extra.base64)
        assert mark is not None
        assert mark.count == len(FILES)


def test_the_same_files_are_packed_to_the_same_bytes(extras: tuple[Extra, ...]) -> None:
    assert carried(FILES, None) == extras


def test_letters_that_hold_no_mark_hold_none() -> None:
    for text in ("", "?", "AAAA", "H4sI", "H4sIEAAAAAAC/w=="):
        assert listing.inside(text) is None
    assert listing.written("4 abc") is None
