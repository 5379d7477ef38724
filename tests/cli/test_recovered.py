"""What a dossier carries comes back, byte for byte; a run that is killed leaves whole pages only."""

import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest

from reportgen.intake import read_folder
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
    done = run("recover", place / "page.html", "--to", place / "back")
    assert done.exit_code == 0, done.output
    return {
        path.relative_to(place / "back").as_posix(): path.read_bytes()
        for path in (place / "back").rglob("*")
        if path.is_file()
    }


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_demo_and_case_book_folder_comes_back_byte_for_byte(folder: Path, tmp_path: Path) -> None:
    assert round_trip(folder, tmp_path) == read_files(folder)


def test_a_folder_of_odd_bytes_comes_back_byte_for_byte(tmp_path: Path) -> None:
    folder = lay(tmp_path / "odd", LOG)
    (folder / "notes").mkdir()
    for name, content in ODD.items():
        (folder / name).write_bytes(content)
    assert round_trip(folder, tmp_path) == {**ODD, "lifter.toml": TOML.encode()}


def test_a_dossier_that_lost_a_file_on_its_way_gives_nothing_back(tmp_path: Path) -> None:
    run("write", lay(tmp_path / "runa", LOG), "--out", tmp_path)
    page = (tmp_path / "runa.html").read_text(encoding="utf-8")
    (tmp_path / "cut.html").write_text(page[: page.index('data-file="training.csv"')], encoding="utf-8")
    done = run("recover", tmp_path / "cut.html", "--to", tmp_path / "back")
    assert done.exit_code == 2
    assert "2 of the 3 files that it was written with are there: the page was cut or changed" in done.stderr
    assert not (tmp_path / "back").exists()


def test_a_dossier_of_an_earlier_version_comes_back_with_a_word_on_what_is_not_known(tmp_path: Path) -> None:
    done = run("recover", ROOT / "tests" / "trust" / "old" / "facts-1.html", "--to", tmp_path / "back")
    assert done.exit_code == 0
    assert "one that was cut out would not be missed" in done.stderr
    run("write", lay(tmp_path / "runa", LOG), "--out", tmp_path)
    assert run("recover", tmp_path / "runa.html", "--to", tmp_path / "new").stderr == ""


@pytest.mark.skipif(os.name != "posix", reason="sends a signal to a group of processes")
@pytest.mark.parametrize("moment", [1.0, 2.0, 3.5])
def test_a_run_killed_at_any_moment_leaves_no_torn_page(moment: float, tmp_path: Path) -> None:
    for number in range(4):
        lay(tmp_path / "squad" / f"runa-{number}", LOG)
    out = tmp_path / "out"
    words = [sys.executable, "-m", "reportgen", "write", str(tmp_path / "squad"), "--out", str(out)]
    running = subprocess.Popen(
        words, cwd=ROOT, start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    time.sleep(moment)
    os.killpg(running.pid, signal.SIGKILL)
    running.wait()
    for page in out.glob("*.html"):
        assert page.read_text(encoding="utf-8").rstrip().endswith("</html>"), page
    # What was left half-way is not in the way of the next run.
    again = run("write", tmp_path / "squad", "--out", out, "--jobs", "1")
    assert again.exit_code == 0, again.output
    assert len(list(out.glob("*.html"))) == 5
