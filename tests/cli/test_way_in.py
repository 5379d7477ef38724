"""The first minutes: messages by cause with their cure, everybody named, exit codes, what to open."""

import json
import re
from pathlib import Path

import click
import pytest

from reportgen.cli import terminal
from reportgen.model.problems import Problem
from reportgen.model.say import say
from reportgen.words import listed, text
from tests.cli.test_commands import LOG, TOML, lay, run

README = Path(__file__).parents[2] / "content_demo" / "README.md"
LOADS = "".join(f"2026-03-0{n},snatch,{50 + n}o,1,1\n" for n in range(5, 10))
WORDS = "2026-03-05,snacth,50,1,1\n" * 3


@pytest.fixture
def squad(tmp_path: Path) -> Path:
    """One lifter, and every kind of folder that is none."""
    folder = tmp_path / "squad"
    lay(folder / "anna")
    (folder / "beppe").mkdir()
    (folder / "beppe" / "lifter.toml").write_text(TOML, encoding="utf-8")
    (folder / "carla").mkdir()
    (folder / "carla" / "log.tsv").write_bytes(b"")
    (folder / "dora").mkdir()
    (folder / "elsa").mkdir()
    (folder / "elsa" / "lifter.toml").write_text(TOML, encoding="utf-8")
    (folder / "elsa" / "training.csv.txt").write_text(LOG, encoding="utf-8")
    lay(folder / "juniors" / "finn")
    (folder / "pictures").mkdir()
    (folder / "pictures" / "a.png").write_bytes(b"")
    (folder / ".secret").mkdir()
    (folder / "notes").mkdir()
    return folder


def test_everybody_of_a_squad_is_named_with_the_reason_in_check_on_the_terminal_and_in_the_index(
    squad: Path, tmp_path: Path
) -> None:
    reasons = {
        "beppe": "a lifter.toml, but no training log (training.csv)",
        "carla": "log.tsv in it, but no lifter.toml and no training.csv",
        "dora": "the folder is empty",
        "elsa": "a lifter.toml, but no training log (training.csv); if it is 'training.csv.txt', rename that",
        "juniors": "no lifter.toml and no table in it; lifters lie deeper, in juniors/finn",
        "pictures": "no lifter.toml and no table in it",
    }
    checked = run("check", squad)
    written = run("write", squad, "--out", tmp_path / "out", "--jobs", "1")
    index = (tmp_path / "out" / "index.html").read_text(encoding="utf-8").replace("&#39;", "'")
    assert (checked.exit_code, written.exit_code) == (0, 0)
    for name, why in reasons.items():
        assert f"{name}: no lifter: {why}" in checked.stdout
        assert f"{name}: no lifter: {why}" in written.stdout
        assert f"<b>{name}</b>: no lifter: {why}" in index
    for said in (checked.output, written.output, index):
        assert ".secret" not in said
        assert "notes: no lifter" not in said
    asked = json.loads(run("check", squad, "--json").stdout)
    assert {one["folder"] for one in asked["no_lifters"]} == set(reasons)
    assert f"Open {tmp_path / 'out' / 'index.html'} in a browser" in written.stdout


def test_a_copy_to_share_names_no_folder_that_is_no_lifter_in_its_index(squad: Path, tmp_path: Path) -> None:
    run("write", squad, "--out", tmp_path / "out", "--jobs", "1", "--share")
    assert "beppe" not in (tmp_path / "out" / "index.html").read_text(encoding="utf-8")


def test_one_line_a_cause_tells_how_many_rows_what_stood_there_and_the_first_places(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", LOG + LOADS + WORDS)
    done = run("check", folder)
    lines = [line for line in done.stdout.splitlines() if ": set aside: " in line]
    assert [line.split(" expected")[0] for line in lines] == [
        "runa/training.csv:4:3: set aside: 5 rows: kg is '55o', '56o', '57o' and 2 others,",
        "runa/training.csv:9:2: set aside: 'snacth' is no lift that is known, it stands 3 times; say what it "
        'is by a line such as "snacth" = "snatch" under [lift_names] in lifter.toml; did you mean \'snatch\'?'
        " [guide: lifter.toml: who, and what for]",
    ]
    assert "(lines 4, 5, 6, …) [guide: training.csv: what was done]" in lines[0]
    assert "2 files, 11 rows: 3 used, 8 set aside, 0 odd." in done.stdout
    every = run("check", folder, "--all").stdout.splitlines()
    assert sum(": set aside: " in line for line in every) == 6


def test_check_as_json_holds_every_problem_and_the_ledger_and_nothing_else(tmp_path: Path) -> None:
    done = run("check", lay(tmp_path / "runa", LOG + LOADS + WORDS), "--json")
    assert done.exit_code == 1
    found = json.loads(done.stdout)
    (lifter,) = found["lifters"]
    assert (found["exit_code"], lifter["exit_code"], lifter["as_of"]) == (1, 1, "2026-03-04")
    (training,) = (entry for entry in lifter["ledger"] if entry["file"] == "training.csv")
    assert (training["rows_read"], training["rows_used"], training["rows_set_aside"]) == (10, 2, 8)
    assert [one["line"] for one in training["problems"]] == [*range(4, 10)]  # a word for a lift once
    assert training["problems"][0]["guide"] == "training.csv: what was done"


def test_every_section_that_a_message_names_is_a_heading_of_the_guide() -> None:
    headings = re.findall(r"^#+ (.+)$", README.read_text(encoding="utf-8"), re.MULTILINE)
    named = {*listed("intake.guide.sections"), *(text(f"intake.guide.{one}") for one in ("sets", "others"))}
    assert named <= set(headings)


def test_facts_and_write_leave_with_0_when_they_did_their_work_and_strict_makes_1_of_it(
    tmp_path: Path,
) -> None:
    folder = lay(tmp_path / "squad" / "a", LOG + WORDS)
    assert [run("facts", folder, *more).exit_code for more in ((), ("--strict",))] == [0, 1]
    lay(tmp_path / "squad" / "b", toml="standards = 3")
    assert run("facts", folder.parent).exit_code == 1  # one of two could not be read


def test_facts_by_lines_print_a_lifter_a_line(tmp_path: Path) -> None:
    for name in ("a", "b"):
        lay(tmp_path / name)
    lines = run("facts", tmp_path, "--lines").stdout.splitlines()
    whole = json.loads(run("facts", tmp_path).stdout)
    assert [json.loads(line) for line in lines] == whole


def test_write_says_which_page_to_open_and_opens_it_where_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []

    def launch(url: str) -> int:
        opened.append(url)
        return 0

    monkeypatch.setattr(click, "launch", launch)
    asked = ("write", lay(tmp_path / "runa"), "--out", tmp_path / "out", "--jobs", "1")
    assert f"Open {tmp_path / 'out' / 'runa.html'} in a browser (or add --open)." in run(*asked).stdout
    assert opened == []
    run(*asked, "--open")
    assert opened == [str(tmp_path / "out" / "runa.html")]


@pytest.mark.parametrize(("typed", "meant"), [("chek", "check"), ("Write", "write"), ("fact", "facts")])
def test_a_misspelt_command_is_suggested(typed: str, meant: str) -> None:
    done = run(typed, "x")
    assert done.exit_code == 2
    assert f"no such command '{typed}'; did you mean '{meant}'?" in done.stderr


def test_a_command_like_no_other_is_told_with_those_that_there_are() -> None:
    assert "no such command 'zzz' (one of: start, check, write" in run("zzz").stderr


def test_a_log_with_a_second_ending_is_found_by_name_where_there_is_no_lifter(tmp_path: Path) -> None:
    (tmp_path / "training.csv.txt").write_text(LOG, encoding="utf-8")
    assert "if it is 'training.csv.txt', rename that to training.csv" in run("check", tmp_path).stderr


def test_the_demo_says_that_its_slips_are_examples() -> None:
    done = run("check", README.parent / "squad")
    assert "Examples: the seven rows set aside in anselm-riedwater are slips made on purpose" in done.stdout


def test_the_stages_of_one_page_are_told_to_whoever_waits() -> None:
    told: list[str] = []
    terminal._watching.append(told.append)
    try:
        for name in terminal.STAGES:
            terminal.stage(name)
    finally:
        terminal._watching.clear()
    assert told == ["reading", "computing", "drawing"]


def test_causes_beyond_the_most_are_counted_by_their_rows() -> None:
    problems = [
        Problem(file="a.csv", line=n, message=say("intake.stranger", file=f"cause {n // 2}"))
        for n in range(2, 12)
    ]
    lines = terminal.problem_lines("x", problems, 2)
    assert lines[-1] == "x/a.csv: and 6 more (`reportgen check --all` prints every one)"
