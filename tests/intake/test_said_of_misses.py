"""Remarks that tell of a miss, leave it open, or are innocent: what becomes of their rows."""

from pathlib import Path

import pytest

from reportgen.intake import marks, read_folder
from reportgen.intake.marks import Says
from tests.trust.logs import lay

MISS = (
    *("NL", "2nd rep lost", "couldnt stand up", "got stuck", "pinned", "stapled", "aborted", "gave up on it"),
    *("gemist", "mislukt", "missad", "epäonnistui"),
    *("rep 2 miss", "miss on rep 2", "lost the last rep", "stecken geblieben", "(x)", "[x]"),
)
OPEN = (
    *("last one wouldn't stay up", "last one didn't stick", "the last one I had to let go", "eine vergeigt"),
    *("gave up", "not locked", "crashed", "bar crashed on me", "spotters helped", "stood up with help"),
    *("pressed it out", "no, too far in front", "didn't get under", "bar looped, gone", "pulled through"),
    *(
        "starfished",
        "fought for it but no",
        "got buried",
        "wouldn't have been given",
        "zu weit vorne",
        "soft",
    ),
    *("scratch", "didnt lock it", "got stuck but made it", "aufgegeben", "avec aide"),
)
INNOCENT = (
    *("tired, failed to sleep", "fail-safe rack", "dropped bar from hips", "red light in the hall"),
    *(
        "gave up coffee",
        "stuck in traffic",
        "lost 2 kg of weight this week",
        "crashed on the sofa after work",
    ),
    *("pain? no", "shoulder pain, gone", "hard but no belt", "pulled through the sickness well", "no, easy"),
    *(
        "first pull slow",
        "high pull was good today",
        "good power",
        "strong pull",
        "it felt good, nothing to add",
    ),
    *("didnt miss", "no help needed", "missed breakfast", "fast", "fast and easy"),
)
ENGLISH = marks.innocent(["fast", "felt good and easy"], "English")


def rows(tmp_path: Path, *lines: str, head: str = "date,lift,kg,sets,reps,remark") -> list[tuple[int, int]]:
    """Repetitions and made of each row that is used."""
    records = read_folder(lay(tmp_path / "a", "\n".join([head, *lines]) + "\n")).records
    assert records is not None
    return [*zip(records.sets["reps"].tolist(), records.sets["made"].tolist(), strict=True)]


@pytest.mark.parametrize("text", MISS)
def test_what_tells_of_a_miss_is_one(text: str, tmp_path: Path) -> None:
    assert marks.says(text) is Says.MISS
    made = rows(tmp_path, "2026-03-02,snatch,60,1,1,", f'2026-03-02,snatch,60,1,1,"{text}"')
    assert made == [(1, 1), (1, 0)]


@pytest.mark.parametrize("text", OPEN)
def test_what_leaves_it_open_sets_its_row_aside(text: str, tmp_path: Path) -> None:
    assert marks.says(text) is Says.UNCLEAR
    assert rows(tmp_path, "2026-03-02,snatch,60,1,1,", f'2026-03-02,snatch,60,1,1,"{text}"') == [(1, 1)]


@pytest.mark.parametrize("text", INNOCENT)
def test_what_is_innocent_counts_as_made(text: str) -> None:
    assert marks.says(text, ENGLISH) is Says.NOTHING


@pytest.mark.parametrize(
    ("text", "lost"),
    [
        ("rep 2 miss", 1),
        ("2nd rep lost", 1),
        ("missed rep 2", 1),
        ("missed both", 2),
        ("lost it on two", 1),
        ("stapled", None),
    ],
)
def test_a_repetition_by_its_number_is_one_of_the_set(text: str, lost: int | None) -> None:
    assert marks.missed_reps(text, 2) == lost


@pytest.mark.parametrize(
    ("others", "used"), [(("easy", "felt good"), 3), (("und gut", "sehr schwer heute"), 2)]
)
def test_fast_is_quick_among_english_remarks_and_almost_among_german_ones(
    others: tuple[str, str], used: int, tmp_path: Path
) -> None:
    lines = [f"2026-03-0{n},snatch,60,1,2,{text}" for n, text in enumerate((*others, "fast"), 2)]
    assert len(rows(tmp_path, *lines)) == used


def test_a_remark_does_not_outvote_a_made_that_is_filled(tmp_path: Path) -> None:
    head = "date,lift,kg,sets,reps,made,remark"
    lines = ("2026-03-02,snatch,60,1,2,2,almost had it", "2026-03-02,snatch,60,1,2,1,missed 2nd",
             "2026-03-02,snatch,60,1,2,,almost had it")  # fmt: skip
    assert rows(tmp_path, *lines, head=head) == [(2, 2), (2, 1)]


@pytest.mark.parametrize(
    ("sets", "reps", "good"), [(3, 2, 5), (3, 5, 11), (4, 1, 3), (3, 5, 0), (2, 3, 6), (4, 2, 7)]
)
def test_a_column_of_sums_loses_no_miss(sets: int, reps: int, good: int, tmp_path: Path) -> None:
    whole = [f"2026-03-{day:02},snatch,60,3,2,6" for day in range(1, 9)]
    asked = f"2026-03-10,snatch,61,{sets},{reps},{good}"
    records = read_folder(
        lay(tmp_path / "a", "\n".join(["date,lift,kg,sets,reps,made", *whole, asked]) + "\n")
    ).records
    assert records is not None
    table = records.sets
    assert (table.loc[table["load_kg"] == 60, "made"] == 2).all()
    mine = table.loc[table["load_kg"] == 61]
    assert (mine["sets"].sum(), (mine["sets"] * mine["made"]).sum()) == (sets, good)
    assert {*mine["line"]} == {10}


def test_made_over_the_repetitions_once_or_beside_many_sets_of_its_own_is_no_column_of_sums(
    tmp_path: Path,
) -> None:
    for at, others in enumerate((["3,2,2"] * 6, ["3,2,2", "3,1,1", "3,1,1", "1,2,2"])):
        over = ["3,2,6"] * (1 + at)
        lines = [f"2026-03-{day:02},snatch,60,{one}" for day, one in enumerate([*over, *others], start=1)]
        log = "\n".join(["date,lift,kg,sets,reps,made", *lines]) + "\n"
        records = read_folder(lay(tmp_path / str(at), log)).records
        assert records is not None
        assert records.sets["date"].min().day > len(over)


OTHER = (
    "high pull",
    "power snatched it",
    "turned it into a high pull",
    "just a pull",
    "power",
    "only a power snatch",
)


@pytest.mark.parametrize("text", OTHER)
@pytest.mark.parametrize(
    ("lift", "used"), [("snatch", 1), ("clean and jerk", 1), ("snatch pull", 2), ("back squat", 2)]
)
def test_a_remark_that_names_another_lift_sets_a_row_of_the_whole_one_aside(
    lift: str, used: int, text: str, tmp_path: Path
) -> None:
    made = rows(tmp_path, f"2026-03-02,{lift},60,1,1,", f'2026-03-02,{lift},60,1,1,"{text}"')
    assert len(made) == used


@pytest.mark.parametrize(
    "text", ["first pull slow", "fast pull", "good pull, easy", "pull felt off", "more power"]
)
def test_a_remark_on_a_part_of_the_lift_leaves_its_row(text: str, tmp_path: Path) -> None:
    made = rows(tmp_path, "2026-03-02,snatch,60,1,1,", f'2026-03-02,snatch,60,1,1,"{text}"')
    assert made == [(1, 1), (1, 1)]


def test_a_power_snatch_may_be_called_one(tmp_path: Path) -> None:
    made = rows(tmp_path, "2026-03-02,power snatch,60,1,1,", "2026-03-02,power snatch,60,1,1,power")
    assert made == [(1, 1), (1, 1)]
