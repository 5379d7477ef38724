"""Reasons that must be the true ones, and what only a remark or a note tells."""

from pathlib import Path

import pytest

from reportgen.analysis import remarks
from reportgen.analysis.dossier import build
from reportgen.intake import read_folder
from reportgen.model.doubts import EVERYTHING, Unsure, said
from reportgen.trade import load
from reportgen.words import as_json, plain, spoken
from tests.trust.logs import lay
from tests.trust.test_trust import LOG, TOML, Odd, away, facts, lifts, pain, proposed


def told_of(one: Unsure) -> str:
    return plain(spoken(said(one)))


GRAVE = (
    "meniscus surgery on Monday",
    "fingers go numb overhead",
    "No pain, but the knee gave way",
    "felt a pop",
)
TAKEN_BACK = (
    "no numbness",
    "tore nothing: pain free",
    "surgery in 2019, all fine",
    "torn callus",
    "sharp under",
)


def test_a_goals_date_with_no_day_to_train_on_before_it_has_its_attempts_and_says_nothing_of_pain(
    tmp_path: Path,
) -> None:
    goal_day = (
        "by = 2026-03-10\n"  # the Tuesday after; the lifter trains on Mondays, Wednesdays and Saturdays
    )
    block = proposed(facts(tmp_path / "runa", Odd(toml=TOML + goal_day)))
    assert len(block.attempts) == 3
    assert "hurts" not in as_json(block.reason)


def test_a_block_whose_every_day_is_away_says_so_and_nothing_of_pain(tmp_path: Path) -> None:
    block = proposed(facts(tmp_path / "runa", Odd(files=away("2026-03-05,2026-06-30,travel,"))))
    assert not lifts(block)
    assert "away.csv" in as_json(block.reason)
    assert "hurts" not in as_json(block.reason)


def log(remark: str, day: str = "2026-03-04") -> str:
    rows = [line + "," for line in LOG.splitlines()]
    return "\n".join([rows[0] + "remark", *rows[1:], f'{day},snatch,70,1,1,1,"{remark}"']) + "\n"


@pytest.mark.parametrize(
    "row", ['2026-03-04,snatch,7o,1,1,1,"felt a pop"', "2026-03-04,snatch,70,1,1,1,missed, knee popped"]
)
def test_an_injury_is_heard_beside_a_set_that_is_set_aside_as_well(tmp_path: Path, row: str) -> None:
    rows = [line + "," for line in LOG.splitlines()]
    text = "\n".join([rows[0] + "remark", *rows[1:], row]) + "\n"
    block = proposed(facts(tmp_path / "runa", Odd(files={"training.csv": text})))
    assert not block.weeks
    assert "pop" in as_json(block.reason)


@pytest.mark.parametrize("words", GRAVE)
def test_words_of_an_injury_under_a_harmless_kind_stop_everything_and_are_let_through_by_their_row(
    words: str, tmp_path: Path
) -> None:
    files = pain(f'2026-03-02,wrist,,2,ache,,"{words}"')
    found = facts(tmp_path / "runa", Odd(files=files))
    assert not lifts(proposed(found))
    assert "pain.csv, line 2 tells of" in as_json(proposed(found).reason)
    sure = TOML.replace("born", 'confirmed = ["pain.csv:2"]\nborn')
    assert lifts(proposed(facts(tmp_path / "sure", Odd(files=files, toml=sure))))
    settled = pain(f'2026-01-02,wrist,,2,ache,2026-01-20,"{words}"')
    over = lifts(proposed(facts(tmp_path / "over", Odd(files=settled))))
    assert bool(over) == ("surgery" not in words)  # a surgery of this year stops settled, too


@pytest.mark.parametrize(
    "row", ["2026-03-03,,rest,shoulder surgery", "2026-03-03,2026-04-20,work,operated on the knee"]
)
def test_days_away_that_tell_of_surgery_under_another_reason_stop_everything(
    row: str, tmp_path: Path
) -> None:
    block = proposed(facts(tmp_path / "runa", Odd(files=away(row))))
    assert not lifts(block)
    assert "counts as an injury" in as_json(block.reason)


@pytest.mark.parametrize("words", GRAVE)
def test_a_fresh_remark_of_an_injury_stops_everything_until_pain_csv_says_what_came_of_it(
    words: str, tmp_path: Path
) -> None:
    told = read_folder(lay(tmp_path / "a", log(words), TOML)).records
    assert told is not None
    (one,) = remarks.read(told, load())
    assert one.stops == (EVERYTHING,)
    assert "training.csv" in told_of(one)
    settled = "date,place,lift,score,kind,settled\n2026-03-04,knee,,2,ache,2026-03-04\n"
    over = read_folder(lay(tmp_path / "b", log(words), TOML, pain=settled)).records
    old = read_folder(lay(tmp_path / "c", log(words, "2026-01-04"), TOML)).records
    for records in (over, old):
        assert records is not None
        assert not list(remarks.read(records, load()))


@pytest.mark.parametrize("words", TAKEN_BACK)
def test_words_that_are_taken_back_or_tell_of_the_past_stop_nothing(words: str, tmp_path: Path) -> None:
    records = read_folder(lay(tmp_path / "a", log(words), TOML)).records
    assert records is not None
    assert not list(remarks.read(records, load()))


def test_a_remark_of_pain_that_pain_csv_does_not_hold_stops_what_loads_the_place(tmp_path: Path) -> None:
    records = read_folder(lay(tmp_path / "a", log("sharp pain in the left knee, stopped"), TOML)).records
    assert records is not None
    (one,) = remarks.read(records, load())
    assert "back squat" in one.stops
    assert EVERYTHING not in one.stops
    assert "pain.csv says nothing of it" in told_of(one)


@pytest.mark.parametrize(
    ("kind", "text", "stops"),
    [
        ("remark", "The knee locked up.", True),
        ("plan", "The knee locked up. Pulls only.", True),
        ("plan", "Pulls only. Should the knee lock up, stop.", False),
        ("plan", "If the wrist goes numb we stop!", False),
        ("plan", "Wenn das Knie blockiert, ist Schluss", False),
    ],
)
def test_a_note_of_an_injury_stops_and_what_a_plan_says_to_do_in_a_case_does_not(
    kind: str, text: str, stops: bool, tmp_path: Path
) -> None:
    folder = lay(tmp_path / "a", LOG, TOML)
    (folder / "notes").mkdir()
    (folder / "notes" / "w.md").write_text(f"Date: 2026-03-03\nKind: {kind}\nTitle: W\n\n{text}\n")
    records = read_folder(folder).records
    assert records is not None
    assert [one.file for one in remarks.read(records, load())] == ["notes/w.md"] * stops


def test_what_a_table_of_several_tells_of_another_lifter_stops_nothing(tmp_path: Path) -> None:
    name = next(line for line in TOML.splitlines() if line.startswith("name")).partition('"')[2].strip('"')
    rows = LOG.splitlines()
    text = "Athlete,Remark," + rows[0] + "\n" + "".join(f"{name},,{row}\n" for row in rows[1:])
    text += f"Otto Gran,knee locked up,{rows[-1]}\n"
    records = read_folder(lay(tmp_path / "a", text, TOML)).records
    assert records is not None
    assert len(records.sets_unread)
    assert not list(remarks.read(records, load()))


@pytest.mark.parametrize("file", ["notes.md", "coach.txt", "Gespräch.md"])
def test_a_text_beside_the_tables_is_heard_and_named(file: str, tmp_path: Path) -> None:
    folder = lay(tmp_path / "a", LOG, TOML)
    (folder / file).write_text("talked today, his knee locks\n")
    (folder / "README.md").write_text("the knee locks where the paper says so\n")
    intake = read_folder(folder)
    assert intake.records is not None
    assert [one.file for one in remarks.read(intake.records, load())] == [file]
    assert file in [entry.file for entry in intake.ledger]


@pytest.mark.parametrize(
    ("file", "text"),
    [
        (
            "technique.csv",
            "date,lift,kg,checkpoint,grade,clip,remark\n2026-03-03,snatch,60,first pull bar path,off,,{}\n",
        ),
        ("screening.csv", "date,item,side,reading,remark\n2026-03-03,knee to wall,left,9,{}\n"),
        ("bodymass.csv", "date,kg,remark\n2026-03-03,80,{}\n"),
        ("mobility.csv", "date,area,minutes,remark\n2026-03-03,hips,9,{}\n"),
        ("decisions.csv", "date,finding,verdict,why\n2026-03-03,no_heavy_singles,dropped,{}\n"),
    ],
)
def test_an_injury_is_heard_beside_a_reading_a_grade_and_an_answer_too(
    file: str, text: str, tmp_path: Path
) -> None:
    for words, heard in (("her knee locked up", True), ("looks well", False)):
        folder = lay(tmp_path / words, LOG, TOML)
        (folder / file).write_text(text.format(words))
        records = read_folder(folder).records
        assert records is not None
        assert [one.file for one in remarks.read(records, load())] == [file] * heard


@pytest.mark.parametrize(
    ("last", "reason", "careful"), [(13, "illness", True), (13, "travel", False), (6, "illness", False)]
)
def test_ten_days_ill_bring_the_lifter_back_slowly_and_ten_days_of_travel_do_not(
    last: int, reason: str, careful: bool, tmp_path: Path
) -> None:
    rows = "".join(
        line for line in LOG.splitlines(keepends=True) if line[:10] <= "2026-03-02" or line[0] == "d"
    )
    rows += f"2026-03-{2 + last:02d},snatch,64,1,2,2\n"
    gone = f"from,to,reason\n2026-03-03,2026-03-{1 + last:02d},{reason}\n"
    records = read_folder(lay(tmp_path / "a", rows, TOML, away=gone)).records
    assert records is not None
    block = proposed(build(records, load()).facts)
    assert (block.weeks[0].kind == "return") == careful
