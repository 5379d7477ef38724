"""What holds on a system that is not this one, as far as it can be simulated: letters, names, calls."""

import ast
import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from click.testing import CliRunner

import reportgen
from reportgen.cli import pool
from reportgen.cli.main import main
from reportgen.face import slug, slugs
from reportgen.pages import write
from tests import kept
from tests.trust.logs import lay

LOG = "date,lift,kg,reps,remark\n2026-03-02,snatch,50,1,\n2026-03-04,snatch,5O,1,Größe – 😀\n"
#: Windows consoles of two regions, and a system without any language.
SYSTEMS = {
    "an older console": {"PYTHONIOENCODING": "cp437"},
    "a Windows of the west": {"PYTHONIOENCODING": "cp1252"},
    "no language": {"PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "LC_ALL": "C"},
}


#: Runs commands one after the other, the output of each in a file of its own, and writes down how each left.
RUNS = """
import json, os, sys
from reportgen.cli.main import main
codes = []
for number, words in enumerate(json.loads(sys.argv[1])):
    with open(f"{number}.out", "wb") as out:
        os.dup2(out.fileno(), 1)
    try:
        main(words)
    except SystemExit as end:
        codes.append(end.code or 0)
with open("codes", "w") as out:
    json.dump(codes, out)
"""
ASKED = ("facts FOLDER", "rules", "check FOLDER", "check FOLDER --json")


@dataclass(frozen=True)
class Ran:
    """How commands left on one system, what each printed, and what was said of all of them."""

    codes: list[int]
    printed: list[bytes]
    told: bytes

    def of(self, words: str) -> tuple[int, bytes]:
        return self.codes[ASKED.index(words)], self.printed[ASKED.index(words)]


def run(env: dict[str, str], commands: list[list[str]], place: Path) -> Ran:
    """Start Python once, as on that system, for all of the commands."""
    whole = {name: value for name, value in os.environ.items() if name not in ("PYTHONUTF8", "LANG")} | env
    whole["PYTHONPATH"] = str(Path(reportgen.__file__).parents[1])
    place.mkdir(exist_ok=True)
    words = [sys.executable, "-c", RUNS, json.dumps(commands)]
    done = subprocess.run(words, capture_output=True, check=False, env=whole, cwd=place)
    assert done.returncode == 0, done.stderr
    printed = [(place / f"{number}.out").read_bytes() for number in range(len(commands))]
    return Ran(json.loads((place / "codes").read_text()), printed, done.stderr)


def called(system: str) -> str:
    """A folder's name; without a language the bytes of a name are no letters at all."""
    return "runa" if system == "no language" else "größe – 😀"


def on(system: str, place: Path) -> Ran:
    """All that is asked, on one of the systems or (`plain`) where every letter can be printed."""

    def made() -> Ran:
        folder = str(lay(place / called(system), LOG))
        commands = [[folder if word == "FOLDER" else word for word in words.split()] for words in ASKED]
        return run(SYSTEMS[system], commands, place / "out")

    return kept.once(f"ran on {system}", made)


@pytest.mark.parametrize("name", SYSTEMS)
def test_facts_are_the_same_json_whatever_letters_the_stream_has(name: str, tmp_path: Path) -> None:
    code, printed = on(name, tmp_path).of("facts FOLDER")
    assert code == 0
    facts = json.loads(printed.decode("ascii"))
    plain = CliRunner().invoke(main, ["facts", str(lay(tmp_path / "plain" / called(name), LOG))])
    assert facts == json.loads(plain.stdout)
    assert called(name) in plain.stdout


@pytest.mark.parametrize("name", SYSTEMS)
def test_no_letter_that_a_console_lacks_ends_a_command(name: str, tmp_path: Path) -> None:
    ran = on(name, tmp_path)
    assert b"Traceback" not in ran.told
    assert ran.codes == [0, 0, 1, 1]
    _, printed = ran.of("check FOLDER --json")
    assert json.loads(printed.decode("ascii"))["lifters"][0]["folder"] == called(name)


def test_what_a_console_lacks_is_said_plainly(tmp_path: Path) -> None:
    folder = lay(tmp_path / "a – b × c 😀", LOG)
    (printed,) = run(SYSTEMS["an older console"], [["check", str(folder)]], tmp_path / "out").printed
    assert "a - b x c ?" in printed.decode("cp437")


@pytest.mark.parametrize("name", ["con", "CON", "Nul", "com1", "lpt9", "aux"])
def test_no_address_is_a_device_of_windows(name: str) -> None:
    assert slug(name) == f"lifter-{name.lower()}"


def test_an_address_is_never_too_long_for_a_file_and_still_its_own() -> None:
    first, second = slugs(["a" * 250 + "b", "a" * 250 + "c"])
    assert first != second
    assert max(map(len, (first, second))) < 110


def test_a_page_is_written_where_folders_can_not_be_settled_and_rights_are_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    windows = SimpleNamespace(name="nt", fsync=os.fsync, open=os.open, close=os.close, O_RDONLY=os.O_RDONLY)
    monkeypatch.setattr(sys.modules["reportgen.pages.writing"], "os", windows)
    write(tmp_path / "page.html", "old")
    write(tmp_path / "page.html", "new")
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]
    assert (tmp_path / "page.html").read_bytes() == b"new"


def test_cores_are_counted_where_a_process_can_not_ask_which_are_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delattr(os, "sched_getaffinity", raising=False)
    assert pool.cores() == os.cpu_count()


#: Modules of one system alone, and what only Unix has of those that are everywhere.
UNIX = {"fcntl", "grp", "pwd", "pty", "resource", "termios", "tty", "syslog"}
UNIX_CALLS = {
    "fork",
    "forkpty",
    "getuid",
    "geteuid",
    "getpgid",
    "killpg",
    "mkfifo",
    "setsid",
    "SIGKILL",
    "SIGHUP",
}


def test_nothing_needs_a_module_or_a_call_that_only_unix_has() -> None:
    found: list[Any] = []
    for path in Path(reportgen.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                found += [(path.name, one.name) for one in node.names if one.name in UNIX]
            elif isinstance(node, ast.ImportFrom) and node.module in UNIX:
                found.append((path.name, node.module))
            elif isinstance(node, ast.Attribute) and node.attr in UNIX_CALLS:
                found.append((path.name, node.attr))
            elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                name, given = node.func.attr, {word.arg for word in node.keywords}
                if name in ("read_text", "write_text") and "encoding" not in given:
                    found.append((path.name, name))
    assert found == []
