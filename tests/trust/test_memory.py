"""What is made to fill the memory is read up to its bound and no further: the memory taken is measured."""

import base64
import datetime as dt
import gzip
import hashlib
import tracemalloc
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import pytest

from reportgen.cli import unchanged
from reportgen.cli.order import Order
from reportgen.intake import bounds, read_folder
from reportgen.pages import ArchiveProblem, SealProblem, ThemeProblem, archive, seal, themes, unseal
from tests.trust.logs import HEAD, lay

MB = 2**20
HUGE = 2 * 2**30


def taken(do: Callable[[], object]) -> int:
    """Most bytes that Python held at once while `do` ran, beside what it held before."""
    tracemalloc.start()
    try:
        do()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


def huge(path: Path, size: int = HUGE) -> Path:
    """A file of so many bytes that takes no room where the disk can leave holes."""
    with path.open("wb") as file:
        file.truncate(size)
    return path


@pytest.mark.parametrize("name", ["bodymass.csv", "lifter.toml", "notes/a.md"])
def test_a_log_of_2_gb_takes_no_more_than_the_bound_of_a_file(name: str, tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", HEAD + "2026-03-01,snatch,50,1\n")
    (folder / "notes").mkdir()
    huge(folder / name)
    assert taken(lambda: read_folder(folder)) < 2 * bounds.LARGEST_BYTES
    assert taken(lambda: unchanged.digest(folder, "plain", ())) < 16 * MB


def test_a_page_of_2_gb_takes_no_more_than_the_bound_of_a_page(tmp_path: Path) -> None:
    page = huge(tmp_path / "page.html")

    def read() -> None:
        with pytest.raises(ArchiveProblem, match="larger than"):
            archive.page_text(page)

    assert taken(read) < archive.MOST_PAGE_BYTES + 16 * MB


def test_a_theme_of_2_gb_takes_no_more_than_the_bound_of_its_files(tmp_path: Path) -> None:
    huge(tmp_path / "page.css")

    def read() -> None:
        with pytest.raises(ThemeProblem, match="larger than"):
            themes.load(tmp_path).text("page.css")
        with pytest.raises(ThemeProblem, match="larger than"):
            themes.files(tmp_path)

    assert taken(read) < 4 * themes.MOST_BYTES


def test_an_earlier_page_to_compare_with_is_summed_without_holding_it(tmp_path: Path) -> None:
    page = huge(tmp_path / "page.html", 200 * MB)
    order = Order(folder=tmp_path, slug="a", out=tmp_path, as_of=dt.date(2026, 3, 1), theme="", since=page)
    assert taken(lambda: order.options) < 16 * MB
    page.write_bytes(b"one")
    assert f"since {hashlib.sha256(b'one').hexdigest()}" in order.options
    page.unlink()
    assert any("No such file" in option for option in order.options)


def test_a_source_that_unpacks_without_end_is_unpacked_up_to_the_bound_only(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(archive, "MOST_BYTES", MB)
    packed = base64.b64encode(gzip.compress(bytes(100 * MB), compresslevel=1)).decode()
    page = f'<a data-file="a.csv" data-sha256="{"0" * 64}" href="data:application/gzip;base64,{packed}">a</a>'

    def read() -> None:
        with pytest.raises(ArchiveProblem, match="unpacks to more than"):
            archive.recover(page)

    assert taken(read) < 20 * MB


def test_a_sealed_page_that_unpacks_without_end_is_unpacked_up_to_the_bound_only(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    module = import_module("reportgen.pages.sealing")
    monkeypatch.setattr(module, "ROUNDS", 1000)
    sealed = seal("a" * 100 * MB, "four words apart")
    monkeypatch.setattr(module, "_MOST_BYTES", MB)

    def read() -> None:
        with pytest.raises(SealProblem, match="no page of ours"):
            unseal(sealed, "four words apart")

    assert taken(read) < 20 * MB
