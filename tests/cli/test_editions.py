"""Three editions of one dossier: their files, what each holds, the span of a season, the squad's index."""

import re
from pathlib import Path

import pytest

from reportgen.pages import recover
from tests.cli.test_commands import run
from tests.cli.test_share import lay_files, whole


@pytest.fixture
def lifter(tmp_path: Path) -> Path:
    return lay_files(tmp_path / "squad" / "vale")


def words(page: Path) -> str:
    """What a reader sees: no script, style, picture or packed block."""
    text = page.read_text(encoding="utf-8")
    text = re.sub(r"<(script|style|svg)\b.*?</\1>", "", text, flags=re.DOTALL)
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", text))


def test_each_edition_has_a_file_of_its_own_beside_the_others(lifter: Path, tmp_path: Path) -> None:
    for edition in ("review", "progress", "season"):
        run("write", lifter, "--out", tmp_path / "out", "--edition", edition)
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "vale-progress.html",
        "vale-season.html",
        "vale.html",
    ]
    assert "season 2026" in words(tmp_path / "out" / "vale-season.html")
    assert "Questions to the coach" in words(tmp_path / "out" / "vale-progress.html")


def test_progress_shows_readings_of_positions_only_where_asked_for(lifter: Path, tmp_path: Path) -> None:
    page = tmp_path / "vale-progress.html"
    run("write", lifter, "--out", tmp_path, "--edition", "progress")
    assert "8 cm" not in words(page)
    run("write", lifter, "--out", tmp_path, "--edition", "progress", "--keep", "screening")
    assert "8 cm" in words(page)


def test_a_season_sums_up_the_span_asked_for_and_carries_it(lifter: Path, tmp_path: Path) -> None:
    run(
        *("write", lifter, "--out", tmp_path, "--edition", "season"),
        *("--first", "2026-03-03", "--last", "2026-03-04"),
    )
    page = tmp_path / "vale-season.html"
    facts = recover(page.read_text(encoding="utf-8")).facts
    assert facts is not None
    assert [(s["start"], s["end"]) for s in facts["season"]] == [("2026-03-03", "2026-03-04")]
    assert "3 to 4 Mar 2026" in words(page)
    # The snatch of the 2nd and the contest of the 5th lie outside.
    assert facts["season"][0]["bests"] == []
    assert facts["season"][0]["contests"] == []


def test_a_span_with_one_end_reaches_to_the_log_s_other_end(lifter: Path, tmp_path: Path) -> None:
    page = tmp_path / "vale-season.html"
    for ends, span in (
        (("--first", "2026-03-04"), ("2026-03-04", "2026-03-05")),
        (("--last", "2026-03-04"), ("2026-03-02", "2026-03-04")),
        (("--first", "2026-03-04", "--last", "2031-01-01"), ("2026-03-04", "2026-03-05")),
    ):
        run("write", lifter, "--out", tmp_path, "--edition", "season", *ends)
        facts = recover(page.read_text(encoding="utf-8")).facts
        assert facts is not None
        assert [(s["start"], s["end"]) for s in facts["season"]] == [span]


def test_a_span_after_the_log_writes_nothing_and_says_why(lifter: Path, tmp_path: Path) -> None:
    done = run("write", lifter, "--out", tmp_path / "out", "--edition", "season", "--first", "2027-01-01")
    assert done.exit_code == 2
    assert "vale: nothing to sum up from 2027-01-01 to 2026-03-05" in done.output
    assert not list((tmp_path / "out").glob("*.html"))


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("--first", "2026-01-01"), "--first and --last go with --edition season"),
        (("--edition", "progress", "--last", "2026-01-01"), "--first and --last go with --edition season"),
        (
            ("--edition", "season", "--first", "2026-02-01", "--last", "2026-01-01"),
            "--first 2026-02-01 lies after --last 2026-01-01",
        ),
        (("--keep", "screening"), "--keep goes with --share"),
        (("--edition", "progress", "--keep", "pain"), "--keep goes with --share"),
        (("--edition", "diary"), "'diary' is not one of"),
    ],
)
def test_arguments_that_do_not_go_together_are_refused(
    lifter: Path, tmp_path: Path, arguments: tuple[str, ...], message: str
) -> None:
    done = run("write", lifter, "--out", tmp_path / "out", *arguments)
    assert done.exit_code == 2
    assert message in done.output
    assert not (tmp_path / "out").exists()


def test_the_index_of_a_season_holds_the_season_s_figures_also_where_no_page_was_written_again(
    lifter: Path, tmp_path: Path
) -> None:
    index = tmp_path / "out" / "index.html"
    command = ("write", lifter.parent, "--out", tmp_path / "out", "--edition", "season")
    run(*command)
    first = words(index)
    assert "Squad, season" in first
    assert "Heaviest made" in first
    assert "3 in 1 of 1 week" in first  # sessions: 2, 4 and 5 March
    assert 'href="vale-season.html"' in index.read_text(encoding="utf-8")
    index.unlink()
    done = run(*command)
    assert "unchanged" in done.output
    assert words(index) == first


@pytest.mark.parametrize("edition", ["progress", "season"])
def test_a_shared_copy_of_any_edition_holds_the_name_nowhere(edition: str, tmp_path: Path) -> None:
    folder = lay_files(tmp_path / "squad" / "xanthippe")
    run("write", folder, "--out", tmp_path / "out", "--share", "--edition", edition)
    [page] = (tmp_path / "out").glob("*.html")
    assert page.name == f"lifter-1-{edition}.html"
    assert "xanthippe" not in whole(page).casefold()


def test_a_season_that_is_over_is_told_as_it_stood_when_it_ended(lifter: Path, tmp_path: Path) -> None:
    with (lifter / "screening.csv").open("a", encoding="utf-8") as file:
        file.write("2026-03-05,knee to wall,left,,11,,,\n")
    page = tmp_path / "vale-season.html"
    for until, day, reading in (("2026-03-04", "4 Mar 2026", "8 cm"), ("2026-03-05", "5 Mar 2026", "11 cm")):
        done = run("write", lifter, "--out", tmp_path, "--edition", "season", "--last", until)
        assert done.exit_code in (0, 1), done.output
        assert reading in words(page)
        assert f"Review day {day}" in words(page)


def test_a_season_from_before_a_lifter_s_log_is_told_and_stops_nobody(lifter: Path, tmp_path: Path) -> None:
    older = lay_files(lifter.parent / "older")
    text = (older / "training.csv").read_text(encoding="utf-8")
    (older / "training.csv").write_text(text + "2025-05-05,snatch,48,3,2,,,,\n", encoding="utf-8")
    done = run(
        *("write", lifter.parent, "--out", tmp_path, "--edition", "season", "--jobs", "1"),
        *("--first", "2025-01-01", "--last", "2025-12-31"),
    )
    assert done.exit_code == 1
    assert "nothing to sum up from 2025-01-01 to 2025-12-31: the log begins on 2026-03-0" in done.stdout
    assert sorted(path.name for path in tmp_path.glob("*.html")) == ["index.html", "older-season.html"]
