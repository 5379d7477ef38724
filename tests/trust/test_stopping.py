"""What stops a run and what does not: signals, a page that cannot be written, folders that are closed."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen.cli import several, unchanged
from reportgen.cli.main import main
from reportgen.cli.order import Order, Outcome
from reportgen.intake import exit_code, find_lifters, read_folder
from reportgen.words import said
from tests.trust.logs import lay
from tests.trust.test_writing import BRIEF, HEARING, LOG, gone

SLOW = (sys.executable, "-m", "tests.trust.slow", "write")


def squad_of(folder: Path, count: int) -> Path:
    for number in range(count):
        lay(folder / f"runa-{number:02d}", BRIEF)
    return folder


def started(squad: Path, out: Path, command: tuple[str, ...] = HEARING) -> subprocess.Popen[str]:
    """`write` in a group of its own, once its first page stands."""
    words = [*command, str(squad), "--out", str(out), "--jobs", "2"]
    running = subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True
    )
    end = time.monotonic() + 60
    while time.monotonic() < end and not list(out.glob("*.html")):
        time.sleep(0.02)
    return running


@pytest.mark.skipif(os.name != "posix", reason="sends a signal to a group of processes")
@pytest.mark.parametrize(
    ("send", "number", "command"),
    [(os.kill, signal.SIGTERM, SLOW), (os.kill, signal.SIGINT, SLOW), (os.killpg, signal.SIGINT, HEARING)],
    ids=["the order to end", "Ctrl-C for the first process", "Ctrl-C for all"],
)
def test_an_order_to_end_stops_the_run_and_not_only_the_waiting_and_leaves_whole_pages_only(
    send: Callable[[int, int], None], number: signal.Signals, command: tuple[str, ...], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    running = started(squad_of(tmp_path / "squad", 16), out, command)
    send(running.pid, number)
    _, told = running.communicate(timeout=60)
    assert running.returncode != 0
    assert "Traceback" not in told
    assert gone(running.pid)
    whole_and_few(out)
    assert not list(out.glob(".*.part"))


@pytest.mark.skipif(os.name != "posix", reason="sends a signal to a group of processes")
def test_a_run_whose_first_process_is_killed_leaves_no_other_one_at_work_and_nothing_in_the_next_one_s_way(
    tmp_path: Path,
) -> None:
    squad, out = squad_of(tmp_path / "squad", 16), tmp_path / "out"
    running = started(squad, out)
    running.kill()
    running.communicate(timeout=60)
    assert gone(running.pid)
    whole_and_few(out)
    words = ["write", str(squad), "--out", str(out), "--jobs", "1"]
    again = CliRunner().invoke(main, [*words, *(f"--only=runa-0{number}" for number in range(5))])
    assert again.exit_code == 0, again.output
    assert {f"runa-0{number}.html" for number in range(5)} <= {page.name for page in out.glob("*.html")}


def whole_and_few(out: Path) -> None:
    """Two were being written and one more was handed out."""
    pages = list(out.glob("*.html"))
    assert len(pages) <= 8
    assert all(page.read_text(encoding="utf-8").rstrip().endswith("</html>") for page in pages)


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_page_that_cannot_be_put_in_its_place_stops_no_other_lifter(jobs: str, tmp_path: Path) -> None:
    out = tmp_path / "out"
    (out / "runa-01.html" / "inside").mkdir(parents=True)
    words = ["write", str(squad_of(tmp_path / "squad", 3)), "--out", str(out), "--jobs", jobs]
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 1
    assert isinstance(done.exception, SystemExit)
    assert "runa-01.html: not written: " in done.stdout
    assert {page.name for page in out.iterdir() if page.is_file()} == {
        "index.html",
        "runa-00.html",
        "runa-02.html",
    }


def test_a_fault_of_ours_in_one_page_stops_no_other_lifter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(order: Order) -> Outcome:
        if order.slug == "b":
            raise IndexError("list index out of range")
        return Outcome(folder=order.slug, path=None, code=0, lines=(), verdict="fine", line=None)

    monkeypatch.setattr(several, "write_one", broken)
    orders = [
        Order(folder=tmp_path / n, slug=n, out=tmp_path, as_of=None, theme="plain", always=True)
        for n in "abc"
    ]
    found = several.write_all(orders, 1, lambda _: None)
    assert [one.code for one in found] == [0, 2, 0]
    assert found[1].verdict.endswith("a fault of this program: IndexError: list index out of range")
    with pytest.raises(IndexError):
        several.write_all(orders[1:2], 1, lambda _: None)


def test_an_edit_of_a_file_whose_ending_is_in_capitals_is_seen(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG)
    (folder / "notes").mkdir()
    for name in ("notes/One.MD", "Other.CSV"):
        (folder / name).write_text("first")
        before = unchanged.digest(folder, "plain", ())
        (folder / name).write_text("second")
        assert unchanged.digest(folder, "plain", ()) != before


def test_closed_folders_are_told_and_stop_nobody(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    squad = squad_of(tmp_path / "squad", 3)
    (squad / "runa-01" / "notes").mkdir()
    listed = Path.iterdir

    def shut(path: Path) -> Iterator[Path]:
        if path in (squad / "runa-01" / "notes", squad / "runa-02"):
            raise PermissionError(13, "Permission denied", str(path))
        return listed(path)

    monkeypatch.setattr(Path, "iterdir", shut)
    assert [one.name for one in find_lifters(squad)] == ["runa-00", "runa-01", "runa-02"]
    read = read_folder(squad / "runa-01")
    assert read.records is not None
    assert [said(problem.message) for problem in read.problems] == ["notes cannot be opened"]
    assert exit_code(read) == 1
    closed = read_folder(squad / "runa-02")
    assert closed.records is None
    assert [said(problem.message) for problem in closed.fatal] == ["runa-02 cannot be opened"]
