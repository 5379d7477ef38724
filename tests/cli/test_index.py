"""A squad in parts: who is in a list, and written pages of several folders in one index."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from reportgen import pages
from reportgen.pages import Stamp, render_dossier
from tests.cli.test_commands import LOG, TOML, lay, run
from tests.pages import sample

NAMES = ("ben", "Runa Velde", "runa-10", "runa-2")


@pytest.fixture(scope="module")
def squad(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("squad")
    (folder / "squad.toml").write_text('coach = "Hedda Quillmore"\nunit = "lb"\n')
    for number, name in enumerate(NAMES):
        lay(folder / name, LOG + f"2026-03-0{number + 5},snatch,{52 + number},1,1\n")
    return folder


@pytest.fixture(scope="module")
def parts(squad: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Four folders of a page each, written from four lists, the first by a process of its own."""
    place = tmp_path_factory.mktemp("parts")
    for number, name in enumerate(NAMES):
        (place / f"list-{number}").write_text(f"# a share of the squad\n\n  {name}/\n", encoding="utf-8")
        words: list[str | Path] = [
            "write",
            squad,
            "--out",
            place / f"part-{number}",
            "--list",
            place / f"list-{number}",
        ]
        if number == 0:
            command = [sys.executable, "-m", "reportgen", *words, "--jobs", "1"]
            subprocess.run([str(word) for word in command], stdout=subprocess.DEVNULL, check=True)
        else:
            assert run(*words, "--jobs", "1").exit_code == 0
    return place


def folders(parts: Path) -> list[Path]:
    return sorted(one for one in parts.iterdir() if one.name.startswith("part-"))


def test_the_index_over_the_parts_of_a_squad_is_that_of_one_run(
    squad: Path, parts: Path, tmp_path: Path
) -> None:
    assert run("write", squad, "--out", tmp_path / "one").exit_code == 0
    whole = (tmp_path / "one" / "index.html").read_text(encoding="utf-8")
    done = run("index", *folders(parts), "--out", parts / "all.html")
    assert done.exit_code == 0, done.output
    joined = (parts / "all.html").read_text(encoding="utf-8")
    assert joined.count('href="part-') == 4
    for one in folders(parts):
        joined = joined.replace(f'href="{one.name}/', 'href="')
    assert joined == whole
    for one in folders(parts):
        shutil.copytree(one, tmp_path / "together", dirs_exist_ok=True)
    assert run("index", tmp_path / "together").exit_code == 0
    assert (tmp_path / "together" / "index.html").read_text(encoding="utf-8") == whole


def test_an_unknown_name_in_a_list_is_told_by_file_and_line(squad: Path, tmp_path: Path) -> None:
    (tmp_path / "list").write_text("# who\nben\n\nnobody\n")
    done = run("write", squad, "--out", tmp_path / "out", "--list", tmp_path / "list")
    assert done.exit_code == 2
    assert f"{tmp_path / 'list'}:4: 'nobody' is no lifter of this folder" in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("content", [b"ben\xff\n", None])
def test_a_list_that_can_not_be_read_is_one_clear_line(
    squad: Path, tmp_path: Path, content: bytes | None
) -> None:
    if content is not None:
        (tmp_path / "list").write_bytes(content)
    done = run("write", squad, "--out", tmp_path / "out", "--list", tmp_path / "list")
    assert done.exit_code == 2
    assert "list can't be read: " in done.stderr
    assert isinstance(done.exception, SystemExit)


def page(place: Path, name: str = "a.html", change: Callable[[dict[str, Any]], object] = len) -> Path:
    """A page whose line says something else than any page of ours."""
    line = sample.squad("Runa").rows[1].line
    html = render_dossier(
        replace(sample.page("Runa"), sections=()), stamp=Stamp(digest="ab" * 32, code=0, line=line)
    )
    start = html.index('<meta name="squad-line" content="') + len('<meta name="squad-line" content="')
    end = html.index('">', start)
    data = json.loads(html[start:end].replace("&#34;", '"').replace("&amp;", "&"))
    change(data)
    told = json.dumps(data).replace("&", "&amp;").replace('"', "&#34;").replace("<", "&lt;")
    size = f"{len(html.encode()) + len(told) - len(html[start:end].encode()):010d}"
    changed = html[:start] + told + html[end:]
    changed = changed.replace(f"{len(html.encode()):010d}", size, 1)
    place.mkdir(exist_ok=True)
    (place / name).write_text(changed, encoding="utf-8", newline="\n")
    return place / name


def test_nothing_that_a_page_says_of_itself_leads_anywhere_or_is_run(tmp_path: Path) -> None:
    def hostile(data: dict[str, Any]) -> None:
        words = '"><script>alert(1)</script><img src=x onerror=alert(1)>'
        data["line"] |= {"name": words, "href": "javascript:alert(1)", "first_need": words, "held": words}
        data["line"]["goal"] = [words]
        data["coach"] = words

    page(tmp_path, "javascript:x.html", hostile)
    assert run("index", tmp_path).exit_code == 0
    index = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert "<script>alert" not in index
    assert "<img" not in index
    assert 'href="javascript:' not in index.casefold()
    assert 'href="javascript%3Ax.html"' in index


@pytest.mark.parametrize(
    "part",
    [
        {"look": {"as_of": 10**12}},
        {"look": {"as_of": "2026-02-01", "done": "3"}},
        {"look": {"as_of": "0001-01-01", "last": "0001-01-01"}},
        {"best": [["2026-02-31", 50.0]]},
        {"best": [["2026-02-01", 50.0], ["2026-02-03", 1e999]]},
        {"goal": [{"kg": "60"}]},
        {"goal": 7},
        {"name": ["Runa"]},
        {"name": {"__class__": "str"}},
        {"gap_kg": float("nan")},
    ],
)
def test_a_page_with_values_that_no_page_of_ours_has_is_named_and_left_out(
    tmp_path: Path, part: dict[str, Any]
) -> None:
    page(tmp_path / "in", "good.html")
    page(tmp_path / "in", "odd.html", lambda data: data["line"].update(part))
    done = run("index", tmp_path / "in")
    assert done.exit_code == 1
    assert "odd.html: left out: damaged, or written by another version" in done.stdout
    index = (tmp_path / "in" / "index.html").read_text(encoding="utf-8")
    assert 'href="good.html"' in index
    assert 'href="odd.html"' not in index
    assert "<b>odd.html</b>: left out" in index


def test_what_is_no_whole_page_of_ours_is_named_with_why(
    tmp_path: Path, runas_page: Path, squad: Path
) -> None:
    shutil.copy(runas_page, tmp_path / "runa.html")
    (tmp_path / "cut.html").write_bytes(runas_page.read_bytes()[:-100])
    (tmp_path / "other.html").write_text("<!doctype html><title>Runa</title>")
    (tmp_path / "none.html").mkdir()
    (tmp_path / "broken.html").write_bytes(b"\xff\xfe" * 900)
    html = runas_page.read_text(encoding="utf-8")
    (tmp_path / "stamp.html").write_text(html.replace('content="', 'content="x', 4), encoding="utf-8")
    if hasattr(os, "mkfifo"):
        os.mkfifo(tmp_path / "pipe.html")
    done = run("index", tmp_path)
    assert done.exit_code == 1
    told = {line.partition(": ")[0]: line for line in done.stdout.splitlines()}
    assert "cut off or changed" in told[str(tmp_path / "cut.html")]
    assert "no dossier of this program" in told[str(tmp_path / "other.html")]
    for name in ("none", "broken"):
        assert told[str(tmp_path / f"{name}.html")].endswith("can't be read")
    assert "the index of 1 page\n" in done.stdout
    assert run("index", tmp_path / "other.html").exit_code == 2
    taken = run("index", tmp_path / "runa.html", "--out", tmp_path / "other.html")
    assert taken.exit_code == 2
    assert "is no index; --out names another file" in taken.stderr
    assert (tmp_path / "other.html").read_text().endswith("<title>Runa</title>")


def test_a_sealed_page_and_a_page_to_share_are_listed_without_a_name(squad: Path, tmp_path: Path) -> None:
    (tmp_path / "words").write_text("four words that belong nowhere\n")
    for more in (["--share"], ["--passphrase-file", tmp_path / "words"]):
        done = run("write", squad / "ben", "--out", tmp_path / "out", *more)
        assert done.exit_code == 0, done.output
    named = run("write", squad, "--only", "ben", "--out", tmp_path / "kept", "--share", "--keep", "name")
    assert named.exit_code == 0, named.output
    assert "Quillmore" not in (tmp_path / "kept" / "ben-share.html").read_text(encoding="utf-8")
    done = run("index", tmp_path / "out")
    assert done.exit_code == 0, done.output
    index = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert 'href="lifter-1.html"' in index
    assert 'href="dossier-1.html"' in index
    assert "Sealed: its page asks for the passphrase." in index
    for word in ("Runa", "Velde", "Hedda", "ben"):
        assert f">{word}" not in index


def test_an_index_is_of_one_edition_and_a_page_of_python_joins_like_any_other(tmp_path: Path) -> None:
    from reportgen import write

    folder, out = lay(tmp_path / "runa", LOG, TOML), tmp_path / "out"
    write(folder, out)
    write(folder, out, edition="progress")
    for edition, page in (("review", "runa.html"), ("progress", "runa-progress.html")):
        assert run("index", out, "--edition", edition).exit_code == 0
        index = (out / "index.html").read_text(encoding="utf-8")
        assert index.count('href="runa') == 1
        assert f'href="{page}"' in index
    assert run("index", out, "--edition", "season").exit_code == 2


def test_a_page_is_read_no_further_than_its_head(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = page(tmp_path)
    monkeypatch.setattr(pages.archive, "page_text", None)
    assert isinstance(pages.look(place), Stamp)
