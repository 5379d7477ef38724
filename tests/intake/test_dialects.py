"""The same log in every dialect gives the same tables; shuffled, split or broken logs keep their promises."""

import datetime as dt
import tempfile
from collections.abc import Sequence
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.intake import Intake, exit_code, read_folder
from reportgen.intake.kinds import KINDS as KINDS_OF_FILE
from reportgen.model.tables import SETS
from reportgen.trade import load
from reportgen.words import said
from tests.searches import examples, far

LIFTER = 'name = "Maren Holt"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
HEAD = ("date", "lift", "kg", "sets", "reps", "made", "miss", "variant", "effort", "session", "remark")
KINDS = ("forward", "behind", "press-out", "did not go under", "recovery", "declined")
Row = tuple[str, ...]


def read(files: dict[str, bytes], as_of: dt.date | None = None) -> Intake:
    with tempfile.TemporaryDirectory() as place:
        for name, raw in {"lifter.toml": LIFTER.encode(), **files}.items():
            path = Path(place) / name
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(raw)
        return read_folder(Path(place), as_of=as_of)


def table(intake: Intake) -> pd.DataFrame:
    assert intake.records is not None
    return intake.records.sets.drop(columns="line")


@st.composite
def rows(draw: st.DrawFn) -> Row:
    """One good row of training.csv."""
    day = draw(st.dates(dt.date(2025, 1, 1), dt.date(2026, 3, 1)))
    lift = draw(st.sampled_from(("snatch", "C&J", "back squat", "clean + front squat + jerk", "SN+OHS")))
    parts = lift.count("+") + 1
    reps = draw(st.lists(st.integers(1, 5), min_size=parts, max_size=parts))
    made = [draw(st.integers(0, n)) for n in reps]
    missed = sum(reps) - sum(made)
    kinds = draw(st.sampled_from(KINDS)) if missed and draw(st.booleans()) else ""
    kg = draw(st.integers(5, 1200)) / 2
    return (
        day.isoformat(),
        lift,
        f"{kg:g}",
        draw(st.sampled_from(("", "1", "3"))),
        "+".join(map(str, reps)),
        "" if not missed and draw(st.booleans()) else "+".join(map(str, made)),
        kinds,
        draw(st.sampled_from(("", "pause"))),
        draw(st.sampled_from(("", "8", "9.5"))),
        draw(st.sampled_from(("", "am", "pm"))),
        draw(st.sampled_from(("", "größer", "heavy, slow", "a;b"))),
    )


logs = st.lists(rows(), min_size=1, max_size=12)


def csv(log: Sequence[Row], *, mark: str = ",", end: str = "\n", head: Sequence[str] = HEAD) -> str:
    def cell(text: str) -> str:
        return '"' + text.replace('"', '""') + '"' if mark in text else text

    return "".join(mark.join(map(cell, row)) + end for row in (head, *log))


@examples(15, 40, gate=40)
@given(logs, st.data())
def test_a_messy_dialect_gives_the_tables_of_the_plain_one(log: list[Row], data: st.DataObject) -> None:
    plain = read({"training.csv": csv(log).encode()})
    mark = data.draw(st.sampled_from((",", ";", "\t")))
    end = data.draw(st.sampled_from(("\n", "\r\n", "\r")))
    encoding = data.draw(
        st.sampled_from(("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"))
    )
    comma = mark != "," and data.draw(st.booleans())

    def messy(row: Row) -> Row:
        kg = row[2].replace(".", ",") if comma else row[2]
        effort = row[8].replace(".", ",") if comma else row[8]
        lift = f"  {row[1].upper()} "
        return (row[0] + " ", lift, kg, row[3], row[4], row[5], row[6].title(), row[7].upper(), effort,
                *row[9:], "", "")  # fmt: skip

    text = csv(
        [messy(row) for row in log], mark=mark, end=end, head=(*[f" {h.title()} " for h in HEAD], "", "")
    )
    text = text.replace(end, end + end + mark * 3 + end, 1)  # a blank line and an all-empty one
    other = read({"training.csv": text.encode(encoding)})
    pd.testing.assert_frame_equal(table(plain), table(other))
    assert exit_code(other) == exit_code(plain) == 0


@examples(10, 25, gate=25)
@given(logs, st.randoms(use_true_random=False))
def test_the_order_of_rows_changes_nothing(log: list[Row], random: object) -> None:
    shuffled = list(log)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = (read({"training.csv": csv(some).encode()}) for some in (log, shuffled))
    order = [name for name in SETS if name != "line"]
    a, b = (table(x).sort_values(order).reset_index(drop=True) for x in (one, other))
    pd.testing.assert_frame_equal(a, b)
    assert one.records is not None
    assert other.records is not None
    assert one.records.as_of == other.records.as_of


@examples(10, 25, gate=25)
@given(logs, st.dates(dt.date(2025, 1, 1), dt.date(2026, 3, 1)))
def test_a_log_split_by_date_and_joined_is_the_log(log: list[Row], cut: dt.date) -> None:
    halves = (
        [row for row in log if row[0] < cut.isoformat()],
        [row for row in log if row[0] >= cut.isoformat()],
    )
    tables = [table(read({"training.csv": csv(half).encode()})) for half in halves if half]
    joined = pd.concat(tables, ignore_index=True)
    whole = table(read({"training.csv": csv([*halves[0], *halves[1]]).encode()}))
    pd.testing.assert_frame_equal(joined, whole)


@examples(10, 25, gate=25)
@given(logs)
def test_pounds_and_kilograms_give_the_same_loads(log: list[Row]) -> None:
    pound = load().value("pound")
    in_pounds = [(*row[:2], f"{float(row[2]) / pound:.9f}", *row[3:]) for row in log]
    head = tuple("lb" if name == "kg" else name for name in HEAD)
    kg = table(read({"training.csv": csv(log).encode()}))
    lb = table(read({"training.csv": csv(in_pounds, head=head).encode()}))
    as_load = tuple("load" if name == "kg" else name for name in HEAD)
    files = {
        "lifter.toml": f'unit = "lb"\n{LIFTER}'.encode(),
        "training.csv": csv(in_pounds, head=as_load).encode(),
    }
    pd.testing.assert_frame_equal(kg, lb, rtol=0, atol=1e-6)
    pd.testing.assert_frame_equal(lb, table(read(files)))


def adds_up(intake: Intake) -> None:
    for entry in intake.ledger:
        assert entry.rows_read == entry.rows_used + entry.rows_set_aside
        assert min(entry.rows_used, entry.rows_set_aside) >= 0
    assert (intake.records is None) == bool(intake.fatal)
    for problem in intake.problems:
        assert said(problem.message)
        assert problem.line >= 1
    if intake.records is not None:
        used = {entry.file: entry.rows_used for entry in intake.ledger}
        lines = intake.records.sets.groupby("file")["line"].nunique()
        assert dict(lines) == {name: used[name] for name in lines.index}


FILES = (*(kind.file for kind in KINDS_OF_FILE), "lifter.toml", "notes/a.md")


@examples(25, 60, gate=60)
@given(st.sampled_from(FILES), st.binary(max_size=300))
def test_no_bytes_raise_and_the_ledger_adds_up(file: str, raw: bytes) -> None:
    adds_up(read({"training.csv": csv([]).encode() + b"2026-03-01,snatch,50,1,2,,,,,,\n", file: raw}))


pieces = st.sampled_from(
    [
        "\n",
        "\r\n",
        "\r",
        ",",
        ";",
        "\t",
        '"',
        '""',
        " ",
        "\0",
        "\ufeff",
        "\ufffd",
        "date",
        "lift",
        "kg",
        "lb",
        "reps",
        "made",
        "miss",
        "2026-03-01",
        "2026-02-30",
        "snatch",
        "snach",
        "clean+jerk",
        "1+1",
        "50",
        "62,5",
        "1e9",
        "-1",
        "forward",
        "declined+behind",
        "٣",
        "💥",
        "made,miss",
    ]
)


@examples(60, 150, gate=150)
@given(st.lists(pieces, max_size=60).map("".join), st.booleans())
def test_no_text_like_a_log_raises_and_the_ledger_adds_up(text: str, headed: bool) -> None:
    head = "date,lift,kg,lb,reps,made,miss\n2026-03-01,snatch,50,,2,,\n" if headed else ""
    adds_up(read({"training.csv": (head + text).encode()}))


toml_pieces = st.sampled_from(
    (
        *("\n", "=", "[", "]", "[[", "]]", ".", '"', "'", "{", "}", "\\u0000", "64", "2026-01-01", "true"),
        *("goal", "best", "lift", "kg", "snatch", "name", "standards", "women", "columns", "training"),
        *("bands", "back_squat", "accepted"),
    )
)


@examples(25, 60, gate=60)
@given(st.lists(toml_pieces, max_size=40).map("".join))
def test_no_text_like_toml_raises(text: str) -> None:
    files = {"training.csv": b"date,lift,kg,reps\n2026-03-01,snatch,50,2\n"}
    adds_up(read({**files, "lifter.toml": text.encode()}))
    adds_up(read({**files, "lifter.toml": LIFTER.encode() + text.encode()}))


LINES = far(4_000, 20_000, gate=20_000)


@pytest.mark.parametrize("line", ['a","b', '"', '"a', '"""', '""x'])
def test_a_file_of_nothing_but_broken_quotes_still_adds_up(line: str) -> None:
    text = "date,lift,kg,reps,remark\n2026-03-01,snatch,50,2,\n" + f"{line}\n" * far(
        4_000, 20_000, gate=20_000
    )
    adds_up(read({"training.csv": text.encode()}))
