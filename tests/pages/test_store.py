"""Drawings are kept between two runs, and whatever happens to them never reaches a page."""

import json
import os
import sys
import zlib
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from reportgen.cli import store as place
from reportgen.pages import drawing, render_dossier, store
from reportgen.pages.store import Store
from tests.pages import sample

KEY = "ab" * 32


def page(folder: Path | None, word: str = "calm") -> str:
    return render_dossier(
        sample.page(word), other_unit=sample.page(word, unit="lb"), charts=sample.charts, store=folder
    )


@pytest.fixture
def work(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Gains a word for every chart that is compiled or drawn."""
    import vl_convert

    done: list[str] = []

    def counted(name: str) -> Callable[..., Any]:
        real = getattr(vl_convert, name)

        def noted(*given: Any, **more: Any) -> Any:
            done.append(name)
            return real(*given, **more)

        return noted

    for name in ("vegalite_to_vega", "vega_to_svg"):
        monkeypatch.setattr(vl_convert, name, counted(name))
    return done


def test_a_second_page_of_the_same_pictures_draws_none_and_is_the_same(
    tmp_path: Path, work: list[str]
) -> None:
    plain = page(None)
    assert page(tmp_path / "a" / "drawings") == plain
    drawn = len(work)
    assert page(tmp_path / "a" / "drawings") == plain
    assert len(work) == drawn


def test_only_the_picture_that_changed_is_drawn_again(tmp_path: Path, work: list[str]) -> None:
    chart = {"data": {"values": [{"a": 1}]}, "mark": "point", "encoding": {"x": {"field": "a"}}}
    other = {**chart, "mark": "bar"}
    kept = Store(tmp_path / "drawings")
    for one in (chart, other, chart, other):
        drawing.drawn(one, "a", over_time=False, kept=kept)
    assert work.count("vegalite_to_vega") == 2


@pytest.mark.parametrize(
    "change", [lambda raw: raw[:-1], lambda raw: raw + b"x", lambda raw: raw[:0], lambda raw: raw[:70]]
)
def test_a_damaged_entry_is_drawn_again_and_gone(tmp_path: Path, change: Callable[[bytes], bytes]) -> None:
    kept = Store(tmp_path)
    kept.put(KEY, {"live": "x" * 99})
    assert kept.get(KEY) == {"live": "x" * 99}
    entry = tmp_path / KEY
    entry.write_bytes(change(entry.read_bytes()))
    assert kept.get(KEY) is None
    assert not entry.exists()


def test_every_byte_of_an_entry_is_covered_by_its_sum_and_so_is_its_name(tmp_path: Path) -> None:
    kept = Store(tmp_path)
    kept.put(KEY, {"live": "some text"})
    whole = (tmp_path / KEY).read_bytes()
    for at in range(len(whole)):
        (tmp_path / KEY).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert kept.get(KEY) is None
    other = "cd" * 32
    (tmp_path / other).write_bytes(whole)
    assert kept.get(other) is None


@pytest.mark.parametrize("body", ["[1]", '{"live": 1}', "nothing", '{"live": ' * 9000, '"text"'])
def test_an_entry_of_another_shape_is_no_entry_even_with_the_right_sum(tmp_path: Path, body: str) -> None:
    packed = zlib.compress(body.encode())
    (tmp_path / KEY).write_bytes(store._sum(KEY, packed) + packed)
    assert Store(tmp_path).get(KEY) is None


def test_an_entry_that_unpacks_without_end_is_cut_off(tmp_path: Path) -> None:
    packed = zlib.compress(json.dumps({"live": "x" * 50_000_000}).encode())
    (tmp_path / KEY).write_bytes(store._sum(KEY, packed) + packed)
    assert Store(tmp_path).get(KEY) is None


def test_what_was_used_longest_ago_goes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = Store(tmp_path)
    names = [f"{number:064x}"[::-1] for number in range(1, 9)]
    for age, name in enumerate(names):
        kept.put(name, {"live": os.urandom(500).hex()})
        os.utime(tmp_path / name, (1_700_000_000 + age, 1_700_000_000 + age))
    assert kept.get(names[0]) is not None
    size = (tmp_path / names[0]).stat().st_size
    monkeypatch.setattr(store, "MOST_BYTES", 6 * size)
    kept.put("0" * 64, {"live": ""})
    left = {one.name for one in tmp_path.iterdir()}
    assert {names[0], names[7], "0" * 64} <= left
    assert not {names[1], names[2], names[3]} & left
    assert sum(one.stat().st_size for one in tmp_path.iterdir()) <= 6 * size


def test_many_writers_leave_whole_entries_only(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        for _ in pool.map(lambda n: Store(tmp_path).put(KEY, {"live": str(n) * 5000}), range(64)):
            assert (Store(tmp_path).get(KEY) or {"live": ""})["live"]
    assert [one.name for one in tmp_path.iterdir()] == [KEY]


@pytest.mark.skipif(os.name != "posix", reason="rights are told otherwise there")
def test_a_folder_that_others_may_write_into_keeps_nothing(tmp_path: Path) -> None:
    tmp_path.chmod(0o777)
    Store(tmp_path).put(KEY, {"live": "x"})
    assert list(tmp_path.iterdir()) == []
    (tmp_path / "file").write_text("in the way")
    assert page(tmp_path / "file") == page(None)


def test_the_folder_is_the_systems_and_a_word_in_the_environment_does_without(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    assert place.folder() is None  # tests do without
    monkeypatch.delenv(place.WITHOUT)
    for system, name in (("linux", "XDG_CACHE_HOME"), ("win32", "LOCALAPPDATA")):
        monkeypatch.setattr(sys, "platform", system)
        monkeypatch.setenv(name, str(tmp_path))
        assert place.folder() == tmp_path / "reportgen" / "drawings"
        monkeypatch.setenv(name, "not/absolute")
        assert place.folder() not in (None, Path("not/absolute/reportgen/drawings"))
    monkeypatch.setattr(sys, "platform", "darwin")
    assert place.folder() == Path.home() / "Library" / "Caches" / "reportgen" / "drawings"
