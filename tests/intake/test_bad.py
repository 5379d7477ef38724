"""Bad files and what is said about them, compared whole.

`tests/bad/NAME.csv` is the training.csv of a plain lifter, `tests/bad/NAME/` a whole folder; what git cannot
hold well is built below. To see what is said now: `python tests/intake/test_bad.py NAME`; with `--accept`
it is written to the .expect files, which somebody reads before they are kept.
"""

import datetime as dt
import re
import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

import reportgen.intake
from reportgen.intake import Intake, exit_code, read_folder, read_squad
from reportgen.words import messages, said
from tests.intake.books import book

BAD = Path(__file__).parents[1] / "bad"
INTAKE = Path(reportgen.intake.__file__).parent
LIFTER = 'name = "Maren Holt"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
TRAINING = "date,lift,kg,reps\n2026-03-01,snatch,50,2\n"


def large(folder: Path) -> None:
    with (folder / "bodymass.csv").open("wb") as stream:
        stream.truncate(64 * 2**20 + 1)


def many_lines(folder: Path) -> None:
    (folder / "bodymass.csv").write_bytes(b"\n" * 2_000_001)


def many_columns(folder: Path) -> None:
    (folder / "bodymass.csv").write_text(
        "date,kg," + ",".join(f"c{i}" for i in range(199)) + "\n2026-03-01,60\n"
    )


def long_cell(folder: Path) -> None:
    (folder / "training.csv").write_text(TRAINING + "2026-03-02,snatch,50," + "9" * 131_073 + "\n")


def long_quoted_cell(folder: Path) -> None:
    text = (
        'date,lift,kg,reps,remark\n2026-03-02,snatch,50,2,"' + "9" * 131_073 + '"\n2026-03-03,snatch,50,2,\n'
    )
    (folder / "training.csv").write_text(text)


def link_out(folder: Path) -> None:
    outside = folder.parent / "outside.csv"
    outside.write_text("date,kg\n2026-03-01,60\n")
    (folder / "bodymass.csv").symlink_to(outside)


def linked_training(folder: Path) -> None:
    outside = folder.parent / "outside.csv"
    (folder / "training.csv").rename(outside)
    (folder / "training.csv").symlink_to(outside)


def link_to_itself(folder: Path) -> None:
    (folder / "bodymass.csv").symlink_to(folder / "bodymass.csv")


def folder_for_file(folder: Path) -> None:
    (folder / "pain.csv").mkdir()


def workbook(folder: Path) -> None:
    (folder / "training.csv").write_bytes(b"PK\x03\x04" + bytes(100))


def workbook_for_toml(folder: Path) -> None:
    (folder / "lifter.toml").write_bytes(b"PK\x03\x04" + bytes(100))


def locked(folder: Path) -> None:
    # What a locked workbook looks like from outside: a compound file with a package that is encrypted.
    package = "EncryptedPackage".encode("utf-16-le")
    (folder / "training.csv").unlink()
    (folder / "training.xlsx").write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(500) + package)


def far_corner(folder: Path) -> None:
    (folder / "training.csv").unlink()
    made = openpyxl.load_workbook(book(folder / "training.xlsx", {"Log": [["date", "lift", "kg", "reps"]]}))
    made["Log"]["GZ1048576"] = "x"
    made.save(folder / "training.xlsx")


def formatted(folder: Path) -> None:
    (folder / "training").mkdir()
    (folder / "training" / "notes.txt").write_text(r"{\rtf1\ansi 2026-01-05\par Snatch 60x2\par}")
    (folder / "training" / "photo.jpg").write_bytes(b"\xff\xd8")
    (folder / "more log.txt").write_text("2026-01-05\nSnatch 60x2\n")


def no_diary(folder: Path) -> None:
    (folder / "training.csv").unlink()
    (folder / "training.txt").write_text("went well\nnothing to tell\n")


def web_page(folder: Path) -> None:
    (folder / "training.csv").unlink()
    (folder / "Training.xls").write_text("<html><table><tr><td>date</td></tr></table></html>")


def sheets(folder: Path) -> None:
    head: list[Any] = ["date", "lift", "kg", "reps", "made", "date"]
    rows = [
        head,
        ["2026-03-01", "snatch", 50, 2],
        ["2026-03-03", "snatch", "5O", 2],
        ["2026-03-04", "snatch"],
    ]
    lost = ["2026-03-05", "snatch", 50, 2, "=D5-1"]
    (folder / "training.csv").unlink()
    book(folder / "training.xlsx", {"March": [*rows, lost], "April": rows[:1], "Old": rows}, hidden=("Old",))
    book(
        folder / "log.xlsx", {"Body mass": [["date", "kg"], ["2026-03-01", 61.5]], "Ideas": [["more squats"]]}
    )
    book(folder / "bodymas.xlsx", {"Sheet": [["date", "kg"]]})


def tabs_of_one_week(folder: Path) -> None:
    rows: list[list[Any]] = [["Day", "Exercise", "kg", "Reps"], ["Monday", "Snatch", 50, 2]]
    (folder / "training.csv").unlink()
    book(folder / "training.xlsx", {"Week1": rows, "Week1(2)": rows, "Week2": rows})


def twins(folder: Path) -> None:
    (folder / "Training.CSV").write_text("date,lift,kg,reps\n2026-03-02,snatch,52,2\n")


def mixed_letters(folder: Path) -> None:
    text = "date,lift,kg,reps,remark\n2026-03-01,snatch,50,2,größer\n2026-03-02,snatch,50,2,".encode()
    (folder / "training.csv").write_bytes(text + "spät\n".encode("cp1252"))


def mixed_note(folder: Path) -> None:
    (folder / "notes").mkdir()
    head = "Date: 2026-03-01\nKind: remark\nTitle: größer\n\n".encode()
    (folder / "notes" / "march.md").write_bytes(head + "spät\n".encode("cp1252"))


def long_note(folder: Path) -> None:
    (folder / "notes").mkdir()
    (folder / "notes" / "march.md").write_text("Date: 2026-03-01\n\n" + "x" * 256 * 2**10)


def dotted_toml(folder: Path) -> None:
    (folder / "lifter.toml").write_text("a." * 20_000 + "a = 1")


def no_letter(folder: Path) -> None:
    (folder / "training.csv").write_bytes(
        TRAINING.encode() + b"2026-03-02,sn\x81tch,50,2\n2026-03-03,snatch,5\x000,2\n"
    )


def many_odd(folder: Path) -> None:
    rows = "".join(f"2026-03-02,snatch,{kg},1\n" for kg in range(40, 65))
    (folder / "training.csv").write_text(TRAINING + rows + rows)


def no_lifter(folder: Path) -> None:
    (folder / "lifter.toml").unlink()


def no_training(folder: Path) -> None:
    (folder / "training.csv").unlink()


def linked_lifter(folder: Path) -> None:
    outside = folder.parent / "outside.toml"
    (folder / "lifter.toml").rename(outside)
    (folder / "lifter.toml").symlink_to(outside)


def deep_toml(folder: Path) -> None:
    (folder / "lifter.toml").write_text("a = " + "[" * 20_000)


def long_number(folder: Path) -> None:
    (folder / "lifter.toml").write_text("born = " + "9" * 5000)


def name_of_no_letters(folder: Path) -> None:
    (folder / "notes").mkdir()
    (folder / "notes" / "m\udcff.md").write_bytes(b"")


def no_misses(folder: Path) -> None:
    days = (dt.date(2025, 1, 6) + dt.timedelta(days=4 * n) for n in range(110))
    rows = "".join(f"{day},snatch,{50 + day.day % 3},2\n" for day in days)
    (folder / "training.csv").write_text("date,lift,kg,reps\n" + rows)


def coloured(folder: Path) -> None:
    (folder / "training.csv").unlink()
    rows: list[list[Any]] = [
        ["date", "lift", "kg", "reps"],
        *([f"2026-03-{day:02}", "snatch", 50 + day, 1] for day in range(1, 9)),
    ]
    made = openpyxl.load_workbook(book(folder / "training.xlsx", {"Log": rows}))
    made["Log"]["C4"].fill = PatternFill("solid", fgColor="FF0000")
    made["Log"]["C7"].font = Font(color="C00000")
    made["Log"]["C8"].font = Font(strike=True)
    made["Log"]["B2"].fill = PatternFill("solid", fgColor="00FF00")
    for cell in made["Log"]["D"]:
        cell.fill = PatternFill("solid", fgColor="DDEEFF")
    made.save(folder / "training.xlsx")


def commented(folder: Path) -> None:
    (folder / "training.csv").unlink()
    rows: list[list[Any]] = [
        ["date", "lift", "kg", "reps"],
        *([f"2026-03-{day:02}", "snatch", 50 + day, 1] for day in range(1, 9)),
    ]
    made = openpyxl.load_workbook(book(folder / "training.xlsx", {"Log": rows}))
    for name, told in (("C1", "in kg"), ("C4", "missed"), ("D7", "lost behind"), ("G30", "old")):
        made["Log"][name].comment = Comment(told, "R")
    made.save(folder / "training.xlsx")


def double_ending(folder: Path) -> None:
    (folder / "training.csv").rename(folder / "training.csv.txt")


def log_in_workbook(folder: Path) -> None:
    (folder / "training.csv").write_text("date,lift,kg,reps\n")
    (folder / "old log.xlsx").write_bytes(b"PK\x03\x04" + bytes(100))


BUILDERS: tuple[Callable[[Path], None], ...] = (
    large,
    many_lines,
    many_columns,
    long_cell,
    long_quoted_cell,
    link_out,
    linked_training,
    link_to_itself,
    folder_for_file,
    workbook,
    workbook_for_toml,
    locked,
    far_corner,
    web_page,
    formatted,
    no_diary,
    sheets,
    tabs_of_one_week,
    twins,
    mixed_letters,
    mixed_note,
    no_letter,
    many_odd,
    no_lifter,
    no_training,
    linked_lifter,
    deep_toml,
    dotted_toml,
    long_note,
    long_number,
    name_of_no_letters,
    no_misses,
    coloured,
    commented,
    double_ending,
    log_in_workbook,
)
BUILT = {f"built_{build.__name__}": build for build in BUILDERS}
NAMES = sorted(
    {path.stem for path in BAD.glob("*.csv")} | {p.name for p in BAD.iterdir() if p.is_dir()} | {*BUILT}
)


def lay_out(name: str, folder: Path) -> None:
    """Put one bad folder in place."""
    if (BAD / name).is_dir():
        shutil.copytree(BAD / name, folder)
        return
    folder.mkdir()
    (folder / "lifter.toml").write_text(LIFTER)
    (folder / "training.csv").write_text(TRAINING)
    if name in BUILT:
        BUILT[name](folder)
    else:
        shutil.copy(BAD / f"{name}.csv", folder / "training.csv")


def told(intake: Intake) -> str:
    """Everything that intake says about a folder, a line each."""
    lines = [f"exit {exit_code(intake)}"]
    for entry in intake.ledger:
        rows = f"{entry.rows_read} read, {entry.rows_used} used, {entry.rows_set_aside} set aside"
        lines.append(f"{entry.file}: {rows}")
    for problem in intake.problems:
        level = "fatal" if problem in intake.fatal else problem.level
        lines += [
            f"{level} {problem.place}: {said(problem.message)}",
            f"    heading {problem.heading!r}, found {problem.found!r}",
        ]
        lines.append(f"    expected {said(problem.expected)}")
    if intake.records is not None:
        lines.append(f"as of {intake.records.as_of}, {len(intake.records.sets)} sets")
    return "\n".join(lines) + "\n"


def said_of(name: str, folder: Path) -> str:
    """What is said about one bad folder; a squad's folder holds a squad.toml."""
    lay_out(name, folder)
    if (folder / "squad.toml").exists():
        squad, problems = read_squad(folder)
        return (
            "".join(
                f"{p.level} {p.place}: {said(p.message)}\n    expected {said(p.expected)}\n" for p in problems
            )
            + f"{squad}\n"
        )
    return told(read_folder(folder))


@pytest.mark.parametrize("name", NAMES)
def test_a_bad_file_is_told_as_expected(name: str, tmp_path: Path) -> None:
    expected = (BAD / f"{name}.expect").read_text(encoding="utf-8")
    assert said_of(name, tmp_path / "maren") == expected


def test_every_expectation_has_its_bad_file() -> None:
    assert sorted(path.stem for path in BAD.glob("*.expect")) == NAMES


def shapes(*tables: str) -> dict[str, re.Pattern[str]]:
    """A pattern a message of these tables: holes match anything."""
    return {
        key: re.compile(".+".join(re.escape(part) for part in re.split(r"\{.+?\}", words)))
        for key, words in messages.messages("intake").items()
        if isinstance(words, str) and key.rpartition(".")[0] in tables and key not in SILENT
    }


#: What no bad file can make said: nothing, words put round another message, what a named copy leaves out.
SILENT = {"intake.nothing", "intake.near", "intake.left_out", "intake.want.names", "intake.want.one"}


def lines_of_all() -> list[str]:
    return [line for path in BAD.glob("*.expect") for line in path.read_text(encoding="utf-8").splitlines()]


def test_no_sentence_ships_without_a_bad_file_that_makes_it() -> None:
    lines = [re.sub(r"^(error|odd|fatal) \S+?: ", "", line) for line in lines_of_all()]
    lines = [re.sub(r"; did you mean '.*'\?$", "", line) for line in lines]
    some = shapes("intake", "intake.file")
    assert [name for name, shape in some.items() if not any(map(shape.fullmatch, lines))] == []


def test_no_expectation_ships_without_a_bad_file_that_fails_it() -> None:
    wanted = [
        line.removeprefix("    expected ") for line in lines_of_all() if line.startswith("    expected ")
    ]
    tables = ("head", "goal", "best", "sources", "bands", "squad")
    some = shapes("intake.want", "intake.file.want", *(f"intake.want.{one}" for one in tables))
    assert [name for name, shape in some.items() if not any(map(shape.fullmatch, wanted))] == []


EXPECTED = re.compile(r'expect\(\s*"(\w+)"')


def test_every_expectation_that_a_reader_names_is_there() -> None:
    code = "".join(path.read_text(encoding="utf-8") for path in INTAKE.rglob("*.py"))
    missing = [name for name in EXPECTED.findall(code) if not messages.exists(f"intake.want.{name}")]
    assert missing == []


if __name__ == "__main__":
    for bad in [name for name in sys.argv[1:] if name != "--accept"] or NAMES:
        with tempfile.TemporaryDirectory() as place:
            now = said_of(bad, Path(place) / "maren")
        if "--accept" in sys.argv:
            (BAD / f"{bad}.expect").write_text(now, encoding="utf-8")
        sys.stdout.write(f"--- {bad}\n{now}")
