"""Tabs that are called a month, with the day of the month beside each row."""

from pathlib import Path
from typing import Any

from reportgen.intake import Intake, read_folder
from tests.intake.books import book
from tests.trust.logs import TOML

HEAD = ["Day", "Exercise", "Sets", "Reps", "Kg"]


def months(folder: Path, *names: str) -> Intake:
    folder.mkdir()
    (folder / "lifter.toml").write_text(TOML, encoding="utf-8")
    rows: list[list[Any]] = [
        HEAD,
        [21, "Snatch", 3, 2, 50],
        [23, "Snatch", 3, 2, 52],
        [28, "Snatch", 2, 2, 55],
    ]
    book(folder / "training.xlsx", dict.fromkeys(names, rows))
    return read_folder(folder)


def days(intake: Intake) -> list[str]:
    return [] if intake.records is None else [str(day)[:10] for day in sorted(intake.records.sets["date"])]


def test_several_months_with_one_number_are_of_that_year(tmp_path: Path) -> None:
    for at, names in enumerate([("Sep 26", "Oct 26"), ("26 Sep", "26 Oct"), ("Sep '26", "Oct '26")]):
        found = days(months(tmp_path / str(at), *names))
        assert found == [f"2026-{month}-{day}" for month in ("09", "10") for day in (21, 23, 28)]


def test_a_number_that_may_be_a_day_gives_no_years_to_the_days_of_its_rows(tmp_path: Path) -> None:
    for at, names in enumerate([("Sep 26",), ("Dec 25", "Jan 26"), ("Sep 14", "Sep 21", "Sep 28")]):
        intake = months(tmp_path / str(at), *names)
        assert days(intake) == []
        assert sum(entry.rows_set_aside for entry in intake.ledger) == 3 * len(names)
