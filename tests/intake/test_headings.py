"""Headings that logs have: a column a set, abbreviations, planned and done, pounds; words of lifts."""

from pathlib import Path

from reportgen.intake import Intake, read_folder
from reportgen.intake.kinds import TRAINING
from reportgen.intake.layouts.heads import names_of
from reportgen.intake.named import holds_lift, slip_for
from reportgen.model.values import dataclass
from reportgen.trade import fold, load
from reportgen.trade.tongue import speaking
from reportgen.words import said
from tests.each import each
from tests.trust.logs import lay


@dataclass(frozen=True, slots=True)
class Read:
    """What was read of a log: load, sets, repetitions, made; and what was said."""

    sets: list[tuple[float, int, int, int]]
    told: str


def read(folder: Path, text: str) -> Read:
    """A log, whatever its headings."""
    intake: Intake = read_folder(lay(folder, text))
    table = None if intake.records is None else intake.records.sets
    columns = ("load_kg", "sets", "reps", "made")
    rows = [] if table is None else [*zip(*(table[one].round(1).tolist() for one in columns), strict=True)]
    return Read(rows, "\n".join(said(one.message) for one in intake.problems))


EACH_SET = [(60, 1, 2, 2), (65, 1, 2, 2), (70, 1, 2, 2), (100, 1, 5, 5), (110, 1, 5, 5)]


@each(
    "heads",
    [
        "Set 1 (kg),Set 2 (kg),Set 3 (kg)", "Set 1,Set 2,Set 3", "S1,S2,S3", "1,2,3",
        "Weight 1,Weight 2,Weight 3", "Weight 1 (kg),Weight 2 (kg),Weight 3 (kg)",
        "Serie 1 (kg),Serie 2 (kg),Serie 3 (kg)", "Satz 1,Satz 2,Satz 3",
    ],
)  # fmt: skip
def test_a_column_a_set_has_the_repetitions_of_its_row(heads: str, tmp_path: Path) -> None:
    text = f"Date,Exercise,Reps,{heads}\n2026-03-02,snatch,2,60,65,70\n2026-03-03,back squat,5,100,110,\n"
    assert read(tmp_path / fold(heads)[:12], text).sets == EACH_SET


def test_a_mark_in_a_column_a_set_sets_its_row_aside_and_pounds_stay_pounds(tmp_path: Path) -> None:
    text = "Date,Lift,Reps,Set 1 (lb),Set 2 (lb)\n2026-03-02,snatch,2,100,110\n"
    assert read(tmp_path / "a", text + "2026-03-03,snatch,2,100,110 miss\n").sets == [
        (45.4, 1, 2, 2),
        (49.9, 1, 2, 2),
    ]


PAIRS = [(60, 1, 2, 2), (70, 1, 1, 1), (80, 1, 1, 0), (100, 1, 5, 5)]


@each(
    "heads",
    [
        "Weight 1,Reps 1,Weight 2,Reps 2,Weight 3,Reps 3",
        "Set 1 kg,Set 1 reps,Set 2 kg,Set 2 reps,Set 3 kg,Set 3 reps",
        "S1 Weight (kg),S1 Reps,S2 Weight (kg),S2 Reps,S3 Weight (kg),S3 Reps",
        "1 kg,1 reps,2 kg,2 reps,3 kg,3 reps",
        "Gewicht 1,Wdh 1,Gewicht 2,Wdh 2,Gewicht 3,Wdh 3",
        "Set 1,,Set 2,,Set 3,\n,,kg,reps,kg,reps,kg,reps",
    ],
)  # fmt: skip
def test_loads_that_count_beside_repetitions_that_do_are_a_set_each(heads: str, tmp_path: Path) -> None:
    text = (
        f"Date,Exercise,{heads}\n2026-03-02,snatch,60,2,70,1,80 miss,1\n2026-03-03,back squat,100,5,,,-,-\n"
    )
    assert read(tmp_path / "a", text).sets == PAIRS


def test_pairs_in_pounds_with_a_comma_and_turned_round_are_read(tmp_path: Path) -> None:
    lb = "Date,Lift,Reps 1,Weight 1 (lb),Reps 2,Weight 2 (lb)\n2026-03-02,snatch,2,100,1,110\n"
    assert read(tmp_path / "a", lb).sets == [(45.4, 1, 2, 2), (49.9, 1, 1, 1)]
    comma = "Datum;Übung;Gewicht 1;Wdh 1;Gewicht 2;Wdh 2\n02.03.2026;Reißen;60,5;2;70;1\n"
    assert read(tmp_path / "b", comma).sets == [(60.5, 1, 2, 2), (70, 1, 1, 1)]


@each(
    "cells",
    [
        "60,,70,1", "60,-,70,1", ",2,70,1", ",1,70,1", "60,2 miss,70,1", "60 miss,2,70,1", "60,1x,70,1",
        "60x2,3,70,1",
    ],
)  # fmt: skip
def test_a_pair_that_is_no_set_sets_its_row_aside(cells: str, tmp_path: Path) -> None:
    text = (
        f"Date,Lift,Weight 1,Reps 1,Weight 2,Reps 2\n2026-03-02,snatch,50,3,55,3\n2026-03-03,snatch,{cells}\n"
    )
    assert read(tmp_path / "a", text).sets == [(50, 1, 3, 3), (55, 1, 3, 3)]


@each("more", ["Weight", "Reps", "Sets", "Weight 4"])
def test_pairs_beside_other_loads_or_repetitions_are_refused(more: str, tmp_path: Path) -> None:
    text = f"Date,Lift,{more},Weight 1,Reps 1,Weight 2,Reps 2\n2026-03-02,snatch,3,60,2,70,1\n"
    assert read(tmp_path / "a", text).sets == []


def test_a_cell_of_several_loads_beside_repetitions_has_them_for_each_or_is_set_aside(tmp_path: Path) -> None:
    text = "Date,Lift,Reps,Did\n2026-03-02,snatch,2,60; 70\n2026-03-03,snatch,2,60x3; 70x1\n"
    more = "2026-03-04,snatch,2,60x3; 70\n2026-03-05,snatch,2,61; 72 missed\n"
    assert read(tmp_path / "a", text + more).sets == [
        (60, 1, 2, 2),
        (70, 1, 2, 2),
        (60, 1, 3, 3),
        (70, 1, 1, 1),
    ]


@each(
    "heading, name",
    [
        *((one, "remark") for one in ("Anm.", "Bem.", "Obs.", "Kom.", "Rem.", "Comm.", "Oss.", "Прим.")),
        *((one, "entry") for one in ("Did", "Ist", "Actual", "Done")),
        ("Done kg", "kg"), ("Ist kg", "kg"), ("Soll kg", "unused"), ("Soll Sätze x Wdh", "unused"),
        ("Prescribed", "unused"), ("Prescribed kg", "unused"), ("Soll", "unused"),
        ("Libras", "lb"), ("Livres", "lb"), ("Libbre", "lb"), ("SxR", "scheme"),
        ("Which lift?", "lift"), ("Loads used (kg)", "kg"),
        ("Weight used today?", "load"), ("Reps done", "reps"),
    ],
)  # fmt: skip
def test_a_heading_is_known_as_logs_and_forms_write_it(heading: str, name: str) -> None:
    assert names_of([heading], TRAINING, {}, speaking("English")) == {fold(heading): name}


def test_planned_loads_are_no_done_ones_and_no_line_to_paste_loses_loads(tmp_path: Path) -> None:
    text = "Date,Lift,Sets,Reps,Prescribed kg,Did\n2026-03-02,snatch,4,2,90,70\n2026-03-03,snatch,4,2,90,\n"
    assert read(tmp_path / "a", text).sets == [(70, 4, 2, 2)]
    strange = read(tmp_path / "b", "Log of Uwe,,,,\nDate,Lift,Reps,Zzz,Yyy\n2026-03-02,snatch,2,70,slow\n")
    assert '"Zzz" = ' not in strange.told
    assert '"Yyy" = "remark"' in strange.told
    assert "Log of Uwe" not in strange.told


def test_a_word_with_a_lift_in_it_is_to_be_named() -> None:
    assert all(
        map(holds_lift, ("3-pos snatch", "Przysiad na skrzyni", "Halting snatch DL", "clean grip RDL"))
    )
    assert not any(map(holds_lift, ("Box jumps", "bench press", "Ring rows", "Anreißen", "pull ups")))
    assert slip_for("snatch pul", "snatch pull")
    assert slip_for("hang sntch", "hang snatch")
    assert not slip_for("3-pos snatch", "power snatch")


@each(
    "word, lift",
    [("Przysiad tył", "back squat"), ("Przysiad przód", "front squat"), ("KB hinten", "back squat"),
     ("KB vorne", "front squat"), ("arraché debout", "power snatch"), ("Arr debout", "power snatch")],
)  # fmt: skip
def test_words_of_lifts_are_known(word: str, lift: str) -> None:
    assert {**load().words["lift"], **speaking("English").lifts}[fold(word)] == lift


@each("heading", ["Sets", "Sets done", "Series", "Sätze", "Set", "Séries", "Подходы"])
def test_sets_over_shorthand_alone_are_the_entry(heading: str, tmp_path: Path) -> None:
    text = f'Date,Exercise,{heading}\n2026-03-02,Snatch,"60x3, 70x2"\n2026-03-03,Snatch,"60x2, 66 miss"\n'
    assert read(tmp_path / "a", text).sets == [(60, 1, 3, 3), (70, 1, 2, 2), (60, 1, 2, 2), (66, 1, 1, 0)]
    plain = f"Date,Exercise,{heading}\n2026-03-02,Snatch,3\n2026-03-03,Snatch,4\n"
    assert read(tmp_path / "b", plain).sets == []
