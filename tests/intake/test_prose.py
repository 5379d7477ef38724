"""Readings in a screening note: what is said plainly is taken, what may mean something else is not."""

import datetime as dt
from pathlib import Path

import pytest

from reportgen.intake import read_folder
from reportgen.intake.prose import prose
from reportgen.model.records import Records

LIFTER = 'name = "Maren Holt"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
KTW = "knee to wall"
Reading = tuple[str, str, float | str]


def taken(text: str) -> list[Reading]:
    return [
        (one.item, one.side, one.grade if one.reading is None else one.reading) for one in prose(text, 1)[0]
    ]


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("knee to wall L 8 cm, R 10", [(KTW, "left", 8.0), (KTW, "right", 10.0)]),
        ("- **KTW**: 8,5 cm left, 9 cm right, barefoot", [(KTW, "left", 8.5), (KTW, "right", 9.0)]),
        ("Left knee to wall 8 cm", [(KTW, "left", 8.0)]),
        ("KTW 8 cm both sides", [(KTW, "both", 8.0)]),
        ("Overhead squat: partly, video", [("dowel overhead squat", "", "partly")]),
        ("dowel snatch: no", [("dowel snatch", "", "no")]),
        (
            "shoulder flexion 165/170 deg (left/right)",
            [("shoulder flexion", "left", 165.0), ("shoulder flexion", "right", 170.0)],
        ),
        ("Beighton 6", [("Beighton score", "", 6.0)]),
        ("Beighton 6/9. Sits well in the bottom.", [("Beighton score", "", 6.0)]),
        (
            "KTW R 10 cm; hip flexion R 115 deg, L 118",
            [(KTW, "right", 10.0), ("hip flexion", "right", 115.0), ("hip flexion", "left", 118.0)],
        ),
    ],
)
def test_a_line_that_says_what_was_read_on_which_side_gives_it(line: str, wanted: list[Reading]) -> None:
    assert taken(line) == wanted


@pytest.mark.parametrize(
    "line",
    [
        "knee to wall should reach 10 cm",
        "Goal: knee to wall 10 cm",
        "knee to wall not 10 cm",
        "knee to wall was 8 cm",
        "knee to wall from 8 to 10 cm",
        "knee to wall 8-9 cm",
        "knee to wall about 8 cm",
        "knee to wall 8 cm?",
        "knee to wall 8",  # centimetres or degrees
        "knee to wall 7 in",
        "knee to wall 35 degrees",
        "knee to wall 8/10 cm",  # which side is which
        "knee to wall L 8 cm, L 9 cm",
        "knee to wall 8 cm, 10 cm",
        "knee to wall 8 cm on 2026-03-01",
        "dowel snatch: no video",
        "Beighton 11",
        "dowel overhead squat held with 20 kg",
        "Targets by June:\n- knee to wall 12 cm",
        "## Goals\n\nknee to wall 12 cm",
        "The aim for her is that\nknee to wall 12 cm",
    ],
)
def test_what_may_mean_something_else_gives_nothing_and_is_told(line: str) -> None:
    found, unread = prose(line, 1)
    assert found == ()
    assert len(unread) == 1


def test_everyday_words_name_no_item() -> None:
    found = prose("In the bottom she sits back as soon as the bar passes 50 kg. The start is fine.", 1)
    assert found == ((), {})


def test_a_load_belongs_to_a_reading_that_says_it() -> None:
    (one,) = prose("wrist laid back 20 degrees with 40 kg", 1)[0]
    assert (one.reading, one.load_kg) == (20.0, 40.0)


def lay(root: Path, note: str, screening: str = "") -> Records:
    (root / "notes").mkdir()
    (root / "lifter.toml").write_text(LIFTER)
    (root / "training.csv").write_text("date,lift,kg,reps\n2026-03-05,snatch,50,2\n")
    (root / "notes" / "a.md").write_text(f"Date: 2026-03-01\nKind: screening\nTitle: T\n\n{note}")
    if screening:
        (root / "screening.csv").write_text(f"date,item,side,reading\n{screening}")
    records = read_folder(root).records
    assert records is not None
    return records


def test_a_reading_of_a_note_has_its_file_line_and_day_and_sets_no_review_day(tmp_path: Path) -> None:
    records = lay(tmp_path, "Good day.\n\nknee to wall L 8 cm\n")
    (row,) = records.screening.to_dict("records")
    assert (row["file"], row["line"], row["side"], row["reading"]) == ("notes/a.md", 7, "left", 8.0)
    assert row["date"].date() == dt.date(2026, 3, 1)
    assert records.as_of == dt.date(2026, 3, 5)


def test_what_the_table_holds_goes_before_the_note(tmp_path: Path) -> None:
    records = lay(tmp_path, "knee to wall L 8 cm, R 10\n", "2026-03-01,knee to wall,left,8.5\n")
    assert records.screening["reading"].tolist() == [8.5, 10.0]


def test_other_kinds_of_notes_give_no_readings(tmp_path: Path) -> None:
    root = tmp_path / "maren"
    root.mkdir()
    records = lay(root, "")
    assert records.notes[0].taken == ()
    (root / "notes" / "a.md").write_text("Date: 2026-03-01\nKind: remark\nTitle: T\n\nknee to wall L 8 cm\n")
    again = read_folder(root).records
    assert again is not None
    assert again.screening.empty
