"""`reportgen answers`: rows and notes from a page, checked, in the folder's own form, and never twice."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from reportgen.cli.main import main
from tests.cli.test_commands import LOG, TOML, lay, run

HEAD = "date,finding,verdict,why,check\n"
ROW = "2026-03-04,long_taper,kept,as it is,2026-05-01\n"
NOTE = "Date: 2026-03-04\nKind: remark\nTitle: Answers\n\nQuestion 1: Which?\n\nAnswer: the first\n"


@pytest.fixture
def lifter(tmp_path: Path) -> Path:
    return lay(tmp_path / "runa", LOG)


def given(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "given.csv"
    path.write_text(text, encoding="utf-8", newline="")
    return path


def written(lifter: Path) -> dict[str, bytes]:
    return {str(path.relative_to(lifter)): path.read_bytes() for path in lifter.rglob("*") if path.is_file()}


def test_rows_make_a_decisions_file_where_there_is_none(lifter: Path, tmp_path: Path) -> None:
    done = run("answers", lifter, given(tmp_path, HEAD + ROW))
    assert done.exit_code == 0, done.output
    assert "1 row added" in done.stdout
    assert (lifter / "decisions.csv").read_text() == HEAD + ROW
    assert run("check", lifter).exit_code == 0


def test_standard_input_is_taken_for_a_dash(lifter: Path) -> None:
    done = CliRunner().invoke(main, ["answers", str(lifter), "-"], input=HEAD + ROW)
    assert done.exit_code == 0, done.output
    assert (lifter / "decisions.csv").read_text() == HEAD + ROW


def test_what_is_there_already_is_not_added_again(lifter: Path, tmp_path: Path) -> None:
    run("answers", lifter, given(tmp_path, HEAD + ROW))
    before = written(lifter)
    done = run("answers", lifter, given(tmp_path, HEAD + ROW + ROW))
    assert done.exit_code == 0
    assert "nothing added" in done.stdout
    assert written(lifter) == before
    other = ROW.replace("as it is", "=1+1")
    done = run("answers", lifter, given(tmp_path, HEAD + ROW + other + other))
    assert "1 row added; 1 row was there already" in done.stdout
    assert (lifter / "decisions.csv").read_text() == HEAD + ROW + other.replace("=1+1", "'=1+1")
    assert "nothing added" in run("answers", lifter, given(tmp_path, HEAD + other)).stdout


@pytest.mark.parametrize(
    ("head", "old", "encoding", "toml", "row"),
    [
        (
            "datum;befund;urteil;warum;wieder\r\n", "", "utf-8-sig", "",
            "2026-03-04;long_taper;kept;as it is;2026-05-01\r\n",
        ),
        (
            "verdict;why;finding;date;check\n", "kept;genügt;long_taper;04.02.2026;", "cp1252",
            'date_format = "%d.%m.%Y"\n', "\nkept;as it is;long_taper;04.03.2026;01.05.2026\n",
        ),
        (
            "date\tfinding\tverdict\twhy\tcheck\n", "", "utf-16", "",
            "2026-03-04\tlong_taper\tkept\tas it is\t2026-05-01\n",
        ),
        (
            "sep=;\ndate;finding;verdict;why;check\n", "", "utf-8", "",
            "2026-03-04;long_taper;kept;as it is;2026-05-01\n",
        ),
    ],
)  # fmt: skip
def test_rows_take_the_form_of_the_file_that_is_there(
    lifter: Path, tmp_path: Path, head: str, old: str, encoding: str, toml: str, row: str
) -> None:
    own = 'befund = "finding"\nurteil = "verdict"\nwarum = "why"\nwieder = "check"\ndatum = "date"\n'
    (lifter / "lifter.toml").write_text(f"{toml}{TOML}[columns.decisions]\n{own}", encoding="utf-8")
    (lifter / "training.csv").write_text(LOG, encoding="utf-8")
    there = (head + old).encode(encoding)
    (lifter / "decisions.csv").write_bytes(there)
    done = run("answers", lifter, given(tmp_path, HEAD + ROW))
    assert done.exit_code == 0, done.output
    now = (lifter / "decisions.csv").read_bytes()
    assert now.startswith(there)
    assert now.decode(encoding) == head + old + row


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HEAD + ROW + ROW.replace("taper", "tapir"), "given.csv:3:2: set aside: finding is 'long_tapir'"),
        (HEAD + ROW.replace("kept", "maybe"), "given.csv:2:3: set aside: verdict is 'maybe'"),
        (HEAD + ROW.replace("03-04", "13-04"), "given.csv:2:1: set aside: date is '2026-13-04'"),
        (HEAD + ROW.replace("as it", "as\0it"), "given.csv:2:4: set aside: why"),
        (HEAD, "given.csv"),
        ("", "given.csv"),
        ("words\n", "given.csv"),
        (NOTE.replace("remark", "plan"), "kind remark"),
        (NOTE.replace("2026-03-04", "../../../x"), "given.csv:1"),
        (NOTE.partition("\n\n")[0] + "\n\n \n", "no answer"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_its_line_and_nothing_is_written(
    lifter: Path, tmp_path: Path, text: str, told: str
) -> None:
    before = written(lifter)
    done = run("answers", lifter, given(tmp_path, text))
    assert done.exit_code == 2
    assert told in done.stderr
    assert "Traceback" not in done.output
    assert written(lifter) == before


def test_a_file_that_cannot_hold_the_rows_stays_as_it_is(lifter: Path, tmp_path: Path) -> None:
    for there, told in (
        ("date,finding,verdict\n", "has no column 'why'"),
        ("day of it;what\n1;2\n", "can't be read"),
    ):
        (lifter / "decisions.csv").write_text(there, encoding="utf-8")
        done = run("answers", lifter, given(tmp_path, HEAD + ROW))
        assert done.exit_code == 2
        assert told in done.stderr
        assert (lifter / "decisions.csv").read_text() == there
    western = "date,finding,verdict,why,check\n2026-01-04,long_taper,kept,genügt,\n".encode("cp1252")
    (lifter / "decisions.csv").write_bytes(western)
    done = run("answers", lifter, given(tmp_path, HEAD + ROW.replace("as it is", "李")))
    assert "cp1252" in done.stderr
    assert (lifter / "decisions.csv").read_bytes() == western


def test_answers_to_questions_become_a_note_once_and_a_second_letter_another(
    lifter: Path, tmp_path: Path
) -> None:
    hostile = NOTE.replace("the first", "\x1b[31m\u202ethe first\r\n=2").replace("Answers", "\x07Answers")
    assert run("answers", lifter, given(tmp_path, hostile)).exit_code == 0
    before = written(lifter)
    note = before["notes/2026-03-04-answers.md"].decode()
    assert note == NOTE.replace("the first", " [31m the first\n=2")
    assert "nothing added" in run("answers", lifter, given(tmp_path, hostile)).stdout
    assert written(lifter) == before
    run("answers", lifter, given(tmp_path, NOTE))
    assert set(written(lifter)) - set(before) == {"notes/2026-03-04-answers-2.md"}
    assert run("check", lifter).exit_code == 0


def test_a_link_out_of_the_folder_is_not_followed(lifter: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (lifter / "notes").symlink_to(tmp_path / "elsewhere")
    done = run("answers", lifter, given(tmp_path, NOTE))
    assert done.exit_code == 2
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_squad_and_a_file_that_is_not_there_are_refused(lifter: Path, tmp_path: Path) -> None:
    assert "is a squad" in run("answers", lifter.parent, given(tmp_path, HEAD + ROW)).stderr
    assert "can't be read" in run("answers", lifter, tmp_path / "none.csv").stderr
