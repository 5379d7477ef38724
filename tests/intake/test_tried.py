"""Made of tried, `0/1`, and what stands in the cell of repetitions where none was made."""

from pathlib import Path

import pandas as pd
import pytest

from reportgen.intake import Intake, read_folder
from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import Unclear, Use
from reportgen.intake.use import learn
from reportgen.words import said
from tests.trust.logs import lay

NAMED = '[sources."training.csv"]\n'


def read(folder: Path, log: str, tail: str = "") -> Intake:
    lay(folder, log)
    top = (folder / "lifter.toml").read_text()
    (folder / "lifter.toml").write_text(f"{top}\n{tail}")
    return read_folder(folder)


def sets(intake: Intake) -> pd.DataFrame:
    assert intake.records is not None
    return intake.records.sets


def tried(table: pd.DataFrame) -> list[tuple[float, int, int]]:
    return [*zip(table["load_kg"].tolist(), table["reps"].tolist(), table["made"].tolist(), strict=True)]


@pytest.mark.parametrize("order", ["", "load reps sets", "load sets reps", "load reps"])
def test_none_of_some_is_a_miss_whatever_the_order(order: str) -> None:
    use = Use(order=tuple(order.split()))
    for text, reps in (("66 0/1", 1), ("66 0/2", 2), ("66x0/1", 1)):
        got = entry(text, use)
        assert not isinstance(got, Unclear)
        assert [(one.load, one.sets, one.reps, one.made) for one in got] == [(66, 1, (reps,), (0,))]


@pytest.mark.parametrize("order", ["", "load reps sets", "load sets reps"])
def test_beside_none_of_some_two_such_numbers_are_made_of_tried(order: str) -> None:
    use = learn(
        [("snatch", "60x1, 66 0/1"), ("snatch", "61 1/2")],
        Use(order=tuple(order.split())),
        decimal_comma=False,
    )
    got = entry("61 1/2, 62 2/2", use)
    assert not isinstance(got, Unclear)
    assert [(one.load, one.sets, one.reps, one.made) for one in got] == [
        (61, 1, (2,), (1,)),
        (62, 1, (2,), None),
    ]
    assert isinstance(entry("61 3/2", Use(tried=True)), Unclear)


def test_without_none_of_some_two_such_numbers_stay_open() -> None:
    use = learn([("snatch", "61 1/2"), ("snatch", "50x2")], Use(), decimal_comma=False)
    assert not use.tried
    assert isinstance(entry("61 1/2", use), Unclear)


def pairs(cell: str, load: str = "66") -> str:
    head = "Date,Exercise,Kg 1,Reps 1,Kg 2,Reps 2"
    return f"{head}\n2026-03-02,Snatch,60,1,{load},{cell}\n2026-03-04,Snatch,60,2,62,1\n"


@pytest.mark.parametrize(
    "cell", ["0", "F", "fail", "miss", "raté", "ungültig", "✗", "nulo", "no lift", "1 fail", "0/1"]
)
def test_a_load_without_a_repetition_is_one_try_missed(cell: str, tmp_path: Path) -> None:
    made = tried(sets(read(tmp_path / "a", pairs(cell))))
    assert made == [(60, 1, 1), (66, 1, 0), (60, 2, 2), (62, 1, 1)]


def test_a_pair_may_say_how_many_of_how_many_were_made(tmp_path: Path) -> None:
    for at, (cell, made) in enumerate(
        [("1/2", (2, 1)), ("2/2", (2, 2)), ("2 (1 made)", (2, 1)), ("0/2", (2, 0))]
    ):
        assert tried(sets(read(tmp_path / str(at), pairs(cell))))[1] == (66, *made)


@pytest.mark.parametrize("cell", ["x", "n", "m", "1+F", "-", "?", "1*", "", "2/1"])
def test_a_pair_that_is_not_clear_sets_its_row_aside_and_is_quoted(cell: str, tmp_path: Path) -> None:
    intake = read(tmp_path / "a", pairs(cell))
    assert tried(sets(intake)) == [(60, 2, 2), (62, 1, 1)]
    (told,) = (one for one in intake.problems if one.level == "error")
    assert f"66 ¦ {cell}".strip() in said(told.message) + told.found
    assert "? " not in told.found


def test_an_x_is_a_miss_where_the_lifter_says_so(tmp_path: Path) -> None:
    table = sets(read(tmp_path / "a", pairs("x"), f'{NAMED}miss = ["x"]\n'))
    assert tried(table)[1] == (66, 1, 0)


@pytest.mark.parametrize(("results", "used"), [("1110", 4), ("0001", 0), ("0000", 4), ("1100", 4)])
def test_a_column_of_results_with_more_noughts_than_ones_may_be_either_way_round(
    results: str, used: int, tmp_path: Path
) -> None:
    rows = "".join(f"2026-03-0{n},snatch,{60 + n},1,{one}\n" for n, one in enumerate(results, 1))
    found = read(tmp_path / "a", "date,lift,kg,reps,Result\n2026-03-09,snatch,50,3,\n" + rows)
    assert len(sets(found)) == used + 1
