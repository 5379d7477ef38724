"""Another tongue holds: what is read on a page or a terminal is a message or data, and nothing else."""

import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen.cli.commands import COMMANDS
from reportgen.cli.main import main
from reportgen.words import another_tongue
from tests.words import tongue
from tests.words.tongue import EDITIONS, LIFTER, Parts, data, loose, strange

#: Parts of a page whose words are not all messages yet; `figures` are the words in its pictures. One that is
#: done fails here until it is taken out.
NOT_YET: dict[str, tuple[str, ...]] = {
    "review": (), "progress": (), "season": (), "index": (),
}  # fmt: skip
#: Commands whose words are not all messages yet.
COMMANDS_NOT_YET: tuple[str, ...] = ()


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    return tongue.spoken_pages(tmp_path_factory.mktemp("tongue"))


@pytest.mark.parametrize("page", [*EDITIONS, "index"])
def test_every_word_of_a_page_is_a_message_or_data(page: str, pages: dict[str, str]) -> None:
    known = data(LIFTER)
    found = defaultdict(list)
    for part, words in Parts.of(pages[page]):
        if alone := loose(words, known):
            found[part].append(f"{' '.join(alone)} | {words[:90]}")
    told = "\n".join(
        f"{part}: {len(some)} pieces, such as\n    " + "\n    ".join(some[:4]) for part, some in found.items()
    )
    new, done = {*found} - {*NOT_YET[page]}, {*NOT_YET[page]} - {*found}
    assert not new, f"words that are no messages in {sorted(new)}\n{told}"
    assert not done, f"done, and still in NOT_YET: {sorted(done)}"


#: What click says by itself.
CLICK = (
    "Usage:", "[OPTIONS]", "Options:", "Error:", "COMMAND [ARGS]", "Try 'reportgen check --help' for help.",
    "[default:", "Show the version and exit.", "Show this message and exit.",
)  # fmt: skip
#: Names of files that a command writes by itself.
WRITTEN = ("site_out", "index.html", ".html", f"{LIFTER.name}-progress.html")
#: What stands for an argument, and what is typed: commands, options and their choices.
TYPED = re.compile(r"(?<!\w)--?[a-z-]+|\b[A-Z]{2,}\b|\[[a-z|]+\]|\breportgen\b")


def told() -> Iterator[tuple[str, list[str]]]:
    """A command with its arguments, by name; FOLDER is a lifter's, OUT a place to write."""
    for name in COMMANDS:
        yield f"{name} --help", [name, "--help"]
    yield "help", ["--help"]
    yield "check", ["check", "FOLDER"]
    yield "write", ["write", "FOLDER", "--out", "OUT", "--jobs", "1", "--edition", "progress"]
    yield "start", ["start", "OUT/new"]
    yield "error", ["check", "OUT/nobody"]


@pytest.mark.parametrize(("name", "words"), list(told()), ids=[name for name, _ in told()])
def test_every_word_of_a_command_is_a_message_or_data(name: str, words: list[str], tmp_path: Path) -> None:
    with another_tongue(strange):
        said = CliRunner().invoke(
            main,
            prog_name="reportgen",
            args=[one.replace("FOLDER", str(LIFTER)).replace("OUT", str(tmp_path)) for one in words],
        )
    shown = " ".join(said.output.split()).replace(str(tmp_path), " ")
    for one in CLICK:
        shown = shown.replace(one, " ")
    alone = loose(TYPED.sub(" ", shown), data(LIFTER, *COMMANDS, str(LIFTER), *WRITTEN))
    assert said.output
    assert bool(alone) == (name in COMMANDS_NOT_YET), f"{' '.join(alone)}\n{said.output}"
