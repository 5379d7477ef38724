"""Sealed pages tell no name, and give everything back to those who know the passphrase."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen.cli.main import main

DEMO = Path(__file__).parents[2] / "content_demo" / "squad"
LIFTER = DEMO / "anselm-riedwater"
WORDS = "vier kühle Wörter hier"


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("sealed")
    (folder / "words.txt").write_text(f"{WORDS}\nand a line that does not count\n", encoding="utf-8")
    arguments = ["write", str(LIFTER), "--out", str(folder), "--jobs", "1"]
    result = CliRunner().invoke(main, [*arguments, "--passphrase-file", str(folder / "words.txt")])
    assert result.exit_code == 0, result.output
    return folder


def test_neither_the_file_nor_its_name_tells_the_lifter(sealed: Path) -> None:
    assert [path.name for path in sealed.glob("*.html")] == ["dossier-1.html"]
    text = (sealed / "dossier-1.html").read_text(encoding="utf-8").casefold()
    assert "anselm" not in text
    assert "riedwater" not in text


def test_recover_gives_the_folder_back_byte_for_byte(sealed: Path, tmp_path: Path) -> None:
    to = tmp_path / "back"
    result = CliRunner().invoke(
        main,
        [
            "recover",
            str(sealed / "dossier-1.html"),
            "--out",
            str(to),
            "--passphrase-file",
            str(sealed / "words.txt"),
        ],
    )
    assert result.exit_code == 0, result.output
    files = [path.relative_to(LIFTER) for path in LIFTER.rglob("*") if path.is_file()]
    assert {path.relative_to(to) for path in to.rglob("*") if path.is_file()} == set(files)
    assert all((to / file).read_bytes() == (LIFTER / file).read_bytes() for file in files)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("four other words here", "this passphrase does not open it"),
        ("\n", "the passphrase is empty"),
    ],
)
def test_another_passphrase_gives_nothing_back(words: str, said: str, sealed: Path, tmp_path: Path) -> None:
    (tmp_path / "words.txt").write_text(words, encoding="utf-8")
    result = CliRunner().invoke(
        main,
        [
            "recover",
            str(sealed / "dossier-1.html"),
            "--out",
            str(tmp_path / "back"),
            "--passphrase-file",
            str(tmp_path / "words.txt"),
        ],
    )
    assert result.exit_code == 2
    assert said in result.output
    assert not (tmp_path / "back").exists()


@pytest.mark.skipif(os.name != "posix", reason="a terminal of this system's kind")
@pytest.mark.parametrize("mode", ["C.UTF-8", "C"])
def test_a_byte_typed_that_is_no_text_is_one_clear_line(mode: str, sealed: Path, tmp_path: Path) -> None:
    import pty

    mine, theirs = pty.openpty()
    words = [sys.executable, "-m", "reportgen", "recover", str(sealed / "dossier-1.html")]
    with subprocess.Popen(
        [*words, "--out", str(tmp_path / "back")],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "LC_ALL": mode},
        stdin=theirs,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        start_new_session=True,
    ) as running:
        assert running.stderr is not None
        err = b""
        while b"Passphrase: " not in err and (more := os.read(running.stderr.fileno(), 200)):
            err += more
        os.write(mine, b"four \xff words here\n")
        err += running.stderr.read()
    os.close(mine)
    os.close(theirs)
    assert running.returncode == 2
    assert b"Traceback" not in err
    assert b"the passphrase can't be read: what was typed is no text" in err


def test_without_a_terminal_the_passphrase_comes_from_a_file(sealed: Path, tmp_path: Path) -> None:
    for arguments in (
        ["recover", str(sealed / "dossier-1.html"), "--out", str(tmp_path / "back")],
        ["write", str(LIFTER), "--out", str(tmp_path), "--passphrase"],
    ):
        result = CliRunner().invoke(main, arguments)
        assert result.exit_code == 2
        assert "--passphrase-file" in result.output


def test_a_short_passphrase_seals_nothing(tmp_path: Path) -> None:
    (tmp_path / "words.txt").write_text("abc", encoding="utf-8")
    arguments = ["write", str(LIFTER), "--out", str(tmp_path / "out")]
    result = CliRunner().invoke(main, [*arguments, "--passphrase-file", str(tmp_path / "words.txt")])
    assert result.exit_code == 2
    assert "expected at least 10" in result.output
    assert not (tmp_path / "out").exists()


def test_the_passphrase_is_never_an_argument() -> None:
    result = CliRunner().invoke(main, ["write", str(LIFTER), "--passphrase", WORDS])
    assert result.exit_code == 2
    assert "unexpected extra argument" in result.output


def test_an_order_shows_no_passphrase() -> None:
    from reportgen.cli.order import Order

    order = Order(folder=LIFTER, slug="a", out=LIFTER, as_of=None, theme="plain", passphrase=WORDS)
    assert WORDS not in repr(order)
    assert WORDS not in "".join(order.options)
