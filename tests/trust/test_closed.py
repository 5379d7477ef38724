"""Output that is closed or that nobody reads any more: no traceback, and the exit code of the work."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.test_commands import LOG, lay
from tests.trust.ended import Left, copies

ASKED = {"--help": 0, "check": 1, "facts": 0, "rules": 0, "write": 2}
#: Started for each test from nothing; the others are copies of a process that has imported the program.
AFRESH = ("--help", "rules")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A lifter with a row that is set aside; beside one of whom no page can be written."""
    inner = tmp_path_factory.mktemp("closed")
    lay(inner / "bad", toml="standards = 3")
    return lay(inner / "runa", LOG + "2026-03-05,snacth,50,1,1\n")


@pytest.fixture(scope="module")
def copied() -> Iterator[Left]:
    with copies() as left:
        yield left


def started(how: str, word: str) -> tuple[int, str]:
    """The exit code, and what was said on standard error."""
    command = [sys.executable, "-m", "reportgen", word]
    if how == "nobody reads":
        read, write = os.pipe()
        os.close(read)
        done = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, text=True, check=False)
        os.close(write)
        return done.returncode, done.stderr
    closed = {"no output": ">&-", "no error": "2>&-", "neither": ">&- 2>&- <&-"}[how]
    done = subprocess.run(
        ["sh", "-c", f'"$@" {closed}', "sh", *command], capture_output=True, text=True, check=False
    )
    return done.returncode, done.stderr


@pytest.mark.skipif(os.name != "posix", reason="closes descriptors as a shell does")
@pytest.mark.parametrize("how", ["nobody reads", "no output", "no error", "neither"])
@pytest.mark.parametrize("word", ASKED)
def test_a_command_leaves_as_it_would_where_its_output_is_closed(
    how: str, word: str, folder: Path, copied: Left
) -> None:
    bad, out = str(folder.parent / "bad"), str(folder.parent / "out")
    more = {"check": [str(folder)], "facts": [str(folder)], "write": [bad, "--out", out]}
    code, said = started(how, word) if word in AFRESH else copied(how, word, *more[word])
    assert code == ASKED[word]
    assert "Traceback" not in said
    assert "Error" not in said
