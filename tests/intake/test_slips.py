"""Slips in lifter.toml are told in words with the line to paste, and a cure never changes what was meant."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.intake import read_folder
from reportgen.intake.slips import cure

TOML = 'standards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'


@pytest.mark.parametrize(
    ("line", "mended"),
    [
        ("name = Maren", 'name = "Maren"'),
        ("name = Maren Holt  # me", 'name = "Maren Holt"  # me'),
        ("name = “Maren”", 'name = "Maren"'),
        ("name: „Maren“", 'name = "Maren"'),
        ('name "Maren"', 'name = "Maren"'),
        ("name = 'Maren", 'name = "Maren"'),
        ('name\u00a0= "Maren"', 'name = "Maren"'),
        ("lift = clean and jerk", 'lift = "clean and jerk"'),
        ("kg = 62,5", "kg = 62.5"),
        ("kg = 62,5 kg  # soon", "kg = 62.5  # soon"),
        ("kg = 141 lb", "lb = 141"),
        ("by = 14.11.2026", "by = 2026-11-14"),
        ("by = 3.4.2026", "by = 2026-04-03"),
        ("by = 3/14/2026", "by = 2026-03-14"),
        ("by = 2026-3-1", "by = 2026-03-01"),
        ("supervised = True", "supervised = true"),
        ('theme = "C:\\Users\\me"', "theme = 'C:\\Users\\me'"),
        ('hang sn = "low hang snatch"', '"hang sn" = "low hang snatch"'),
        ("C&J = clean and jerk", '"C&J" = "clean and jerk"'),
        ("[[goal]", "[[goal]]"),
        ("[lift_names", "[lift_names]"),
    ],
)
def test_a_slip_is_told_with_the_line_that_can_be_read(line: str, mended: str) -> None:
    found = cure(line)
    assert found is not None
    assert found[1] == mended


@pytest.mark.parametrize("line", ["by = 3/4/2026", 'a = ["a" "b"]', "born = 1991", '"""', "", "x" * 400])
def test_what_could_mean_two_things_or_is_another_slip_gets_no_cure(line: str) -> None:
    assert cure(line) is None


@given(st.text(alphabet="ab= \"'[]#,.:/0123456789\\“é\u00a0", max_size=40))
def test_every_cure_can_be_read_and_a_line_that_can_be_read_gets_none(line: str) -> None:
    found = cure(line)
    if found is not None:
        tomllib.loads(found[1])
        with pytest.raises(tomllib.TOMLDecodeError):
            tomllib.loads(line.strip())


@pytest.mark.parametrize(
    "mark", ["\ufeff", "\r\n", "\t"], ids=["a byte-order mark", "lines of Windows", "tabs before lines"]
)
def test_marks_that_editors_leave_are_no_slips(tmp_path: Path, mark: str) -> None:
    text = (
        TOML.replace("\n", "\r\n") if "\r" in mark else mark + TOML.replace("\n", "\n" + mark.strip("\ufeff"))
    )
    (tmp_path / "lifter.toml").write_bytes(text.encode())
    (tmp_path / "training.csv").write_text("date,lift,kg,reps\n2026-03-01,snatch,50,2\n", encoding="utf-8")
    assert read_folder(tmp_path).fatal == ()
