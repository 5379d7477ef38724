"""Rarer ways to write a set, each with what is read of it: (load, repetitions, made) and how often."""

from tests.each import each
from tests.intake.forms import form
from tests.intake.test_layouts import read, told, tries

Sets = dict[tuple[float, int, int], int]
SETS = '[sources."training.csv"]\n'


def sets_of(text: str, layout: str, top: str = "", tables: str = "") -> tuple[Sets, list[str]]:
    """The snatches of a log, and what `check` says of it."""
    intake = read(form(text, layout, top=top, tables=tables))
    found: Sets = {}
    for (_, lift, *rest), n in tries(intake).items():
        if lift == "snatch":
            load, reps, made = float(rest[0]), int(rest[1]), int(rest[2])
            found[load, reps, made] = found.get((load, reps, made), 0) + n
    return found, told(intake)


@each(
    "remark, reps, made",
    [
        ("second missed", 3, 2),
        ("missed two", 3, 1),
        ("2 misses", 3, 1),
        ("all missed", 3, 0),
        ("missed 1", 3, 2),
        ("2 made", 3, 2),
        ("only 1", 3, 1),
    ],
)
def test_a_remark_that_counts_is_read(remark: str, reps: int, made: int) -> None:
    rows = f"2026-01-05,snatch,60,{reps},1,{remark}\n2026-01-07,snatch,70,{reps},1,\n"
    found, said = sets_of(f"date,lift,kg,reps,sets,remark\n{rows}", "rows")
    assert found == {(60.0, reps, made): 1, (70.0, reps, reps): 1}
    assert said == []


def test_what_is_made_of_several_sets_is_asked_for() -> None:
    rows = "2026-01-05,snatch,60,3,2,2 made\n2026-01-07,snatch,70,3,1,\n"
    found, said = sets_of(f"date,lift,kg,reps,sets,remark\n{rows}", "rows")
    assert found == {(70.0, 3, 3): 1}
    assert len(said) == 1
    assert "which tells of a miss" in said[0]


@each(
    "cell, wanted",
    [
        ("3 reps 60kg", {(60.0, 3, 3): 1}),
        ("60kg 3 reps", {(60.0, 3, 3): 1}),
        ("1x60", {(60.0, 1, 1): 1}),
        ("60x12", {(60.0, 12, 12): 1}),
        ("60x0", {(60.0, 1, 0): 1}),
        ("60 ❌❌✅", {(60.0, 1, 0): 2, (60.0, 1, 1): 1}),
        ("60x3 ✅✅✅", {(60.0, 3, 3): 1}),
        ("60 xo", {(60.0, 1, 0): 1, (60.0, 1, 1): 1}),
        ("2@60/62/64", None),
        ("3x2@60/62/64", {(60.0, 2, 2): 1, (62.0, 2, 2): 1, (64.0, 2, 2): 1}),
        ("60x2x3 ❌✅", None),
        ("60x2.5", None),
        ("60x2x2.5", None),
        ("60x2 1 of 2", None),
        ("60x2 🤯", None),
        ("60/62 one miss", None),
        ("3x@7", None),
    ],
)
def test_shorthand_of_a_cell(cell: str, wanted: Sets | None) -> None:
    text = f"Date,Snatch,C&J\n2026-01-05,{cell},80\n2026-01-07,70x2,82\n2026-01-09,70x2,82\n"
    found, said = sets_of(text, "by lift")
    assert found == {**(wanted or {}), (70.0, 2, 2): 2}
    assert bool(said) is (wanted is None)


@each("days, second", [("", "Friday"), ('days = ["Mon", "Fri"]\n', "Day 2")])
def test_weeks_and_days_beside_lifts_count_from_the_first_week(days: str, second: str) -> None:
    first = "Monday" if not days else "Day 1"
    text = f'Week,Day,Snatch,C&J\n1,{first},"60x2, 65",80\n1,{second},62x2,82\n2,{first},63,84\n'
    tables = f"{SETS}{days}" if days else ""
    intake = read(form(text, "by lift", top="first_week = 2026-01-05\n", tables=tables))
    assert told(intake) == []
    assert {day for day, lift, *_ in tries(intake)} == {"2026-01-05", "2026-01-09", "2026-01-12"}


def test_words_of_a_lift_join_what_their_columns_say_and_straps_are_never_lost() -> None:
    rows = (
        "2026-01-05,pause snatch,60,2,3,,\n2026-01-05,snatch with straps,62,2,3,belt,\n"
        "2026-01-06,pause snatch,64,2,1,,slow\n2026-01-07,snatch,66,2,1,,\n"
    )
    intake = read(form(f"date,lift,kg,reps,sets,aid,variant\n{rows}", "rows"))
    assert intake.records is not None
    table = intake.records.sets
    assert dict(zip(table["load_kg"], table["variant"], strict=True)) == {
        60.0: "pause", 62.0: "", 64.0: "slow pause", 66.0: "",
    }  # fmt: skip
    assert dict(zip(table["load_kg"], table["aid"], strict=True))[62.0] == "belt straps"
