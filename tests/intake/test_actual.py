"""Repetitions planned beside those done, and loads of a day in a message log."""

from pathlib import Path

from tests.each import each
from tests.intake.test_said_of_misses import rows

HEAD = "date,lift,planned kg,planned reps,actual kg,actual reps,status"


@each(
    "row, read",
    [
        ("80,1,80,0,missed", [(1, 0)]),
        ("80,1,80,0,", [(1, 0)]),
        ("80,2,78,1,missed", [(2, 1)]),
        ("80,3,78,0,missed", [(3, 0)]),
        ("80,3,80,3,", [(3, 3)]),
        ("80,3,80,2,", [(2, 2)]),  # stopped at two, or lost one: nothing says so
        ("80,1,80,0,skipped", []),  # not tried
        ("80,1,,0,", []),
        ("80,1,,,", []),
    ],
)
def test_planned_repetitions_that_were_not_done_are_missed_where_that_is_sure(
    row: str, read: list[tuple[int, int]], tmp_path: Path
) -> None:
    lines = ("2026-03-01,snatch,60,5,60,5,completed", f"2026-03-02,snatch,{row}")
    assert rows(tmp_path, *lines, head=HEAD)[1:] == read


@each(
    "row, read",
    [("2,2,", [(2, 2)]), ("2,,", [(2, 2)]), ("2,1,missed", [(2, 1)]), ("1,0,missed", [(1, 0)]), ("2,1,", []),
     ("2,3,", []), ("1,0,", [])],
)  # fmt: skip
def test_reps_beside_actual_reps_are_the_planned_ones(
    row: str, read: list[tuple[int, int]], tmp_path: Path
) -> None:
    lines = ("2026-03-01,snatch,60,5,5,completed", f"2026-03-02,snatch,60,{row}")
    assert rows(tmp_path, *lines, head="date,lift,kg,reps,actual reps,status")[1:] == read
