"""What a copy to share keeps of the records: nothing that names the lifter, nothing that was left out."""

from dataclasses import replace
from pathlib import Path

import pandas as pd
import pytest

from reportgen.analysis import share
from reportgen.cli import sharing
from reportgen.intake import read_folder
from reportgen.model import private
from reportgen.model.export import as_json
from reportgen.model.records import Records
from reportgen.words import said

TOML = 'name = "Marwenka Holtquist"\nborn = 87\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
FILES = {
    "lifter.toml": TOML,
    "training.csv": "date,lift,kg,reps\n2026-03-02,snatch,50,2\n2026-03-04,sore knee,1,1\n",
    "marwenka-holtquist.csv": "date\n",
    "pain.csv": "date,place,lift,score\n2026-03-02,Holtquist knee,snatch,4\n2026-03-02,left knee,snatch,2\n",
    "screening.csv": "date,item,reading\n2026-03-02,knee to wall,8\n",
    "decisions.csv": "date,finding,verdict\n2026-03-03,chase,kept\n",
    "notes/holtquist-a.md": "no head\n",
    "notes/holtquist-b.md": "Date: 2026-03-02\nKind: remark\nTitle: a week\n\nGood.\n",
}


@pytest.fixture
def records(tmp_path: Path) -> Records:
    for name, text in FILES.items():
        path = tmp_path / "anyone" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    found = read_folder(tmp_path / "anyone").records
    assert found is not None
    return found


def files(stripped: Records) -> list[str]:
    return [entry.file for entry in stripped.ledger]


@pytest.mark.parametrize("keep", [(), ("name",), tuple(private.PARTS)])
def test_a_file_that_nobody_read_is_never_named(records: Records, keep: tuple[str, ...]) -> None:
    assert "marwenka-holtquist.csv" in files(records)
    assert "marwenka-holtquist.csv" not in files(share.strip(records, frozenset(keep)))


def test_kept_notes_have_numbers_for_names_everywhere_and_the_same_ones(records: Records) -> None:
    stripped = share.strip(records, frozenset({"notes"}))
    assert [file for file in files(stripped) if file.startswith("notes/")] == ["notes/1.md", "notes/2.md"]
    assert [note.file for note in stripped.notes] == ["notes/2.md"]  # the first could not be used
    named = share.strip(records, frozenset({"notes", "name"}))
    assert [note.file for note in named.notes] == ["notes/holtquist-b.md"]


def test_the_sentence_of_what_is_left_out_promises_nothing_of_notes_that_stay() -> None:
    without, kept = sharing.left_out(()), sharing.left_out(("notes",))
    assert "the name and every remark" in without
    assert "every remark" not in kept
    assert kept.endswith("The notes stand as they were written and may name somebody.")
    assert "may name somebody" not in sharing.left_out(("name", "notes"))


def test_problems_of_a_named_copy_keep_their_places_and_lose_what_stood_there(records: Records) -> None:
    whole = next(p for p in records.problems if p.heading == "born")
    assert "87" in said(whole.message)
    stripped = share.strip(records, frozenset({"name", "notes"}))
    assert (whole.file, whole.line) in {(p.file, p.line) for p in stripped.problems}
    assert "87" not in {p.found for p in stripped.problems}
    assert "sore" not in str(as_json(stripped.ledger))
    assert {said(p.message) for p in stripped.problems} == {"What stood there is left out."}
    everything = share.strip(records, frozenset(private.PARTS))
    assert whole in everything.problems


def test_decisions_are_named_only_where_what_they_name_is_shared(records: Records) -> None:
    assert "decisions.csv" not in files(share.strip(records, frozenset({"pain"})))
    assert "decisions.csv" in files(share.strip(records, frozenset({"pain", "screening"})))


@pytest.mark.parametrize(
    ("place", "shown"),
    [
        ("left knee", "left knee"),
        ("Left Knee", "Left Knee"),
        ("Holtquist knee", "knee (own words)"),
        ("left knee, Dr. Quandt", "left knee (own words)"),
        ("the old spot", "own words"),
    ],
)
def test_a_place_that_hurts_is_told_in_words_of_the_catalogue(
    records: Records, place: str, shown: str
) -> None:
    one = records.pain.head(1).assign(place=pd.Series([place], dtype="str"))
    stripped = share.strip(replace(records, pain=one), frozenset({"pain"}))
    assert stripped.pain["place"].tolist() == [shown]
    named = share.strip(replace(records, pain=one), frozenset({"pain", "name"}))
    assert named.pain["place"].tolist() == [place]
