"""`write --since`: whose earlier dossier, of which day and shape, is compared with, and what is refused."""

import base64
import gzip
import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

from reportgen.pages import recover
from tests.cli.test_commands import LOG, lay, run

LATER = LOG + "2026-03-20,snatch,54,1,1\n"


def changes(page: Path) -> Any:
    facts = recover(page.read_text(encoding="utf-8")).facts
    assert facts is not None
    return facts["changes"]


def carrying(facts: dict[str, Any], page: Path) -> Path:
    """A page that carries these facts and nothing else."""
    content = json.dumps(facts).encode()
    link = f"data:application/gzip;base64,{base64.b64encode(gzip.compress(content)).decode()}"
    page.write_text(
        f'<a href="{link}" data-sha256="{hashlib.sha256(content).hexdigest()}" data-role="facts">facts</a>',
        encoding="utf-8",
    )
    return page


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return lay(tmp_path / "runa", LATER)


@pytest.fixture(scope="module")
def earlier(tmp_path_factory: pytest.TempPathFactory) -> str:
    return run("facts", lay(tmp_path_factory.mktemp("since") / "runa", LATER), "--as-of", "2026-03-10").stdout


@pytest.fixture
def old(earlier: str) -> dict[str, Any]:
    """The facts of an earlier review day, to be changed at will."""
    found: dict[str, Any] = json.loads(earlier)
    return found


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"name": "Ib Strand", "folder": "ib"}, "it is of Ib Strand in folder ib, and this is Runa Velde in"),
        ({"name": "Runa Velde-Strand"}, ""),
        ({"folder": "of last year"}, ""),
        ({"name": "A lifter", "folder": "lifter"}, ""),
        ({"name": "A lifter", "folder": "lifter", "standards": "men"}, "somebody with the standards of men"),
    ],
)
def test_an_earlier_dossier_of_another_lifter_is_refused(
    folder: Path, tmp_path: Path, old: dict[str, Any], changed: dict[str, str], said: str
) -> None:
    page = carrying(old | {"lifter": old["lifter"] | changed}, tmp_path / "old.html")
    done = run("write", folder, "--out", tmp_path / "out", "--since", page, "--jobs", "1")
    assert done.exit_code == (2 if said else 0), done.output
    assert said in done.stderr
    assert (tmp_path / "out" / "runa.html").exists() is not bool(said)


def test_a_shared_copy_of_another_goal_lift_is_refused(
    folder: Path, tmp_path: Path, old: dict[str, Any]
) -> None:
    old |= {"lifter": old["lifter"] | {"name": "A lifter", "folder": "lifter"}}
    old["goals"][0]["lift"] = "clean and jerk"
    page = carrying(old, tmp_path / "old.html")
    done = run("write", folder, "--out", tmp_path / "out", "--since", page, "--jobs", "1")
    assert done.exit_code == 2
    assert "it is of somebody whose first goal is a clean and jerk" in done.stderr


@pytest.mark.parametrize("day", ["2026-03-20", "2026-03-21", "2030-01-01"])
def test_a_day_that_is_not_before_the_review_day_is_refused_with_both_days(
    folder: Path, tmp_path: Path, old: dict[str, Any], day: str
) -> None:
    page = carrying(old | {"as_of": day}, tmp_path / "old.html")
    for since, said in (
        (day, f"--since {day} is not before the review day, 2026-03-20"),
        (page, f"its review day {day} is not before this one's, 2026-03-20"),
    ):
        done = run("write", folder, "--out", tmp_path / "out", "--since", since, "--jobs", "1")
        assert done.exit_code == 2
        assert said in done.stderr
    asked = run("write", folder, "--out", tmp_path / "out", "--since", day, "--as-of", "2026-03-20")
    assert asked.exit_code == 2
    assert f"--since {day} is not before --as-of 2026-03-20" in asked.stderr
    assert not (tmp_path / "out").exists()


def test_a_lifter_of_a_squad_who_has_not_trained_since_is_told_and_written_without_every_time(
    tmp_path: Path,
) -> None:
    lay(tmp_path / "squad" / "a", LATER)
    lay(tmp_path / "squad" / "b")
    for _ in range(2):
        done = run(
            *("write", tmp_path / "squad", "--out", tmp_path / "out", "--since", "2026-03-10", "--jobs", "1")
        )
        assert done.exit_code == 0, done.output
        line = "b: the review day 2026-03-04 is not after --since 2026-03-10: written without what changed"
        assert line in done.stderr
        assert "a: the review day" not in done.stderr
    assert changes(tmp_path / "out" / "a.html")["since"] == "2026-03-10"
    assert changes(tmp_path / "out" / "b.html") is None
    alone = run(
        "write", tmp_path / "squad", "--out", tmp_path / "out", "--since", "2026-03-10", "--only", "b"
    )
    assert alone.exit_code == 2


@pytest.mark.parametrize(
    ("broken", "said"),
    [
        ({"as_of": "gestern"}, "its facts hold no review day that can be read"),
        ({"as_of": 20260310}, "its facts hold no review day that can be read"),
        ({"as_of": "9999-12-31"}, "its facts hold no review day that can be read"),
        ({"facts_version": 2}, "its facts are of version 2, and this program knows version 1"),
        ({"facts_version": "new"}, "its facts are of version new, and this program knows version 1"),
    ],
)
def test_facts_that_can_not_be_compared_with_are_one_clear_line(
    folder: Path, tmp_path: Path, old: dict[str, Any], broken: dict[str, Any], said: str
) -> None:
    page = carrying(old | broken, tmp_path / "old.html")
    done = run("write", folder, "--out", tmp_path / "out", "--since", page, "--jobs", "1")
    assert done.exit_code == 2
    assert said in done.stderr


def test_a_table_that_can_not_be_read_is_left_out_and_named_on_the_page(
    folder: Path, tmp_path: Path, old: dict[str, Any]
) -> None:
    del old["current"][0]["kg"]
    page = carrying(old, tmp_path / "old.html")
    done = run("write", folder, "--out", tmp_path / "out", "--since", page, "--jobs", "1")
    assert done.exit_code == 0, done.output
    found = changes(tmp_path / "out" / "runa.html")
    assert (found["unread"], found["bests"]) == (["bests"], [])
    assert "it can&#39;t be read: bests." in (tmp_path / "out" / "runa.html").read_text(encoding="utf-8")


def test_positions_of_a_shared_copy_are_not_new_when_the_whole_dossier_is_compared_with_it(
    folder: Path, tmp_path: Path
) -> None:
    (folder / "screening.csv").write_text(
        "date,item,side,reading\n2026-03-02,knee to wall,left,4\n2026-03-02,knee to wall,right,4\n",
        encoding="utf-8",
    )
    day = ("--as-of", "2026-03-10", "--jobs", "1")
    run("write", folder, "--out", tmp_path / "old", "--share", *day)
    shared = tmp_path / "old" / "lifter-1.html"
    run("write", folder, "--out", tmp_path / "new", "--since", shared, "--jobs", "1")
    found = changes(tmp_path / "new" / "runa.html")
    assert found["missing"] == ["positions"]
    assert found["screening"] == []
    assert found["needs"]["unsure"] == ["position_not_reached"]
    assert found["needs"]["came"] == []


def test_a_day_before_the_log_began_makes_nothing_new(folder: Path, tmp_path: Path) -> None:
    run("write", folder, "--out", tmp_path / "out", "--since", "2025-01-01", "--jobs", "1")
    found = changes(tmp_path / "out" / "runa.html")
    assert (found["log_begins"], found["needs"], found["bests"]) == ("2026-03-02", None, [])
    assert found["indicators"] == []
    page = (tmp_path / "out" / "runa.html").read_text(encoding="utf-8")
    assert "The log begins on 2 Mar 2026, after that day" in page
    assert "Findings that are new" not in page
