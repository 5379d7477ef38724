"""The program from Python: examples that run, and the same figures and pages as the command line's."""

import datetime as dt
import doctest
import json
import re
from pathlib import Path

import pytest

import reportgen
from reportgen import face, pages
from reportgen.words import as_json
from tests.cli.test_commands import LOG, lay, run

README = Path(__file__).parents[1] / "README.md"
STAMP = re.compile(r'(?<=<meta name="made-from" content=")[0-9a-f]{64}(?= 0 )')


@pytest.mark.parametrize("module", [reportgen, face], ids=["reportgen", "face"])
def test_the_examples_of_the_docstrings_give_what_they_say(
    module: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(README.parent)
    found = doctest.testmod(module)  # type: ignore[arg-type]
    assert found.attempted > 1
    assert found.failed == 0


def test_the_readmes_lines_for_python_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "content_demo").symlink_to(README.parent / "content_demo")
    monkeypatch.chdir(tmp_path)
    (lines,) = re.findall(r"```python\n(.*?)```", README.read_text(encoding="utf-8"), re.DOTALL)
    exec(lines, {})
    assert (tmp_path / "pages" / "index.html").is_file()


def test_the_figures_are_those_that_facts_prints_and_the_review_day_is_the_log_s_last(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa")
    dossier = reportgen.read(folder)
    assert dossier.facts.as_of == dt.date(2026, 3, 4)
    assert as_json(dossier.facts) == json.loads(run("facts", folder).stdout)
    assert reportgen.read(folder, dt.date(2026, 3, 3)).facts.as_of == dt.date(2026, 3, 3)


def test_the_pages_are_those_of_the_command_line_but_for_their_stamp(tmp_path: Path) -> None:
    lay(tmp_path / "squad" / "a", LOG + "2026-03-20,snatch,54,1,1\n")
    lay(tmp_path / "squad" / "b")
    written = reportgen.write(tmp_path / "squad", tmp_path / "here", since=dt.date(2026, 3, 10))
    run("write", tmp_path / "squad", "--out", tmp_path / "there", "--jobs", "1", "--since", "2026-03-10")
    assert [page.name for page in written] == ["a.html", "b.html", "index.html"]
    for page in written:
        there = (tmp_path / "there" / page.name).read_text(encoding="utf-8")
        assert page.read_text(encoding="utf-8") == STAMP.sub(pages.NEVER, there)


def test_who_can_not_be_read_of_a_squad_is_named_in_the_index_and_one_alone_is_an_error(
    tmp_path: Path,
) -> None:
    lay(tmp_path / "squad" / "a")
    broken = lay(tmp_path / "squad" / "b", toml="standards = 3")
    *_, index = reportgen.write(tmp_path / "squad", tmp_path / "out")
    assert "<b>b</b>" in index.read_text(encoding="utf-8")
    for call in (lambda: reportgen.read(broken), lambda: reportgen.write(broken, tmp_path / "out")):
        with pytest.raises(reportgen.UnreadableError, match=r"lifter\.toml:1") as why:
            call()
        assert why.value.problems[0].file == "lifter.toml"
    with pytest.raises(reportgen.UnreadableError, match="no lifter in it"):
        reportgen.write(tmp_path / "out", tmp_path / "out")
