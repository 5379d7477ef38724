"""A log reads alike however it is laid out, and a miss is never lost in any layout."""

import datetime as dt
import tempfile
from collections import Counter
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen import words
from reportgen.analysis.dossier import build
from reportgen.intake import Intake, exit_code, read_folder
from reportgen.intake.grid import Grid
from reportgen.intake.kinds import TRAINING
from reportgen.intake.layouts import tidy
from reportgen.intake.sets import sets
from reportgen.intake.tables import Manner
from reportgen.model.export import as_json
from reportgen.trade import load
from tests.intake.books import book
from tests.intake.forms import FORMS, GOAL, HEAD, TIDY, Form, form
from tests.searches import far
from tests.trust.test_same_facts import placeless

Tries = Counter[tuple[str, str, float, int, int]]


def read(one: Form) -> Intake:
    with tempfile.TemporaryDirectory() as place:
        for file, text in {"lifter.toml": HEAD + one.top + GOAL + one.tables, **one.files}.items():
            path = Path(place) / file
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return read_folder(Path(place))


def tries(intake: Intake) -> Tries:
    """Every set that was tried: day, lift, load, repetitions, repetitions made; one count a set."""
    found: Tries = Counter()
    if intake.records is not None:
        table = intake.records.sets
        for row in table[["date", "lift", "load_kg", "reps", "made", "sets"]].itertuples(index=False):
            found[(str(row[0])[:10], row[1], round(row[2], 3), row[3], row[4])] += row[5]
    return found


def told(intake: Intake) -> list[str]:
    return [f"{one.place}: {words.said(one.message)}" for one in intake.problems]


def said(intake: Intake) -> str:
    return "\n".join(words.said(entry.layout) for entry in intake.ledger)


@pytest.fixture(scope="module")
def plain() -> Tries:
    return tries(read(form(TIDY, "rows")))


@pytest.mark.parametrize("name", FORMS)
def test_the_same_two_weeks_read_alike_in_every_form(name: str, plain: Tries) -> None:
    intake = read(FORMS[name])
    assert tries(intake) == plain
    assert told(intake) == []
    assert all(words in said(intake) for words in (FORMS[name].layout, *FORMS[name].says))


def figures(one: Form) -> object:
    """The facts of a form, without what tells of its files."""
    records = read(one).records
    assert records is not None
    return nameless(placeless(as_json(build(replace(records, folder=""), load()).facts)))


def nameless(data: object) -> object:
    if isinstance(data, dict):
        return {key: nameless(value) for key, value in data.items() if key not in ("file", "evidence")}
    return [nameless(each) for each in data] if isinstance(data, list) else data


@pytest.mark.parametrize("layout", sorted({one.layout for one in FORMS.values()}))
def test_the_facts_of_a_layout_are_those_of_the_tidy_log(layout: str) -> None:
    one = next(one for one in reversed(FORMS.values()) if one.layout == layout)
    assert figures(one) == figures(form(TIDY, "rows"))


def test_every_layout_has_three_dialects() -> None:
    assert all(count >= 3 for count in Counter(one.layout for one in FORMS.values()).values())


def test_sheets_of_a_workbook_with_a_month_each_are_one_log() -> None:
    head = ["Day", "Lift", "Load", "Reps", "How"]
    cells = [["Snatch log", "", "", "", ""], head]
    sheets = [
        (
            "January",
            [["5", "Snatch", "60", "2", ""], ["", "Snatch", "62.5", "1", "fail"], ["7", "FS", "80", "3", ""]],
        ),
        (
            "February",
            [["2", "Snatch", "61", "2", ""], ["", "Squat", "90", "3", ""], ["4", "FS", "82", "3", ""]],
        ),
    ]
    grids = tuple(
        Grid(
            file=f"training 2026.xlsx[{month}]",
            cells=[*cells, *rows],
            lines=np.arange(1, 6),
            decimal_comma=False,
            delimiter="",
            merged=frozenset({(3, 0)}),
        )
        for month, rows in sheets
    )
    made = tidy(grids, TRAINING, Manner(columns={"training": {"Day": "date"}}))
    readings = [sets(one, Manner()) for one in made]
    days = [str(day)[:10] for one in readings for day in one.table["date"]]
    assert days == ["2026-01-05", "2026-01-05", "2026-01-07", "2026-02-02", "2026-02-02", "2026-02-04"]
    assert [lift for one in readings for lift in one.table["lift"]][4] == "back squat"
    assert [int(made) for one in readings for made in one.table["made"]] == [2, 0, 3, 2, 3, 3]


def test_a_place_in_a_layout_is_the_cell_where_it_stands() -> None:
    text = 'Date,Snatch,C&J\n2026-01-05,"60x2, 3x70",80\n2026-01-07,60x2,\n'
    intake = read(form(text, "by lift"))
    (problem,) = intake.problems
    assert (problem.line, problem.column, problem.heading) == (2, 2, "Snatch")
    assert "3 repetitions with 70" in words.said(problem.message)
    assert "3 singles with 70" in words.said(problem.message)
    entry = next(one for one in intake.ledger if one.file == "training.csv")
    assert (entry.rows_read, entry.rows_used, entry.rows_set_aside) == (3, 2, 1)
    settled = read(form(text, "by lift", tables='[sources."training.csv"]\norder = "reps load"\n'))
    assert "70" not in str([words.said(p.message) for p in settled.problems])


def test_a_letter_that_steers_a_terminal_is_written_out_wherever_a_cell_is_quoted() -> None:
    intake = read(form("Date,Snatch,C&J\n2026-01-05,r\x00d2x2,80\n2026-01-07,60x2,82\n", "by lift"))
    (line,) = told(intake)
    assert line.count("r\\x00d") == 2
    assert line.isprintable()


def test_a_date_that_is_missing_once_is_no_form_of_a_log() -> None:
    rows = "".join(f"2026-01-{day:02},snatch,60,2\n" for day in range(1, 9))
    intake = read(form(f"date,lift,kg,reps\n{rows},snatch,60,2\n", "rows"))
    assert [words.said(problem.message) for problem in intake.problems if problem.level == "error"] == [
        "date is empty, expected a date such as 2026-03-01"
    ]


@pytest.mark.parametrize(
    ("note", "aside"),
    [
        ("missed one snatch", 0),
        ("missed the jerk twice", 2),
        ("missed two snatches", 1),
        ("no misses", 0),
        ("bad day", 0),
    ],
)
def test_a_remark_of_a_day_is_met_by_a_marked_set_of_that_lift(note: str, aside: int) -> None:
    text = f'Date,Snatch,Jerk,Notes\n2026-01-05,"60x2, 65 miss",80,{note}\n2026-01-07,60x2,81,\n'
    entry = next(one for one in read(form(text, "by lift")).ledger if one.file == "training.csv")
    assert entry.rows_set_aside == min(aside, 1)
    assert (entry.unclear_misses > 0) == bool(aside)


@pytest.mark.parametrize(
    ("sets", "reps", "remark", "aside"),
    [
        *((3, 1, "1/3", 1), (3, 1, "2 of 3", 1), (1, 2, "1/2", 1), (3, 1, "3/3", 0), (3, 1, "8/10", 0)),
        *((3, 1, "O X O", 1), (2, 1, "1 x", 1), (1, 1, "no :(", 1), (1, 1, "almost", 1), (1, 1, "easy", 0)),
        *((1, 1, "couldn't hold it", 1), (1, 1, "presque", 1), (1, 1, "almost easy", 0)),
    ],
)
def test_a_remark_that_may_tell_of_a_miss_sets_its_row_aside(
    sets: int, reps: int, remark: str, aside: int
) -> None:
    rows = f"2026-01-05,snatch,60,1,1,\n2026-01-05,snatch,70,{sets},{reps},{remark}\n"
    text = f"date,lift,kg,sets,reps,remark\n{rows}"
    entry = next(one for one in read(form(text, "rows")).ledger if one.file == "training.csv")
    assert (entry.rows_set_aside, entry.unclear_misses) == (aside, aside)


def test_sets_under_a_lift_nobody_knows_are_told_and_never_counted_for_the_lift_above() -> None:
    text = """2026-03-03
**Snatch**
- 40 x 3
felt good
- 45 x 3
**Grok pulls**
- 60 x 2

Odd thing
70x2
2026-03-05
Other thing
80x2
"""
    intake = read(Form(files={"training.txt": text}, layout="diary"))
    assert set(tries(intake)) == {("2026-03-03", "snatch", 40.0, 3, 3), ("2026-03-03", "snatch", 45.0, 3, 3)}
    entry = next(one for one in intake.ledger if one.file == "training.txt")
    assert (entry.rows_read, entry.rows_set_aside) == (5, 3)
    assert all(name in str(entry.problems) for name in ("Grok pulls", "Odd thing", "Other thing"))


def test_a_line_of_a_diary_may_begin_with_its_day_and_go_on() -> None:
    lines = {
        "2026-03-04 heavy day\nSnatch 60x1": "2026-03-04",
        "Thu 5 March easy\nSnatch 60x1": "2026-03-05",
        "Week 2 - Fri 6 Mar 2026\nSnatch 60x1": "2026-03-06",
        "Day 3: 7 Mar 2026\nSnatch 60x1": "2026-03-07",
        "16/3/2026 Snatch 60x1": "2026-03-16",
        "17/3/2026 Snatch\n60x1": "2026-03-17",
    }
    intake = read(Form(files={"training.txt": "\n".join(lines)}, layout="diary"))
    assert sorted(day for day, *_ in tries(intake)) == sorted(lines.values())


@pytest.mark.parametrize(
    "text",
    [
        ",,Planned,,,Actual,,\nDate,Exercise,kg,Sets,Reps,kg,Sets,Reps\n{}",
        "Date,Exercise,Planned kg,Planned sets,Planned reps,Done kg,Done sets,Done reps\n{}",
        "Date,Exercise,Target kg,Target sets,Target reps,Actual kg,Actual sets,Actual reps\n{}",
        ",,Block 1,,,Block 2,,\nDate,Exercise,kg,Sets,Reps,kg,Sets,Reps\n{}",
    ],
)
def test_what_was_planned_beside_what_was_done_never_counts_as_done(text: str) -> None:
    rows = (
        "2026-03-02,Snatch,70,3,1,70,2,1\n2026-03-04,Jerk,85,3,1,,,\n2026-03-06,Front squat,90,3,3,85,3,3\n"
    )
    intake = read(form(text.format(rows), "rows"))
    done = {("2026-03-02", "snatch", 70.0, 1, 1): 2, ("2026-03-06", "front squat", 85.0, 3, 3): 3}
    assert tries(intake) == ({} if "Block" in text else done)
    entry = next(one for one in intake.ledger if one.file == "training.csv")
    assert (entry.rows_read, entry.rows_used) == (3, 0 if "Block" in text else 2)


@pytest.mark.parametrize(
    ("heading", "tick", "left"),
    [
        ("Done", "✓", ""),
        ("Done?", "TRUE", "FALSE"),
        ("Completed", "x", ""),
        ("✓", "✔", "✗"),
        ("Erledigt", "ja", "nein"),
        ("Hecho", "sí", ""),
        ("Fait", "x", "-"),
        ("Status", "done", "planned"),
        ("Type", "done", "planned"),
        ("Remark", "good", "Planned"),
        ("Planned", "", "x"),
        ("Done", "2026-03-02", ""),
        ("Completed", "100 %", "0 %"),
        ("Done", "✓", "no - sick"),
    ],
)
def test_what_is_not_ticked_off_beside_what_is_counts_as_planned(heading: str, tick: str, left: str) -> None:
    days = {
        "2026-03-02,snatch,3,2,60": tick,
        "2026-03-04,snatch,3,2,62": left,
        "2026-03-06,snatch,3,2,64": tick,
    }
    head = f"Date,Lift,Sets,Reps,Kg,{heading}\n"
    intake = read(
        Form(
            layout="rows",
            files={"training.csv": head + "".join(f"{row},{mark}\n" for row, mark in days.items())},
        )
    )
    assert sorted(kg for _, _, kg, _, _ in tries(intake)) == [60, 64]
    assert [one.line for one in intake.problems if one.level == "error"] == [3]
    # Rows above the first tick are from before anybody ticked, and who says how many were made has done it.
    early = "".join(f"2026-02-0{n},snatch,3,2,5{n},\n" for n in (2, 4))
    counted = "2026-03-05,snatch,1,1,63,,0\n"
    more = "".join(f"{row},{mark},\n" for row, mark in days.items())
    whole = f"{head[:-1]},Made\n" + early.replace(",\n", ",,\n") + more + counted
    if heading == "Done" and tick == "✓":
        found = tries(read(Form(layout="rows", files={"training.csv": whole})))
        assert sorted(kg for _, _, kg, _, _ in found) == [52, 54, 60, 63, 64]
        assert ("2026-03-05", "snatch", 63, 1, 0) in found
    # Where nothing is ticked the column says nothing.
    blank = read(Form(layout="rows", files={"training.csv": head + "".join(f"{row},\n" for row in days)}))
    assert sorted(kg for _, _, kg, _, _ in tries(blank)) == [60, 62, 64]


@pytest.mark.parametrize(
    ("sets", "reps", "made", "counts"),
    [
        (3, 2, "6/6", 2),
        (3, 2, "2/2", 2),
        (1, 3, "2/3", 2),
        (1, 2, "0 of 2", 0),
        (3, 2, "5/6", None),
        (1, 2, "2/5", None),
    ],
)
def test_made_of_tried_counts_where_it_says_which_set(
    sets: int, reps: int, made: str, counts: int | None
) -> None:
    row = f"2026-03-02,snatch,60,{sets},{reps},{made}\n2026-03-04,snatch,50,1,1,\n"
    intake = read(Form(layout="rows", files={"training.csv": "date,lift,kg,sets,reps,made\n" + row}))
    expected = Counter({("2026-03-04", "snatch", 50, 1, 1): 1})
    if counts is not None:
        expected[("2026-03-02", "snatch", 60, reps, counts)] = sets
    assert tries(intake) == expected


@pytest.mark.parametrize(("name", "used"), [("Ana Holt", 1), ("Maren Holt", 0)])
def test_rows_of_several_lifters_in_one_table_are_never_taken_for_one(name: str, used: int) -> None:
    text = "Date,Athlete,Lift,kg,Reps\n2026-03-02,Ana,Snatch,60,1\n2026-03-02,Ben,Snatch,90,1\n"
    with tempfile.TemporaryDirectory() as place:
        (Path(place) / "training.csv").write_text(text)
        (Path(place) / "lifter.toml").write_text(HEAD.replace("Maren Holt", name) + GOAL)
        intake = read_folder(Path(place))
    assert sum(tries(intake).values()) == used
    entry = next(one for one in intake.ledger if one.file == "training.csv")
    assert (entry.rows_read, entry.rows_used, entry.rows_set_aside) == (2, used, 2 - used)
    assert "several lifters" in words.said(entry.problems[0].message)


def test_days_without_a_year_go_on_into_the_next_and_one_that_comes_again_is_asked_about() -> None:
    days = ["28.12.", "30.12.", "02.01.", "30.03.", "29.12."]
    rows = "".join(f"{day},Snatch,60,1\n" for day in days)
    got = {day for day, *_ in tries(read(form(f"Log 2025,,,\nDate,Lift,kg,Reps\n{rows}", "rows")))}
    assert got == {"2025-12-28", "2025-12-30", "2026-01-02", "2026-03-30", "2026-12-29"}
    again = read(form(f"Log 2025,,,\nDate,Lift,kg,Reps\n{rows}30.12.,Snatch,61,1\n", "rows"))
    assert not {day for day, *_ in tries(again)} & {"2025-12-30", "2026-12-30"}


def test_a_column_of_results_that_counts_is_not_taken_for_yes() -> None:
    rows = "2026-01-05,Snatch,70,3,1,2\n2026-01-06,Snatch,70,3,1,1\n2026-01-07,Snatch,70,1,1,1\n"
    intake = read(form(f"Date,Lift,kg,Sets,Reps,Success\n{rows}", "rows"))
    assert tries(intake) == {("2026-01-07", "snatch", 70.0, 1, 1): 1}


@pytest.mark.parametrize("days", [("5", "7"), ("2026-01-05", "2026-01-07"), ("5.", "7.")])
def test_a_column_headed_day_holds_dates_where_days_stand_in_it(days: tuple[str, str]) -> None:
    cells = [["Day", "Lift", "kg", "Reps"], [days[0], "Snatch", "60", "2"], [days[1], "Jerk", "80", "1"]]
    grid = Grid(
        file="training.xlsx[Jan 2026]",
        cells=[*cells],
        lines=np.arange(1, 4),
        decimal_comma=False,
        delimiter="",
    )
    (made,) = tidy((grid,), TRAINING, Manner())
    table = sets(made, Manner()).table
    assert [str(day)[:10] for day in table["date"]] == ["2026-01-05", "2026-01-07"]
    counted = [["1", *cells[1][1:]], ["2", *cells[2][1:]]]
    (made,) = tidy((replace(grid, cells=[cells[0], *counted]),), TRAINING, Manner())
    assert made.whole  # Day 1 and Day 2 may be the first and the second session


def test_weeks_without_their_first_day_are_asked_for_it() -> None:
    one = FORMS["grid of weeks"]
    intake = read(Form(files=one.files, layout=one.layout))
    assert intake.records is None
    assert "first_week = 2026-01-05" in words.said(intake.fatal[0].message)


LIFTS = ("snatch", "clean and jerk", "front squat", "back squat")
Log = dict[dt.date, dict[str, list[tuple[float, int, int, bool]]]]


@st.composite
def logs(draw: st.DrawFn) -> Log:
    """Some days, some lifts a day, and for each a few loads: load, sets, repetitions, missed."""
    found: Log = {}
    for day in draw(st.lists(st.integers(0, 60), min_size=1, max_size=4, unique=True).map(sorted)):
        lifts: dict[str, list[tuple[float, int, int, bool]]] = {}
        for lift in draw(st.lists(st.sampled_from(LIFTS), min_size=1, max_size=3, unique=True)):
            loads = draw(st.lists(st.integers(40, 260), min_size=1, max_size=4, unique=True).map(sorted))
            some = []
            for half in loads:
                single = draw(st.booleans())
                sets_, reps = (1, 1) if single else (draw(st.integers(1, 6)), draw(st.integers(2, 6)))
                some.append((half / 2, sets_, reps, single and draw(st.booleans())))
            lifts[lift] = some
        found[dt.date(2026, 1, 5) + dt.timedelta(days=day)] = lifts
    return found


def truth(log: Log) -> Tries:
    found: Tries = Counter()
    for day, lifts in log.items():
        for lift, some in lifts.items():
            for kg, sets_, reps, missed in some:
                found[(day.isoformat(), lift, kg, reps, 0 if missed else reps)] += sets_
    return found


def work(some: list[tuple[float, int, int, bool]], mark: str) -> str:
    """Loads in shorthand; singles that were missed carry the mark."""
    pieces = [
        (mark.format(f"{kg:g}") if missed else f"{kg:g}")
        if (sets_, reps) == (1, 1)
        else f"{kg:g}x{reps}x{sets_}"
        for kg, sets_, reps, missed in some
    ]
    return ", ".join(pieces)


def in_rows(log: Log, mark: str) -> Form:
    rows = "".join(
        f'{day},{lift},{kg:g},{sets_},{reps},"{mark.format("").strip() if missed else ""}"\n'
        for day, lifts in log.items()
        for lift, some in lifts.items()
        for kg, sets_, reps, missed in some
    )
    return form("date,lift,kg,sets,reps,remark\n" + rows, "rows")


def by_lift(log: Log, mark: str) -> Form:
    rows = [",".join(["Date", *LIFTS])]
    for day, lifts in log.items():
        rows.append(",".join([day.isoformat(), *(f'"{work(lifts.get(lift, []), mark)}"' for lift in LIFTS)]))
    return form("\n".join(rows) + "\n", "by lift")


def in_weeks(log: Log, mark: str) -> Form:
    names = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    weeks = range(1, 11)
    rows = ["," + ",".join(f"Week {week}" for week in weeks)]
    for number, name in enumerate(names):
        rows.append(name)
        for lift in LIFTS:
            cells = []
            for week in weeks:
                day = dt.date(2026, 1, 5) + dt.timedelta(days=7 * (week - 1) + number)
                cells.append(f'"{work(log.get(day, {}).get(lift, []), mark)}"')
            rows.append(",".join([lift, *cells]))
    return form("\n".join(rows) + "\n", "weeks", top="first_week = 2026-01-05\n")


def as_form(log: Log, mark: str) -> Form:
    rows = "".join(
        f'{day} 18:20:00,{lift},"{work(some, mark)}"\n'
        for day, lifts in log.items()
        for lift, some in lifts.items()
    )
    return form("Timestamp,Exercise,Work\n" + rows, "form")


def as_diary(log: Log, mark: str) -> Form:
    lines = []
    for day, lifts in log.items():
        lines += [f"{day:%A} {day.day} {day:%B} {day.year}"]
        lines += [f"{lift}: {work(some, mark)}" for lift, some in lifts.items()]
    return form("\n".join(lines) + "\n", "diary", file="training.txt")


LAYOUTS = (in_rows, by_lift, in_weeks, as_form, as_diary)


@settings(max_examples=15, deadline=None)
@given(logs())
def test_a_log_written_out_in_every_layout_gives_the_same_sets(log: Log) -> None:
    for write in LAYOUTS:
        intake = read(write(log, "{} miss"))
        assert tries(intake) == truth(log), (write.__name__, [str(one) for one in intake.problems])


_MARKS = (
    "{} x|{}x|{} X|({})|{}-|-{}|{} f|{} F|{}✗|{} ❌|{} ✘|{} no|{} no lift|{}x0|{} fail|{} failed"
    "|{} missed|{} miss!|{} (miss)|{} (x)|{} m|{} n|{} raté|{} échec|{} Fehlversuch|{} ungültig"
    "|{} nulo|{} fallo|{} nullo|{} spalone|{} nieudane|{} не взял|{} almost, missed it"
    "|{} missed forward|{} lost behind|{} 0/1|miss {}|x{}|{} ?miss|{}: miss|{} - miss"
    "|{} dropped it|{} not made|{} didn't make it|{} bailed"
)
MARKS = _MARKS.split("|")


@settings(max_examples=60, deadline=None)
@given(logs(), st.sampled_from(MARKS), st.sampled_from(LAYOUTS))
def test_a_miss_is_read_or_its_row_is_set_aside_whatever_marks_it(log: Log, mark: str, write: object) -> None:
    if write is in_rows and mark in (
        "({})",
        "{}-",
        "-{}",
        "{}x0",
        "x{}",
        "{} m",
        "{} n",
        "{} 0/1",
        "{}: miss",
        "{} - miss",
    ):
        return  # not marks that stand alone in a remark
    intake = read(write(log, mark))  # type: ignore[operator]
    found, true = tries(intake), truth(log)
    for one, count in found.items():
        assert count <= true[one], (mark, one, told(intake), said(intake))
    if found != true:
        assert exit_code(intake) > 0
    for entry in intake.ledger:
        assert entry.rows_read == entry.rows_used + entry.rows_set_aside


_PAIRS = (
    "yes/no|✓/✗|1/0|G/N|good/no lift|o/x|true/false|hit/miss|ja/nein|oui/non|tak/nie|да/нет|sí/no|/x"
    "|made/failed|/✗|ok/raté|/no|gültig/ungültig|PR/miss|+/-|y/n|TRUE/FALSE|✅/❌|good lift/no good"
    "|/missed|3 white/1 white"
)
PAIRS = [tuple(pair.split("/")) for pair in _PAIRS.split("|")]
RESULTS = (
    *(
        "Result",
        "Valid",
        "Made",
        "Success",
        "OK",
        "Lights",
        "Twice?",
        "gültig",
        "Zaliczone",
        "Взято",
        "Résultat",
    ),
    *(
        "remark",
        "variant",
        "session",
        "aid",
        "Notes",
        "foo",
        "effort",
        "miss",
        "Good lift?",
        "Outcome",
        "made it",
    ),
)


#: Of the pairs a heading takes every third by itself, each pair with a third of the headings.
ONE_OF = far(3, 1)
TEXTS = ("remark", "variant", "session", "Notes", "aid", "miss")
NOES = ("0", "N", "n", "nie", "-", "false", "FALSE", "no", "non", "nein", "нет", "1 white")


@pytest.mark.parametrize("heading", RESULTS)
def test_a_miss_is_read_or_set_aside_in_a_column_of_any_name(heading: str) -> None:
    for good, bad in PAIRS[RESULTS.index(heading) % ONE_OF :: ONE_OF]:
        if (heading in TEXTS and bad in NOES) or (heading, bad) == ("aid", "x"):
            continue  # in words about anything, a no alone is not about the lift
        rows = "".join(
            f"2026-01-{day:02},snatch,{kg},{reps},{word}\n"
            for day, kg, reps, word in ((5, 60, 1, good), (5, 70, 1, bad), (7, 61, 3, good), (7, 71, 3, bad))
        )
        intake = read(form(f"date,lift,kg,reps,{heading}\n{rows}", "rows"))
        wrong = [one for one in tries(intake) if one[2] in (70, 71) and one[3] == one[4]]
        assert wrong == [], (good, bad, said(intake), told(intake))
        lost = [one for one in tries(intake) if one[2] == 71]
        assert exit_code(intake) > 0 or lost  # of three repetitions it can't be told which was missed


def test_a_picture_between_a_lift_and_its_sets_says_nothing_of_them() -> None:
    text = "Mon 5 Jan 2026\nBack squat 🦵 80x4x4\nSnatch 🔥: 50, 55 ❌\nFri 9 Jan 2026\nSnatch 52"
    found = tries(read(form(text, "diary", file="training.txt")))
    assert sum(found.values()) == 7
    assert found["2026-01-05", "snatch", 55.0, 1, 0] == 1


def tabs(
    folder: Path, sheets: dict[str, int], top: str = "", title: str = "", file: str = "training.xlsx"
) -> Intake:
    """A workbook with a tab a week: its name, and the Monday's load."""
    head: list[list[object]] = [[title]] if title else []
    rows: dict[str, list[list[object]]] = {
        name: [*head, ["Day", "Exercise", "Weight (kg)", "Sets", "Reps"], ["Monday", "Snatch", kg, 2, 2],
               [None, "Back Squat", 100, 3, 3], ["Friday", "Snatch", 60, 1, 2]]
        for name, kg in sheets.items()
    }  # fmt: skip
    book(folder / file, rows)
    (folder / "lifter.toml").write_text(
        top + 'name = "Iven Tabor"\nstandards = "men"\n[[goal]]\nlift = "snatch"\nkg = 90\n', encoding="utf-8"
    )
    return read_folder(folder)


@pytest.mark.parametrize(
    ("top", "names", "title"),
    [
        ("first_week = 2026-01-05\n", ("Week 1", "Week 2"), ""),
        ("first_week = 2026-01-05\n", ("Week 1 - build", "Wk 2 (deload)"), "Plan"),
        ("first_week = 2026-01-05\n", ("KW 1", "KW 2"), ""),
        ("", ("5 Jan 2026", "12 Jan 2026"), ""),
        ("", ("05.01.2026", "12.01.2026"), ""),  # 1 May 2026 is a Friday, as the rows say
        ("", ("Week 1 (5 Jan 2026)", "Week 2 (12 Jan 2026)"), ""),
    ],
)
def test_a_tab_a_week_gives_its_rows_their_days(
    top: str, names: tuple[str, str], title: str, tmp_path: Path
) -> None:
    records = tabs(tmp_path, dict(zip(names, (70, 71), strict=True)), top, title).records
    assert records is not None
    days = records.sets.groupby("load_kg")["date"].first()
    assert str(days[70.0])[:10] == "2026-01-05"
    assert str(days[71.0])[:10] == "2026-01-12"
    assert str(records.sets["date"].max())[:10] == "2026-01-16"
    assert len(records.sets) == 6


def test_a_tab_a_session_gives_its_rows_their_day_where_there_are_several(tmp_path: Path) -> None:
    head, days = ["Exercise", "kg", "Sets", "Reps"], ("Mon 5 Jan 2026", "7 Jan 2026", "2026-01-09")
    for count, used in ((3, 6), (2, 0)):
        folder = tmp_path / str(count)
        rows: list[list[object]] = [[*head], ["Snatch", 70, 2, 2], ["Back Squat", 100, 3, 3]]
        sheets = dict.fromkeys(days[:count], rows)
        book(folder / "training.xlsx", sheets)
        (folder / "lifter.toml").write_text(
            'name = "Iven Tabor"\nstandards = "men"\n' + GOAL, encoding="utf-8"
        )
        got = read_folder(folder)
        assert sum(entry.rows_used for entry in got.ledger if entry.file != "lifter.toml") == used
        if got.records is not None:
            assert [f"{day:%d}" for day in got.records.sets["date"].drop_duplicates()] == ["05", "07", "09"]


@pytest.mark.parametrize(
    ("one", "two"),
    [
        (("Week 1", "Week 2"), ("Week 1", "Week 3")),  # a workbook a block
        (("Week 5", "Week 6"), ("Week 1", "Week 2")),
        (("Week 1", "Week 2"), ("Week 2 (2)", "Week 3")),
        (("4 Jan 2026", "11 Jan 2026"), ("18 Jan 2026", "25 Jan 2026")),  # Sundays
    ],
)
def test_tabs_whose_week_nobody_knows_are_told_and_laid_on_no_day(
    one: tuple[str, ...], two: tuple[str, ...], tmp_path: Path
) -> None:
    top = "first_week = 2026-01-05\n"
    for file, names in (("one", one), ("two", two)):
        got = tabs(tmp_path, dict.fromkeys(names, 70), top, file=f"training/{file}.xlsx")
    assert got.records is None
    assert "its tab is called a week that another is called, too" in words.said(got.fatal[0].message)


def test_weeks_that_are_counted_need_their_first_and_the_tabs_own_name_goes_before_a_title(
    tmp_path: Path,
) -> None:
    without = tabs(tmp_path / "a", {"Week 1": 70})
    assert "first_week = 2026-01-05" in words.said(without.fatal[0].message)
    named = tabs(tmp_path / "b", {"13 Jul 2026": 70}, "first_week = 2026-01-05\n", "Block 1 - Week 3")
    assert named.records is not None
    assert str(named.records.sets["date"].min())[:10] == "2026-07-13"


def test_a_tab_that_is_called_planned_is_not_done(tmp_path: Path) -> None:
    top = "first_week = 2026-01-05\n"
    got = tabs(tmp_path, {"Week 1": 70, "Week 2": 71, "Week 3 PLAN": 75, "Week 4 - next week": 77}, top)
    assert got.records is not None
    assert {*got.records.sets["load_kg"]} == {70.0, 71.0, 100.0, 60.0}
    two = tabs(tmp_path / "two", {"Week 1": 70, "Week 2 PLAN": 75}, top)
    assert two.records is not None
    assert {*two.records.sets["load_kg"]} == {70.0, 100.0, 60.0}
    named = tabs(tmp_path / "all", {"Plan - Week 1": 70, "Plan - Week 2": 75}, top)  # it is the name of all
    assert sum(entry.rows_used for entry in named.ledger) > 1


@pytest.mark.parametrize("inside", [["Monday"], ["5 Jan 2026"], ["Snatch", 60, 1, 1]])
def test_tabs_that_lie_a_week_apart_or_name_days_inside_are_no_sessions(
    inside: list[object], tmp_path: Path
) -> None:
    rows: list[list[object]] = [["Exercise", "kg", "Sets", "Reps"], inside, ["Snatch", 70, 2, 2]]
    book(tmp_path / "training.xlsx", dict.fromkeys(("5 Jan 2026", "12 Jan 2026", "19 Jan 2026"), rows))
    (tmp_path / "lifter.toml").write_text('name = "Iven Tabor"\nstandards = "men"\n' + GOAL, encoding="utf-8")
    assert read_folder(tmp_path).records is None


def test_many_sheets_read_alike_are_told_by_the_first(tmp_path: Path) -> None:
    top = "first_week = 2026-01-05\n"
    told = {}
    for many in (3, 4):
        got = tabs(tmp_path / str(many), {f"Week {n}": 60 + n for n in range(1, many + 1)}, top)
        told[many] = words.said(next(one for one in got.ledger if one.file == "training.xlsx").layout)
    assert [told[many].count("[Week") for many in (3, 4)] == [3, 1]
    assert told[4].endswith("3 more sheets read alike")


def test_a_tab_without_a_tick_beside_others_with_them_is_not_done_and_a_miss_without_one_is_told(
    tmp_path: Path,
) -> None:
    head: list[object] = ["Day", "Exercise", "kg", "Sets", "Reps", "Done", "Notes"]
    ticked: list[list[object]] = [
        head,
        ["Monday", "Snatch", 70, 2, 2, "x", None],
        ["Friday", "Snatch", 75, 1, 1, None, "missed"],
    ]
    planned: list[list[object]] = [head, ["Monday", "Snatch", 90, 2, 2, None, None]]
    book(tmp_path / "training.xlsx", {"Week 3": planned, "Week 2": ticked, "Week 1": ticked})
    text = 'first_week = 2026-01-05\nname = "Iven Tabor"\nstandards = "men"\n' + GOAL
    (tmp_path / "lifter.toml").write_text(text, encoding="utf-8")
    got = read_folder(tmp_path)
    assert got.records is not None
    assert got.records.sets["load_kg"].tolist() == [70.0, 70.0]
    assert sum(entry.unclear_misses for entry in got.ledger) == 2
