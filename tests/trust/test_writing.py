"""Pages that can't be written leave what stood there; two writers never mix; a stopped one leaves no half."""

import errno
import os
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen import pages
from reportgen.cli import pool
from reportgen.cli.main import main
from reportgen.model.records import Source
from reportgen.pages import WriteProblem, carried, write
from tests.trust.logs import HEAD, lay

LOG = HEAD + "".join(
    f"2026-0{month}-0{day},snatch,{50 + day},1\n" for month in (1, 2, 3) for day in (2, 5, 9)
)
COMMAND = (sys.executable, "-m", "reportgen", "write")
#: Where pages only have to be told apart: next to nothing to draw.
BRIEF = HEAD + "2026-01-02,snatch,50,1\n"
#: The same, listening to Ctrl-C: a job in the background of a shell and its children are started deaf to it.
HEARING = (
    sys.executable,
    "-c",
    "import runpy, signal\n"
    "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
    "runpy.run_module('reportgen', run_name='__main__')",
    "write",
)


def full(*_: object, **__: object) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def denied(*_: object, **__: object) -> None:
    raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


@pytest.mark.parametrize(
    ("where", "how"), [((os, "fsync"), full), ((Path, "replace"), full), ((Path, "mkdir"), denied)]
)
def test_a_disk_that_is_full_or_shut_names_the_page_and_keeps_the_old_one(
    where: tuple[object, str], how: object, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path / "runa", LOG)
    page = tmp_path / "out" / "runa.html"
    page.parent.mkdir()
    page.write_text("old")
    with monkeypatch.context() as patch:
        patch.setattr(*where, how)
        words = ["write", str(tmp_path / "runa"), "--out", str(page.parent), "--jobs", "1"]
        done = CliRunner().invoke(main, words)
    assert done.exit_code == 2
    assert str(page) in done.stderr
    assert "not written" in done.stderr
    assert page.read_text() == "old"
    assert [one.name for one in page.parent.iterdir()] == ["runa.html"]


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("write squad --jobs 1 --out file/out", "file/out/runa.html"),
        ("write squad/runa --edition season --jobs 1 --out file/out", "file/out/runa-season.html"),
        ("block squad/runa --to file/plan.csv", "file/plan.csv"),
        ("recover page.html --to file/back", "file/back"),
        ("start file/new", "file/new/lifter.toml"),
        ("start --demo file/new", "file/new/"),
    ],
)
def test_every_command_that_writes_names_the_path_that_it_could_not_write(
    words: str, place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    lay(tmp_path / "squad" / "runa", LOG)
    source = Source(file="training.csv", content=b"1")
    (extra,) = carried((source,), None)
    link = f'<a data-role="source" data-file="training.csv" data-sha256="{extra.sha256}" '
    Path("page.html").write_text(f'{link}href="data:application/gzip;base64,{extra.base64}">a</a>')
    Path("file").write_text("mine")  # a file where a folder should be: no user may write below it
    done = CliRunner().invoke(main, words.split())
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code == 2
    assert place in done.stderr.replace("\\", "/")
    assert Path("file").read_text() == "mine"


def test_an_index_that_cannot_be_written_names_its_path_and_the_old_one_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path / "squad" / "runa", LOG)
    index = tmp_path / "out" / "index.html"
    index.parent.mkdir()
    index.write_text("old")
    whole = Path.replace

    def shut(self: Path, target: Path) -> Path:
        if Path(target) == index:
            denied()
        return whole(self, target)

    monkeypatch.setattr(Path, "replace", shut)
    words = ["write", str(tmp_path / "squad"), "--out", str(index.parent), "--jobs", "1"]
    done = CliRunner().invoke(main, words)
    assert (done.exit_code, str(index) in done.stderr) == (2, True)
    assert index.read_text() == "old"
    assert sorted(one.name for one in index.parent.iterdir()) == ["index.html", "runa.html"]


@pytest.mark.parametrize("buffered", ["", "1"])
@pytest.mark.parametrize("words", ["rules", "facts runa", "check runa"])
def test_an_output_that_is_full_is_one_clear_line(words: str, buffered: str, tmp_path: Path) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no device that is always full")
    lay(tmp_path / "runa", LOG)
    with Path("/dev/full").open("wb") as output:
        done = subprocess.run(
            [sys.executable, "-m", "reportgen", *words.split()],
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2]), "PYTHONUNBUFFERED": buffered},
            stdout=output,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert (done.returncode, done.stderr) == (2, "Error: the output: No space left on device\n")


def test_a_folder_that_may_not_be_looked_into_names_its_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def shut(self: Path) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(self))

    monkeypatch.setattr(Path, "iterdir", shut)
    done = CliRunner().invoke(main, ["check", str(tmp_path)])
    assert done.exit_code == 2
    assert f"{tmp_path.name} cannot be opened" in done.output


def test_blanks_that_do_not_fit_on_the_disk_leave_no_half_of_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "fsync", full)
    done = CliRunner().invoke(main, ["start", str(tmp_path / "new")])
    assert done.exit_code == 2
    assert str(tmp_path / "new" / "lifter.toml") in done.stderr
    assert not [one for one in tmp_path.rglob("*") if one.is_file()]


def test_a_folder_that_may_only_be_read_is_read_and_left_as_it_is(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG)
    before = {one.name: one.read_bytes() for one in folder.iterdir()}
    for one in folder.iterdir():
        one.chmod(0o444)
    folder.chmod(0o555)
    try:
        words = ["write", str(folder), "--out", str(tmp_path / "out"), "--jobs", "1"]
        done = CliRunner().invoke(main, words)
        assert done.exit_code == 0, done.output
        assert {one.name: one.read_bytes() for one in folder.iterdir()} == before
        assert stat.S_IMODE(folder.stat().st_mode) == 0o555
    finally:
        folder.chmod(0o755)


#: Writes a page again and again; the module is run alone, its package would take a second to import.
WRITER = (
    sys.executable,
    "-c",
    "import runpy, sys; from pathlib import Path\n"
    f"write = runpy.run_path({str(Path(pages.__file__).with_name('writing.py'))!r})['write']\n"
    "for _ in range(int(sys.argv[2])):\n"
    "    for letter in sys.argv[3]: write(Path(sys.argv[1]), letter * 200_000)",
)


def test_two_writers_of_one_page_leave_the_whole_page_of_one(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    writers = [subprocess.Popen([*WRITER, str(page), "60", letter]) for letter in "ab"]
    seen = set()
    while any(writer.poll() is None for writer in writers):
        if page.exists():
            seen.add(page.read_text())
    assert [writer.returncode for writer in writers] == [0, 0]
    assert seen | {page.read_text()} <= {"a" * 200_000, "b" * 200_000}
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_a_writer_killed_at_any_moment_leaves_the_whole_old_page_or_the_whole_new_one(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    for number in range(8):
        writer = subprocess.Popen([*WRITER, str(page), "100000", "ab"])
        before = page.stat().st_mtime_ns if page.exists() else 0
        while not page.exists() or page.stat().st_mtime_ns == before:
            assert writer.poll() is None
        time.sleep(0.0007 * number)
        writer.kill()
        writer.wait()
        assert page.read_text() in {"a" * 200_000, "b" * 200_000}
    # What was left half-way is in nobody's way.
    write(page, "whole")
    assert page.read_text() == "whole"


def test_an_interrupt_while_writing_keeps_the_old_page_and_leaves_no_part(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = tmp_path / "page.html"
    page.write_text("old")

    def stopped(_: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stopped)
    with pytest.raises(KeyboardInterrupt):
        write(page, "new")
    assert page.read_text() == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_a_failing_rename_is_a_write_problem(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(WriteProblem, match="No space left"):
        write(tmp_path / "page.html", "new")


def gone(group: int) -> bool:
    """Whether the last process of a group ends within seconds."""
    for _ in range(100):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


def test_after_the_parts_of_a_squad_one_run_over_all_only_adds_the_index(tmp_path: Path) -> None:
    names = [f"runa-{number}" for number in range(3)]
    for name in names:
        lay(tmp_path / "squad" / name, BRIEF)
    squad, one, two = tmp_path / "squad", tmp_path / "one", tmp_path / "two"
    (tmp_path / "list").write_text("\n".join(names[1:]) + "\n")
    for half in (["--only", names[0]], ["--list", str(tmp_path / "list")]):
        words = ["write", str(squad), "--out", str(two), "--jobs", "1", *half]
        assert CliRunner().invoke(main, words).exit_code == 0
    assert not (two / "index.html").exists()
    whole = CliRunner().invoke(main, ["write", str(squad), "--out", str(one), "--jobs", "1"])
    assert whole.exit_code == 0, whole.output
    done = CliRunner().invoke(main, ["write", str(squad), "--out", str(two)])
    assert (done.exit_code, done.stdout.count("unchanged")) == (0, 3)
    assert {p.name: p.read_bytes() for p in two.iterdir()} == {p.name: p.read_bytes() for p in one.iterdir()}


def test_a_name_that_is_no_lifter_is_told(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "runa", LOG)
    words = ["write", str(tmp_path / "squad"), "--out", str(tmp_path / "out"), "--only", "../runa"]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 2
    assert "'../runa' is no lifter of" in done.stderr


def test_cores_are_those_this_process_may_use() -> None:
    assert pool.cores() >= 1
