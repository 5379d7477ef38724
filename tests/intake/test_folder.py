"""What a folder means: files, review day, sources, squads, exit codes."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest

from reportgen import words
from reportgen.intake import Intake, exit_code, find_lifters, read_folder, read_squad
from reportgen.intake.places import nearest, places
from reportgen.model.lifter import Squad
from reportgen.model.records import Records
from reportgen.trade import load

LIFTER = 'name = "Maren Holt"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
TRAINING = "date,lift,kg,reps\n2026-03-01,snatch,50,2\n"
Lay = Callable[..., Path]


@pytest.fixture
def lay(tmp_path: Path) -> Lay:
    """`lay({"pain.csv": ...})` makes a sound folder with these files on top; None leaves a file out."""

    def make(files: dict[str, str | bytes | None], name: str = "maren") -> Path:
        folder = tmp_path / name
        folder.mkdir(parents=True)
        for file, text in {"lifter.toml": LIFTER, "training.csv": TRAINING, **files}.items():
            if text is not None:
                (folder / file).parent.mkdir(exist_ok=True)
                (folder / file).write_bytes(text.encode() if isinstance(text, str) else text)
        return folder

    return make


def records(intake: Intake) -> Records:
    assert intake.records is not None
    return intake.records


def test_every_file_read_is_kept_byte_for_byte(lay: Lay) -> None:
    raw = "date;kg\r\n2026-03-01;63,5\r\n".encode("utf-16")
    note = "Date: 2026-03-01\nKind: remark\nTitle: T\n\nText\n"
    folder = lay({"bodymass.csv": raw, "notes/b.md": note, "notes/a.md": "broken"})
    sources = {source.file: source.content for source in records(read_folder(folder)).sources}
    assert list(sources) == ["lifter.toml", "training.csv", "bodymass.csv", "notes/a.md", "notes/b.md"]
    assert all(content == (folder / file).read_bytes() for file, content in sources.items())


def test_a_note_has_its_header_and_its_text(lay: Lay) -> None:
    folder = lay(
        {"notes/a.md": "title: March\r\nDATE: 2026-03-02\r\nKind: Review\r\n\r\n# One\r\n\r\nTwo\r\n"}
    )
    (note,) = records(read_folder(folder)).notes
    assert (note.file, note.date, note.kind, note.title) == (
        "notes/a.md",
        dt.date(2026, 3, 2),
        "review",
        "March",
    )
    assert note.text == "# One\n\nTwo\n"


def test_quoted_line_breaks_count_as_an_editor_counts_lines(lay: Lay) -> None:
    text = 'date,lift,kg,reps,remark\n2026-03-01,snatch,50,2,"a\n\nb"\n\n2026-03-02,snatch,50,2,\n'
    sets = records(read_folder(lay({"training.csv": text}))).sets
    assert list(sets["line"]) == [2, 6]
    assert sets["remark"][0] == "a\n\nb"


def test_a_complex_is_a_row_a_part_with_its_own_misses(lay: Lay) -> None:
    text = (
        "date,lift,kg,reps,made,miss\n"
        "2026-03-01,clean + front squat + jerk,60,1+2+2,1+2+0,jerk\n"
        "2026-03-02,clean + front squat + jerk,60,1+2+2,0+2+0,clean/jerk/declined\n"
    )
    sets = records(read_folder(lay({"training.csv": text}))).sets
    shown = sets[["lift", "part", "parts", "reps", "made", "declined", "miss"]].to_numpy().tolist()
    assert shown == [
        ["clean", 0, 3, 1, 1, 0, ""],
        ["front squat", 1, 3, 2, 2, 0, ""],
        ["jerk", 2, 3, 2, 0, 0, "jerk"],
        ["clean", 0, 3, 1, 0, 0, "clean"],
        ["front squat", 1, 3, 2, 2, 0, ""],
        ["jerk", 2, 3, 2, 0, 1, "jerk"],
    ]


def test_attempts_are_sets_of_one_after_the_training_rows(lay: Lay) -> None:
    text = (
        "date,event,lift,attempt,kg,made,miss\n2026-03-02,Open,SN,1,55,yes,\n2026-03-02,,SN,,60,no,declined\n"
    )
    sets = records(read_folder(lay({"attempts.csv": text}))).sets
    assert list(sets["file"]) == ["training.csv", "attempts.csv", "attempts.csv"]
    columns = ["kind", "attempt", "sets", "reps", "made", "declined", "miss", "event"]
    assert sets[columns].to_numpy().tolist()[1:] == [
        ["contest", 1, 1, 1, 1, 0, "", "Open"],
        ["test", 0, 1, 1, 0, 1, "", ""],
    ]


def test_own_words_and_own_headings_are_understood(lay: Lay) -> None:
    toml = (
        LIFTER + '[lift_names]\n"A + B" = "snatch pull"\nrow = "other"\n[columns.training]\nDatum = "date"\n'
    )
    text = "DATUM,lift,kg,reps\n2026-03-01,a+b,50,2\n2026-03-01,a + b,50,2\n2026-03-01,Row,50,2\n"
    intake = read_folder(lay({"lifter.toml": toml, "training.csv": text}))
    assert list(records(intake).sets["lift"]) == ["snatch pull", "other"]


def log(*days: str) -> str:
    return "date,lift,kg,reps\n" + "".join(f"{day},snatch,50,2\n" for day in days)


@pytest.mark.parametrize(
    ("days", "as_of"),
    [
        (("2026-03-01",), "2026-03-01"),
        (("2026-03-05", "2026-03-01"), "2026-03-05"),
        (("2026-03-01", "2026-04-30"), "2026-04-30"),  # 60 days
        (("2026-03-01", "2026-05-01"), "2026-03-01"),  # 61 days
        (("2025-03-01", "2026-03-01", "2027-03-01"), "2026-03-01"),  # applied once
    ],
)
def test_the_newest_day_sets_the_review_day_unless_it_stands_alone(
    lay: Lay, days: tuple[str, ...], as_of: str
) -> None:
    intake = read_folder(lay({"training.csv": log(*days)}))
    assert str(records(intake).as_of) == as_of
    assert len(records(intake).sets) == len(days)
    assert exit_code(intake) == 0
    assert ("does not set the review day" in "".join(words.said(p.message) for p in intake.problems)) == (
        as_of != max(days)
    )


def test_only_rows_of_things_done_set_the_review_day(lay: Lay) -> None:
    folder = lay({
        "training.csv": log("2026-03-01"),
        "mobility.csv": "date,area,minutes\n2026-03-04,hips,10\n2026-03-30,hips,x\n",
        "plan.csv": log("2026-03-20"),
        "pain.csv": "date,place,score\n2026-03-10,knee,2\n",
        "away.csv": "from,to,reason\n2026-03-10,2026-03-12,work\n",
        "decisions.csv": "date,finding,verdict\n2026-03-10,back_squat,kept\n",
        "notes/a.md": "Date: 2026-03-10\nKind: remark\nTitle: T\n\nText\n",
    })  # fmt: skip
    assert records(read_folder(folder)).as_of == dt.date(2026, 3, 4)


def test_a_given_review_day_holds_and_later_rows_are_odd(lay: Lay) -> None:
    intake = read_folder(lay({"training.csv": log("2026-03-01", "2026-09-01")}), as_of=dt.date(2026, 3, 1))
    assert records(intake).as_of == dt.date(2026, 3, 1)
    assert [words.said(problem.message) for problem in intake.problems] == [
        "'2026-09-01' is after the review day (2026-03-01)"
    ]
    assert len(records(intake).sets) == 2


def test_rows_alike_in_two_files_are_not_the_same_row(lay: Lay) -> None:
    attempts = "date,lift,kg,made\n2026-03-01,snatch,50,yes\n"
    rows = "date,lift,kg,reps\n2026-03-01,snatch,50,1\n"
    assert read_folder(lay({"training.csv": rows, "attempts.csv": attempts})).problems == ()


DAYS = [
    [
        f"2026-03-0{n},snatch,{50 + n},2",
        f"2026-03-0{n},snatch,{52 + n},2",
        f"2026-03-0{n},back squat,{80 + n},3",
    ]
    for n in (2, 4, 6)
]


@pytest.mark.parametrize(
    ("days", "aside"),
    [
        ([*DAYS, *DAYS], 9),
        ([*DAYS, DAYS[0][1:], *DAYS[1:]], 8),  # from the middle of a day
        ([*DAYS, *DAYS[1:]], 0),  # two days: they may be others that were begun from a copy
        ([DAYS[0], DAYS[0], DAYS[1], DAYS[1]], 0),  # morning and evening alike
        ([*DAYS, [row.replace("snatch,5", "snatch,6") for row in DAYS[0]], DAYS[1]], 0),
        ([*DAYS, *DAYS, *DAYS], 18),
        ([*DAYS[:2], *DAYS[:2], *DAYS[:2]], 0),  # no more than two days, however often
    ],
)
def test_days_that_stand_again_further_down_a_log_are_counted_once(
    lay: Lay, days: list[list[str]], aside: int
) -> None:
    text = "date,lift,kg,reps\n" + "\n".join(row for day in days for row in day) + "\n"
    intake = read_folder(lay({"training.csv": text}))
    assert len(records(intake).sets) == text.count("\n") - 1 - aside
    told = [one for one in intake.problems if one.level == "error"]
    assert [one.line for one in told] == [*range(text.count("\n") - aside + 1, text.count("\n") + 1)]


def test_exit_codes_tell_used_aside_and_none(lay: Lay) -> None:
    assert exit_code(read_folder(lay({}, "a"))) == 0
    assert exit_code(read_folder(lay({"pain.csv": "x\n1\n"}, "b"))) == 1
    assert exit_code(read_folder(lay({"lifter.toml": LIFTER + "[bands]\nx = 1\n"}, "c"))) == 1
    assert exit_code(read_folder(lay({"lifter.toml": None}, "d"))) == 2
    assert exit_code(read_folder(lay({"training.csv": None}, "e"))) == 2


def test_a_squad_is_folders_with_a_log_and_broken_ones_with_any_csv(lay: Lay, tmp_path: Path) -> None:
    lay({}, "squad/Berit")
    lay({}, "squad/anna")
    lay({"lifter.toml": None, "training.csv": None, "pain.csv": "date,place,score\n"}, "squad/cleo")
    lay({"lifter.toml": None, "training.csv": None, "read.me": "x"}, "squad/papers")
    lay({}, "squad/.hidden")
    lay({}, "elsewhere")
    squad = tmp_path / "squad"
    (squad / "linked").symlink_to(tmp_path / "elsewhere")
    assert [path.name for path in find_lifters(squad)] == ["anna", "Berit", "cleo"]
    assert find_lifters(squad / "anna") == (squad / "anna",)
    assert find_lifters(squad / "cleo") == (squad / "cleo",)
    assert find_lifters(squad / "papers") == find_lifters(squad / "nowhere") == ()
    (problem,) = read_squad(squad)[1]
    assert (
        words.said(problem.message)
        == "linked is a link that leads out of the folder, expected a file inside the folder"
    )


def test_a_squad_file_gives_coach_theme_and_unit(tmp_path: Path) -> None:
    assert read_squad(tmp_path) == (Squad(), ())
    (tmp_path / "squad.toml").write_text('coach = "Ida Brand"\ntheme = "plain"\nunit = "lb"\n')
    assert read_squad(tmp_path) == (Squad(coach="Ida Brand", theme="plain", unit="lb"), ())


def test_the_squads_unit_counts_where_a_lifter_names_none(lay: Lay) -> None:
    rows = "date,lift,load,reps\n2026-03-01,snatch,100,2\n"
    toml = LIFTER.replace("[[goal]]", 'unit = "kg"\n[[goal]]')
    own = records(read_folder(lay({"lifter.toml": toml, "training.csv": rows}, "a"), default_unit="lb"))
    none = records(read_folder(lay({"training.csv": rows}, "b"), default_unit="lb"))
    assert own.sets["load_kg"][0] == 100
    assert none.sets["load_kg"][0] == pytest.approx(45.359237)


def test_a_link_inside_the_folder_is_followed(lay: Lay) -> None:
    folder = lay({"log.txt": "date,kg\n2026-03-01,60\n"})
    (folder / "bodymass.csv").symlink_to(folder / "log.txt")
    assert len(records(read_folder(folder)).bodymass) == 1


def test_keys_of_toml_are_found_where_they_stand() -> None:
    text = (
        'a = 1\n[[goal]]\n  kg = 1\n[[goal]]\nkg = 2\n[bands."x y"]\nlow=1\n[columns]\ntraining.Datum = "d"\n'
    )
    found = places(text)
    assert nearest(found, ("a",)) == (1, 1)
    assert nearest(found, ("goal", 0, "kg")) == (3, 3)
    assert nearest(found, ("goal", 1, "kg")) == (5, 1)
    assert nearest(found, ("goal", 1, "lift")) == (4, 1)
    assert nearest(found, ("bands", "x y", "low")) == (7, 1)
    assert nearest(found, ("columns", "training", "Datum")) == (9, 1)
    assert nearest(found, ("nothing",)) == (1, 0)


def test_the_bounds_that_messages_name_are_the_rules() -> None:
    value = load().value
    assert f"{int(value('load_max_kg') / value('pound'))}" in words.text("intake.want.goal.lb")
