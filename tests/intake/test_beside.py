"""Misses told in cells of numbers, and results that say how many of how many."""

from pathlib import Path

import pytest

from reportgen.intake import read_folder
from reportgen.intake.messages import expect
from reportgen.words import said
from tests.intake.test_tried import NAMED, read, sets, tried
from tests.trust.logs import lay, ledger

HEAD = "Date,Exercise,Sets,Reps,Kg,RPE"
FIRST = "2026-03-02,Snatch,1,2,60,8"


def log(row: str) -> str:
    return f"{HEAD}\n{FIRST}\n{row}\n"


@pytest.mark.parametrize(
    "row",
    [
        *(
            "Snatch,1,1,66x,",
            "Snatch,1,1,66 x,",
            "Snatch,1,1,(66),",
            "Snatch,1,1,66ML,",
            "Snatch,1,2,66 miss,",
        ),
        *("Snatch,1,0,66,", "Snatch,1,X,66,", "Snatch,1,0/1,66,", "Snatch,1,1/2,66,", "Snatch,1,1*,66,"),
        *("Snatch,0,1,66,", "Snatch,1,1,66,miss", "Snatch,2,1,66,failed", "snatch (miss),1,1,66,"),
        *("clean + jerk,1,1+0,66,", "Snatch,1,fail,66,", "Snatch,1,1 ✗,66,", "Snatch,1,1,66 almost,"),
    ],
)
def test_a_number_that_tells_of_a_miss_sets_its_row_aside_as_one_that_may_hold_it(
    row: str, tmp_path: Path
) -> None:
    intake = read(tmp_path / "a", log(f"2026-03-03,{row}"))
    assert tried(sets(intake)) == [(60, 2, 2)]
    entry = ledger(intake)
    assert (entry.rows_set_aside, entry.unclear_misses, len(entry.problems)) == (1, 1, 1)
    assert said(expect("effort")) not in said(entry.problems[0].message)


@pytest.mark.parametrize("kg", ["66 miss", "66 missed", "66kg fail", "66 ✗", "66 no lift", "66 (miss)"])
def test_a_single_with_a_miss_at_its_load_is_one(kg: str, tmp_path: Path) -> None:
    assert tried(sets(read(tmp_path / "a", log(f"2026-03-03,Snatch,1,1,{kg},")))) == [(60, 2, 2), (66, 1, 0)]


@pytest.mark.parametrize(("kg", "sign"), [("66x", "x"), ("66 f", "f"), ("(66)", "()"), ("66-", "-")])
def test_a_sign_at_a_load_is_what_the_lifter_says(kg: str, sign: str, tmp_path: Path) -> None:
    for at, (key, made) in enumerate([("miss", 0), ("made", 1)]):
        table = sets(
            read(tmp_path / str(at), log(f"2026-03-03,Snatch,1,1,{kg},"), f'{NAMED}{key} = ["{sign}"]\n')
        )
        assert tried(table) == [(60, 2, 2), (66, 1, made)]


@pytest.mark.parametrize(
    "row", ["Snatch,1,1,66 easy,", "Snatch,1,1,60-65,", "Snatch,1,many,66,", "Snatch,1,1,BW,"]
)
def test_a_number_that_is_none_and_tells_of_no_miss_is_not_counted_as_one(row: str, tmp_path: Path) -> None:
    entry = ledger(read(tmp_path / "a", log(f"2026-03-03,{row}")))
    assert (entry.rows_set_aside, entry.unclear_misses) == (1, 0)


@pytest.mark.parametrize("rpe", ["11", "easy", "hard"])
def test_an_effort_that_is_none_leaves_its_row(rpe: str, tmp_path: Path) -> None:
    assert tried(sets(read(tmp_path / "a", log(f"2026-03-03,Snatch,1,1,66,{rpe}")))) == [
        (60, 2, 2),
        (66, 1, 1),
    ]


@pytest.mark.parametrize(
    ("cells", "made"),
    [
        *(("1,2,2/2", 2), ("1,5,5/5", 5), ("1,1,1/1", 1), ("1,2,1/2", 1), ("1,1,0/1", 0), ("1,5,0/5", 0)),
        *(
            ("3,2,6/6", 2),
            ("3,1,1/1", 1),
            ("3,2,5/6", None),
            ("1,2,3/3", None),
            ("1,2,1/1", None),
            ("1,2,2/1", None),
        ),
    ],
)
def test_a_result_may_say_how_many_of_the_repetitions_were_made(
    cells: str, made: int | None, tmp_path: Path
) -> None:
    text = f"date,lift,kg,sets,reps,result\n2026-03-02,snatch,60,1,1,1/1\n2026-03-03,snatch,66,{cells}\n"
    table = sets(read_folder(lay(tmp_path / "a", text)))
    assert table.loc[table["load_kg"] == 66, "made"].tolist() == ([] if made is None else [made])
